"""A United States address: parts sorted out by rule, checked against a second reading, with doubt.

Order and names of the parts follow Publication 28. What the rules can't place, and where the second
reading (a trained model) cuts the town elsewhere, raises the doubt.
"""

import re
from dataclasses import replace

import usaddress

from addressing.guestlist.dwellings import Segment, kind_of, unit_before
from addressing.guestlist.folding import fold
from addressing.guestlist.places import fold_town, state_code, town_in_zip
from addressing.guestlist.sorting import Sorted, sort_parts
from addressing.guestlist.tail import Tail, cut_tail
from addressing.guestlist.written import Trouble, Written, joined
from addressing.records.guests import Address, Cited

# Shares of wrong readings. Measured on disturbed open data: 1.3 % wrong where the town is one of
# the ZIP's, 51 % where it is not and no comma parts it. The rest are estimates between them.
_DOUBT_TOWN_IN_ZIP = 0.01
_DOUBT_TOWN_APART = 0.03
_DOUBT_TOWN_BY_STATE = 0.05
_DOUBT_TOWN_BY_SUFFIX = 0.08
_DOUBT_DISAGREED = 0.5
_DOUBT_LEFTOVER = 0.4
ASK_FROM = 0.2
"""From this doubt on the client is asked."""


def read_us(written: Written, names: frozenset[str]) -> tuple[Address, tuple[Trouble, ...]]:
    """The address of a row in the United States.

    `names` are the folded names of the row's people: a part that only repeats them is left out.
    """
    written, tail, doubt = _settle_tail(written)
    sorted_out = sort_parts(written, names)
    city, region, postcode = written.city, written.region, written.postcode
    doubt = max(doubt, sorted_out.doubt, _DOUBT_LEFTOVER if sorted_out.leftovers else 0.0)
    streets = tuple(sorted_out.streets)
    if tail is not None and tail.town_by in ("state", "suffix") and _disagrees(streets, city, tail):
        doubt = max(doubt, _DOUBT_DISAGREED)
    address = Address(
        street=joined(streets) if streets else None,
        unit=_one(written.unit, sorted_out.units),
        recipient_extra=_one(written.extra, sorted_out.extras + sorted_out.leftovers, "\n"),
        city=city,
        region=_region(region),
        postcode=postcode,
        country=written.country,
        doubt=round(doubt, 3),
        unit_word=written.unit_word,
    )
    return address, _troubles(address, sorted_out)


def _region(region: Cited | None) -> Cited | None:
    if region is None:
        return None
    return Cited(state_code(region.text) or region.text, region.cells)


def _one(own: Cited | None, found: list[Cited], mark: str = ", ") -> Cited | None:
    several = tuple(found) if own is None else (own, *found)
    return joined(several, mark) if several else None


def _settle_tail(written: Written) -> tuple[Written, Tail | None, float]:
    """Town, state and ZIP from their columns, else from the end of the street text."""
    written = _town_and_state(written)
    if written.city is not None and (written.region is not None or written.postcode is not None):
        return _without_repeats(written), None, _column_doubt(written)
    if not written.lines:
        return written, None, 0.0
    whole = joined(written.lines)
    text = unit_before("\n".join(line.text for line in written.lines))
    given = [cited.text for cited in (written.city, written.region, written.postcode) if cited]
    tail = cut_tail(", ".join([text, *given]))
    lines = _keep_lines(written.lines, tail.rest)

    def cite(value: str | None, column: Cited | None) -> Cited | None:
        if value is None:
            return column
        return column if column and fold(column.text) == fold(value) else Cited(value, whole.cells)

    settled = replace(
        written,
        lines=lines,
        city=cite(tail.city, written.city),
        region=cite(tail.region, written.region),
        postcode=cite(tail.postcode, written.postcode),
    )
    return settled, tail, _tail_doubt(tail)


def _town_and_state(written: Written) -> Written:
    """A column of towns may hold "Brooklyn, NY" where there is no column for the state."""
    if written.city is None or written.region is not None or "," not in written.city.text:
        return written
    town, _, state = written.city.text.rpartition(",")
    if state_code(state) is None:
        return written
    cells = written.city.cells
    return replace(written, city=Cited(town.strip(), cells), region=Cited(state.strip(), cells))


