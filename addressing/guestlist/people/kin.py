"""Who comes along by a word alone: “his lady friend”, “her fella”, “the missus”, “& mum”.

Such words are nobody's name. They are rows of `name_words.tsv` (kin, and before it kin-like), and
become “guest”, or the plain word for a wife or husband (`means`): what that is, all else knows.
"""

import re
from collections.abc import Iterable
from functools import cache

from addressing.guestlist.folding import fold
from addressing.guestlist.people.vocabulary import may_be_given, meanings, words
from addressing.tables import table

_JOINT = r"(?P<joint>(?:&|\+|,|;|/|\bw/|\b(?:and|with|plus)\b)\s*)"
_WHOSE = r"(?P<whose>(?:his|her|their|our|my|the|an?)\s+)?"
_OWNED = re.compile(r"^\s*(?:his|her|their)\s+[^\W\d_A-Z][\w -]*$")
_END = r"(?=\s*(?:$|[,;&+/(\n]|\band\b))"
_NAMED = r"(?=\s+(?-i:[^\W\d_a-zß-ÿ]))"
_LISTING = frozenset((",", ";", "/"))
_RELATIVE = "relative"
_OPENERS = frozenset(("", "oh", "also"))
"""What only opens a sentence: nobody stands before the joint then."""
_BEFORE_NAME = "friend"
"""Before a name any of the words goes, as this one does."""


def without_kin(text: str, *, alone: bool = False) -> str:
    """The text with “guest” for whoever is told by such words; `alone`: it may be nothing else.

    Without a “his” before them the words are small letters in a cell that has others, or several.

    >>> without_kin("Bud Penhew & his lady friend"), without_kin("Bud and Buddy Penhew")
    ('Bud Penhew & guest', 'Bud and Buddy Penhew')
    >>> without_kin("Bud Penhew and his lady friend Ann Moss")
    'Bud Penhew and friend Ann Moss'
    """
    capitals = any(mark.isupper() for mark in text)

    def instead(found: re.Match[str]) -> str:
        joint = found.groupdict().get("joint") or ""
        plain = found["whose"] or _is_plain(found["kin"], capitals=capitals)
        told = joint.strip() in _LISTING and (not found["whose"] or _is_relative(found["kin"]))
        return joint + _instead(found["kin"], named=False) if plain and not told else found[0]

    def dropped(found: re.Match[str]) -> str:
        plain = found["whose"] or (capitals and found["kin"].islower())
        behind = fold(found.string[: found.start()].strip(" ,")) not in _OPENERS
        told = plain and behind and " " in found["kin"].strip()
        return found["joint"] + _instead(found["kin"], named=True) if told else found[0]

    text = _pattern(f"{_JOINT}{_WHOSE}", _END).sub(instead, text)
    text = _pattern(f"{_JOINT}{_WHOSE}", _NAMED).sub(dropped, text)
    said = _OWNED.match(text) is not None  # "her nurse" on a row of its own
    return _pattern(rf"^\s*{_WHOSE}", r"\s*$").sub(instead, text) if alone or said else text


def _is_plain(kin: str, *, capitals: bool) -> bool:
    """True for words that are no name though nothing before them says whose they are."""
    if _whole(kin) in _phrases():
        return True
    return capitals and kin.islower() and not any(map(may_be_given, kin.split()))


def _is_relative(kin: str) -> bool:
    """True for what tells who somebody is: “Margaret Doyle, his mother”."""
    if _whole(kin) in _phrases():
        return _meant(kin) == _RELATIVE
    return _meant(kin) == _RELATIVE or fold(_last(kin)) in meanings("relation")


def _instead(kin: str, *, named: bool) -> str:
    if fold(_last(kin)) in words("guest"):
        return _last(kin)
    meant = _meant(kin)
    return _BEFORE_NAME if named else meant if meant not in ("", _RELATIVE) else "guest"


def _meant(kin: str) -> str:
    return meanings("kin").get(_whole(kin)) or meanings("kin").get(fold(_last(kin)), "")


def _whole(kin: str) -> str:
    return " ".join(map(fold, kin.split()))


def _last(kin: str) -> str:
    return kin.rsplit(maxsplit=1)[-1]


@cache
def _pattern(before: str, behind: str) -> re.Pattern[str]:
    """What stands for somebody, between what stands around it; guest's words aren't, alone."""
    rows = [row["word"] for row in table("name_words") if row["kind"] == "kin"]
    heads = _any([*rows, *meanings("relation")])
    like = _any(row["word"] for row in table("name_words") if row["kind"] == "kin-like")
    guests = _any(words("guest"))
    phrase = rf"(?:(?:{like})\s+)*(?:{heads})(?:\s+(?:{heads}))*|(?:(?:{like})\s+)+(?:{guests})"
    return re.compile(rf"{before}(?P<kin>\b(?:{phrase})\b){behind}", re.IGNORECASE)


@cache
def _phrases() -> frozenset[str]:
    """Such words of more than one, which nobody is called."""
    rows = (row["word"] for row in table("name_words") if row["kind"] == "kin")
    return frozenset(word for word in rows if " " in word)


def _any(found: Iterable[str]) -> str:
    return "|".join(re.escape(word) for word in sorted(found, key=lambda word: (-len(word), word)))
