"""Lists laid out in ways that people lay them out: headings, side by side, seating plans."""

import csv
from collections.abc import Callable
from pathlib import Path

import pytest
from openpyxl.workbook import Workbook

from addressing.guestlist import read_list
from addressing.guestlist.grid import Grid, Table
from addressing.guestlist.tables.contents import kind_of_text
from addressing.guestlist.tables.headers import find_tables
from addressing.guestlist.tables.totals import REMARK, is_remark
from addressing.records.findings import Severity
from addressing.tables import table

ReadRows = Callable[..., tuple[Grid, ...]]
HEADER = ["Name", "Street", "City", "State", "Zip"]
ADDRESS = ["12 Larkmoor Lane", "Penhew", "ME", "04496"]


def numbers(found: Table) -> list[int]:
    return [row.number for row in found.rows]


def test_headings_between_the_guests_are_no_guests(grids_of: ReadRows) -> None:
    def merge(book: Workbook) -> None:
        book.worksheets[0].merge_cells("A6:E6")

    rows = [
        HEADER,
        ["BRIDE'S FAMILY"],
        ["Tobias Penhew", *ADDRESS],
        ["Mum and Dad"],
        ["Groom's friends"],
        ["Those from the harbour"],
        ["The Vale Family", *ADDRESS],
    ]
    (found,), unused, _ = find_tables(grids_of(rows, merge), {})
    assert numbers(found) == [3, 4, 7]
    assert [(row.row, row.why) for row in unused] == [
        (2, "a heading"),
        (5, "a heading"),
        (6, "a heading"),
    ]


def test_empty_check_boxes_are_no_guests(grids_of: ReadRows) -> None:
    rows = [["Name", "City", "RSVP"], ["Tobias Penhew", "Penhew", True], [None, None, False]]
    (found,), unused, _ = find_tables(grids_of(rows), {})
    assert numbers(found) == [2]
    assert [(row.row, row.why) for row in unused] == [(3, "check boxes only")]


def test_a_row_with_a_childs_name_alone_is_handed_on(grids_of: ReadRows) -> None:
    rows = [
        ["Household", "Name", "Kids", "Address"],
        [1, "Tobias Penhew", None, "12 Larkmoor Lane, Penhew, ME 04496"],
        [1, None, "Poppy (7)", None],
        [2, None, "no", None],
    ]
    (found,), unused, _ = find_tables(grids_of(rows), {})
    assert numbers(found) == [2, 3]
    assert [row.row for row in unused] == [4]


def test_two_lists_side_by_side_are_two_tables(grids_of: ReadRows) -> None:
    rows = [
        ["Hers", None, None, None, None, None, "His"],
        [*HEADER, None, *HEADER],
        ["Tobias Penhew", *ADDRESS, None, "Bea Vale", *ADDRESS],
        ["Ann Farrenby", *ADDRESS],
    ]
    (left, right), unused, findings = find_tables(grids_of(rows), {})
    assert (numbers(left), numbers(right)) == ([3, 4], [3])
    assert [column.letters for column in right.columns] == list("GHIJK")
    cell = right.rows[0].cell(6)
    assert cell is not None
    assert (cell.text, right.rows[0].cell(0)) == ("Bea Vale", None)
    assert (unused, findings) == ((), ())


def test_a_seating_plan_is_not_a_second_list(grids_of: ReadRows) -> None:
    def seat(book: Workbook) -> None:
        plan = book.create_sheet("Seating")
        for row in (
            ["Table", "Guest"],
            [1, "Penhew, Tobias"],
            [2, "Bea Vale"],
            [2, "Ida Wexcombe"],
        ):
            plan.append(row)

    rows = [HEADER, ["Tobias Penhew", *ADDRESS], ["Bea Vale", *ADDRESS]]
    (found,), _, (question,) = find_tables(grids_of(rows, seat), {})
    assert numbers(found) == [2, 3]
    assert (question.code, question.severity) == ("sheet-not-read", Severity.ASK)
    assert "Ida Wexcombe" in question.text
    assert str(question.also[0]) == "Seating!B4"


