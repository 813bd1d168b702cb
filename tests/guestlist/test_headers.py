"""Where the header stands, what its columns mean, and that every row is accounted for."""

from collections.abc import Callable, Mapping
from pathlib import Path

import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl.workbook import Workbook

from addressing.faults import Exit, Fault
from addressing.guestlist.files.opening import open_list
from addressing.guestlist.files.workbook import read_workbook
from addressing.guestlist.grid import Cell, Grid, Row, Table
from addressing.guestlist.tables.headers import find_tables
from addressing.guestlist.tables.meanings import fold, meaning_of, meanings
from addressing.records.findings import Severity
from addressing.tables import table
from addressing.where import Where, cell_name

ReadRows = Callable[..., tuple[Grid, ...]]
ADDRESS = ["12 Larkmoor Lane", "Penhew", "ME", "04496"]


def grid_of(*rows: list[str], sheet: str = "Guests") -> Grid:
    """A grid of plain texts; "" is an empty cell, an empty list an empty row."""
    made = []
    for number, row in enumerate(rows, start=1):
        cells = tuple(
            Cell(text, Where("list.xlsx", sheet, cell_name(column, number))) if text else None
            for column, text in enumerate(row, start=1)
        )
        if any(cells):
            made.append(Row(sheet, number, cells))
    return Grid("list.xlsx", sheet, tuple(made))


def read_as(found: Table) -> dict[str, str]:
    """Letters → meaning, with the ordinal where it isn't 1."""
    return {
        c.letters: (c.meaning or "-") + (str(c.ordinal) if c.ordinal > 1 else "")
        for c in found.columns
    }


def one_table(*rows: list[str], pinned: Mapping[str, str] | None = None) -> Table:
    tables, _, _ = find_tables([grid_of(*rows)], pinned or {})
    (found,) = tables
    return found


# Headers as people write them; common practice, no source.
@pytest.mark.parametrize(
    ("header", "meaning", "ordinal"),
    [
        ("Guest(s)", "name", 1),
        ("Names", "name", 1),
        ("Name(s) on envelope", "name", 1),
        ("First Name", "given", 1),
        ("FirstName", "given", 1),
        ("last_name", "family", 1),
        ("Frist Name", "given", 1),
        ("Guest 1", "name", 1),
        ("Guest 2", "name", 2),
        ("Guest 2 First Name", "given", 2),
        ("Spouse's Last Name", "family", 2),
        ("Title 2", "title", 2),
        ("Plus One?", "guest", 1),
        ("+1", "guest", 1),
        ("Kids / +1", "children", 1),
        ("# invited", "invited_count", 1),
        ("how many", "invited_count", 1),
        ("Address", "address", 1),
        ("Mailing adress", "address", 1),
        ("Address line 1", "street", 1),
        ("Addr 2", "street2", 1),
        ("Apt/Suite", "unit", 1),
        ("Apt etc.", "unit", 1),
        ("Town", "city", 1),
        ("ST", "region", 1),
        ("State/Province", "region", 1),
        ("Zip", "postcode", 1),
        ("Zip/Postal Code", "postcode", 1),
        ("City, State ZIP", "place", 1),
        ("Country if not USA", "country", 1),
        ("With", "name", 2),
        ("Little ones", "children", 1),
        ("c/o", "extra", 1),
        ("Notes!!", "notes", 1),
        ("Whose?", "side", 1),
        ("Hand deliver?", "by_hand", 1),
        ("E-mail", "ignore", 1),
        ("Table #", "table", 1),
        ("Thank-you note sent", "ignore", 1),
        ("Straße", "street", 1),
        ("PLZ/Ort", "place", 1),
        ("Vorname", "given", 1),
        ("Prénom", "given", 1),
        ("Code postal", "postcode", 1),
        ("Apellidos", "family", 1),
        ("Città", "city", 1),
        ("Naam genodigde", "name", 1),
        ("Voornaam", "given", 1),
        ("Straat + huisnummer", "street", 1),
        ("Postcode & woonplaats", "place", 1),
        ("Opmerkingen", "notes", 1),
        ("Nome completo", "name", 1),
        ("Sobrenome", "family", 1),
        ("Endereço", "address", 1),
        ("CEP", "postcode", 1),
        ("Cidade", "city", 1),
        ("Winter Address", "season_address", 1),
        ("Winter Street", "season_street", 1),
        ("Summer ZIP code", "season_postcode", 2),
        ("Winter dates", "season_dates", 1),
        ("Winter address from", "season_from", 1),
        ("Summer until", "season_until", 2),
        ("Invitation type", "suite", 1),
    ],
)
def test_a_header_means(header: str, meaning: str, ordinal: int) -> None:
    hit = meaning_of(header)
    assert hit is not None
    assert (hit.meaning, hit.ordinal) == (meaning, ordinal)


