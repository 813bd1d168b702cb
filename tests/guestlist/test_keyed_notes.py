"""A sheet of notes that names households by their number: common practice, no source."""

from collections.abc import Sequence
from pathlib import Path

from openpyxl import Workbook

from addressing.guestlist.read import read_list
from addressing.records.findings import Finding
from addressing.records.guests import GuestList

GUESTS = (
    ("#", "party", "first", "last", "street", "city", "st", "zip"),
    (1, "P01", "Tobias", "Penhew", "41 Larkmoor Lane", "Litchfield", "CT", "06759"),
    (2, "P01", "Maud", "Penhew", None, None, None, None),
    (3, "P02", "Corwin", "Grayling", "9 Mill Row", "Duluth", "MN", "55802"),
    (4, "P03", "Wren", "Lorne", "66 Cobbler Green", "Concord", "NH", "03301"),
)
NOTES = (
    ("when", "party", "note"),
    ("1/9", "p01", "They moved in June, ask them"),
    ("1/9", "P02", "plus one (Lou?)"),
    ("2/1", "P02", "new: 14 Quarry Hill, Duluth MN 55802"),
    ("2/2", "P03", "tall people"),
    ("2/3", "P09", "who is that"),
)


def read(
    folder: Path, *notes: tuple[str | int, ...], guests: Sequence[tuple[object, ...]] = GUESTS
) -> tuple[GuestList, list[Finding]]:
    book = Workbook()
    for name, rows in (("Guests", guests), ("Notes", notes)):
        sheet = book.create_sheet(name)
        for row in rows:
            sheet.append(row)
    book.remove(book.worksheets[0])
    path = folder / "list.xlsx"
    book.save(path)
    guest_list, findings = read_list(path, {})
    return guest_list, list(findings)


def test_a_note_by_number_is_asked_with_its_household(tmp_path: Path) -> None:
    guest_list, findings = read(tmp_path, *NOTES)
    assert [home.name for home in guest_list.households] == [
        "Tobias Penhew", "Corwin Grayling", "Wren Lorne",
    ]  # fmt: skip
    names = {home.key: home.name for home in guest_list.households}
    asked = [
        (names.get(found.household or ""), str(found.where))
        for found in findings
        if found.where.sheet == "Notes" and found.severity == "ask"
    ]
    assert ("Tobias Penhew", "Notes!C2") in asked
    assert ("Corwin Grayling", "Notes!C3") in asked
    assert ("Corwin Grayling", "Notes!C4") in asked
    assert not [name for name, _ in asked if name == "Wren Lorne"]


def test_every_row_of_notes_is_told_as_none_of_a_guest(tmp_path: Path) -> None:
    guest_list, _ = read(tmp_path, *NOTES)
    told = {row.row: row.why for row in guest_list.unused if row.sheet == "Notes"}
    assert told[2] == "a note on p01"
    assert told[6] == "a note on nobody here (P09)"
    assert {row.sheet for row in guest_list.unused} == {"Notes"}


def test_a_sheet_of_guests_with_the_same_numbers_is_no_sheet_of_notes(tmp_path: Path) -> None:
    more = (("party", "name"), ("P01", "Kit Penhew"), ("P02", "Ada Grayling"))
    guest_list, _ = read(tmp_path, *more)
    people = {person.given for home in guest_list.households for person in home.people}
    assert {"Kit", "Ada"} <= people


def test_a_note_before_its_number_and_one_without_are_not_lost(tmp_path: Path) -> None:
    turned = (("note", "party"), ("plus one (Lou?)", "P02"), ("married?", "P03"))
    _, findings = read(tmp_path, *turned)
    asked = {str(found.where) for found in findings if found.severity == "ask"}
    assert {"Notes!A2", "Notes!A3"} <= asked
    _, findings = read(tmp_path, *NOTES, ("2/4", "", "Maud Penhew has moved to Ohio"))
    assert "Notes!C7" in {str(found.where) for found in findings if found.severity == "ask"}


def test_rows_that_are_only_counted_name_no_household(tmp_path: Path) -> None:
    numbered = tuple((row[0], str(row[1]).replace("P0", ""), *row[2:]) for row in GUESTS)
    things = (("no.", "what"), (1, "cake?"), (2, "married couple's flowers?"), (3, "band moved"))
    guest_list, findings = read(tmp_path, *things, guests=numbered)
    mine = {home.key for home in guest_list.households if home.name != "Cake"}
    assert not [f for f in findings if f.where.sheet == "Notes" and f.household in mine
                and f.code in ("note-open", "name-noted", "address-doubtful")]  # fmt: skip
    same = (("party", "what"), *things[1:])
    _, findings = read(tmp_path, *same, guests=numbered)
    assert [found for found in findings if found.where.sheet == "Notes" and found.household]


def test_a_sheet_of_households_and_notes_is_one_too(tmp_path: Path) -> None:
    notes = (("household", "notes"), ("P01", "married?"), ("P03", "plus one (Lou?)"))
    guest_list, findings = read(tmp_path, *notes)
    assert len(guest_list.households) == 3
    assert {"Notes!B2", "Notes!B3"} <= {str(f.where) for f in findings if f.severity == "ask"}
