"""The cost picture: every way is named at its end, and where the cheapest changes is marked."""

from decimal import Decimal

from addressing.estimating import cheapest_from
from addressing.proofs import cost_svg
from addressing.records.costs import CostLine, CostPicture

HOME = CostLine("At home", tuple(Decimal(60) + n * Decimal("0.9") for n in range(1, 301)))
SHOP = CostLine("A shop", tuple(Decimal(90) + n * Decimal("0.5") for n in range(1, 301)))


def test_the_break_even_is_marked_where_the_lines_cross() -> None:
    crossings = cheapest_from([HOME.costs, SHOP.costs])
    assert crossings == ((1, 0), (76, 1))  # 60 + 0.9 n = 90 + 0.5 n at 75: equal, nothing changes
    text = cost_svg(CostPicture((HOME, SHOP), crossings, 100, "USD", invented=True)).decode()
    assert ">from 76<" in text
    assert ">At home<" in text
    assert ">A shop<" in text


def test_words_of_a_place_can_not_become_markup() -> None:
    odd = CostLine("Ink & <Sons>", HOME.costs)
    text = cost_svg(CostPicture((odd,), ((1, 0),), 10, "USD", invented=False)).decode()
    assert "Ink &amp; &lt;Sons&gt;" in text
