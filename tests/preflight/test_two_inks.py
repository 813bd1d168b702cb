"""A piece in two inks: each line on the plate of its ink and on no other, page by page."""

from collections.abc import Iterable
from dataclasses import replace
from importlib.resources import files
from pathlib import Path

import pikepdf
import pytest

from addressing.plates import write_plate
from addressing.preflight import judge_orders, judge_plate
from addressing.records.docket import AddressChoice, PieceChoice
from addressing.records.pages import Page, Setting
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.plates import PlateOrder
from addressing.records.shelf import Box, Face, Ink, Layout, Zone
from addressing.typesetting import fit, stream

WHITE = Ink("White", "White", (0.3, 0.1, 0.0, 0.0), (1.0, 1.0, 1.0))
GOLD = Ink("Gold", "Gold", (0.2, 0.3, 0.7, 0.1), (0.8, 0.65, 0.3))
SCRIPT = Face(
    "great-vibes",
    "Great Vibes",
    Path(str(files("fontpkg_great_vibes") / "files" / "GreatVibes-Regular.ttf")),
    "",
)


def piece(number: int, *texts: str) -> Piece:
    roles = (Role.NAME, Role.STREET, Role.PLACE)
    lines = tuple(Line(text, role) for text, role in zip(texts, roles, strict=False))
    return Piece("outer", f"h-{number:08d}", f"Household {number}", (Wording(lines),))


PIECES = (
    piece(1, "Tobias Wexcombe", "14 Larkmoor Lane", "Farrenby, Vermont 05201"),
    piece(2, "Ottoline Farrenby"),
    piece(3, "Ida Quill", "14 Larkmoor Lane", "Farrenby, Vermont 05201"),
)


@pytest.fixture(scope="module")
def setting() -> Setting:
    zone = Zone("outer", Box(100, 60, 320, 200), "centre", "middle")
    layout = Layout("a7", "A7", 522, 378, "euro", 90, (zone,), Box(18, 18, 486, 342), (), "none")
    choice = PieceChoice("outer", "a7", "x", "White", "deep-green", address=AddressChoice())
    made, _ = fit(PIECES, choice, layout, (SCRIPT, SCRIPT), (WHITE, GOLD), 14.17)
    return made


def order_of(setting: Setting, ink: Ink) -> PlateOrder:
    households = tuple(placed.household for placed in setting.pieces)
    name = f"01-outer-{ink.key.lower()}"
    return PlateOrder(name, "outer", ink, (522, 378), households, 1, "0.1.0")


def inked(setting: Setting, *numbers: int) -> tuple[Page, ...]:
    """The pages with only what is in some inks: 0 the names', 1 the address's."""
    pages, _ = stream(setting)
    return tuple(
        replace(
            page,
            lines=tuple(
                line for line, ink in zip(page.lines, page.inks, strict=True) if ink in numbers
            ),
        )
        for page in pages
    )


def faults(path: Path, setting: Setting, ink: Ink, pages: Iterable[Page]) -> tuple[str, ...]:
    order = order_of(setting, ink)
    write_plate(path, order, pages, stream(setting)[1])
    return judge_plate(path, order, setting, PIECES).faults


@pytest.mark.parametrize(("number", "ink"), [(0, WHITE), (1, GOLD)])
def test_each_plate_with_its_own_lines_is_proved(
    tmp_path: Path, setting: Setting, number: int, ink: Ink
) -> None:
    path = tmp_path / "plate.pdf"
    assert faults(path, setting, ink, inked(setting, number)) == ()
    with pikepdf.open(path) as document:
        (spaces,) = {str(page.Resources.ColorSpace.Ink[1]) for page in document.pages}
    assert spaces == f"/{ink.spot}"


@pytest.mark.parametrize(("numbers", "ink"), [((1,), WHITE), ((0,), GOLD)])
def test_the_lines_of_the_other_ink_are_refused(
    tmp_path: Path, setting: Setting, numbers: tuple[int, ...], ink: Ink
) -> None:
    assert faults(tmp_path / "plate.pdf", setting, ink, inked(setting, *numbers))


@pytest.mark.parametrize("ink", [WHITE, GOLD])
def test_a_line_on_both_plates_is_refused(tmp_path: Path, setting: Setting, ink: Ink) -> None:
    assert faults(tmp_path / "plate.pdf", setting, ink, inked(setting, 0, 1))


def test_a_page_without_anything_in_an_ink_is_there_and_blank(
    tmp_path: Path, setting: Setting
) -> None:
    path = tmp_path / "plate.pdf"
    assert faults(path, setting, GOLD, inked(setting, 1)) == ()
    with pikepdf.open(path) as document:
        drawn = [page.Contents.read_bytes() for page in document.pages]
    assert [b"Do" in each for each in drawn] == [True, False, True]


def test_a_blank_page_with_a_line_on_it_is_refused(tmp_path: Path, setting: Setting) -> None:
    first, second, third = inked(setting, 1)
    strays = (first, replace(second, lines=first.lines[:1]), third)
    assert faults(tmp_path / "plate.pdf", setting, GOLD, strays)


def test_an_ink_that_nothing_was_set_in_is_refused(tmp_path: Path, setting: Setting) -> None:
    black = replace(GOLD, spot="Black ink")
    assert faults(tmp_path / "plate.pdf", setting, black, inked(setting, 1))


def test_plates_of_all_inks_with_the_same_pages_are_right_together(setting: Setting) -> None:
    white, gold = order_of(setting, WHITE), order_of(setting, GOLD)
    assert judge_orders([white, gold], setting) == ()
    parts = [
        replace(order, name=f"{order.name}-{at}", households=households)
        for order in (white, gold)
        for at, households in enumerate((order.households[:1], order.households[1:]))
    ]
    assert judge_orders(parts, setting) == ()


def test_plates_that_leave_out_an_ink_or_a_page_or_do_it_twice_are_refused(
    setting: Setting,
) -> None:
    white, gold = order_of(setting, WHITE), order_of(setting, GOLD)
    short = replace(gold, households=gold.households[:2])
    turned = replace(gold, households=gold.households[::-1])
    again = replace(gold, name="02-outer-gold")
    for wrong in (
        [white],
        [gold],
        [white, short],
        [white, turned],
        [white, gold, again],
        [white, gold, replace(gold, ink=replace(GOLD, spot="Silver"))],
        [white, replace(gold, trim=(378, 522))],
        [white, replace(gold, copies=2)],
    ):
        assert judge_orders(wrong, setting)
