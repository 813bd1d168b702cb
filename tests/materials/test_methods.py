"""Ways of printing, and what each can't carry (common practice, no source)."""

from dataclasses import replace

import pytest

from addressing.faults import Fault
from addressing.materials.methods import method_for
from addressing.materials.shelf import open_shelf
from addressing.records.docket import PieceChoice, default_pieces

OUTER, _, FLAP = default_pieces()[:3]
SHELF = open_shelf(None)
KNOWN = {each.key: each for each in SHELF.methods()}
AT_HOME = SHELF.press("home-toner-white", None)
SHOP = SHELF.press(None, "farrenby-press")


def by(choice: PieceChoice, method: str | None) -> PieceChoice:
    return replace(choice, method=method)


@pytest.mark.parametrize("method", ["letterpress", "hot-foil", "engraving", "blind-emboss"])
def test_a_die_prints_no_names_that_differ(method: str) -> None:
    with pytest.raises(Fault) as fault:
        method_for(by(OUTER, method), None, tuple(KNOWN.values()))
    assert fault.value.code == "method-cannot-vary"
    assert "names" in fault.value.mend
    found = method_for(by(FLAP, method), None, tuple(KNOWN.values()))
    assert found is not None
    assert found.die


def test_a_piece_is_printed_as_its_press_prints() -> None:
    assert method_for(OUTER, None, tuple(KNOWN.values())) is None
    at_home = method_for(OUTER, AT_HOME, tuple(KNOWN.values()))
    assert at_home == KNOWN["toner"]


def test_a_method_that_a_press_lacks_is_told() -> None:
    for press in (AT_HOME, SHOP):
        with pytest.raises(Fault) as fault:
            method_for(by(FLAP, "engraving"), press, tuple(KNOWN.values()))
        assert fault.value.code == "method-not-there"
    found = method_for(by(FLAP, "letterpress"), SHOP, tuple(KNOWN.values()))
    assert found == KNOWN["letterpress"]


def test_a_method_that_nobody_knows_is_told_with_what_is_near() -> None:
    with pytest.raises(Fault) as fault:
        method_for(by(FLAP, "letterpres"), None, tuple(KNOWN.values()))
    assert fault.value.code == "method-unknown"
    assert "letterpress" in fault.value.mend


@pytest.mark.parametrize("method", ["engraving", "letterpress"])
def test_that_a_die_can_t_vary_is_told_before_that_the_shop_hasn_t_it(method: str) -> None:
    with pytest.raises(Fault) as fault:
        method_for(by(OUTER, method), SHOP, tuple(KNOWN.values()))
    assert fault.value.code == "method-cannot-vary"


def test_pieces_that_differ_are_offered_no_die() -> None:
    with pytest.raises(Fault) as fault:
        method_for(by(OUTER, "toner"), SHOP, tuple(KNOWN.values()))
    assert fault.value.code == "method-not-there"
    assert "digital" in fault.value.mend
    assert "letterpress" not in fault.value.mend
    with pytest.raises(Fault) as fault:
        method_for(by(FLAP, "toner"), SHOP, tuple(KNOWN.values()))
    assert "letterpress" in fault.value.mend


def test_a_shop_that_prints_all_alike_is_refused_for_names_without_a_word_of_the_docket() -> None:
    assert SHOP is not None
    offset = replace(SHOP, method="offset")
    with pytest.raises(Fault, match="Offset prints all pieces alike") as fault:
        method_for(by(OUTER, None), offset, tuple(KNOWN.values()))
    assert fault.value.code == "method-cannot-vary"
    assert method_for(by(FLAP, None), offset, tuple(KNOWN.values())) == KNOWN["offset"]