def test_names_without_addresses_on_a_sheet_of_their_own_are_read(grids_of: ReadRows) -> None:
    def add(book: Workbook) -> None:
        late = book.create_sheet("By hand")
        for row in (["Name"], ["Ida Wexcombe"], ["Alaric Thorne"]):
            late.append(row)

    tables, _, findings = find_tables(grids_of([HEADER, ["Bea Vale", *ADDRESS]], add), {})
    assert [numbers(found) for found in tables] == [[2], [2, 3]]
    assert findings == ()


def test_guests_above_the_header_are_asked_about(grids_of: ReadRows) -> None:
    rows = [["Ida Penhew", *ADDRESS], HEADER, ["Tobias Penhew", *ADDRESS]]
    (found,), _, (question,) = find_tables(grids_of(rows), {})
    assert (found.header_row, numbers(found)) == (2, [3])
    assert (question.code, str(question.where)) == ("rows-above-header", "Guests!A1")


def test_a_companions_word_in_a_list_without_header_is_no_header(grids_of: ReadRows) -> None:
    rows = [["Tobias Penhew", "guest"], ["Bea Vale", "guest"]]
    (found,), _, _ = find_tables(grids_of(rows), {})
    assert (found.header_row, numbers(found)) == (0, [1, 2])


def test_a_small_table_without_names_below_the_list_is_not_read(grids_of: ReadRows) -> None:
    rows = [HEADER, ["Bea Vale", *ADDRESS], [], ["State", "Count"], ["ME", 1]]
    (found,), unused, _ = find_tables(grids_of(rows), {})
    assert numbers(found) == [2]
    assert [row.row for row in unused] == [4, 5]


def test_names_in_a_column_that_is_not_used_are_asked_about(grids_of: ReadRows) -> None:
    rows = [["Name", "Zu", "Address"], ["Bea Vale", "Ida Wexcombe", "12 Larkmoor Lane"]]
    _, _, (question,) = find_tables(grids_of(rows), {})
    assert (question.code, question.severity) == ("column-unknown", Severity.ASK)


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("04496", "postcode"),
        ("04496-1234", "postcode"),
        ("SW1A 1AA", "postcode"),
        ("K1A 0B1", "postcode"),
        ("2", "number"),
        ("Maine", "region"),
        ("555 0100 123", "phone"),
        ("bea@example.org", "email"),
        ("12 Larkmoor Lane", "street"),
        ("12-14B Larkmoor Lane", "street"),
        ("P.O. Box 12", "street"),
        ("Lerchenweg 12", "street"),
        ("12 Larkmoor Lane, Penhew, ME 04496", "address"),
        ("12 Larkmoor Lane\nPenhew ME 04496", "address"),
        ("Penhew, ME 04496", "place"),
        ("80331 Farrenby", "place"),
        ("Mr. and Mrs. Tobias Penhew", "name"),
        ("The Wexcombe Family", "name"),
        ("Penhew", "word"),
        ("yes", "mark"),
    ],
)
def test_a_cell_looks_like(text: str, kind: str) -> None:
    assert kind_of_text(text) == kind


ROWS = [row for row in table("row_words") if row["kind"] in ("remark", "nobody")]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['kind']}: {row['word']}")
def test_a_line_alone_that_speaks_of_the_list_is_no_guest(row: dict[str, str]) -> None:
    assert is_remark(row["example"])
    assert not is_remark(row["counter_example"])


@pytest.mark.parametrize(
    "text",
    ["Hugh Carrow", "Hugh Carrow and his wife", "Hugh Carrow is moving", "Hugh", "Mom & Dad",
     "Hugh Carrow - need address", "Aunt Ada and all the kids", "Hugh and his brother Ned",
     "The Carrow Family", "van der Wexcombe", "Wexcombe, Tobias & Odile"],
)  # fmt: skip
def test_a_line_alone_that_may_name_a_guest_is_no_remark(text: str) -> None:
    assert not is_remark(text)


