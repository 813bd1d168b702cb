"""Which part of a household a note speaks of: somebody by name, a companion, the children.

Beside Maud, “plus one (Lou?)” is said of Lou; what is to be left out then is not the household.
The words are rows of `noted_parts.tsv`.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from addressing.questions.folding import folded
from addressing.records.guests import Household, Kind, Person
from addressing.records.questions import BETWEEN, CHILD, GUEST
from addressing.tables import table

_NAME = re.compile(r"[^\W\d_][\w'’-]*")


@dataclass(frozen=True, slots=True)
class Part:
    """Part of a household: `shown` towards the client, `value` as `Choice` has it."""

    shown: str
    value: str


def part_of(note: str, home: Household) -> Part | None:
    """The part of a household that a note speaks of; None where it speaks of all or of nobody.

    Names come first, those of the household before others; a listed couple has no partner beside.
    """
    named = [person for person in home.people if person.kind is Kind.NAMED]
    names = _listed(note, home.people) or _others(note, home)
    found = [row for row in _rows(*_kinds(named)) if _says(row["words"], note)]
    guests = [GUEST] if any(row["kind"] != CHILD for row in found) else []
    if names:
        return Part(_and(names), BETWEEN.join((*names, *guests)))
    if not found:
        return None
    return Part(found[0]["part"], CHILD if found[0]["kind"] == CHILD else GUEST)


def speaks_of_one(note: str, home: Household) -> bool:
    """True where a household is one person, and nothing in a note says that another is meant."""
    return home.is_one and part_of(note, home) is None and not _strangers(note, home)


def is_given_name(word: str) -> bool:
    """True for a given name that is known."""
    return folded(word) in _givens()


def _kinds(named: list[Person]) -> tuple[str, ...]:
    return (GUEST, CHILD, "partner") if len(named) == 1 else (GUEST, CHILD)


def _listed(note: str, people: Iterable[Person]) -> list[str]:
    """The given names of those of the household whom a note names, unless it names all."""
    people = list(people)
    said = set(map(folded, _capitalised(note)))
    firsts = [(person.given or "").split()[0] for person in people if person.given]
    meant = [first for first in firsts if folded(first) in said]
    return meant if 0 < len(meant) < len(people) else []


def _others(note: str, home: Household) -> list[str]:
    """Given names in a note that nobody of the household bears."""
    return [name for name in _strangers(note, home) if folded(name) in _givens()]


def _strangers(note: str, home: Household) -> list[str]:
    """Words with a capital that are no name of the household's; the first counts if it is a name.

    A word in capitals alone is a shout.
    """
    own = {word for person in home.people for word in _words_of(person)}
    own |= set(folded(home.label.text).split()) if home.label else set()
    found = [word for word in _capitalised(note) if folded(word) not in own]
    first = _NAME.search(note)
    return [
        word
        for word in dict.fromkeys(found)
        if not (len(word) > 1 and word.isupper())
        and word != "I"
        and folded(word) not in _no_names()
        and (first is None or word != first[0] or folded(word) in _givens())
    ]


def _capitalised(note: str) -> list[str]:
    words = (word.removesuffix("'s").removesuffix("’s") for word in _NAME.findall(note))
    return [word for word in words if word[:1].isupper()]


def _words_of(person: Person) -> set[str]:
    parts = (person.title, person.given, person.family, person.nickname)
    joined = folded(" ".join(part for part in parts if part))
    return {*joined.replace("-", " ").replace(".", " ").split(), *joined.split()}


def _says(words: str, note: str) -> bool:
    return re.search(rf"(?<!\w){re.escape(folded(words))}(?!\w)", folded(note)) is not None


def _and(names: list[str]) -> str:
    return " and ".join((", ".join(names[:-1]), names[-1])) if len(names) > 1 else names[0]


def _rows(*kinds: str) -> list[dict[str, str]]:
    return [row for row in table("noted_parts") if row["kind"] in kinds]


@cache
def _no_names() -> frozenset[str]:
    return frozenset(row["words"] for row in _rows("no-name"))


@cache
def _givens() -> frozenset[str]:
    """The folded given names that are known, short forms among them."""
    known = (row["name"] for row in table("given_names") if row["kind"] in ("single", "both"))
    pairs = (row for row in table("name_forms") if row["kind"] != "tail")
    forms = (row[key] for row in pairs for key in ("one", "other"))
    men = (name for row in table("mens_names") for name in row["names"].split())
    return frozenset(map(folded, (*known, *forms, *men)))
