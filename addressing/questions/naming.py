"""All the names of a household, given anew: whose places they take, and what stays as listed."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from difflib import SequenceMatcher

from addressing.questions.choosing import leaves_out
from addressing.questions.corrections import is_correction
from addressing.questions.folding import folded
from addressing.questions.kids_said import children_behind
from addressing.questions.showing import person_shown
from addressing.questions.understanding import Change, is_child
from addressing.records.guests import Household, Kind, Person
from addressing.records.questions import CHILD, GUEST, NamesRead, Readers

_LEFT = ((CHILD, Kind.CHILD), (GUEST, Kind.GUEST))
"""Whom an answer leaves out in so many words, and the kind that goes."""
_NEAR = 0.6
"""Given names that agree so far are one name in two spellings."""
_SHORT = 0.5
"""The same for a short form and the whole ("Kathy", "Katharine"), where the family agrees."""
_PAIR = 2
_MARK = re.compile(r"\s*\(([^()\d]+)\)")
_PARTS = re.compile(r"[,;&+\n]|\band\b")


def names_in(
    change: Change, home: Household, readers: Readers, alone: NamesRead | None = None
) -> NamesRead:
    """The people of an answer; what it doesn't say of them stays as the list has it.

    "(child)" behind a name makes a child of it; a title stays with those who had one. `alone` are
    the given names of an answer that has nothing else, or the family without names.
    """
    words, young = without_marks(change.words)
    read = alone or children_behind(readers.names(words), words, readers)
    people = [
        replace(person, kind=Kind.CHILD) if _first_of(person, young) else person
        for person in read.people
    ]
    listed = tuple(_as_listed(person, people, home) for person in people)
    return replace(read, people=joined_as_listed(listed, home.people))


def without_marks(words: str) -> tuple[str, list[list[str]]]:
    """Names without "(child)", and the words of each before which that stood.

    >>> without_marks("Theo Marsh, Nell (child)")
    ('Theo Marsh, Nell', [['Nell']])
    """
    marks = [match for match in _MARK.finditer(words) if is_child(match[1])]
    left = words
    for match in reversed(marks):
        left = left[: match.start()] + left[match.end() :]
    return left, [_PARTS.split(_MARK.sub("", words[: m.start()]))[-1].split() for m in marks]


def _first_of(person: Person, parts: Iterable[Sequence[str]]) -> bool:
    return any(person.given and " ".join(part).startswith(person.given) for part in parts)


def _as_listed(person: Person, people: Sequence[Person], home: Household) -> Person:
    """A person with the title, the age, the family name if none is said, of the same one listed."""
    old = [other for other in home.people if same_given(person, other)]
    if not old and person.kind is Kind.NAMED:
        old = _unnamed_partner(people, home) or _behind_the_other(person, people, home)
    if len(old) != 1:
        one = len(people) == len(home.people) == 1 and person.family is None
        spelled = one and person.given is not None and near_given(person, home.people[0])
        return replace(person, family=home.people[0].family) if spelled else person
    listed = old[0]
    child = listed.kind is Kind.CHILD and person.title is None
    alone = person.family is None and not any(other.family for other in people)
    return replace(
        person,
        family=listed.family if alone else person.family,
        title=person.title or listed.title,
        kind=Kind.CHILD if child else person.kind,
        age=person.age if person.age is not None else listed.age,
    )


def _unnamed_partner(people: Sequence[Person], home: Household) -> list[Person]:
    """Who the list has by title alone ("Mr. and Mrs. Theo Marsh"), if only one can be meant."""
    adults = [person for person in people if person.kind is Kind.NAMED]
    listed = [person for person in home.people if person.kind is Kind.NAMED]
    new = [each for each in adults if not any(same_given(each, other) for other in listed)]
    bare = [person for person in listed if person.given is None and person.title is not None]
    families = {person.family for person in (*new, *bare)}
    one = len(new) == len(bare) == len(families) == 1 and len(adults) == len(listed)
    return bare if one else []


def _behind_the_other(person: Person, people: Sequence[Person], home: Household) -> list[Person]:
    """Who the list has by title alone, for the name of one family right behind that of the other.

    So "Theo and Ida Marsh, Otto Marsh" names the wife of "Mr. and Mrs. Theo Marsh" too.
    """
    listed = [other for other in home.people if other.kind is Kind.NAMED]
    place = people.index(person)
    if len(listed) != _PAIR or listed[1].given or not listed[1].title or place == 0:
        return []
    before, wife = people[place - 1], listed[1]
    same = same_given(before, listed[0]) and person.title in (None, wife.title)
    return [wife] if same and bool(person.given) and person.family == wife.family else []


def joined_as_listed(people: Sequence[Person], listed: Sequence[Person]) -> tuple[Person, ...]:
    """People of an answer, of whom two whom the list joins stay joined: a comma parts nobody."""
    places = _places_in(people, listed)
    return tuple(
        replace(person, joined=person.joined or _were_joined(places[:number][-1:], place, listed))
        for number, (person, place) in enumerate(zip(people, places, strict=True))
    )


def _places_in(people: Sequence[Person], listed: Sequence[Person]) -> list[int | None]:
    """The place of each grown one in the list, also where the name is spelled anew."""
    grown = [n for n, person in enumerate(listed) if person.kind is Kind.NAMED]
    adults = [person for person in people if person.kind is Kind.NAMED]
    even = dict(enumerate(grown)) if len(adults) == len(grown) else {}
    found: list[int | None] = []
    number = 0
    for person in people:
        own = [n for n in grown if same_given(person, listed[n])]
        there = even.get(number)
        near_it = there is not None and near_given(person, listed[there])
        grown_up = person.kind is Kind.NAMED
        found.append(
            (own[0] if len(own) == 1 else there if near_it else None) if grown_up else None
        )
        number += grown_up
    return found


def _were_joined(before: Sequence[int | None], place: int | None, listed: Sequence[Person]) -> bool:
    """True for two neighbours of the list, whichever is named first, whom it joins."""
    if place is None or not before or before[0] is None:
        return False
    return abs(before[0] - place) == 1 and listed[max(before[0], place)].joined


def same_given(one: Person, other: Person) -> bool:
    """True for two with the same given name, whatever its capitals and accents."""
    return bool(one.given and other.given) and folded(one.given) == folded(other.given)


def same_named(one: Person, other: Person) -> bool:
    """True for two with the same given name, family name and suffix: one person."""
    families = [folded(each.family or "") for each in (one, other)]
    return same_given(one, other) and families[0] == families[1] and one.suffix == other.suffix


def near_given(one: Person, other: Person) -> bool:
    """True for two given names that may be spellings of one, and where one isn't known."""
    if not one.given or not other.given:
        return True
    return near(folded(one.given), folded(other.given))


