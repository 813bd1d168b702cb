"""A note that gives somebody of a household a title that the list hasn't ("she's a PhD too").

What goes before such a title, and what stands behind it, are rows of note_words.tsv. A doctor whom
they see, work for or are a child of is no guest.
"""

import re
from collections.abc import Iterator

from addressing.guestlist.folding import fold
from addressing.guestlist.people.names import known_title
from addressing.guestlist.people.note_words import words_of_kind
from addressing.guestlist.people.vocabulary import LONGEST_TITLE, words
from addressing.records.guests import Household, Kind, Person

_RANKS = frozenset(("doctor", "academic", "clergy", "religious", "military", "office"))
"""Groups of titles that somebody holds; the others are custom's."""
_BEING = (["is", "a"], ["is", "an"], ["is", "the"])
_CLAUSES = re.compile(r"[;!?\n]|\s[-–—]+\s")
_OWNED = re.compile(r"(?<!\bshe)(?<!\bhe)['’]s\b(?!\s+(?:an?|now|also)\s)", re.IGNORECASE)
"""Judith's doctor is another; she's a doctor, and so is who "Judith's a doctor" is said of."""


def gives_rank(note: str, home: Household) -> bool:
    """True where a note says that one of the household holds a title that the list lacks.

    >>> pair = (Person("Dr.", "Tobias", family="Penhew"), Person("Mrs.", "Odile", family="Penhew"))
    >>> home = Household("h-aaaaaaaa", pair)
    >>> [gives_rank(note, home) for note in ("she's a PhD too", "Tobias is Dr.", "sees a doctor")]
    [True, False, False]
    """
    people = [person for person in home.people if person.kind is Kind.NAMED]
    return any(_lacks(found, people) for found in _ranks(note))


def _ranks(note: str) -> Iterator[tuple[str, list[str], list[str]]]:
    """(group, words before, words behind) of each title in a note, within its clause."""
    for clause in _CLAUSES.split(note):
        text = re.sub(r"['’]s\b", " is", _OWNED.sub(" of", clause), flags=re.IGNORECASE)
        said = re.sub(r"[,:()\"“”]", " ", text).split()
        place = 0
        while place < len(said):
            size, group = _rank_at(said, place)
            if size:
                yield group, _sentence(said[:place][::-1])[::-1], said[place + size :]
            place += size or 1


def _sentence(words: list[str]) -> list[str]:
    """The words up to the end of a sentence."""
    ends = (n for n, word in enumerate(words) if word.endswith(".") and not known_title(word))
    return words[: next(ends, len(words))]


def _rank_at(said: list[str], place: int) -> tuple[int, str]:
    """(words, group) of the title or doctor's degree that begins at a place; (0, "") without."""
    for size in range(min(LONGEST_TITLE, len(said) - place), 0, -1):
        text = " ".join(said[place : place + size])
        if fold(text).replace(".", "") in words_of_kind("doctors-degree"):
            return size, "doctor"
        title = known_title(text)
        capital = text[:1].isupper() or (title is not None and title.group == "doctor")
        capital = capital or _is_office(said, place, size)
        if title is not None and title.group in _RANKS and capital:
            return size, title.group
    return 0, ""


def _is_office(said: list[str], place: int, size: int) -> bool:
    """True for the judge of "Kit is a judge", in small letters, with no more behind it than why."""
    behind = fold(said[place + size]) if place + size < len(said) else ""
    led = [fold(word) for word in said[max(place - 2, 0) : place]] in _BEING
    kin = words("relation") | words("kin")
    return led and behind in ("", "so", "and") and fold(said[place + size - 1]) not in kin


def _lacks(found: tuple[str, list[str], list[str]], people: list[Person]) -> bool:
    """True where the title is given to one of the people who hasn't it."""
    group, before, behind = found
    named = _given_by_name(before, behind, people)
    if named is None:
        return False
    lacking = [person for person in named if not _holds(person, group)]
    return bool(lacking) and (len(lacking) == len(named) or _of_all(before, behind))


def _given_by_name(
    before: list[str], behind: list[str], people: list[Person]
) -> list[Person] | None:
    """Whom the title is given to: by name, else all who may be meant; None for somebody else."""
    said = [fold(word) for word in before[-3:]]
    others = not words_of_kind("of-another").isdisjoint(said[-1:])
    if behind and behind[0][:1].isupper():
        names = [fold(word) for word in behind[:2] if word[:1].isupper()]
        named = [p for p in people if names[0] in (_first(p), _last(p)) or names[-1] == _last(p)]
        given = [p for p in named if names[0] == _first(p)]
        return (given or named or None) if not others else None
    after = f"{fold(' '.join(behind))} "
    subject = [p for p in people if _first(p) in map(fold, before)]
    told = not words_of_kind("rank-before").isdisjoint(said)
    told = told or (not behind and any(_first(p) in said[-1:] for p in people))
    told = told or any(after.startswith(f"{word} ") for word in words_of_kind("rank-behind"))
    return (subject or people) if told and not others else None


def _first(person: Person) -> str:
    return fold(person.given or "").split(" ")[0]


def _last(person: Person) -> str:
    return fold(person.family or "").split(" ")[-1]


def _of_all(before: list[str], behind: list[str]) -> bool:
    """True where all are meant, or one more than the list has: "too", "both", or a wife."""
    said = set(map(fold, (*before, *behind)))
    return not said.isdisjoint(words_of_kind("rank-of-all"))


def _holds(person: Person, group: str) -> bool:
    title = known_title(person.title) if person.title else None
    return title is not None and (title.group == group or fold(person.title or "") == group)
