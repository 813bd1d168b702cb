"""Given names alone as an answer: whose they are, and who of them is a child.

“Nell, Bram and Tuck” said of the Penhew family are its children or its parents. They are children
where the words say so (“kids:”, an age), or where the list has the first of them as a child; else
nobody can tell, and the answer is asked about.
"""

import re
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, replace

from addressing.questions.folding import folded
from addressing.questions.naming import near, without_marks
from addressing.questions.noted_parts import is_given_name
from addressing.questions.showing import person_shown
from addressing.questions.understanding import is_child
from addressing.records.guests import Household, Kind, Person
from addressing.records.questions import NamesRead, Readers
from addressing.tables import table

_HEADED = re.compile(r"\b(?:kids|children|sons?|daughters?)\b", re.IGNORECASE)
"""Parts children from those before them; "baby Tuck" may stand behind brothers and sisters."""

_JOINED = re.compile(r"\s*(?:[,;&+]|\band\b|\bkids\b:?|\bchildren\b:?)\s*", re.IGNORECASE)
_AGE = re.compile(r"\([^()]*\)|\d+")
_SPELLED = 0.75
"""How alike a given name and the family's must be, for the one to be a spelling of the other."""


@dataclass(frozen=True, slots=True)
class Alone:
    """People of whom an answer has the given name only, in its order; `young` are the children."""

    people: tuple[Person, ...]
    young: frozenset[int] | None
    """Their places; None where nobody can tell."""
    family: str | None = None
    """Whoever comes along without a name: "and baby"."""

    @property
    def grown(self) -> tuple[Person, ...]:
        """The parents among them, none where nobody can tell."""
        return tuple(
            replace(person, kind=Kind.NAMED)
            for place, person in enumerate(self.people)
            if self.young is not None and place not in self.young
        )

    @property
    def read(self) -> NamesRead:
        """All of them, for a household that has them already."""
        people = tuple(replace(person, kind=Kind.NAMED) for person in self.people)
        return NamesRead(people, None, doubtful=False, family=self.family)

    @property
    def children(self) -> tuple[Person, ...]:
        """The children among them."""
        return tuple(p for place, p in enumerate(self.people) if place in (self.young or ()))

    @property
    def unclear(self) -> str:
        """Why they can't be taken."""
        names = ", ".join(map(person_shown, self.people))
        return (
            f"{names}: given names alone. Parents or a companion in full, please,"
            " and the children behind “kids:”."
        )


def given_alone(
    words: str, home: Household, readers: Readers, noted: Collection[str] = ()
) -> Alone | None:
    """The given names of an answer that has nothing else; None for any other.

    `noted` are given names that a note of the list has for children.
    """
    words, marked = without_marks(words)
    read = readers.children(words)
    bare = bool(read.people) and not (read.doubtful or read.label)
    families = _families(home)
    if not bare or not families or not all(map(_is_bare, read.people)):
        return None
    names = [folded(person.given) for person in read.people]
    if any(near(name, word, _SPELLED) for name in names for word in families):
        return None
    told = {folded(p.given) for p in readers.names(words).people if p.kind is Kind.CHILD}
    told |= {folded(part[0]) for part in marked if part}
    listed = {folded(p.given) for p in home.people if p.kind is Kind.CHILD and p.given}
    if told.issuperset(names) or (told and _HEADED.search(words)):
        young = frozenset(place for place, name in enumerate(names) if name in told)
        return Alone(read.people, young, read.family)
    known = listed | set(map(folded, noted))
    first = next((place for place, name in enumerate(names) if name in known), None)
    after = None if first is None else frozenset(range(first, len(names)))
    return Alone(read.people, after, read.family)


def is_family_alone(words: str, home: Household) -> bool:
    """True for an answer that only repeats a family name of people who have given names."""
    return folded(words) in {folded(p.family) for p in home.people if p.family and p.given}


def in_full_beside_given(words: str) -> str:
    """The first name of an answer when it alone is a whole one: perhaps a parent's.

    >>> in_full_beside_given("Theo Penhew, Nell (5)"), in_full_beside_given("Nell, Bram")
    ('Theo Penhew', '')
    """
    parts = [part.strip() for part in _JOINED.split(_AGE.sub("", words))]
    first, *others = [part for part in parts if part] or [""]
    alone = all(len(part.split()) == 1 for part in others)
    words_of_first = first.split()
    whole = len(words_of_first) > 1 and not is_given_name(words_of_first[-1])
    whole = whole and not is_child(words_of_first[0])
    return first if others and alone and whole else ""


def before_kids(words: str) -> str:
    """What stands before the first word for children.

    >>> before_kids("Theo, kids: Nell and Bram"), before_kids("Nell and Bram")
    ('Theo,', '')
    """
    found = _HEADED.search(words)
    return words[: found.start()].strip() if found else ""


def with_family(people: Sequence[Person], home: Household) -> tuple[Person, ...] | None:
    """Parents whom an answer gives without a family name bear the label's; None if it has none.

    A known given name behind a title alone is no family name there.
    """
    family = family_of_label(home.label.text) if home.label else ""
    turned = tuple(_given_first(person, family) for person in people)
    grown = [person for person in turned if person.kind is Kind.NAMED]
    if not grown or any(person.family for person in grown):
        return turned
    if not family:
        return None
    return tuple(
        replace(person, family=family) if person.kind is Kind.NAMED else person for person in turned
    )


def _given_first(person: Person, family: str) -> Person:
    """Mr. Theo of the Penhew family has no family name of his own."""
    lone = person.title and not person.given and person.kind is Kind.NAMED
    if not lone or not family or near(folded(person.family), folded(family)):
        return person
    known = is_given_name(person.family or "")
    return replace(person, given=person.family, family=None) if known else person


def family_of_label(label: str) -> str:
    """The family name of a label that has it as such.

    >>> family_of_label("The van Dorn Family"), family_of_label("The Penhews")
    ('van Dorn', '')
    """
    words = label.split()
    of_family = {row["word"] for row in table("name_words") if row["kind"] == "family"}
    left = [word for word in words if folded(word) not in of_family | {"the", "fam."}]
    return " ".join(left) if len(left) < len(words) and _has_word(words, of_family) else ""


def _has_word(words: Iterable[str], known: Collection[str]) -> bool:
    return any(folded(word).strip(".") in known for word in words)


def _is_bare(person: Person) -> bool:
    return bool(person.given) and not person.title and not person.family and not person.suffix


def _families(home: Household) -> set[str]:
    """The folded words of the household's family names."""
    names = [p.family for p in home.people if p.family and p.kind is Kind.NAMED]
    names += [home.label.text] if home.label and home.family else []
    words = {word for name in names for word in re.findall(r"\w+", folded(name))}
    return words - {"the", "family", "fam"}
