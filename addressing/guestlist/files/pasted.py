"""Reads text that was pasted from a mail: one household a block of lines, or one a line.

A block has the names first, then the lines of the address; blank lines, bullets and numbers part
the blocks. What else a mail holds (heads, greetings, signatures, headings) is listed as not used.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from addressing.guestlist.files.mail_lines import (
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
from addressing.guestlist.grid import Cell, Grid, Row
from addressing.guestlist.repair import repair_text, turns
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Repair, UnusedRow
from addressing.where import Where, cell_name

_STREETS = (("address", 1), ("street2", 1), ("street2", 2), ("street2", 3))
_MOSTLY = 0.5
"""So many of the lines must belong to households, or the text is something else."""
_LONGEST_SIGNATURE = 8
_LONGEST_LINE = 500
_JOINERS = ("and ", "& ", "+ ", "und ", "et ", "y ")
_NOT_READ = "no household could be read in it"
_SHOWN = 3
_LEAST_LINES = 6
"""Fewer rows of one text each are a list of names, or nothing."""

Slot = tuple[str, int]
"""A meaning of a column and its ordinal."""
Slots = dict[Slot, list[Line]]


Pasted = tuple[Grid, tuple[Finding, ...], tuple[Repair, ...]]
"""The households as a grid, what is asked about the lines, what was repaired."""


@dataclass(frozen=True, slots=True)
class Origin:
    """Where the lines stand: a text file's (column A), or one column of a sheet."""

    file: str
    sheet: str | None = None
    column: int = 0
    rows: Mapping[int, Row] = field(default_factory=dict)

    def where(self, line: Line) -> Where:
        """The cell of a line."""
        return Where(self.file, self.sheet, cell_name(self.column + 1, line.number))

    def cell(self, line: Line) -> Cell | None:
        """The cell that a line stands in; None in a text file."""
        row = self.rows.get(line.number)
        return row.cell(self.column) if row is not None else None

    def row(self, number: int, cells: tuple[Cell | None, ...]) -> Row:
        """A household's row; hidden or struck where its first line is."""
        row = self.rows.get(number)
        hidden, struck = (row.hidden, row.struck) if row is not None else (False, False)
        return Row(self.sheet, number, cells, hidden, struck)


@dataclass(slots=True)
class Text:
    """What is gathered from a text."""

    households: list[tuple[int, Slots]] = field(default_factory=list)
    unused: list[tuple[Line, str]] = field(default_factory=list)
    lines: int = 0

    @property
    def used(self) -> int:
        """How many lines belong to households."""
        return sum(len(held) for _, slots in self.households for held in slots.values())

    def leave(self, lines: Iterable[Line], why: str) -> None:
        """List lines as not used; one that wasn't read may be told to be a part of any mail."""
        for line in lines:
            known = why_no_guest(line) if why == _NOT_READ else None
            self.unused.append((line, known or why))


def read_pasted(file: str, text: str) -> Pasted | None:
    """The households of a pasted text as a grid whose columns are known; None for another text.

    Each cell's `Where` is column A of its line.
    """
    raws = text.splitlines()
    if any(len(raw) > _LONGEST_LINE for raw in raws):
        return None  # no mail; and the patterns below take the square of a line's length
    lines = [cleaned(number, raw) for number, raw in enumerate(raws, start=1)]
    return _read(Origin(file), lines)


def read_column(grid: Grid) -> Pasted | None:
    """The households of a sheet into which a mail was pasted, a line a row; None for another sheet.

    Each row must have its text in the same one column, and no other.
    """
    texts = [(row, row.texts) for row in grid.rows if row.texts]
    columns = {index for _, held in texts for index, _ in held}
    if len(columns) != 1 or len(texts) < _LEAST_LINES:
        return None
    column = columns.pop()
    lines = lines_of(grid, column)
    return None if too_long(lines) else _read(origin_of(grid, column), lines)


def origin_of(grid: Grid, column: int) -> Origin:
    """Where the lines of a sheet's column stand."""
    return Origin(grid.file, grid.sheet, column, {row.number: row for row in grid.rows})


