"""The address lines of an envelope: extra, street, unit, place, country, in a style.

United States by Publication 28; abroad by the country's own form, the country last, in capitals.
"""

import re
from collections.abc import Callable
from functools import cache

from babel import Locale

from addressing.records.guests import Address, Cited
from addressing.records.pieces import Line, Role
from addressing.tables import lookup
from addressing.wording.casing import is_single_case, recase
from addressing.wording.streets import (
    postal_text,
    street_in_full,
    street_in_short,
    unit_in_full,
    unit_in_short,
)

_AT_HOME = frozenset(("US", "PR", "VI", "GU", "AS", "MP"))
_MILITARY = frozenset(("AA", "AE", "AP"))


def address_lines(
    address: Address, home: str, *, postal: bool
) -> tuple[tuple[Line, ...], tuple[Line, ...] | None]:
    """(lines, lines with the unit on a line of its own or None) of an address.

    `home` is the sender's country (alpha-2): its name is left off.
    """
    american = address.country is None or address.country.text in _AT_HOME
    head = _extras(address, postal=postal)
    tail = (*_place(address, american=american, postal=postal), *_country(address, home))
    streets = _streets(address, american=american, postal=postal)
    if address.unit is None or not streets:
        unit = (_unit_line(address, american=american, postal=postal),) if address.unit else ()
        return (*head, *streets, *unit, *tail), None
    own = _unit_line(address, american=american, postal=postal)
    mark = " " if postal else ", "
    if _unit_first(address):
        return (*head, *_before(own, streets, mark), *tail), None
    last = streets[-1]
    cells = tuple(dict.fromkeys((*last.cells, *own.cells)))
    inline = Line(f"{last.text}{mark}{own.text}", Role.STREET, cells)
    return (*head, *streets[:-1], inline, *tail), (*head, *streets, own, *tail)


def _unit_first(address: Address) -> bool:
    """True in countries that write the flat before the house: Flat 3, 14 Larkmoor Road."""
    country = address.country.text if address.country else ""
    return lookup("place_forms", "country", "unit").get(country) == "first"


def _before(unit: Line, streets: tuple[Line, ...], mark: str) -> tuple[Line, ...]:
    """The street lines with the unit before the first that begins with a number, else the first."""
    place = next((i for i, line in enumerate(streets) if line.text[:1].isdigit()), 0)
    street = streets[place]
    cells = tuple(dict.fromkeys((*unit.cells, *street.cells)))
    joint = Line(f"{unit.text}{mark}{street.text}", Role.STREET, cells)
    return (*streets[:place], joint, *streets[place + 1 :])


def _cased(text: str) -> str:
    return recase(text) if is_single_case(text) else text


def _extras(address: Address, *, postal: bool) -> tuple[Line, ...]:
    if address.recipient_extra is None:
        return ()
    return tuple(
        Line(
            postal_text(text) if postal else _care(text), Role.EXTRA, address.recipient_extra.cells
        )
        for text in re.split(r"\n|, (?=\S)", address.recipient_extra.text)
    )


def _care(text: str) -> str:
    """In care of, for "c/o"."""
    return re.sub(r"^c/o\s+", "in care of ", text, flags=re.IGNORECASE)


def _streets(address: Address, *, american: bool, postal: bool) -> tuple[Line, ...]:
    if address.street is None:
        return ()
    write = _writer(american=american, postal=postal)
    return tuple(
        Line(write(text), Role.STREET, address.street.cells)
        for text in address.street.text.split("\n")
    )


def _writer(*, american: bool, postal: bool) -> Callable[[str], str]:
    if american:
        return street_in_short if postal else street_in_full
    return str.upper if postal else str


def _unit_line(address: Address, *, american: bool, postal: bool) -> Line:
    unit = address.unit or Cited("")
    bare = re.fullmatch(r"#?\s*([\w\-]+)", unit.text)
    if address.unit_word and bare and re.match(r"\d|[A-Za-z]\d|[A-Za-z]$", bare[1]):
        unit = Cited(f"{address.unit_word} {bare[1]}", unit.cells)
    if american:
        text = unit_in_short(unit.text) if postal else unit_in_full(unit.text)
    else:
        text = unit.text.upper() if postal else unit.text
    return Line(text, Role.STREET, unit.cells)


def _place(address: Address, *, american: bool, postal: bool) -> tuple[Line, ...]:
    if american:
        return _american_place(address, postal=postal)
    country = address.country.text if address.country else ""
    form = lookup("place_forms", "country", "form").get(country, "{postcode} {city}|{region}")
    lines: list[Line] = []
    for part in form.split("|"):
        used = [name for name in ("city", "region", "postcode") if f"{{{name}}}" in part]
        cited = [value for value in (getattr(address, name) for name in used) if value is not None]
        if not cited:
            continue
        text = part
        for name in used:
            value = getattr(address, name)
            text = text.replace(
                f"{{{name}}}",
                _cased(value.text) if value and name == "city" else value.text if value else "",
            )
        cells = tuple(dict.fromkeys(cell for value in cited for cell in value.cells))
        tidy = re.sub(r"^[\s,\-]+|[\s,\-]+$", "", re.sub(r",\s*$", "", text))
        lines.append(Line(tidy.upper() if postal else tidy, Role.PLACE, cells))
    return tuple(lines)


def _american_place(address: Address, *, postal: bool) -> tuple[Line, ...]:
    """As in "Boston, Massachusetts 02116", postal BOSTON MA 02116; one space before the ZIP."""
    cells = tuple(
        dict.fromkeys(
            cell for c in (address.city, address.region, address.postcode) if c for cell in c.cells
        )
    )
    city = address.city.text if address.city else ""
    code = address.region.text if address.region else ""
    region, comma = code, ""
    if not postal and code not in _MILITARY:
        region = _state_names().get(code, code)
        comma = "," if city and region else ""
        city = _town(_cased(city))
    postcode = address.postcode.text if address.postcode else ""
    text = " ".join(part for part in (f"{city}{comma}", region, postcode) if part)
    text = postal_text(text) if postal else text
    return (Line(text, Role.PLACE, cells),) if text else ()


def _town(city: str) -> str:
    """Fort and Mount are written out; St. stays as the town's own name may have it."""
    city = re.sub(r"^Ft\.? ", "Fort ", city)
    return re.sub(r"^Mt\.? ", "Mount ", city)


def _state_names() -> dict[str, str]:
    return lookup("states", "code", "name")


def _country(address: Address, home: str) -> tuple[Line, ...]:
    """The country's name in English, capitals, alone on the last line (Publication 28, A31)."""
    code = address.country.text if address.country else None
    if code is None or code == home or (home in _AT_HOME and code in _AT_HOME):
        return ()
    fallback = address.postcode or address.city
    cells = address.country.cells if address.country else ()
    name = _english().get(code, code).upper()
    return (Line(name, Role.COUNTRY, cells or (fallback.cells if fallback else ())),)


@cache
def _english() -> dict[str, str]:
    return dict(Locale("en").territories.items())
