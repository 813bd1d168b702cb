"""Rows at a list's end in which the client explains the list's own marks: "KEY", "Legend"."""

from dataclasses import replace

from addressing.guestlist.asking import finding
from addressing.guestlist.grid import Row, Table
from addressing.guestlist.people.vocabulary import row_words
from addressing.guestlist.tables.claims import ADDRESSES
from addressing.guestlist.tables.meanings import fold
from addressing.records.findings import Finding
from addressing.records.guests import UnusedRow

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
    said = [" ".join(cell.text for cell in row.filled) for row in rows]
    text = f"The list explains its marks: “{'; '.join(said)}”."
    mend = "Worth reading before the proof is signed."
    noted = finding("legend", rows[0].filled[0].where, text, mend)
    unused = [UnusedRow(table.sheet, row.number, _WHY) for row in rows]
    return replace(table, rows=table.rows[:place]), unused, [noted]


def _opens(row: Row) -> bool:
    return bool(row.filled) and fold(row.filled[0].text) in row_words("legend")
