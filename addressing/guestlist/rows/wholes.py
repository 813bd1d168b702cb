"""A household that stands whole in its name cell, in a list with columns for names and homes."""

import re
from dataclasses import replace

from addressing.guestlist.files.entries import split_line
from addressing.guestlist.files.mail_lines import is_name, is_place
from addressing.guestlist.grid import Cell, Row, Table
from addressing.guestlist.homes.row_address import PLACES

_RUN_ON = re.compile(r"(?P<name>[^\d,;\n]+?)[,;]?\s+(?P<place>\d+[A-Za-z]?\s.+)", re.DOTALL)
_CODE = re.compile(r"[\s,](?:[A-Z]{2}\s+\d{3,5}(?:-\d{4})?|\d{5}|[A-Z\d]{2,4}\s\d[A-Z]{2})$")
"""A state and a ZIP, or a postcode, at the end: without one a number is no address."""
_LONGEST = 300


def parted(table: Table, row: Row) -> Row:
    """The row with its address where addresses stand; itself where nothing needs parting.

    Only a row without any address is parted, and only where the name cell ends as an address does.
    """
    names = table.column("name")
    home = table.column("address") or table.column("street")
    cell = row.cell(names.index) if names is not None else None
    if names is None or home is None or cell is None or len(cell.text) > _LONGEST:
        return row
    held = (row.cell(column.index) for column in table.columns if column.meaning in PLACES)
    if any(other is not None and other.text for other in held):
        return row
    name, place = _split(cell.text)
    if not place:
        return row
    cells: list[Cell | None] = list(row.cells)
    cells += [None] * (home.index + 1 - len(cells))
    cells[names.index] = replace(cell, text=name)
    cells[home.index] = Cell(place, cell.where)
    return replace(row, cells=tuple(cells))


def _split(text: str) -> tuple[str, str]:
    """(names, address), the address empty where a cell holds names alone.

    >>> _split("Odile Farrenby 3 Larkmoor Lane West Chester, PA 19380")
    ('Odile Farrenby', '3 Larkmoor Lane West Chester, PA 19380')
    >>> _split("Tobias and Odile Wexcombe (7 of them)")
    ('Tobias and Odile Wexcombe (7 of them)', '')
    """
    first, _, below = text.partition("\n")
    if below and is_name(first) and is_place(below.split("\n")[-1]):
        return first, below
    on_one_line = split_line(text)
    if on_one_line is not None:
        return on_one_line
    found = _RUN_ON.fullmatch(text)
    if found and is_name(found["name"]) and _CODE.search(found["place"]):
        return found["name"], found["place"]
    return text, ""
