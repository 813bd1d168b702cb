"""Plates as typesetting and plates make them: the judge, who shares no module with them, agrees."""

import hashlib
from collections.abc import Iterator, Sequence
from dataclasses import replace
from importlib.resources import files
from pathlib import Path

import pytest

from addressing import hands
from addressing.plates import write_plate
from addressing.preflight import judge_plate, pixels
from addressing.preflight.bench import Bench
from addressing.preflight.pixels import pixel_faults, sample
from addressing.records.docket import PieceChoice
from addressing.records.pages import Setting
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.plates import PlateOrder, Verdict
from addressing.records.shelf import ALIGNS, Box, Face, Ink, Layout, Zone
from addressing.typesetting import fit, stream

WHITE = Ink("White", "White", (0.3, 0.1, 0.0, 0.0), (1.0, 1.0, 1.0))
BLACK_SLOT = Ink("White", "White", (0.0, 0.0, 0.0, 1.0), (1.0, 1.0, 1.0), channel="black")
GREY = Ink("Black", "Black", (0.0, 0.0, 0.0, 1.0), (0.1, 0.1, 0.1), channel="grey")
NAMED = Ink("Leaf", "Leaf Gold (2) #1", (0.125, 0.3, 0.875, 0.0625), (0.8, 0.7, 0.2))
FACES = {
    "great-vibes": ("fontpkg_great_vibes", "GreatVibes-Regular.ttf", ()),
    "cormorant-500": (
        "fontpkg_cormorant_garamond", "CormorantGaramond[wght].ttf", (("wght", 500.0),),
    ),
    "cormorant-437": (
        "fontpkg_cormorant_garamond", "CormorantGaramond-Italic[wght].ttf", (("wght", 437.0),),
    ),
    "playfair-500": ("fontpkg_playfair_display", "PlayfairDisplay[wght].ttf", (("wght", 500.0),)),
    "garamond-600": ("fontpkg_eb_garamond", "EBGaramond[wght].ttf", (("wght", 600.0),)),
    "dancing-500": ("fontpkg_dancing_script", "DancingScript[wght].ttf", (("wght", 500.0),)),
    "noto-narrow": (
        "fontpkg_noto_serif", "NotoSerif[wdth,wght].ttf", (("wdth", 75.0), ("wght", 450.0)),
    ),
}  # fmt: skip
NAMES = (
    "Tobias Wexcombe",
    "Ottoline Farrenby-Okonjo",
    "Zoë Penhew",
    "Siân Ó Larkmoor",
    "Aurélie and Fitzgerald Quillfeather",
)
STREETS = ("14 Larkmoor Lane", "2071 Hollin Row, Apartment 3B", "77 Vesper Street", "9 Jay Court")


def face_of(key: str, features: tuple[tuple[str, int], ...] = (("lnum", 1),)) -> Face:
    """A face from its package."""
    package, file, axes = FACES[key]
    path = Path(str(files(package) / "files" / file))
    digest = hashlib.sha256(path.read_bytes()).hexdigest()
    return Face(key, key, path, digest, axes=axes, features=features)


def layout_of(align: str = "centre", left: float = 60.0) -> Layout:
    """An invented envelope of 7¼ by 5¼ inches."""
    zone = Box(left, 60.0, 402.0, 230.0)
    kinds = ("outer", "return")
    zones = tuple(Zone(kind, zone, align, "middle") for kind in kinds)
    safe = Box(0.0, 0.0, 522.0, 378.0)
    return Layout("a7", "A7", 522.0, 378.0, "euro", 100.0, zones, safe, (), "invented")


def worded(number: int) -> Piece:
    """Invented lines."""
    name = f"Mr. and Mrs. {NAMES[number % 5]}"
    lines = (
        Line(name, Role.NAME, breaks=tuple(n + 1 for n, c in enumerate(name) if c == " ")),
        Line(f"{number} {STREETS[number % 4]}", Role.STREET),
        Line(f"Rotheringweather, Vermont {5000 + number:05d}", Role.PLACE),
    )
    return Piece("outer", f"h-{number:08d}", f"Household {number}", (Wording(lines),))


def order_of(setting: Setting) -> PlateOrder:
    """The order that the setting answers."""
    households = tuple(placed.household for placed in setting.pieces)
    trim = (setting.layout.width, setting.layout.height)
    return PlateOrder("01-plate", setting.kind, setting.ink, trim, households, 1, "0.1.0")


def made(path: Path, setting: Setting, pieces: tuple[Piece, ...]) -> Verdict:
    """Stream, write, judge."""
    order = order_of(setting)
    pages, outlines = stream(setting)
    write_plate(path, order, pages, outlines)
    return judge_plate(path, order, setting, pieces)