# Two or more known words in one header; common practice, no source.
@pytest.mark.parametrize(
    ("header", "meaning", "also"),
    [
        ("RSVP / notes", "reply", "notes"),
        ("RSVP/Notes", "reply", "notes"),
        ("Notes / RSVP", "reply", "notes"),
        ("RSVP & Comments", "reply", "notes"),
        ("RSVP - notes", "reply", "notes"),
        ("RSVP notes", "reply", "notes"),
        ("Reply, message", "reply", "notes"),
        ("Attending (Y/N) + remarks", "reply", "notes"),
        ("Bemerkungen und Antwort", "reply", "notes"),
        ("Coming / how many", "reply", ""),
        ("Email / notes", "notes", ""),
        ("Side / notes", "notes", ""),
        ("Notes & whatnot", "notes", ""),
        ("Table / meal", "ignore", ""),
        ("Reply", "reply", ""),
        ("Response", "reply", ""),
        ("Coming?", "reply", ""),
        ("Declined?", "declined", ""),
        ("Not attending", "declined", ""),
        ("Anything we should know?", "notes", ""),
        ("Message", "notes", ""),
        ("Comments for the couple", "notes", ""),
        ("# inv.", "invited_count", ""),
        ("Rehearsal dinner", "elsewhere", ""),
    ],
)
def test_of_joined_words_the_one_that_says_who_is_invited_wins(
    header: str, meaning: str, also: str
) -> None:
    hit = meaning_of(header)
    assert hit is not None
    assert (hit.meaning, hit.also) == (meaning, also)


@pytest.mark.parametrize("header", ["Name / notes", "Notes and street", "Guest / whatnot"])
def test_notes_joined_with_a_name_or_a_place_are_told_by_the_cells(header: str) -> None:
    assert meaning_of(header) is None


@pytest.mark.parametrize("header", ["", "!!!", "Zu", "Fireworks", "Guest and address"])
def test_a_header_that_says_nothing_known_has_no_meaning(header: str) -> None:
    assert meaning_of(header) is None


def test_no_synonym_stands_under_two_meanings() -> None:
    seen: dict[str, str] = {}
    for row in table("headers"):
        if row["meaning"] not in meanings():
            continue
        for word in row["synonyms"].split(" | "):
            assert seen.setdefault(fold(word), row["meaning"]) == row["meaning"], word


def test_titles_and_empty_rows_above_the_header_are_no_rows(grids_of: ReadRows) -> None:
    grids = grids_of(
        [
            ["Imogen & Theo: guest list!"],
            ["last touched after the shower"],
            [],
            ["Guest(s)", "Address", "Town", "ST", "Zip"],
            ["Tobias Penhew", *ADDRESS],
            [],
            ["Annika Vale", *ADDRESS],
        ]
    )
    (found,), unused, findings = find_tables(grids, {})
    assert (found.header_row, [row.number for row in found.rows]) == (4, [5, 7])
    assert list(read_as(found).values()) == ["name", "street", "city", "region", "postcode"]
    assert (unused, findings) == ((), ())


def test_an_address_in_one_cell_is_a_whole_address() -> None:
    found = one_table(["Name", "Address"], ["Tobias Penhew", "12 Larkmoor Lane, Penhew, ME 04496"])
    assert read_as(found) == {"A": "name", "B": "address"}


def test_two_header_rows_are_joined(grids_of: ReadRows) -> None:
    def merge(book: Workbook) -> None:
        for area in ("A1:B1", "C1:D1", "E1:H1"):
            book.worksheets[0].merge_cells(area)

    grids = grids_of(
        [
            ["Guest 1", None, "Guest 2", None, "Address"],
            ["First", "Last", "First", "Last", "Street", "City", "State", "Zip"],
            ["Tobias", "Penhew", "Annika", "Vale", *ADDRESS],
        ],
        merge,
    )
    (found,), _, _ = find_tables(grids, {})
    assert list(read_as(found).values()) == [
        "given", "family", "given2", "family2", "street", "city", "region", "postcode",
    ]  # fmt: skip
    assert len(found.rows) == 1


