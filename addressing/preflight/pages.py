"""Every page: its boxes, its stream by one grammar, its lines against the words shaped again."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache

from addressing.preflight.container import Container
from addressing.preflight.faces import Faces
from addressing.preflight.laying import Laid, unlaid
from addressing.preflight.lines import DrawnLine
from addressing.preflight.placing import ink_box, place_faults
from addressing.preflight.sheets import (
    Side,
    marks_drawn,
    marks_of,
    sheet_order,
    sheet_setting,
    sides,
)
from addressing.preflight.skeleton import Skeleton, key_faults, written
from addressing.preflight.turning import Wanted, is_level, moved, wanted
from addressing.preflight.values import Objection, Ref, quoted, read_dict
from addressing.preflight.words import word_faults
from addressing.records.pages import SetLine, SetPiece, Setting, hand_of, numbered_alike
from addressing.records.pieces import Piece
from addressing.records.plates import PlateOrder
from addressing.records.shelf import Box

BOX_SLACK = 0.0006
"""Points, by which another reader may see a box otherwise (single precision)."""
PLACE_SLACK = 0.0006
"""Points: places are written to a thousandth."""
SCALE_SLACK = 6e-9
"""Size ÷ units per em is written to eight decimals."""
LEAN_SLACK = 1e-4
"""Radians by which two readings of a face may turn a letter otherwise: half a font unit aside."""

_CONTENTS = re.compile(rb" /Contents ([1-9][0-9]{0,9}) 0 R >>\Z")
_NUMBER = rb"(?:0|-?(?:[1-9][0-9]{0,4}(?:\.[0-9]{0,%d}[1-9])?|0\.[0-9]{0,%d}[1-9]))"
_LINE = re.compile(
    rb"q (%s) (%s) (%s) \1 (%s) (%s) cm\n" % (*[_NUMBER % (7, 7)] * 3, *[_NUMBER % (2, 2)] * 2)
)
_LAID = re.compile(rb"(?:/Ink cs )?[0-9. ]{1,24}(?:scn?|k|rg|g)(?=\n)")
_PAGE_KEYS = ("Type", "Parent", "MediaBox", "BleedBox", "TrimBox", "Resources")
_STREAM_KEYS = ("Length", "Filter")
_BOXES = ("MediaBox", "BleedBox", "TrimBox")

Bodies = tuple[bytes, ...]


@dataclass(frozen=True, slots=True)
class Bench:
    """What every page is held against."""

    file: Container
    skeleton: Skeleton
    order: PlateOrder
    setting: Setting
    pieces: Mapping[str | None, Piece]
    faces: Faces
    at: Laid
    """Where the piece lies on its page."""
    sound: bool
    """True when nothing is wrong so far: only then do other libraries' readers open the file."""
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

    def expected(self, index: int) -> SetPiece | None:
        """The piece that should stand on the page of this index (from 0)."""
        placed = self.setting.pieces
        return placed[index] if index < len(placed) else None

    def own(self, placed: SetPiece) -> tuple[SetLine, ...]:
        """The lines of a set piece that are in the plate's ink; of a base, all."""
        if not self.setting.two_inks or self.order.chokes:
            return placed.lines
        ink = self.order.ink
        return tuple(line for line in placed.lines if self.setting.ink_of(line.role) == ink)

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
            for want in part.turned(card, own) or _level([(o, part.faces.line(o)) for o in own]):
                yield moved(want, lying.box, number, over=lying.over)
            number += len(own)
        if foot in self.own(placed):
            for want in _level([(foot, self.faces.line(foot))]):
                yield replace(want, number=number + 1)


@dataclass(frozen=True, slots=True)
class PageReading:
    """One page as judged.

    `wrong` are its faults without the page's name. `bodies` is what it draws when that isn't what
    the page should carry, for finding out whose piece it is.
    """

    contents: int
    lines: int
    letters: int
    wrong: tuple[str, ...] = ()
    bodies: Bodies | None = None


