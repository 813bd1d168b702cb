"""The address lines of an envelope: extra, street, unit, place, country, in a style.

United States by Publication 28; abroad by the country's own form, the country last, in capitals.
"""

import re
from collections.abc import Callable
from dataclasses import replace
from functools import cache, lru_cache

from addressing.records.guests import Address, Cited
from addressing.records.pieces import Line, Role
from addressing.tables import lookup
from addressing.where import together
from addressing.wording.american import (
    above_in_full,
    above_in_short,
    lines_above,
    postal_town,
    town_in_full,
)
from addressing.wording.boxes import is_boxed, lockbox_line, route_line
from addressing.wording.casing import cased_firm, is_single_case, recase
from addressing.wording.country_line import AT_HOME, country_line
from addressing.wording.place_lines import place_lines, unit_place
from addressing.wording.puerto_rico import left_off
from addressing.wording.streets import (
    numbers_in_words,
    postal_text,
    street_in_full,
    street_in_short,
    unit_in_full,
    unit_in_short,
)

TOWNS_KEPT = 4096
MILITARY = frozenset(("AA", "AE", "AP"))
"""The "states" of military mail, whose towns are letters: APO AE."""


def address_lines(
    address: Address, home: str, *, postal: bool, in_words: bool = False
) -> tuple[tuple[Line, ...], tuple[Line, ...] | None]:
    """(lines, lines with the unit on a line of its own or None) of an address.

    `home` is the sender's country (alpha-2): its name is left off. `in_words` writes a house's
    number 1 and streets up to Tenth in words, in the United States.
    """
    american = address.country is None or address.country.text in AT_HOME
    above, below = _place(address, american=american, postal=postal)
    head = (*_extras(address, postal=postal), *above)
    tail = (*below, *_country(address, home))
    streets = _streets(address, american=american, postal=postal)
    if in_words and american and not postal:
        streets = tuple([replace(each, text=numbers_in_words(each.text)) for each in streets])
    if address.unit is None or not streets:
        unit = (_unit_line(address, american=american, postal=postal),) if address.unit else ()
        return (*head, *streets, *unit, *tail), None
    own = _unit_line(address, american=american, postal=postal)
    mark = " " if postal else ", "
    if not american and unit_place(address) == "first":
        return (*head, *_before(own, streets, mark), *tail), None
    place = _last(streets) if american else _numbered(streets)
    line = streets[place]
    cells = together((line.cells, own.cells))
    inline = Line(f"{line.text}{mark}{own.text}", Role.STREET, cells)
    above, below = streets[:place], streets[place + 1 :]
    return (*head, *above, inline, *below, *tail), (*head, *above, line, own, *below, *tail)


def _last(streets: tuple[Line, ...]) -> int:
    """The last line that is a street: a unit is in no box beside it."""
    found = (n for n in reversed(range(len(streets))) if not is_boxed(streets[n].text))
    return next(found, len(streets) - 1)


def _numbered(streets: tuple[Line, ...]) -> int:
    """The line with the house number: a quarter may stand below it (Calle Alondra 14 / Centro)."""
    found = (n for n, line in enumerate(streets) if re.search(r"\d", line.text))
    return next(found, len(streets) - 1)


def _before(unit: Line, streets: tuple[Line, ...], mark: str) -> tuple[Line, ...]:
    """The street lines with the unit before the first: Flat 3, Quince Court / 14 Larkmoor Road."""
    street = streets[0]
    cells = together((unit.cells, street.cells))
    return (Line(f"{unit.text}{mark}{street.text}", Role.STREET, cells), *streets[1:])


def _cased(text: str) -> str:
    return recase(text) if is_single_case(text) else text


def _extras(address: Address, *, postal: bool) -> tuple[Line, ...]:
    if address.recipient_extra is None:
        return ()
    lines = lines_above(address.recipient_extra.text)
    if postal and address.street and route_line(address.street.text, formal=False):
        lines = [text for text in lines if not left_off(text)]
    write = above_in_short if postal else above_in_full
    if (
        address.street and address.street.text.isupper()
    ):  # else YMCA might stand in its own capitals
        lines = [cased_firm(text) for text in lines]
    return tuple(Line(write(text), Role.EXTRA, address.recipient_extra.cells) for text in lines)