def test_the_same_header_twice_is_the_second_persons() -> None:
    found = one_table(
        ["First Name", "Last Name", "Guest First Name", "Guest Last Name", "Address"],
        ["Tobias", "Penhew", "Annika", "Vale", "12 Larkmoor Lane, Penhew, ME 04496"],
    )
    assert list(read_as(found).values()) == ["given", "family", "given2", "family2", "address"]


def test_guest_is_a_companion_only_beside_a_name() -> None:
    with_name = one_table(["Name", "Guest", "City"], ["Tobias Penhew", "yes", "Penhew"])
    without = one_table(["Guest", "City"], ["Tobias Penhew", "Penhew"])
    assert read_as(with_name)["B"] == "guest"
    assert read_as(without)["A"] == "name"


def test_a_german_list_with_name_beside_vorname_has_surnames_there() -> None:
    found = one_table(
        ["Vorname", "Name", "Straße", "Hausnr.", "PLZ", "Ort"],
        ["Tobias", "Penhew", "Lerchenweg", "12", "04496", "Farrenby"],
    )
    assert list(read_as(found).values()) == [
        "given", "family", "street", "house_number", "postcode", "city",
    ]  # fmt: skip


def test_a_french_list_is_read() -> None:
    found = one_table(
        ["Nom", "Prénom", "Adresse", "Code postal", "Ville", "Pays"],
        ["Penhew", "Tobias", "12 rue des Alouettes", "04496", "Farrenby", "France"],
    )
    assert list(read_as(found).values()) == [
        "family", "given", "street", "postcode", "city", "country",
    ]  # fmt: skip


def test_a_dutch_list_is_read() -> None:
    found = one_table(
        ["Aanhef", "Voornaam", "Achternaam", "Adres", "Postcode", "Woonplaats", "Land"],
        ["De heer", "Tobias", "Wexcombe", "Larkmoorlaan 12", "1012 AB", "Amsterdam", "Nederland"],
    )
    meanings_found = ["title", "given", "family", "street", "postcode", "city", "country"]
    assert list(read_as(found).values()) == meanings_found


def test_a_portuguese_list_whose_nome_holds_full_names_is_read() -> None:
    found = one_table(
        ["Nome", "Rua", "Nº", "Complemento", "Cidade", "UF", "CEP"],
        ["Tobias Wexcombe", "Rua Larkmoor", "12", "Apto 4", "São Paulo", "SP", "01310-100"],
        ["Odile Farrenby", "Rua Quarry", "7", "", "São Paulo", "SP", "01310-200"],
    )
    meanings_found = ["name", "street", "house_number", "street2", "city", "region", "postcode"]
    assert list(read_as(found).values()) == meanings_found


def test_a_bare_number_is_a_house_number_only_behind_streets_without_one() -> None:
    apart = ["Name", "Straße", "Nr.", "PLZ", "Ort"]
    found = one_table(apart, ["Tobias Wexcombe", "Larkmoorweg", "12", "10115", "Berlin"])
    assert read_as(found)["C"] == "house_number"
    found = one_table(apart, ["Tobias Wexcombe", "Larkmoorweg 12", "1", "10115", "Berlin"])
    assert read_as(found)["C"] == "ignore"


def test_a_bare_number_before_streets_is_a_house_number_unless_it_counts_the_rows() -> None:
    header, area = ["Name", "No.", "Street", "City"], ["Litchfield"]
    doors = [["Bea Penhew", "14", "Larkmoor Lane"], ["Ludo Ashgrove", "9B", "Mill Row"]]
    counted = [["Bea Penhew", "1", "Larkmoor Lane"], ["Ludo Ashgrove", "2", "Mill Row"]]
    assert read_as(one_table(header, *(row + area for row in doors)))["B"] == "house_number"
    assert read_as(one_table(header, *(row + area for row in counted)))["B"] == "ignore"
    whole = [["Bea Penhew", "8", "14 Larkmoor Lane"], ["Ludo Ashgrove", "3", "9 Mill Row"]]
    assert read_as(one_table(header, *(row + area for row in whole)))["B"] == "ignore"


