"""Two households with one telephone number or e-mail address, of names that agree: perhaps one.

A whole family has one telephone, so who lives at one door, or bears another given name, isn't asked
about; nor is a number that many rows have: it is the planner's, or a firm's.
"""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import combinations, product

from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Table
from addressing.guestlist.homes.doors import door
from addressing.guestlist.households.one_person import are_man_and_wife
from addressing.guestlist.people.likeness import of_two_sexes, same_family, same_given
from addressing.guestlist.tables.contents import kind_of_text, leading, votes
from addressing.records.guests import Household, Kind, Person

Reached = Mapping[tuple[str | None, int], frozenset[str]]
"""By sheet and row the telephone numbers and e-mail addresses, made comparable."""
_WAYS = {"email": "an e-mail address", "phone": "a telephone number"}
_OPEN = (None, "ignore")
"""Meanings of columns in which telephone numbers and e-mail addresses stand."""
_DIGITS = 10
"""Digits of a telephone number that count, from its end: +1 stands before some."""
_MOST = 3
"""More households than this with one number: it is nobody's own."""


def reached_in(tables: Iterable[Table]) -> Reached:
    """The telephone numbers and e-mail addresses of all rows that have any."""
    found: dict[tuple[str | None, int], frozenset[str]] = {}
    for table in tables:
        places = [c.index for c in table.columns if c.meaning in _OPEN and _holds(table, c.index)]
        for row in table.rows if places else ():
            cells = (row.cell(place) for place in places)
            ways = frozenset(filter(None, (_way(cell.text) for cell in cells if cell is not None)))
            if ways:
                found[table.sheet, row.number] = ways
    return found


def reached_alike(
    households: Sequence[Household], reached: Reached
) -> Iterator[tuple[int, int, str]]:
    """Pairs of places with one number or address and names that agree, and what they share."""
    homes: dict[str, set[int]] = {}
    for place, home in enumerate(households) if reached else ():
        for where in home.rows:
            for way in reached.get((where.sheet, where.row or 0), ()):
                homes.setdefault(way, set()).add(place)
    for way, places in homes.items():
        pairs = combinations(sorted(places), 2) if len(places) <= _MOST else ()
        for one, other in pairs:
            if _agree(households[one], households[other]):
                yield one, other, _WAYS["email" if "@" in way else "phone"]


def _holds(table: Table, index: int) -> bool:
    return leading(votes(table.rows, index)) in _WAYS


def _way(text: str) -> str:
    """A telephone number by its digits, an e-mail address in small letters; "" for other words.

    >>> _way("+1 (919) 555-0128"), _way("Tom@Example.com"), _way("call her")
    ('9195550128', 'tom@example.com', '')
    """
    kind = kind_of_text(text.strip())
    if kind == "phone":
        return re.sub(r"\D", "", text)[-_DIGITS:]
    return text.strip().casefold() if kind == "email" else ""


def _agree(one: Household, other: Household) -> bool:
    """True for two doors with somebody each whose names agree."""
    here = door(one.address)
    if here and here == door(other.address):
        return False
    return any(_is_one(*pair) for pair in product(_named(one), _named(other)))


def _named(home: Household) -> list[Person]:
    return [p for p in home.people if p.kind is Kind.NAMED and p.given and p.family]


def _is_one(one: Person, other: Person) -> bool:
    """True for names that agree; two suffixes, two titles, or man and wife, tell two people."""
    apart = one.suffix and other.suffix and one.suffix != other.suffix
    if apart or of_two_sexes(one.title, other.title) or are_man_and_wife(one, other):
        return False
    givens = fold(one.given or ""), fold(other.given or "")
    families = fold(one.family or ""), fold(other.family or "")
    return givens[0] == givens[1] or (same_family(*families) and same_given(*givens))
