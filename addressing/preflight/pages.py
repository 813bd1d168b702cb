"""Every page: its frame, its stream, its lines against the words shaped again, its wording."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from addressing.preflight.bench import Bench, Bodies
from addressing.preflight.drawing import drawn_lines, level, line_faults
from addressing.preflight.frames import framed
from addressing.preflight.hanging import hanging_ends
from addressing.preflight.laying import unlaid
from addressing.preflight.lines import DrawnLine
from addressing.preflight.placing import place_faults
from addressing.preflight.values import Objection, quoted
from addressing.preflight.words import word_faults
from addressing.records.pages import hand_of
from addressing.records.set_lines import SetLine, SetPiece
from addressing.records.swiftly import swiftly

_STREAM_KEYS = ("Length", "Filter")


@swiftly
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


def judge_page(layers: Sequence[Bench], index: int) -> PageReading:
    """Judge the page of this index (from 0) by everything but pixels.

    `layers` are the benches of the plate's inks, in the order in which they are laid down.
    """
    bench, contents = layers[0], 0
    try:
        contents, wrong = framed(bench.file, bench.skeleton, bench.at, index)
        keys, stream = bench.file.stream(contents)
        if tuple(keys) != _STREAM_KEYS:
            wrong = (*wrong, "has a drawing with other parts than a length and a filter")
    except Objection as objection:
        return PageReading(contents, 0, 0, (f"can't be read: {objection}",))
    return judge_drawing(layers, index, stream, (contents, wrong))


def judge_drawing(
    layers: Sequence[Bench], index: int, stream: bytes, framed_as: tuple[int, tuple[str, ...]]
) -> PageReading:
    """Judge what a page draws; `framed_as` is its object, and what is wrong with its frame."""
    bench, (contents, wrong) = layers[0], framed_as
    try:
        parts = layer_parts(stream, layers)
        drawn = [drawn_lines(part, its.opening) for part, its in zip(parts, layers, strict=True)]
    except Objection as objection:
        return PageReading(contents, 0, 0, (f"can't be read: {objection}",))
    placed = bench.expected(index)
    bodies = tuple(body for its in drawn for *_, body in its)
    if placed is None:
        return PageReading(contents, len(bodies), 0, (*wrong, "is more than was ordered"), bodies)
    letters, mislaid = 0, []
    for its, layer in zip(drawn, layers, strict=True):
        told, many = _layer_faults(layer, placed, its)
        name = f", in the layer of {quoted(layer.order.ink.spot)}" if len(layers) > 1 else ""
        mislaid += [f"{fault}{name}" for fault in told]
        letters += many
    wrong = (*wrong, *mislaid)
    if bench.order.sheets is None:  # cards on sheets were judged one by one (card_faults)
        ready = [(line, bench.faces.line(line)) for line in placed.lines]
        wrong = (*wrong, *_set_faults(bench, placed, ready))
    return PageReading(contents, len(bodies), letters, wrong, bodies if mislaid else None)


def layer_parts(stream: bytes, layers: Sequence[Bench]) -> tuple[bytes, ...]:
    """What a page draws in each ink, from the line that lays the ink on.

    The step to the piece's place stands in the first one's part; it is judged and left out.

    Raises:
        Objection: an ink isn't there, or in another order, or the piece is laid elsewhere.
    """
    parts, rest = [], stream
    for layer in reversed(layers[1:]):
        before, found, behind = rest.rpartition(b"\n" + layer.opening)
        if not found:
            raise Objection(f"it lacks the layer of {quoted(layer.order.ink.spot)}, or its place.")
        parts.append(layer.opening + behind)
        rest = before + b"\n"
    first = layers[0]
    unmarked = first.parts[0].opening if first.marks else None
    if unmarked and rest.startswith(unmarked) and not rest.startswith(first.opening):
        raise Objection("its cutting marks aren't those that were ordered.")
    return (unlaid(rest, first.opening, first.at), *reversed(parts))


def _layer_faults(
    bench: Bench, placed: SetPiece, drawn: Sequence[tuple[complex, complex, bytes]]
) -> tuple[tuple[str, ...], int]:
    """What is wrong with the lines of one ink, and how many letters it should have."""
    own = bench.own(placed)
    laid = [(line, bench.faces.line(line)) for line in own]
    belonging = bench.turned(placed, own) or tuple(level(laid))
    return tuple(line_faults(drawn, belonging)), sum(line.letters for _, line in laid)


def card_faults(bench: Bench) -> Iterator[str]:
    """Each card by itself, before it is looked for on a sheet: words, faces, room, lines."""
    for number, placed in enumerate(bench.setting.pieces, start=1):
        ready = [(line, bench.faces.line(line)) for line in placed.lines]
        name = f"Card {number}" + (f" ({placed.household})" if placed.household else "")
        for wrong in _set_faults(bench, placed, ready):
            yield f"{name} {wrong}."


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
    ends = hanging_ends(bench.setting, bench.faces)
    yield from place_faults(ready, bench.setting, bench.turned(placed, placed.lines), ends)