def test_the_number_beside_the_street_is_the_door_and_the_lists_own_stays() -> None:
    header = ["No.", "Guests", "No.", "Street", "City"]
    rows = [["1", "Bea Penhew", "14", "Larkmoor Lane"], ["2", "Ludo Ashgrove", "9", "Mill Row"]]
    found = read_as(one_table(header, *([*row, "Litchfield"] for row in rows)))
    assert (found["A"], found["C"]) == ("ignore", "house_number")


def test_suite_is_a_door_with_numbers_and_an_invitation_with_words() -> None:
    header = ["Name", "Street", "Suite", "City", "State", "ZIP"]
    found = one_table(header, ["Bea Penhew", ADDRESS[0], "200", *ADDRESS[1:]])
    assert read_as(found)["C"] == "unit"
    found = one_table(header, ["Bea Penhew", ADDRESS[0], "Evening", *ADDRESS[1:]])
    assert read_as(found)["C"] == "suite"


def test_an_address_for_the_winter_stands_beside_the_other() -> None:
    found = one_table(
        [
            "Name",
            "Address",
            "City",
            "State",
            "ZIP",
            "Winter Address",
            "Winter City",
            "Winter Dates",
        ],
        ["Bea Penhew", *ADDRESS, "7 Mill Row", "Naples", "Nov 1 to Apr 15"],
    )
    assert read_as(found)["B"] == "street"
    assert [read_as(found)[c] for c in "FGH"] == ["season_street", "season_city", "season_dates"]


def test_a_repeated_header_is_not_used_and_another_header_begins_a_table() -> None:
    header = ["Name", "Street", "City"]
    tables, unused, _ = find_tables(
        [
            grid_of(
                header,
                ["Tobias Penhew", "12 Larkmoor Lane", "Penhew"],
                header,
                ["Annika Vale", "3 Mill Row", "Penhew"],
                [],
                ["Groom's side"],
                ["City", "Street", "Guest(s)"],
                ["Penhew", "9 Mill Row", "Bea Farrenby"],
            )
        ],
        {},
    )
    assert [[row.number for row in found.rows] for found in tables] == [[2, 4], [8]]
    assert [(row.row, row.why) for row in unused] == [
        (6, "the title of the table below it"),
        (3, "the header again"),
    ]
    assert read_as(tables[1]) == {"A": "city", "B": "street", "C": "name"}


@pytest.mark.parametrize(
    "row",
    [
        ["TOTAL: 134 guests"],
        ["Total", "", "", "", "", "134"],
        ["", "", "", "", "", "134"],
        ["134 guests"],
        ["Subtotal", "52"],
        ["Summe", "", "", "", "", "12"],
        ["TOTAL", "", "", "", "", "ask Dave about plus ones"],
        ["Total so far (with kids)", "", "", "", "", "ask"],
        ["T O T A L", "", "", "", "", "120"],
        ["Итого", "", "", "", "", "ask"],
        ["SUM", "", "", "", "", "ask"],
    ],
)
def test_a_total_is_no_guest(row: list[str]) -> None:
    rows = [["Name", "Street", "City", "State", "Zip", "# invited"],
            ["Tobias Penhew", *ADDRESS, "2"], row]  # fmt: skip
    tables, unused, _ = find_tables([grid_of(*rows)], {})
    assert [r.number for r in tables[0].rows] == [2]
    assert [(u.sheet, u.row) for u in unused] == [("Guests", 3)]


@pytest.mark.parametrize("name", ["Count Alaric Penhew", "Total Farrenby", "Bea", "The Sum Family"])
def test_a_guest_with_a_name_like_a_total_stays(name: str) -> None:
    found = one_table(["Name", "Street", "City", "State", "Zip"], [name, *ADDRESS])
    assert len(found.rows) == 1


def test_a_title_that_is_also_a_sum_names_a_guest_whose_address_is_to_come() -> None:
    found = one_table(
        ["Name", "Street", "City", "State", "Zip", "Notes"],
        ["Count Alaric Penhew", "", "", "", "", "to come"],
        ["Tobias Penhew", *ADDRESS, ""],
    )
    assert len(found.rows) == 2


