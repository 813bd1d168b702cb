"""Titles that only a land and a list's other titles tell: M. before a name, or an initial?

Sr. before a name is Señor or Sister. Where both the address and another title of the list speak one
tongue it is that tongue's; else it stays as listed and is asked about (`two_way_titles.tsv`).
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cache

from addressing.guestlist.asking import finding
from addressing.records.findings import Finding
from addressing.records.guests import Household, Kind, Person
from addressing.tables import lookup, table
from addressing.where import Where


def tell_titles(households: list[Household]) -> None:
    """Read an M. as Monsieur where land and list say so, as a title where one of them does.

    An initial in a list without a French title, of somebody who doesn't live there, stays one. The
    households are changed in their place: a long list isn't held twice.
    """
    spoken = _tongues(households)
    for place, home in enumerate(households):
        if any(_row(person) for person in home.people):
            people = tuple(_told(person, home, spoken) for person in home.people)
            households[place] = replace(home, people=people)


def about_two_ways(household: Household, where: Where) -> Iterator[Finding]:
    """The question to each whose title can be read in two ways."""
    for place, person in enumerate(household.people):
        row = _by_word().get(person.title or "")
        if row is None:
            continue
        name = person.given or person.family or "the names"
        ways = tuple(("title", way) for way in (row["other"], row["title"]) if way)
        said = " or ".join(way for _, way in ways) + ("" if row["other"] else ", or an initial")
        text = f"“{person.title}” before {name} can be read in two ways."
        mend = f"Is it {said}? Without an answer it is set as listed."
        cell = person.cells[0] if person.cells else where
        asked = finding("title-doubtful", cell, text, mend, row["word"])
        yield replace(asked, people=(place,), likely=ways)


def _told(person: Person, home: Household, spoken: frozenset[str]) -> Person:
    row = _row(person)
    if row is None:
        return person
    country = home.address.country if home.address else None
    land = country is not None and country.text in row["lands"].split("|")
    heard = row["language"] in spoken
    if land and heard:
        return _with_title(person, row["title"])
    return _with_title(person, row["word"]) if land or heard else person


def _with_title(person: Person, title: str) -> Person:
    if person.title is not None:
        return replace(person, title=title)
    return replace(person, title=title, given=" ".join((person.given or "").split()[1:]) or None)


def _row(person: Person) -> dict[str, str] | None:
    """The row of a person's title, or of a word before given names that may be one."""
    if person.title is not None:
        return _by_word().get(person.title)
    first, _, others = (person.given or "").partition(" ")
    row = _by_word().get(f"{first.rstrip('.')}.") if person.kind is Kind.NAMED else None
    initials = len(others.rstrip(".")) == 1 or not person.family
    return None if row is None or row["other"] or initials else row


@cache
def _by_word() -> dict[str, dict[str, str]]:
    return {row["word"]: row for row in table("two_way_titles")}


def _tongues(households: Sequence[Household]) -> frozenset[str]:
    """The languages of which somebody bears a title that is sure."""
    known = lookup("title_tongues", "title", "language")
    titles = {person.title for home in households for person in home.people if person.title}
    return frozenset(known[title] for title in titles if title in known)
