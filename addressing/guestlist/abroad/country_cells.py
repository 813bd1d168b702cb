"""A country that stands in another column: "UK" as a state, "Galway, Ireland" as a town.

Lists made on a form for US addresses have no column for it. A US state of the row comes first:
Georgia is a country only where the code beside it is no ZIP of that state and has its form.
"""

import re
from dataclasses import replace

from addressing.guestlist.folding import fold
from addressing.guestlist.places.countries import country_code, country_of_cell
from addressing.guestlist.places.places import state_code, town_in_zip, zip_in_state
from addressing.guestlist.places.postcodes import tidy
from addressing.guestlist.places.sub_areas import countries_with_region, sub_area
from addressing.guestlist.written import Written
from addressing.records.guests import Cited

_LETTERS = frozenset(("us", "uk", "gb", "usa", "uae"))
"""Names of countries in letters that are no region's."""
_WHOLE = frozenset(("region", "postcode"))
"""Cells that may hold nothing but a country's name: of a town, Lebanon is one."""
_ALPHA_3 = 3
_LONGEST = 4
"""Words of a country's name behind a town."""
_BEHIND_MARK = re.compile(r"(.*\S)\s*[,;/\n(]\s*([^,;/\n()]+)\)?", re.DOTALL)


def country_out_of_place(written: Written) -> Written:
    """The same cells, a country's name taken out of the state, the ZIP and the town's end.

    Where the country has a column of its own, only its own name is taken out.

    >>> said = Written(city=Cited("Galway, Ireland"), postcode=Cited("H91 X2F8"))
    >>> moved = country_out_of_place(said)
    >>> moved.city.text, moved.country.text
    ('Galway', 'Ireland')
    """
    for name in ("region", "postcode", "city"):
        cell = getattr(written, name)
        if cell is None:
            continue
        whole = name in _WHOLE
        rest, named = _cut(cell.text, written, whole=whole)
        if named is None or not (rest or whole):
            continue
        if written.country is None:
            written = replace(written, country=Cited(named, cell.cells))
        elif country_of_cell(written.country.text) != country_code(named):
            continue
        written = _with_rest(written, name, Cited(rest, cell.cells) if rest else None)
    return written


def _with_rest(written: Written, name: str, rest: Cited | None) -> Written:
    if name == "region":
        return replace(written, region=rest)
    if name == "postcode":
        return replace(written, postcode=rest)
    return replace(written, city=rest)


def _cut(text: str, written: Written, *, whole: bool) -> tuple[str, str | None]:
    """(what stands before, the country's name or None) of one cell."""
    if whole and _is_country(text, written):
        return "", text
    found = _BEHIND_MARK.fullmatch(text)
    if found and _is_country(found[2], written):
        return found[1].rstrip(" ,;/(\n"), found[2]
    words = text.split()
    for length in range(min(_LONGEST, len(words) - 1), 0, -1):
        named = " ".join(words[-length:])
        if _is_country(named, written) and _is_its_own(named, text, written):
            return " ".join(words[:-length]).rstrip(" ,"), named
    return text, None


def _is_country(text: str, written: Written) -> bool:
    """True for a country's name that is neither a region's letters nor the row's US state."""
    code = country_code(text)
    if code is None:
        return False
    letters = re.sub(r"[\W\d_]", "", text).casefold()
    if len(letters) <= _ALPHA_3 and letters not in _LETTERS:
        return False  # FI is Firenze's and CA a state's
    if not _fits(written, code) and any(
        _fits(written, land) for land in countries_with_region(fold(text))
    ):
        return False  # the county of Norfolk, and no island
    state = state_code(text)
    return state is None or (_fits(written, code) and not _lies_in(written, state))


def _fits(written: Written, country: str) -> bool:
    """True where the row's code has the form of the country's."""
    return written.postcode is not None and tidy(written.postcode.text, country) is not None


def _lies_in(written: Written, state: str | None) -> bool:
    code = written.postcode.text.strip() if written.postcode else ""
    return state is not None and zip_in_state(code[:5].zfill(5), state)


def _is_its_own(named: str, text: str, written: Written) -> bool:
    """Without a comma (East Jordan, New Holland) the row's code must be the country's, no ZIP."""
    code = country_code(named)
    if code is not None and sub_area(text, code) is not None:
        return False  # South Australia
    plain = re.sub(r"[\W\d_]", "", named).casefold()
    if plain in _LETTERS:
        return True
    if code is None or not _fits(written, code) or written.postcode is None:
        return False
    elsewhere = written.region is not None and state_code(written.region.text) is not None
    return not elsewhere and not town_in_zip(text, written.postcode.text[:5])
