"""Whom a remark adds to a list, with an address in the same words: "also add The Penhews, 9 …"."""

import re
from collections.abc import Sequence
from dataclasses import replace

from addressing.guestlist.files.blocks import Slots
from addressing.guestlist.files.entries import entry_of
from addressing.guestlist.files.mail_lines import Line
from addressing.guestlist.files.prose import homes_in
from addressing.guestlist.files.spans import spans
from addressing.guestlist.files.stretches import slots_of_entry
from addressing.guestlist.people.adding import adding

_NAME = re.compile(r"(?<!\w)[^\W\d_a-z]\w")


def adds(text: str) -> bool:
    """True for words that add somebody with an address: "please invite Ada Orr, 9 Elm St, …"."""
    opened = adding(text)
    behind = text[opened.end() :] if opened is not None else ""
    return any(_NAME.search(behind[: span.start]) is not None for span in spans(behind))


def homes_added(paragraph: Sequence[Line]) -> list[Slots]:
    """Whom a remark adds to the list: "ADD Miss Odile Penhew, 9 Mill Row, Duluth, MN 55802"."""
    first, *others = paragraph
    opened = adding(first.text)
    if opened is None:
        return []
    first = replace(first, text=first.text[opened.end() :])
    homes = [slots for _, slots in homes_in((first, *others))]
    entry = entry_of(first.text) if not homes and adds(paragraph[0].text) else None
    return [slots_of_entry(first, entry)] if entry is not None else homes
