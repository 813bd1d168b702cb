"""What is said about whole sheets: hidden ones, ones without guests, ones that repeat others."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace

from addressing.guestlist.grid import Grid, Row, Table
from addressing.guestlist.people.vocabulary import row_words
from addressing.guestlist.tables.claims import ADDRESSES
from addressing.guestlist.tables.contents import kind_of
from addressing.guestlist.tables.meanings import fold, signs
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Cited
from addressing.where import Where

_NAMED = ("name", "given", "family")
_REPEATED = 0.6
_SHOWN = 5
_VERSION = re.compile(r"v?\d*")
_ADDRESSED = frozenset(("street", "place", "address"))
_SPOKEN = re.compile(r"\b[a-z]{3,}\b.*\b[A-Z]|\b[A-Z].*\b[a-z]{3,}\b|\b(?:not|only|are|is)\b")
"""A word in small letters beside a capital: "7 has moved to 14 Elm St" is a remark."""
_SEVERAL = 2
"""Cells with an address, or a part of one, from which a sheet may be a list of guests."""
_NO_NAMES = 'If it holds guests, name its columns in the docket: [columns] "Your header" = "name".'


def hidden_sheet(grid: Grid) -> Finding:
    """The question about a hidden sheet, whose rows are not used."""
    return Finding(
        Severity.ASK,
        "sheet-hidden",
        Where(grid.file, grid.sheet),
        f"The sheet “{grid.sheet}” is hidden and holds {len(grid.rows)} rows; it isn't used.",
        "Show the sheet and save the list if its guests are invited; else say so.",
    )


def is_aside(grid: Grid) -> bool:
    """True for a sheet whose name says that nobody on it is invited: "Vendors", "Old list"."""
    name = f" {fold(grid.sheet or '')} "
    return any(f" {word} " in name for word in row_words("sheet-aside")) or _is_old(name.split())


def is_old(grid: Grid) -> bool:
    """True for a sheet that is left aside as an earlier form of the list, not as one of vendors."""
    words = fold(grid.sheet or "").split()
    return is_aside(grid) and not row_words("sheet-old").isdisjoint(words)


def _is_old(words: Sequence[str]) -> bool:
    """True for "OLD v3" and "Guests (old)": an old one, and nothing else but that it is a list.

    >>> [_is_old(each.split()) for each in ("old v 3", "old friends", "guests", "old 2026")]
    [True, False, False, True]
    """
    others = [word for word in words if word not in row_words("sheet-old")]
    plain = row_words("sheet-plain")
    return len(others) < len(words) and all(_VERSION.fullmatch(w) or w in plain for w in others)


def with_rounds(tables: Sequence[Table]) -> list[Table]:
    """The tables, each a round by its sheet's name where one of the names says "B list"."""
    if not any(_is_later(table) for table in tables):
        return list(tables)
    return [
        replace(table, wave=Cited(table.sheet, (Where(table.file, table.sheet),)))
        if table.sheet
        else table
        for table in tables
    ]


def _is_later(table: Table) -> bool:
    return fold(table.sheet or "") in set(map(fold, row_words("sheet-wave")))


def aside(grid: Grid) -> Finding:
    """The question about such a sheet, whose rows are not used."""
    return Finding(
        Severity.ASK,
        "sheet-aside",
        Where(grid.file, grid.sheet),
        f"The sheet “{grid.sheet}” holds {len(grid.rows)} rows; by its name they are no guests of"
        " this list, and it isn't used.",
        "If they are invited, give the sheet another name in a copy of the list; else say so.",
    )


def not_read(grid: Grid) -> Finding:
    """What is told of a sheet that has no column of names; a question where it holds addresses."""
    name = f"The sheet “{grid.sheet}”" if grid.sheet else grid.file
    text = f"{name} has no column of names, so it isn't read."
    doors = [
        cell.where
        for row in grid.rows
        for cell in row.filled
        if kind_of(cell) in _ADDRESSED and _SPOKEN.search(cell.text) is None
    ]
    if len(doors) < _SEVERAL:
        where = Where(grid.file, grid.sheet)
        return Finding(Severity.NOTE, "sheet-not-read", where, text, _NO_NAMES)
    shown = ", ".join(str(where.cell) for where in doors[:_SHOWN])
    text = f"{text} It holds addresses ({shown}). Are these guests?"
    return Finding(Severity.ASK, "sheet-not-read", doors[0], text, _NO_NAMES, also=tuple(doors[1:]))


