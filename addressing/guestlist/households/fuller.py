"""Rows at one door tell of it more or less fully: what only one of them says isn't lost.

A town or ZIP that one row lacks is that of the other; a building's name holds for all who live at
the door. In whose care only one row is asked about, and so are two buildings.
"""

from collections.abc import Sequence
from dataclasses import replace

from addressing.guestlist.asking import finding
from addressing.guestlist.folding import fold
from addressing.guestlist.homes.doors import door, lives_at
from addressing.guestlist.rows.row import RowReading
from addressing.records.findings import Finding
from addressing.records.guests import Address, Cited

_AREA = ("city", "region", "postcode")
_GAP = "The address has no "
"""How the question begins that is asked of a row whose town or state is missing."""


def filled_up(readings: Sequence[RowReading]) -> list[RowReading]:
    """The rows, a lacking town, state or ZIP taken from the row beside it of the same people.

    They are of one household by a column of their own, or stand below each other and have one
    family name; street and unit are the same, and nothing that both say differs.
    """
    made = list(readings)
    for place, row in enumerate(readings):
        lacks = _lacks(row.address)
        for other in (place - 1, place + 1) if lacks else ():
            if 0 <= other < len(readings) and _are_beside(row, readings[other]):
                made[place] = _filled(row, readings[other].address)
                break
    return made


def _lacks(address: Address | None) -> bool:
    has_street = address is not None and address.street is not None
    return has_street and any(getattr(address, part) is None for part in _AREA)


def _are_beside(row: RowReading, other: RowReading) -> bool:
    if row.sheet != other.sheet or _lacks(other.address) or other.address is None:
        return False
    if row.household or other.household:
        said = [each.household.text if each.household else "" for each in (row, other)]
        if fold(said[0]) != fold(said[1]):
            return False
    elif not _families(row) & _families(other):
        return False
    return _says_no_less(row.address, other.address)


def _families(row: RowReading) -> set[str]:
    return {fold(person.family) for person in row.people if person.family}


def _says_no_less(one: Address | None, other: Address) -> bool:
    """True where an address says nothing that another, which is whole, doesn't say too."""
    if one is None or _house(one) != _house(other):
        return False
    pairs = ((getattr(one, part), getattr(other, part)) for part in _AREA)
    return all(mine is None or fold(mine.text) == fold(theirs.text) for mine, theirs in pairs)


def _house(address: Address) -> str:
    return door(replace(address, city=None, postcode=None))


def _filled(row: RowReading, whole: Address | None) -> RowReading:
    if row.address is None or whole is None:
        return row
    parts = {part: getattr(whole, part) for part in _AREA if getattr(row.address, part) is None}
    address = replace(row.address, **parts, country=whole.country)
    kept = tuple(found for found in row.findings if not _is_of_gap(found))
    return replace(row, address=address, findings=kept)


def _is_of_gap(found: Finding) -> bool:
    of_area = found.code == "address-incomplete" and found.text.startswith(_GAP)
    return found.code == "zip-missing" or of_area


def address_of(rows: Sequence[RowReading]) -> tuple[Address | None, tuple[Finding, ...]]:
    """The address of a household: the first row's, with a building that another row names."""
    known = [row for row in rows if row.address is not None]
    if not known:
        return None, ()
    first = known[0].address
    there = [row for row in known if door(row.address) == door(first)]
    said = {_folded(row.address): row for row in reversed(there)}
    if first is None or len(said) <= 1:
        return first, ()
    if len(said) == 2 and "" in said and lives_at(said[_other(said)].address) == door(first):  # noqa: PLR2004 - one says nothing
        fuller = said[_other(said)].address
        return replace(first, recipient_extra=fuller.recipient_extra if fuller else None), ()
    return first, (_asked(list(reversed(said.values()))),)


def _other(said: dict[str, RowReading]) -> str:
    return next(words for words in said if words)


def _folded(address: Address | None) -> str:
    extra = address.recipient_extra if address else None
    return fold(extra.text) if extra else ""


def _asked(rows: Sequence[RowReading]) -> Finding:
    """The question which of two lines above one street is meant, or whether one is."""
    lines = [_on_one_line(row.address) for row in rows if row.address is not None]
    text = f"The rows of one household have the address in {len(lines)} ways: {' / '.join(lines)}."
    asked = finding("address-doubtful", rows[-1].where, text, "Which is right?")
    return replace(asked, likely=tuple(("lines", line) for line in lines))


def _on_one_line(address: Address) -> str:
    area = " ".join(part.text for part in (address.region, address.postcode) if part)
    parts: list[Cited | str | None] = [
        address.recipient_extra, address.street, address.unit, address.city, area
    ]  # fmt: skip
    texts = (part.text if isinstance(part, Cited) else part for part in parts)
    return ", ".join(text.replace("\n", ", ") for text in texts if text)
