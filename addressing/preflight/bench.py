"""What a plate's pages are held against: the order, what was set, the faces opened again."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from addressing.preflight.container import Container
from addressing.preflight.drawing import level
from addressing.preflight.faces import Faces
from addressing.preflight.laying import Laid
from addressing.preflight.sheets import (
    Side,
    marks_drawn,
    marks_of,
    sheet_order,
    sheet_setting,
    sides,
)
from addressing.preflight.skeleton import Skeleton
from addressing.preflight.turning import Wanted, is_level, moved, wanted
from addressing.preflight.values import Objection
from addressing.records.pages import Setting, numbered_alike
from addressing.records.pieces import Piece
from addressing.records.plates import PlateOrder
from addressing.records.set_lines import SetLine, SetPiece
from addressing.records.shelf import Box

Bodies = tuple[bytes, ...]


@dataclass(frozen=True, slots=True)
class Bench:
    """What every page is held against."""

    file: Container
    skeleton: Skeleton
    opening: bytes
    """How its ink begins on every page."""
    order: PlateOrder
    """That of a plate of one ink; of a composite each ink has a bench of its own."""
    setting: Setting
    pieces: Mapping[str | None, Piece]
    faces: Faces
    at: Laid
    """Where the piece lies on its page."""
    sound: bool
    """True when nothing is wrong with the file's build: only then, and where its letters are right
    too, do other libraries' readers open the file."""
    marks: tuple[Box, ...] = ()
    """What stands on every page outside the cards, where several lie on one."""
    sides: Mapping[str, Side] = field(default_factory=dict)
    """What lies on each page of sheets, by the words of its foot line."""
    parts: tuple["Bench", ...] = ()
    """What the cards of each kind on the sheets are held against."""

    @property
    def used(self) -> frozenset[int]:
        """Every letter that was asked for so far."""
        return self.faces.used.union(*(part.faces.used for part in self.parts))

    @property
    def known(self) -> int:
        """How many letters were asked for so far; more of them mean that a new one was met."""
        return self.faces.known + sum(part.faces.known for part in self.parts)

    def expected(self, index: int) -> SetPiece | None:
        """The piece that should stand on the page of this index (from 0)."""
        placed = self.setting.pieces
        return placed[index] if index < len(placed) else None

    def own(self, placed: SetPiece) -> tuple[SetLine, ...]:
        """The lines of a set piece that are in the plate's ink; of a base, all."""
        order = self.order
        if order.chokes or not (self.setting.two_inks or order.varnish):
            return placed.lines
        return tuple(line for line in placed.lines if order.bears(self.setting, line.role))

    def bodies(self, placed: SetPiece) -> Bodies:
        """What a page must draw, line by line, for a set piece."""
        own = self.own(placed)
        if self.parts or not is_level(self.setting):
            return tuple(each.body for each in self.turned(placed, own))
        drawn = (self.faces.line(line).drawn for line in own)
        return tuple(part.line.body for parts in drawn for part in parts)

    def turned(self, placed: SetPiece, lines: Sequence[SetLine]) -> tuple[Wanted, ...]:
        """What lines of a set piece must draw that are bent, turned or on sheets; else ()."""
        if self.parts:
            return tuple(self._on_sheet(placed))
        if is_level(self.setting) or not placed.lines:
            return ()
        ready = [(line, self.faces.line(line)) for line in lines]
        return tuple(wanted(ready, self.setting, self.faces, placed.lines[0].y))

    def _on_sheet(self, placed: SetPiece) -> Iterator[Wanted]:
        """All that a page of sheets must draw: its cards' lines where they lie, its foot line."""
        foot = placed.lines[-1]
        side = self.sides[foot.text]
        number = 0
        for lying in side.cards:
            part = self.parts[lying.part]
            card = part.setting.pieces[lying.card]
            own = part.own(card)
            for want in part.turned(card, own) or level([(o, part.faces.line(o)) for o in own]):
                yield moved(want, lying.box, number, over=lying.over)
            number += len(own)
        if foot in self.own(placed):
            for want in level([(foot, self.faces.line(foot))]):
                yield replace(want, number=number + 1)


def on_sheets(benches: Sequence[Bench]) -> Bench:
    """The bench as pages go where several cards lie on one: what must stand on each sheet.

    `benches` are those of the kinds on the plate, in order.

    Raises:
        Objection: the orders lay cards or marks where they can't be.
    """
    bench = benches[0]
    at = bench.order.sheets
    if at is None:
        return bench
    pages = sides([each.order for each in benches])
    marks = marks_of(at)
    return replace(
        bench,
        opening=bench.opening + marks_drawn(marks),
        order=sheet_order(bench.order, at, pages),
        setting=sheet_setting(bench.order, pages, [each.setting for each in benches]),
        marks=marks,
        sides={page.foot.text: page for page in pages},
        parts=tuple(benches),
    )


def sharing_faults(benches: Sequence[Bench]) -> Iterator[str]:
    """Whether the kinds on a plate may share it: each once, of one ink, lettered alike."""
    first = benches[0]
    kinds = [bench.order.kind for bench in benches]
    if len(set(kinds)) != len(kinds):
        yield "A kind is on the plate twice."
    for bench in benches[1:]:
        order, setting = bench.order, bench.setting
        if (order.ink, order.name) != (first.order.ink, first.order.name):
            yield f"The {order.kind} pieces were ordered for another plate."
        alike = numbered_alike(setting.hands, first.setting.hands)
        if not alike or (setting.chosen, order.chokes) != (
            first.setting.chosen,
            first.order.chokes,
        ):
            yield f"The {order.kind} pieces are lettered otherwise than the plate."


Part = tuple[PlateOrder, Setting, Sequence[Piece]]
"""What the judge is given of a kind on a plate."""

Opened = list[tuple[PlateOrder, Setting, Sequence[Piece], Faces]]
"""What one ink is held against, of each kind on the plate."""


def opened_for(parts: Sequence[Part], number: int) -> Opened:
    """The orders, settings and faces of all kinds for the ink of this number (from 0)."""
    made = []
    for order, its, pieces in parts:
        if number >= len(order.apart):
            raise Objection("The kinds on a plate aren't in the same inks.")
        own = order.apart[number]
        made.append((own, its, pieces, Faces(its, own, beside=bool(order.layers))))
    return made


def by_household(order: PlateOrder, pieces: Sequence[Piece]) -> dict[str | None, Piece]:
    """The pieces of an order's kind, each by its household."""
    return {piece.household: piece for piece in pieces if piece.kind == order.kind}