def lines_of(grid: Grid, column: int) -> list[Line]:
    """The lines of a sheet's column, a blank one where a whole row is blank."""
    lines: list[Line] = []
    for before, row in zip((None, *grid.rows), grid.rows, strict=False):
        if before is not None and row.number > before.number + 1:
            lines.append(Line(row.number - 1, ""))
        text = dict(row.texts).get(column)
        if text is not None:
            parts = text.split("\n")
            if lines and len(parts) > 2:  # noqa: PLR2004 - a whole household in one cell
                lines.append(Line(row.number, ""))
            lines += [cleaned(row.number, part) for part in parts]
    return lines


def too_long(lines: Iterable[Line]) -> bool:
    """True for lines that no mail has: the patterns take the square of a line's length."""
    return any(len(line.text) > _LONGEST_LINE for line in lines)


def _read(origin: Origin, lines: Sequence[Line]) -> Pasted | None:
    found = heard(lines)
    if not found.households or found.used < found.lines * _MOSTLY - _others(found):
        return None
    return as_grid(((origin, found),))


def heard(lines: Sequence[Line]) -> Text:
    """What was read of some lines."""
    found = Text(lines=sum(bool(line.text) for line in lines))
    for block in _without_signature(found, _blocks(lines)):
        _read_block(found, block)
    return found


def _others(found: Text) -> float:
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


def _without_signature(found: Text, blocks: Iterable[list[Line]]) -> Iterator[list[Line]]:
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


def _read_block(found: Text, block: list[Line]) -> None:
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


def as_grid(parts: Sequence[tuple[Origin, Text]]) -> Pasted:
    """The households of one column, or of several side by side, as a grid of known columns."""
    origin = parts[0][0]
    repairs: list[Repair] = []
    homes = [(part, home) for part in parts for home in part[1].households]
    order = sorted({slot for _, (_, slots) in homes for slot in slots}, key=_place_of)
    rows = [
        place.row(number, tuple(_cell(place, slots.get(slot), repairs) for slot in order))
        for (place, _), (number, slots) in homes
    ]
    left = {line.number: why for _, found in parts for line, why in _in_order(found.unused)}
    taken = {row.number for row in rows}
    unused = tuple(
        UnusedRow(origin.sheet, number, why)
        for number, why in sorted(left.items())
        if number not in taken
    )
    rows.sort(key=lambda row: row.number)
    grid = Grid(
        origin.file, origin.sheet, tuple(rows), meanings=tuple(order), unused=unused
    )  # fmt: skip
    asked = tuple(each for part in parts for each in _not_read(*part))
    return grid, asked, tuple(repairs)


def _place_of(slot: Slot) -> tuple[int, str, int]:
    ranks = ("name", "title", "given", "middle", "family", "suffix", "address", "street", "street2")
    meaning, ordinal = slot
    return (ranks.index(meaning) if meaning in ranks else len(ranks), meaning, ordinal)


def _in_order(unused: Iterable[tuple[Line, str]]) -> list[tuple[Line, str]]:
    return sorted(unused, key=lambda left: left[0].number)


def _cell(origin: Origin, lines: Sequence[Line] | None, repairs: list[Repair]) -> Cell | None:
    """The cell of some lines that belong together; its place is the first one's."""
    if not lines:
        return None
    where = origin.where(lines[0])
    joint = " " if any(_joins(line.text) for line in lines[1:]) else "\n"
    raw = joint.join(line.text.rstrip(",; ") for line in lines)
    text, mended = repair_text(raw, where)
    repairs.extend(mended)
    if not text:
        return None
    cells = [cell for line in lines if (cell := origin.cell(line)) is not None]
    notes = [cell.note for cell in cells if cell.note]
    return Cell(
        text,
        where,
        struck=tuple(word for cell in cells for word in cell.struck),
        note="\n".join(notes) or None,
        unseen=any(cell.unseen for cell in cells),
        turned=turns(raw) or any(cell.turned for cell in cells),
    )


def _not_read(origin: Origin, found: Text) -> Iterator[Finding]:
    """One question for all lines that may hold a guest and weren't understood."""
    left = [line for line, why in _in_order(found.unused) if why == _NOT_READ]
    if left:
        said = "; ".join(f"“{line.text}” (line {line.number})" for line in left[:_SHOWN])
        more = f" and {len(left) - _SHOWN} more" if len(left) > _SHOWN else ""
        yield Finding(
            Severity.ASK,
            "lines-not-read",
            origin.where(left[0]),
            f"No household could be read in {said}{more}; they aren't used.",
            "If guests stand there, write names first and the address below, a blank line between.",
            also=tuple(origin.where(line) for line in left[1:]),
        )
