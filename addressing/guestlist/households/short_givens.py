"""Given names as old address books shorten them: is "Wm. Tarleton" to be William on the envelope?

A formal envelope has names in full. They are proposed, and stand as listed until it is said.
"""

from collections.abc import Iterator
from dataclasses import replace
from functools import cache

from addressing.guestlist.asking import finding
from addressing.guestlist.folding import fold
from addressing.records.findings import Finding
from addressing.records.guests import Household, Person
from addressing.tables import table
from addressing.where import Where


def about_short_givens(household: Household, where: Where) -> Iterator[Finding]:
    """The one question of a household about its shortened given names."""
    short = {n: words for n, p in enumerate(household.people) if (words := shortened(p))}
    if short:
        pairs = dict(pair for words in short.values() for pair in words)
        quoted = ", ".join(pairs)
        cells = household.people[min(short)].cells
        text = f"“{quoted}”: a given name in short."
        mend = f"Is it {' and '.join(pairs.values())}? Without an answer it is set as listed."
        asked = finding("given-short", cells[0] if cells else where, text, mend, quoted)
        likely = tuple(("given", full) for full in pairs.values())
        yield replace(asked, people=tuple(short), likely=likely)


def shortened(person: Person) -> tuple[tuple[str, str], ...]:
    """(the word, the name in full) of each given name that is written in short.

    >>> shortened(Person(given="Geo. Wm")), shortened(Person(given="Jos")), shortened(Person())
    ((('Geo.', 'George'), ('Wm', 'William')), (), ())
    """
    words = (person.given or "").split()
    return tuple((word, full) for word in words if (full := _in_full(word)))


def _in_full(word: str) -> str:
    row = _rows().get(fold(word))
    if row is None or (row["counter_example"] and not word.endswith(".")):
        return ""  # Jos is a name of its own
    return row["other"].capitalize()


@cache
def _rows() -> dict[str, dict[str, str]]:
    return {row["one"]: row for row in table("name_forms") if row["kind"] == "abbreviation"}
