"""A sentence that gives its town to all below it: "They are ALL Bath, Maine 04530.".

It is followed for whoever stands below with a street alone, up to the next heading. A sentence
that hedges gives nothing: the town is asked for then, as of any street alone.
"""

import re
from collections.abc import Sequence

from addressing.guestlist.files.blocks import STREETS, Slots
from addressing.guestlist.files.mail_lines import Line, is_town
from addressing.guestlist.files.mentions import mentions
from addressing.guestlist.files.prose_words import masked, prose_pattern
from addressing.guestlist.files.spans import spans

PLACE = re.compile(
    r"(?<![\w.'’])(?P<place>(?P<town>[^\W\d_a-z][\w.'’-]*(?:\s[^\W\d_a-z][\w.'’-]*){0,3}),?\s+"
    r"[A-Z][A-Za-z.]+(?:\s[A-Z][a-z]+)?,?\s+(?P<code>\d{5}(?:-\d{4})?))(?!\d)"
)
"""A town, its state, its ZIP code."""


def place_of(said: Line) -> Line | None:
    """The town that a sentence gives to all below it; None for another sentence.

    >>> place_of(Line(1, "They are ALL Bath, Maine 04530.")).text
    'Bath, Maine 04530'
    >>> place_of(Line(1, "Nearly all are Bath, Maine 04530.")) is None
    True
    >>> place_of(Line(1, "All the Orrs are at 9 Elm St, Bath, Maine 04530.")) is None
    True
    """
    text = masked(said.text)
    every = prose_pattern("every").search(text)
    found = PLACE.search(text, every.end()) if every is not None else None
    if found is None or any(spans(text)) or any(each.sure for each in mentions(text)):
        return None
    hedged = any(prose_pattern(kind).search(text) for kind in ("not-every", "hedge"))
    return None if hedged else Line(said.number, found["place"])


def place_after(said: Sequence[Line]) -> Line | None:
    """The town that a paragraph gives to those below it: its last sentence's."""
    return place_of(said[-1]) if said else None


def give_place(place: Line, slots: Slots) -> None:
    """Give a household with a street alone its town."""
    own = [line for slot in STREETS for line in slots.get(slot, ())]
    alone = len(own) == 1 and STREETS[0] in slots and not _has_town(own[0].text)
    if alone:
        slots[STREETS[1]] = [place]


def _has_town(address: str) -> bool:
    """True for an address with a code, or with a part that may be a town behind its street."""
    if is_town(address) or re.search(r"\b\d{5}\b", address):
        return True
    *_, last = address.rpartition(",")
    return "," in address and not _UNIT.match(last.strip())


_UNIT = re.compile(r"#|\w+\.?\s*#?\s*\d|(?:apt|apartment|unit|suite|ste|no)\b", re.IGNORECASE)
