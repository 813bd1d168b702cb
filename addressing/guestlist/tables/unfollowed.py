"""What a list says by other means than words: colours that set rows apart, links for texts."""

import re
from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from addressing.guestlist.colours import colour_word
from addressing.guestlist.grid import Cell, Grid, Row, Rule, Table
from addressing.guestlist.tables.claims import ADDRESSES, NAMES
from addressing.guestlist.tables.colour_keys import read_as, row_colours
from addressing.records.findings import Finding, Severity
from addressing.where import Where, cell_name

_BANDED = 0.9
"""So many neighbours of different colours are bands to guide the eye."""
_FEW = 4
_SHOWN = 3
_LONGEST_LEGEND = 80
_LONGEST_RULE = 60
_BANDS = re.compile(r"\bMOD\b.*\bROW\b", re.IGNORECASE | re.DOTALL)
"""A rule that colours every other row to guide the eye."""
_COLOUR_WORDS = "red|orange|yellow|green|turquoise|blue|purple|pink|grey|gray|highlighted|shaded"
_LEGEND = re.compile(rf"(?:in |colou?r )?(?:{_COLOUR_WORDS})\b.{{0,12}}[=:–-].+", re.IGNORECASE)
_LINK = re.compile(r"(?:https?://|www\.)\S+|mailto:\S+", re.IGNORECASE)
_SAID_IN_WORDS = NAMES | ADDRESSES | {"region", "unit", "street2", "extra", "country", "guest"}


def unfollowed(table: Table, grid: Grid, keys: Sequence[Grid] = ()) -> tuple[Finding, ...]:
    """Notes for a table whose rows or texts say something that can't be followed.

    `keys` are the sheets that explain the others.
    """
    return (*_colours(table, grid, keys), *_ruled(table, grid), *_links(table))


def _colours(table: Table, grid: Grid, keys: Sequence[Grid]) -> Iterator[Finding]:
    """One note for a table of which some rows have a colour and others none, or another."""
    followed = read_as(grid, keys, table)
    by_row = {n: None if c in followed else c for n, c in row_colours(table).items()}
    counts = Counter(colour for colour in by_row.values() if colour)
    if not counts or (len(counts) == 1 and counts.total() == len(by_row)) or _is_banded(by_row):
        return
    apart = [row for row in table.rows if by_row[row.number]]
    said = [
        f"{colour_word(colour)} in {_rows_named([r for r in apart if by_row[r.number] == colour])}"
        for colour, _ in counts.most_common(_SHOWN)
    ]
    legend = "; ".join(_legend(table, grid, frozenset(counts)))
    key = f" The list says of it: {legend}." if legend else ""
    yield Finding(
        Severity.NOTE,
        "colour-not-followed",
        apart[0].filled[0].where,
        f"A colour sets rows apart, and colours aren't followed: {'; '.join(said)}.{key}",
        "If a colour says who is out, comes later or gets another envelope, say it in a column.",
        also=tuple(row.filled[0].where for row in apart[1:_FEW]),
    )


def _ruled(table: Table, grid: Grid) -> Iterator[Finding]:
    """One note where rules colour some of a table's cells by what they hold."""
    numbers = [row.number for row in table.rows]
    told = [
        rule
        for rule in grid.rules
        if not _BANDS.search(rule.said[:_LONGEST_RULE])
        and bisect_left(numbers, rule.cells.top) < bisect_right(numbers, rule.cells.bottom)
        and any(rule.cells.left <= column.index <= rule.cells.right for column in table.columns)
    ]
    if not told:
        return
    said = list(dict.fromkeys(map(_rule_named, told)))
    more = f" and {len(said) - _SHOWN} more" if len(said) > _SHOWN else ""
    row = max(told[0].cells.top, numbers[0])
    yield Finding(
        Severity.NOTE,
        "colour-not-followed",
        Where(table.file, table.sheet, cell_name(told[0].cells.left + 1, row)),
        "A rule of the spreadsheet colours or strikes cells by what they hold, and such looks "
        f"aren't followed: {'; '.join(said[:_SHOWN])}{more}.",
        "If a colour says who is out, comes later or gets another envelope, say it in a column.",
    )


def _rule_named(rule: Rule) -> str:
    """The cells of a rule and what it asks of them: A2:E7 ($F2="no")."""
    box = rule.cells
    first, last = cell_name(box.left + 1, box.top), cell_name(box.right + 1, box.bottom)
    said = " ".join(rule.said.split())
    said = f"{said[: _LONGEST_RULE - 1]}…" if len(said) > _LONGEST_RULE else said
    return f"{first if first == last else f'{first}:{last}'}{f' ({said})' if said else ''}"


def _is_banded(by_row: dict[int, str | None]) -> bool:
    colours = list(by_row.values())
    if len(colours) < _FEW or len(set(colours)) > 2:  # noqa: PLR2004 - two colours make bands
        return False
    changes = sum(here != there for here, there in pairwise(colours))
    return changes >= (len(colours) - 1) * _BANDED


def _rows_named(rows: Sequence[Row]) -> str:
    """A few rows by number and first words: "row 3 (Penhew) and 5 others"."""
    first = ", ".join(f"row {row.number} (“{row.filled[0].text}”)" for row in rows[:_SHOWN])
    more = len(rows) - _SHOWN
    return f"{first} and {more} more" if more > 0 else first


def _legend(table: Table, grid: Grid, colours: frozenset[str]) -> Iterator[str]:
    """What cells outside the table say of its colours: a text in one, or beside one."""
    own = {row.number for row in table.rows} | {table.header_row}
    columns = {column.index for column in table.columns if column.meaning}
    quoted: set[str] = set()
    for row in grid.rows:
        inside = row.number in own
        for index, cell in _outside(row, columns if inside else set()):
            colour = next((c for i, c in row.colours if i in (index, index - 1)), None)
            told = colour in colours or _LEGEND.fullmatch(cell.text)
            if told and len(cell.text) <= _LONGEST_LEGEND and cell.text not in quoted:
                quoted.add(cell.text)
                word = f"{colour_word(colour)} is " if colour in colours and colour else ""
                yield f"{word}“{cell.text}” ({cell.where})"


def _outside(row: Row, columns: set[int]) -> Iterable[tuple[int, Cell]]:
    return (
        (index, cell)
        for index, cell in enumerate(row.cells)
        if cell is not None and cell.kind == "text" and cell.text and index not in columns
    )


def _held(row: Row, index: int) -> str | Cell | None:
    """What stands in a column, without making a cell for it."""
    return row.held[index] if index < len(row.held) else None


def _links(table: Table) -> Iterator[Finding]:
    """One note for the cells that hold nothing but a link where a name or an address should be."""
    places = [c.index for c in table.columns if c.meaning in _SAID_IN_WORDS]
    cells = [
        cell
        for row in table.rows
        for own in (row.held,)
        for index in places
        if index < len(own)
        and (held := own[index]) is not None
        and _LINK.fullmatch(held if isinstance(held, str) else held.text)
        and (cell := row.cell(index)) is not None
    ]
    if cells:
        yield Finding(
            Severity.NOTE,
            "link-not-followed",
            cells[0].where,
            f"Only a link stands here (“{cells[0].text}”); links are never followed.",
            "Write the words that it leads to into the list.",
            also=tuple(cell.where for cell in cells[1:]),
        )
