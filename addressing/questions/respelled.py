"""What an answer was said of, held against what the list has now: the same in another spelling?

Letters that differ in a name may be what was asked, so that an answer that gives names, or lets
them stand, holds only where they are the same but for case, accents, order and a title that came.
Who is invited, together or apart, holds for the same people however they are spelled.
"""

from collections.abc import Callable, Sequence

from addressing.questions.folding import folded
from addressing.questions.kinds import NAMES, PLACES
from addressing.questions.showing import address_shown
from addressing.records.guests import Cited, Household, Person
from addressing.records.questions import Question, Readers
from addressing.where import Where

Alike = Callable[[Person, Person], bool]


def still_meant(
    about: str, question: Question, homes: Sequence[Household], readers: Readers
) -> bool:
    """True where `about`, the basis of an earlier question, is this one's in another spelling.

    `homes` are the question's households in its order.
    """
    if question.kind in PLACES:
        return same_place(about, homes[0], readers)
    lines, now = about.split("\n"), question.basis.split("\n")
    if len(lines) != len(now):
        return False
    if question.kind in ("pair", "parts"):
        return all(_same_home(*each, readers) for each in zip(lines, now, homes, strict=True))
    exact = question.kind in NAMES | {"struck"}
    same = same_people(lines[0], now[0], readers, exact=exact)
    return same and list(map(folded, lines[1:])) == list(map(folded, now[1:]))


def same_place(about: str, home: Household, readers: Readers) -> bool:
    """True where an address in one line is the household's, however written."""
    fields = {"lines": Cited(about, (Where(""),))}
    if home.address is not None and home.address.country is not None:
        fields["home"] = home.address.country
    return readers.place(readers.address(fields)[0], home.address)


def _same_home(line: str, now: str, home: Household, readers: Readers) -> bool:
    """The same people at the same address; only their names may be respelled."""
    place = address_shown(home.address)
    behind = f", {place}" if place else ""
    if not line.endswith(behind) or not now.endswith(behind):
        return False
    front, left = line.removesuffix(behind), now.removesuffix(behind)
    return same_people(front, left, readers, exact=False)


def same_people(line: str, now: str, readers: Readers, *, exact: bool) -> bool:
    """The same people one to one, in whatever order; `exact` to the letter."""
    alike = _to_the_letter if exact else readers.same
    before, left = line.split(", "), now.split(", ")
    if len(before) != len(left):
        return False
    for said in before:
        other = next((each for each in left if _is_one(said, each, alike, readers)), None)
        if other is None:
            return False
        left.remove(other)
    return True


def _is_one(said: str, other: str, alike: Alike, readers: Readers) -> bool:
    if said == other:
        return True
    one, two = readers.names(said).people, readers.names(other).people
    return len(one) == len(two) == 1 and alike(one[0], two[0])


def _to_the_letter(one: Person, other: Person) -> bool:
    """One person but for case and accents, or for a title that only one of the two has."""
    words = ((p.given, p.family, p.suffix) for p in (one, other))
    first, second = (tuple(map(folded, each)) for each in words)
    return first == second and (one.title == other.title or None in (one.title, other.title))
