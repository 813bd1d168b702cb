"""The door out: a setting drawn page by page, each page made, handed over and forgotten."""

from collections.abc import Iterable, Iterator, Sequence

from addressing.records.pages import FACE, Outlines, Page, Setting, ShapedLine, faces_of, hand_of
from addressing.records.set_lines import SetPiece
from addressing.records.set_pieces import columned
from addressing.typesetting.bending import (
    Place,
    arcs,
    bent,
    bow,
    even_height,
    flat_room,
    turned,
)
from addressing.typesetting.lettering import Lettering, open_hands, outlines_of
from addressing.typesetting.outlines import Bounds

EXACT = 12
"""Decimals of places that are rounded only when they have been bent or turned."""


def stream(setting: Setting) -> tuple[Iterator[Page], Outlines]:
    """The pages of a setting, in the order of its pieces, and the glyphs that they draw.

    Nothing is kept but shaped lines (a bounded number) and outlines, each drawn when it is first
    asked for; so memory does not grow with the pages.

    Raises:
        Fault: the font file can't be used (exit 3).
    """
    hands = open_hands(setting.hands)
    return _pages(setting, hands), Outlines(outlines_of(hands))


def chokes(setting: Setting) -> tuple[float, ...]:
    """How far the base under a set draws in the letters of each face, in its font units.

    As ordered at the set's size; a face of both hands goes by the larger. () without a base.
    """
    base = setting.underbase
    if base is None:
        return ()
    sizes = (setting.size, setting.size * setting.second.ratio if setting.second else 0.0)
    largest: dict[tuple[object, ...], float] = {}
    units: dict[tuple[object, ...], int] = {}
    for hand, size in zip(open_hands(setting.hands), sizes, strict=False):
        for typeface in hand.faces:
            drawing = typeface.face.drawing
            largest[drawing] = max(largest.get(drawing, 0.0), size)
            units[drawing] = typeface.units_per_em
    return tuple(
        base.choke / largest[face.drawing] * units[face.drawing] for face in faces_of(setting.hands)
    )


def _pages(setting: Setting, hands: Sequence[Lettering]) -> Iterator[Page]:
    if setting.zone.turn or bow(setting.zone):
        yield from _turned_pages(setting, hands)
        return
    if any(hand.helped for hand in hands) or setting.parted:
        yield from _mixed_pages(setting, hands)
        return
    pieces = columned(setting.pieces)
    one_hand = hands[0].typeface is hands[-1].typeface
    shape, other = hands[0].typeface.shape, hands[-1].typeface.shape
    for number, (household, form, texts, xs) in enumerate(pieces.rows()):
        *_, roles, _, ys, sizes, tighter = form
        if any(tighter):
            yield _mixed_page(pieces[number], setting, hands)
            continue
        if one_hand:  # no time is lost on asking which
            shaped: Iterable[ShapedLine] = map(shape, texts)
        else:
            own = [other if hand_of(role) else shape for role in roles]
            shaped = [each(text) for each, text in zip(own, texts, strict=True)]
        yield Page(household, tuple(zip(shaped, xs, ys, sizes, strict=True)))


def _mixed_pages(setting: Setting, hands: Sequence[Lettering]) -> Iterator[Page]:
    """The pages of a set in which other faces may set words for a hand, or of two inks."""
    for piece in setting.pieces:
        yield _mixed_page(piece, setting, hands)


def _mixed_page(
    piece: SetPiece, setting: Setting, hands: Sequence[Lettering], digits: int = 3
) -> Page:
    """A page with words of other faces, of two inks, or with letters closer than the set's."""
    drawn = []
    inks: list[int] = []
    for line in piece.lines:
        own = hand_of(line.role)
        hand = hands[own % len(hands)]
        parts = (hand.closer(line.tighter) if line.tighter else hand).drawn(line.text)
        for words, start, share, *_ in parts:
            x = round(line.x + start * line.size, digits)
            drawn.append((words, x, line.y, line.size * share))
        inks += [own] * len(parts)
    return Page(piece.household, tuple(drawn), tuple(inks) if setting.parted else ())


def _turned_pages(setting: Setting, hands: Sequence[Lettering]) -> Iterator[Page]:
    """The pages of a set whose lines are bent or turned."""
    for piece in setting.pieces:
        level = _mixed_page(piece, setting, hands, EXACT)
        drawn: list[tuple[ShapedLine, float, float, float]] = []
        inks: list[int] = []
        turns: list[tuple[float, float]] = []
        placed = _placed(piece, level, setting, hands)
        for number, words, size, (x, y, cos, sin) in placed:
            drawn.append((words, round(x, 3), round(y, 3), size))
            inks += level.inks[number : number + 1]
            turns.append((cos, sin))
        yield Page(piece.household, tuple(drawn), tuple(inks), tuple(turns))


def _placed(
    piece: SetPiece, level: Page, setting: Setting, hands: Sequence[Lettering]
) -> Iterator[tuple[int, ShapedLine, float, Place]]:
    """What a level page draws, where it stands: its number there, itself, its size, its place."""
    zone, room = setting.zone, setting.room
    flat = flat_room(zone, room)
    first, axis = piece.lines[0].y, flat.left + flat.width / 2
    radius = flat.width if zone.radius is None else zone.radius
    typefaces = {each.number: each for hand in hands for each in hand.faces}
    inks = [
        [typefaces[glyph // FACE].bounds(glyph % FACE) for glyph in words.glyphs]
        for words, *_ in level.lines
    ]
    heights = _even_heights(level, inks) if bow(zone) else {}
    for number, (words, x, y, size) in enumerate(level.lines):
        if not bow(zone):
            yield number, words, size, turned(zone, room, (x, y, 1.0, 0.0))
            continue
        (arc,) = arcs(bow(zone), radius, [first - y])
        arc = arc._replace(even=heights.get(y, 0.0))
        for letter, place in bent(words, (x, y, size), arc, axis, inks[number]):
            yield number, letter, size, turned(zone, room, place)


def _even_heights(level: Page, inks: Sequence[Sequence[Bounds | None]]) -> dict[float, float]:
    """At which height (pt) the letters of each line, by its baseline, keep their distances.

    All stretches of a line go together, whatever faces set them.
    """
    reaches: dict[float, list[tuple[float, float]]] = {}
    for (words, _, y, size), own in zip(level.lines, inks, strict=True):
        scale = size / words.em
        for (_, _, up), ink in zip(words.placed(), own, strict=True):
            if ink is not None:
                reaches.setdefault(y, []).append(((up + ink[1]) * scale, (up + ink[3]) * scale))
    return {y: even_height(each) for y, each in reaches.items()}
