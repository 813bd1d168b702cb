"""Plates of live type are proved as they are made, in each arrangement and kind of font."""

import hashlib
import re
from dataclasses import replace
from importlib.resources import files
from pathlib import Path

import pytest

from addressing.plates import write_plate
from addressing.preflight import judge_plate, judge_type
from addressing.records.docket import AddressChoice, PieceChoice
from addressing.records.pages import Setting
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.plates import PlateOrder
from addressing.records.shelf import ALIGNS, Box, Face, Fallback, Ink, Layout, Zone
from addressing.typesetting import fit, live_faces, stream

WHITE = Ink("White", "White", (0.3, 0.1, 0.0, 0.0), (1.0, 1.0, 1.0))
KERNED = (("kern", 1),)
SMALL = (("kern", 1), ("smcp", 1), ("onum", 1))


def face_at(path: Path, **axes: float) -> Face:
    digest = hashlib.sha256(path.read_bytes()).hexdigest()
    return Face(path.name, path.stem, path, digest, axes=tuple(axes.items()), features=KERNED)


def packed(package: str, file: str, **axes: float) -> Face:
    return face_at(Path(str(files(package) / "files" / file)), **axes)


SCRIPT = packed("fontpkg_great_vibes", "GreatVibes-Regular.ttf")
ROMAN = packed("fontpkg_eb_garamond", "EBGaramond[wght].ttf", wght=537.0)
NOTO = packed("fontpkg_noto_serif", "NotoSerif[wdth,wght].ttf", wght=450.0, wdth=87.5)
HEBREW = packed("fontpkg_frank_ruhl_libre", "FrankRuhlLibre[wght].ttf", wght=500.0)
ARABIC = packed("fontpkg_amiri", "Amiri-Regular.ttf")


def worded(number: int, name: str = "Mr. and Mrs. Tobias Wexcombe") -> Piece:
    lines = (
        Line(name, Role.NAME, breaks=(8,)),
        Line(f"{number} Larkmoor Lane, Office 1/2 & Flat", Role.STREET),
        Line("Rotheringweather, Vermont 05201", Role.PLACE),
    )
    return Piece("outer", f"h-{number:08d}", f"Household {number}", (Wording(lines),))


PIECES = (worded(0), worded(1, "Odile Farrenby"), worded(2, "Ægidius Żółtek-Đurić"))


def setting_of(
    hands: tuple[Face, Face], align: str = "centre", pieces: tuple[Piece, ...] = PIECES
) -> Setting:
    zone = Zone("outer", Box(100, 60, 322, 190), align, "middle", turn=90 if align == "left" else 0)
    layout = Layout("a7", "A7", 522, 378, "euro", 90, (zone,), Box(18, 18, 486, 342), (), "none")
    address = AddressChoice(size=0.62)
    choice = PieceChoice("outer", "a7", "x", "White", "deep-green", smallest=5.0, address=address)
    setting, findings = fit(pieces, choice, layout, hands, WHITE, 14.17)
    assert not [found for found in findings if found.holds]
    return setting


def order_of(setting: Setting) -> PlateOrder:
    households = tuple(placed.household for placed in setting.pieces)
    return PlateOrder(
        "01-outer-white", "outer", WHITE, (522, 378), households, 1, "0.1.0", live=True
    )


def written(path: Path, setting: Setting) -> PlateOrder:
    order = order_of(setting)
    pages, outlines = stream(setting)
    write_plate(path, order, pages, replace(outlines, live=live_faces(setting)))
    return order


PAIRS = {
    "script and small capitals": (SCRIPT, replace(ROMAN, features=SMALL, tracking=60)),
    "script and capitals on two axes": (SCRIPT, replace(NOTO, in_capitals=True, tracking=120)),
    "one font twice": (ROMAN, replace(ROMAN, features=SMALL)),
    "tightened": (replace(ROMAN, tracking=-20), replace(NOTO, tracking=-10)),
}


@pytest.mark.parametrize("pair", PAIRS)
def test_live_type_of_two_hands_is_proved(tmp_path: Path, pair: str) -> None:
    setting = setting_of(PAIRS[pair])
    verdict = judge_plate(
        tmp_path / "plate.pdf", written(tmp_path / "plate.pdf", setting), setting, PIECES
    )
    assert verdict.faults == ()
    assert dict(verdict.counted)["pages seen as pixels"] == 3
    assert 0.1 < verdict.stroke < 1


@pytest.mark.parametrize("align", ALIGNS)
def test_live_type_is_proved_in_every_arrangement_bent_and_turned(
    tmp_path: Path, align: str
) -> None:
    setting = setting_of((SCRIPT, ROMAN), align)
    order = written(tmp_path / "plate.pdf", setting)
    assert judge_plate(tmp_path / "plate.pdf", order, setting, PIECES).faults == ()


def test_words_of_other_faces_are_proved_each_in_a_font_of_its_own(tmp_path: Path) -> None:
    others = (Fallback("Hebr", HEBREW), Fallback("Arab", ARABIC))
    helped = replace(SCRIPT, fallbacks=others)
    pieces = (worded(0, "Yosef כהן"), worded(1, "Layla مريم"), worded(2, "Anna Quill"))
    setting = setting_of((helped, ROMAN), pieces=pieces)
    order = written(tmp_path / "plate.pdf", setting)
    assert judge_plate(tmp_path / "plate.pdf", order, setting, pieces).faults == ()
    assert len(re.findall(rb"/Subtype /Type0", (tmp_path / "plate.pdf").read_bytes())) == 4


def test_cubics_are_proved_as_cubics(tmp_path: Path, cubic: Face) -> None:
    setting = setting_of((cubic, SCRIPT))
    order = written(tmp_path / "plate.pdf", setting)
    assert judge_plate(tmp_path / "plate.pdf", order, setting, PIECES).faults == ()
    data = (tmp_path / "plate.pdf").read_bytes()
    assert data.count(b"/CIDFontType0C") == 1
    assert data.count(b"/CIDToGIDMap /Identity") == 1


def test_the_same_job_gives_the_same_bytes_and_no_date(tmp_path: Path, cubic: Face) -> None:
    setting = setting_of((cubic, SCRIPT))
    written(tmp_path / "one.pdf", setting)
    written(tmp_path / "two.pdf", setting)
    assert (tmp_path / "one.pdf").read_bytes() == (tmp_path / "two.pdf").read_bytes()


def test_live_type_may_not_pass_for_outlines_nor_outlines_for_live_type(tmp_path: Path) -> None:
    setting = setting_of((SCRIPT, ROMAN))
    live = written(tmp_path / "live.pdf", setting)
    plain = replace(live, live=False)
    write_plate(tmp_path / "plain.pdf", plain, *stream(setting))
    assert judge_plate(tmp_path / "plain.pdf", plain, setting, PIECES).proved
    assert not judge_plate(tmp_path / "plain.pdf", live, setting, PIECES).proved
    assert not judge_plate(tmp_path / "live.pdf", plain, setting, PIECES).proved
    assert judge_type([live, live]) == judge_type([plain]) == ()
    assert judge_type([live, plain])
