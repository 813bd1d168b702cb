"""Rows at a list's end in which the client explains the list's own marks: "KEY", "Legend"."""

from collections.abc import Sequence
from dataclasses import replace

from addressing.guestlist.asking import finding
from addressing.guestlist.grid import Grid, Row, Table
from addressing.guestlist.people.vocabulary import row_words
from addressing.guestlist.tables.claims import ADDRESSES
from addressing.guestlist.tables.meanings import fold
from addressing.records.findings import Finding
from addressing.records.guests import UnusedRow

_MOST = 2000
"""Letters of it that are told."""
_WHY = "explains the list's own marks"


def without_legend(table: Table) -> tuple[Table, list[UnusedRow], list[Finding]]:
    """The table without such rows, these, and one note that quotes them all.

    They begin with a row whose first cell says so, and reach to the end; nobody there has an
    address.
    """
    place = next((at for at, row in enumerate(table.rows) if _opens(row)), None)
    if place is None:
        return table, [], []
    rows = table.rows[place:]
    placed = [column.index for column in table.columns if column.meaning in ADDRESSES]
    if any((cell := row.cell(at)) and cell.filled for row in rows for at in placed):
        return table, [], []
    noted = _told(rows)
    unused = [UnusedRow(table.sheet, row.number, _WHY) for row in rows]
    return replace(table, rows=table.rows[:place]), unused, [noted]


def legend_sheet(grid: Grid) -> Finding | None:
    """What a sheet of such words alone says, told by its name or its first words; None of others.

    >>> legend_sheet(Grid("list.xlsx", "Guests", ())) is None
    True
    """
    rows = [row for row in grid.rows if row.filled]
    titles = (grid.sheet or "", rows[0].filled[0].text) if rows else ()
    named = any(word in f" {fold(title)} " for title in titles for word in _spaced_words())
    return _told(rows) if named else None


def _spaced_words() -> list[str]:
    kinds = ("legend", "legend-sheet")
    return [f" {word} " for kind in kinds for word in row_words(kind)]


def _told(rows: Sequence[Row]) -> Finding:
    said = "; ".join(" ".join(cell.text for cell in row.filled) for row in rows)
    shown = said if len(said) <= _MOST else f"{said[:_MOST]} …"
    text = f"The list explains its marks: “{shown}”."
    mend = "Worth reading before the proof is signed."
    return finding("legend", rows[0].filled[0].where, text, mend)


def _opens(row: Row) -> bool:
    return bool(row.filled) and fold(row.filled[0].text) in row_words("legend")