def near(one: str, other: str, least: float = _NEAR) -> bool:
    """True for two folded words that may be spellings of one, `least` (of 1) alike."""
    return SequenceMatcher(None, one, other, autojunk=False).ratio() >= least


def places_meant(home: Household, change: Change, read: NamesRead) -> list[int]:
    """The places of the people whom the names stand for.

    "everyone" stands for all, and so do names that leave out everybody else. Otherwise companions
    and children keep their places, unless the names say somebody of them too, leave them out in so
    many words ("no kids"), or more adults than the list names: companions first, then children
    without a name, as many as there are names for.
    """
    people = home.people
    every = list(range(len(people)))
    if change.question.kind == "everyone" or change.sole:
        return every
    asked = () if is_correction(change.question.ref) else change.question.covers
    cells = {found.where for found in asked}  # a correction is of all whom the list names
    citing = [place for place in every if cells & set(people[place].cells)]
    meant = {place for place in citing if people[place].given or people[place].family}
    meant = meant or {place for place in every if people[place].kind is Kind.NAMED}
    meant |= _named_again(home, meant, read.people)
    new = read.people
    kinds = {person.kind for person in new} - {Kind.NAMED}
    more = sum(person.kind is Kind.NAMED for person in new)
    more -= sum(people[place].kind is Kind.NAMED for place in meant)
    if more > 0:
        kinds.add(Kind.GUEST)
        more -= sum(person.kind is Kind.GUEST for person in people)
        unnamed = [p for p in every if people[p].kind is Kind.CHILD and not people[p].given]
        meant |= set(unnamed[: max(more, 0)])
    kinds |= {kind for whom, kind in _LEFT if leaves_out(change.decision.answer, whom)}
    kinds |= {
        people[place].kind
        for place in every
        if place not in meant and any(same_given(people[place], each) for each in new)
    }
    return [place for place in every if place in meant or people[place].kind in kinds]


def _named_again(home: Household, meant: set[int], people: Sequence[Person]) -> set[int]:
    """Whom an answer to a question about another names too, spelled anew: they are no third one."""
    grown = [person for person in people if person.kind is Kind.NAMED]
    others = [
        place
        for place, person in enumerate(home.people)
        if person.kind is Kind.NAMED and place not in meant
    ]
    if len(grown) != len(meant) + len(others):
        return set()
    return {place for place in others if any(_is_again(home.people[place], p) for p in grown)}


def _is_again(listed: Person, person: Person) -> bool:
    """True for a name that may be another spelling of one in the list, of the same family."""
    if same_given(listed, person):
        return True
    families = folded(listed.family or ""), folded(person.family or "")
    given = folded(listed.given or ""), folded(person.given or "")
    return families[0] == families[1] and all(given) and near(*given, _SHORT)


def left_out(home: Household, places: Sequence[int], read: NamesRead) -> tuple[str, ...]:
    """Those who stay beside names that change nothing: the reason why the names can't hold."""
    told = [(p.title, p.given, p.family, p.suffix) for p in read.people]
    was = [(p.title, p.given, p.family, p.suffix) for p in (home.people[n] for n in places)]
    if told != was:
        return ()
    others = [person_shown(p) for n, p in enumerate(home.people) if n not in places]
    if home.family is not None and read.family is None and home.label is None:
        others.append(home.family.text)
    return tuple(others)


def name_the_family(home: Household, places: Sequence[int], read: NamesRead) -> bool:
    """True for names of more people than those whom they stand for: the family by name."""
    return home.family is not None and read.family is None and len(read.people) > len(places) > 0


def are_others(home: Household, read: NamesRead) -> bool:
    """True for names without a word, however spelled, of the whole names that the list has."""
    named = [person for person in home.people if person.kind is Kind.NAMED]
    if not named or not all(person.given and person.family for person in named):
        return False
    listed, said = _words_of(home.people), _words_of(read.people)
    return not any(_alike(one, two) for one in listed for two in said)


def _alike(one: str, two: str) -> bool:
    return SequenceMatcher(None, one, two).ratio() >= _NEAR


def _words_of(people: Iterable[Person]) -> set[str]:
    parts = (part for p in people for part in (p.given, p.family, p.nickname) if part)
    return {word for part in parts for word in folded(part).split()}
