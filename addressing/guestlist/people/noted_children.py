"""People whom a note names beside those of its row: “kids: Nell, Bram”, “with Zora and Ike”."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from addressing.guestlist.folding import fold
from addressing.guestlist.people.note_words import words_of_kind
from addressing.guestlist.people.vocabulary import may_be_given, row_words, titles, words
from addressing.tables import table

_WORD = r"[^\W\d_a-z](?:[\w-]|['’](?!s\b))+(?!['’\w])"
_YEARS = r"(?:aged?\s+)?\d{1,2}(?:\s*(?:y\.?o\.?|y/o|yrs?|years?|mos?|months?)\b(?:\s+old)?)?"
_AGE = rf"(?:\s*\(\s*{_YEARS}\s*\)|(?:\s*,)?\s+{_YEARS}(?!\w))"
_AGED = rf"{_WORD}{_AGE}?"
_NEXT = r"(?:\s*(?:,|&|\+|/|\band\b)\s*(?:(?:and|baby)\s+)*|(?<=[\d)])\s+)"
"""What stands between two names; behind an age it may be nothing."""
_NAMES = rf"{_AGED}(?:{_NEXT}{_AGED})*"
_WHOSE = r"(?:they\s+have\s+)?(?:(?:the|their|her|his|our|new|two|three|four|\d)\s+)*"
_OF_AGE = 18
_NOBODY = ("guest", "relation", "family", "children", "nameless")
"""Kinds of words in name_words.tsv that are nobody's name."""


@dataclass(frozen=True, slots=True)
class Noted:
    """The names of a note as it has them; whether the note says that they are children."""

    names: str
    young: bool

    @property
    def given(self) -> tuple[str, ...]:
        """The names alone, without ages."""
        return tuple(re.findall(_WORD, self.names))


def children_named(note: str) -> str:
    """The names that a note has beside its row, as it has them; "" where it names nobody.

    Words of other things name nobody ("Kids Menu", "Kids: Chicken, Pasta").

    >>> [children_named(note) for note in ("kids: Nell, Bram", "Kids Menu", "kids: vegan")]
    ['Nell, Bram', '', '']
    >>> [children_named(note) for note in ("Nell 6 Bram 9", "Table 6 Bram 9", "Nell (6) Bram (9)")]
    ['Nell 6, Bram 9', '', 'Nell (6), Bram (9)']
    """
    noted = named_beside(note)
    return noted.names if noted else ""


def named_beside(note: str) -> Noted | None:
    """Whom a note names beside its row, or None.

    >>> named_beside("with Zora and Ike")
    Noted(names='Zora and Ike', young=False)
    """
    return next(filter(None, map(_noted, _forms().finditer(note))), None)


def _noted(found: re.Match[str]) -> Noted | None:
    """The names of a match that are names, by what stands before them."""
    names = found["names"]
    given = re.findall(_WORD, names)
    of_thing = not row_words("thing").isdisjoint(fold(found["said"] or "").split())
    if of_thing or any(_is_no_name(name) for name in given):
        return None
    ages = [int(age) for age in re.findall(r"\d+", names)]
    aged = len(ages) == len(given) and max(ages) < _OF_AGE
    known, several = may_be_given(given[0]), len(given) > 1
    if found["kin"]:
        at_once = found["kin"].casefold() in _of_kind("one")
        sure = found["tie"].strip() or at_once or aged or several or known
    elif found["by"]:
        sure = _opens(found) and (known or several or not _needs_known(found["by"]))
    else:
        whole = found.start() == 0 and found.end() == len(found.string)
        bare = known and fold(given[0]) not in words_of_kind("no-name")  # "May 4" is a day
        sure = whole and aged and (several or bare or "(" in names)
    shown = re.sub(r"\s*,\s+(?=(?:aged?\s+)?\d)", " ", re.sub(r"\bbaby\s+", "", names))
    shown = re.sub(r"(?<=[\d)])\s+(?=[^\W\d_a-z])", ", ", shown)
    return Noted(shown, bool(found["kin"]) or aged) if sure else None


def _opens(found: re.Match[str]) -> bool:
    """True at the front of a note or of a sentence: "met them, with Zora" is no guest."""
    return not found["start"].strip().startswith(",")


def _needs_known(joint: str) -> bool:
    rows = (row for row in table("noted_people") if row["kind"] == "joint" and row["needs"])
    return joint.strip().casefold() in {row["words"] for row in rows}


@cache
def _others() -> frozenset[str]:
    kinds = (words(kind) for kind in _NOBODY)
    things = row_words("thing") | row_words("asked-thing")
    return frozenset(_of_kind("no-name")) | things | frozenset().union(*kinds)


def _is_no_name(word: str) -> bool:
    folded = fold(word)
    other = folded in words_of_kind("no-name") and not may_be_given(word)
    return other or folded in _others() or folded in titles()


@cache
def _of_kind(kind: str) -> tuple[str, ...]:
    return tuple(row["words"] for row in table("noted_people") if row["kind"] == kind)


def _either(*kinds: str) -> str:
    """A pattern for the words of these kinds, the longer ones first."""
    longest = sorted(_words(kinds), key=len, reverse=True)
    return "|".join(re.escape(word).replace("’", "['’]?") for word in longest)


def _words(kinds: tuple[str, ...]) -> Iterator[str]:
    for kind in kinds:
        yield from _of_kind(kind)


@cache
def _forms() -> re.Pattern[str]:
    """Names at the front of a clause, behind a word of the table, up to the end of the clause."""
    closing = rf"(?i:{_either('closing')})"
    tie = rf"\s*[:=,]\s*|\s+[-–—]\s+|\s+(?i:are|is|named)\s+|(?:\s+{closing})?\s*\(\s*|\s+"
    return re.compile(
        r"(?P<start>^|[.;,(\n]\s*)"
        rf"(?P<by>(?i:{_either('joint')})(?:(?<!\w)\s*|\s+))?(?i:{_WHOSE})"
        rf"(?:(?P<kin>(?i:{_either('label', 'one')}))(?P<tie>{tie}))?"
        rf"(?P<names>{_NAMES})\)?(?P<said>\s*\([^()]*\))?(?:,?\s+{closing})*!?\s*(?=[.;)\n]|$)"
    )