def _column_doubt(written: Written) -> float:
    """Columns of their own leave little doubt, unless a town holds a digit."""
    town = written.city.text if written.city else ""
    return _DOUBT_LEFTOVER if re.search(r"\d", town) else 0.005


def _tail_doubt(tail: Tail) -> float:
    if tail.city and tail.postcode and town_in_zip(tail.city, tail.postcode):
        return _DOUBT_TOWN_IN_ZIP
    return {
        "comma": _DOUBT_TOWN_APART,
        "zip": _DOUBT_TOWN_IN_ZIP,
        "state": _DOUBT_TOWN_BY_STATE,
        "suffix": _DOUBT_TOWN_BY_SUFFIX,
    }.get(tail.town_by, _DOUBT_DISAGREED)


def _keep_lines(lines: tuple[Cited, ...], rest: str) -> tuple[Cited, ...]:
    """The text that is left, each line with the cell that it came from."""
    if len(lines) == 1 or not rest.startswith(lines[0].text):
        lines = (joined(lines),)
        return (Cited(rest, lines[0].cells),) if rest else ()
    kept: list[Cited] = []
    for line in lines:
        if not rest:
            break
        if rest.startswith(line.text):
            kept.append(line)
            rest = rest[len(line.text) :].lstrip("\n ,")
        else:
            kept.append(Cited(rest, line.cells))
            rest = ""
    return tuple(kept)


def _without_repeats(written: Written) -> Written:
    """Take town, state and ZIP off the street cell where the columns say the same again."""
    if not written.lines:
        return written
    last = written.lines[-1]
    tail = cut_tail(last.text)
    pairs = (
        (tail.city, written.city),
        (tail.region, written.region),
        (tail.postcode, written.postcode),
    )
    same = [_same_place(found, column.text if column else None) for found, column in pairs if found]
    if not same or not all(same) or tail.city is None:
        return written
    lines = (*written.lines[:-1], *((Cited(tail.rest, last.cells),) if tail.rest else ()))
    return replace(written, lines=lines)


def _same_place(found: str, column: str | None) -> bool:
    if column is None:
        return False
    codes = state_code(found), state_code(column)
    same_state = codes[0] is not None and codes[0] == codes[1]
    return same_state or fold_town(found) == fold_town(column)


def _disagrees(streets: tuple[Cited, ...], city: Cited | None, tail: Tail) -> bool:
    """True when the second reading cuts the town at another place than ours."""
    if city is None or not streets:
        return True
    text = f"{streets[-1].text} {city.text} {tail.region or ''} {tail.postcode or ''}"
    labelled = usaddress.parse(text)
    town = " ".join(word.strip(" ,") for word, label in labelled if label == "PlaceName")
    return fold_town(town) != fold_town(city.text)


def _troubles(address: Address, found: Sorted) -> tuple[Trouble, ...]:
    """What the parts by themselves leave in doubt (ZIP, state and town are checked elsewhere)."""
    troubles: list[Trouble] = []
    if len(found.streets) > 1 and _two_addresses(found.streets):
        both = " / ".join(street.text for street in found.streets)
        troubles.append(
            Trouble(
                "address-doubtful",
                f"Two addresses stand together: {both}.",
                "To which of them should the envelope go?",
                joined(tuple(found.streets)),
            )
        )
    elif address.doubt >= ASK_FROM:
        troubles.append(_doubtful(address, found))
    return tuple(troubles)


def _two_addresses(streets: list[Cited]) -> bool:
    kinds = [kind_of(street.text) for street in streets]
    return len([kind for kind in kinds if kind in (Segment.STREET, Segment.BOX)]) > 1


def _doubtful(address: Address, found: Sorted) -> Trouble:
    parts = (
        ("street", address.street),
        ("unit", address.unit),
        ("town", address.city),
        ("state", address.region),
        ("ZIP", address.postcode),
    )
    read = ", ".join(f"{name} “{cited.text}”" for name, cited in parts if cited)
    loose = "; ".join(part.text for part in found.leftovers)
    text = f"“{loose}” could not be placed: read as {read}." if loose else f"Read as {read}."
    where = found.leftovers[0] if found.leftovers else address.street or address.city
    return Trouble(
        "address-doubtful", text, "Is it right so? Else write the address line by line.", where
    )
