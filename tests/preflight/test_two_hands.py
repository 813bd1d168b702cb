"""Plates of two hands are proved as they are made, and refused when a hand is wrong."""

import hashlib
import re
from collections.abc import Callable
from dataclasses import replace
from importlib.resources import files
from pathlib import Path

import pytest

from addressing.plates import write_plate
from addressing.preflight import judge_plate
from addressing.records.docket import AddressChoice, PieceChoice
from addressing.records.pages import FACE, Page, Setting
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.plates import PlateOrder, Verdict
from addressing.records.shelf import ALIGNS, Box, Face, Ink, Layout, Zone
from addressing.typesetting import fit, stream

WHITE = Ink("White", "White", (0.3, 0.1, 0.0, 0.0), (1.0, 1.0, 1.0))
NAMES = ("Tobias Wexcombe", "Ottoline Farrenby", "Aurelia Penhew", "Cosmo Larkmoor", "Ida Quill")
SMALL = (("kern", 1), ("smcp", 1))


def face_of(package: str, file: str, **axes: float) -> Face:
    path = Path(str(files(package) / "files" / file))
    digest = hashlib.sha256(path.read_bytes()).hexdigest()
    return Face(file, file, path, digest, axes=tuple(axes.items()), features=(("kern", 1),))


SCRIPT = face_of("fontpkg_great_vibes", "GreatVibes-Regular.ttf")
ROMAN = face_of("fontpkg_eb_garamond", "EBGaramond[wght].ttf", wght=500.0)
ITALIC = face_of("fontpkg_cormorant_garamond", "CormorantGaramond-Italic[wght].ttf", wght=600.0)
NOTO = face_of("fontpkg_noto_serif", "NotoSerif[wdth,wght].ttf", wght=450.0)
PAIRS = {
    "script and small capitals": (SCRIPT, replace(ROMAN, features=SMALL, tracking=60)),
    "italic and roman": (ITALIC, ROMAN),
    "script and capitals": (SCRIPT, replace(NOTO, in_capitals=True, tracking=120)),
    "one font twice": (ROMAN, replace(ROMAN, features=SMALL)),
    "tightened": (replace(ITALIC, tracking=-20), replace(NOTO, tracking=-10)),
}


def worded(number: int) -> Piece:
    lines = (
        Line(f"Mr. and Mrs. {NAMES[number % 5]}", Role.NAME, breaks=(8,)),
        Line(f"{number} Larkmoor Lane", Role.STREET),
        Line("Rotheringweather, Vermont 05201", Role.PLACE),
    )
    return Piece("outer", f"h-{number:08d}", f"Household {number}", (Wording(lines),))


PIECES = tuple(worded(number) for number in range(12))


def setting_of(pair: tuple[Face, Face], align: str = "centre", ratio: float = 0.62) -> Setting:
    zone = Zone("outer", Box(120, 80, 280, 150), align, "middle")
    layout = Layout("a7", "A7", 522, 378, "euro", 90, (zone,), Box(18, 18, 486, 342), (), "none")
    address = AddressChoice(size=ratio)
    choice = PieceChoice("outer", "a7", "x", "White", "deep-green", smallest=5.0, address=address)
    setting, findings = fit(PIECES, choice, layout, pair, WHITE, 14.17)
    assert not [found for found in findings if found.holds]
    return setting


def order_of(setting: Setting) -> PlateOrder:
    households = tuple(placed.household for placed in setting.pieces)
    return PlateOrder("01-outer-white", "outer", WHITE, (522, 378), households, 1, "0.1.0")


def made(path: Path, setting: Setting, change: Callable[[Page], Page] | None = None) -> Verdict:
    """A plate of a setting, each page changed on its way, and what the judge says of it."""
    pages, outlines = stream(setting)
    changed = pages if change is None else map(change, pages)
    write_plate(path, order_of(setting), changed, outlines)
    return judge_plate(path, order_of(setting), setting, PIECES)


@pytest.mark.parametrize("pair", PAIRS)
def test_a_plate_of_two_hands_is_proved(tmp_path: Path, pair: str) -> None:
    verdict = made(tmp_path / "plate.pdf", setting_of(PAIRS[pair]))
    assert verdict.faults == ()
    assert dict(verdict.counted)["pages seen as pixels"] == 12


@pytest.mark.parametrize("align", ALIGNS)
def test_two_hands_are_proved_in_every_arrangement(tmp_path: Path, align: str) -> None:
    setting = setting_of(PAIRS["script and small capitals"], align)
    assert made(tmp_path / "plate.pdf", setting).faults == ()


