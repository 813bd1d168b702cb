"""What people of one cell settle among themselves: whose the suffix is, who has no name yet."""

from dataclasses import replace
from itertools import pairwise

from addressing.guestlist.folding import fold
from addressing.records.guests import Kind, Person


def without_given(people: list[Person]) -> list[Person]:
    """A "Baby Wexcombe" behind others of that name has no given name yet."""
    families = {fold(p.family) for p in people if p.kind is Kind.NAMED and p.family}
    return [
        replace(p, given=None)
        if p.kind is Kind.CHILD and p.given and fold(p.given) in families and p.age is None
        else p
        for p in people
    ]


def his_suffix(people: list[Person]) -> tuple[Person, ...]:
    """Sr. behind "Mr. & Mrs. Tobias & Odile Wexcombe" is the husband's, not the last one's."""
    settled = list(people)
    for place, (one, other) in enumerate(pairwise(people)):
        couple = (one.title, other.title) == ("Mr.", "Mrs.") and one.family == other.family
        if couple and other.joined and other.suffix and not one.suffix:
            settled[place] = replace(one, suffix=other.suffix)
            settled[place + 1] = replace(other, suffix=None)
    return tuple(settled)
