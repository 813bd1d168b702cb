"""Bases under an ink, sheets of cards beside each other, fronts and backs: each hurt as a file.

Every plate is made by the writer, taken apart, hurt in one way and put together as a whole file
again, so that only the judge's reading of what is in it can tell. The kinds of hurt are those of
ordinary plates (ISO 32000-1: boxes, rotation, inherited attributes, units, forms, layers, colour),
and what only a sheet has: its marks and its foot line.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from types import ModuleType
from typing import TYPE_CHECKING

import pytest

from addressing.job.drawing import draw_setting, draw_sheets
from addressing.plates import bind_plate, plan_sheets
from addressing.preflight import judge_plate
from addressing.records.docket import PieceChoice
from addressing.records.pages import Setting, Underbase
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.plates import PlateOrder, Verdict
from addressing.records.sheets import Beside, SheetChoice
from addressing.records.shelf import Box, Face, Ink, Layout, Zone
from addressing.typesetting import chokes, fit

if TYPE_CHECKING:
    from plate_drafts import Draft

CARD = (180.0, 144.0)
GOLD = Ink("Gold", "Gold", (0.0, 0.2, 0.8, 0.1), (0.8, 0.7, 0.2))
NAMES = ("Tobias Penhew", "Ottoline Grayling", "Ingrid Halvorsby", "Cosmo Larkmoor", "Ida Quill")
ZONE = Zone("", Box(15, 15, 150, 114), "centre", "middle")
Part = tuple[PlateOrder, Setting, tuple[Piece, ...]]
CHOICES = {
    "beside": SheetChoice("place-card", across=1, down=2, beside=(Beside("reply-number", 1),)),
    "turned": SheetChoice("place-card", across=1, down=2, behind="reply-number"),
}
KINDS = ("base", *CHOICES)


@dataclass
class Plate:
    """A plate as a draft, and what it is judged by."""

    draft: "Draft"
    path: Path
    parts: tuple[Part, ...]

    def judge(self) -> Verdict:
        """Put together and judged."""
        first, *others = self.parts
        return judge_plate(self.draft.write(self.path), *first, others)

    @property
    def later(self) -> int:
        """The content stream of the second page: the first taught the judge what pages share."""
        return self.draft.contents[1]


def part_of(kind: str, words: tuple[str, ...], face: Face, ink: Ink) -> Part:
    """Cards of 2½ by 2 inches with a line each."""
    zone = replace(ZONE, kind=kind)
    layout = Layout("card", "Card", *CARD, "square", 0, (zone,), Box(5, 5, 170, 134), (), "own")
    pieces = tuple(
        Piece(kind, f"h-{n}", "", (Wording((Line(said, Role.NAME),)),))
        for n, said in enumerate(words)
    )
    chosen = PieceChoice(kind, "card", face.key, ink.key, "ivory", size=14.0)
    setting, _ = fit(pieces, chosen, layout, face, ink, 0.0)
    households = tuple(piece.household for piece in pieces)
    return PlateOrder("01-cards", kind, ink, CARD, households, 1, "0.1.0"), setting, pieces


def base_of(path: Path, face: Face, white: Ink) -> tuple[Part, ...]:
    """Write the white under golden names."""
    order, setting, pieces = part_of("place-card", NAMES, face, GOLD)
    setting = replace(setting, underbase=Underbase(white, 0.05))
    order = replace(order, ink=white, chokes=chokes(setting))
    bind_plate(path, order, *draw_setting(setting, order))
    return ((order, setting, pieces),)


def sheets_of(path: Path, how: str, face: Face, white: Ink) -> tuple[Part, ...]:
    """Write place cards and numbers on letter sheets."""
    choice = CHOICES[how]
    numbers = tuple(str(n) for n in range(11, 16))
    parts = [
        part_of(kind, words, face, white)
        for kind, words in (("place-card", NAMES), ("reply-number", numbers))
    ]
    plans = plan_sheets(choice, (612.0, 792.0), dict.fromkeys(choice.kinds, CARD))
    least = max(plans[order.kind].sheets(len(order.households)) for order, *_ in parts)
    parts = [
        (replace(order, sheets=replace(plans[order.kind], least=least)), setting, pieces)
        for order, setting, pieces in parts
    ]
    bind_plate(path, parts[0][0], *draw_sheets([(order, its) for order, its, _ in parts]))
    return tuple(parts)


@pytest.fixture(params=KINDS)
def plate(
    request: pytest.FixtureRequest, drafts: ModuleType, script: Face, white: Ink, tmp_path: Path
) -> Plate:
    """Each kind of plate, right."""
    path = tmp_path / "01-cards.pdf"
    how = request.param
    parts = base_of(path, script, white) if how == "base" else sheets_of(path, how, script, white)
    return Plate(drafts.taken_apart(path), path, parts)


def add_a_crop_box(plate: Plate) -> None:
    plate.draft.swap(plate.draft.pages[1], b" /Resources", b" /CropBox [0 0 90 90] /Resources")


def turn_a_page(plate: Plate) -> None:
    plate.draft.swap(plate.draft.pages[1], b" /Resources", b" /Rotate 180 /Resources")


def turn_all_by_what_they_inherit(plate: Plate) -> None:
    plate.draft.swap(plate.draft.branches[0], b" /Kids", b" /Rotate 180 /Kids")


def turn_all_from_the_root(plate: Plate) -> None:
    plate.draft.swap(plate.draft.tree, b" /Kids", b" /Rotate 90 /Kids")


def make_a_unit_larger(plate: Plate) -> None:
    plate.draft.swap(plate.draft.pages[1], b" /Resources", b" /UserUnit 1.1 /Resources")


def widen_a_page(plate: Plate) -> None:
    page = plate.draft.pages[1]
    wide = re.search(rb"/MediaBox \[0 0 ([0-9]+)", plate.draft.texts[page])
    assert wide is not None
    plate.draft.swap(page, wide[0], b"/MediaBox [0 0 %d" % (int(wide[1]) + 1))


def clip_a_letter(plate: Plate) -> None:
    form = next(iter(plate.draft.forms.values()))
    box = re.search(rb"/BBox \[(-?[0-9]+) ", plate.draft.texts[form])
    assert box is not None
    plate.draft.swap(form, box[0], b"/BBox [%d " % (int(box[1]) + 100))


def slant_a_letter(plate: Plate) -> None:
    form = next(iter(plate.draft.forms.values()))
    plate.draft.swap(form, b" /BBox", b" /Matrix [1 0 0.1 1 0 0] /BBox")


def hide_a_letter_in_a_layer(plate: Plate) -> None:
    layer = plate.draft.add(b"<< /Type /OCG /Name (Names) >>")
    form = next(iter(plate.draft.forms.values()))
    plate.draft.swap(form, b" /BBox", b" /OC %d 0 R /BBox" % layer)


def list_a_layer(plate: Plate) -> None:
    layer = plate.draft.add(b"<< /Type /OCG /Name (Names) >>")
    listed = b"/OCProperties << /OCGs [%d 0 R] /D << /OFF [%d 0 R] >> >>" % (layer, layer)
    plate.draft.swap(plate.draft.root, b" /Pages", b" %b /Pages" % listed)


def hide_a_page_in_a_layer(plate: Plate) -> None:
    plate.draft.redraw(plate.later, lambda drawn: b"/OC /Names BDC\n%bEMC\n" % drawn)


def give_the_ink_another_alternate(plate: Plate) -> None:
    text = plate.draft.texts[plate.draft.ink]
    plate.draft.texts[plate.draft.ink] = re.sub(rb"/C1 \[[^]]*\]", b"/C1 [1 1 1 1]", text)


def give_the_ink_a_second_alternate(plate: Plate) -> None:
    plate.draft.swap(plate.draft.ink, b" /N 1 >>]", b" /N 1 >> << /Colorants << >> >>]")


def rename_the_ink(plate: Plate) -> None:
    plate.draft.swap(plate.draft.ink, b"/Separation /White", b"/Separation /Whlte")


def nick_an_outline(plate: Plate) -> None:
    form = next(iter(plate.draft.forms.values()))

    def nicked(drawn: bytes) -> bytes:
        step = re.search(rb"\n(-?[0-9]+)(\S*) (-?[0-9]+)", drawn)
        assert step is not None
        moved = b"\n%d%b %d" % (int(step[1]) + 20, step[2], int(step[3]) + 20)
        return drawn[: step.start()] + moved + drawn[step.end() :]

    plate.draft.redraw(form, nicked)


def draw_two_letters_as_each_other(plate: Plate) -> None:
    one, other, *_ = plate.draft.forms.values()
    draft = plate.draft
    draft.texts[one], draft.texts[other] = draft.texts[other], draft.texts[one]
    draft.streams[one], draft.streams[other] = draft.streams[other], draft.streams[one]


def drop_the_last_page(plate: Plate) -> None:
    draft, last = plate.draft, plate.draft.pages[-1]
    many = len(draft.pages)
    draft.swap(draft.branches[0], b" %d 0 R]" % last, b"]")
    for tree in (draft.branches[0], draft.tree):
        draft.swap(tree, b"/Count %d" % many, b"/Count %d" % (many - 1))


def swap_two_pages(plate: Plate) -> None:
    one, other, *_ = plate.draft.pages
    kids = b"%d 0 R %d 0 R"
    plate.draft.swap(plate.draft.branches[0], kids % (one, other), kids % (other, one))


def swap_what_two_pages_draw(plate: Plate) -> None:
    one, other, *_ = plate.draft.contents
    streams = plate.draft.streams
    streams[one], streams[other] = streams[other], streams[one]


def repeat_a_page(plate: Plate) -> None:
    one, other, *_ = plate.draft.pages
    kids = b"%d 0 R %d 0 R"
    plate.draft.swap(plate.draft.branches[0], kids % (one, other), kids % (one, one))


def draw_black_on_it(plate: Plate) -> None:
    plate.draft.redraw(plate.later, lambda drawn: drawn + b"0 0 0 1 k 20 20 30 4 re f\n")


def print_without_ink(plate: Plate) -> None:
    plate.draft.redraw(plate.later, lambda drawn: drawn.replace(b"1 scn", b"0.1 scn", 1))


def change_one_letter(plate: Plate) -> None:
    def changed(drawn: bytes) -> bytes:
        one, other = sorted(set(re.findall(rb"/g[0-9]+ ", drawn)))[:2]
        return drawn.replace(one, other, 1)

    plate.draft.redraw(plate.later, changed)


def move_a_line_by_a_thousandth(plate: Plate) -> None:
    def moved(drawn: bytes) -> bytes:
        line = re.search(rb"q \S+ 0 0 \S+ ([0-9]+)\.?([0-9]*) ", drawn)
        assert line is not None
        x = int(line[1] + (line[2] + b"000")[:3]) + 1
        to = b"%d.%03d " % divmod(x, 1000)
        at = line.start(1)
        return drawn[:at] + to.replace(b".000 ", b" ") + drawn[line.end() :]

    plate.draft.redraw(plate.later, moved)


def leave_a_line_out(plate: Plate) -> None:
    plate.draft.redraw(plate.later, lambda drawn: drawn[: drawn.rindex(b"q ")])


def draw_a_line_twice(plate: Plate) -> None:
    plate.draft.redraw(plate.later, lambda drawn: drawn + drawn[drawn.rindex(b"q ") :])


def embed_a_live_font(plate: Plate) -> None:
    font = plate.draft.add(b"<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>")
    plate.draft.swap(
        plate.draft.resources, b"<< /XObject", b"<< /Font << /F %d 0 R >> /XObject" % font
    )


def add_a_note(plate: Plate) -> None:
    note = plate.draft.add(b"<< /Type /Annot /Subtype /Square /Rect [0 0 50 50] >>")
    plate.draft.swap(plate.draft.pages[1], b" /Resources", b" /Annots [%d 0 R] /Resources" % note)


HURTS: tuple[Callable[[Plate], None], ...] = (
    add_a_crop_box,
    turn_a_page,
    turn_all_by_what_they_inherit,
    turn_all_from_the_root,
    make_a_unit_larger,
    widen_a_page,
    clip_a_letter,
    slant_a_letter,
    hide_a_letter_in_a_layer,
    list_a_layer,
    hide_a_page_in_a_layer,
    give_the_ink_another_alternate,
    give_the_ink_a_second_alternate,
    rename_the_ink,
    nick_an_outline,
    draw_two_letters_as_each_other,
    drop_the_last_page,
    swap_two_pages,
    swap_what_two_pages_draw,
    repeat_a_page,
    draw_black_on_it,
    print_without_ink,
    change_one_letter,
    move_a_line_by_a_thousandth,
    leave_a_line_out,
    draw_a_line_twice,
    embed_a_live_font,
    add_a_note,
)


def test_what_is_taken_apart_and_put_together_again_is_proved(plate: Plate) -> None:
    assert plate.judge().faults == ()


@pytest.mark.parametrize("hurt", HURTS, ids=[hurt.__name__ for hurt in HURTS])
def test_a_hurt_plate_is_refused_calmly(plate: Plate, hurt: Callable[[Plate], None]) -> None:
    hurt(plate)
    faults = plate.judge().faults
    assert faults
    assert not any("couldn't be judged" in fault for fault in faults), faults
    assert not any(name in fault for fault in faults for name in ("Penhew", "Grayling"))


@pytest.mark.parametrize("place", range(12))
def test_a_changed_byte_is_refused_wherever_it_is(plate: Plate, place: int) -> None:
    data = bytearray(plate.path.read_bytes())
    at = (len(data) - 1) * place // 11
    data[at] ^= 1
    plate.path.write_bytes(bytes(data))
    first, *others = plate.parts
    assert not judge_plate(plate.path, *first, others).proved


def sheet_hurts() -> dict[str, Callable[[bytes], bytes]]:
    """What only sheets have, hurt in a page's stream."""

    def first_mark(drawn: bytes) -> re.Match[bytes]:
        found = re.search(rb"(\S+) (\S+) (0\.25|\S+) (\S+) re\n", drawn)
        assert found is not None
        return found

    def without(drawn: bytes) -> bytes:
        mark = first_mark(drawn)
        return drawn[: mark.start()] + drawn[mark.end() :]

    def moved(drawn: bytes) -> bytes:
        mark = first_mark(drawn)
        return drawn[: mark.start()] + b"%g" % (float(mark[1]) + 1) + drawn[mark.end(1) :]

    def longer(drawn: bytes) -> bytes:
        mark = first_mark(drawn)
        return drawn[: mark.start(4)] + b"99" + drawn[mark.end(4) :]

    def foot_gone(drawn: bytes) -> bytes:
        return drawn[: drawn.rindex(b"q ")]

    def foot_first(drawn: bytes) -> bytes:
        start, foot = drawn.index(b"q "), drawn.rindex(b"q ")
        return drawn[:start] + drawn[foot:] + drawn[start:foot]

    return {each.__name__: each for each in (without, moved, longer, foot_gone, foot_first)}


@pytest.mark.parametrize("hurt", sheet_hurts())
@pytest.mark.parametrize("plate", list(CHOICES), indirect=True)
def test_marks_and_foot_lines_are_proved_as_well(plate: Plate, hurt: str) -> None:
    plate.draft.redraw(plate.later, sheet_hurts()[hurt])
    assert not plate.judge().proved


@pytest.mark.parametrize("plate", ["base"], indirect=True)
def test_a_base_that_is_the_letter_itself_is_refused(
    plate: Plate, drafts: ModuleType, script: Face
) -> None:
    """Without the choke white would show around gold."""
    whole = drafts.Compositor(script)
    glyph, form = next(iter(plate.draft.forms.items()))
    plate.draft.texts[form], plate.draft.streams[form] = whole.form(glyph)
    assert any("The base of letter" in fault for fault in plate.judge().faults)
