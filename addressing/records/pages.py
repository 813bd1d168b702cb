"""Lines shaped, fitted and placed: what ink goes where.

A shaped line is a row of words, each a record with tuples of numbers, made once for equal words;
there is no record for a glyph (measured: it would cost a third of the time). Font units inside a
line, points on a page.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from math import inf

from addressing.records.live import LiveFace
from addressing.records.pieces import Role
from addressing.records.set_lines import SetPiece
from addressing.records.shelf import Box, Face, Ink, Layout, Zone
from addressing.records.swiftly import swiftly

FACE = 1 << 16
"""A glyph of a set is known by its number in its font, and this much more for each face before."""

Segment = tuple[str, tuple[float, ...]]
"""One step of an outline in font units: "m" or "l" and (x, y), "c" and six numbers, "h" and ()."""


Span = tuple[int, int, float, float, float, float]
"""How far the pen goes on and rises over a word; left, bottom, right and top of the word's ink from
the pen (upside down for none). A plain tuple, since it is taken apart for every word of a line."""


@swiftly
@dataclass(frozen=True, slots=True)
class Word:
    """Glyphs that follow each other in font units, often those of one word and the blank before it.

    `glyphs[i]` has its origin at (`xs[i]`, `ys[i]`) from the pen, which then goes on as `span`
    says. A word that recurs is one record, so what is drawn of it may be remembered by that.
    """

    glyphs: tuple[int, ...]
    xs: tuple[int, ...]
    ys: tuple[int, ...]
    span: Span


@swiftly
@dataclass(frozen=True, slots=True)
class ShapedLine:
    """A line as glyphs, in font units: words one behind the other, from left to right.

    `em` is how many units make an em.
    """

    text: str
    words: tuple[Word, ...]
    em: int

    @property
    def advance(self) -> int:
        """The sum of advances."""
        return sum([word.span[0] for word in self.words])

    @property
    def ink(self) -> tuple[float, float, float, float]:
        """The bounds of the ink: left, bottom, right, top; all nought where there is none."""
        return self.ink_in(1)

    def ink_in(self, unit: float) -> tuple[float, float, float, float]:
        """The same in another unit, of so many font units.

        One of the hottest places of typesetting: comparisons stand where min and max would take
        half of the time.
        """
        pen = height = 0
        left = bottom = inf
        right = top = -inf
        for word in self.words:
            advance, rise, start, low, end, high = word.span
            first, last = pen + start, pen + end
            if height:  # hardly ever
                low, high = height + low, height + high
            if first < left:  # noqa: PLR1730 - see above
                left = first
            if last > right:  # noqa: PLR1730 - see above
                right = last
            if low < bottom:  # noqa: PLR1730 - see above
                bottom = low
            if high > top:  # noqa: PLR1730 - see above
                top = high
            pen += advance
            height += rise
        if left <= right:
            return left / unit, bottom / unit, right / unit, top / unit
        return 0.0, 0.0, 0.0, 0.0

    def placed(self) -> Iterator[tuple[int, int, int]]:
        """Each glyph and the x and y of its origin, from the line's."""
        pen = height = 0
        for word in self.words:
            for glyph, x, y in zip(word.glyphs, word.xs, word.ys, strict=True):
                yield glyph, pen + x, height + y
            pen += word.span[0]
            height += word.span[1]

    @property
    def glyphs(self) -> tuple[int, ...]:
        """All glyphs."""
        return tuple([glyph for word in self.words for glyph in word.glyphs])

    @property
    def xs(self) -> tuple[int, ...]:
        """The x of each glyph's origin."""
        return tuple([x for _, x, _ in self.placed()])

    @property
    def ys(self) -> tuple[int, ...]:
        """The y of each glyph's origin."""
        return tuple([y for _, _, y in self.placed()])


def hand_of(role: Role) -> int:
    """Which hand letters a line, where there are two: 0 the names, 1 all else."""
    return 0 if role is Role.NAME else 1


def faces_of(hands: Sequence[Face]) -> tuple[Face, ...]:
    """The faces of a set in the order of their numbers; those that draw alike are one.

    First the hands' own, then those that set words for them.
    """
    known: dict[tuple[object, ...], Face] = {}
    for face in (*hands, *(other.face for hand in hands for other in hand.fallbacks)):
        known.setdefault(face.drawing, face)
    return tuple(known.values())


def numbered_alike(some: Sequence[Face], others: Sequence[Face]) -> bool:
    """True when the letters of two sets have the same numbers: the one has the other's faces first.

    Only such sets may share a plate.
    """
    faces = (faces_of(some), faces_of(others))
    return all(one.drawing == other.drawing for one, other in zip(*faces, strict=False))


@dataclass(frozen=True, slots=True)
class Second:
    """The second hand of a set: how all lines but the names are lettered.

    `ratio` is its size as a part of the names'. Lengths are in points, at the set's size: `leading`
    between two lines of this hand, `gap` is how much more stands where the hand changes.
    """

    face: Face
    ratio: float
    leading: float
    gap: float
    ink: Ink | None = None
    """Its own ink; None is the names'."""


@dataclass(frozen=True, slots=True)
class Underbase:
    """An ink that lies under all lines of a set, drawn in by `choke` points at the set's size."""

    ink: Ink
    choke: float


OVER = ("all", "names", "address")
"""Over what a varnish lies: all lines, the names, or all lines but the names."""


