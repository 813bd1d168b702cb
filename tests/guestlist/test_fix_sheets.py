"""A sheet of corrections beside the guests: whom it names is asked about, whom it adds is read."""

from pathlib import Path

import pytest
from openpyxl import Workbook
from openpyxl.styles import Font

from addressing.guestlist import read_list
from addressing.guestlist.households.corrected import is_done
from addressing.records.findings import Finding
from addressing.records.guests import GuestList
from addressing.tables import table

GUESTS = [
    ("Name", "Address"),
    ("Mr. and Mrs. Tobias Penhew", "41 Larkmoor Lane, Litchfield, CT 06759"),
    ("Mr. Corwin Grayling and Ms. Wren Lorne", "9 Mill Row, Duluth, MN 55802"),
    ("Ms. Ottoline Tolland", "66 Cobbler Green, Concord, NH 03301"),
]
ROWS = table("row_words")


def read(
    folder: Path, *rows: str | tuple[str, ...], sheet: str = "Fixes"
) -> tuple[GuestList, list[Finding]]:
    """The guests with another sheet, each row a text or several."""
    book = Workbook()
    guests = book.active
    assert guests is not None
    guests.title = "Guests"
    for row in GUESTS:
        guests.append(row)
    other = book.create_sheet(sheet)
    for each in rows:
        other.append([each] if isinstance(each, str) else each)
    path = folder / "list.xlsx"
    book.save(path)
    guest_list, findings = read_list(path, {})
    return guest_list, list(findings)


def asked(found: tuple[GuestList, list[Finding]]) -> list[tuple[str, str]]:
    """(household's name, words quoted) of what the sheet asks."""
    names = {home.key: home.name for home in found[0].households}
    told = [each for each in found[1] if each.code in ("said-elsewhere", "apart-noted")]
    return [(names[each.household or ""], each.quoted) for each in told]


@pytest.mark.parametrize(
    ("line", "home"),
    [
        ("Penhews: house no. is 14 not 41", "Tobias Penhew"),
        ("Corwin and that Wren are finished. Just him", "Corwin Grayling"),
        ("Take off the Tollands. -> NO. Kit says they stay", "Ottoline Tolland"),
        ("Wren's name: I have Lorn, he has Lorne. One of us is wrong", "Corwin Grayling"),
    ],
)
def test_a_line_holds_the_household_that_it_names_and_is_quoted(
    tmp_path: Path, line: str, home: str
) -> None:
    found = read(tmp_path, "FIXES - these count", line)
    assert asked(found) == [(home, line)]
    assert all(each.holds for each in found[1] if each.code == "said-elsewhere")


def test_the_cells_of_a_row_are_one_remark_and_its_header_is_none(tmp_path: Path) -> None:
    rows = (("Name", "Fix"), ("Penhew", "house no. is 14"))
    found = read(tmp_path, *rows, sheet="Corrections")
    assert asked(found) == [("Tobias Penhew", "Penhew – house no. is 14")]
    assert [each.code for each in found[1] if "open" in each.code] == []


@pytest.mark.parametrize("row", [r for r in ROWS if r["kind"] == "sheet-fixes"], ids=str)
def test_a_sheet_is_known_by_its_name(tmp_path: Path, row: dict[str, str]) -> None:
    line, plain = "Penhews: house no. is 14 not 41", ("order envelopes", "ribbon", "wax", "stamps")
    found = read(tmp_path, line, *plain, sheet=row["example"])
    assert asked(found) == [("Tobias Penhew", line)]
    other = read(tmp_path, *plain, line, sheet=row["counter_example"] or "Seating")
    assert "corrections-read" not in {each.code for each in other[1]}
    assert asked(other) == [("Tobias Penhew", line)]


def test_a_sheet_of_remarks_is_one_of_corrections_whatever_its_name(tmp_path: Path) -> None:
    block = ("Mr. Kit Orr", "5 Harbor Steps", "Portland, OR 97205")
    lines = ("Notes from Mom", "Penhews: no kids", "Corwin is bringing his niece", *block)
    found = read(tmp_path, *lines, "Uncle Fred too", sheet="Sheet2")
    assert asked(found) == [("Tobias Penhew", lines[1]), ("Corwin Grayling", lines[2])]
    assert [home.name for home in found[0].households][-1] == "Kit Orr"
    (left,) = [each for each in found[1] if each.code == "corrections-open"]
    assert left.quoted == "“Uncle Fred too”"


def test_a_sheet_of_names_and_addresses_is_a_list_whatever_its_name(tmp_path: Path) -> None:
    rows = (("Name", "Address"), ("Mr. Kit Orr", "5 Harbor Steps, Portland, OR 97205"))
    found = read(tmp_path, *rows, sheet="Additions")
    assert [home.name for home in found[0].households][-1] == "Kit Orr"
    assert asked(found) == []


