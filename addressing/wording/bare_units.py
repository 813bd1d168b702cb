"""A unit of which the list gives the number alone is set behind "#", and that is told once.

Publication 28, 213.2: # stands where the designator isn't known. It is a choice of the style, which
the client may like to see as "Apartment 5B".
"""

import re
from collections.abc import Iterator

from addressing.records.findings import Finding, Severity
from addressing.records.guests import Address, Cited, GuestList
from addressing.wording.country_line import AT_HOME

_SHOWN = 3
"""Units that the sentence shows; all their cells are cited."""
_BARE = re.compile(r"\d[\w\-]*|[A-Za-z]\d[\w\-]*|[A-Za-z]")


def set_behind_sign(guest_list: GuestList) -> tuple[Finding, ...]:
    """One note for all units that are set with a "#" which the list doesn't have."""
    units = list(_bare_units(guest_list))
    if not units:
        return ()
    shown = ", ".join(f"“{unit.text}” ({unit.cells[0].cell})" for unit in units[:_SHOWN])
    more = f" and {len(units) - _SHOWN} more" if len(units) > _SHOWN else ""
    text = f"Set behind “#”, since the list says neither apartment nor suite: {shown}{more}."
    mend = "Nothing to do, or write “Apt” before the number in the list."
    cells = tuple(dict.fromkeys(cell for unit in units for cell in unit.cells))
    return (Finding(Severity.NOTE, "unit-marked", cells[0], text, mend, also=cells[1:]),)


def _bare_units(guest_list: GuestList) -> Iterator[Cited]:
    """The units of the United States that are a number alone, each with its cells."""
    for home in guest_list.households:
        unit = _unit_of(home.address) if home.address and not home.by_hand else None
        if unit is not None and unit.cells:
            yield unit


def _unit_of(address: Address) -> Cited | None:
    american = address.country is None or address.country.text in AT_HOME
    named = address.unit is None or address.unit_word is not None
    bare = address.unit is not None and _BARE.fullmatch(address.unit.text)
    return address.unit if american and bare and not named else None
