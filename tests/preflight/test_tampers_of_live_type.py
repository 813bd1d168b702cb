"""Each thing in an embedded font, and each step of live type, is refused when it is otherwise."""

import hashlib
import io
import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from importlib.resources import files
from pathlib import Path
from types import ModuleType
from typing import TYPE_CHECKING, Any

import pytest
from fontTools import cffLib
from fontTools.ttLib import TTFont, newTable
from fontTools.ttLib.tables import ttProgram

from addressing.plates import write_plate
from addressing.preflight import judge_plate
from addressing.records.docket import PieceChoice
from addressing.records.pages import Setting
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.plates import PlateOrder
from addressing.records.shelf import Face, Ink, Layout
from addressing.typesetting import fit, live_faces, stream

if TYPE_CHECKING:
    from plate_drafts import Draft

WORDS = ("Tobias Penhew", "Ottoline Grayling", "Cosmo Larkmoor")
ROMAN = Path(str(files("fontpkg_eb_garamond") / "files" / "EBGaramond[wght].ttf"))


@dataclass(frozen=True)
class Job:
    """A right plate of live type, what the judge is given with it, and another face's plate."""

    path: Path
    order: PlateOrder
    setting: Setting
    pieces: tuple[Piece, ...]

    def faults(self, path: Path) -> tuple[str, ...]:
        return judge_plate(path, self.order, self.setting, self.pieces).faults


def job_in(path: Path, face: Face, envelope: Layout, ink: Ink) -> Job:
    pieces = tuple(
        Piece("outer", f"h-{n}", "", (Wording((Line(words, Role.NAME),)),))
        for n, words in enumerate(WORDS)
    )
    choice = PieceChoice("outer", "trial", face.key, ink.key, "deep-green")
    setting, _ = fit(pieces, choice, envelope, face, ink, 0.0)
    trim = (envelope.width, envelope.height)
    keys = tuple(piece.household for piece in pieces)
    order = PlateOrder("01-outer-white", "outer", ink, trim, keys, 1, "0.1.0", live=True)
    pages, outlines = stream(setting)
    write_plate(path, order, pages, replace(outlines, live=live_faces(setting)))
    return Job(path, order, setting, pieces)


@pytest.fixture(scope="module")
def job(
    tmp_path_factory: pytest.TempPathFactory, script: Face, envelope: Layout, white: Ink
) -> Job:
    return job_in(tmp_path_factory.mktemp("live") / "plate.pdf", script, envelope, white)


@pytest.fixture(scope="module")
def varied(tmp_path_factory: pytest.TempPathFactory, envelope: Layout, white: Ink) -> Job:
    """The same in a face at a place on its axis."""
    digest = hashlib.sha256(ROMAN.read_bytes()).hexdigest()
    face = Face("roman", "Roman", ROMAN, digest, axes=(("wght", 537.0),))
    return job_in(tmp_path_factory.mktemp("varied") / "plate.pdf", face, envelope, white)


@pytest.fixture(scope="module")
def cubics(
    tmp_path_factory: pytest.TempPathFactory, cubic: Face, envelope: Layout, white: Ink
) -> Job:
    """The same in a face of cubics."""
    return job_in(tmp_path_factory.mktemp("cubics") / "plate.pdf", cubic, envelope, white)