def test_a_list_without_a_header_is_read_by_what_it_holds() -> None:
    found = one_table(
        ["Mr. and Mrs. Tobias Penhew", "12 Larkmoor Lane", "Farrenby", "ME", "04496"],
        ["Annika Vale & Bea Vale", "3 Mill Row", "Penhew", "VT", "05401"],
        ["Dr. Alaric Wexcombe", "PO Box 12", "Penhew", "VT", "05401"],
    )
    assert found.header_row == 0
    assert len(found.rows) == 3
    assert list(read_as(found).values()) == ["name", "street", "city", "region", "postcode"]
    assert {column.how for column in found.columns} == {"content"}


def test_a_list_without_a_header_may_have_given_and_family_names_apart() -> None:
    found = one_table(
        ["Tobias", "Penhew", "12 Larkmoor Lane, Farrenby, ME 04496"],
        ["Annika", "Vale", "3 Mill Row, Penhew, VT 05401"],
    )
    assert list(read_as(found).values()) == ["given", "family", "address"]


def test_an_unknown_header_is_read_by_content_and_else_told() -> None:
    tables, _, findings = find_tables(
        [
            grid_of(
                ["Name", "Abode", "Town", "Where to", "Colour"],
                ["Tobias Penhew", "12 Larkmoor Lane", "Farrenby", "04496", "green"],
            )
        ],
        {},
    )
    assert [(c.meaning, c.how) for c in tables[0].columns] == [
        ("name", "header"),
        ("street", "content"),
        ("city", "header"),
        ("postcode", "content"),
        (None, ""),
    ]
    (note,) = findings
    assert (note.code, note.severity) == ("column-unknown", Severity.NOTE)
    assert "Colour" in note.text
    assert note.where.cell == "E1"


def test_a_column_that_holds_another_thing_than_its_header_says_is_asked_about() -> None:
    _, _, findings = find_tables(
        [grid_of(["Name", "City", "Zip"], ["Tobias Penhew", "04496", "12 Larkmoor Lane"])], {}
    )
    assert [(f.code, f.where.cell, f.holds) for f in findings] == [
        ("column-doubtful", "B1", False),
        ("column-doubtful", "C1", False),
    ]


def test_two_columns_with_one_meaning_are_asked_about() -> None:
    tables, _, findings = find_tables(
        [
            grid_of(
                ["Guest name", "Name", "Address"],
                ["Tobias", "Mr. Tobias Penhew", "12 Larkmoor Lane, Farrenby, ME 04496"],
            )
        ],
        {},
    )
    assert read_as(tables[0]) == {"A": "name", "B": "-", "C": "address"}
    assert [f.code for f in findings] == ["column-doubtful"]


def test_names_on_the_envelope_beside_others_are_the_outers() -> None:
    rows = ["Tobias", "Mr. Tobias Penhew", "12 Larkmoor Lane, Farrenby, ME 04496"]
    tables, _, findings = find_tables([grid_of(["Name", "Names on envelope", "Address"], rows)], {})
    assert read_as(tables[0]) == {"A": "name", "B": "outer", "C": "address"}
    assert not findings


def test_the_docket_wins_over_header_and_content() -> None:
    found = one_table(
        ["Name", "Names on envelope", "Who", "Mate"],
        ["A", "B", "Tobias Penhew", "Annika"],
        pinned={"who": "name", "Mate": "partner_given"},
    )
    assert read_as(found) == {"A": "-", "B": "outer", "C": "name", "D": "given2"}
    assert found.columns[2].how == "docket"


@pytest.mark.parametrize(
    ("pinned", "code", "word"),
    [
        ({"Nmae": "name"}, "column-not-found", "name"),
        ({"Name": "nane"}, "column-meaning-unknown", "“name”"),
    ],
)
def test_a_wrong_pin_names_the_nearest(pinned: dict[str, str], code: str, word: str) -> None:
    with pytest.raises(Fault) as caught:
        one_table(["Name", "City"], ["Tobias Penhew", "Farrenby"], pinned=pinned)
    assert (caught.value.exit, caught.value.code) == (Exit.INPUT, code)
    assert word in caught.value.mend
    assert caught.value.where is not None
    assert str(caught.value.where).startswith("docket:columns.")


