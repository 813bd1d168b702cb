"""The address of a row: which country's it is, then read by that country's rules."""

import re
from collections.abc import Callable
from dataclasses import replace

from addressing.guestlist.abroad.by_country import read_abroad
from addressing.guestlist.abroad.checks_abroad import country_name
from addressing.guestlist.abroad.country_cells import country_out_of_place
from addressing.guestlist.abroad.which_country import (
    at_home,
    country_by_signs,
    names_a_region,
    needs_code,
)
from addressing.guestlist.domestic.address_model import Voice, listen
from addressing.guestlist.domestic.designators import unit_pattern
from addressing.guestlist.domestic.dwellings import unit_before
from addressing.guestlist.domestic.tail import cut_country, cut_tail
from addressing.guestlist.domestic.united_states import lies_here, read_american, reads_as_american
from addressing.guestlist.homes.clearing import clear
from addressing.guestlist.homes.spoken import (
    in_place_of,
    only_spoken,
    without_spoken,
)
from addressing.guestlist.places.countries import country_code, country_of_cell
from addressing.guestlist.places.places import state_code
from addressing.guestlist.written import Trouble, Written
from addressing.records.guests import Address, Cited

_REMARK = re.compile(r"\s*[(\[]([^()\[\]]*)[)\]]\s*")
_AMERICAN = frozenset(("US", "PR", "VI", "GU", "AS", "MP"))


def read_address(
    written: Written,
    names: frozenset[str],
    home: str = "US",
    second: Callable[[Written], Voice | None] = listen,
) -> tuple[Address | None, tuple[Trouble, ...], tuple[str, ...]]:
    """(address or None, troubles, remarks taken out of brackets) of one row.

    `names` are the folded names of the row's people; `home` is the sender's country (alpha-2);
    `second` is the second reading of a US address, held against the rules'.
    """
    cleared = clear(written)
    spoken = only_spoken(cleared.written)
    if spoken is not None:
        return None, (in_place_of(spoken),), cleared.remarks
    address, troubles, remarks = _read(cleared.written, names, home, second)
    if address is not None:
        address, doubts = without_spoken(address)
        troubles = (*doubts, *troubles)
    said = {trouble.code for trouble in cleared.troubles}
    troubles = tuple(trouble for trouble in troubles if trouble.code not in said)
    return address, (*cleared.troubles, *troubles), (*cleared.remarks, *remarks)


def _read(
    written: Written, names: frozenset[str], home: str, second: Callable[[Written], Voice | None]
) -> tuple[Address | None, tuple[Trouble, ...], tuple[str, ...]]:
    if written.empty:
        return None, (), ()
    written, remarks = _without_remarks(written)
    written, said = _with_country(country_out_of_place(written), home)
    country = written.country.text if written.country else None
    if country is None:
        address, troubles, found = read_american(written, names, second)
        if lies_here(address):
            return replace(address, country=Cited("US")), troubles, (*remarks, *found)
        mended = tuple(trouble for trouble in troubles if trouble.repair)
        return replace(address, country=None), (*said, *mended), (*remarks, *found)
    if country in _AMERICAN:
        if country != "US":
            written = replace(written, country=replace(written.country or Cited("US"), text="US"))
        address, troubles, found = read_american(written, names, second)
        return address, (*said, *troubles), (*remarks, *found)
    address, troubles = read_abroad(written, country, names)
    return address, (*said, *troubles), remarks


def _without_remarks(written: Written) -> tuple[Written, tuple[str, ...]]:
    """Brackets in a street cell are remarks ("ring twice"), save a region's: Milano (MI)."""
    remarks: list[str] = []
    lines: list[Cited] = []

    def taken_out(found: re.Match[str]) -> str:
        if names_a_region(found[1]):
            return found[0]
        remarks.extend([found[1].strip()] if found[1].strip() else [])
        return " "

    for line in written.lines:
        text = _REMARK.sub(taken_out, line.text).strip(" ,")
        if text:
            lines.append(Cited(text, line.cells))
    return written.with_lines(lines), tuple(remarks)


def _with_country(written: Written, home: str = "US") -> tuple[Written, tuple[Trouble, ...]]:
    """Settle the country: its column, the end of the text, or what only one country writes."""
    if written.country is not None:
        code = country_of_cell(written.country.text)
        if code is not None:
            return replace(_cut_again(written), country=Cited(code, written.country.cells)), ()
        text = f"“{written.country.text}” is no country that we know."
        trouble = Trouble("country-unknown", text, "Which country is meant?", written.country)
        return replace(written, country=None), (trouble,)
    if written.lines and not (written.city and written.postcode):
        last = written.lines[-1]
        text, named = cut_country(last.text)
        if named is not None:
            kept = (*written.lines[:-1], *((Cited(text, last.cells),) if text else ()))
            code = country_code(named)
            return replace(written, lines=kept, country=Cited(code or named, last.cells)), ()
    return _by_evidence(written, home)


def _cut_again(written: Written) -> Written:
    """A country that the street cell repeats is cut off it."""
    if not written.lines:
        return written
    last = written.lines[-1]
    text, named = cut_country(last.text)
    if named is None or not text:
        return written
    return replace(written, lines=(*written.lines[:-1], Cited(text, last.cells)))


def _by_evidence(written: Written, home: str) -> tuple[Written, tuple[Trouble, ...]]:
    """Without a country: a sign of one, the sender's own, a US state or ZIP, or else a question."""
    where = (
        written.postcode or written.region or (written.lines[-1] if written.lines else written.city)
    )
    signed = country_by_signs(written)
    if signed is not None and not reads_as_american(written):
        name = country_name(signed)
        said = f"No country is named; only {name} writes an address so."
        note = Trouble("country-assumed", said, f"Is it in {name}?", where)
        return replace(written, country=Cited(signed)), () if signed == home else (note,)
    if home not in _AMERICAN and at_home(written, home):
        return replace(written, country=Cited(home)), ()
    if _looks_american(written):
        return replace(written, country=Cited("US")), ()
    if home not in _AMERICAN and not needs_code(home):
        return replace(written, country=Cited(home)), ()
    if _is_street_alone(written):
        lacking = "no town, no state and no ZIP code" if home in _AMERICAN else "no town"
        text, mend = f"The address has {lacking}.", "What is the whole address?"
        return written, (Trouble("address-incomplete", text, mend, where),)
    placed = written.region is not None or written.postcode is not None
    text = "names no country" if placed else "has no state, no ZIP code or postcode, and no country"
    trouble = Trouble("country-unknown", f"The address {text}.", "Which country is it in?", where)
    return written, (trouble,)


def _is_street_alone(written: Written) -> bool:
    """True for one part, a unit behind it aside: no word of it can be a town's."""
    if len(written.lines) != 1 or written.city or written.region or written.postcode:
        return False
    _, *behind = (part.strip() for part in re.split(r"[,\n]", written.lines[0].text.strip(" ,")))
    return all(re.fullmatch(unit_pattern(), part, re.IGNORECASE) for part in behind)


def _looks_american(written: Written) -> bool:
    if written.region is not None:
        return state_code(written.region.text) is not None
    if written.postcode is not None:
        return bool(re.fullmatch(r"\d{3,5}(?:-\d{4})?|\d{7,9}", written.postcode.text))
    ends = [cited.text for cited in (*written.lines[-1:], written.city) if cited is not None]
    tails = [cut_tail(unit_before(end)) for end in ends]
    return any(tail.region is not None or tail.postcode is not None for tail in tails)
