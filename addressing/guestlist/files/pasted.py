"""Reads text that was pasted from a mail: blocks, entries on one line, tables, running text.

A block has the names first, then the lines of the address; blank lines, bullets and numbers part
the blocks. What else a mail holds (heads, greetings, signatures, headings) is listed as not used;
what it says in sentences is kept for the households that they name.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from addressing.guestlist.files.bare_numbers import with_bare_numbers
from addressing.guestlist.files.blocks import STREETS, Slot, joins
from addressing.guestlist.files.by_number import with_numbers
from addressing.guestlist.files.mail_lines import Line, cleaned
from addressing.guestlist.files.mail_tables import MailTable, table_grid, without_tables
from addressing.guestlist.files.mail_text import NOT_READ, Text
from addressing.guestlist.files.prose_homes import SENTENCE_SLOT
from addressing.guestlist.files.run_together import apart
from addressing.guestlist.files.small_letters import as_typed, with_capitals
from addressing.guestlist.files.stretches import heard
from addressing.guestlist.grid import Cell, Grid, Row
from addressing.guestlist.repair import repair_text, turns
from addressing.guestlist.tables.numbered import Numbers, numbered_once, opening_number
from addressing.records.guests import Cited, Repair, UnusedRow
from addressing.where import Where, cell_name

_MOSTLY = 0.5
"""So many of the lines must belong to households, or the text is something else."""
_ENOUGH = 2
"""Households beside a greeting or a signature that make a text a mail, however much it tells."""
_LONGEST_LINE = 1500
"""Letters; a paragraph that no mailer broke may be one line."""
_LEAST_LINES = 6
"""Fewer rows of one text each are a list of names, or nothing."""

Pasted = tuple[Grid, tuple[Repair, ...]]
"""The households as a grid, and what was repaired."""
MailRead = tuple[tuple[Grid, ...], tuple[Repair, ...]]
"""The same of a mail, its tables as grids of their own, in the order of the lines."""


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


def read_pasted(file: str, text: str) -> MailRead | None:
    """The households of a pasted text as grids whose columns are known; None for another text.

    Each cell's `Where` is column A of its line; that of a table's cell counts its columns from A.
    """
    raws = text.splitlines()
    if any(len(raw) > _LONGEST_LINE for raw in raws):
        return None  # no mail; and the patterns below take the square of a line's length
    lines = with_bare_numbers([cleaned(at, raw) for at, raw in enumerate(raws, start=1)])
    return _read(Origin(file), lines)


def read_column(grid: Grid) -> MailRead | None:
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


def _read(origin: Origin, lines: Sequence[Line]) -> MailRead | None:
    tables, rest = without_tables(lines)
    found = heard(apart(with_capitals(rest)))
    as_typed(found.households, rest)
    numbers = _numbers(lines, found)
    if not _is_mail(found, sum(len(table.lines) for table in tables)):
        return None
    grids: list[Grid] = []
    repairs: list[Repair] = []
    for table in tables:
        _take_homes(grids, repairs, (origin, found), table.lines[0].number)
        grid, mended = _table(origin, table, found)
        grids.append(grid)
        repairs += mended
    _take_homes(grids, repairs, (origin, found), None)
    unused = tuple(UnusedRow(origin.sheet, *left) for left in sorted(_left(found).items()))
    if numbers:
        found.told = with_numbers(found.told, {line.number: line.raw for line in lines})
    overheard = tuple(Cited(line.text, (origin.where(line),)) for line in found.overheard)
    grids[0] = replace(grids[0], unused=unused, told=told_of(origin, found), overheard=overheard)
    return tuple(replace(grid, numbers=numbers) for grid in grids), tuple(repairs)


def _numbers(lines: Sequence[Line], found: Text) -> Numbers:
    """The numbers that stand before the households of a list, by their lines."""
    first = {number for number, _ in found.households}
    opened = {
        line.number: number
        for line in lines
        if line.number in first and (number := opening_number(line.raw)) is not None
    }
    return numbered_once(opened)


def _is_mail(found: Text, in_tables: int) -> bool:
    """True where most lines are households', or some are and a mail's own stand beside them."""
    own = sum(why != NOT_READ for _, why in found.unused)
    if all(SENTENCE_SLOT in slots and STREETS[0] not in slots for _, slots in found.households):
        return in_tables > 0 and found.greets  # a name and a remark are a list's too
    if found.greets and (in_tables or len(found.households) >= _ENOUGH):
        return True
    return found.used + in_tables >= (found.lines + in_tables - own) * _MOSTLY


def _table(origin: Origin, table: MailTable, found: Text) -> Pasted:
    """A table of a mail; one below "not coming" has that heading beside each row."""
    over = found.heading_over(table.lines[0].number)
    note = (over.text, origin.where(over)) if over is not None else None
    place = origin.where if origin.rows else None
    return table_grid(table, origin.file, origin.sheet, place, note)


def _take_homes(
    grids: list[Grid], repairs: list[Repair], part: tuple[Origin, Text], before: int | None
) -> None:
    """The households that stand between the last table and the next as a grid."""
    origin, found = part
    after = grids[-1].rows[-1].number if grids else 0
    homes = [
        home
        for home in found.households
        if after < home[0] and (before is None or home[0] < before)
    ]
    if homes:
        grid, mended = as_grid(((origin, Text(households=homes)),))
        grids.append(grid)
        repairs += mended


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
    left = {number: why for _, found in parts for number, why in _left(found).items()}
    taken = {row.number for row in rows}
    unused = tuple(
        UnusedRow(origin.sheet, number, why)
        for number, why in sorted(left.items())
        if number not in taken
    )
    rows.sort(key=lambda row: row.number)
    told = tuple(each for part in parts for each in told_of(*part))
    grid = Grid(
        origin.file, origin.sheet, tuple(rows), meanings=tuple(order), unused=unused, told=told
    )
    return grid, tuple(repairs)


def _left(found: Text) -> dict[int, str]:
    """Why each line isn't used, by its number."""
    ordered = sorted(found.unused, key=lambda left: left[0].number)
    return {part.number: why for line, why in ordered for part in (*line.more, line)}


def told_of(origin: Origin, found: Text) -> tuple[tuple[Cited, ...], ...]:
    """The paragraphs of running text, each sentence with its cells."""
    return tuple(
        tuple(
            Cited(said.text, tuple(origin.where(line) for line in (said, *said.more)))
            for said in paragraph
        )
        for paragraph in found.told
    )


def _place_of(slot: Slot) -> tuple[int, str, int]:
    ranks = ("name", "title", "given", "middle", "family", "suffix", "address", "street", "street2")
    meaning, ordinal = slot
    return (ranks.index(meaning) if meaning in ranks else len(ranks), meaning, ordinal)


def _cell(origin: Origin, lines: Sequence[Line] | None, repairs: list[Repair]) -> Cell | None:
    """The cell of some lines that belong together; its place is the first one's."""
    if not lines:
        return None
    where = origin.where(lines[0])
    joint = " " if any(joins(line.text) for line in lines[1:]) else "\n"
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