def test_a_pin_by_letters_serves_a_list_without_a_header() -> None:
    found = one_table(["aa", "12 Larkmoor Lane"], ["bb", "3 Mill Row"], pinned={"A": "name"})
    assert read_as(found) == {"A": "name", "B": "street"}


def test_sheets_without_guests_are_told_and_hidden_ones_asked_about(grids_of: ReadRows) -> None:
    def more(book: Workbook) -> None:
        budget = book.create_sheet("Budget")
        for row in (["Item", "Cost"], ["Flowers", 120]):
            budget.append(row)
        old = book.create_sheet("Old")
        for row in (["Name"], ["Bea Farrenby"]):
            old.append(row)
        old.sheet_state = "hidden"

    tables, unused, findings = find_tables(
        grids_of([["Name", "Address"], ["Tobias Penhew", "12 Larkmoor Lane"]], more), {}
    )
    assert [found.sheet for found in tables] == ["Guests"]
    assert unused == ()
    assert [(f.code, f.severity, f.where.sheet, f.holds) for f in findings] == [
        ("sheet-not-read", Severity.NOTE, "Budget", False),
        ("sheet-hidden", Severity.ASK, "Old", False),
    ]


def test_hidden_columns_are_read_and_flagged(grids_of: ReadRows) -> None:
    def hide(book: Workbook) -> None:
        book.worksheets[0].column_dimensions["B"].hidden = True

    (found,), _, _ = find_tables(grids_of([["Name", "City"], ["Tobias", "Penhew"]], hide), {})
    assert [(c.meaning, c.hidden) for c in found.columns] == [("name", False), ("city", True)]


def test_no_column_of_names_stops_the_work() -> None:
    with pytest.raises(Fault) as caught:
        one_table(["Street", "City"], ["12 Larkmoor Lane", "Penhew"])
    assert (caught.value.exit, caught.value.code) == (Exit.INPUT, "name-column-missing")
    assert "[columns]" in caught.value.mend
    assert caught.value.where == Where("list.xlsx", "Guests")


def test_a_header_without_guests_is_list_empty() -> None:
    with pytest.raises(Fault) as caught:
        one_table(["Name", "City"])
    assert caught.value.code == "list-empty"


CELLS = st.sampled_from(
    ["", "", "Name", "Address", "City", "Total", "2", "04496", "ME", "12 Larkmoor Lane", "yes",
     "Tobias Penhew", "The Wexcombe Family", "12 Larkmoor Lane, Penhew, ME 04496", "134 guests"]
)  # fmt: skip


@given(st.lists(st.lists(CELLS, min_size=1, max_size=6), min_size=1, max_size=12))
def test_every_row_below_a_header_is_handed_on_or_accounted_for_once(
    rows: list[list[str]],
) -> None:
    grid = grid_of(["Name", "Street", "City", "Zip"], *rows)
    try:
        tables, unused, _ = find_tables([grid], {})
    except Fault as fault:
        assert fault.code in {"list-empty", "name-column-missing"}  # noqa: PT017 - either is right
        return
    handed = [row.number for found in tables for row in found.rows]
    others = [row.row for row in unused]
    headers = {found.header_row for found in tables}
    numbers = handed + others
    assert len(numbers) == len(set(numbers))
    first = min(headers)
    gone = {row.number for row in grid.rows if _is_header(row)}  # of addresses that went beside
    assert set(numbers) | headers | gone >= {r.number for r in grid.rows if r.number > first}


def _is_header(row: Row) -> bool:
    return {cell.text for cell in row.filled} <= {"Name", "Address", "City"}


def test_the_demo_list_is_read_whole() -> None:
    path = Path(__file__).parents[2] / "demo_guests.xlsx"
    grids, _, _ = read_workbook(open_list(path))
    tables, unused, findings = find_tables(grids, {})
    assert all(column.meaning for found in tables for column in found.columns)
    assert findings == ()
    # Counted another way: every row of the sheets with any value, less titles and headers.
    below = 0
    for page in openpyxl.load_workbook(path).worksheets:
        first = next(found.header_row for found in tables if found.sheet == page.title)
        below += sum(
            any(v is not None for v in row)
            for row in page.iter_rows(first + 1, None, None, None, values_only=True)
        )
    assert sum(len(found.rows) for found in tables) + len(unused) == below
