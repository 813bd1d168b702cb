"""Children in an answer with names: who stands behind “kids:”, and “kids as listed”.

Whoever stands behind “kids:” is a child, with the family name too. “And kids as listed” is nobody's
name: it stands for the children whom the list names.
"""

import re
from collections.abc import Sequence
from dataclasses import replace
from functools import cache

from addressing.questions.choosing import KIDS, KIDS_LISTED, words_known
from addressing.questions.folding import folded
from addressing.records.guests import Household, Kind, Person
from addressing.records.questions import NamesRead, Readers

_HEADED = re.compile(r"\b(?:kids|children)\b\s*[:,\u2013\u2014-]?\s*(?=\S)", re.IGNORECASE)
_YOUNG = frozenset((None, "Miss", "Master"))
"""Titles that a child may have (common practice, no source)."""


NO_KIDS = "The list names no children there: who are they?"


def without_kids_as_listed(words: str) -> str:
    """An answer without the words that only keep the list's children.

    >>> without_kids_as_listed("Theo and Ida Marsh, and kids as listed")
    'Theo and Ida Marsh'
    """
    return _stay(KIDS, KIDS_LISTED).sub("", words).strip(" ,;&+")


def with_listed_kids(words: str, home: Household, noted: Sequence[str] = ()) -> str | None:
    """An answer with the list's children by name where it says that they stay; None if it has none.

    They stand behind "kids:". Where the list has unnamed ones as well, it says "and kids" of them.
    `noted` are the given names of those whom only a note of the list names.
    """
    if _stay(KIDS, KIDS_LISTED).search(words) is None:
        return words
    young = [person for person in home.people if person.kind is Kind.CHILD]
    names = [_called(person, home) for person in young if person.given]
    unnamed = (home.family is not None and home.label is None) or len(names) < len(young)
    if noted and not young:
        names, unnamed = list(noted), False
    if not (names or unnamed) and _stay(KIDS_LISTED).search(words):
        return None
    behind = f", kids: {', '.join(names)}" if names and not unnamed else " and kids"
    return f"{without_kids_as_listed(words)}{behind}"


def _called(child: Person, home: Household) -> str:
    """The given name, with the family name where nobody grown has the same."""
    families = {person.family for person in home.people if person.kind is not Kind.CHILD}
    own = child.family if families and child.family not in families else None
    return " ".join(filter(None, (child.given, own)))


@cache
def _stay(*means: str) -> re.Pattern[str]:
    """Words of the table at the end of an answer, behind a name and what parts them from it."""
    known = [
        said for said, meant in words_known().items() if any(("", each) in meant for each in means)
    ]
    either = "|".join(sorted(map(re.escape, known), key=len, reverse=True))
    return re.compile(
        rf"(?<=[\w.)])\s*[\s,;(&+]\s*(?:(?:and|plus|with)\s+|[&+]\s*)?(?:{either})[\s).!]*$",
        re.IGNORECASE,
    )


def heads_kids(words: str) -> bool:
    """True for names with "kids:" before some of them."""
    return _HEADED.search(words) is not None


def children_behind(read: NamesRead, words: str, readers: Readers) -> NamesRead:
    """Names of an answer with whoever stands behind "kids:" as a child, up to a semicolon.

    A grown one's title stays one.
    """
    found = _HEADED.search(words)
    if found is None:
        return read
    before = words[: found.start()].strip(" ,;&+(\n")
    behind = _words(words[found.end() :].partition(";")[0])
    first = len(readers.names(before).people) if before else 0
    people = [
        replace(person, kind=Kind.CHILD)
        if person.kind is Kind.NAMED
        and number >= first
        and person.title in _YOUNG
        and person.given
        and set(_words(person.given)) <= set(behind)
        else person
        for number, person in enumerate(read.people)
    ]
    return replace(read, people=tuple(people))


def _words(text: str) -> Sequence[str]:
    return re.findall(r"[\w'-]+", folded(text))
