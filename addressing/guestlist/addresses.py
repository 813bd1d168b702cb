"""The address of a row: which country's it is, then read by that country's rules."""

import re
from dataclasses import replace

from addressing.guestlist.abroad import read_abroad
from addressing.guestlist.countries import country_code, is_postcode, region_codes
from addressing.guestlist.dwellings import unit_before
from addressing.guestlist.folding import fold
from addressing.guestlist.places import state_code
from addressing.guestlist.tail import cut_country, cut_tail
from addressing.guestlist.us import read_us
from addressing.guestlist.written import Trouble, Written
from addressing.guestlist.zip_check import check_zip
from addressing.records.guests import Address, Cited

_REMARK = re.compile(r"\s*[(\[]([^()\[\]]*)[)\]]\s*")
_CODE_IN_TEXT = {
    "CA": re.compile(r"\b[ABCEGHJ-NPRSTVXY]\d[A-Z]\s?\d[A-Z]\d\b", re.IGNORECASE),
    "GB": re.compile(r"\b[A-Z]{1,2}\d[A-Z\d]?\s?\d[ABD-HJLNP-UW-Z]{2}\b"),
}
"""Postcodes that no other country writes so, for an address that names no country."""


def read_address(
    written: Written, names: frozenset[str]
) -> tuple[Address | None, tuple[Trouble, ...], tuple[str, ...]]:
    """(address or None, troubles, remarks taken out of brackets) of one row.

    `names` are the folded names of the row's people.
    """
    if written.empty:
        return None, (), ()
    written, remarks = _without_remarks(written)
    written, unknown = _with_country(written)
    country = written.country.text if written.country else None
    if unknown is not None:
        address, _ = read_us(written, names)
        return replace(address, country=None), (unknown,), remarks
    if country in ("US", "PR", "VI", "GU", "AS", "MP"):
        written = replace(written, country=replace(written.country or Cited("US"), text="US"))
        address, troubles = read_us(written, names)
        address, checked = check_zip(address, written)
        return address, (*troubles, *checked), remarks
    address, troubles = read_abroad(written, country or "")
    return address, troubles, remarks


def _without_remarks(written: Written) -> tuple[Written, tuple[str, ...]]:
    """Brackets in a street cell are remarks ("ring twice"); they are no part of the address."""
    remarks: list[str] = []
    lines: list[Cited] = []
    for line in written.lines:
        remarks.extend(found.strip() for found in _REMARK.findall(line.text) if found.strip())
        text = _REMARK.sub(" ", line.text).strip(" ,")
        if text:
            lines.append(Cited(text, line.cells))
    return replace(written, lines=tuple(lines)), tuple(remarks)


def _with_country(written: Written) -> tuple[Written, Trouble | None]:
    """Settle the country: its column, the end of the text, or what only one country writes."""
    if written.country is not None:
        code = country_code(written.country.text)
        if code is not None:
            return replace(_cut_again(written), country=Cited(code, written.country.cells)), None
        text = f"“{written.country.text}” is no country that we know."
        return written, Trouble("country-unknown", text, "Which country is meant?", written.country)
    if written.lines and not (written.city and written.postcode):
        last = written.lines[-1]
        text, named = cut_country(last.text)
        if named is not None:
            kept = (*written.lines[:-1], *((Cited(text, last.cells),) if text else ()))
            code = country_code(named)
            return replace(written, lines=kept, country=Cited(code or named, last.cells)), None
    return _by_evidence(written)


def _cut_again(written: Written) -> Written:
    """A country that the street cell repeats is cut off it."""
    if not written.lines:
        return written
    last = written.lines[-1]
    text, named = cut_country(last.text)
    if named is None or not text:
        return written
    return replace(written, lines=(*written.lines[:-1], Cited(text, last.cells)))


def _by_evidence(written: Written) -> tuple[Written, Trouble | None]:
    """Without a country: a US state or ZIP, a province with its code, or else a question."""
    text = " ".join(
        cited.text
        for cited in (*written.lines, written.city, written.region, written.postcode)
        if cited is not None
    )
    abroad = _only_abroad(written, text)
    if abroad is not None:
        return replace(written, country=Cited(abroad)), None
    if _looks_american(written, text):
        return replace(written, country=Cited("US")), None
    where = (
        written.postcode or written.region or (written.lines[-1] if written.lines else written.city)
    )
    mend = "Which country is it in?"
    return written, Trouble("country-unknown", "The address names no country.", mend, where)


def _only_abroad(written: Written, text: str) -> str | None:
    region = fold(written.region.text) if written.region else ""
    american = state_code(written.region.text) is not None if written.region else False
    for country, pattern in _CODE_IN_TEXT.items():
        if pattern.search(text) and not american:
            return country
    if written.postcode and is_postcode(written.postcode.text, "CA"):
        return "CA"
    return "CA" if region and region in region_codes("CA") and not american else None


def _looks_american(written: Written, text: str) -> bool:
    if written.region is not None:
        return state_code(written.region.text) is not None
    if written.postcode is not None:
        return bool(re.fullmatch(r"\d{3,5}(?:-\d{4})?|\d{7,9}", written.postcode.text))
    tail = cut_tail(unit_before(text if not written.lines else written.lines[-1].text))
    return tail.region is not None or tail.postcode is not None
