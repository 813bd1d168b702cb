"""Generated households, as varied as those of real lists: the same for everyone who draws them.

Titles, couples of one name and of two, people alone, families; streets with and without
abbreviations, units, towns in all states. Of 10 000 envelopes hardly two have a name or a street
line in common.
"""

import random
from collections.abc import Iterator

from envelopes import BEGINNING, ENDING, GIVEN, STREET

from addressing.records.guests import Address, Cited, Household, Kind, Person
from addressing.tables import table
from addressing.where import Where

SORTS = ("Lane", "Ln.", "Street", "St", "Avenue", "Ave.", "Road", "Rd", "Court", "Boulevard")
AFTER = ("", "", "s", "er", "ton", "man", "-Quill")
TOWNS = ("", "", " Falls", "ville", " Springs", " Heights")
TITLES = ("Mr.", "Ms.", "Mrs.", "Dr.", None)


def households(count: int) -> Iterator[Household]:
    """Invented households with their cells."""
    dice = random.Random(7)  # noqa: S311 - a list, not a secret
    pick = dice.choice
    states = [row["code"] for row in table("states")]

    def family() -> str:
        return pick(BEGINNING) + pick(ENDING) + pick(AFTER)

    def given() -> str:
        return pick(GIVEN) + (f" {pick('ABCDEFGHJKLMNPRSTW')}." if dice.random() < 0.2 else "")

    for number in range(count):
        row = ("Guests.xlsx", "Guests", number + 2)
        cells = {letter: (Where.in_row(row, letter),) for letter in "ABCDEFGHI"}
        names, spouses = (*cells["A"], *cells["B"], *cells["C"]), (*cells["D"], *cells["E"])
        kind, shared = dice.random(), family()
        if kind < 0.45:
            people = [
                Person("Mr.", given(), shared, cells=names),
                Person("Mrs.", given(), shared, cells=spouses, joined=True),
            ]
        elif kind < 0.7:
            people = [
                Person(pick(TITLES), given(), shared, cells=names),
                Person(pick(TITLES), given(), family(), cells=spouses),
            ]
        else:
            people = [Person(pick(TITLES), given(), shared, cells=names)]
        if dice.random() < 0.1:
            people.append(Person(given=given(), family=shared, kind=Kind.CHILD, cells=spouses))
        street = pick(STREET) if dice.random() < 0.2 else pick(BEGINNING) + pick(ENDING)
        unit = Cited(f"Apt. {dice.randint(1, 40)}", cells["F"]) if dice.random() < 0.12 else None
        address = Address(
            street=Cited(f"{dice.randint(1, 19999)} {street} {pick(SORTS)}", cells["F"]),
            unit=unit,
            city=Cited(pick(BEGINNING) + pick(ENDING) + pick(TOWNS), cells["G"]),
            region=Cited(pick(states), cells["H"]),
            postcode=Cited(f"{dice.randint(1001, 99950):05}", cells["I"]),
            country=Cited("US"),
        )
        yield Household(f"h-{number}", tuple(people), address=address)