@pytest.mark.parametrize("row", [r for r in ROWS if r["kind"] == "fix-add"], ids=str)
def test_a_line_adds_a_household(tmp_path: Path, row: dict[str, str]) -> None:
    line = row["example"].replace("Tobias Penhew", "Kit Farrenby")
    homes = read(tmp_path, line)[0].households
    assert [home.name for home in homes][3:] == ["Kit Farrenby"]
    assert homes[-1].address is not None
    if row["counter_example"]:
        line = row["counter_example"].replace("Tobias Penhew", "Kit Farrenby")
        found = read(tmp_path, line)
        assert len(found[0].households) == len(GUESTS) - 1
        assert line in next(each.text for each in found[1] if each.code == "corrections-open")


def test_who_is_added_is_asked_nothing_of_the_same_line(tmp_path: Path) -> None:
    line = "ADD Miss Una Farrenby, my old teacher, 6 Ivy Ct., Peterborough, NH 03458"
    found = read(tmp_path, line)
    assert asked(found) == []
    assert [home.name for home in found[0].households][3:] == ["Una Farrenby"]


def test_nobody_who_is_added_without_an_address_is_lost(tmp_path: Path) -> None:
    lines = ("add the Farrenbys (Kit and Odo)", "his mother is not coming")
    found = read(tmp_path, *lines)[1]
    told = next(each for each in found if each.code == "corrections-open")
    assert all(line in told.text for line in lines)


@pytest.mark.parametrize("row", [r for r in ROWS if r["kind"] == "fix-done"], ids=str)
def test_what_is_done_is_told_and_not_asked(tmp_path: Path, row: dict[str, str]) -> None:
    assert is_done(row["example"])
    assert not is_done(row["counter_example"])
    line = row["example"].replace("Odile", "Ottoline")
    found = read(tmp_path, line)
    assert asked(found) == []
    assert line in [each.quoted for each in found[1] if each.code == "remark"]


def test_a_line_that_is_struck_through_is_done(tmp_path: Path) -> None:
    book = Workbook()
    guests = book.active
    assert guests is not None
    for row in GUESTS:
        guests.append(row)
    fixes = book.create_sheet("Fixes")
    fixes.append(["Penhews: house no. is 14 not 41"])
    fixes["A1"].font = Font(strike=True)
    fixes.append(["Tollands moved"])
    book.save(tmp_path / "list.xlsx")
    guest_list, findings = read_list(tmp_path / "list.xlsx", {})
    assert asked((guest_list, list(findings))) == [("Ottoline Tolland", "Tollands moved")]


_SWAPS = [r for r in ROWS if r["kind"] in ("fix-new-first", "fix-old-first")]


@pytest.mark.parametrize("row", _SWAPS, ids=str)
def test_a_number_in_place_of_the_lists_is_proposed(tmp_path: Path, row: dict[str, str]) -> None:
    found = read(tmp_path, f"Penhews: {row['example']}")[1]
    made = next(each for each in found if each.code == "said-elsewhere")
    assert made.likely == (("street", "14 Larkmoor Lane"),)
    if row["counter_example"]:
        found = read(tmp_path, f"Penhews: {row['counter_example']}")[1]
        assert next(each for each in found if each.code == "said-elsewhere").likely == ()


def test_rows_read_and_rows_set_aside_are_all_that_the_sheet_has(tmp_path: Path) -> None:
    lines = ("Tollands moved", "ADD Mr. Kit Orr, 5 Harbor Steps, Portland, OR 97205", "call me")
    guest_list, _ = read(tmp_path, *lines)
    aside = [row.row for row in guest_list.unused if row.sheet == "Fixes"]
    assert aside == [1, 3]


@pytest.mark.parametrize(
    ("line", "homes"),
    [
        ("The Penhews have moved to Maine.", ["Tobias Penhew"]),
        ("“Guests” is ours, and the Penhews wrote it.", []),
        ("Yellow is new since May.", []),
    ],
)
def test_a_sheet_of_remarks_holds_whom_its_sentences_name(
    tmp_path: Path, line: str, homes: list[str]
) -> None:
    found = read(tmp_path, "Please read", "Call me after four.", line, sheet="Read first")
    assert [name for name, _ in asked(found)] == homes
    (left,) = [each for each in found[1] if each.holds is False and "Call me" in each.quoted]
    assert left.household is None


def test_the_note_on_the_sheet_says_by_name_whom_it_adds_and_asks_about(tmp_path: Path) -> None:
    rows = (
        "Penhews: house no. is 14 not 41",
        "Take off Ottoline Tolland",
        "Add Mr. Kit Orr, 5 Harbor Steps, Portland, OR 97205",
        "Wren with an e (done)",
    )
    found = read(tmp_path, *rows, sheet="Changes")
    (note,) = [each.text for each in found[1] if each.code == "corrections-read"]
    assert "4 lines. Added: Kit Orr. Asked about: Tobias Penhew, Ottoline Tolland." in note
    assert "Nothing follows for: Corwin Grayling." in note
