"""Words all in capitals: as small capitals among small capitals, in another face in a script."""

from dataclasses import replace
from importlib.resources import files
from pathlib import Path

import pytest
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.ttLib import TTFont

from addressing.records.shelf import CAPITALS, Face, Fallback
from addressing.typesetting import shape_line
from addressing.typesetting.lettering import Part, open_hands

SMALL = (("kern", 1), ("smcp", 1))


@pytest.fixture(scope="session")
def italic() -> Face:
    path = files("fontpkg_cormorant_garamond") / "files" / "CormorantGaramond-Italic[wght].ttf"
    return Face("italic", "Cormorant Garamond Italic", Path(str(path)), "")


def parts_of(face: Face, text: str) -> tuple[Part, ...]:
    (hand,) = open_hands((face,))
    return hand.drawn(text)


@pytest.mark.parametrize(
    ("text", "apart"),
    [
        ("Tobias Ash III", ["III"]),
        ("Tobias Ash III, M.D.", ["III,"]),
        ("FRANCE", ["FRANCE"]),
        ("UNITED KINGDOM", ["UNITED KINGDOM"]),
        ("London SW1A 1AA", ["SW1A 1AA"]),
        ("J. R. Quill", []),
        ("J.R. Quill", []),
        ("14 Larkmoor Lane", []),
        ("Minnesota 55802", []),
        ("Ottoline McHale", []),
    ],
)
def test_another_face_sets_words_in_capitals_and_codes_but_no_initials_and_no_figures(
    script: Face, italic: Face, text: str, apart: list[str]
) -> None:
    parts = parts_of(replace(script, fallbacks=(Fallback(CAPITALS, italic, 1.0),)), text)
    assert [part.words.text for part in parts if part.script] == apart
    assert "".join(part.words.text for part in parts) == text


def test_words_in_capitals_are_drawn_as_the_fonts_own_small_capitals(roman: Face) -> None:
    """The substitution c2sc of the font's GSUB, applied by hand with fontTools."""
    set_small = replace(roman, features=SMALL, small_words=True)
    glyphs = shape_line(set_small, "FRANCE").glyphs
    font = TTFont(roman.path)
    small: dict[str, str] = {}
    gsub = font["GSUB"].table
    for record in gsub.FeatureList.FeatureRecord:
        if record.FeatureTag == "c2sc":
            for number in record.Feature.LookupListIndex:
                for table in gsub.LookupList.Lookup[number].SubTable:
                    small |= getattr(getattr(table, "ExtSubTable", table), "mapping", {})
    cmap = font.getBestCmap()
    drawn = font.getGlyphSet()

    def steps(name: str) -> list[object]:
        pen = DecomposingRecordingPen(drawn)
        drawn[name].draw(pen)
        return list(pen.value)

    wanted = [steps(small[cmap[ord(letter)]]) for letter in "FRANCE"]
    assert [steps(font.getGlyphName(glyph)) for glyph in glyphs] == wanted


@pytest.mark.parametrize("text", ["J. R. Quill", "Washington, D.C.", "SW1A 1AA", "McHale"])
def test_initials_codes_and_mixed_words_keep_their_capitals(roman: Face, text: str) -> None:
    kept = replace(roman, features=SMALL)
    small = replace(kept, small_words=True)
    assert shape_line(small, text).glyphs == shape_line(kept, text).glyphs


def test_a_country_stands_no_higher_than_the_small_letters_of_its_neighbours(roman: Face) -> None:
    small = replace(roman, features=SMALL, small_words=True)
    lyon = shape_line(small, "yon")
    assert shape_line(small, "FRANCE").ink[3] == pytest.approx(lyon.ink[3], rel=0.06)
    assert shape_line(replace(small, small_words=False), "FRANCE").ink[3] > 1.3 * lyon.ink[3]


def test_a_face_that_lacks_the_capitals_leaves_them_to_the_line(script: Face, ruler: Face) -> None:
    """The ruler has nothing beyond ASCII."""
    face = replace(script, fallbacks=(Fallback(CAPITALS, ruler, 1.0),))
    assert [part.script for part in parts_of(face, "Ash ÅSA")] == [""]
