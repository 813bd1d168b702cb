"""Children on a sheet of their own, by their families; invented."""

from collections.abc import Callable, Sequence

from openpyxl import Workbook

from addressing.records.findings import Finding
from addressing.records.guests import GuestList, Kind

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
Rows = Sequence[Sequence[object]]
TOWN = ("Litchfield", "CT", "06759")
GUESTS: Rows = (
    ("No.", "Last name", "First names", "Title", "Street", "Town", "State", "ZIP"),
    (1, "Wexcombe", "Otto & June", "Mr. & Mrs.", "14 Larkmoor Lane", *TOWN),
    (2, "Vale", "Tom & Ada", "Mr. & Mrs.", "3 Farrenby Road", *TOWN),
    (3, "Orr", "Kit", "Ms.", "8 Mill Row", *TOWN),
    (4, "Vale", "Hesper", "Mrs.", "21 Quarry Hill", *TOWN),
)
CHILDREN: Rows = (
    ("Fam.", "Family", "Child", "Age", "Grade", "Notes"),
    (1, "Wexcombe", "Emma", 15, "10th", None),
    ('"', '"', "Jonah", 11, "6th", "vegetarian"),
    (2, "Vale", "Nora", 8, "3rd", None),
    (3, "Orr", "Theo", None, None, None),
    (9, "Sorrel", "Una", 4, None, None),
)


def with_sheet(rows: Rows) -> Callable[[Workbook], None]:
    def add(book: Workbook) -> None:
        page = book.create_sheet("Children")
        for row in rows:
            page.append(list(row))

    return add


def young(guests: GuestList) -> list[list[tuple[str | None, int | None]]]:
    return [
        [(p.given, p.age) for p in home.people if p.kind is Kind.CHILD]
        for home in guests.households
    ]


def test_each_child_goes_to_the_family_of_its_name_and_number(read_rows: Read) -> None:
    guests, _ = read_rows(GUESTS, with_sheet(CHILDREN[:-1]))
    assert young(guests) == [[("Emma", 15), ("Jonah", 11)], [("Nora", 8)], [("Theo", None)], []]


def test_a_childs_cell_and_the_note_beside_it_keep_their_places(read_rows: Read) -> None:
    guests, findings = read_rows(GUESTS, with_sheet(CHILDREN[:-1]))
    (emma, _) = [p for p in guests.households[0].people if p.kind is Kind.CHILD]
    assert "Children!C2" in {str(cell) for cell in emma.cells}
    assert "Children!F3" in {str(found.where) for found in findings if found.code == "remark"}


def test_a_child_of_nobody_on_the_list_is_asked_about(read_rows: Read) -> None:
    guests, findings = read_rows(GUESTS, with_sheet(CHILDREN))
    assert len(guests.households) == len(GUESTS)
    asked = {found.household for found in findings if found.holds}
    assert guests.households[-1].key in asked


def test_without_a_number_a_family_that_stands_twice_gets_no_child(read_rows: Read) -> None:
    rows = [row[1:] for row in CHILDREN[:-1]]
    guests, _ = read_rows([row[1:] for row in GUESTS], with_sheet(rows))
    assert [len(home) for home in young(guests)][:4] == [2, 0, 1, 0]


def test_every_row_of_the_sheet_is_accounted_for(read_rows: Read) -> None:
    guests, _ = read_rows(GUESTS, with_sheet(CHILDREN[:-1]))
    whys = [row.why for row in guests.unused if row.sheet == "Children"]
    assert len(whys) == len(CHILDREN) - 2
    assert all(why.startswith("a child of ") for why in whys)


def test_a_remark_by_number_below_the_list_reaches_its_household(read_rows: Read) -> None:
    more = [(2, "Tom Vale passed away in March."), (3, "is spelled Orre. I had it wrong.")]
    guests, findings = read_rows([*GUESTS, *more])
    assert len(guests.households) == len(GUESTS) - 1
    held = {found.household for found in findings if found.code == "said-elsewhere"}
    assert {guests.households[1].key, guests.households[2].key} <= held