def is_overview(grid: Grid) -> bool:
    """True for a sheet that `addressing tidy` wrote beside the guests: it repeats them."""
    first = grid.rows[0].filled[0].text if grid.rows and grid.rows[0].filled else ""
    return fold(first) in signs("own-sign")


def is_tidied(grids: Iterable[Grid]) -> bool:
    """True for a list that `addressing tidy` wrote: its columns are known by their own headings."""
    own = signs("own-heading").keys()
    heads = (grid.rows[0] for grid in grids if grid.rows)
    return any(own <= {fold(cell.text) for cell in head.filled} for head in heads)


def pins_not_needed(file: str) -> Finding:
    """The note that the docket's [columns] speak of another file."""
    return Finding(
        Severity.NOTE,
        "columns-own",
        Where(file),
        f"{file} is a list that `addressing tidy` wrote: its columns are known.",
        "Nothing need be done: [columns] in the docket stays for the client's own list.",
    )


def overview(grid: Grid) -> Finding:
    """The note that such a sheet is left aside."""
    text = f"The sheet “{grid.sheet or grid.file}” shows the guests of the first sheet otherwise."
    where = Where(grid.file, grid.sheet)
    return Finding(Severity.NOTE, "sheet-not-read", where, text, "Nothing need be done.")


def rows_above(rows: Sequence[Row]) -> Finding:
    """The question about rows above the header that look like guests."""
    first = rows[0]
    cells = [row.filled[0].where for row in rows]
    return Finding(
        Severity.ASK,
        "rows-above-header",
        cells[0],
        f"Above the header, row {first.number} seems to hold an address; it isn't used.",
        "Move guests that stand above the header below it.",
        also=tuple(cells[1:]),
    )


def without_repeats(tables: Sequence[Table]) -> tuple[list[Table], list[Finding]]:
    """Leave out sheets that only list again, without addresses, those who stand on other sheets.

    A seating plan or a list of gifts is such a sheet. Names on it that stand nowhere else are
    asked about.
    """
    addressed = [table for table in tables if _has_address(table)]
    if len(addressed) == len(tables):
        return list(tables), []
    known = {name for table in addressed for name in _names(table)}
    kept: list[Table] = []
    findings: list[Finding] = []
    for table in tables:
        names = [] if table in addressed else list(_names(table))
        new = [name for name in names if name not in known]
        if names and len(new) <= len(names) * (1 - _REPEATED):
            findings.append(_repeats(table, new))
        else:
            kept.append(table)
    return kept, findings


def _has_address(table: Table) -> bool:
    return any(column.meaning in ADDRESSES for column in table.columns)


def _names(table: Table) -> Iterable[str]:
    """Each row's first person, with the words in order, so that "Penhew, Tobias" is found too."""
    places = [c.index for part in _NAMED if (c := table.column(part)) is not None]
    for row in table.rows:
        texts = [cell.text for place in places if (cell := row.cell(place)) is not None]
        words = sorted(fold(" ".join(texts)).split())
        if words:
            yield " ".join(words)


def _repeats(table: Table, new: list[str]) -> Finding:
    where = Where(table.file, table.sheet)
    name = f"The sheet “{table.sheet}”" if table.sheet else f"A part of {table.file}"
    text = f"{name} names guests of the rest again; it isn't read."
    if not new:
        return Finding(Severity.NOTE, "sheet-not-read", where, text, "Nothing need be done.")
    words = set(new[:_SHOWN])
    places = [c.index for part in _NAMED if (c := table.column(part)) is not None]
    rows = [row for row in table.rows if _row_words(table, row) in words]
    cells = [[cell for i in places if (cell := row.cell(i)) is not None] for row in rows]
    shown = ", ".join(" ".join(cell.text for cell in row) for row in cells)
    return Finding(
        Severity.ASK,
        "sheet-not-read",
        where,
        f"{text} {len(new)} stand only there: {shown}.",
        "If they are invited, put them with their addresses on the other sheet.",
        also=tuple(row[0].where for row in cells),
    )


def _row_words(table: Table, row: Row) -> str:
    one = Table(table.file, table.sheet, table.header_row, table.columns, (row,))
    return next(iter(_names(one)), "")
