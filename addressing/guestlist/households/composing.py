"""One household of the rows that were gathered, and what they don't agree in."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import combinations

from addressing.guestlist.asking import finding, from_doubt
from addressing.guestlist.folding import fold
from addressing.guestlist.households.crowds import crowds
from addressing.guestlist.households.family_names import first_without_family, with_family_above
from addressing.guestlist.households.fuller import address_of
from addressing.guestlist.households.gathering import MOST_ROWS, Group
from addressing.guestlist.households.one_person import perhaps_one, told
from addressing.guestlist.households.two_spellings import two_spellings
from addressing.guestlist.households.unlettered import is_kin
from addressing.guestlist.people.parts import Doubt
from addressing.guestlist.rows.coming_along import without_promised_rows
from addressing.guestlist.rows.new_names import with_lines_as_said
from addressing.guestlist.rows.of_families import GROWN
from addressing.guestlist.rows.row import FACTS, RowReading
from addressing.records.findings import Finding
from addressing.records.guests import Cited, Household, Kind, Person

_MAY_BE_FAMILY = 3
_NOTES = frozenset(("remark", "cell-note"))


def household_of(group: Group, key: str = "") -> tuple[Household, tuple[Finding, ...]]:
    """The household of a group, and its findings."""
    rows = tuple(with_family_above(group.rows))
    address, asked = address_of(rows)
    household = Household(
        key=key,
        people=without_promised_rows([row.people for row in rows], _people(rows)),
        label=min(_labels(rows), key=_folded, default=None),  # of several, whatever the rows' order
        family=next((row.family for row in rows if row.family), None),
        address=address,
        by_hand=any(row.by_hand for row in rows),
        rows=tuple(row.where for row in rows),
        wave=_first_fact(rows, "wave"),
        side=_first_fact(rows, "side"),
        suite=_first_fact(rows, "suite"),
        inner=_inner(rows),
        counted=_first_fact(rows, "invited_count") if len(rows) == 1 else None,
        other_address=next((row.other_address for row in rows if row.other_address), None),
    )
    findings = [
        _of_one(row, found, rows)
        for row in rows
        for found in row.findings
        if not _is_counted(found, household, rows) and not _is_of_children(row, found, rows)
    ]
    notes = [found.quoted for found in findings if found.code in _NOTES and found.quoted]
    household = with_lines_as_said(household, notes)
    own = (
        *_without_family(rows),
        *_nameless(rows),
        *first_without_family(rows),
        *_which_are_children(household, said=all(GROWN in row.told for row in rows)),
        *_two_labels(rows),
        *two_spellings(household),
        *_near_names(rows),
    )
    found = (*_once(findings), *group.findings, *asked, *own)
    return household, (*map(_held, found),) if _has_a_lone_line(household) else found


def _held(found: Finding) -> Finding:
    """A first name that would stand alone on a line of the envelope waits for its family name."""
    return replace(found, holds=True) if found.code == "surname-missing" else found


def _has_a_lone_line(household: Household) -> bool:
    """True for "Rose Whitlock" and, on a line of her own, "Aunt Peg"."""
    named = [person for person in household.people if person.kind is Kind.NAMED]
    joined = [person.joined for person in named] + [False]
    return len(named) > 1 and any(
        person.given and not person.family and not (joined[at] or joined[at + 1])
        for at, person in enumerate(named)
        if person.title is None or is_kin(person)
    )


def _which_are_children(household: Household, *, said: bool) -> Iterator[Finding]:
    """Three or more of one family, a row each, without title or age: some may be children.

    Not where a column of ages has `said` of each that they are of age.
    """
    people = household.people
    several = len(household.rows) > 1 and len(people) >= _MAY_BE_FAMILY and not said
    if not several:
        return
    plain = all(
        p.kind is Kind.NAMED and p.given and p.family and not p.title and p.age is None
        for p in people
    )
    if plain and len({fold(p.family or "") for p in people}) == 1:
        names = ", ".join(str(person.given) for person in people)
        yield from_doubt(Doubt("children-unsaid", names), household.rows[0])


def _nameless(rows: Sequence[RowReading]) -> Iterator[Finding]:
    """A row of a household that names nobody and gives no address: is a companion meant?"""
    for row in rows[1:] if rows[0].household else ():
        nobody = not row.people and row.label is None and row.family is None
        if nobody and row.address is None:
            text = "A row of this household names nobody."
            yield finding("guest-noted", row.where, text, "May somebody come along?")


def _without_family(rows: Sequence[RowReading]) -> Iterator[Finding]:
    """A row of a household with one titled person and no family name: is it that of the others?"""
    families = {fold(p.family) for row in rows for p in row.people if p.family}
    for row in rows[1:]:
        person = row.people[0] if len(row.people) == 1 else None
        if person is None or len(families) != 1 or not person.title or not person.given:
            continue
        asked = {found.code for found in row.findings} & {"surname-missing", "name-doubtful"}
        if fold(person.given) in families:  # "Nana Upton" among the Uptons
            yield from_doubt(Doubt("name-doubtful", f"{person.title} {person.given}"), row.where)
        elif person.family is None and person.kind is Kind.NAMED and not asked:
            yield from_doubt(Doubt("surname-missing", person.given), row.where)


def _labels(rows: Sequence[RowReading]) -> list[Cited]:
    return [row.label for row in rows if row.label]


def _folded(cited: Cited) -> str:
    return fold(cited.text)


def _two_labels(rows: Sequence[RowReading]) -> tuple[Finding, ...]:
    """A family and a firm that the list has as one household: one of the two would be lost."""
    labels = {_folded(label): label for label in reversed(_labels(rows))}
    if len(labels) <= 1:
        return ()
    names = ", ".join(f"“{label.text}”" for label in reversed(labels.values()))
    text = f"The rows of one household have {len(labels)} names: {names}."
    asked = finding("household-doubtful", rows[0].where, text, "Is it one household or several?")
    return (replace(asked, also=tuple(row.where for row in rows[:MOST_ROWS])),)


def _is_counted(found: Finding, household: Household, rows: Sequence[RowReading]) -> bool:
    """True for a number invited beside one of several rows that is that of the household."""
    if found.code != "count-differs" or len(rows) == 1:
        return False
    grown = [person for person in household.people if person.kind is not Kind.CHILD]
    return int(found.quoted) in (len(household.people), len(grown))


def _is_of_children(row: RowReading, found: Finding, rows: Sequence[RowReading]) -> bool:
    """True for "Kids" on a row of its own, which is no name: the household asks who they are."""
    return (
        found.code == "name-doubtful" and bool(row.family) and not row.people and row is not rows[0]
    )


_OUT = frozenset(("row-struck", "row-hidden", "marker-in-list"))


def _of_one(row: RowReading, found: Finding, rows: Sequence[RowReading]) -> Finding:
    """In a row a guest, what says that the row is out is about that guest, not about the rest."""
    person = row.people[0] if len(row.people) == 1 else None
    whole = found.code != "row-struck" or row.struck
    if len(rows) == 1 or found.code not in _OUT or not whole or person is None or not person.given:
        return found
    words = (person.title, person.given, person.family, person.suffix)
    name = " ".join(word for word in words if word)
    text = f"“{name}”: {found.text}"
    made = finding("guest-out", row.where, text, "Are they still invited?", name)
    return replace(made, also=() if found.where == row.where else (found.where,))


def _first_fact(rows: Sequence[RowReading], fact: str) -> Cited | None:
    return next(iter(_facts(rows, fact)), None)


def _facts(rows: Sequence[RowReading], fact: str) -> list[Cited]:
    place = FACTS.index(fact)
    return [said for row in rows if (said := row.facts[place]) is not None]


def _inner(rows: Sequence[RowReading]) -> Cited | None:
    """The words that the list has for the inner envelope, each row's on lines of their own."""
    said = {_folded(each): each for each in reversed(_facts(rows, "inner"))}
    if not said:
        return None
    lines = tuple(reversed(said.values()))
    cells = tuple(cell for each in lines for cell in each.cells)
    return Cited("\n".join(each.text for each in lines), cells)


