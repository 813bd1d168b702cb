"""What an address of a mail leaves to another's: "Staunton, same zip", "same street as Kit, 31".

It is worked out only where the mail has one answer. Such a household was read from a sentence, so
the client is shown the whole address and asked.
"""

import re
from collections.abc import Iterable, Sequence
from functools import cache

from addressing.guestlist.files.blocks import NAME, STREETS, Slots
from addressing.guestlist.files.mail_lines import Line
from addressing.guestlist.files.place_headings import PLACE
from addressing.guestlist.files.prose_homes import SENTENCE_SLOT
from addressing.guestlist.files.prose_words import prose_pattern, prose_words
from addressing.guestlist.folding import fold

_NUMBERED = re.compile(r"\d+[A-Za-z]?\s+(?P<street>[^\d,]+)")

Home = tuple[int, Slots]


def with_others_places(homes: Sequence[Home]) -> None:
    """Complete the addresses that name another's street, or a town of which another has the ZIP."""
    for _, slots in homes:
        said = " ".join(line.text for line in slots.get(SENTENCE_SLOT, ()))
        if not said:
            continue
        if STREETS[0] not in slots:
            _take_street(slots, said, homes)
        elif prose_pattern("same-code").search(said):
            _take_code(slots, homes)


def _take_street(slots: Slots, said: str, homes: Sequence[Home]) -> None:
    """The number of "same street as Eunice, number 31" on Eunice's street, in her town."""
    found = _same_street().search(said)
    if found is None:
        return
    others = [other for _, other in homes if other is not slots and _names(other, found["who"])]
    parts = _parts(others[0]) if len(others) == 1 else []
    street = _NUMBERED.fullmatch(parts[0]) if len(parts) > 1 else None
    if street is not None and PLACE.search(", ".join(parts[1:])):
        address = ", ".join((f"{found['number']} {street['street']}", *parts[1:]))
        slots[STREETS[0]] = [Line(slots[NAME][0].number, address)]


def _take_code(slots: Slots, homes: Sequence[Home]) -> None:
    """The state and the ZIP code that all others of the mail have behind the same town."""
    parts = _parts(slots)
    known: dict[str, str] = {}
    for _, other in homes:
        found = PLACE.search(", ".join(_parts(other)))
        if found and fold(found["town"]) == fold(parts[-1]):
            known.setdefault(found["code"], found["place"])
    if len(parts) > 1 and len(known) == 1:
        address = ", ".join((*parts[:-1], *known.values()))
        slots[STREETS[0]] = [Line(slots[STREETS[0]][0].number, address)]
        for slot in STREETS[1:]:
            slots.pop(slot, None)


def _parts(slots: Slots) -> list[str]:
    """The parts of a household's address, as commas and lines part it."""
    lines = (line.text for slot in STREETS for line in slots.get(slot, ()))
    parts = (part.strip(" ,.") for line in lines for part in line.split(","))
    return [part for part in parts if part]


def _names(slots: Slots, who: str) -> bool:
    """True for a household with every word of some names in its own."""
    lines: Iterable[Line] = slots.get(NAME, ())
    own = {fold(word) for line in lines for word in line.text.split()}
    return own.issuperset(map(fold, who.split()))


@cache
def _same_street() -> re.Pattern[str]:
    ways = "|".join(sorted(map(re.escape, prose_words("same-street")), key=len, reverse=True))
    return re.compile(
        rf"\b(?i:{ways})\s+(?P<who>[A-Z][\w'’-]*(?:\s[A-Z][\w'’-]*)*),?\s+"
        r"(?:(?:but\s+)?(?:at\s+)?(?:number|no\.|#)\s*)?(?P<number>\d+[A-Za-z]?)(?![\w-])"
    )
