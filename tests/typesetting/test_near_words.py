"""Words whose ink nearly touches are found by their outlines, and told with what parts them."""

from dataclasses import replace

import freetype
import numpy as np
import pytest

from addressing.materials.shelf import open_shelf
from addressing.records.docket import PieceChoice
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.shelf import Face, Ink, Layout
from addressing.typesetting import Near, fit, near_words, shape_line

SHELF = open_shelf(None)
CHOICE = PieceChoice("outer", "trial", "x", "White", "deep-green", size=12.0, tighten=0)


def found(face: Face, layout: Layout, ink: Ink, *names: str) -> dict[Near, set[str]]:
    pieces = [
        Piece("outer", f"h-{number}", name, (Wording((Line(name, Role.NAME),)),))
        for number, name in enumerate(names)
    ]
    setting, findings = fit(pieces, CHOICE, layout, face, ink, 0.0)
    assert not findings
    return near_words(setting)


def featured(key: str, *tags: str) -> Face:
    face = SHELF.face(key)
    return replace(face, features=(*face.features, *((tag, 1) for tag in tags)))


@pytest.mark.parametrize(("less", "more"), [(400, None), (420, 0.02), (500, 0.1), (600, 0.2)])
def test_words_are_near_whose_ink_leaves_less_than_a_tenth_of_the_size(
    ruler: Face, envelope: Layout, white: Ink, less: int, more: float | None
) -> None:
    """Each letter of the ruler and its blank are half an em; the words are bars as high."""
    near = found(replace(ruler, word_space=-less), envelope, white, "Tim Orr")
    assert [one.words for one in near] == ([] if more is None else ["Tim Orr"])
    assert all(one.more == pytest.approx(more, abs=0.001) for one in near)


def test_each_household_with_the_pair_is_told_and_no_pair_that_stands_well(
    envelope: Layout, white: Ink
) -> None:
    names = "Jacob Green", "Ida Quill", "Mr. Jacob Green", "Geoff Grant"
    near = found(featured("great-vibes", "ss02"), envelope, white, *names)
    assert {one.words: whose for one, whose in near.items()} == {
        "Jacob Green": {"h-0", "h-2"},
        "Geoff Grant": {"h-3"},
    }


def test_so_much_wider_a_blank_parts_them_and_a_hundredth_less_does_not(
    envelope: Layout, white: Ink
) -> None:
    face = featured("great-vibes", "ss02")
    (near,) = found(face, envelope, white, "Jacob Green")
    enough = face.word_space + round(near.more * 1000) + 2
    assert found(replace(face, word_space=enough), envelope, white, "Jacob Green") == {}
    assert found(replace(face, word_space=enough - 12), envelope, white, "Jacob Green")


def test_a_tail_that_passes_under_a_word_at_a_distance_is_left_alone(
    envelope: Layout, white: Ink
) -> None:
    face = featured("eb-garamond-italic", "swsh")
    line = shape_line(face, "III Quill")
    first, second = line.words
    assert first.span[0] + second.span[2] < first.span[4]  # the boxes of both words overlap
    assert found(face, envelope, white, "III Quill") == {}
    assert [one.words for one in found(face, envelope, white, "King Quill")] == ["King Quill"]


ROMANS = "cormorant-garamond", "eb-garamond", "playfair-display", "noto-serif"


@pytest.mark.parametrize("key", ROMANS)
def test_a_roman_as_it_comes_is_never_told(envelope: Layout, white: Ink, key: str) -> None:
    names = [f"Of{last} {first}n" for last in "fgjkqry." for first in "ABCGJKLQTVWXYZbfhjk14"]
    assert found(SHELF.face(key), envelope, white, *names) == {}


def apart_by_freetype(face: Face, words: str) -> float:
    """The least distance (em) of two words' outlines as FreeType reads them, placed by HarfBuzz."""
    font = freetype.Face(str(face.path))
    line = shape_line(face, words)
    sides: list[list[np.ndarray]] = [[]]
    for glyph, x, y in line.placed():
        font.load_glyph(glyph, freetype.FT_LOAD_NO_SCALE)
        points = _sampled(font.glyph.outline)
        if not points:
            sides.append([])
        sides[-1].append(np.array(points).reshape(-1, 2) + np.array((x, y)))
    one, other = (np.concatenate(side) for side in sides)
    steps = one[:, None, :] - other[None, :, :]
    return float(np.sqrt((steps**2).sum(axis=2)).min()) / line.em


def _sampled(outline: freetype.Outline) -> list[tuple[float, float]]:
    found: list[tuple[float, float]] = []

    def line(end: freetype.Vector, _: object) -> None:
        x, y = found[-1]
        found.extend((x + (end.x - x) * t, y + (end.y - y) * t) for t in np.linspace(0, 1, 30)[1:])

    def conic(by: freetype.Vector, end: freetype.Vector, _: object) -> None:
        x, y = found[-1]
        found.extend(
            (
                (1 - t) ** 2 * x + 2 * t * (1 - t) * by.x + t * t * end.x,
                (1 - t) ** 2 * y + 2 * t * (1 - t) * by.y + t * t * end.y,
            )
            for t in np.linspace(0, 1, 12)[1:]
        )

    outline.decompose(
        None,
        move_to=lambda at, _: found.append((at.x, at.y)),
        line_to=line,
        conic_to=conic,
        cubic_to=lambda *_: pytest.fail("a TrueType face has no cubics"),
    )
    return found


@pytest.mark.parametrize(
    ("words", "tags"),
    [
        ("Jacob Green", ("ss02",)),
        ("Joseph Vale", ("ss02",)),
        ("Jacob Orr", ("ss02",)),
        ("Brett Moss", ("fina",)),
        ("David Orr", ("salt",)),
        ("Ida Quill", ("salt",)),
        ("T. Garfield", ()),
        ("Ottoline Garfield", ()),
    ],
)
def test_freetype_finds_the_same_words_near(
    envelope: Layout, white: Ink, words: str, tags: tuple[str, ...]
) -> None:
    face = featured("great-vibes", *tags)
    near = bool(found(face, envelope, white, words))
    assert near == (apart_by_freetype(face, words) < 0.1)
