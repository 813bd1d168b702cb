"""What a note says of the names of two: another family name for one, one for both, one line."""

import itertools
import re
from collections.abc import Sequence
from dataclasses import replace
from functools import cache

from addressing.guestlist.folding import fold
from addressing.guestlist.people.note_words import denied, note_words, ways
from addressing.guestlist.people.vocabulary import row_words, words
from addressing.records.guests import Household, Kind, Person

_PAIR = 2
CAPITAL = re.compile(r"[^\W\d_a-z][\w’'.-]*(?<!['’]s)")


def is_of_name(word: str) -> bool:
    """True for a word with a capital, or one that stands inside of names ("van")."""
    return CAPITAL.match(word) is not None or fold(word) in words("particle")


def takes_a_name(note: str, home: Household) -> bool:
    """True for "she's a Penhew too" of two of whom one is no Penhew yet."""
    families = set(filter(None, grown(home)))
    if len(families) < _PAIR:
        return False
    behind = (note[found.end() :].strip() for found in note_words("becomes").finditer(note))
    return any(fold(each).startswith(family) for each in behind for family in families)


def renamed(note: str, home: Household) -> str:
    """The names where a note gives one of the household another family name; else "".

    >>> from addressing.records.guests import Person
    >>> renamed("went back to Lena Orr", Household("h-a", (Person("Ms.", "Lena", "Vail"),)))
    'Ms. Lena Orr'
    >>> renamed("now Lena Orr!! Married Kit", Household("h-a", (Person("Ms.", "Lena", "Vail"),)))
    'Ms. Lena Orr'
    """
    for found in note_words("renamed").finditer(note):
        clause = re.split(r"[,;!?()]", note[found.end() :])[0]
        said = list(itertools.takewhile(is_of_name, clause.split()))
        for person in home.people if len(said) > 1 else ():
            own = fold(person.given or "").split()[:1] == [fold(said[0])]
            family = " ".join(said[1:]).rstrip(".")
            if own and fold(family) != fold(person.family or ""):
                now = [replace(p, family=family) if p is person else p for p in home.people]
                return " and ".join(_whole_name(p) for p in now if p.kind is Kind.NAMED)
    return ""


def called_now(note: str, home: Household) -> str:
    """The name where a note gives somebody alone a new family name: "it's Ruiz-Hall now".

    Only one that holds the old name is known for a name: "it's June now" is none.

    >>> one = Household("h-a", (Person(given="Dana", family="Ruiz"),))
    >>> [called_now(note, one) for note in ("it's Ruiz-Hall now", "it's June now")]
    ['Dana Ruiz-Hall', '']
    """
    named = [p for p in home.people if p.kind is Kind.NAMED and p.given and p.family]
    found = _now().search(note) if len(named) == 1 and len(home.people) == 1 else None
    if found is None:
        return ""
    parts, own = fold(found["name"]).replace("-", " ").split(), fold(named[0].family or "")
    holds = own in parts and len(parts) > 1
    return _whole_name(replace(named[0], family=found["name"])) if holds else ""


@cache
def _now() -> re.Pattern[str]:
    name = rf"(?P<name>{CAPITAL.pattern}(?:\s{CAPITAL.pattern})?)"
    return re.compile(rf"{ways('is-now')}\s+{name}\s+now\b")


def wed(note: str, home: Household) -> str:
    """The names on one line where a note says that two are married whom the list has on two.

    They are proposed: one of them may have the other's family name by now. Not where a double name
    of one holds the other's already ("Jen Moore", "Alex Moore-Ruiz"): that is the new name.

    >>> from addressing.records.guests import Person
    >>> two = (Person("Mr.", "Kit", "Vail"), Person("Ms.", "Lena", "Orr"))
    >>> wed("they are married", Household("h-a", two))
    'Mr. Kit Vail and Ms. Lena Orr'
    """
    named = _on_two_lines(home)
    if len(set(grown(home))) != len(named) or _has_the_others(named) or not _are_wed(note):
        return ""
    return " and ".join(map(_whole_name, named))


def with_lines_as_said(home: Household, notes: Sequence[str]) -> Household:
    """A household of two with one line where a note says: married, and two where: not married.

    Two of two names whom the list joins and a note calls unmarried stand apart (etiquette.tsv of
    the reference, couple.unmarried.together); married ones of one family stand together.
    """
    if not notes:
        return home
    named = _on_two_lines(home)
    if len(named) == _PAIR and any(map(_are_wed, notes)):
        one_name = len(set(grown(home))) == 1 or _has_the_others(named)
        return _with_second(home, joined=True) if one_name else home
    if _are_two_on_one_line(home) and any(map(_are_unwed, notes)):
        return _with_second(home, joined=False)
    return home


def _with_second(home: Household, *, joined: bool) -> Household:
    """The household with the second of its named two joined to the first, or not."""
    second = [person for person in home.people if person.kind is Kind.NAMED][1]
    people = tuple(replace(p, joined=joined) if p is second else p for p in home.people)
    return replace(home, people=people)


def _has_the_others(named: Sequence[Person]) -> bool:
    """True where the double family name of one of two holds the other's."""
    if len(named) != _PAIR:
        return False
    one, other = ({*fold(p.family or "").replace("-", " ").split()} for p in named)
    return bool(one and other) and one != other and (one < other or other < one)


def _are_unwed(note: str) -> bool:
    """True for "engaged" of the two themselves, not of a daughter or a friend."""
    of_others = words("children") | row_words("relative")
    return denied("unwed", note) is False and of_others.isdisjoint(fold(note).split())


def _are_two_on_one_line(home: Household) -> bool:
    """True for two of two family names, whom the list joins."""
    named = [person for person in home.people if person.kind is Kind.NAMED]
    families = grown(home)
    joined = len(named) == _PAIR and named[1].joined and home.label is None
    return joined and all(families) and len(set(families)) == _PAIR


def _are_wed(note: str) -> bool:
    return denied("wed", note) is False


def _on_two_lines(home: Household) -> list[Person]:
    """The two of a household who are named in full and whom the list doesn't join."""
    named = [person for person in home.people if person.kind is Kind.NAMED]
    whole = all(person.given and person.family for person in named)
    apart = len(named) == _PAIR and not named[1].joined and home.label is None
    return named if apart and whole else []


def _whole_name(person: Person) -> str:
    words_of_it = (person.title, person.given, person.family, person.suffix)
    return " ".join(word for word in words_of_it if word)


def grown(home: Household) -> list[str]:
    """Those who are named, each by the family name, "" without one."""
    return [fold(p.family or "") for p in home.people if p.kind is Kind.NAMED]
