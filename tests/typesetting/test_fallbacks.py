"""Words that a face lacks letters of, set whole in the face that the docket names for them."""

import unicodedata
from dataclasses import replace
from importlib.resources import files
from itertools import pairwise
from pathlib import Path

import pytest
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont
from fontTools.unicodedata import script as script_of

from addressing.materials.shelf import open_shelf
from addressing.records.docket import PieceChoice
from addressing.records.findings import Finding, Severity
from addressing.records.pages import Setting
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.shelf import Face, Fallback, Ink, Layout
from addressing.typesetting import fit, stream, within_leading
from addressing.typesetting.lettering import Lettering, open_hands, own_script, share_of
from addressing.typesetting.typeface import open_typeface

CHOICE = PieceChoice("outer", "trial", "x", "White", "deep-green", largest=24.0)
HEBREW = range(0x5D0, 0x5EB)


@pytest.fixture(scope="session")
def noto() -> Face:
    """Noto Serif, which has Greek and Cyrillic, as it is by default."""
    return Face("noto", "Noto Serif", Path(str(files("fontpkg_noto_serif") / "files" / NOTO)), "")


NOTO = "NotoSerif[wdth,wght].ttf"


@pytest.fixture(scope="session")
def hebrew(tmp_path_factory: pytest.TempPathFactory) -> Face:
    """Hebrew letters as bars 400 wide in an em of 1000; small letters (there are none) are 400."""
    path = tmp_path_factory.mktemp("faces") / "hebrew.ttf"
    names = {code: f"u{code:04X}" for code in (0x20, *HEBREW)}
    pen = TTGlyphPen(None)
    for step, point in enumerate(((0, 0), (0, 500), (400, 500), (400, 0))):
        (pen.lineTo if step else pen.moveTo)(point)
    pen.closePath()
    bar, blank = pen.glyph(), TTGlyphPen(None).glyph()
    glyphs = {".notdef": bar} | {n: blank if code == 0x20 else bar for code, n in names.items()}
    builder = FontBuilder(1000, isTTF=True)
    builder.setupGlyphOrder(list(glyphs))
    builder.setupCharacterMap(names)
    builder.setupGlyf(glyphs)
    builder.setupHorizontalMetrics(dict.fromkeys(glyphs, (400, 0)))
    builder.setupHorizontalHeader(ascent=900, descent=-200)
    builder.setupNameTable({"familyName": "Bars", "styleName": "Regular"})
    builder.setupOS2(sxHeight=400, sCapHeight=500)
    builder.setupPost()
    builder.save(path)
    return Face("bars", "Bars", path, "")


def helped(face: Face, script: str, other: Face, size: float | None = None) -> Face:
    return replace(face, fallbacks=(*face.fallbacks, Fallback(script, other, size)))


def lettered(face: Face) -> Lettering:
    (hand,) = open_hands((face,))
    return hand


def set_one(text: str, face: Face, layout: Layout, ink: Ink) -> tuple[Setting, list[Finding]]:
    piece = Piece("outer", "h-a", "A", (Wording((Line(text, Role.NAME),)),))
    setting, findings = fit([piece], CHOICE, layout, face, ink, 0.0)
    return setting, list(findings)


@pytest.mark.parametrize(
    ("text", "cut"),
    [
        ("Ms. Ελένη Πένχου", [("Ms. ", ""), ("Ελένη Πένχου", "Grek")]),
        ("Ελένη Penhew Πένχου", [("Ελένη", "Grek"), (" Penhew ", ""), ("Πένχου", "Grek")]),
        ("Anna-Ελένη Penhew", [("Anna-Ελένη", "Grek"), (" Penhew", "")]),
        ("Penhew", [("Penhew", "")]),
        ("14 Ελένη", [("14 ", ""), ("Ελένη", "Grek")]),
    ],
)
def test_words_are_set_whole_in_one_face_and_with_the_blanks_between_them(
    script: Face, noto: Face, text: str, cut: list[tuple[str, str]]
) -> None:
    parts = lettered(helped(script, "Grek", noto)).drawn(text)
    assert [(part.words.text, part.script) for part in parts] == cut


