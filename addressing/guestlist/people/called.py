"""What several people of a cell are called, in one bracket behind them: "(Walt & Bitsy)".

Names beside names may be children or others as well, so each must be a known form of the name
that it goes with (`name_forms.tsv`), or begin it; else the cell stays a question.
"""

import re
from dataclasses import replace
from functools import cache
from itertools import pairwise

from addressing.guestlist.folding import fold
from addressing.guestlist.people.vocabulary import given_names
from addressing.records.guests import Kind, Person
from addressing.tables import table

_JOINT = re.compile(r"\s*(?:,|&|\+|/|\band\b)\s*", re.IGNORECASE)
_QUOTES = "\"“”„«»'\u2018’ "
_SEVERAL = 2
_LEAST = 3
"""Letters of a short form that need not be in the table: "Walt" of Walter."""


def with_nicknames(
    people: tuple[Person, ...], remarks: tuple[str, ...]
) -> tuple[tuple[Person, ...], tuple[str, ...]]:
    """The people with the nicknames that one of the remarks gives to each, and the other remarks.

    >>> pair = (Person(given="Walter"), Person(given="Elizabeth"))
    >>> [p.nickname for p in with_nicknames(pair, ("Walt & Liz",))[0]]
    ['Walt', 'Liz']
    >>> with_nicknames(pair, ("Wren & Kit",))[1]
    ('Wren & Kit',)
    """
    named = [person for person in people if person.kind is Kind.NAMED and person.given]
    for remark in remarks:
        called = [word.strip(_QUOTES) for word in _JOINT.split(remark)]
        if len(called) < _SEVERAL or len(called) != len(named) or any(p.nickname for p in named):
            continue
        if all(_is_form(word, person) for word, person in zip(called, named, strict=True)):
            words = iter(called)
            people = tuple(
                replace(person, nickname=next(words)) if person in named else person
                for person in people
            )
            return people, tuple(other for other in remarks if other is not remark)
    return people, remarks


def unlike_himself(people: tuple[Person, ...]) -> Person | None:
    """Him of "Mr. and Mrs. Tobias (Odile) Wexcombe": is he called so, or is it her name?

    None where the word in brackets is a known form of his name, or begins it ("Rob" of Robert).
    """
    for one, other in pairwise(people):
        couple = one.title is not None and other.title is not None and one.family == other.family
        bare = couple and other.given is None and other.kind is Kind.NAMED
        if bare and one.given and one.nickname and not _is_form(one.nickname, one):
            return one
    return None


def with_her_name(people: tuple[Person, ...], text: str) -> tuple[tuple[Person, ...], str | None]:
    """Who has no name of a titled couple is named by a known given name in brackets behind both.

    >>> pair = (Person("Mr.", "Tobias", "Penhew", nickname="Helen"), Person("Mrs.", None, "Penhew"))
    >>> with_her_name(pair, "Mr. & Mrs. Tobias Penhew (Helen)")[0][1].given
    'Helen'
    >>> with_her_name(pair, "Mr. & Mrs. Tobias (Helen) Penhew")[1] is None
    True
    """
    him = unlike_himself(people)
    if him is None or him.nickname is None or not _is_known(him.nickname):
        return people, None
    if not re.search(rf"\(\s*{re.escape(him.nickname)}\s*\)\s*$", text):
        return people, None
    place = people.index(him)
    other = people[place + 1]
    pair = (replace(him, nickname=None), replace(other, given=him.nickname))
    said = f"{other.title} {other.family}".strip()
    return (*people[:place], *pair, *people[place + 2 :]), f"{him.nickname}: {said}"


def _is_known(name: str) -> bool:
    return fold(name) in given_names("single") | given_names("both")


def _is_form(called: str, person: Person) -> bool:
    return is_form(fold(called), fold((person.given or "").split()[0]))


def is_form(short: str, given: str) -> bool:
    """True where one of two folded given names is a known form of the other, or begins it."""
    one, other = sorted((short, given), key=len)  # Walt of Walter, Ruthie of Ruth
    begins = len(one) >= _LEAST and other.startswith(one) and one != other
    return begins or is_known_form(short, given)


def is_known_form(short: str, given: str) -> bool:
    """True where the table has one of two folded given names as a form of the other."""
    return (short, given) in _forms() or (given, short) in _forms()


@cache
def _forms() -> frozenset[tuple[str, str]]:
    rows = (row for row in table("name_forms") if row["kind"] != "tail")
    return frozenset((row["one"], row["other"]) for row in rows)
