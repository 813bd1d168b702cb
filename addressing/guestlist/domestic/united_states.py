"""An address in the United States: read by rules and by a model, weighed, its ZIP checked."""

from collections.abc import Callable

from addressing.guestlist.domestic.address_doubt import town_is_known, weigh
from addressing.guestlist.domestic.address_model import Voice, listen
from addressing.guestlist.domestic.dual import note_dual
from addressing.guestlist.domestic.facilities import rooms_apart
from addressing.guestlist.domestic.us import read_us, town_and_state
from addressing.guestlist.domestic.zip_check import check_zip
from addressing.guestlist.written import Trouble, Written
from addressing.records.guests import Address


def read_american(
    written: Written,
    names: frozenset[str],
    second: Callable[[Written], Voice | None] = listen,
) -> tuple[Address, tuple[Trouble, ...], tuple[str, ...]]:
    """(address, troubles, remarks found among its words).

    `names` are the folded names of the row's people; `second` is the reading that is held against
    the rules'.
    """
    written = rooms_apart(town_and_state(written))
    rules, troubles = read_us(written, names)
    weighed = weigh(rules, written, names, second)
    address, checked = check_zip(weighed.address, written)
    asked = troubles or (() if _whole_is_asked(address) else weighed.troubles)
    return address, (*asked, *checked, *note_dual(address)), weighed.remarks


def _whole_is_asked(address: Address) -> bool:
    """True when a part is missing: then the whole address is asked for, its reading with it."""
    return None in (address.street, address.city, address.region)


def lies_here(address: Address) -> bool:
    """True when an address has a ZIP and a town that the ZIP serves: no other country has both."""
    return address.postcode is not None and town_is_known(address)


def reads_as_american(written: Written) -> bool:
    """True when the model finds a ZIP and one of its towns in an address."""
    voice = listen(written)
    return voice is not None and lies_here(voice.address)
