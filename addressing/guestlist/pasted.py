"""Reads text that was pasted from a mail: one household a block of lines, or one a line.

A block has the names first, then the lines of the address; blank lines, bullets and numbers part
the blocks. What else a mail holds (heads, greetings, signatures, headings) is listed as not used.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from addressing.guestlist.grid import Cell, Grid, Row
from addressing.guestlist.mail_lines import (
    Line,
    cleaned,
    closes,
    has_title,
    is_aside,
    is_name,
    is_place,
    labelled,
    split_line,
    why_no_guest,
)
from addressing.guestlist.repair import repair_text, turns
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Repair, UnusedRow
from addressing.where import Where

_STREETS = (("address", 1), ("street2", 1), ("street2", 2), ("street2", 3))
_MOSTLY = 0.5
"""So many of the lines must belong to households, or the text is something else."""
_LONGEST_SIGNATURE = 8
_LONGEST_LINE = 500
_JOINERS = ("and ", "& ", "+ ", "und ", "et ", "y ")
_NOT_READ = "no household could be read in it"
_SHOWN = 3

Slot = tuple[str, int]
"""A meaning of a column and its ordinal."""
Slots = dict[Slot, list[Line]]


@dataclass(slots=True)
class _Text:
    """What is gathered from a text."""

    households: list[tuple[int, Slots]] = field(default_factory=list)
    unused: list[tuple[Line, str]] = field(default_factory=list)
    lines: int = 0

    def leave(self, lines: Iterable[Line], why: str) -> None:
        """List lines as not used; one that wasn't read may be told to be a part of any mail."""
        for line in lines:
            known = why_no_guest(line) if why == _NOT_READ else None
            self.unused.append((line, known or why))


def read_pasted(
    file: str, text: str
) -> tuple[Grid, tuple[Finding, ...], tuple[Repair, ...]] | None:
    """The households of a pasted text as a grid whose columns are known; None for another text.

    Each cell's `Where` is column A of its line.
    """
    raws = text.splitlines()
    if any(len(raw) > _LONGEST_LINE for raw in raws):
        return None  # no mail; and the patterns below take the square of a line's length
    lines = [cleaned(number, raw) for number, raw in enumerate(raws, start=1)]
    found = _Text(lines=sum(bool(line.text) for line in lines))
    for block in _without_signature(found, _blocks(lines)):
        _read_block(found, block)
    used = sum(len(held) for _, slots in found.households for held in slots.values())
    if not found.households or used < found.lines * _MOSTLY - _others(found):
        return None
    return _grid(file, found)


def _others(found: _Text) -> float:
    """Lines that a mail has anyway count neither for nor against."""
    return sum(why != _NOT_READ for _, why in found.unused) * _MOSTLY


def _blocks(lines: Sequence[Line]) -> Iterator[list[Line]]:
    """Lines that stand together; a bullet opens a block too."""
    block: list[Line] = []
    for line in lines:
        if block and (not line.text or line.opens):
            yield block
            block = []
        if line.text:
            block.append(line)
    if block:
        yield block


def _without_signature(found: _Text, blocks: Iterable[list[Line]]) -> Iterator[list[Line]]:
    """The blocks without the lines from a closing ("Best,") to the end of a signature."""
    closed = False
    for block in blocks:
        end = next((at for at, line in enumerate(block) if closes(line)), None)
        if closed and len(block) <= _LONGEST_SIGNATURE and not block[0].opens:
            found.leave(block, "the signature of a mail")
            closed = False
        elif end is None:
            yield block
        else:
            found.leave(block[end:], "the signature of a mail")
            closed = end == len(block) - 1
            if end:
                yield block[:end]


def _read_block(found: _Text, block: list[Line]) -> None:
    """Read a block as one household, or line by line."""
    lines = [line for line in block if why_no_guest(line) is None]
    found.leave((line for line in block if why_no_guest(line) is not None), _NOT_READ)
    split = [(line, parts) for line in lines if (parts := split_line(line.text)) is not None]
    if split and len(split) * 2 >= len(lines):
        apart = {line.number for line, _ in split}
        found.leave((line for line in lines if line.number not in apart), _NOT_READ)
        for line, (name, address) in split:
            slots = {
                ("name", 1): [Line(line.number, name)],
                _STREETS[0]: [Line(line.number, address)],
            }
            found.households.append((line.number, slots))
        return
    read = _slots(lines)
    if read is None:
        found.leave(lines, _NOT_READ)
    elif read:
        found.households.append((lines[0].number, read))


