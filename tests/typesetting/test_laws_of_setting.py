"""Laws of typesetting, for any words that the face has letters for."""

from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from typing import Any

import hypothesis.strategies as st
import pytest
from fontTools.pens.boundsPen import BoundsPen
from fontTools.pens.transformPen import TransformPen
from fontTools.ttLib import TTFont
from hypothesis import HealthCheck, given, settings

from addressing.records.docket import AddressChoice, PieceChoice
from addressing.records.pages import FACE, Setting, ShapedLine, faces_of
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.shelf import ALIGNS, Face, Ink, Layout
from addressing.typesetting import fit, stream

CHOICE = PieceChoice("outer", "trial", "face", "White", "deep-green")
ALPHABET = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789.,-'&ÁÉÎÕÜßçñøŁłŠžÿ"

words = st.text(ALPHABET, min_size=1, max_size=16)
line_texts = st.lists(words, min_size=1, max_size=5).map(" ".join)


@st.composite
def worded_lines(draw: st.DrawFn) -> Line:
    text = draw(line_texts)
    breaks = [at + 1 for at, character in enumerate(text) if character == " "]
    return Line(text, draw(st.sampled_from(Role)), (), tuple(draw(st.permutations(breaks))))


wordings = st.lists(worded_lines(), min_size=1, max_size=6).map(lambda ls: Wording(tuple(ls)))
pieces = st.lists(wordings, min_size=1, max_size=3).map(
    lambda ws: Piece("outer", "h-a", "A", tuple(ws))
)
sets = st.lists(pieces, min_size=1, max_size=12)
choices = st.builds(
    lambda size, align: replace(CHOICE, size=size, align=align),
    st.none() | st.floats(9, 40),
    st.sampled_from([None, *ALIGNS]),
)
addresses = st.builds(AddressChoice, size=st.floats(0.2, 2))
trackings = st.integers(-50, 500)

# The fixtures are frozen records and the same for every example.
law = settings(
    max_examples=80, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)


@cache
def glyph_bounds(path: str, glyph: int) -> Any:  # noqa: ANN401 - fontTools has no types
    """A glyph's bounds by fontTools, which had no part in the setting."""
    font = _font(path)
    glyphs = font.getGlyphSet()
    pen = BoundsPen(glyphs)
    glyphs[font.getGlyphName(glyph)].draw(pen)
    return pen.bounds


@cache
def _font(path: str) -> Any:  # noqa: ANN401 - fontTools has no types
    return TTFont(path)


