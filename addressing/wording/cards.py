"""Cards with a name or a number: place cards, escort cards, numbered reply cards.

A place card bears one guest's name, and their table if the docket wants it there; an escort card a
party's names and their table; a reply card the number by which an unsigned answer is known again
(common practice, no source).
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from addressing.records.docket import Docket
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Cited, GuestList, Household, Kind, Person
from addressing.records.pieces import Line, Piece, Role, Wording, card_key
from addressing.records.styles import Style
from addressing.wording.forms import Writer
from addressing.wording.name_lines import NameLines, name_breaks


def cards_of(kind: str, household: Household, docket: Docket, style: Style) -> Iterator[Piece]:
    """The cards of one kind for a household, in the list's order; those of nobody aren't made."""
    if kind == "reply-number":
        yield _number(household)
        return
    made = _place_cards if kind == "place-card" else _escort_cards
    for number, (name, lines) in enumerate(made(household, docket, style), start=1):
        yield Piece(kind, card_key(household.key, number), name, (Wording(lines),))


def ask_tables(guest_list: GuestList, docket: Docket) -> tuple[Finding, ...]:
    """Who has no table for a card that bears one, in a list that gives tables, is asked about."""
    on_place_card = "place-card" in docket.make and docket.wording.place_card == "table"
    if "escort-card" not in docket.make and not on_place_card:
        return ()
    if not any(person.table for home in guest_list.households for person in home.people):
        return ()
    return tuple(
        Finding(
            Severity.ASK,
            "table-missing",
            home.rows[0],
            "No table is given.",
            "Write it into the list's column of tables; without it the card has the name alone.",
            home.key,
        )
        for home in guest_list.households
        if not any(person.table for person in home.people)
    )


def _number(household: Household) -> Piece:
    line = Line(str(household.number), Role.NUMBER, household.rows)
    return Piece("reply-number", household.key, household.name, (Wording((line,)),))


def _place_cards(
    household: Household, docket: Docket, style: Style
) -> Iterator[tuple[str, tuple[Line, ...]]]:
    """A card for each guest; a companion without a name is "Guest of" whoever was asked."""
    writer = Writer(style, "outer", docket.wording)
    host = next((person for person in household.people if person.kind is Kind.NAMED), None)
    with_table = docket.wording.place_card == "table"
    for person, table in _seated(household.people):
        if person.given or person.family:
            text = writer.name(person) if person.kind is Kind.CHILD else writer.one(person)
        elif person.kind is Kind.GUEST and host is not None:
            text = f"{style.word('guest of')} {writer.one(host)}"
        else:
            continue  # an unnamed child: the list asks who it is
        breaks = name_breaks(text, style.word("and"))
        name = Line(text, Role.NAME, person.cells, breaks)
        yield text, (name, _seat(table, style)) if table and with_table else (name,)


def _escort_cards(
    household: Household, docket: Docket, style: Style
) -> Iterator[tuple[str, tuple[Line, ...]]]:
    """A card for all of a household who sit at one table; the old form isn't for cards."""
    writer = NameLines(style, "outer", replace(docket.wording, military="rank-first"))
    for table, people in _by_table(household.people):
        party = replace(household, people=tuple(people))
        names = writer.of(party, everybody=True)
        if not names:
            continue
        yield party.name, (*names, _seat(table, style)) if table else names


def _seated(people: Sequence[Person]) -> list[tuple[Person, Cited | None]]:
    """Everybody with their table; somebody without one sits where the one before does."""
    seated: list[tuple[Person, Cited | None]] = []
    first = next((person.table for person in people if person.table), None)
    for person in people:
        before = seated[-1][1] if seated else first
        seated.append((person, person.table or before))
    return seated


def _by_table(people: Sequence[Person]) -> Iterator[tuple[Cited | None, list[Person]]]:
    """Who sits together."""
    seated = _seated(people)
    tables = list(dict.fromkeys(table.text if table else "" for _, table in seated))
    order = sorted(seated, key=lambda each: tables.index(each[1].text if each[1] else ""))
    for _, group in groupby(order, key=lambda each: each[1].text if each[1] else ""):
        together = list(group)
        yield together[0][1], [person for person, _ in together]


def _seat(table: Cited, style: Style) -> Line:
    """A number gets the word before it; a table's own name stands alone ("Head table")."""
    number = table.text.replace(" ", "").isdecimal()
    text = f"{style.word('table')} {table.text}" if number else table.text
    return Line(text, Role.SEAT, table.cells)