def _slots(lines: Sequence[Line]) -> Slots | None:
    """What each line of a household is; None where the lines are no household."""
    slots: Slots = {}
    plain: list[Line] = []
    for line in lines:
        label = labelled(line)
        if label is not None:
            hit, value = label
            slots.setdefault((hit.meaning, hit.ordinal), []).append(Line(line.number, value))
        elif plain and is_aside(line.text):
            slots.setdefault(("notes", 1), []).append(line)
        else:
            plain.append(line)
    names, address = _names_and_address(plain)
    if not names and not any(meaning in ("name", "given", "household") for meaning, _ in slots):
        return None if lines else {}
    told = any(is_place(line.text) for line in address) or len(slots) > 1
    if not told and not (names and len(lines) <= _SHOWN and has_title(names[0].text)):
        return None
    _take_names(slots, names)
    for place, line in enumerate(address):
        slots.setdefault(_STREETS[min(place, len(_STREETS) - 1)], []).append(line)
    return slots


def _names_and_address(lines: Sequence[Line]) -> tuple[list[Line], list[Line]]:
    """Names come first; the first line that isn't one begins the address."""
    if not lines or not is_name(lines[0].text) or is_place(lines[0].text):
        return [], list(lines)
    end = 1
    while end < len(lines) and _names_more(lines[end].text):
        end += 1
    return list(lines[:end]), list(lines[end:])


def _names_more(text: str) -> bool:
    return is_name(text) and not is_place(text) and (has_title(text) or _joins(text))


def _joins(text: str) -> bool:
    return text.casefold().startswith(_JOINERS)


def _take_names(slots: Slots, names: Sequence[Line]) -> None:
    """Each line of names is a person's column; one that opens with "and" goes on with the last."""
    ordinal = 0
    for line in names:
        if not _joins(line.text) or not ordinal:
            ordinal += 1
        slots.setdefault(("name", ordinal), []).append(line)


def _grid(file: str, found: _Text) -> tuple[Grid, tuple[Finding, ...], tuple[Repair, ...]]:
    repairs: list[Repair] = []
    order = sorted({slot for _, slots in found.households for slot in slots}, key=_place_of)
    rows = [
        Row(None, number, tuple(_cell(file, slots.get(slot), repairs) for slot in order))
        for number, slots in found.households
    ]
    unused = tuple(UnusedRow(None, line.number, why) for line, why in _in_order(found.unused))
    grid = Grid(
        file, None, tuple(sorted(rows, key=lambda row: row.number)), meanings=tuple(order),
        unused=unused,
    )  # fmt: skip
    return grid, tuple(_not_read(file, found)), tuple(repairs)


def _place_of(slot: Slot) -> tuple[int, str, int]:
    ranks = ("name", "title", "given", "middle", "family", "suffix", "address", "street", "street2")
    meaning, ordinal = slot
    return (ranks.index(meaning) if meaning in ranks else len(ranks), meaning, ordinal)


def _in_order(unused: Iterable[tuple[Line, str]]) -> list[tuple[Line, str]]:
    return sorted(unused, key=lambda left: left[0].number)


def _cell(file: str, lines: Sequence[Line] | None, repairs: list[Repair]) -> Cell | None:
    """The cell of some lines that belong together; its place is the first one's."""
    if not lines:
        return None
    where = Where(file, None, f"A{lines[0].number}")
    joint = " " if any(_joins(line.text) for line in lines[1:]) else "\n"
    raw = joint.join(line.text.rstrip(",; ") for line in lines)
    text, mended = repair_text(raw, where)
    repairs.extend(mended)
    return Cell(text, where, turned=turns(raw)) if text else None


def _not_read(file: str, found: _Text) -> Iterator[Finding]:
    """One question for all lines that may hold a guest and weren't understood."""
    left = [line for line, why in _in_order(found.unused) if why == _NOT_READ]
    if left:
        said = "; ".join(f"“{line.text}” (line {line.number})" for line in left[:_SHOWN])
        more = f" and {len(left) - _SHOWN} more" if len(left) > _SHOWN else ""
        yield Finding(
            Severity.ASK,
            "lines-not-read",
            Where(file, None, f"A{left[0].number}"),
            f"No household could be read in {said}{more}; they aren't used.",
            "If guests stand there, write names first and the address below, a blank line between.",
            also=tuple(Where(file, None, f"A{line.number}") for line in left[1:]),
        )
