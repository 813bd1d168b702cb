"""Old sheets beside the list: nobody of them is invited, but what only they tell isn't lost."""

from pathlib import Path

import pytest
from openpyxl import Workbook

from addressing.guestlist import read_list
from addressing.records.findings import Finding
from addressing.tables import table

HEADER = ("Name", "Address")
OLD = (
    ("Mr. Tobias Penhew", "14 Larkmoor Lane, Litchfield, CT 06759"),
    ("Ms. Wren Lorne", "9 Mill Row, Duluth, MN 55802"),
    ("Mr. and Mrs. Corwin Grayling", "66 Cobbler Green, Concord, NH 03301"),
)
ROWS = table("row_words")


def read(
    folder: Path, *rows: tuple[str, str], sheet: str = "OLD v3"
) -> tuple[list[str], list[Finding]]:
    """The households of a list beside an old sheet, and the findings."""
    book = Workbook()
    guests = book.active
    assert guests is not None
    guests.title = "Everybody"
    for row in (HEADER, *rows):
        guests.append(row)
    old = book.create_sheet(sheet)
    for row in (HEADER, *OLD):
        old.append(row)
    book.save(folder / "list.xlsx")
    guest_list, findings = read_list(folder / "list.xlsx", {})
    return [home.name for home in guest_list.households], list(findings)


@pytest.mark.parametrize(
    "row", [r for r in ROWS if r["kind"] in ("sheet-old", "sheet-plain")], ids=lambda r: r["word"]
)
def test_a_sheet_is_old_by_its_name_and_nobody_of_it_is_set(
    tmp_path: Path, row: dict[str, str]
) -> None:
    one = ("Mr. Kit Orr", "5 Harbor Steps, Portland, OR 97205")
    homes, findings = read(tmp_path, one, sheet=row["example"])
    assert homes == ["Kit Orr"]
    assert "sheet-aside" in {each.code for each in findings}
    if row["counter_example"]:
        assert len(read(tmp_path, one, sheet=row["counter_example"])[0]) == len(OLD) + 1


def test_the_question_about_it_names_who_stands_only_there(tmp_path: Path) -> None:
    here = (("Ms. Wren Lorne", "5 Harbor Steps, Portland, OR 97205"), ("Tobias Penhew", ""))
    asked = next(each for each in read(tmp_path, *here)[1] if each.code == "sheet-aside")
    assert asked.quoted == "Corwin Grayling"
    assert "Corwin Grayling" in asked.text


def test_an_address_that_only_it_has_is_proposed_and_not_set(tmp_path: Path) -> None:
    here = (("Ms. Kit Orr", "5 Harbor Steps, Portland, OR 97205"), ("Mr. Tobias Penhew", ""))
    asked = next(each for each in read(tmp_path, *here)[1] if each.code == "address-missing")
    assert asked.likely == (("lines", "14 Larkmoor Lane, Litchfield, CT, 06759"),)
    assert asked.holds


def test_nothing_old_is_proposed_for_who_has_moved(tmp_path: Path) -> None:
    here = (
        ("Ms. Kit Orr", "5 Harbor Steps, Portland, OR 97205"),
        ("Mr. Tobias Penhew", "moved!! ask Judy"),
    )
    asked = next(each for each in read(tmp_path, *here)[1] if each.code == "address-missing")
    assert asked.likely == ()


def test_an_old_address_beside_one_of_the_list_is_no_question(tmp_path: Path) -> None:
    here = (("Mr. Tobias Penhew", "5 Harbor Steps, Portland, OR 97205"),)
    assert {each.code for each in read(tmp_path, *here)[1]} == {"sheet-aside"}
