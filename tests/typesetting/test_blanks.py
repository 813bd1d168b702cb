"""Words shaped apart, where a font's rules end at the blank, held against lines shaped whole."""

import io
import random
from collections.abc import Sequence
from dataclasses import replace
from hashlib import sha256
from pathlib import Path

import pytest
from fontTools.feaLib.builder import addOpenTypeFeaturesFromString
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont
from fontTools.ttLib.tables.DefaultTable import DefaultTable

from addressing.materials.shelf import open_shelf
from addressing.records.pages import ShapedLine
from addressing.records.shelf import Face
from addressing.typesetting.blanks import words_stand_alone
from addressing.typesetting.opened import OpenedFont, open_font
from addressing.typesetting.typeface import Typeface

SHELF = open_shelf(None)
LETTERS = [
    *"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789.,;:-'&()#/",
    *"ÀÇÉÑÖØÜßàçéñöøüÿŁłŐőŠšŽž’",
]
WORDS = ["and", "Mr.", "Jr.,", "Wexcombe", "Tobias", "Yvette", "van", "O’Quill", "III", "T", "1742"]
EXTRAS = (("swsh", 1), ("ss01", 1), ("dlig", 1), ("salt", 1), ("smcp", 1), ("onum", 1), ("fina", 1))


def lines(seed: int, count: int) -> list[str]:
    """Lines of words at random: usual ones, and any letters."""
    dice = random.Random(seed)  # noqa: S311 - a sample

    def word() -> str:
        if dice.random() < 0.4:
            return dice.choice(WORDS)
        return "".join(dice.choices(LETTERS, k=dice.randint(1, 7)))

    return [" ".join(word() for _ in range(dice.randint(1, 6))) for _ in range(count)]


def both(face: Face) -> tuple[Typeface, Typeface]:
    """A typeface that shapes lines whole, and one that puts them together from words."""
    font = open_font(face)
    whole, apart = Typeface(face, font), Typeface(face, font)
    apart.shape_by_words()
    return whole, apart


def seen(line: ShapedLine) -> tuple[object, ...]:
    """All that is drawn of a line and measured, however its words are cut."""
    return (*line.placed(), line.advance, line.ink, line.em, line.text)


@pytest.mark.parametrize("key", SHELF.faces())
@pytest.mark.parametrize(
    "how", ["as on the shelf", "with swashes", "spaced", "in capitals", "small"]
)
def test_a_line_put_together_from_words_is_the_line_shaped_whole(key: str, how: str) -> None:
    face = SHELF.face(key)
    face = {
        "with swashes": replace(face, features=(*face.features, *EXTRAS)),
        "spaced": replace(face, tracking=40, word_space=25),
        "in capitals": replace(face, in_capitals=True),
        "small": replace(face, small_words=True),
    }.get(how, face)
    whole, apart = both(face)
    for text in lines(len(key) * 7 + len(how), 300):
        assert seen(apart.shape(text)) == seen(whole.shape(text)), text
        assert apart.without_ink(text) == whole.without_ink(text), text


def test_a_word_that_recurs_is_one_record() -> None:
    _, apart = both(SHELF.face("great-vibes"))
    one, other = apart.shape("Odile Wexcombe Junior"), apart.shape("Tobias Wexcombe Junior")
    assert one.words[1] is other.words[1]
    assert one.words[0] is not other.words[0]


def font(feature: str) -> bytes:
    """A font of squares with one feature."""
    names = [".notdef", "space", "a", "b", "c"]
    builder = FontBuilder(1000, isTTF=True)
    builder.setupGlyphOrder(names)
    builder.setupCharacterMap({0x20: "space", **{ord(name): name for name in "abc"}})
    pen = TTGlyphPen(None)
    pen.moveTo((0, 0))
    pen.lineTo((400, 0))
    pen.lineTo((400, 400))
    pen.closePath()
    blank = TTGlyphPen(None).glyph()
    square = pen.glyph()
    builder.setupGlyf({name: blank if name == "space" else square for name in names})
    builder.setupHorizontalMetrics(dict.fromkeys(names, (500, 0)))
    builder.setupHorizontalHeader(ascent=800, descent=-200)
    builder.setupOS2()
    builder.setupPost()
    addOpenTypeFeaturesFromString(builder.font, feature)
    saved = io.BytesIO()
    builder.save(saved)
    return saved.getvalue()


@pytest.mark.parametrize(
    "feature",
    [
        "feature kern { pos a b -50; } kern;",
        "feature kern { pos a space -50; pos space b -30; } kern;",
        "feature calt { sub a' b by c; } calt;",
        "feature calt { sub space a' by c; } calt;",
        "feature calt { sub a' space by c; } calt;",
        "feature kern { pos a' -20 space; } kern;",
        "feature liga { sub a b by c; } liga;",
    ],
)
def test_rules_that_end_at_the_blank_let_words_stand_alone(feature: str) -> None:
    assert words_stand_alone(font(feature), 0)


@pytest.mark.parametrize(
    "feature",
    [
        "feature kern { pos a space <0 0 -50 0> ; pos a' -20 space b; } kern;",
        "feature calt { sub a' space b by c; } calt;",
        "feature calt { sub a space b' by c; } calt;",
        "feature calt { ignore sub a space b'; sub b' by c; } calt;",
        "feature liga { sub a space by c; } liga;",
        "feature liga { sub space b by c; } liga;",
        "feature ccmp { sub space by a; } ccmp;",
        "@x = [a space]; feature calt { sub @x b @x' by [c c]; } calt;",
        "feature calt { rsub a space b' by c; } calt;",
        "feature kern { pos a <0 0 -50 0> space <0 0 -50 0>; } kern;",
        "feature kern { pos a' space' -40 b; } kern;",
        "feature curs { pos cursive space <anchor 0 0> <anchor 500 0>; } curs;",
    ],
)
def test_rules_that_see_over_the_blank_do_not(feature: str) -> None:
    assert not words_stand_alone(font(feature), 0)


def test_a_font_with_tables_of_another_kind_is_left_alone() -> None:
    opened = TTFont(io.BytesIO(font("feature kern { pos a b -50; } kern;")))
    table = DefaultTable("morx")
    table.data = b"\0" * 8
    opened["morx"] = table
    saved = io.BytesIO()
    opened.save(saved)
    assert not words_stand_alone(saved.getvalue(), 0)


def _rows(words: Sequence[str]) -> list[str]:
    return [f"{one} {other}" for one in words for other in words]


@pytest.mark.parametrize(
    "feature",
    [
        "feature kern { pos a space -50; pos space b -30; } kern;",
        "feature calt { sub space a' by c; } calt; feature kern { pos c space -70; } kern;",
        "feature calt { sub a' space b by c; } calt;",
    ],
)
def test_no_rule_is_lost_between_words(feature: str) -> None:
    data = font(feature)
    face = Face("squares", "Squares", Path(), sha256(data).hexdigest())
    opened = OpenedFont(face, data)
    whole, apart = Typeface(face, opened), Typeface(face, opened)
    apart.shape_by_words()
    for text in _rows(["a", "b", "ab", "ba", "aa b", "a a"]):
        assert seen(apart.shape(text)) == seen(whole.shape(text)), text