def _near_names(rows: Sequence[RowReading]) -> tuple[Finding, ...]:
    """Two rows of a household that perhaps name one person in two spellings."""
    if len(rows) > MOST_ROWS:
        text = f"{len(rows)} rows are one household, too many to look for one person twice."
        return (finding("same-door", rows[0].where, text, "Or more than one envelope?"),)
    found: list[Finding] = []
    alike: list[tuple[int, int, str]] = []
    for (place, one), (another, other) in combinations(enumerate(rows), 2):
        why = perhaps_one(one.people, other.people)
        if _names(one) == _names(other) and one.named:
            text = f"{other.where} names the same as {one.where}; used once."
            note = finding("duplicate-merged", other.where, text, "Nothing to do.")
            found.append(replace(note, also=(one.where,)))
        if why:
            alike.append((place, another, why))
    for crowd, why in crowds(alike):
        first, *others = (rows[place].where for place in crowd)
        text = f"{why} The other{'s' if len(others) > 1 else ''}: {', '.join(map(str, others))}."
        asked = finding("duplicate-probable", first, text, "One person or two?")
        found.append(replace(asked, also=tuple(others)))
    return tuple(found)


def _names(row: RowReading) -> tuple[str, list[tuple[str, ...]]]:
    return _folded(row.label) if row.label else "", list(map(told, row.people))


def _people(rows: Sequence[RowReading]) -> tuple[Person, ...]:
    """Everybody of the rows in order, the same person on two rows once."""
    people: list[Person] = []
    seen: set[tuple[str, ...]] = set()
    whole: set[tuple[tuple[str, ...], ...]] = set()
    for row in rows:
        same_row = tuple(sorted(map(told, row.people)))
        if same_row in whole and any(person.given for person in row.people):
            continue  # his wife without a name, too
        whole.add(same_row)
        own: dict[tuple[str, ...], object] = {}
        for person in row.people:
            same = told(person)
            twice = own.get(same, person.cells) != person.cells  # "Rob & Rob" of one cell are two
            if person.given is not None and (same in seen or twice):
                continue
            own[same] = person.cells
            people.append(person)
        seen |= own.keys()
    return tuple(people)


def _once(findings: list[Finding]) -> tuple[Finding, ...]:
    """Rows of one household repeat what they share: the address is asked about once."""
    kept: dict[tuple[str, str], Finding] = {}
    for found in findings:
        kept.setdefault((found.code, found.text), found)
    return tuple(kept.values())
