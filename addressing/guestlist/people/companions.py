"""The column of companions beside the names: yes, a count, a name; and what says no there."""

import re
from dataclasses import replace

from addressing.guestlist.folding import fold
from addressing.guestlist.people.cell import CellReading, read_people
from addressing.guestlist.people.parts import Doubt
from addressing.guestlist.people.promised import answered, asked, unlike_names
from addressing.guestlist.people.vocabulary import words
from addressing.records.guests import Kind, Person

_YES_NAMED = re.compile(
    r"^(?i:yes|y|x|ja|oui|si)\b\s*[-–—:,(!.]+\s*(?P<name>[^)]+)\)?$"
    r"|^(?i:yes)\s+(?P<behind>[^\W\d_a-z][^)]*)$"
)
_ROLE_BEHIND = re.compile(
    r"\s*(?:[(\[](?P<in>[^()\[\]]*)[)\]]|(?:,|\s[-–—])\s*(?P<open>[^,()]+))\s*$"
)
_ONESELF = re.compile(
    r"^\s*(?:(?:just|only)\s+)?(?:me|myself|self)\s*[.!]*\s*(?:(?=\+)|[,&]\s*|(?:and|plus)\s+|$)",
    re.IGNORECASE,
)
_WHOSE = frozenset(("his", "her", "their", "my", "our"))
NUMBER = re.compile(r"^\+?\s*\(?(\d{1,2})\)?$")


def read_companion(text: str) -> CellReading:
    """Who comes along by the companion's column: yes or a number is a guest without a name.

    >>> [p.kind.value for p in read_companion("Y").people], read_companion("no").people
    (['guest'], ())
    """
    number = NUMBER.match(text.strip())
    if number:
        return CellReading(people=unnamed(Kind.GUEST, int(number[1])))
    answer = asked(text) if set(text.strip()) == {"?"} else answered(text)
    if answer is not None:
        return answer
    named = _YES_NAMED.match(text.strip())
    name = named["name"] or named["behind"] if named else without_role(text)
    if named and not (words("guest") | words("nameless")).isdisjoint(fold(name).split()):
        return CellReading(people=unnamed(Kind.GUEST, 1))  # "yes (name TBD)"
    reading = unlike_names(name, read_people(name, family_first=None))
    return replace(reading, doubts=(*reading.doubts, *_alone(reading)))


def without_role(text: str) -> str:
    """A name without the word behind it that says who that is: "Odile Farrenby (fiancée)".

    >>> without_role("Odile Farrenby (fiancée)"), without_role("Odile, girlfriend")
    ('Odile Farrenby', 'Odile')
    >>> without_role("Odile (Dilly) Farrenby"), without_role("Odile and guest")
    ('Odile (Dilly) Farrenby', 'Odile and guest')
    """
    behind = _ROLE_BEHIND.search(text)
    said = fold(behind["in"] or behind["open"] or "").split() if behind else []
    told = [word for word in said if word not in _WHOSE]
    named = behind is not None and bool(text[: behind.start()].strip())
    role = named and bool(told) and set(told) <= words("guest")
    return text[: behind.start()] if behind is not None and role else text


def without_oneself(text: str) -> str:
    """What a partner's column says besides who writes: "+ 1" of "me + 1", nothing of "just me".

    >>> without_oneself("me + 1"), without_oneself("just me!"), without_oneself("Me Kyung")
    ('+ 1', '', 'Me Kyung')
    """
    return _ONESELF.sub("", text)


def _alone(reading: CellReading) -> tuple[Doubt, ...]:
    """The question for the family name of a companion who has a first name and nothing else."""
    person = reading.people[0] if len(reading.people) == 1 else Person()
    alone = person.kind is Kind.NAMED and person.given and not (person.family or person.title)
    return (Doubt("surname-missing", str(person.given)),) if alone and not reading.doubts else ()


def unnamed(kind: Kind, count: int) -> tuple[Person, ...]:
    """So many companions or children without a name."""
    return tuple(Person(kind=kind) for _ in range(count))
