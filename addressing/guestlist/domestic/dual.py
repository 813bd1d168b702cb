"""A street and a box in one address: to which of them the post delivers.

Publication 28, 215: delivered is the address on the line just above the town, normally the box;
the other one may stand on a line above it; the ZIP is that of the delivered one. A town with a
single ZIP has no other for the street, so nothing is left to ask.
"""

from addressing.guestlist.domestic.boxes import is_lockbox
from addressing.guestlist.domestic.dwellings import Segment, kind_of
from addressing.guestlist.domestic.numbered_roads import is_numbered_road
from addressing.guestlist.folding import fold
from addressing.guestlist.places.places import town_zips
from addressing.guestlist.written import Trouble
from addressing.records.guests import Address

_PAIR = 2


def delivered_to(address: Address) -> str | None:
    """The box beside a street that the post delivers to; None for any other address.

    A road without a house's number, above or below a box, is no address of its own.
    """
    lines = address.street.text.split("\n") if address.street else []
    if len(lines) != _PAIR:
        return None
    boxes = [kind_of(line) is Segment.BOX and not is_lockbox(line) for line in lines]
    if boxes == [True, False] and is_numbered_road(fold(lines[1]).split()):
        return lines[0]
    street = boxes == [False, True] and kind_of(lines[0]) is Segment.STREET
    return lines[1] if street and _has_one_zip(address) else None


def note_dual(address: Address) -> tuple[Trouble, ...]:
    """The note that tells where the post will bring it."""
    box = delivered_to(address)
    if box is None or address.street is None:
        return ()
    text = f"A street and a box: the post delivers to {box}, on the line above the town."
    return (Trouble("address-dual", text, "Nothing to do.", address.street),)


def _has_one_zip(address: Address) -> bool:
    """True when the ZIP given is the only one of its town."""
    if address.city is None or address.region is None or address.postcode is None:
        return False
    code = address.postcode.text.split("-")[0].strip().zfill(5)
    return town_zips(address.city.text, address.region.text) == (code,)
