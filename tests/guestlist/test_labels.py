"""Sheets whose rows are no households: labels side by side, a printed directory."""

import csv
from collections.abc import Iterable, Sequence
from itertools import zip_longest
from pathlib import Path

import openpyxl
import pytest

from addressing.faults import Fault
from addressing.guestlist import read_list
from addressing.guestlist.files.labels import read_labels
from addressing.guestlist.files.opening import open_list
from addressing.guestlist.files.textfile import read_textfile
from addressing.records.findings import Severity
from addressing.records.guests import GuestList

LABELS = (
    ("Mr. Tobias Penhew", "14 Larkmoor Lane", "Litchfield, CT 06759"),
    ("Ms. Odile Wexcombe", "9 Mill Row", "Bar Harbor, ME 04609"),
    ("Linnet & Corwin Ruddock", "22 Orchard Ave", "Apt 4", "Taos, NM 87571"),
    ("Dr. Bram Farrenby", "120 Quarry Road", "Duluth, MN 55802"),
)
DOORS = [("14 Larkmoor Lane", "06759"), ("9 Mill Row", "04609"), ("22 Orchard Ave", "87571"),
         ("120 Quarry Road", "55802")]  # fmt: skip


def read(path: Path, rows: Iterable[Sequence[str | None]]) -> GuestList:
    with path.open("w", encoding="utf-8", newline="") as stream:
        csv.writer(stream).writerows(rows)
    return read_list(path, {})[0]


def doors(guests: GuestList) -> list[tuple[str, str]]:
    addresses = [home.address for home in guests.households if home.address]
    return [
        (a.street.text, a.postcode.text) for a in addresses if a.street is not None and a.postcode
    ]


def side_by_side(blank: int) -> list[list[str]]:
    """Two labels beside each other in a row of labels, `blank` rows between these."""
    rows: list[list[str]] = []
    for labels in (LABELS[:2], LABELS[2:]):
        rows += map(list, zip_longest(*labels, fillvalue=""))
        rows += [["", ""]] * blank
    return rows


@pytest.mark.parametrize("blank", [0, 1, 2])
def test_labels_side_by_side_are_each_a_household(tmp_path: Path, blank: int) -> None:
    guests = read(tmp_path / "labels.csv", side_by_side(blank))
    assert doors(guests) == DOORS
    assert guests.rows == len(LABELS)


def test_labels_in_a_cell_each_are_each_a_household(tmp_path: Path) -> None:
    cells = ["\n".join(label) for label in LABELS]
    assert doors(read(tmp_path / "labels.csv", [cells[:2], cells[2:]])) == DOORS


def test_words_of_a_label_come_from_its_own_cells(tmp_path: Path) -> None:
    guests = read(tmp_path / "labels.csv", side_by_side(1))
    second = guests.households[1]
    assert second.address is not None
    assert second.address.street is not None
    cells = (second.people[0].cells[0], second.address.street.cells[0])
    assert [where.cell for where in cells] == ["B1", "B2"]


def directory() -> list[Sequence[str | None]]:
    rows: list[Sequence[str | None]] = [("OUR DIRECTORY", None, None), (None,)]
    for letter, label in zip("PWRF", LABELS, strict=True):
        rows.append((letter, None, None))
        rows.append((None, label[0], "860-555-0101"))
        rows += [(None, line, None) for line in label[1:]]
        rows.append((None,))
    return rows