@pytest.mark.parametrize(
    "ink", [WHITE, BLACK_SLOT, GREY, NAMED], ids=["spot", "channel", "grey", "odd-name"]
)
@pytest.mark.parametrize("key", list(FACES))
def test_a_plate_as_it_is_made_is_proved(tmp_path: Path, key: str, ink: Ink) -> None:
    pieces = tuple(worded(number) for number in range(30))
    choice = PieceChoice("outer", "a7", key, ink.key, "deep-green")
    setting, findings = fit(pieces, choice, layout_of(), face_of(key), ink, 14.17)
    assert not [finding for finding in findings if finding.holds]
    verdict = made(tmp_path / "plate.pdf", setting, pieces)
    assert verdict.faults == ()
    counted = dict(verdict.counted)
    assert (counted["pages"], counted["pages seen as pixels"]) == (30, 30)
    assert counted["lines"] == sum(len(placed.lines) for placed in setting.pieces)


@pytest.mark.parametrize("ink", [WHITE, BLACK_SLOT], ids=["spot", "channel"])
@pytest.mark.parametrize("size", [6.0, 7.5, 9.25, 12.0, 19.75])
def test_letters_made_of_bars_are_proved_at_small_sizes_too(
    tmp_path: Path, ruler: Face, size: float, ink: Ink
) -> None:
    line = Line("Mr. Penhew", Role.NAME)
    pieces = (Piece("outer", "h-00000001", "Household", (Wording((line,)),)),)
    choice = PieceChoice("outer", "a7", "ruler", ink.key, "ivory", size=size, smallest=5.0)
    setting, findings = fit(pieces, choice, layout_of(), ruler, ink, 0.0)
    assert not findings
    assert made(tmp_path / "plate.pdf", setting, pieces).faults == ()


@pytest.mark.parametrize("align", ALIGNS)
def test_a_plate_is_proved_as_it_is_arranged_and_not_as_another(tmp_path: Path, align: str) -> None:
    pieces = tuple(worded(number) for number in range(12))
    choice = PieceChoice("outer", "a7", "playfair-500", "White", "deep-green", align=align)
    setting, _ = fit(pieces, choice, layout_of(), face_of("playfair-500"), WHITE, 14.17)
    assert made(tmp_path / "plate.pdf", setting, pieces).faults == ()
    for other in set(ALIGNS) - {align}:
        zone = replace(setting.zone, align=other)
        faults = judge_plate(
            tmp_path / "plate.pdf", order_of(setting), replace(setting, zone=zone), pieces
        ).faults
        named = (
            " pt out of line." if {align, other}.isdisjoint({"arch", "bowl", "columns"}) else "."
        )
        assert any(fault.endswith(named) for fault in faults), other


def test_steps_of_another_width_are_refused(tmp_path: Path) -> None:
    pieces = tuple(worded(number) for number in range(12))
    choice = PieceChoice("outer", "a7", "playfair-500", "White", "deep-green", align="stepped")
    setting, _ = fit(pieces, choice, layout_of(), face_of("playfair-500"), WHITE, 14.17)
    assert made(tmp_path / "plate.pdf", setting, pieces).faults == ()
    wider = replace(setting, zone=replace(setting.zone, step=1.51))
    assert judge_plate(tmp_path / "plate.pdf", order_of(setting), wider, pieces).faults


def test_a_plate_whose_zone_the_press_cuts_on_one_side_is_proved(tmp_path: Path) -> None:
    pieces = tuple(worded(number) for number in range(12))
    choice = PieceChoice("outer", "a7", "great-vibes", "White", "deep-green")
    layout = layout_of(left=3.0)
    setting, _ = fit(pieces, choice, layout, face_of("great-vibes"), WHITE, 28.35)
    assert setting.room.left > layout.zones[0].box.left
    assert made(tmp_path / "plate.pdf", setting, pieces).faults == ()


def test_a_plate_with_broken_and_smaller_lines_is_proved(tmp_path: Path) -> None:
    long = " ".join(["Featherstonehaugh"] * 6)
    breaks = tuple(n + 1 for n, c in enumerate(long) if c == " ")
    whole = "The Honourable Wilhelmina Rotheringweather-Featherstonehaugh-Larkmoor of Wexcombe"
    odd = (
        Piece("outer", "h-long", "L", (Wording((Line(long, Role.NAME, breaks=breaks),)),)),
        Piece("outer", "h-whole", "W", (Wording((Line(whole, Role.NAME),)),)),
    )
    pieces = (*(worded(number) for number in range(12)), *odd)
    choice = PieceChoice("outer", "a7", "great-vibes", "White", "deep-green", size=24.0)
    setting, _ = fit(pieces, choice, layout_of(), face_of("great-vibes"), WHITE, 14.17)
    broken = next(placed for placed in setting.pieces if placed.household == "h-long")
    assert len(broken.lines) > 1
    assert any(placed.why for placed in setting.pieces)
    assert made(tmp_path / "plate.pdf", setting, pieces).faults == ()


