"""A word of kinship stays on the inner envelope when a title comes for the outer one.

“Uncle Ned Pellam” is Uncle Ned inside; a “Mr.” that is given for him later says how the post
reads his name, and nothing of how the family calls him.
"""

from collections.abc import Sequence
from functools import cache

from addressing.questions.naming import same_given
from addressing.records.guests import Cited, Household, Kind, Person
from addressing.tables import table
from addressing.where import together


def called_inside(home: Household, people: Sequence[Person]) -> Cited | None:
    """The inner envelope's words for a household all of whose grown ones the list calls so.

    None where the list has no such words, or where they are others than those by now.
    """
    grown = [person for person in home.people if person.kind is Kind.NAMED]
    now = [person for person in people if person.kind is Kind.NAMED]
    others = any(person.kind is Kind.GUEST for person in (*home.people, *people))
    if others or not grown or len(grown) != len(now) or all(p.title in _kin() for p in now):
        return None
    if not all(person.title in _kin() and person.given for person in grown):
        return None
    if not all(any(same_given(person, other) for other in now) for person in grown):
        return None
    words = " and ".join(f"{person.title} {person.given}" for person in grown)
    return Cited(words, together(person.cells for person in grown))


@cache
def _kin() -> frozenset[str]:
    return frozenset(row["canonical"] for row in table("titles") if row["group"] == "kin")