def test_the_second_faces_letters_are_named_apart(tmp_path: Path) -> None:
    path = tmp_path / "plate.pdf"
    setting = setting_of(PAIRS["italic and roman"])
    assert made(path, setting).proved
    named = {int(found) for found in re.findall(rb"/g([0-9]+) [0-9]+ 0 R", path.read_bytes())}
    assert {number // FACE for number in named} == {0, 1}
    path = tmp_path / "one.pdf"
    assert made(path, setting_of(PAIRS["one font twice"])).proved
    named = {int(found) for found in re.findall(rb"/g([0-9]+) [0-9]+ 0 R", path.read_bytes())}
    assert {number // FACE for number in named} == {0}


def of_other_face(page: Page) -> Page:
    """The last line with a letter of the names' face instead of its own."""
    *lines, (line, x, y, size) = page.lines
    first, *others = line.words
    first = replace(first, glyphs=(lines[0][0].glyphs[0], *first.glyphs[1:]))
    return replace(page, lines=(*lines, (replace(line, words=(first, *others)), x, y, size)))


def in_other_size(page: Page) -> Page:
    """The last line a little larger than it should be."""
    *lines, (line, x, y, size) = page.lines
    return replace(page, lines=(*lines, (line, x, y, size * 1.01)))


def lower(page: Page) -> Page:
    """All lines of the address half a point lower."""
    first, *lines = page.lines
    return replace(page, lines=(first, *((line, x, y - 0.5, size) for line, x, y, size in lines)))


@pytest.mark.parametrize(
    ("change", "named"),
    [
        (of_other_face, "has other letters in line 3 than its words ask for"),
        (in_other_size, "has line 3 in another size"),
        (lower, "0.500 pt up or down from its place"),
    ],
)
def test_a_plate_whose_hands_are_tampered_with_is_refused(
    tmp_path: Path, change: Callable[[Page], Page], named: str
) -> None:
    setting = setting_of(PAIRS["italic and roman"])
    verdict = made(tmp_path / "plate.pdf", setting, change)
    assert any(named in fault for fault in verdict.faults), verdict.faults


def address_moved(setting: Setting, **by: float) -> Setting:
    """The setting with every line of the address in another size, or lower."""
    pieces = tuple(
        replace(
            one,
            lines=tuple(
                line
                if line.role is Role.NAME
                else line._replace(y=line.y - by.get("down", 0), size=line.size * by.get("size", 1))
                for line in one.lines
            ),
        )
        for one in setting.pieces
    )
    return replace(setting, pieces=pieces)


@pytest.mark.parametrize(
    ("by", "named"),
    [({"down": 0.5}, "pt apart, not"), ({"size": 1.01}, "pt where its hand has")],
    ids=["gap", "ratio"],
)
def test_a_setting_with_a_wrong_gap_or_ratio_is_refused_though_the_plate_follows_it(
    tmp_path: Path, by: dict[str, float], named: str
) -> None:
    setting = address_moved(setting_of(PAIRS["italic and roman"]), **by)
    verdict = made(tmp_path / "plate.pdf", setting)
    assert any(named in fault for fault in verdict.faults), verdict.faults


@pytest.mark.parametrize(
    ("change", "named"),
    [
        ({"tracking": 61}, "has other letters in line 2"),
        ({"features": (("kern", 1),)}, "has other letters in line 2"),
        ({"in_capitals": True}, "has other letters in line 2"),
        ({"axes": (("wght", 520.0),)}, "isn't drawn as the face draws it"),
    ],
    ids=lambda change: next(iter(change)) if isinstance(change, dict) else "",
)
def test_a_second_hand_other_than_was_set_is_refused(
    tmp_path: Path, change: dict[str, object], named: str
) -> None:
    setting = setting_of(PAIRS["script and small capitals"])
    assert made(tmp_path / "plate.pdf", setting).proved
    assert setting.second is not None
    face = replace(setting.second.face, **change)  # type: ignore[arg-type] # a face's own fields
    other = replace(setting, second=replace(setting.second, face=face))
    faults = judge_plate(tmp_path / "plate.pdf", order_of(other), other, PIECES).faults
    assert any(named in fault for fault in faults), faults


def test_a_piece_larger_than_its_set_is_refused(tmp_path: Path) -> None:
    setting = setting_of(PAIRS["italic and roman"])
    smaller = replace(setting, size=setting.size - 1)
    faults = made(tmp_path / "plate.pdf", smaller).faults
    assert any("larger than the set" in fault for fault in faults), faults


def test_a_letter_of_a_third_face_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "plate.pdf"
    setting = setting_of(PAIRS["italic and roman"])
    one = replace(setting, second=None)
    made(path, setting)
    faults = judge_plate(path, order_of(one), one, PIECES).faults
    assert any("of a face that the set doesn't have" in fault for fault in faults), faults
