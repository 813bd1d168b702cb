"""Words above several households that give them titles: "the next five are all Mr. and Mrs.".

They are followed for whoever stands below by one given and one family name and has no title. Where
they hedge ("nearly all"), where other text stands between, or where somebody below doesn't suit
them, the client is asked, once for all of these.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from addressing.guestlist.files.blocks import NAME, Slots
from addressing.guestlist.files.mail_lines import Line, without_brackets
from addressing.guestlist.files.mentions import mentions
from addressing.guestlist.files.prose_words import masked, prose_pattern
from addressing.guestlist.folding import fold
from addressing.guestlist.people.names import known_title, take_endings
from addressing.guestlist.people.vocabulary import meanings, words

TITLES = ("title", 1)
HEADING_SLOT = ("heading", 1)
"""The words above that perhaps give titles, where the client is asked about them."""
_TITLE = r"[A-Z][A-Za-z]{1,11}\.?"
_PAIR = re.compile(rf"\b(?P<one>{_TITLE}) ?(?:and|&|\+) ?(?P<other>{_TITLE})(?! [A-Z])(?![\w])")
_LONE = re.compile(rf"\b(?P<one>{_TITLE})(?=[,;:!)]|\s*$|\s+(?:[a-z]|-))")
_COUNTED = re.compile(r"\b(?:next|first|following|these)\s+(?P<count>[a-z]+|\d+)\b", re.IGNORECASE)
_OF_NAMES = ("name", "title", "given", "middle", "family", "household")
_FULL = 2


@dataclass(frozen=True, slots=True)
class Titling:
    """Titles that a line gives to those below it, to so many (None: up to the next heading)."""

    line: Line
    titles: str
    doubtful: bool = False
    left: int | None = None

    def after_one(self) -> "Titling | None":
        """What is left of it below one household; None behind the last."""
        if self.left is None:
            return self
        return replace(self, left=self.left - 1) if self.left > 1 else None


def titling_of(said: Line) -> Titling | None:
    """The titles that a sentence gives to all below it; None for another sentence.

    >>> titling_of(Line(1, "Every one of the next bunch is Mr. and Mrs.")).titles
    'Mr. and Mrs.'
    >>> titling_of(Line(1, "All of them know Mr. and Mrs. Penhew")) is None
    True
    """
    text = masked(said.text)
    titles = _titles(text)
    every = prose_pattern("every").search(text) is not None
    if not titles or not every or prose_pattern("not-every").search(text) is not None:
        return None
    if any(each.sure for each in mentions(text)):
        return None
    hedged = prose_pattern("as-typed").sub(" ", text)
    doubtful = prose_pattern("hedge").search(hedged) is not None
    return Titling(said, titles, doubtful, _count(text))


def titling_after(titling: Titling | None, said: Sequence[Line]) -> Titling | None:
    """What sentences leave of the titles that held above them; their own where they give some.

    Words such as "the rest" or "not all" end them, any other sentence makes them doubtful.
    """
    for each in said:
        own = titling_of(each)
        ends = any(prose_pattern(kind).search(each.text) for kind in ("section", "not-every"))
        over = titling is None or ends
        titling = own or (None if over or titling is None else replace(titling, doubtful=True))
    return titling


def give_titles(titling: Titling, slots: Slots) -> None:
    """Give a household its titles, or the words above it to be asked about."""
    held = [line for (meaning, _), lines in slots.items() if meaning in _OF_NAMES for line in lines]
    if not held or any(_has_title(line.text) for line in held):
        return
    lone = len(held) == 1 and NAME in slots and _is_one(held[0].text)
    if lone and not titling.doubtful:
        slots[TITLES] = [Line(titling.line.number, titling.titles)]
    else:
        slots[HEADING_SLOT] = [titling.line]


def _titles(text: str) -> str:
    """The titles that a text names by themselves, "" for none or several."""
    pairs = [
        f"{hit['one']} and {hit['other']}"
        for hit in _PAIR.finditer(text)
        if _is_title(hit["one"]) and _is_title(hit["other"])
    ]
    lone = [hit["one"] for hit in _LONE.finditer(text) if _is_title(hit["one"])]
    found = set(pairs) or set(lone)
    return found.pop() if len(found) == 1 else ""


def _is_title(word: str) -> bool:
    title = known_title(word)
    return title is not None and not title.also_a_name


def _count(text: str) -> int | None:
    found = _COUNTED.search(text)
    count = fold(found["count"]) if found is not None else ""
    known = meanings("number").get(count, count)
    return int(known) if known.isdigit() else None


def _has_title(names: str) -> bool:
    return any(_is_title(word) for word in without_brackets(names).replace(",", " ").split())


def _is_one(names: str) -> bool:
    """True for a given and a family name of one person."""
    bare = without_brackets(names).split()
    own, _, letters = take_endings(list(bare), after_comma=False)
    joint = any(fold(word) in words("and") | words("family") | words("guest") for word in bare)
    capitals = sum(word[:1].isupper() for word in own)
    plain = not joint and not letters and fold(bare[0]) != "the"
    return plain and capitals >= _FULL and not re.search(r"[,/;]\s*\S", " ".join(own))
