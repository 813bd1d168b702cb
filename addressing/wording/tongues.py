"""The small words beside titles of another language: und, et, y, e, and how they sound."""

import unicodedata
from collections.abc import Sequence
from functools import cache

from addressing.records.guests import Person
from addressing.tables import table
from addressing.wording.persons import family, title_of

_ANY = "*"
"""What data/title_tongues.tsv has for a title of many languages."""


def tongue_word(word: str, people: Sequence[Person]) -> str | None:
    """The words for and, family, guest or guests in the titles' one language; None: the style's.

    >>> tongue_word("and", [Person("Herr", "Tobias", "Wexcombe"), Person("Frau", "Odile", "Lorne")])
    'und'
    """
    tongue = _tongue_of(people)
    return (_tongues()[tongue][word] or None) if tongue else None


def _tongue_of(people: Sequence[Person]) -> str | None:
    """Who bears no title goes by the title of one of their own family."""
    titled = [person for person in people if title_of(person) is not None]
    families = {family(person) for person in titled} - {None}
    others = (p for p in people if title_of(p) is None and family(p) not in families)
    said = {_tongue(title_of(person)) for person in (*titled, *others)} - {_ANY}
    return said.pop() if len(said) == 1 else None


def is_of_many_tongues(person: Person) -> bool:
    """True for Dr. and Prof., which other languages don't spell out."""
    return _tongue(title_of(person)) == _ANY


def by_sound(text: str, joint: str) -> str:
    """Words whose joining word gives way to the sound behind it (data/tongue_sounds.tsv).

    >>> by_sound("Javier y Inés", "y"), by_sound("Javier y Hiedra", "y")
    ('Javier e Inés', 'Javier y Hiedra')
    """
    for row in _sounds(joint):
        head, *rest = text.split(f" {joint} ")
        for part in rest:
            head += f" {row['becomes'] if _begins_so(part, row) else joint} {part}"
        text = head
    return text


@cache
def joints(joint: str) -> tuple[str, ...]:
    """A joining word and what it may become before a sound."""
    return (joint, *(row["becomes"] for row in _sounds(joint)))


def _begins_so(text: str, row: dict[str, str]) -> bool:
    plain = unicodedata.normalize("NFD", text[:5].casefold())
    plain = "".join(letter for letter in plain if not unicodedata.combining(letter))
    wanted, but = (tuple(row[each].split("|")) for each in ("before", "not_before"))
    return plain.startswith(wanted) and not plain.startswith(but)


@cache
def _sounds(joint: str) -> tuple[dict[str, str], ...]:
    return tuple(row for row in table("tongue_sounds") if row["word"] == joint)


@cache
def _tongue(title: str | None) -> str | None:
    """A title's language, `_ANY` for one of many; None is English."""
    known = {row["title"]: row["language"] for row in table("title_tongues")}
    return known.get(title or "", known.get((title or "").partition(" ")[0]))


@cache
def _tongues() -> dict[str, dict[str, str]]:
    return {row["language"]: row for row in table("tongue_words")}
