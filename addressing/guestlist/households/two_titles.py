"""Two titles that one person is given and that aren't borne together: "Mr." and "Dr. Tobias"."""

from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache

from addressing.guestlist.asking import finding
from addressing.guestlist.people.names import combined_title, known_title, take_titles
from addressing.records.findings import Finding
from addressing.records.guests import Household
from addressing.tables import lookup
from addressing.where import Where


def about_two_titles(household: Household, where: Where) -> Iterator[Finding]:
    """The question to each with an everyday title beside another: "Mr." and "Dr. Tobias" behind it.

    In German and other tongues both are borne (Herr Dr.).
    """
    for place, person in enumerate(household.people):
        titles = _of_two(person.title or "")
        if titles is None:
            continue
        likely = tuple(("title", title) for title in titles)
        name = " ".join(part for part in (person.given, person.family) if part)
        text = f"{' and '.join(f'“{title}”' for title in titles)} are both given to {name}."
        mend = "Which of them stands on the envelope?"
        cell = person.cells[0] if person.cells else where
        asked = finding("titles-beside", cell, text, mend, person.title or "")
        yield replace(asked, people=(place,), likely=likely)


@lru_cache(maxsize=1024)
def _of_two(title: str) -> tuple[str, str] | None:
    """(the other, the everyday one) of a title that is two which aren't borne together.

    >>> _of_two("Mr. Dr."), _of_two("Herr Dr."), _of_two("The Reverend Doctor")
    (('Dr.', 'Mr.'), None, None)
    """
    found = take_titles(title.split())[0]
    if len(found) < 2 or known_title(title) is not None:  # noqa: PLR2004 - two titles
        return None
    tongues = lookup("title_tongues", "title", "language")
    everyday = [
        each
        for each in found
        if not isinstance(each, str) and each.group == "civil" and each.canonical not in tongues
    ]
    others = combined_title(tuple(each for each in found if each not in everyday))
    return (others, everyday[0].canonical) if everyday and others else None
