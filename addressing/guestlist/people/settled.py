"""What people of one cell settle: whose the suffix is, who has no name, what title is for all."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise, zip_longest

from addressing.guestlist.folding import fold
from addressing.guestlist.people.names import combined_title, split_family
from addressing.guestlist.people.parts import Doubt, Part
from addressing.guestlist.people.vocabulary import Title
from addressing.records.guests import Kind, Person

_HERS = frozenset(("Mrs.", "Ms.", "Miss"))


def without_given(people: list[Person]) -> list[Person]:
    """A "Baby Wexcombe" behind others of that name has no given name yet."""
    families = {fold(p.family) for p in people if p.kind is Kind.NAMED and p.family}
    return [
        replace(p, given=None)
        if p.kind is Kind.CHILD and p.given and fold(p.given) in families and p.age is None
        else p
        for p in people
    ]


def his_suffix(people: list[Person]) -> tuple[Person, ...]:
    """Sr. behind "Mr. & Mrs. Tobias & Odile Wexcombe" is the husband's, not the last one's."""
    settled = list(people)
    for place, (one, other) in enumerate(pairwise(people)):
        couple = _are_his_and_hers(one.title, other.title) and one.family == other.family
        if couple and other.joined and other.suffix and not one.suffix:
            settled[place] = replace(one, suffix=other.suffix)
            settled[place + 1] = replace(other, suffix=None)
    return tuple(settled)


def shared_suffix(parts: Sequence[Part]) -> list[Doubt]:
    """The Jr. of "Sven and Ingrid Halvorsen Jr.": behind a name of both, whose is it?

    A husband by his title has it ("Mr. and Mrs."), and so has whoever alone is a Mr.; who has a
    full name of his own in front of it is meant by it.
    """
    found = []
    for one, other in pairwise(parts):
        his, theirs = one.names, other.names
        lent = other.joint == "and" and _has_given_alone(one) and not his.suffix
        given, family = split_family(theirs.names)
        if lent and given and family and theirs.suffix and not _titles_say(one, other):
            pair = f"{' '.join(his.names)} and {' '.join((*theirs.names, theirs.suffix))}"
            found.append(Doubt("suffix-doubtful", pair))
    return found


def turned_suffix(parts: Sequence[Part], text: str) -> list[Doubt]:
    """The Jr. of "Halvorsen Jr., Sven & Ingrid": the family name stands once, for both."""
    found = []
    for one, other in pairwise(parts):
        (his, name), (hers, family) = (split_family(part.names.names) for part in (one, other))
        alone = other.names.suffix and not one.names.suffix and other.joint == "and"
        if not (alone and his and hers and family) or name != family:
            continue
        if text.count(family) <= 1 and not _titles_say(one, other):
            found.append(Doubt("suffix-doubtful", " ".join(text.split())))
    return found


def said_of_one(parts: Sequence[Part]) -> list[Doubt]:
    """A title for several before one ("MM. Jean Martin"), or before another's ("MM. et Mmes")."""
    found = []
    for part, behind in zip_longest(parts, parts[1:]):
        if title_for_several(part) is None:
            continue
        shared = behind is not None and behind.kind is Kind.NAMED and not behind.names.titles
        if not shared and (not part.names.names or split_family(part.names.names)[1]):
            words = (combined_title(part.names.titles), *part.names.names, part.names.suffix)
            found.append(Doubt("name-doubtful", " ".join(filter(None, words))))
    return found


def title_for_several(part: Part) -> Title | None:
    """A title that is said once of several: Doctors, MM."""
    titles = part.names.titles
    return next((title for title in titles if isinstance(title, Title) and title.plural), None)


def _has_given_alone(part: Part) -> bool:
    given, family = split_family(part.names.names)
    return part.kind is Kind.NAMED and given is not None and family is None


def _titles_say(one: Part, other: Part) -> bool:
    """True where the titles tell whose a suffix is: the Mr.'s, of a couple or of the last one."""
    titles = combined_title(one.names.titles), combined_title(other.names.titles)
    return _are_his_and_hers(*titles) or titles[1] == "Mr."


def _are_his_and_hers(one: str | None, other: str | None) -> bool:
    """True for "Mr. and Mrs.", "Dr. and Mrs.", "Judge and Mrs."."""
    return other == "Mrs." and one is not None and one not in _HERS