def test_small_letters_stand_as_high_in_both_faces_as_the_fonts_state_it(
    script: Face, noto: Face
) -> None:
    """OpenType 1.9, OS/2, sxHeight and sCapHeight, read by fontTools."""

    def stated(face: Face, name: str) -> float:
        font = TTFont(face.path)
        return float(getattr(font["OS/2"], name) / font["head"].unitsPerEm)

    face = helped(script, "Grek", noto)
    *_, part = lettered(face).drawn("Ms. Ελένη")
    share = stated(script, "sxHeight") / stated(noto, "sxHeight")
    assert part.share == pytest.approx(share, abs=0.0006)
    *_, part = lettered(replace(face, in_capitals=True)).drawn("Ms. Ελένη")
    share = stated(script, "sCapHeight") / stated(noto, "sCapHeight")
    assert part.share == pytest.approx(share, abs=0.0006)
    *_, part = lettered(helped(script, "Grek", noto, 0.8)).drawn("Ms. Ελένη")
    assert part.share == 0.8


def test_each_part_begins_where_fonttools_advances_end(script: Face, noto: Face) -> None:
    """The advances of hmtx, kerning being off; each in its own face's em and size."""
    plain = (("kern", 0), ("liga", 0), ("calt", 0))
    face = helped(replace(script, features=plain), "Grek", replace(noto, features=plain))
    text = "Ottoline Ελένη Penhew"
    fonts = {"": TTFont(script.path), "Grek": TTFont(noto.path)}
    pen = 0.0
    for part in lettered(face).drawn(text):
        font = fonts[part.script]
        assert part.start == pytest.approx(pen, abs=1e-9)
        cmap, widths = font.getBestCmap(), font["hmtx"]
        advance = sum(widths[cmap[ord(letter)]][0] for letter in part.words.text)
        pen += advance / font["head"].unitsPerEm * part.share


def test_a_letters_script_is_that_of_the_unicode_character_database() -> None:
    """FontTools carries Scripts.txt; HarfBuzz has tables of its own."""
    letters = [
        chr(code)
        for code in range(0x21, 0xD800, 3)
        if unicodedata.category(chr(code)) in {"Lu", "Ll", "Lo", "Lt"}
    ]
    wanted = {each: script_of(each) for each in letters if script_of(each) not in {"Zyyy", "Zinh"}}
    assert len(wanted) > 10_000
    assert {each: own_script(each) for each in wanted} == wanted


def test_words_from_right_to_left_follow_each_other_in_their_order(
    ruler: Face, hebrew: Face
) -> None:
    """Unicode Standard Annex #9: in a line to the right both Hebrew words are read from its end."""
    face = helped(ruler, "Hebr", hebrew, 1.0)
    parts = lettered(face).drawn("Dan דן כהן 12")
    found = [(part.words.text, part.script) for part in parts]
    assert found == [("Dan ", ""), ("12", ""), ("דן כהן", "Hebr")]  # 12 and a blank stand between
    (long,) = [part for part in parts if part.script]
    first, *_, last = long.words.glyphs
    assert (first, last) == (0x5DF - 0x5D0 + 2 + (1 << 16), 0x5D3 - 0x5D0 + 2 + (1 << 16))
    assert [part.start for part in parts] == pytest.approx([0.0, 2.0, 3.5])


def test_spaced_letters_are_apart_where_the_face_changes_too(ruler: Face, noto: Face) -> None:
    spaced = replace(ruler, tracking=100)
    face = helped(spaced, "Grek", replace(noto, tracking=100), 1.0)
    first, second, third = lettered(face).drawn("Ida Ελένη Ash")
    assert second.start == pytest.approx(4 * 0.5 + 2 * 0.1 + 0.1)  # Ida and a blank; d, a, next
    assert third.start == pytest.approx(second.start + second.words.advance / second.words.em)
    assert first.words.advance == 4 * 500 + 2 * 100


def test_a_note_tells_which_words_stand_in_which_face(
    script: Face, noto: Face, envelope: Layout, white: Ink
) -> None:
    face = helped(script, "Grek", noto)
    setting, (note,) = set_one("Ms. Ελένη Πένχου", face, envelope, white)
    assert (note.severity, note.code, note.household) == (Severity.NOTE, "face-stepped-in", "h-a")
    assert note.text == (
        "“Ελένη Πένχου” is set in Noto Serif at 61 % of the line's size: Great Vibes has no Greek."
    )
    assert setting.pieces[0].fallbacks == ((0, "Grek"),)
    assert setting.lettered == "Great Vibes, some words in Noto Serif"