def tagged(data: bytes) -> bytes:
    number = int.from_bytes(hashlib.sha256(data).digest()[:8], "big")
    return bytes(65 + number // 26**place % 26 for place in range(6))


def program_of(draft: "Draft") -> int:
    (number,) = [n for n, text in draft.texts.items() if b"/Length1" in text]
    return number


def put_program(draft: "Draft", data: bytes) -> None:
    """Another program, with a length and a tag that fit it."""
    number = program_of(draft)
    old, new = tagged(draft.streams[number]), tagged(data)
    assert data != draft.streams[number]
    draft.streams[number] = data
    draft.texts[number] = b"<< /Length1 %d >>" % len(data)
    for at, text in draft.texts.items():
        draft.texts[at] = text.replace(old + b"+", new + b"+")


def reshaped(change: Callable[[TTFont], None]) -> Callable[["Draft"], None]:
    """The program opened, changed and saved again."""

    def hurt(draft: "Draft") -> None:
        font = TTFont(io.BytesIO(draft.streams[program_of(draft)]), recalcTimestamp=False)
        change(font)
        with io.BytesIO() as out:
            font.save(out)
            put_program(draft, out.getvalue())

    return hurt


def drawn_names(font: TTFont) -> list[str]:
    return [name for name in font.getGlyphOrder() if font["glyf"][name].numberOfContours]


def nick(font: TTFont) -> None:
    glyph = font["glyf"][drawn_names(font)[3]]
    x, y = glyph.coordinates[0]
    glyph.coordinates[0] = (x + 2, y)


def bent(font: TTFont) -> None:
    """A point on the outline becomes a control point."""
    glyph = font["glyf"][drawn_names(font)[3]]
    at = next(n for n, flag in enumerate(glyph.flags) if flag & 1)
    glyph.flags[at] &= 0xFE


def swapped(font: TTFont) -> None:
    """Two letters change their drawings."""
    one, other, *_ = drawn_names(font)
    table = font["glyf"].glyphs
    table[one], table[other] = table[other], table[one]


def one_more(font: TTFont) -> None:
    """A letter that no line uses."""
    names = font.getGlyphOrder()
    empty = next(name for name in names[5:] if not font["glyf"][name].numberOfContours)
    font["glyf"].glyphs[empty] = font["glyf"][drawn_names(font)[0]]


def wider(font: TTFont) -> None:
    name = drawn_names(font)[0]
    width, left = font["hmtx"][name]
    font["hmtx"].metrics[name] = (width + 1, left)


def shifted(font: TTFont) -> None:
    """A side bearing that moves a letter aside in a rasteriser."""
    name = drawn_names(font)[0]
    width, left = font["hmtx"][name]
    font["hmtx"].metrics[name] = (width, left + 40)


def hinted(font: TTFont) -> None:
    font["fpgm"] = newTable("fpgm")
    font["fpgm"].program = ttProgram.Program()
    font["fpgm"].program.fromBytecode(b"\xb0\x00\x2c\x2d")


def hinted_letter(font: TTFont) -> None:
    program = ttProgram.Program()
    program.fromBytecode(b"\xb0\x00\x21")
    font["glyf"][drawn_names(font)[0]].program = program


def named(font: TTFont) -> None:
    font["name"] = newTable("name")
    font["name"].names = []
    font["name"].setName("Mrs. Ottoline Grayling", 1, 3, 1, 0x409)


def dated(font: TTFont) -> None:
    font["head"].created += 86400


def finer_em(font: TTFont) -> None:
    """The same letters half as large."""
    font["head"].unitsPerEm *= 2


def composed(font: TTFont) -> None:
    """A letter put together of another, at the same place."""
    from fontTools.ttLib.tables._g_l_y_f import Glyph, GlyphComponent  # noqa: PLC0415

    first, second, *_ = drawn_names(font)
    part = GlyphComponent()
    part.glyphName, part.x, part.y, part.flags = second, 0, 0, 0x3
    glyph = Glyph()
    glyph.numberOfContours, glyph.components = -1, [part]
    font["glyf"].glyphs[first] = glyph


PROGRAMS: dict[str, tuple[Callable[[TTFont], None], str]] = {
    "a letter's outline nicked": (nick, "a point is 2 units off"),
    "a curve for a line": (bent, "isn't drawn as the face draws it"),
    "two letters swapped": (swapped, "isn't drawn as the face draws it"),
    "a letter more": (one_more, "other letters in its program than it has widths for"),
    "a width": (wider, "has another width than the face gives it"),
    "a side bearing": (shifted, "holds more than its letters, or is built otherwise"),
    "hints of the font": (hinted, "other tables than a plate's"),
    "hints of a letter": (hinted_letter, "holds more than its letters, or is built otherwise"),
    "a name": (named, "other tables than a plate's"),
    "a date": (dated, "holds more than its letters, or is built otherwise"),
    "another em": (finer_em, "holds more than its letters, or is built otherwise"),
    "a letter of others": (composed, "letters put together of others"),
}  # fmt: skip


@pytest.mark.parametrize("tamper", PROGRAMS)
def test_a_program_that_was_tampered_with_is_refused_by_name(
    tmp_path: Path, job: Job, drafts: ModuleType, tamper: str
) -> None:
    draft = drafts.taken_apart(job.path)
    change, said = PROGRAMS[tamper]
    reshaped(change)(draft)
    faults = job.faults(draft.write(tmp_path / "plate.pdf"))
    assert any(said in fault for fault in faults), faults
    assert not any("changed after it was written" in fault for fault in faults)


def test_a_plate_taken_apart_and_written_again_is_proved(
    tmp_path: Path, job: Job, varied: Job, drafts: ModuleType
) -> None:
    for right in (job, varied):
        draft = drafts.taken_apart(right.path)
        assert right.faults(draft.write(tmp_path / "plate.pdf")) == ()


def test_two_units_are_seen_at_a_place_on_an_axis_too(
    tmp_path: Path, varied: Job, drafts: ModuleType
) -> None:
    draft = drafts.taken_apart(varied.path)
    reshaped(nick)(draft)
    faults = varied.faults(draft.write(tmp_path / "plate.pdf"))
    assert any("isn't drawn as the face draws it" in fault for fault in faults)


def test_another_place_on_the_axis_is_refused(tmp_path: Path, varied: Job) -> None:
    face = replace(varied.setting.face, axes=(("wght", 541.0),))
    other = replace(varied.setting, face=face)
    pages, _ = stream(varied.setting)
    _, heavier = stream(other)
    path = tmp_path / "plate.pdf"
    write_plate(path, varied.order, pages, replace(heavier, live=live_faces(other)))
    assert any("isn't drawn as the face draws it" in fault for fault in varied.faults(path))


def test_another_face_under_the_same_name_is_refused(
    tmp_path: Path, job: Job, varied: Job, drafts: ModuleType
) -> None:
    draft, other = drafts.taken_apart(job.path), drafts.taken_apart(varied.path)
    put_program(draft, other.streams[program_of(other)])
    assert job.faults(draft.write(tmp_path / "plate.pdf"))


def descendant_of(draft: "Draft") -> int:
    return next(n for n, text in draft.texts.items() if b"/CIDFontType2" in text)


def swap_in(where: bytes, old: bytes, new: bytes) -> Callable[["Draft"], None]:
    """Change the one object that has these words."""

    def hurt(draft: "Draft") -> None:
        (number,) = [n for n, text in draft.texts.items() if where in text]
        draft.swap(number, old, new)

    return hurt


def another_width(draft: "Draft") -> None:
    number = descendant_of(draft)
    found = re.search(rb"\[([0-9]+)\]", draft.texts[number])
    assert found is not None
    draft.swap(number, found[0], b"[%d]" % (int(found[1]) + 1))


def another_character(draft: "Draft") -> None:
    (number,) = [n for n, data in draft.streams.items() if b"beginbfchar" in data]
    draft.redraw(number, lambda told: re.sub(rb"> <(....)>", rb"> <0041>", told, count=1))


def no_character(draft: "Draft") -> None:
    (number,) = [n for n, data in draft.streams.items() if b"beginbfchar" in data]
    draft.redraw(number, lambda told: re.sub(rb"<....> <....>\n", b"", told, count=1))


def a_comment_in_the_map(draft: "Draft") -> None:
    (number,) = [n for n, data in draft.streams.items() if b"beginbfchar" in data]
    draft.redraw(number, lambda told: told + b"% Mrs. Grayling\n")


def a_font_twice(draft: "Draft") -> None:
    found = re.search(rb"/F0 ([0-9]+) 0 R", draft.texts[draft.resources])
    assert found is not None
    draft.swap(draft.resources, found[0], found[0] + b" /F1 %d 0 R" % int(found[1]))


def a_drawing_beside(draft: "Draft") -> None:
    """An outline among live type: both kinds on one plate."""
    form = draft.add(
        b"<< /Type /XObject /Subtype /Form /BBox [0 0 9 9] >>",
        b"0 0 m\n9 0 l\n9 9 l\nh\nf\n",
    )
    draft.swap(draft.resources, b"<< /Font", b"<< /XObject << /g3 %d 0 R >> /Font" % form)
    draft.redraw(draft.contents[0], lambda d: d.replace(b"Q\n", b"1 0 0 1 9 9 cm /g3 Do\nQ\n"))


def tag_changed(draft: "Draft") -> None:
    old = tagged(draft.streams[program_of(draft)])
    for number, text in draft.texts.items():
        draft.texts[number] = text.replace(old + b"+", b"AAAAAA+")


OBJECTS: dict[str, tuple[Callable[["Draft"], None], str]] = {
    "a width": (another_width, r"its widths"),
    "a character": (another_character, r"ToUnicode"),
    "a character left out": (no_character, r"ToUnicode"),
    "more in the map": (a_comment_in_the_map, r"ToUnicode"),
    "another tag": (tag_changed, r"its font"),
    "another name in the descriptor": (
        swap_in(b"/FontDescriptor /FontName", b"+GreatVibes", b"+GreatVibez"), r"its descriptor"
    ),
    "codes downwards": (swap_in(b"/Type0", b"/Identity-H", b"/Identity-V"), r"its font"),
    "a default width": (swap_in(b"/CIDFontType2", b" /W [", b" /DW 500 /W ["), r"its widths"),
    "another order of glyphs": (
        swap_in(b"/CIDFontType2", b"/CIDToGIDMap /Identity", b"/CIDToGIDMap 1 0 R"), r"its widths"
    ),
    "another collection": (swap_in(b"/CIDFontType2", b"(Identity)", b"(Japan1)"), r"its widths"),
    "marked as CFF": (swap_in(b"/CIDFontType2", b"FontType2", b"FontType0"), r"its widths"),
    "other flags": (swap_in(b"/Flags", b"/Flags 4", b"/Flags 262148"), r"its descriptor"),
    "another slant": (swap_in(b"/Flags", b"/ItalicAngle 0", b"/ItalicAngle -12"), "its descriptor"),
    "a length that isn't": (
        lambda d: d.texts.__setitem__(program_of(d), b"<< /Length1 99 >>"), r"isn't marked as one"
    ),
    "one font under two names": (a_font_twice, r"F1"),
    "a font of no face": (
        lambda d: d.swap(d.resources, b"/F0 ", b"/F7 "), r"face that the set doesn't have"
    ),
    "a font by another name": (
        lambda d: d.swap(d.resources, b"/F0 ", b"/Times "), r"isn't one of its faces"
    ),
    "an outline beside": (a_drawing_beside, r"holds what no plate may hold: XObject"),
}  # fmt: skip


@pytest.mark.parametrize("tamper", OBJECTS)
def test_a_font_that_says_something_else_is_refused(
    tmp_path: Path, job: Job, drafts: ModuleType, tamper: str
) -> None:
    draft = drafts.taken_apart(job.path)
    change, said = OBJECTS[tamper]
    change(draft)
    faults = job.faults(draft.write(tmp_path / "plate.pdf"))
    assert any(re.search(said, fault) for fault in faults), faults


TF = b"/F0 1000 Tf\n"
DRAWN: dict[str, Callable[[bytes], bytes]] = {
    "a larger size": lambda d: d.replace(TF, b"/F0 1010 Tf\n"),
    "the size by a fraction": lambda d: d.replace(TF, b"/F0 1000.0 Tf\n"),
    "rims for letters": lambda d: d.replace(TF, TF + b"1 Tr\n"),
    "letters that can't be seen": lambda d: d.replace(TF, TF + b"3 Tr\n"),
    "space between words": lambda d: d.replace(TF, TF + b"20 Tw\n"),
    "space between letters": lambda d: d.replace(TF, TF + b"20 Tc\n"),
    "narrower": lambda d: d.replace(TF, TF + b"90 Tz\n"),
    "raised": lambda d: d.replace(TF, TF + b"30 Ts\n"),
    "leant": lambda d: d.replace(TF, TF + b"1 0 0.2 1 0 0 Tm\n"),
    "a letter aside": lambda d: re.sub(rb"([0-9]+) 0 Td", rb"1\1 0 Td", d, count=1),
    "a letter higher": lambda d: d.replace(b" 0 Td", b" 1 Td", 1),
    "another letter": lambda d: re.sub(rb"<(...)[0-9A-F]>", rb"<\g<1>0>", d, count=1),
    "a letter of no line": lambda d: d.replace(b"ET\n", b"0 0 Td <0001> Tj\nET\n", 1),
    "a letter left out": lambda d: re.sub(rb"[0-9-]+ [0-9-]+ Td <....> Tj\nET", b"ET", d, count=1),
    "two letters at once": lambda d: re.sub(rb"<(....)> Tj", rb"<\1\1> Tj", d, count=1),
    "small figures in a code": lambda d: re.sub(
        rb"<[0-9A-F]*[A-F][0-9A-F]*>", lambda found: found[0].lower(), d, count=1
    ),
    "another way of writing": lambda d: re.sub(rb"<(....)> Tj", rb"[<\1>] TJ", d, count=1),
    "marked for a reader": lambda d: d.replace(b"BT\n", b"/Span BMC\nBT\n", 1),
    "a second object of text": lambda d: d.replace(b"ET\n", b"ET\nBT\nET\n", 1),
    "a blank more": lambda d: d.replace(b" Td ", b"  Td ", 1),
    "a tab": lambda d: d.replace(b" Tj\n", b"\tTj\n", 1),
}


@pytest.mark.parametrize("tamper", DRAWN)
def test_a_page_of_live_type_that_draws_otherwise_is_refused(
    tmp_path: Path, job: Job, drafts: ModuleType, tamper: str
) -> None:
    draft = drafts.taken_apart(job.path)
    draft.redraw(draft.contents[1], DRAWN[tamper])
    assert job.faults(draft.write(tmp_path / "plate.pdf"))


def test_a_face_that_may_not_be_embedded_is_refused_by_the_judge_too(
    tmp_path: Path, job: Job, script: Face
) -> None:
    closed = tmp_path / "closed.ttf"
    with TTFont(script.path) as font:
        font["OS/2"].fsType = 0x0100
        font.save(closed)
    path = tmp_path / "plate.pdf"
    pages, outlines = stream(job.setting)
    write_plate(path, job.order, pages, replace(outlines, live=live_faces(job.setting)))
    digest = hashlib.sha256(closed.read_bytes()).hexdigest()
    other = replace(job.setting, face=replace(script, path=closed, sha256=digest))
    faults = judge_plate(path, job.order, other, job.pieces).faults
    assert any("may not be embedded" in fault for fault in faults), faults


def reset(change: Callable[[Any], None]) -> Callable[["Draft"], None]:
    """A CFF program opened, changed and written again, with a tag that fits it."""

    def hurt(draft: "Draft") -> None:
        (number,) = [n for n, text in draft.texts.items() if b"/CIDFontType0C" in text]
        old = draft.streams[number]
        fonts = cffLib.CFFFontSet()
        fonts.decompile(io.BytesIO(old), TTFont(recalcBBoxes=False))
        for name in fonts[0].charset:
            fonts[0].CharStrings[name].decompile()
        change(fonts)
        with io.BytesIO() as out:
            fonts.compile(out, TTFont(recalcBBoxes=False))
            draft.streams[number] = out.getvalue()
        assert draft.streams[number] != old
        for at, text in draft.texts.items():
            new = tagged(draft.streams[number]) + b"+"
            draft.texts[at] = text.replace(tagged(old) + b"+", new)

    return hurt


def first_letter(fonts: Any) -> Any:  # noqa: ANN401 - fontTools has no types
    return fonts[0].CharStrings[fonts[0].charset[1]]


def longer_line(fonts: Any) -> None:  # noqa: ANN401
    program = first_letter(fonts).program
    program[1] += 3


def other_advance(fonts: Any) -> None:  # noqa: ANN401
    first_letter(fonts).program[0] += 1


def half_as_large(fonts: Any) -> None:  # noqa: ANN401
    fonts[0].FontMatrix = [1 / 4096, 0, 0, 1 / 4096, 0, 0]


def noted(fonts: Any) -> None:  # noqa: ANN401
    fonts[0].Notice = "Mrs. Ottoline Grayling"


def hinted_stems(fonts: Any) -> None:  # noqa: ANN401
    fonts[0].FDArray[0].Private.StdHW = 40


def other_number(fonts: Any) -> None:  # noqa: ANN401
    """A letter's number in the font is another."""
    charset, drawn = fonts[0].charset, fonts[0].CharStrings
    old, charset[1] = charset[1], "cid00001"
    drawn.charStrings["cid00001"] = drawn.charStrings.pop(old)


COMPACT: dict[str, tuple[Callable[[Any], None], str]] = {
    "a letter's outline": (longer_line, "isn't drawn as the face draws it"),
    "a width": (other_advance, "has another width than the face gives it"),
    "another em": (half_as_large, "holds more than its letters, or is built otherwise"),
    "a notice": (noted, "holds more than its letters, or is built otherwise"),
    "hints": (hinted_stems, "holds more than its letters, or is built otherwise"),
    "a letter's number": (other_number, "other letters in its program than it has widths for"),
}


@pytest.mark.parametrize("tamper", COMPACT)
def test_a_program_of_cubics_that_was_tampered_with_is_refused(
    tmp_path: Path, cubics: Job, drafts: ModuleType, tamper: str
) -> None:
    draft = drafts.taken_apart(cubics.path)
    assert cubics.faults(draft.write(tmp_path / "right.pdf")) == ()
    change, said = COMPACT[tamper]
    reset(change)(draft)
    faults = cubics.faults(draft.write(tmp_path / "plate.pdf"))
    assert any(said in fault for fault in faults), faults
