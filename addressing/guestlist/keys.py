"""A household's key: a digest of who and where, the same whatever the order of the rows."""

import base64
import hashlib
from collections.abc import Sequence

from addressing.guestlist.folding import fold
from addressing.records.guests import Household

DIGITS = 8


def with_keys(households: Sequence[Household]) -> tuple[Household, ...]:
    """The households with their keys; twins (same names, same postcode) get -2, -3 by content."""
    digests: dict[str, list[int]] = {}
    for place, household in enumerate(households):
        digests.setdefault(_digest(_who(household)), []).append(place)
    keys: dict[int, str] = {}
    for digest, places in digests.items():
        ordered = sorted(places, key=lambda place: _content(households[place]))
        for number, place in enumerate(ordered, start=1):
            keys[place] = f"h-{digest}" if number == 1 else f"h-{digest}-{number}"
    return tuple(_keyed(household, keys[place]) for place, household in enumerate(households))


def _keyed(household: Household, key: str) -> Household:
    return Household(
        key,
        household.people,
        household.label,
        household.family,
        household.address,
        household.by_hand,
        household.rows,
    )


def _digest(text: str) -> str:
    """Eight of a-z and 2-7 (base 32, RFC 4648)."""
    digest = hashlib.sha256(text.encode()).digest()
    return base64.b32encode(digest).decode().lower()[:DIGITS]


def _who(household: Household) -> str:
    names = sorted(f"{fold(p.given or '')} {fold(p.family or '')}" for p in household.people)
    label = fold(household.label.text) if household.label else ""
    postcode = household.address.postcode if household.address else None
    return "|".join((*names, label, fold(postcode.text) if postcode else ""))


def _content(household: Household) -> tuple[str, ...]:
    """Everything that tells twins apart, in an order of its own."""
    address = household.address
    fields = (address.street, address.unit, address.city) if address else ()
    people = (
        f"{p.title} {p.given} {p.family} {p.suffix} {p.nickname} {p.age}" for p in household.people
    )
    return (*(field.text if field else "" for field in fields), *people, *_places(household))


def _places(household: Household) -> tuple[str, ...]:
    return tuple(str(where) for where in household.rows)
