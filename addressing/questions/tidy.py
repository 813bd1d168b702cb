"""The list as it was read, tidied: tables of plain text for a spreadsheet or another program.

The first table has a row for each guest, with the household's key and address in every row; it is
what `read_list` reads again to the same households. The others show the same from other sides:
a row a household, where each value came from, what was repaired. Their first heading tells the
reader to leave them aside.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from babel import Locale

from addressing.questions.showing import names_shown
from addressing.records.findings import Finding
from addressing.records.guests import Address, Cited, GuestList, Household, Kind, Person, Repair
from addressing.where import Where

ASIDE = "Overview key"
"""The first heading of a table that repeats the first one (`own-sign` in `data/headers.tsv`)."""
_FIELDS = (
    ("Care of", "recipient_extra"), ("Street", "street"), ("Unit", "unit"), ("City", "city"),
    ("State", "region"), ("ZIP", "postcode"), ("Country", "country"),
)  # fmt: skip
_PERSON = (
    "Title", "First Name", "Last Name", "Suffix", "Age Group", "Age", "With The One Above", "Table",
)  # fmt: skip
_FACTS = ("Wave", "Side", "Invitation Suite", "Inner Envelope")
_ADDRESS = tuple(header for header, _ in _FIELDS)
_HELD, _NAMES_FROM, _ADDRESS_FROM, _REPAIRS = (
    "Held because", "Names from", "Address from", "Repairs made",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Tidy:
    """One table: a name, headings, rows as long as the headings."""

    name: str
    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def tidy_tables(guest_list: GuestList, findings: Iterable[Finding]) -> tuple[Tidy, ...]:
    """Guests, Households, Sources, Repairs.

    A household that is held has the reasons beside it.
    """
    homes = guest_list.households
    held = _held(findings)
    repairs = _by_cell(guest_list.repairs)
    return (
        Tidy(
            "Guests",
            ("Household", *_PERSON, *_ADDRESS, "By Hand", *_FACTS, _HELD, _NAMES_FROM,
             _ADDRESS_FROM, _REPAIRS),
            tuple(row for home in homes for row in _guests(home, held.get(home.key, ""), repairs)),
        ),
        _households(homes, held),
        _sources(homes),
        Tidy(
            "Repairs",
            (ASIDE, "Cell", "It was", "It is", "Why"),
            tuple(_repair(number, each) for number, each in enumerate(guest_list.repairs, start=1)),
        ),
    )  # fmt: skip


def _held(findings: Iterable[Finding]) -> Mapping[str, str]:
    """Key → why the household waits."""
    reasons: dict[str, dict[str, None]] = {}
    for found in findings:
        if found.holds and found.household is not None:
            reasons.setdefault(found.household, {})[f"{found.text} {found.mend}"] = None
    return {key: " / ".join(told) for key, told in reasons.items()}


def _by_cell(repairs: Iterable[Repair]) -> Mapping[Where, Sequence[Repair]]:
    found: dict[Where, list[Repair]] = {}
    for repair in repairs:
        found.setdefault(repair.where, []).append(repair)
    return found


def _guests(
    home: Household, held: str, repairs: Mapping[Where, Sequence[Repair]]
) -> Iterable[tuple[str, ...]]:
    """A row for each guest; a household of a name alone, or with unnamed family, has one for it."""
    address = _address(home.address)
    address_cells = _cells(home.address)
    facts = [said.text if said else "" for said in (home.wave, home.side, home.suite, home.inner)]
    rows = tuple(_named_rows(home))
    for number, (names, cells) in enumerate(rows, start=1):
        touched = dict.fromkeys((*cells, *address_cells))
        told = "; ".join(_told(each) for cell in touched for each in repairs.get(cell, ()))
        # A row that is given by hand is read without its address, so the last one says it.
        hand = "yes" if home.by_hand and number == len(rows) else ""
        yield (
            home.key, *names, *address, hand, *facts, held, _listed(cells),
            _listed(address_cells), told,
        )  # fmt: skip


def _named_rows(home: Household) -> Iterable[tuple[tuple[str, ...], tuple[Where, ...]]]:
    """The columns of a person, and the cells that they come from."""
    alone = len(_PERSON)
    if home.label is not None:
        yield ("", "", home.label.text, *("",) * (alone - 3)), home.label.cells
    for person in home.people:
        yield _person(person), person.cells
    if home.family is not None:
        yield ("", home.family.text, *("",) * (alone - 2)), home.family.cells
    if home.label is None and home.family is None and not home.people:
        yield ("",) * alone, ()


def _person(person: Person) -> tuple[str, ...]:
    nickname = f" “{person.nickname}”" if person.nickname else ""
    unnamed = {Kind.GUEST: "Guest", Kind.CHILD: "1 child", Kind.NAMED: ""}[person.kind]
    given = f"{person.given}{nickname}" if person.given else ""
    ending = ", ".join(part for part in (person.suffix, *person.credentials) if part)
    group = {Kind.CHILD: "child", Kind.NAMED: "", Kind.GUEST: ""}[person.kind]
    named = bool(person.given or person.family)
    return (
        person.title or "", given if named else unnamed, person.family or "", ending, group,
        "" if person.age is None else str(person.age), "yes" if person.joined else "",
        person.table.text if person.table else "",
    )  # fmt: skip


def _households(homes: Sequence[Household], held: Mapping[str, str]) -> Tidy:
    headings = (ASIDE, "Everybody", *_ADDRESS, "By Hand", _HELD)
    rows = tuple(
        (home.key, names_shown(home), *_address(home.address), "yes" if home.by_hand else "",
         held.get(home.key, ""))
        for home in homes
    )  # fmt: skip
    return Tidy("Households", headings, rows)


def _sources(homes: Sequence[Household]) -> Tidy:
    """Field by field: the cells of the list, or of the answers, that a value was read from."""
    rows = []
    for home in homes:
        names = (home.label, home.family)
        people = [*(cell for person in home.people for cell in person.cells)]
        people += [cell for cited in names if cited for cell in cited.cells]
        fields = (getattr(home.address, name, None) for _, name in _FIELDS)
        rows.append(
            (home.key, _listed(home.rows), _listed(people),
             *(_listed(cited.cells) if cited else "" for cited in fields))
        )  # fmt: skip
    return Tidy("Sources", (ASIDE, "Rows", "Names", *_ADDRESS), tuple(rows))


def _repair(number: int, repair: Repair) -> tuple[str, ...]:
    return str(number), str(repair.where), repair.was, repair.now, repair.why


def _told(repair: Repair) -> str:
    return f"{repair.where}: “{repair.was}” is “{repair.now}”"


def _address(address: Address | None) -> tuple[str, ...]:
    return tuple(_text(getattr(address, name, None), name) for _, name in _FIELDS)


def _text(cited: Cited | None, name: str) -> str:
    if cited is None:
        return ""
    if name == "country":
        return str(Locale("en").territories.get(cited.text, cited.text))
    return cited.text


def _cells(address: Address | None) -> tuple[Where, ...]:
    fields = (getattr(address, name, None) for _, name in _FIELDS)
    return tuple(dict.fromkeys(cell for cited in fields if cited for cell in cited.cells))


def _listed(cells: Iterable[Where]) -> str:
    return ", ".join(str(cell) for cell in dict.fromkeys(cells))
