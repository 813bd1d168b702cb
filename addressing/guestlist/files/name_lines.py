"""What stands beside the names of a line and is on no envelope: a lead before, a remark behind.

"Oh, and his son, Mr. Penhew" is led by who he is to the writer, "Major Penhew, both Navy" ends in
what is said of them. Whoever is added by a word ("his wife") stays a part of the names.
"""

import re
from collections.abc import Sequence

from addressing.guestlist.domestic.buildings import ends_building
from addressing.guestlist.files.by_number import sole_number
from addressing.guestlist.files.mail_lines import after_postscript, has_verb, without_brackets
from addressing.guestlist.files.prose_words import prose_pattern, prose_words
from addressing.guestlist.folding import fold
from addressing.guestlist.people.adding import adding, without_adding
from addressing.guestlist.people.names import known_title
from addressing.guestlist.people.vocabulary import is_given, may_be_given, row_words, words

_COMMA = re.compile(r",\s+(?![^(]*\))")
_LEAD = re.compile(r"(?P<lead>(?:[a-z]+\s+)*[a-z]+),?\s+(?=[A-Z])")
_PARTY = re.compile(
    r"(?P<count>(?:party|parties|group|household|family|table) of \d{1,2})\s*[:;,–—-]\s*(?=\S)",
    re.IGNORECASE,
)
"""How many a household are, before its names."""
_ADDING = ("and", "and-between", "guest", "family", "children", "suffix", "particle", "maiden")
"""Kinds of small words with which names go on."""


def without_lead(text: str) -> tuple[str, str]:
    """A line without what leads to its names, and who they are to the writer.

    >>> without_lead("P.P.S. Add Miss Odile Penhew"), without_lead("and his son, Mr. Kit Penhew")
    (('Miss Odile Penhew', ''), ('Mr. Kit Penhew', 'his son'))
    >>> without_lead("de la Cruz, Kit")
    ('de la Cruz, Kit', '')
    >>> without_lead("Party of 2: Kit and Odile Penhew")
    ('Kit and Odile Penhew', 'Party of 2')
    """
    counted = _PARTY.match(text)
    if counted is not None:
        return text[counted.end() :], counted["count"]
    bare = after_postscript(text)
    opened = adding(bare)
    if opened is not None and opened[0].rstrip().endswith(":"):  # "please invite …" wants somebody
        bare = without_adding(bare)
    added = prose_pattern("adds").match(bare)
    bare = bare[added.end() :].lstrip(" ,:") if added is not None else bare
    found = _LEAD.match(bare)
    said = found["lead"].removeprefix("and ") if found is not None else ""
    whose = said.split()[:1]
    titled = found is not None and _is_title(bare[found.end() :])
    if found is None or not titled or not whose or whose[0] not in prose_words("of"):
        return (bare if added is not None or bare != text else text), ""
    return (text, "") if _denied(said) else (bare[found.end() :], said)


def without_remark(names: str) -> tuple[str, str]:
    """Names without the remarks behind their last comma, and these.

    >>> without_remark("Major Kit Penhew and Captain Odile Orr, both Navy")
    ('Major Kit Penhew and Captain Odile Orr', 'both Navy')
    >>> without_remark("Kit Penhew, his wife Odile, lovely couple")
    ('Kit Penhew, his wife Odile', 'lovely couple')
    """
    parts = _COMMA.split(names)
    end = len(parts)
    if names == names.casefold():  # "kit orr, rosewood": small letters tell nothing
        return names, ""
    while end > 1 and _is_remark(parts[end - 1].strip(" .,")):
        end -= 1
    if end == len(parts):
        return names, ""
    return ", ".join(parts[:end]), ", ".join(part.strip(" ,") for part in parts[end:])


def _is_title(text: str) -> bool:
    first = text.split(maxsplit=1)[0]
    return known_title(first) is not None


def _denied(said: str) -> bool:
    return not prose_words("denial").isdisjoint(fold(said).split())


def _is_remark(part: str) -> bool:
    """True for words that name and bring nobody: in small letters, or led by a word of remarks."""
    said = without_brackets(part).split()
    folded = [fold(word) for word in said]
    if not said or not said[0][:1].islower() or not said[0].isalpha():
        return False
    if folded[-1] in prose_words("house") or ends_building(part):
        return False
    if any(word in kind for kind in map(words, _ADDING) for word in folded):
        return _speaks(part, folded)
    small = all(word.islower() for word in said)
    led = prose_pattern("remark").match(part) is not None
    return (small or led) and not _names_somebody(said)


def _speaks(part: str, folded: Sequence[str]) -> bool:
    """True for a clause of its own that brings nobody: "they moved here in May and love it"."""
    bringing = any(
        word in words(kind) for kind in ("guest", "family", "children") for word in folded
    )
    return has_verb(part) and not bringing and not _names_somebody(part.split())


def _names_somebody(said: Sequence[str]) -> bool:
    return any(is_given(word) or (word[:1].isupper() and may_be_given(word)) for word in said)


def is_above(rest: str) -> bool:
    """True for "same address as Rosa": the words of `row_words.tsv` for a row above."""
    said = fold(rest)
    of = any(said.startswith(f"{word} ") for word in row_words("above-of") if " " in word)
    return of or said in row_words("above") or sole_number(rest) is not None
