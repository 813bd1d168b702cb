"""Who is left of two when a note tells of a death: proposed to the client, never set unasked."""

import re
from collections.abc import Iterator, Sequence

from addressing.guestlist.files.mentions import mentions
from addressing.guestlist.folding import fold
from addressing.guestlist.people.names import known_title
from addressing.records.guests import Household, Kind, Person
from addressing.tables import table

_PAIR = 2
_WORD = re.compile(r"[^\W_]+")
_SEX = {"she": frozenset(("Mrs.", "Ms.", "Miss")), "he": frozenset(("Mr.",))}


def survivors(note: str, home: Household) -> tuple[str, ...]:
    """The names of who may be left of two, as they would stand; () where a note tells no death.

    A widow who is listed as "Mrs." alone keeps her husband's name (common practice, no source).

    >>> pair = (Person("Mr.", "Tobias", "Penhew"), Person("Mrs.", None, "Penhew"))
    >>> survivors("she passed away in May", Household("h-aaaaaaaa", pair))
    ('Mr. Tobias Penhew',)
    >>> survivors("he died", Household("h-aaaaaaaa", pair))
    ('Mrs. Tobias Penhew',)
    """
    people = [person for person in home.people if person.kind is Kind.NAMED]
    said = f" {' '.join(_WORD.findall(fold(note)))} "
    gone = next((row["gone"] for row in table("died") if f" {row['words']} " in said), "")
    if len(people) != _PAIR or not gone:
        return ()
    dead = _of_sex(gone, people) if gone in _SEX else _named(said, people)
    left = [person for person in people if person is not dead]
    return tuple(dict.fromkeys((*_as_said(note, people), *(_alone(p, people) for p in left))))


def _of_sex(gone: str, people: Sequence[Person]) -> Person | None:
    found = [person for person in people if person.title in _SEX[gone]]
    return found[0] if len(found) == 1 else None


def _named(said: str, people: Sequence[Person]) -> Person | None:
    """The one of two whom a note names."""
    found = [p for p in people if p.given and f" {fold(p.given).split()[0]} " in said]
    return found[0] if len(found) == 1 else None


def _as_said(note: str, people: Sequence[Person]) -> Iterator[str]:
    """Who stands in the note with a title and their family name: "so only Mrs. Joan Penhew"."""
    families = {fold(person.family) for person in people if person.family}
    for each in mentions(note):
        words = each.text.split()
        if len(words) > _PAIR and known_title(words[0]) and fold(words[-1]) in families:
            yield each.text


def _alone(person: Person, people: Sequence[Person]) -> str:
    given = person.given or next((p.given for p in people if p.given), None)
    names = " ".join(part for part in (person.title, given, person.family) if part)
    suffix = person.suffix or ("" if person.given else next((p.suffix for p in people), None))
    return f"{names}, {suffix}" if suffix else names
