"""A table that lies on its side, or is a card for each guest, is the same list."""

import csv
from collections.abc import Iterable, Sequence
from pathlib import Path

import openpyxl
import pytest
from openpyxl.styles import Font

from addressing.guestlist import read_list
from addressing.records.findings import Finding
from addressing.records.guests import GuestList, Household

HEADER = ("Name", "Street", "City", "State", "ZIP", "Notes")
GUESTS = (
    ("Mr. Tobias Penhew", "14 Larkmoor Lane", "Litchfield", "CT", "06759", ""),
    ("Odile & Bram Wexcombe", "9 Mill Row", "Bar Harbor", "ME", "04609", "usher"),
    ("Dr. Linnet Farrenby", "120 Quarry Road", "Duluth", "MN", "55802", ""),
)
CARDS = [pair for guest in GUESTS for pair in (*zip(HEADER, guest, strict=True), ("", ""))]


def read(path: Path, rows: Iterable[Sequence[str]]) -> tuple[GuestList, tuple[Finding, ...]]:
    with path.open("w", encoding="utf-8", newline="") as stream:
        csv.writer(stream).writerows(rows)
    return read_list(path, {})


def said(home: Household) -> tuple[object, ...]:
    address = home.address
    parts = (address.street, address.city, address.region, address.postcode) if address else ()
    people = [(p.title, p.given, p.family) for p in home.people]
    return (people, [part.text if part else None for part in parts], home.key)


@pytest.mark.parametrize(
    "rows",
    [
        [*zip(HEADER, *GUESTS, strict=True)],
        [("Our guests", "", ""), *zip(HEADER, *GUESTS, strict=True)],
        CARDS,
    ],
    ids=["side by side", "below a title", "cards"],
)
def test_a_table_on_its_side_is_read_as_the_upright_one(
    tmp_path: Path, rows: list[Sequence[str]]
) -> None:
    upright, _ = read(tmp_path / "upright.csv", [HEADER, *GUESTS])
    turned, findings = read(tmp_path / "turned.csv", rows)
    assert [said(home) for home in turned.households] == [said(h) for h in upright.households]
    assert turned.rows == len(GUESTS)
    assert [each.code for each in findings if each.household is None] == ["table-on-its-side"]


def test_words_of_a_turned_table_come_from_the_cells_where_they_stand(tmp_path: Path) -> None:
    turned, _ = read(tmp_path / "turned.csv", zip(HEADER, *GUESTS, strict=True))
    second = turned.households[1]
    assert {where.cell for person in second.people for where in person.cells} == {"C1"}
    assert second.address is not None
    assert second.address.postcode is not None
    assert second.address.postcode.cells[0].cell == "C5"


def test_a_guest_struck_or_hidden_in_a_column_is_asked_about(tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    sheet = book.worksheets[0]
    for row in zip(HEADER, *GUESTS, strict=True):
        sheet.append(row)
    for number in range(1, 6):
        sheet[f"B{number}"].font = Font(strike=True)
    sheet.column_dimensions["D"].hidden = True
    book.save(tmp_path / "list.xlsx")
    guests, findings = read_list(tmp_path / "list.xlsx", {})
    asked = {each.code: each.household for each in findings if each.holds}
    assert asked == {
        "row-struck": guests.households[0].key,
        "row-hidden": guests.households[2].key,
    }


def test_upright_lists_whose_first_column_has_words_of_headers_stay_upright(
    tmp_path: Path,
) -> None:
    rows = [("Name", "Address"), ("City", "14 Larkmoor Lane"), ("Street", "9 Mill Row"),
            ("Guest", "120 Quarry Road")]  # fmt: skip
    _, findings = read(tmp_path / "list.csv", rows)
    assert "table-on-its-side" not in {each.code for each in findings}
    labelled = ((label, *guest) for label, guest in zip(HEADER, GUESTS, strict=False))
    _, findings = read(tmp_path / "list.csv", [("", *HEADER), *labelled])
    assert "table-on-its-side" not in {each.code for each in findings}