def test_a_directory_with_letters_and_telephones_beside_it_is_read(tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    for row in directory():
        book.worksheets[0].append(list(row))
    book.save(tmp_path / "directory.xlsx")
    guests, findings = read_list(tmp_path / "directory.xlsx", {})
    assert doors(guests) == DOORS
    assert {line.why for line in guests.unused} == {"a heading of the labels"}
    assert guests.rows == len(LABELS) + len(guests.unused)
    assert not [each for each in findings if each.holds]


def with_remarks(beside: dict[str, str]) -> list[Sequence[str | None]]:
    """One label below the other, with a remark two columns on beside some of their lines."""
    rows: list[Sequence[str | None]] = [("These are ours. Love Mom",)]
    for label in LABELS:
        rows += [(None,), *((line, None, beside.get(line)) for line in label)]
    return rows


def test_remarks_beside_labels_are_notes_of_their_households(tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    beside = {"Ms. Odile Wexcombe": "a must", "120 Quarry Road": "He moved in May, ask Odile"}
    for row in with_remarks(beside):
        book.worksheets[0].append(list(row))
    book.save(tmp_path / "labels.xlsx")
    guests, findings = read_list(tmp_path / "labels.xlsx", {})
    assert doors(guests) == DOORS
    keys = {home.people[0].family: home.key for home in guests.households}
    told = {each.household: each for each in findings if each.quoted in beside.values()}
    assert {key: each.quoted for key, each in told.items()} == {
        keys["Wexcombe"]: "a must",
        keys["Farrenby"]: "He moved in May, ask Odile",
    }
    assert [told[keys[name]].where.cell for name in ("Wexcombe", "Farrenby")] == ["C7", "C17"]


def test_words_beside_each_line_of_a_label_are_no_remarks(tmp_path: Path) -> None:
    rows = with_remarks({line: "and Maren Lind" for label in LABELS for line in label})
    assert doors(read(tmp_path / "labels.csv", rows)) != DOORS


def test_a_sheet_of_addresses_without_names_that_can_be_told_is_a_question(tmp_path: Path) -> None:
    """What isn't read must not be lost in a note."""
    book = openpyxl.Workbook()
    book.worksheets[0].append(["Name", "Street", "City", "State", "ZIP"])
    book.worksheets[0].append(["Ms. Odile Wexcombe", "9 Mill Row", "Bar Harbor", "ME", "04609"])
    said = (("hers", "{}"), ("sums", "so many"), ("notes", "7 has moved to {}, Bath ME 04530"))
    for title, cell in said:
        sheet = book.create_sheet(title)
        for street in ("14 Larkmoor Lane", "22 Orchard Ave", "120 Quarry Road"):
            sheet.append([cell.format(street), None, "?"])
    book.save(tmp_path / "list.xlsx")
    _, findings = read_list(tmp_path / "list.xlsx", {})
    found = [each for each in findings if each.code == "sheet-not-read"]
    assert {(each.where.sheet, each.severity) for each in found} == {
        ("hers", Severity.ASK),
        ("sums", Severity.NOTE),
        ("notes", Severity.NOTE),
    }


def test_words_beside_the_labels_that_may_be_guests_keep_it_from_being_read_so(
    tmp_path: Path,
) -> None:
    rows = [[*row, "and Maren Lind"] for row in side_by_side(1)]
    try:
        guests = read(tmp_path / "labels.csv", rows)
    except Fault:
        return
    assert doors(guests) != DOORS


def test_a_table_without_a_header_is_no_sheet_of_labels(tmp_path: Path) -> None:
    rows = [(label[0], label[1], label[-1]) for label in LABELS]
    guests = read(tmp_path / "table.csv", rows)
    assert [column.meaning for column in guests.columns] == ["name", "street", "place"]
    assert doors(guests) == DOORS


SMALL = (
    ("Mr. Tobias Penhew", "14 Larkmoor Lane", "Litchfield, CT 06759"),
    ("Ms. Odile Wexcombe", "9 Mill Row", "Bar Harbor, ME 04609"),
    ("The Ruddocks", "you know where we live"),
    ("Dr. Bram Farrenby", "NOT the cousin", "120 Quarry Road", "Duluth, MN 55802"),
    ("Mr. and Mrs. Kit Orr", "you know this one!"),
    ("Ms. Ida Quince", "8 Elm Row", "Taos, NM 87571"),
)


@pytest.mark.parametrize("gap", [0, 1])
@pytest.mark.parametrize("title", [[], [["Family side"]]])
def test_labels_in_rows_are_read_though_several_have_no_address(
    tmp_path: Path, gap: int, title: list[list[str]]
) -> None:
    rows: list[list[str]] = [*title]
    for labels in (SMALL[:3], SMALL[3:]):
        rows += [
            [text for cell in line for text in (cell, *[""] * gap)]
            for line in zip_longest(*labels, fillvalue="")
        ]
        rows.append([""])
    path = tmp_path / "labels.csv"
    with path.open("w", encoding="utf-8", newline="") as stream:
        csv.writer(stream).writerows(rows)
    guests, findings = read_list(path, {})
    assert [home.name for home in guests.households] == [
        "Tobias Penhew", "Odile Wexcombe", "The Ruddocks", "Bram Farrenby", "Kit Orr", "Ida Quince",
    ]  # fmt: skip
    keys = {home.key: home.name for home in guests.households}
    held = {keys[f.household or ""]: f.code for f in findings if f.holds}
    assert held == {
        "The Ruddocks": "address-missing",
        "Bram Farrenby": "address-doubtful",
        "Kit Orr": "address-missing",
    }
    bram = guests.households[3].address
    assert bram is not None
    assert bram.recipient_extra is None
    assert all(found.code != "lines-not-read" for found in findings)


def test_columns_in_which_few_cells_are_labels_are_none(tmp_path: Path) -> None:
    rows = [["Florist", "Petal Works"], ["Budget", "4,000"], ["14 Elm St", "9 Elm St"],
            ["Duluth, MN 55802", "Taos, NM 87571"], ["", ""], ["Cake", "Band"],
            ["ordered", "asked"], ["paid", "deposit"], ["", ""], ["Car", "Tent"],
            ["green", "blue"], ["Kit drives", "40 x 60"]]  # fmt: skip
    path = tmp_path / "labels.csv"
    with path.open("w", encoding="utf-8", newline="") as stream:
        csv.writer(stream).writerows(rows)
    assert read_labels(read_textfile(open_list(path))[0][0]) is None