@pytest.mark.parametrize("chosen", ["Cyrl", "Hebr"])
def test_without_a_face_for_that_script_the_household_is_held(
    script: Face, noto: Face, envelope: Layout, white: Ink, chosen: str
) -> None:
    face = helped(script, chosen, noto)
    setting, (stop,) = set_one("Ms. Ελένη", face, envelope, white)
    assert (setting.pieces, stop.code, stop.quoted) == ((), "glyph-missing", "Ελένη")


def test_a_letter_that_the_other_face_lacks_too_is_told_of_that_face(
    script: Face, hebrew: Face, envelope: Layout, white: Ink
) -> None:
    face = helped(script, "Hebr", hebrew)
    setting, (stop,) = set_one("Mr. דָן", face, envelope, white)
    assert setting.pieces == ()
    assert stop.text.startswith("Bars has no ")
    assert "HEBREW POINT QAMATS" in stop.text


def test_a_face_that_need_not_step_in_changes_nothing(
    script: Face, noto: Face, envelope: Layout, white: Ink
) -> None:
    plain, _ = set_one("Ottoline Penhew", script, envelope, white)
    ready, findings = set_one("Ottoline Penhew", helped(script, "Grek", noto), envelope, white)
    assert ready.pieces == plain.pieces
    assert list(stream(ready)[0]) == list(stream(plain)[0])
    assert not findings


def test_ink_is_measured_over_all_faces(
    script: Face, noto: Face, envelope: Layout, white: Ink
) -> None:
    setting, _ = set_one("Ελένη Παπαδοπούλου Penhew", helped(script, "Grek", noto), envelope, white)
    pages, _ = stream(setting)
    (page,) = pages
    lefts = [x + words.ink[0] * size / words.em for words, x, _, size in page.lines]
    rights = [x + words.ink[2] * size / words.em for words, x, _, size in page.lines]
    room = setting.room
    assert min(lefts) - room.left == pytest.approx(room.right - max(rights), abs=0.004)
    assert all(one < other for one, other in pairwise(lefts))


@pytest.mark.parametrize(("key", "script"), [("amiri", "Arab"), ("frank-ruhl-libre", "Hebr")])
def test_arabic_and_hebrew_stand_larger_beside_a_roman_than_letters_of_one_height(
    key: str, script: str
) -> None:
    shelf = open_shelf(None)
    own, other = shelf.face("cormorant-garamond"), shelf.face(key)
    opened = open_typeface(own), open_typeface(other)
    share = share_of(own, opened[0], Fallback(script, other), opened[1])
    alike = share_of(own, opened[0], Fallback("Latn", other), opened[1])
    assert share == pytest.approx(alike * dict(other.beside)[script], abs=2e-3)
    assert share > alike
    assert share_of(own, opened[0], Fallback(script, other, 0.9), opened[1]) == 0.9


def test_a_blank_beside_a_word_that_runs_leftwards_is_as_wide_as_the_face_wants_blanks(
    ruler: Face, hebrew: Face
) -> None:
    """The blank before a house number in Hebrew is the hand's own, and as wide as all of its."""
    face = helped(replace(ruler, word_space=100), "Hebr", hebrew, 1.0)
    number, street = lettered(face).drawn("הרצל 12")
    assert (number.words.text, street.words.text) == ("12", "הרצל")
    assert street.start == pytest.approx(2 * 0.5 + 0.5 + 0.1)


@pytest.mark.parametrize("key", ["noto-serif", "playfair-display", "eb-garamond", "great-vibes"])
def test_lines_of_a_face_that_steps_in_keep_clear_of_each_other(
    envelope: Layout, white: Ink, key: str
) -> None:
    """Alif and lam rise, ya goes down; each row of the block keeps its own height."""
    shelf = open_shelf(None)
    face = within_leading(helped(shelf.face(key), "Arab", shelf.face("amiri")))
    assert isinstance(face, Face)
    lines = ("عائلة الخوري", Role.NAME), ("شارع الحمرا", Role.STREET), ("علي", Role.PLACE)
    piece = Piece("outer", "h-a", "A", (Wording(tuple(Line(*line) for line in lines)),))
    setting, _ = fit([piece], replace(CHOICE, size=20.0), envelope, face, white, 0.0)
    hand = lettered(face)
    inks = [
        (line.y + part.words.ink[1] * scale, line.y + part.words.ink[3] * scale)
        for line in setting.pieces[0].lines
        for part in hand.drawn(line.text)
        for scale in (line.size * part.share / part.words.em,)
    ]
    assert all(below[1] < above[0] + 0.04 * setting.size for above, below in pairwise(inks))
