"""The name lines of a household, outer and inner, in each style.

People whom the list joins stand on one line with "and"; people from two cells or rows on two lines.
With an inner envelope, companions and children stand on the inner only (several etiquette guides).
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from addressing.records.guests import Household, Kind, Person
from addressing.records.pieces import Line, Role
from addressing.where import Where
from addressing.wording.couples import (
    formal_couple,
    formal_couple_inner,
    in_order,
    is_married_pair,
    share_family,
)
from addressing.wording.persons import cased, family, formal, formal_inner, full_name, given, is_kin

_PAIR = 2


@dataclass(frozen=True, slots=True)
class NameStyle:
    """How a style writes one person, and two of one family, on one kind of envelope."""

    one: Callable[[Person], str]
    two: Callable[[Person, Person], str]


def formal_outer_style(*, traditional: bool) -> NameStyle:
    """Titles and full names."""
    return NameStyle(formal, lambda a, b: formal_couple(a, b, traditional=traditional))


FORMAL_INNER = NameStyle(formal_inner, formal_couple_inner)


def _relaxed_one(person: Person) -> str:
    return full_name(person) if person.given else formal(person)


def _relaxed_two(one: Person, other: Person) -> str:
    if one.given and other.given:
        return f"{given(one)} and {full_name(other)}"
    return formal_couple(one, other, traditional=True)


def _relaxed_inner_one(person: Person) -> str:
    if is_kin(person):
        return formal_inner(person)
    return given(person) or formal_inner(person)


def _relaxed_inner_two(one: Person, other: Person) -> str:
    if one.given and other.given:
        return f"{_relaxed_inner_one(one)} and {_relaxed_inner_one(other)}"
    return formal_couple_inner(one, other)


RELAXED_OUTER = NameStyle(_relaxed_one, _relaxed_two)
RELAXED_INNER = NameStyle(_relaxed_inner_one, _relaxed_inner_two)


def outer_names(household: Household, style: NameStyle, *, with_inner: bool) -> tuple[Line, ...]:
    """The name lines of an outer envelope; without an inner the companions and children follow."""
    lines = _adults(household, style)
    return lines if with_inner else _with_others(household, lines)


def inner_names(household: Household, style: NameStyle) -> tuple[Line, ...]:
    """The lines of an inner envelope: adults, "and Guest", then the children."""
    return _with_others(household, _adults(household, style))


def _adults(household: Household, style: NameStyle) -> tuple[Line, ...]:
    if household.label is not None:
        text = cased(household.label.text) or ""
        return (Line(text, Role.NAME, household.label.cells),)
    named = _by_rank([p for p in household.people if p.kind is Kind.NAMED])
    if not named:
        named = [p for p in household.people if p.kind is Kind.CHILD and p.given]
    return tuple(line for party in _parties(named) for line in _party(party, style))


def _by_rank(people: list[Person]) -> list[Person]:
    """On lines of their own, too, rank or doctorate stands before a partner without."""
    if len(people) != _PAIR or people[1].joined:
        return people
    return list(in_order(tuple(people)))


def _parties(people: Sequence[Person]) -> list[tuple[Person, ...]]:
    """Runs of people whom the list joins; husband and wife by title belong together as well."""
    parties: list[list[Person]] = []
    for person in people:
        if parties and (person.joined or is_married_pair(parties[-1][-1], person)):
            parties[-1].append(person)
        else:
            parties.append([person])
    return [tuple(party) for party in parties]


def _party(party: tuple[Person, ...], style: NameStyle) -> tuple[Line, ...]:
    """One line for one or two people; a couple with others, or several, are parted by line."""
    if len(party) == 1:
        return (_line(style.one(party[0]), party),)
    if len(party) == _PAIR:
        return (_pair(party, style),)
    if _all_given_only(party):
        return (_listing([_untitled(p) for p in party[:-1]], full_name(party[-1]), party),)
    first = party[:_PAIR]
    if share_family(*first):
        return (_pair(first, style), *(_line(style.one(p), (p,)) for p in party[_PAIR:]))
    return tuple(_line(style.one(person), (person,)) for person in party)


def _all_given_only(party: tuple[Person, ...]) -> bool:
    """Several of one family without titles: "Tobias, Odile and Linnet Wexcombe"."""
    one_family = all(share_family(party[0], person) for person in party[1:])
    return one_family and all(p.title is None and p.given and not p.suffix for p in party)


def _untitled(person: Person) -> str:
    return given(person) or ""


def _pair(party: tuple[Person, ...], style: NameStyle) -> Line:
    one, other = in_order(party)
    text = (
        style.two(one, other)
        if share_family(one, other)
        else f"{style.one(one)} and {style.one(other)}"
    )
    return _line(text, party)


def _line(text: str, people: tuple[Person, ...]) -> Line:
    return Line(text, Role.NAME, cells_of(people), name_breaks(text))


def cells_of(people: Sequence[Person]) -> tuple[Where, ...]:
    """The cells of several people, each once, in order."""
    return tuple(dict.fromkeys(cell for person in people for cell in person.cells))


def name_breaks(text: str) -> tuple[int, ...]:
    """Where a line of names may break: before "and", last first; behind The Honorable and its like.

    A title is never parted from a name but there ("and" begins the new line: etiquette guides).
    """
    ands = [place + 1 for place in range(len(text)) if text.startswith(" and ", place)]
    inside = [place for place in ands if not _joins_titles(text, place)]
    stands = [
        len(title) + 1
        for title in ("The Honorable", "The Reverend", "The Right Reverend", "The Most Reverend")
        if text.startswith(f"{title} ")
        and not text[len(title) + 1 :].startswith(("and ", "Doctor "))
    ]
    commas = [place + 2 for place in range(len(text)) if text.startswith(", ", place)]
    listed = [place for place in commas if not text[place:].startswith(("Jr.", "Sr.", "Esq"))]
    return (*reversed(inside), *listed, *stands)


def _joins_titles(text: str, place: int) -> bool:
    """True for the "and" of "Mr. and Mrs. Tobias Wexcombe": one name follows for both."""
    behind = text[place + len("and ") :].split()
    before = text[:place].split()
    return (
        len(before) == 1 and bool(behind) and (before[0].endswith(".") or behind[0].endswith("."))
    )


def _with_others(household: Household, lines: tuple[Line, ...]) -> tuple[Line, ...]:
    """Add "and Guest" to the last line, then a line of children or unnamed family."""
    guests = [p for p in household.people if p.kind is Kind.GUEST]
    children = [p for p in household.people if p.kind is Kind.CHILD and p.given]
    if guests and lines:
        lines = (*lines[:-1], _with_guests(lines[-1], guests))
    if children and not _are_adults(household):
        lines = (*lines, _children(household, children))
    elif _unnamed_family(household) and household.label is None:
        cells = household.family.cells if household.family else cells_of(household.people)
        lines = (*lines, Line("and Family", Role.NAME, cells))
    return lines


def _are_adults(household: Household) -> bool:
    """Children who stand alone are written as the adults of their envelope."""
    return household.label is None and all(p.kind is not Kind.NAMED for p in household.people)


def _unnamed_family(household: Household) -> bool:
    unnamed = any(p.kind is Kind.CHILD and not p.given for p in household.people)
    return household.family is not None or unnamed


def _with_guests(line: Line, guests: list[Person]) -> Line:
    text = f"{line.text} and Guest{'s' if len(guests) > 1 else ''}"
    cells = tuple(dict.fromkeys((*line.cells, *cells_of(guests))))
    return Line(text, line.role, cells, name_breaks(text))


def _children(household: Household, children: list[Person]) -> Line:
    """Given names, oldest first where every age is known; a full name where the family differs."""
    if all(child.age is not None for child in children):
        children = sorted(children, key=lambda child: -(child.age or 0))
    parents = {family(p) for p in household.people if p.kind is Kind.NAMED}
    names = [
        full_name(child)
        if child.family and parents and family(child) not in parents
        else given(child) or ""
        for child in children
    ]
    return _listing(names[:-1], names[-1], children)


def _listing(names: Sequence[str], last: str, people: Sequence[Person]) -> Line:
    """As in "Linnet, Corwin and Bram"; a break may fall behind a comma or before "and"."""
    text = f"{', '.join(names)} and {last}" if names else last
    return Line(text, Role.NAME, cells_of(people), name_breaks(text))
