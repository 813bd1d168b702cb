"""Rows below a heading that says that nobody there is invited: "VENDORS (no invite)"."""

import re
from dataclasses import replace

from addressing.guestlist.asking import finding
from addressing.guestlist.grid import Row, Table
from addressing.guestlist.people.vocabulary import row_words
from addressing.guestlist.tables.headings import says_whose
from addressing.guestlist.tables.meanings import fold, signs
from addressing.guestlist.tables.totals import sums_up
from addressing.records.findings import Finding
from addressing.records.guests import UnusedRow

_PARTS = re.compile(r"[()\[\]:]|\s[-–—]+\s")
_SHOWN = 6
"""So many are told by name."""


def without_blocks(table: Table) -> tuple[Table, list[UnusedRow], list[Finding]]:
    """The table without such blocks, their rows, and one question for each block.

    A block ends at the next heading, or at a sum.
    """
    kept: list[Row] = []
    blocks: list[list[Row]] = []
    inside = False
    for row in table.rows:
        if _opens(row):
            blocks.append([row])
            inside = True
        elif inside and not _ends(row):
            blocks[-1].append(row)
        else:
            inside = False
            kept.append(row)
    blocks = [rows for rows in blocks if len(rows) > 1]
    if not blocks:
        return table, [], []
    unused = [
        UnusedRow(table.sheet, row.number, f"below “{rows[0].filled[0].text}”")
        for rows in blocks
        for row in rows
    ]
    return replace(table, rows=tuple(kept)), unused, [_asked(rows) for rows in blocks]


def says_uninvited(text: str) -> bool:
    """True for a heading of those who get no invitation; not for a name and such a remark.

    >>> [says_uninvited(t) for t in ("Vendors – no invite", "NOT INVITED", "Odile - no invite")]
    [True, True, False]
    """
    parts = [part for part in map(fold, _PARTS.split(text)) if part]
    told = [part for part in parts if _is_no(part)]
    others = [part for part in parts if part not in told]
    first = _without_no(parts[0]) if parts else ""
    return bool(told) and (not first or says_whose(first)) and len(others) <= len(told) + 1


def _is_no(part: str) -> bool:
    return any(f" {word} " in f" {part} " for word in row_words("block-aside"))


def _without_no(part: str) -> str:
    for word in sorted(row_words("block-aside"), key=len, reverse=True):
        part = f" {part} ".replace(f" {word} ", " ").strip()
    return part


def _opens(row: Row) -> bool:
    return len(row.filled) == 1 and says_uninvited(row.filled[0].text)


def _ends(row: Row) -> bool:
    first = row.filled[0].text
    heading = len(row.filled) == 1 and says_whose(first)
    return heading or sums_up(first) or fold(first) in signs("total-sign")


def _asked(rows: list[Row]) -> Finding:
    head, *below = rows
    names = [row.filled[0].text for row in below]
    more = f" and {len(names) - _SHOWN} more" if len(names) > _SHOWN else ""
    heading = head.filled[0].text
    text = f"Below “{heading}” stand {', '.join(names[:_SHOWN])}{more}; they aren't used."
    mend = "If they are invited after all, move their rows above this heading; else say so."
    found = finding("block-aside", head.filled[0].where, text, mend, heading)
    return replace(found, also=tuple(row.filled[0].where for row in below))