@dataclass(frozen=True, slots=True)
class Varnish:
    """A clear coat laid over lines, letter by letter; `over` is one of OVER."""

    ink: Ink
    over: str = "names"

    def covers(self, role: Role) -> bool:
        """True when it lies over lines of that role."""
        return self.over == "all" or (self.over == "names") == (hand_of(role) == 0)


@dataclass(frozen=True, slots=True)
class Setting:
    """A whole set: the same layout, face, ink and size for every piece of one kind.

    `ink` is the names', and all else's where the second hand has none of its own.

    With a `second` hand, face, size and leading are those of the names. Between the baselines of
    two lines stands the mean of their leadings, and the gap where the hand changes.
    """

    kind: str
    layout: Layout
    zone: Zone
    room: Box
    """Where ink may fall: the zone within what the device or shop can print."""
    face: Face
    ink: Ink
    size: float
    leading: float
    pieces: Sequence[SetPiece]
    second: Second | None = None
    tighten: int = 0
    """The most by which letters may be closer, thousandths of an em."""
    underbase: Underbase | None = None
    hits: tuple[tuple[str, int], ...] = ()
    """(an ink's key, how often it is laid down) where that isn't once."""
    varnish: Varnish | None = None
    """What is laid over some lines last."""

    @property
    def lettered(self) -> str:
        """The families of its faces, for people."""
        said = self.face.family
        if self.second is not None and self.second.face.family != said:
            said += f", address in {self.second.face.family}"
        stepped = {one for piece in self.pieces for one in piece.fallbacks}
        others = {
            other.face.family
            for number, hand in enumerate(self.hands)
            for other in hand.fallbacks
            if (number, other.script) in stepped
        }
        return said + (f", some words in {' and '.join(sorted(others))}" if others else "")

    @property
    def hands(self) -> tuple[Face, ...]:
        """The face of each hand."""
        return (self.face,) if self.second is None else (self.face, self.second.face)

    @property
    def two_inks(self) -> bool:
        """True where the second hand has an ink of its own."""
        return self.second is not None and self.second.ink is not None

    @property
    def parted(self) -> bool:
        """True where not every plate has all lines: two inks, or a varnish over some."""
        return self.two_inks or self.varnish is not None

    def ink_of(self, role: Role) -> Ink:
        """The ink of a line."""
        own = self.second.ink if self.second is not None else None
        return own if own is not None and hand_of(role) else self.ink

    def inks_of(self, pieces: Iterable[SetPiece]) -> tuple[Ink, ...]:
        """The inks in which any line of some pieces stands, the names' first."""
        own = self.second.ink if self.second is not None else None
        if own is None:
            return (self.ink,)
        found: set[int] = set()
        for piece in pieces:
            found |= {hand_of(line.role) for line in piece.lines}
            if len(found) > 1:
                break
        return tuple(ink for number, ink in enumerate((self.ink, own)) if number in found)

    @property
    def inks(self) -> tuple[Ink, ...]:
        """The inks of the set: each makes a plate of its own."""
        return self.inks_of(self.pieces)

    @property
    def laid(self) -> tuple[Ink, ...]:
        """All that is laid down, in the order of print: base, the inks upon it, varnish."""
        base = (self.underbase.ink,) if self.underbase is not None else ()
        return (*base, *self.inks, *self.coats)

    @property
    def coats(self) -> tuple[Ink, ...]:
        """The varnish, where any line has it."""
        coat = self.varnish
        if coat is None:
            return ()
        roles = (line.role for piece in self.pieces for line in piece.lines)
        return (coat.ink,) if any(map(coat.covers, roles)) else ()

    @property
    def chosen(self) -> tuple[Ink, ...]:
        """As `laid`, with inks in which no piece has a line: what was chosen for the kind."""
        base = (self.underbase.ink,) if self.underbase is not None else ()
        own = self.second.ink if self.second is not None else None
        coat = (self.varnish.ink,) if self.varnish is not None else ()
        return (*base, self.ink, *(() if own is None else (own,)), *coat)

    def hits_of(self, ink: Ink) -> int:
        """How often an ink is laid down, each time by the same plate."""
        return dict(self.hits).get(ink.key, 1)

    @property
    def passes(self) -> int:
        """How often each piece goes through, all in all."""
        return sum(map(self.hits_of, self.laid))


@swiftly
@dataclass(frozen=True, slots=True)
class Page:
    """One page: shaped lines and their places (x, y, size in points).

    A line with words of several faces is here in parts, each of one face, from left to right.
    """

    household: str | None
    lines: tuple[tuple[ShapedLine, float, float, float], ...]
    inks: tuple[int, ...] = ()
    """Of each line whose it is: 0 the names', 1 the address's; () where no plate parts them."""
    turns: tuple[tuple[float, float], ...] = ()
    """Of each line the cosine and sine of the angle by which it is turned anticlockwise about its
    origin; () where all are level. A bent line is here letter by letter."""


@dataclass(frozen=True, slots=True)
class Outlines:
    """The drawing of every glyph that a set uses, each once: cubic outlines in font units."""

    glyphs: Mapping[int, tuple[Segment, ...]] = field(default_factory=dict)
    live: tuple[LiveFace, ...] = ()
    """The set's faces in the order of their numbers, where a plate embeds them."""