def test_a_static_plate_is_proved(tmp_path: Path) -> None:
    lines = (Line("The Wexcombe Family", Role.NAME), Line("4 Vesper Street", Role.STREET))
    piece = Piece("return", None, "The Wexcombe Family", (Wording(lines),))
    choice = PieceChoice("return", "a7", "cormorant-500", "White", "deep-green", largest=13.0)
    setting, _ = fit((piece,), choice, layout_of(), face_of("cormorant-500"), WHITE, 14.17)
    order = replace(order_of(setting), copies=125)
    pages, outlines = stream(setting)
    write_plate(tmp_path / "plate.pdf", order, pages, outlines)
    verdict = judge_plate(tmp_path / "plate.pdf", order, setting, (piece,))
    assert verdict.faults == ()
    assert dict(verdict.counted)["pages"] == 1


def test_a_plate_of_many_branches_is_proved(tmp_path: Path) -> None:
    pieces = tuple(worded(number) for number in range(401))
    choice = PieceChoice("outer", "a7", "garamond-600", "White", "deep-green")
    setting, _ = fit(pieces, choice, layout_of(), face_of("garamond-600"), WHITE, 14.17)
    verdict = made(tmp_path / "plate.pdf", setting, pieces)
    assert verdict.faults == ()
    assert 40 <= dict(verdict.counted)["pages seen as pixels"] <= 60


def test_every_letter_of_a_large_plate_is_seen_however_rare(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A letter that stands on one page alone, far from those that are evenly spaced."""
    monkeypatch.setattr(hands, "SEVERAL", False)
    looked: list[int] = []
    real = pixel_faults

    def look(layers: Sequence[Bench], indices: Sequence[int]) -> Iterator[tuple[int, str]]:
        looked.extend(indices)
        return real(layers, indices)

    monkeypatch.setattr(pixels, "pixel_faults", look)
    rare = {5: "X", 203: "&", 396: "Y"}
    pieces = tuple(
        replace(one, wordings=(Wording((Line(f"{rare[n]} {n}", Role.NAME),)),))
        if n in rare
        else one
        for n, one in enumerate(map(worded, range(401)))
    )
    choice = PieceChoice("outer", "a7", "garamond-600", "White", "deep-green")
    setting, _ = fit(pieces, choice, layout_of(), face_of("garamond-600"), WHITE, 14.17)
    assert made(tmp_path / "plate.pdf", setting, pieces).faults == ()
    assert set(rare) <= set(looked)
    assert set(rare).isdisjoint(sample(401))
    assert len(looked) < 70


@pytest.mark.parametrize(
    ("axes", "named"),
    [((("wght", 300.0),), "isn't drawn as the face draws it|other letters"), ((), "face draws it")],
    ids=["another-weight", "no-weight"],
)
def test_a_plate_in_another_weight_is_refused(
    tmp_path: Path, axes: tuple[tuple[str, float], ...], named: str
) -> None:
    pieces = tuple(worded(number) for number in range(4))
    face = face_of("cormorant-500")
    choice = PieceChoice("outer", "a7", face.key, "White", "deep-green")
    setting, _ = fit(pieces, choice, layout_of(), face, WHITE, 14.17)
    order = order_of(setting)
    pages, outlines = stream(setting)
    write_plate(tmp_path / "plate.pdf", order, pages, outlines)
    other = replace(setting, face=replace(face, axes=axes))
    verdict = judge_plate(tmp_path / "plate.pdf", order, other, pieces)
    assert not verdict.proved
    assert any(part in fault for fault in verdict.faults for part in named.split("|"))


@pytest.mark.parametrize("turn", [0, 90, 180, 270])
@pytest.mark.parametrize("align", ["centre", "columns", "stepped", "arch", "bowl"])
def test_bent_and_turned_lines_are_proved_and_not_in_another_turn(
    tmp_path: Path, align: str, turn: int
) -> None:
    pieces = tuple(worded(number) for number in range(4))
    layout = layout_of()
    layout = replace(layout, zones=tuple(replace(zone, turn=turn) for zone in layout.zones))
    choice = PieceChoice("outer", "a7", "x", "White", "deep-green", align=align, smallest=5.0)
    setting, _ = fit(pieces, choice, layout, face_of("great-vibes"), WHITE, 14.17)
    assert len(setting.pieces) == 4
    verdict = made(tmp_path / "plate.pdf", setting, pieces)
    assert verdict.faults == ()
    wrong = replace(setting, zone=replace(setting.zone, turn=(turn + 90) % 360))
    assert judge_plate(tmp_path / "plate.pdf", order_of(setting), wrong, pieces).faults


def test_arcs_of_another_radius_or_about_another_side_are_refused(tmp_path: Path) -> None:
    pieces = tuple(worded(number) for number in range(4))
    choice = PieceChoice("outer", "a7", "x", "White", "deep-green", align="arch")
    setting, _ = fit(pieces, choice, layout_of(), face_of("garamond-600"), WHITE, 14.17)
    assert made(tmp_path / "plate.pdf", setting, pieces).faults == ()
    for zone in (replace(setting.zone, radius=403.0), replace(setting.zone, align="bowl")):
        wrong = replace(setting, zone=zone)
        assert judge_plate(tmp_path / "plate.pdf", order_of(setting), wrong, pieces).faults