def _streets(address: Address, *, american: bool, postal: bool) -> tuple[Line, ...]:
    if address.street is None:
        return ()
    write = _writer(american=american, postal=postal)
    text, cells = address.street.text, address.street.cells
    if "\n" not in text:
        return (Line(write(text), Role.STREET, cells),)
    lines = text.split("\n")
    if postal:  # PO BOX is the lockbox's short form where it stands alone
        write = _beside_street(write)
    if american:
        lines = _delivered_last(lines)
    return tuple([Line(write(text), Role.STREET, cells) for text in lines])


def _delivered_last(lines: list[str]) -> list[str]:
    """A road without a house's number above the box below which it stood.

    The post delivers to the line above the town (Publication 28, 215).
    """
    boxes = [text for text in lines if is_boxed(text) and lockbox_line(text) is None]
    roads = [text for text in lines if text not in boxes and not re.match(r"\d", text)]
    return [*roads, *boxes] if boxes and len(boxes) + len(roads) == len(lines) else lines


def _beside_street(write: Callable[[str], str]) -> Callable[[str], str]:
    def beside(text: str) -> str:
        lockbox = lockbox_line(text)
        return lockbox.upper() if lockbox else write(text)

    return beside


def _writer(*, american: bool, postal: bool) -> Callable[[str], str]:
    if american:
        return street_in_short if postal else street_in_full
    return str.upper if postal else str


def _unit_line(address: Address, *, american: bool, postal: bool) -> Line:
    unit = address.unit or Cited("")
    bare = re.fullmatch(r"#?\s*([\w\-]+)", unit.text)
    if bare and re.match(r"\d|[A-Za-z]\d|[A-Za-z]$", bare[1]):
        # Publication 28, 213.2: # stands where the designator isn't known.
        word = f"{address.unit_word} " if address.unit_word else "#" if american else ""
        unit = Cited(f"{word}{bare[1]}", unit.cells) if word else unit
    if american:
        text = unit_in_short(unit.text) if postal else unit_in_full(unit.text)
    else:
        text = unit.text.upper() if postal else unit.text
    return Line(text, Role.STREET, unit.cells)


def _place(
    address: Address, *, american: bool, postal: bool
) -> tuple[tuple[Line, ...], tuple[Line, ...]]:
    """(lines above the street, lines below it)."""
    if american:
        return (), _american_place(address, postal=postal)
    return place_lines(address, postal=postal)


def _american_place(address: Address, *, postal: bool) -> tuple[Line, ...]:
    """As in "Boston, Massachusetts 02116", postal BOSTON MA 02116; one space before the ZIP."""
    city, region, code = address.city, address.region, address.postcode
    cells = together([each.cells for each in (city, region, code) if each])
    place = _town(city.text if city else "", region.text if region else "", postal=postal)
    postcode = code.text if code else ""
    postcode = postal_text(postcode) if postal else postcode
    text = f"{place} {postcode}" if place and postcode else place or postcode
    return (Line(text, Role.PLACE, cells),) if text else ()


def _town(city: str, code: str, *, postal: bool) -> str:
    """Town and state, as in "Boston, Massachusetts", postal BOSTON MA."""
    if postal:
        city, between, region = postal_town(city), " ", postal_text(code)
    elif code in MILITARY:
        between, region = " ", code
    else:
        city, between, region = _town_in_full(city), ", ", _state_names().get(code, code)
    return f"{city}{between}{region}" if city and region else city or region


@lru_cache(TOWNS_KEPT)
def _town_in_full(city: str) -> str:
    """A town as it is set; it recurs on many envelopes."""
    return town_in_full(_cased(city))


@cache
def _state_names() -> dict[str, str]:
    return lookup("states", "code", "name")


def _country(address: Address, home: str) -> tuple[Line, ...]:
    """The country alone on the last line, in capitals (Publication 28, A31)."""
    code = address.country.text if address.country else None
    name = country_line(code, home) if code else None
    if name is None:
        return ()
    fallback = address.postcode or address.city
    cells = address.country.cells if address.country else ()
    return (Line(name, Role.COUNTRY, cells or (fallback.cells if fallback else ())),)
