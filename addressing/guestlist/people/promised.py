"""What stands under “+1?” and is no name: a yes or a no by the table, and all else is asked."""

import re

from addressing.guestlist.folding import fold
from addressing.guestlist.people.cell import CellReading
from addressing.guestlist.people.names import take_titles
from addressing.guestlist.people.parts import Doubt
from addressing.guestlist.people.vocabulary import may_be_given, words
from addressing.records.guests import Kind, Person

_WORD = re.compile(r"[^\W\d_][\w'’-]*")
_CAPITAL = re.compile(r"[^\W\d_a-zß-ÿ]")
_CLAUSE = re.compile(
    r"\s*(?P<said>[^,;:.!()–—]*[^\s,;:.!()–—])\s*(?:[,;:.!(–—]|\s-\s)\s*(?P<more>\S.*)"
)


def says_no(text: str) -> bool:
    """True for a cell that says no, or nothing; "no?" is asked.

    >>> [says_no(text) for text in ("n/a", "-", "Nope!", "Odile", "no?")]
    [True, True, True, False, False]
    """
    return not text.strip(" -–—.\u00a0") or ("?" not in text and fold(text) in words("no"))


def answered(text: str) -> CellReading | None:
    """A guest without a name for a yes, nobody for a no, a question for neither; None of names.

    >>> [said and len(said.people) for said in map(answered, ("yup!", "nah", "he might"))]
    [1, 0, 0]
    >>> answered("Odile Penhew") is None
    True
    """
    if says_no(text):
        return CellReading()
    if _says_yes(text):
        return CellReading(people=(Person(kind=Kind.GUEST),))
    if fold(text) in words("unsure") or ("?" in text and _is_answer(text)):
        return asked(text)
    clause = _CLAUSE.match(text)
    if clause is None or _CAPITAL.search(clause["more"]) or "?" in text:
        return None
    if says_no(clause["said"]):  # "no, he is staying home"
        return CellReading()
    return asked(text) if _is_answer(clause["said"]) and not _is_named(clause["more"]) else None


def unlike_names(text: str, reading: CellReading) -> CellReading:
    """The reading, or a question where words in small letters stand in it as if they were names.

    >>> reading = CellReading((Person(None, "if", "that's ok"),))
    >>> [doubt.code for doubt in unlike_names("if that's ok", reading).doubts]
    ['guest-noted']
    """
    said = {fold(word) for word in _WORD.findall(text) if word[0].islower()}
    known = words("particle") | words("and-between")
    for person in reading.people:
        names = fold(f"{person.given or ''} {person.family or ''}").split()
        if names and not may_be_given(names[0]) and said.difference(known) & set(names):
            return asked(text)
    return reading


def asked(text: str) -> CellReading:
    """Nobody, and the question whether somebody comes along."""
    return CellReading(doubts=(Doubt("guest-noted", " ".join(text.split())),))


def _says_yes(text: str) -> bool:
    return "?" not in text and fold(text) in words("yes")


def _is_answer(text: str) -> bool:
    return fold(text) in words("yes") | words("no") | words("unsure")


def _is_named(text: str) -> bool:
    """True for a companion or a name in small letters behind a yes: "yes, linda", "y - guest"."""
    said = fold(text).split()
    known = words("guest") | words("nameless")
    return (
        not known.isdisjoint(said)
        or any(map(may_be_given, said[:1]))
        or bool(take_titles(text.split())[0])
    )
