"""Lists of a size that no wedding has: read in steps that grow with them, or said to be too much.

Each of these took a time that grew with the square of its size; what is counted here is what grew.
"""

import csv
import gc
from collections import Counter
from collections.abc import Callable, Sequence
from pathlib import Path

import openpyxl
import pytest

from addressing.guestlist import read_list
from addressing.guestlist.files.drafts import SheetDraft
from addressing.guestlist.files.mail_lines import is_letter
from addressing.guestlist.files.sheet_part import SheetPart
from addressing.guestlist.grid import PackedCells, Row, Table
from addressing.guestlist.rows import ditto
from addressing.guestlist.tables import claims
from addressing.records.findings import Finding
from addressing.records.guests import GuestList

Read = Callable[[Sequence[Sequence[str]]], tuple[GuestList, tuple[Finding, ...]]]

HERE = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")
NOWHERE = ("", "", "", "")
MANY = 300


@pytest.fixture
def read(tmp_path: Path) -> Read:
    def reading(rows: Sequence[Sequence[str]]) -> tuple[GuestList, tuple[Finding, ...]]:
        path = tmp_path / "list.csv"
        with path.open("w", encoding="utf-8", newline="") as stream:
            csv.writer(stream).writerows([("Name", "Street", "City", "State", "ZIP"), *rows])
        return read_list(path, {})

    return reading


def given(number: int) -> str:
    """Names that differ in one letter: each may be the other misspelt."""
    return f"Berta{chr(97 + number % 26)}{chr(97 + number // 26)}"


def test_a_household_of_hundreds_is_one_question_and_not_one_for_each_pair(read: Read) -> None:
    guests, findings = read([(f"{given(n)} Wexcombe", *HERE) for n in range(MANY)])
    assert len(guests.households) == 1
    assert [each.code for each in findings if each.code == "same-door"] == ["same-door"]
    assert len(findings) < 10


def test_in_a_crowd_at_one_door_a_household_is_held_against_its_neighbours_only(
    read: Read,
) -> None:
    rows = [(f"Mr. and Mrs. {given(n)} Wexcombe", *HERE) for n in range(MANY)]
    guests, findings = read(rows)
    assert len(guests.households) == MANY
    doubles = Counter(each.code for each in findings)["duplicate-probable"]
    assert MANY <= doubles <= 4 * MANY


def test_rows_that_are_the_same_as_another_look_their_words_up_once(
    read: Read, monkeypatch: pytest.MonkeyPatch
) -> None:
    looked_at: list[int] = []
    words = ditto._name_words  # noqa: SLF001 - what is looked up can't be seen from outside

    def counted(table: Table, row: Row) -> set[str]:
        looked_at.append(row.number)
        return words(table, row)

    monkeypatch.setattr(ditto, "_name_words", counted)
    others = [(f"{given(n)} Penhew", "same as Tobias", *NOWHERE[1:]) for n in range(MANY)]
    guests, _ = read([("Tobias Wexcombe", *HERE), *others])
    assert {h.address.city.text for h in guests.households if h.address and h.address.city} == {
        "Litchfield"
    }
    assert looked_at == [2]


def test_a_cell_of_a_chapter_holds_its_household_and_prints_nothing(read: Read) -> None:
    guests, findings = read([("Odile Penhew " * 200, *HERE), ("Mr. Tobias Wexcombe", *HERE)])
    long = next(home for home in guests.households if not home.people)
    assert long.label is None
    assert {each.code for each in findings if each.household == long.key and each.holds} >= {
        "cell-too-long"
    }


def test_a_column_repeated_to_the_sheets_end_is_numbered_without_counting_from_one_again(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    asked: list[tuple[str, int]] = []

    class Holders(dict[tuple[str, int], claims.Draft]):
        def __contains__(self, key: object) -> bool:
            asked.append(key)  # type: ignore[arg-type]
            return super().__contains__(key)

    drafts = [claims.Draft(index, "First Name", {"word": 1.0}) for index in range(MANY)]
    for draft in drafts:
        claims.claim(draft, {})
    monkeypatch.setattr(claims, "Holders", Holders)
    assert claims.settle_claims(drafts) == []
    assert [draft.hit.ordinal for draft in drafts if draft.hit] == list(range(1, MANY + 1))
    assert len(asked) <= 4 * MANY


def test_a_read_workbook_keeps_nothing_of_its_sheets(tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    for row in (("Name", "Street", "City", "State", "ZIP"), ("Mr. Tobias Wexcombe", *HERE)):
        book.worksheets[0].append(row)
    book.save(tmp_path / "list.xlsx")
    gc.collect()
    gc.disable()  # as while a list is read: what only a search for cycles finds stays
    try:
        guests, _ = read_list(tmp_path / "list.xlsx", {})
        left = [x for x in gc.get_objects() if isinstance(x, SheetDraft | SheetPart | PackedCells)]
    finally:
        gc.enable()
    assert guests.rows == 1
    assert left == []


LETTERS = [
    "Hi! Here is our address: Tobias and Gwen Penhew, 9 Mill Row, Litchfield, CT 06759. Thanks!",
    "Hi Odile,\nour address is\nTobias and Gwen Penhew\n9 Mill Row\nLitchfield, CT 06759\nGwen",
    "Hello dear, we have moved to 9 Mill Row, Litchfield, CT 06759. Can't wait!",
    "Dear Odile, please send it to 9 Mill Row, Litchfield, CT 06759. Love, Gwen",
]
NO_LETTERS = [
    "Hilda Penhew and her sister who is called Hi, 9 Mill Row, Litchfield CT",
    "Dearborn Hall, the Larkmoor Home where she is, 9 Mill Row, the blue door",
]


@pytest.mark.parametrize("column", [0, 1])
@pytest.mark.parametrize("text", LETTERS)
def test_a_whole_mail_in_a_cell_is_not_read_and_holds(
    read_rows: Callable[..., tuple[GuestList, tuple[Finding, ...]]], column: int, text: str
) -> None:
    row = ["Ms. Gwen Penhew", "14 Larkmoor Lane", "Litchfield", "CT", "06759"]
    row[column] = text
    rows = (("Name", "Street", "City", "State", "ZIP"), tuple(row), CLEAN_ROW)
    guest_list, findings = read_rows(rows)
    told = [found for found in findings if found.code == "cell-too-long"]
    assert [found.where.cell for found in told] == ["AB"[column] + "2"]
    assert "A mail stands here" in told[0].text
    assert told[0].holds
    assert len(guest_list.households) == 2


@pytest.mark.parametrize("text", NO_LETTERS)
def test_a_long_cell_that_greets_nobody_is_no_mail(text: str) -> None:
    assert not is_letter(text)


CLEAN_ROW = ("Dr. Ingrid Halvorsby", "1440 Birchbark Trail", "Duluth", "MN", "55802")