def test_remarks_below_the_guests_are_listed_as_not_used_and_kept_with_their_cells(
    grids_of: ReadRows,
) -> None:
    rows = [
        HEADER,
        ["Tobias Penhew", *ADDRESS],
        ["Mom's list"],
        ["Odile Farrenby", *ADDRESS],
        ["Odile's family"],
        ["Mom says no more than 120"],
        ["** still waiting on the band"],
        ["no name"],
        ["Hugh Carrow needs an address"],
    ]
    (found,), unused, _ = find_tables(grids_of(rows), {})
    assert numbers(found) == [2, 4, 5, 9]
    assert [(row.row, row.why) for row in unused] == [
        (3, "a heading"), (6, REMARK), (7, REMARK), (8, REMARK),
    ]  # fmt: skip
    assert [(said.text, said.cells[0].cell) for said in found.aside] == [
        ("Mom says no more than 120", "A6"), ("** still waiting on the band", "A7"),
        ("no name", "A8"),
    ]  # fmt: skip


def test_two_tables_side_by_side_are_two_though_one_calls_its_names_guest(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_text(
        "Guest,Street,City,State,ZIP,,Addressee,Address,Town,ST,Zip Code\n"
        "Mr. Tobias Penhew,14 Larkmoor Lane,Litchfield,CT,06759,,"
        "Dr. Bram Farrenby,120 Quarry Road,Duluth,MN,55802\n",
        encoding="utf-8",
    )
    guests, _ = read_list(path, {})
    assert [home.name for home in guests.households] == ["Tobias Penhew", "Bram Farrenby"]


def test_a_column_of_addresses_on_lines_of_their_own_is_no_column_of_notes(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    blocks = ("PSC 473 Box 12\nFPO AP 96349", "c/o Hale & Partners\n9 Mill Row\nTaos NM 87571",
              "Dlouhá 12\n110 00 Praha 1\nCzech Republic")  # fmt: skip
    with path.open("w", encoding="utf-8", newline="") as stream:
        names = ("Mr. Tobias Penhew", "Ms. Odile Wexcombe", "Dr. Bram Farrenby")
        csv.writer(stream).writerows([("Name", "Post goes here"), *zip(names, blocks, strict=True)])
    guests, _ = read_list(path, {})
    assert [column.meaning for column in guests.columns] == ["name", "address"]


SHEETS = [row for row in table("row_words") if row["kind"] == "sheet-aside"]


@pytest.mark.parametrize("row", SHEETS, ids=lambda row: row["example"])
def test_a_sheet_of_vendors_or_of_an_old_list_is_left_aside_and_asked_about(
    row: dict[str, str], grids_of: ReadRows
) -> None:
    def more(book: Workbook) -> None:
        for name in filter(None, (row["example"], row["counter_example"])):
            page = book.create_sheet(name)
            page.append(HEADER)
            page.append(["Odile Penhew", *ADDRESS])

    tables, _, findings = find_tables(grids_of([HEADER, ["Tobias Penhew", *ADDRESS]], more), {})
    (asked,) = (found for found in findings if found.code == "sheet-aside")
    assert asked.where.sheet == row["example"]
    read = {found.sheet for found in tables}
    assert row["example"] not in read
    assert not row["counter_example"] or row["counter_example"] in read


def test_a_list_whose_only_sheet_has_such_a_name_is_read(grids_of: ReadRows) -> None:
    def renamed(book: Workbook) -> None:
        book.worksheets[0].title = "Old list"

    (found,), _, findings = find_tables(
        grids_of([HEADER, ["Tobias Penhew", *ADDRESS]], renamed), {}
    )
    assert numbers(found) == [2]
    assert "sheet-aside" not in {each.code for each in findings}


ROUNDS = [row for row in table("row_words") if row["kind"] == "sheet-wave"]


@pytest.mark.parametrize("row", ROUNDS, ids=lambda row: row["example"])
def test_a_sheet_named_as_a_later_round_makes_every_sheet_a_round(
    row: dict[str, str], grids_of: ReadRows
) -> None:
    def rounds(name: str) -> list[str | None]:
        def more(book: Workbook) -> None:
            page = book.create_sheet(name)
            page.append(HEADER)
            page.append(["Odile Penhew", *ADDRESS])

        rows = [HEADER, ["Tobias Penhew", *ADDRESS]]
        tables, _, _ = find_tables(grids_of(rows, more), {})
        return [found.wave.text if found.wave else None for found in tables]

    first, second = rounds(row["example"])
    assert (first is not None, second) == (True, row["example"])
    assert rounds(row["counter_example"]) == [None, None]
