"""The words of a sentence, and how they stand to those around them."""

import re
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from functools import cache

from addressing.guestlist.domestic.dwellings import suffix_words
from addressing.guestlist.files.mail_lines import is_verb
from addressing.guestlist.files.prose_words import masked, prose_words
from addressing.guestlist.folding import fold
from addressing.guestlist.people.vocabulary import partner_words, row_words, words

_WORD = re.compile(r"[^\W_][\w'’]*")
_OWNED = re.compile(r"['’]s?$")
_LINKS = frozenset(("is", "are", "named", "called", "names", "s"))
"""What may stand between "kids" and their names."""
_OURS = frozenset(("my", "our"))
_OWNERS = frozenset(("his", "her", "their"))


@dataclass(frozen=True, slots=True)
class Word:
    """A word of a sentence, folded without its "'s", and what stands around it."""

    folded: str
    capital: bool
    first: bool
    touches: bool
    """True where nothing but a blank or a hyphen parts it from the word before."""
    owns: bool = False
    """True for one with "'s"."""
    aside: bool = False
    """True for one in brackets."""


def words_of(sentence: str) -> list[Word]:
    """The words of a sentence."""
    found: list[Word] = []
    shown = masked(sentence)
    end = 0
    for hit in _WORD.finditer(sentence):
        between = sentence[end : hit.start()]
        end = hit.end()
        bare = _OWNED.sub("", hit[0])
        folded = fold(bare)
        if folded:
            touches = bool(found) and not between.strip(" .-")
            aside = shown[hit.start()] == " "
            owns = bare != hit[0]
            found.append(Word(folded, bare[:1].isupper(), not found, touches, owns, aside))
    return found


def is_joined(said: Sequence[Word], at: int, taken: Collection[int]) -> bool:
    """True for the first of "Ottoline and the Penhews", and for the last of "Penhews and Hugo"."""
    ahead = at + 2 + (said[at + 2].folded == "the" if at + 2 < len(said) else 0)
    before = at >= 2 and said[at - 1].folded == "and" and at - 2 in taken  # noqa: PLR2004
    after = at + 1 < len(said) and said[at + 1].folded == "and" and ahead in taken
    return at not in taken and (before or after)


def is_street(said: Sequence[Word], at: int) -> bool:
    """True where a street's suffix stands behind: "14 Penhew Lane" names no Penhew."""
    behind = said[at] if at < len(said) else None
    suffix = behind is not None and behind.folded in suffix_words() and not is_verb(behind.folded)
    return suffix and behind is not None and behind.touches and behind.capital


def tells(said: Sequence[Word], at: int) -> bool:
    """True for whom the writer has something from: "Kit says that the Penhews moved"."""
    behind = said[at + 1] if at + 1 < len(said) else None
    return behind is not None and behind.folded in prose_words("says") and not behind.capital


def refers(said: Sequence[Word], at: int) -> bool:
    """True for one by whom another's place is told: "the Penhews have the same ZIP as Kit"."""
    return at > 0 and said[at - 1].folded in prose_words("refers")


def is_introduced(said: Sequence[Word], at: int) -> bool:
    """True for a name that the words before it give somebody of another's: "her son Kit".

    So are all that are joined to it ("the kids are Kit and Wren"); whoever is "our son" or
    "cousin Kit" is the writer's, who stands on the list.
    """
    place = at - 1
    while place >= 0 and (said[place].capital or said[place].folded == "and"):
        place -= 1
    while place >= 0 and said[place].folded in _LINKS:
        place -= 1
    if place < 0 or said[place].folded not in _relations():
        return False
    owner = said[place - 1] if place else None
    if owner is None or owner.folded in _OURS:
        return owner is None and said[place].folded in words("children")
    owned = owner.owns or owner.folded in _OWNERS
    return owned or said[place].folded in words("children")


@cache
def _relations() -> frozenset[str]:
    return words("children") | row_words("relative") | partner_words() | words("guest")
