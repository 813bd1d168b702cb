"""The lines for postcode, town and region abroad, in the order of the country (place_forms.tsv)."""

import re
from functools import cache

from addressing.records.guests import Address, Cited
from addressing.records.pieces import Line, Role
from addressing.tables import lookup, table
from addressing.wording.casing import is_single_case, recase

_FIELD = re.compile(r"([^{}]*)\{(\w+)\}")
_OTHERWISE = "{postcode} {city}|{region}"
_NATIVE = re.compile(r"[぀-ヿ㐀-鿿가-힯]")


def unit_place(address: Address) -> str:
    """Where the country writes a unit: "first", "behind", "" for wherever it was written."""
    return lookup("place_forms", "country", "unit").get(_code(address), "")


def place_lines(address: Address, *, postal: bool) -> tuple[tuple[Line, ...], tuple[Line, ...]]:
    """(lines above the street, lines below it); a part that is missing leaves no gap."""
    forms = lookup("place_forms", "country", "form")
    country = _code(address)
    form = forms.get(country, _OTHERWISE)
    if address.street is not None and _NATIVE.search(address.street.text):
        form = forms.get(f"{country}-native", form)
    above, mark, below = form.partition("{street}|") if "{street}|" in form else ("", "", form)
    if not mark and form.endswith("|{street}"):
        above, below = form.removesuffix("{street}"), ""
    return _lines(above, address, postal=postal), _lines(below, address, postal=postal)


def _code(address: Address) -> str:
    return address.country.text if address.country else ""


def _lines(form: str, address: Address, *, postal: bool) -> tuple[Line, ...]:
    city, region = address.city, address.region
    if city and region and city.text.casefold() == region.text.casefold():
        form = form.replace("|{region}", "")  # Alicante lies in Alicante
    made = (_line(part, address, postal=postal) for part in form.split("|"))
    return tuple(line for line in made if line is not None)


def _line(form: str, address: Address, *, postal: bool) -> Line | None:
    """One line of a form; what parts two values stands only between two that are there."""
    text = ""
    cited: list[Cited] = []
    for between, name in _FIELD.findall(form):
        value: Cited | None = getattr(address, name)
        if value is None:
            continue
        text += between if text else between.strip(" ,-/")
        text += _shown(name, value.text, _code(address))
        cited.append(value)
    if not cited:
        return None
    cells = tuple(dict.fromkeys(cell for value in cited for cell in value.cells))
    return Line(text.upper() if postal else text, Role.PLACE, cells)


def _shown(name: str, text: str, country: str) -> str:
    if name == "city":
        return recase(text) if is_single_case(text) else text
    return _codes(country).get(text.casefold(), text) if name == "region" else text


@cache
def _codes(country: str) -> dict[str, str]:
    """Names of the regions that the country's envelopes bear as a code (São Paulo: SP)."""
    return {
        form.casefold(): row["code"]
        for row in table("regions_abroad")
        if row["country"] == country and row["code"]
        for form in (row["code"], row["name"], *row["other_forms"].split("|"))
        if form
    }
