"""A United States address by rule: town, state and ZIP cut off, the parts of the rest sorted out.

Order and names of the parts follow Publication 28. How far to trust the reading is weighed
elsewhere (`address_doubt.py`).
"""

from dataclasses import replace

from addressing.guestlist.domestic.boxes import is_lockbox
from addressing.guestlist.domestic.dual import delivered_to
from addressing.guestlist.domestic.dwellings import Segment, kind_of, unit_before
from addressing.guestlist.domestic.sorting import sort_parts
from addressing.guestlist.domestic.tail import cut_tail
from addressing.guestlist.folding import fold
from addressing.guestlist.places.places import fold_town, state_code
from addressing.guestlist.written import Trouble, Written, joined
from addressing.records.guests import Address, Cited


def read_us(written: Written, names: frozenset[str]) -> tuple[Address, tuple[Trouble, ...]]:
    """The address of a row in the United States.

    `names` are the folded names of the row's people: a part that only repeats them is left out.
    """
    written = _settle_tail(written)
    sorted_out = sort_parts(written, names)
    streets = tuple(sorted_out.streets)
    address = Address(
        street=joined(streets) if streets else None,
        unit=_one(written.unit, sorted_out.units),
        recipient_extra=_one(written.extra, sorted_out.extras + sorted_out.leftovers, "\n"),
        city=written.city,
        region=_region(written.region),
        postcode=written.postcode,
        country=written.country,
        unit_word=written.unit_word,
    )
    return address, () if delivered_to(address) else _two_addresses(sorted_out.streets)


def _region(region: Cited | None) -> Cited | None:
    if region is None:
        return None
    return Cited(state_code(region.text) or region.text, region.cells)


def _one(own: Cited | None, found: list[Cited], mark: str = ", ") -> Cited | None:
    several = _each_once(found if own is None else [own, *found])
    return joined(several, mark) if several else None


def _each_once(said: list[Cited]) -> tuple[Cited, ...]:
    """What stands in two cells once; in one cell twice it is a slip of the list's, and stays."""
    kept: list[Cited] = []
    for each in said:
        again = (other for other in kept if fold(other.text) == fold(each.text))
        if all(other.cells == each.cells for other in again):
            kept.append(each)
    return tuple(kept)


def _settle_tail(written: Written) -> Written:
    """Town, state and ZIP from their columns, else from the end of the street text."""
    written = town_and_state(written)
    if written.city is not None and (written.region is not None or written.postcode is not None):
        return _without_repeats(written)
    if not written.lines:
        return written
    whole = joined(written.lines)
    text = unit_before("\n".join(line.text for line in written.lines))
    given = [cited.text for cited in (written.city, written.region, written.postcode) if cited]
    tail = cut_tail(", ".join([text, *given]))
    lines = _keep_lines(written.lines, tail.rest)

    def cite(value: str | None, column: Cited | None) -> Cited | None:
        if value is None:
            return column
        return column if column and fold(column.text) == fold(value) else Cited(value, whole.cells)

    return replace(
        written,
        lines=lines,
        city=cite(tail.city, written.city),
        region=cite(tail.region, written.region),
        postcode=cite(tail.postcode, written.postcode),
    )


def town_and_state(written: Written) -> Written:
    """A column of towns may hold "Brooklyn, NY" or "Ephrata, PA 17522", state and ZIP with it."""
    if written.city is None or written.region is not None:
        return written
    tail = cut_tail(written.city.text)
    if tail.city is None and written.postcode is not None:  # "Hartford CT", no court beside a ZIP
        tail = replace(cut_tail(f"{written.city.text} {written.postcode.text}"), postcode=None)
    if tail.rest or tail.city is None or tail.region is None:
        return written
    cells = written.city.cells
    code = Cited(tail.postcode, cells) if tail.postcode else None
    return replace(
        written,
        city=Cited(tail.city, cells),
        region=Cited(tail.region, cells),
        postcode=written.postcode or code,
    )


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


def _two_addresses(streets: list[Cited]) -> tuple[Trouble, ...]:
    """Two streets, or a street and a box, in one address: only the client knows which is meant.

    A bank's lockbox is in the street's house: a remittance address names both (common practice, no
    source).
    """
    whole = [street for street in streets if kind_of(street.text) in (Segment.STREET, Segment.BOX)]
    housed = [street for street in whole if not is_lockbox(street.text)]
    if len(housed) == 1:
        return ()
    if len(whole) < 2:  # noqa: PLR2004 - two of them
        return ()
    both = " / ".join(street.text for street in streets)
    text = f"Two addresses stand together: {both}."
    mend = "To which of them should the envelope go?"
    likely = tuple(("street", street.text) for street in whole)
    return (Trouble("address-doubtful", text, mend, joined(tuple(streets)), likely=likely),)
