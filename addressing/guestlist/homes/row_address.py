"""The address cells of a row, put together as the list writes them."""

import re
from dataclasses import replace
from functools import lru_cache

from addressing.guestlist.domestic.dwellings import Segment, kind_of, unit_name
from addressing.guestlist.domestic.segments import ends_in_word
from addressing.guestlist.domestic.tail import cut_tail
from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Cell, Row, Table
from addressing.guestlist.people.vocabulary import row_words
from addressing.guestlist.places.countries import country_code, country_of_cell
from addressing.guestlist.places.places import state_code
from addressing.guestlist.written import Written, joined
from addressing.records.guests import Cited

PLACES = (
    "address",
    "house_number",
    "street",
    "street2",
    "po_box",
    "unit",
    "extra",
    "city",
    "region",
    "postcode",
    "place",
    "country",
)
"""What the columns of an address mean."""
_STREETS = (
    ("house_number", 1),
    ("address", 1),
    ("street", 1),
    ("street2", 1),
    ("street2", 2),
    ("street2", 3),
    ("po_box", 1),
)
_ZIP = re.compile(r"\d{5}(?:-\d{4})?")
_SHORT = 3
"""Letters of a code; a note of so few is hardly a country."""
_BARE_BOX = re.compile(r"#?\s*(\d+\w?)")


def cells_of(table: Table, row: Row, meaning: str) -> list[Cell]:
    """The filled or merged cells of a row in every column of a meaning, in the columns' order."""
    found = [row.cell(index) for index in table.saying(meaning)]
    return [cell for cell in found if cell is not None and cell.text]


def written_address(table: Table, row: Row) -> Written:
    """The address of a row by its columns; a "city, state, ZIP" column is cut up."""
    lines, unit = _with_street_of_unit(_lines(table, row), _unit(first_of(table, row, "unit")))
    zip_cell = next(iter(cells_of(table, row, "postcode")), None)
    written = Written(
        lines=lines,
        unit=unit,
        unit_word=_unit_word(table),
        extra=first_of(table, row, "extra"),
        city=first_of(table, row, "city"),
        region=first_of(table, row, "region"),
        postcode=first_of(table, row, "postcode"),
        country=first_of(table, row, "country"),
        zip_shown=zip_cell.shown if zip_cell else None,
        zip_number=zip_cell is not None and zip_cell.kind == "number",
    )
    place = first_of(table, row, "place")
    written = _with_place(written, place) if place else written
    noted = None if written.country else _noted_country(table, row, written)
    return replace(written, country=noted) if noted else written


def _noted_country(table: Table, row: Row, written: Written) -> Cited | None:
    """The country that a note names and nothing else ("Portugal!"), beside an address abroad.

    Jordan and Georgia may be somebody's name or a state: they are none beside a ZIP or a state.
    """
    code = written.postcode.text if written.postcode else ""
    state = state_code(written.region.text) if written.region else None
    if not written.lines or not (written.city or code) or state or _ZIP.fullmatch(code):
        return None
    for cell in cells_of(table, row, "notes"):
        said = cell.text.strip(" .!?()")
        if country_code(said) not in (None, "US") and len(said) > _SHORT:
            return Cited(said, (cell.where,))
    return None


def first_of(table: Table, row: Row, meaning: str) -> Cited | None:
    """The first filled cell of a meaning."""
    cell = next(iter(cells_of(table, row, meaning)), None)
    text = cell.text.strip(" ,") if cell else ""
    return Cited(text, (cell.where,)) if cell and text else None


def _unit(cited: Cited | None) -> Cited | None:
    """A column of units often holds dashes or "n/a" where there is none."""
    if (
        cited is None
        or fold(cited.text) in ("na", "n a", "none", "no")
        or not re.search(r"\w", cited.text)
    ):
        return None
    return cited


def _with_street_of_unit(
    lines: tuple[Cited, ...], unit: Cited | None
) -> tuple[tuple[Cited, ...], Cited | None]:
    """Somebody's second line may stand under Apt.: a street or a box there is a line of its own."""
    kind = kind_of(unit.text) if unit else None
    if unit is None or kind not in (Segment.BOX, Segment.STREET):
        return lines, unit
    if kind is Segment.STREET and not ends_in_word(unit.text):  # "12 Rear"
        return lines, unit
    return (*lines, unit), None


@lru_cache(maxsize=8)
def _unit_word(table: Table) -> str | None:
    """Apartment, where the header of the units says so and nothing else."""
    column = table.column("unit")
    said = fold(column.header).split() if column else []
    named = {unit_name(word) for word in said} - {None}
    return named.pop() if len(named) == 1 else None


def _lines(table: Table, row: Row) -> tuple[Cited, ...]:
    lines: list[Cited] = []
    for meaning, ordinal in _STREETS:
        column = table.column(meaning, ordinal)
        cell = row.cell(column.index) if column else None
        text = cell.text.strip(" ,") if cell else ""
        if cell is None or not text or says_none(cell):
            continue
        if meaning == "po_box" and (bare := _BARE_BOX.fullmatch(text)) is not None:
            text = f"PO Box {bare[1]}"
        if lines and _holds(lines[-1].text, text):
            continue
        if lines and meaning == "street" and table.column("house_number") is not None:
            lines[-1] = _numbered(lines[-1], Cited(text, (cell.where,)), table, row)
        else:
            lines.append(Cited(text, (cell.where,)))
    return tuple(lines)


def says_none(cell: Cell) -> bool:
    """True for a cell of streets that only says that no address is owed, or none is known yet."""
    said = any(mark.isalnum() for mark in cell.text)  # "???" and "--" say nothing
    folded = fold(cell.text)
    return not said or folded in row_words("by-hand-note") or folded in row_words("no-address")


def _holds(line: str, text: str) -> bool:
    """True where a line says a cell already: the same words, or a whole address with its street."""
    return f" {fold(text)} " in f" {fold(line)} "


def _numbered(number: Cited, street: Cited, table: Table, row: Row) -> Cited:
    """A street with its number: before it at home, abroad on the side where its column stands."""
    columns = table.column("house_number"), table.column("street")
    country = first_of(table, row, "country")
    code = country_of_cell(country.text) if country else None
    behind = all(columns) and columns[0].index > columns[1].index  # type: ignore[union-attr]
    parts = (street, number) if behind and code not in (None, "US") else (number, street)
    return joined(parts, " ")


def _with_place(written: Written, place: Cited) -> Written:
    """Cut "Millhaven, NY 13601" into its parts; what can't be cut stays a line of the address.

    Under "State / Zip" beside a column of towns only the rest of a place may stand.
    """
    behind = _after_town(written.city, place)
    tail = cut_tail(behind.text)
    if tail.city is None or tail.rest:
        lines = (*written.lines, behind)
        return replace(written, lines=lines, city=None if behind is not place else written.city)
    cite = [
        Cited(text, behind.cells) if text else None
        for text in (tail.city, tail.region, tail.postcode)
    ]
    return replace(
        written,
        city=cite[0] or written.city,
        region=cite[1] or written.region,
        postcode=cite[2] or written.postcode,
    )


def _after_town(town: Cited | None, place: Cited) -> Cited:
    """The town of a column of its own before a place that names none: "Hoboken" and "NJ 07030"."""
    tail = cut_tail(place.text)
    whole = tail.city is not None and (tail.region is not None or state_code(tail.city) is None)
    if town is None or (whole and not tail.rest):
        return place
    return joined((town, place), ", ")
