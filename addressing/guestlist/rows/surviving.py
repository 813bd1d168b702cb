"""Who is left of two when a note tells of a death: proposed to the client, never set unasked."""

import re
from collections.abc import Iterator, Sequence

from addressing.guestlist.files.mentions import mentions
from addressing.guestlist.folding import fold
from addressing.guestlist.people.called import is_form
from addressing.guestlist.people.likeness import full_forms
from addressing.guestlist.people.names import known_title
from addressing.guestlist.people.vocabulary import may_be_given
from addressing.records.guests import Household, Kind, Person
from addressing.tables import table

_PAIR = 2
_WORD = re.compile(r"[^\W_]+")
_MORE = re.compile(r"[,;!?&+/()]|\b(?:and|but|now|so)\b", re.IGNORECASE)
"""What parts a note into more than one thing that it says."""
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


def tells_of_another(note: str, home: Household) -> bool:
    """True where a note tells the death of somebody whom the row of one person doesn't list.

    It says nothing else: "Judy passed, now with Sue" is asked about.

    >>> alone = Household("h-aaaaaaaa", (Person("Mr.", "Frank", "Penhew"),))
    >>> [tells_of_another(n, alone) for n in ("Judy passed in May", "Frank died", "his wife died")]
    [True, False, True]
    """
    listed = home.people[0] if home.is_one else None
    said = _WORD.findall(fold(note))
    if listed is None or not listed.given or not said or _MORE.search(note):
        return False
    own = {word for name in (listed.given, listed.nickname or "") for word in fold(name).split()}
    row = next((row for row in table("died") if f" {row['words']} " in f" {' '.join(said)} "), None)
    if row is None:
        return False
    if row["gone"] in _SEX:
        return "wife" in row["words"] or "husband" in row["words"]
    named = said[: said.index(row["words"].split()[0])]
    known = len(named) == 1 and (may_be_given(named[0]) or bool(full_forms(named[0])))
    return (
        known
        and note[:1].isupper()
        and not any(named[0] == word or is_form(named[0], word) for word in own)
    )


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