def judge_page(bench: Bench, index: int) -> PageReading:
    """Judge the page of this index (from 0) by everything but pixels."""
    contents = 0
    try:
        contents, wrong = _framed(bench, index)
        keys, stream = bench.file.stream(contents)
        if tuple(keys) != _STREAM_KEYS:
            wrong = (*wrong, "has a drawing with other parts than a length and a filter")
        opening = bench.skeleton.opening
        drawn = drawn_lines(unlaid(stream, opening, bench.at), opening)
    except Objection as objection:
        return PageReading(contents, 0, 0, (f"can't be read: {objection}",))
    placed = bench.expected(index)
    bodies = tuple(body for *_, body in drawn)
    if placed is None:
        return PageReading(contents, len(drawn), 0, (*wrong, "is more than was ordered"), bodies)
    ready = [(line, bench.faces.line(line)) for line in placed.lines]
    own = bench.own(placed)
    laid = ready if own is placed.lines else [each for each in ready if each[0] in own]
    turned = bench.turned(placed, own)
    belonging = turned or tuple(_level(laid))
    mislaid = tuple(_line_faults(drawn, belonging))
    wrong = (*wrong, *mislaid)
    if bench.order.sheets is None:  # cards on sheets were judged one by one (card_faults)
        wrong = (*wrong, *_set_faults(bench, placed, ready))
    letters = sum(line.letters for _, line in laid)
    return PageReading(contents, len(drawn), letters, wrong, bodies if mislaid else None)


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
    opening = bench.skeleton.opening + marks_drawn(marks)
    return replace(
        bench,
        skeleton=replace(bench.skeleton, opening=opening),
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
        if not alike or (setting.inks, order.chokes) != (first.setting.inks, first.order.chokes):
            yield f"The {order.kind} pieces are lettered otherwise than the plate."


def card_faults(bench: Bench) -> Iterator[str]:
    """Each card by itself, before it is looked for on a sheet: words, faces, room, lines."""
    for number, placed in enumerate(bench.setting.pieces, start=1):
        ready = [(line, bench.faces.line(line)) for line in placed.lines]
        name = f"Card {number}" + (f" ({placed.household})" if placed.household else "")
        for wrong in _set_faults(bench, placed, ready):
            yield f"{name} {wrong}."


def _framed(bench: Bench, index: int) -> tuple[int, tuple[str, ...]]:
    """The page's content stream, and what is wrong with the page's dictionary."""
    text = bench.file.plain(bench.skeleton.pages[index])
    found = _CONTENTS.search(text)
    if found is None:
        raise Objection("it has no drawing, or not as the last of its parts.")
    rest = text[: found.start()] + b" >>"
    skeleton = bench.skeleton
    boxes = _boxes(bench.at)
    right = _frame_fits(rest, skeleton.parents[index], skeleton.resources, boxes)
    return int(found[1]), () if right else tuple(_frame_faults(bench, index))


@lru_cache(maxsize=4)
def _boxes(at: Laid) -> tuple[tuple[float, ...], ...]:
    """The page's boxes as they are written: the page, the piece with its bleed, the piece."""
    piece, over = at.piece, at.over
    bleed = Box(
        piece.left - over, piece.bottom - over, piece.width + 2 * over, piece.height + 2 * over
    )
    edges = ((box.left, box.bottom, box.right, box.top) for box in (at.page, bleed, piece))
    return tuple(written(each) for each in edges)


@lru_cache(maxsize=64)
def _frame_fits(
    rest: bytes, parent: int, resources: int, boxes: tuple[tuple[float, ...], ...]
) -> bool:
    """True for a right page dictionary without its contents (alike on all pages of a branch)."""
    keys = read_dict(rest)
    return (
        tuple(keys) == _PAGE_KEYS
        and keys["Type"] == "Page"
        and keys["Parent"] == Ref(parent)
        and keys["Resources"] == Ref(resources)
        and all(keys[name] == box for name, box in zip(_BOXES, boxes, strict=True))
    )


def _frame_faults(bench: Bench, index: int) -> Iterator[str]:
    """Name what a page's dictionary has too many, too few, or wrong."""
    keys = read_dict(bench.file.plain(bench.skeleton.pages[index]))
    yield from (fault.strip() for fault in key_faults(keys, (*_PAGE_KEYS, "Contents"), ""))
    for name, box in zip(_BOXES, _boxes(bench.at), strict=True):
        if name in keys and keys[name] != box:
            wide, high = box[2] - box[0], box[3] - box[1]
            place = f" at {box[0]:g}, {box[1]:g}" if box[0] or box[1] else ""
            yield f"isn't {wide:g} × {high:g} pt{place} (its {name})"
    if keys.get("Resources") != Ref(bench.skeleton.resources):
        yield "has resources of its own"
    if keys.get("Type") != "Page" or keys.get("Parent") != Ref(bench.skeleton.parents[index]):
        yield "isn't joined to the page tree as a page"


def drawn_lines(stream: bytes, opening: bytes) -> list[tuple[complex, complex, bytes]]:
    """The step of a font unit, the place and the letters of each line of a page stream.

    Raises:
        Objection: the stream holds anything but the ink and lines.
    """
    if not stream.startswith(opening):
        raise Objection(f"it doesn't begin with the plate's ink{_beginning(stream)}.")
    parts = stream[len(opening) :].split(b"Q\n")
    if parts.pop():
        raise Objection("it draws something that isn't a line of letters.")
    drawn = []
    for part in parts:
        match = _LINE.match(part)
        if match is None:
            raise Objection("it draws something that isn't a line of letters.")
        across, up, down, x, y = match.groups()
        if down != (b"0" if up == b"0" else up[1:] if up.startswith(b"-") else b"-" + up):
            raise Objection("it draws something that isn't a line of letters.")
        step, at = complex(float(across), float(up)), complex(float(x), float(y))
        drawn.append((step, at, part[match.end() :]))
    return drawn


def _beginning(stream: bytes) -> str:
    """How a page stream begins instead; only what is surely an ink is repeated, never words."""
    if not stream:
        return ": it is empty"
    if _LINE.match(stream):
        return " but with its first line"
    laid = _LAID.match(stream)
    return f" but with {quoted(laid[0].decode('ascii'))}" if laid else ""


def _level(ready: Sequence[tuple[SetLine, DrawnLine]]) -> Iterator[Wanted]:
    """What level lines must draw."""
    for number, (line, words) in enumerate(ready, start=1):
        for part in words.drawn:
            size = line.size * part.share
            unit = size / part.line.units
            at = complex(line.x + part.start * line.size, line.y)
            yield Wanted(number, size, complex(unit), at, part.line.body, ink_box(line, words))


def _line_faults(
    drawn: list[tuple[complex, complex, bytes]], belonging: Sequence[Wanted]
) -> Iterator[str]:
    """Each drawn line against its words: letters, place, size, and how it is turned."""
    if not drawn and belonging:
        yield "is blank"
    elif len(drawn) != len(belonging):
        yield f"has {len(drawn)} lines where {len(belonging)} belong"
    for (step, at, body), want in zip(drawn, belonging, strict=False):
        number, off = want.number, at - want.at
        if body != want.body:
            yield f"has other letters in line {number} than its words ask for"
        if abs(off.real) > PLACE_SLACK or abs(off.imag) > PLACE_SLACK:
            moved = f"{abs(off.real):.3f} pt aside and {abs(off.imag):.3f} pt up or down"
            yield f"has line {number} {moved} from its place"
        if abs(abs(step) - abs(want.step)) > SCALE_SLACK * (1.5 if want.bent else 1.0):
            yield f"has line {number} in another size than {want.size:g} pt"
        slack = LEAN_SLACK * abs(want.step) if want.bent else SCALE_SLACK
        if abs(step - want.step) > 2 * slack:
            yield f"has line {number} turned otherwise than it is set"


def _set_faults(
    bench: Bench, placed: SetPiece, ready: list[tuple[SetLine, DrawnLine]]
) -> Iterator[str]:
    """The set piece against its wording, its room and the face; the plate was held against it."""
    for number, (_, words) in enumerate(ready, start=1):
        if words.missing:
            yield f"asks in line {number} for a letter that the face doesn't have"
        if not words.letters:
            yield f"has no ink in line {number}"
    helped = (
        (hand_of(line.role) if bench.setting.second else 0, part.script)
        for line, words in ready
        for part in words.parts
        if part.script
    )
    if tuple(dict.fromkeys(helped)) != placed.fallbacks:
        yield "has words in other faces than the set says"
    piece = bench.pieces.get(placed.household)
    if piece is None:
        yield "carries a piece that was never worded"
    else:
        yield from word_faults(piece, placed)
    yield from place_faults(ready, bench.setting, bench.turned(placed, placed.lines))
