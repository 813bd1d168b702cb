"""A household on its way out of running text, and the cells that it makes."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from addressing.guestlist.files.blocks import NAME, NOTES, STREETS, Slots
from addressing.guestlist.files.mail_lines import Line
from addressing.guestlist.files.mentions import Mention
from addressing.guestlist.folding import fold
from addressing.guestlist.people.note_words import denied
from addressing.guestlist.people.vocabulary import words

SENTENCE_SLOT = ("sentence", 1)
"""The sentences that a household was read from, where the client is asked about it."""
CHILDREN = ("children", 1)
_LONGEST_QUOTE = 400
_HEAD = 12
"""Letters by which the beginning of a line is found in its sentence."""
_CHILDREN = re.compile(
    r"(?:(?:the|their|her|his|with|two|three)\s+)*(?P<word>[A-Za-z]+)[:,]?\s+(?:(?:are|is)\s+)?"
    r"(?P<names>[A-Z]\w+.*)",
    re.IGNORECASE,
)
_NAMED_CHILDREN = re.compile(r"[A-Z]\w+(?:[ ,]*\(?\d{1,2}\)?)?(?:(?:, | and | & )(?=[A-Z]))?")


@dataclass(slots=True)
class ProseHome:
    """A household on the way. `plain` for one that isn't asked about."""

    said: Line
    people: list[Mention]
    names: str
    address: str = ""
    plain: bool = False
    notes: list[str] = field(default_factory=list)
    quote: list[Line] = field(default_factory=list)
    at: int = 0
    children: str = ""


def names_of(group: Sequence[Mention]) -> str:
    """The names of some people as one cell."""
    return " and ".join(each.text for each in group)


def slots_of_home(home: ProseHome) -> Iterator[Slots]:
    """The cells of a household, of two where the text says that they want one each."""
    behind = (_children(said.text) for said in home.quote[1:])
    children = home.children or next((names for names in behind if names), "")
    quote = " ".join(said.text for said in home.quote)[:_LONGEST_QUOTE]
    changed = children or denied("apart", quote) is False or denied("company", quote) is False
    home.plain = home.plain and not changed
    for names in _apart(home, quote):
        slots: Slots = {NAME: [Line(_line_of(home.said, names), names)]}
        if home.address:
            slots[STREETS[0]] = [Line(_line_of(home.said, home.address), home.address)]
        if children:
            slots[CHILDREN] = [Line(home.said.number, children)]
        if home.plain and home.notes:
            slots[NOTES] = [Line(home.said.number, "; ".join(home.notes))]
        if not home.plain:
            slots[SENTENCE_SLOT] = [Line(home.said.number, quote)]
        yield slots


def _apart(home: ProseHome, quote: str) -> Sequence[str]:
    """The names for each envelope."""
    each = [name for mention in home.people for name in mention.people]
    whole = all(mention.people for mention in home.people)
    if not home.plain and whole and len(each) > 1 and denied("apart", quote) is False:
        return each
    brought = not words("guest").isdisjoint(map(fold, home.names.split()))
    if not home.plain and len(each) == 1 and not brought and denied("company", quote) is False:
        return (f"{home.names} and Guest",)
    return (home.names,)


def _children(sentence: str) -> str:
    """The names in "Children Amos 19, Ruth 17"; "" for another sentence."""
    found = _CHILDREN.match(sentence)
    if found is None or fold(found["word"]) not in words("children"):
        return ""
    end = 0
    while (name := _NAMED_CHILDREN.match(found["names"], end)) is not None:
        end = name.end()
    return found["names"][:end].removesuffix(" and ").strip(" ,.")


def _line_of(said: Line, text: str) -> int:
    """The number of the line of a sentence on which some text of it begins."""
    at = max(said.text.find(text), said.text.find(text.split(maxsplit=1)[0]))
    begun = ((said.text.find(part.text[:_HEAD]), part.number) for part in said.more)
    return max((number for begin, number in begun if 0 <= begin <= at), default=said.number)
