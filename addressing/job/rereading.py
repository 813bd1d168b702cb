"""Answers read as the list itself is: names, children, titles, addresses in a client's words."""

from collections.abc import Mapping

from addressing.guestlist.domestic.tail import cut_country
from addressing.guestlist.folding import fold
from addressing.guestlist.homes.addresses import read_address
from addressing.guestlist.homes.doors import door
from addressing.guestlist.households.kinship import same_person
from addressing.guestlist.people.cell import CellReading, read_people
from addressing.guestlist.people.children_column import read_children
from addressing.guestlist.people.vocabulary import titles
from addressing.guestlist.written import Written
from addressing.records.guests import Address, Cited
from addressing.records.questions import NamesRead, Readers
from addressing.tables import table

_LONGEST_TITLE = 4
"""Words in a title; more are a name."""


def _names(text: str) -> NamesRead:
    return _read(read_people(text))


def _children(text: str) -> NamesRead:
    return _read(read_children(text))


def _read(reading: CellReading) -> NamesRead:
    doubtful = any(doubt.code == "name-doubtful" for doubt in reading.doubts)
    return NamesRead(reading.people, reading.label, doubtful, reading.family)


def _title(text: str) -> str | None:
    """A title in the table's form, an unknown one as typed, with a capital; None for no title."""
    known = titles().get(fold(text))
    if known is not None:
        return known.canonical
    words = text.split()
    if "and" in words:
        return None  # of two people, and one is asked about
    plain = all(mark.isalpha() or mark in " .'’-" for mark in text)
    plain = plain and text.strip()[:1].isupper()
    return " ".join(words) if plain and 0 < len(words) <= _LONGEST_TITLE else None


def _holding() -> frozenset[str]:
    return frozenset(row["code"] for row in table("findings") if row["holds"] == "yes")


def _address(fields: Mapping[str, Cited]) -> tuple[Address | None, tuple[str, ...]]:
    """An address by its fields, read as the list is; "home" is the country if none is named."""
    lines = fields.get("lines") or fields.get("street")
    country = fields.get("country")
    home = fields.get("home")
    if lines is not None and home is not None and home.text != "US":
        country = country or (None if cut_country(lines.text)[1] else home)
    written = Written(
        lines=_lines(lines),
        unit=fields.get("unit"),
        extra=fields.get("recipient_extra"),
        city=fields.get("city"),
        region=fields.get("region"),
        postcode=fields.get("postcode"),
        country=country,
    )
    address, troubles, _ = read_address(written, frozenset())
    holding = _holding()
    return address, tuple(each.text for each in troubles if each.code in holding)


def _lines(cited: Cited | None) -> tuple[Cited, ...]:
    if cited is None:
        return ()
    return tuple(Cited(line, cited.cells) for line in cited.text.split("\n") if line.strip())


def _place(one: Address | None, other: Address | None) -> bool:
    return door(one) == door(other) != ""


READERS = Readers(_names, _children, _title, _address, same_person, _place)
"""The list's own reading, for answers."""