def ink_of(setting: Setting) -> list[tuple[float, float, float, float]]:
    """The bounds of every glyph on every page, in points."""
    pages, _ = stream(setting)
    paths = [str(face.path) for face in faces_of(setting.hands)]
    boxes = []
    for page in pages:
        turns = page.turns or ((1.0, 0.0),) * len(page.lines)
        for (line, x, y, size), (cos, sin) in zip(page.lines, turns, strict=True):
            scale = size / line.em
            if page.turns:
                boxes += list(turned_ink(line, (x, y, cos * scale, sin * scale), paths))
                continue
            for glyph, dx, dy in zip(line.glyphs, line.xs, line.ys, strict=True):
                ink = glyph_bounds(paths[glyph // FACE], glyph % FACE)
                if ink is not None:
                    left, right = (x + (dx + ink[side]) * scale for side in (0, 2))
                    bottom, top = (y + (dy + ink[side]) * scale for side in (1, 3))
                    boxes.append((left, bottom, right, top))
    return boxes


def turned_ink(
    line: ShapedLine, at: tuple[float, float, float, float], paths: list[str]
) -> Iterator[tuple[float, float, float, float]]:
    """The ink of a line that isn't level, letter by letter, by fontTools."""
    x, y, cos, sin = at
    for glyph, dx, dy in zip(line.glyphs, line.xs, line.ys, strict=True):
        font = _font(paths[glyph // FACE])
        glyphs = font.getGlyphSet()
        pen = BoundsPen(glyphs)
        place = (cos, sin, -sin, cos, x + dx * cos - dy * sin, y + dx * sin + dy * cos)
        glyphs[font.getGlyphName(glyph % FACE)].draw(TransformPen(pen, place))
        if pen.bounds is not None:
            yield pen.bounds


@law
@given(sets, choices, st.sampled_from([0, 0, 90, 180, 270]), st.none() | st.floats(60, 900))
def test_no_ink_is_ever_outside_the_room(  # noqa: PLR0913, PLR0917 - a law draws much
    script: Face,
    envelope: Layout,
    white: Ink,
    listed: list[Piece],
    choice: PieceChoice,
    turn: int,
    radius: float | None,
) -> None:
    zones = tuple(replace(zone, turn=turn, radius=radius) for zone in envelope.zones)
    setting, _ = fit(listed, choice, replace(envelope, zones=zones), script, white, 0.0)
    assert_in_room(setting)


@law
@given(sets, choices, st.floats(9, 40), st.sampled_from(["top", "middle", "bottom"]))
def test_a_piece_stands_where_it_would_stand_alone(  # noqa: PLR0913, PLR0917 - a law draws much
    script: Face,
    envelope: Layout,
    white: Ink,
    listed: list[Piece],
    choice: PieceChoice,
    size: float,
    valign: str,
) -> None:
    zones = tuple(replace(zone, valign=valign) for zone in envelope.zones)
    layout, choice = replace(envelope, zones=zones), replace(choice, size=size)
    setting, _ = fit(listed, choice, layout, script, white, 0.0)
    alone = [fit([piece], choice, layout, script, white, 0.0)[0].pieces for piece in listed]
    assert list(setting.pieces) == [piece for pieces in alone for piece in pieces]


def assert_in_room(setting: Setting) -> None:
    room, slack = setting.room, 0.002  # places are printed in thousandths of a point
    for left, bottom, right, top in ink_of(setting):
        assert left >= room.left - slack
        assert bottom >= room.bottom - slack
        assert right <= room.right + slack
        assert top <= room.top + slack


@law
@given(sets, choices, addresses, trackings, st.booleans())
def test_no_ink_of_two_hands_is_ever_outside_the_room(  # noqa: PLR0913, PLR0917 - a law draws much
    script: Face,
    roman: Face,
    envelope: Layout,
    white: Ink,
    listed: list[Piece],
    choice: PieceChoice,
    address: AddressChoice,
    tracking: int,
    capitals: bool,  # noqa: FBT001 - drawn
) -> None:
    other = replace(roman, tracking=tracking, in_capitals=capitals)
    both = replace(choice, address=address)
    setting, _ = fit(listed, both, envelope, (script, other), white, 0.0)
    assert_in_room(setting)
    for one in setting.pieces:
        names = {line.size for line in one.lines if line.role is Role.NAME}
        others = {line.size for line in one.lines if line.role is not Role.NAME}
        assert max(len(names), len(others)) == 1
        for size in names if others else ():
            assert max(others) == pytest.approx(size * address.size, abs=1e-6)


@law
@given(sets, choices)
def test_every_word_of_the_wording_that_was_taken_is_set_in_order(
    script: Face, envelope: Layout, white: Ink, listed: list[Piece], choice: PieceChoice
) -> None:
    numbered = [replace(piece, household=f"h-{n}") for n, piece in enumerate(listed)]
    setting, findings = fit(numbered, choice, envelope, script, white, 0.0)
    by_key = {piece.household: piece for piece in numbered}
    for one in setting.pieces:
        expected = by_key[one.household].wordings[one.wording].lines
        for source, line in enumerate(expected):
            parts = [part.text for part in one.lines if part.source == source]
            assert " ".join(parts) == line.text
        assert [line.source for line in one.lines] == sorted(line.source for line in one.lines)
        sides = {line.role is Role.NAME for line in one.lines}
        for side in sides if setting.zone.align == "columns" else {None}:
            heights = [line.y for line in one.lines if side in (None, line.role is Role.NAME)]
            assert heights == sorted(heights, reverse=True)
    held = {finding.household for finding in findings if finding.holds}
    kept = [one.household for one in setting.pieces]
    assert kept == [piece.household for piece in numbered if piece.household not in held]


@law
@given(sets)
def test_every_piece_has_the_sets_size_or_a_note_that_says_otherwise(
    script: Face, envelope: Layout, white: Ink, listed: list[Piece]
) -> None:
    setting, findings = fit(listed, CHOICE, envelope, script, white, 0.0)
    assert CHOICE.smallest <= setting.size <= CHOICE.largest
    smaller = 0
    for one in setting.pieces:
        (size,) = {line.size for line in one.lines}
        assert setting.size * 0.85 - 1e-6 <= size <= setting.size
        smaller += size < setting.size
    assert smaller == sum(finding.code == "size-stepped" for finding in findings)


@law
@given(sets)
def test_setting_twice_gives_the_same(
    script: Face, envelope: Layout, white: Ink, listed: list[Piece]
) -> None:
    once = fit(listed, CHOICE, envelope, script, white, 0.0)
    assert fit(listed, CHOICE, envelope, script, white, 0.0) == once
