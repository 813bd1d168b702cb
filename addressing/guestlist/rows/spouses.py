"""Two words under “Spouse” beside a row's family name: a double given name, or first and last."""

from dataclasses import replace

from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Cell
from addressing.guestlist.people.cell import CellReading
from addressing.guestlist.people.names import is_initial
from addressing.guestlist.people.parts import Doubt
from addressing.guestlist.people.vocabulary import given_names, is_given, may_be_given
from addressing.records.guests import Kind, Person

_COUPLE = 2


def of_two_words(
    before: list[Person], cells: dict[str, Cell], reading: CellReading, found: list[Person]
) -> tuple[CellReading, list[Person]]:
    """The partner of the people `before`, both of whose words are given names where they can be.

    Beside "Mr. and Mrs." she bears the row's family name, so that a second word which is no given
    name is asked about; without it "Linh Tran" is first and last.
    """
    family = before[-1].family if before else None
    person = found[0] if found else Person()
    if set(cells) != {"name"} or not family or not _is_bare(person, family):
        return reading, found
    joint = _has_joint_title(before)
    if _are_givens(person, joint=joint):
        both = f"{person.given} {person.family}"
        return reading, [replace(person, given=both, family=None), *found[1:]]
    if not joint or before[-1].title != "Mrs.":
        return reading, found
    doubt = Doubt("family-name-doubtful", cells["name"].text)
    return replace(reading, doubts=(*reading.doubts, doubt)), found


def _is_bare(person: Person, family: str) -> bool:
    """True for a first name and one that isn't the row's, without a title."""
    if person.kind is not Kind.NAMED or person.title or not person.given or not person.family:
        return False
    return fold(person.family) not in fold(family).split()


def _has_joint_title(before: list[Person]) -> bool:
    """True where the row's title is of two and only one of them is named."""
    return len(before) >= _COUPLE and not before[-1].given and before[-1].title is not None


def _are_givens(person: Person, *, joint: bool) -> bool:
    last = person.family or ""
    if fold(f"{person.given} {last}") in given_names("double") or is_given(last):
        return True
    return joint and (may_be_given(last) or is_initial(last))
