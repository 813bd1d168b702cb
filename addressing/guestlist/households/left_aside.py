"""What an old sheet that is left aside still tells: a lacking address, and names only there."""

from collections import deque
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from addressing.faults import Fault
from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Grid
from addressing.guestlist.people.news import doubts_address
from addressing.guestlist.rows.by_hands import read_rows
from addressing.guestlist.tables.headers import find_tables
from addressing.guestlist.tables.sheets import is_old
from addressing.records.findings import Finding
from addressing.records.guests import Address, Household, Person

_SHOWN = 8
_MOST = 2000
"""Rows; a longer old sheet is only told."""
_PARTS = ("recipient_extra", "street", "unit", "city", "region", "postcode")


@dataclass(frozen=True, slots=True)
class OldRow:
    """Whom an old sheet names in a row, and the address there on one line."""

    sheet: str | None
    people: tuple[Person, ...]
    address: str


def old_rows(grids: Iterable[Grid], found: Iterable[Finding], home: str) -> tuple[OldRow, ...]:
    """The rows of the sheets that are left aside as old ones.

    `found` are the findings about sheets, `home` is as for a row's address.
    """
    aside = {each.where.sheet for each in found if each.code == "sheet-aside"}
    old = (grid for grid in grids if grid.sheet in aside and _is_worth(grid))
    return tuple(row for grid in old for row in _rows(grid, home))


def _is_worth(grid: Grid) -> bool:
    return not grid.hidden and is_old(grid) and 0 < len(grid.rows) < _MOST


def _rows(grid: Grid, home: str) -> Iterator[OldRow]:
    try:
        tables = deque(find_tables((grid,), {})[0])
    except Fault:  # no names on it
        return
    while tables:
        for row in read_rows(tables, home=home, posting=None):
            yield OldRow(grid.sheet, row.people, _on_one_line(row.address))


def _on_one_line(address: Address | None) -> str:
    parts = (getattr(address, part) for part in _PARTS) if address else ()
    return ", ".join(part.text.replace("\n", ", ") for part in parts if part is not None)


def with_old_rows(
    findings: Sequence[Finding], households: Sequence[Household], old: Sequence[OldRow]
) -> tuple[Finding, ...]:
    """The findings, with an address of an old sheet as a proposal where the list has none.

    The question about the sheet says who stands only there.
    """
    if not old:
        return tuple(findings)
    homes = {home.key: home for home in households}
    known = {name for home in households for person in home.people for name in _names(person)}
    return tuple(_with(each, homes, known, old) for each in findings)


def _with(
    found: Finding, homes: dict[str, Household], known: set[str], old: Sequence[OldRow]
) -> Finding:
    if found.code == "sheet-aside":
        return _only_there(found, known, [r for r in old if r.sheet == found.where.sheet])
    home = homes.get(found.household or "")
    if found.code != "address-missing" or home is None or doubts_address(found.quoted):
        return found  # who has moved isn't there any more
    own = {name for person in home.people for name in _names(person)}
    there = {row.address: row for row in old if row.address and _named(row) & own}
    if len(there) != 1:
        return found
    ((address, row),) = there.items()
    text = f"{found.text} The old sheet “{row.sheet}” has: {address}."
    return replace(found, text=text, likely=(("lines", address),))


def _only_there(found: Finding, known: set[str], rows: Sequence[OldRow]) -> Finding:
    new = [row for row in rows if row.people and _named(row).isdisjoint(known)]
    names = list(dict.fromkeys(next(iter(sorted(_shown(row))), "") for row in new))
    names = [name for name in names if name]
    if not names:
        return found
    more = f" and {len(names) - _SHOWN} more" if len(names) > _SHOWN else ""
    shown = f"{', '.join(names[:_SHOWN])}{more}"
    return replace(found, text=f"{found.text} Only there: {shown}.", quoted=shown)


def _shown(row: OldRow) -> Iterator[str]:
    for person in row.people:
        if person.given and person.family:
            yield f"{person.given} {person.family}"


def _named(row: OldRow) -> set[str]:
    return {name for person in row.people for name in _names(person)}


def _names(person: Person) -> Iterator[str]:
    if person.given and person.family:
        yield fold(f"{person.given} {person.family}")
