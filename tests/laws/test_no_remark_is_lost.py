"""Law: no remark of a workbook is lost, wherever in it the remark stands.

Whom it names by number or by name waits for an answer and has it quoted; if it names nobody, the
list's own question quotes it; and nobody else waits for it.
"""

import csv
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path

import openpyxl
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from openpyxl.comments import Comment
from openpyxl.worksheet.worksheet import Worksheet

from addressing.guestlist import read_list
from addressing.records.findings import Finding
from addressing.records.guests import GuestList

NAMES = (
    "Mr. and Mrs. Tobias Penhew", "Dr. Wren Lorne", "Ms. Odile Carrow", "Mr. Hugh Thistlewood",
    "Ms. Maud Garrity & Mr. Ned Fallow", "Mr. Simon Ellery", "Mrs. Lorraine Boyd", "Jamie Cobb",
    "Mr. Peter Sloane", "Renata Ortiz and Guest", "Mr. Basil Kerr", "Ms. Ysolde Quarles",
    "Mr. and Mrs. Anton Drury", "Ms. Bettina Holm", "Mr. Caspar Lindgren", "Ms. Ione Prewitt",
)  # fmt: skip
TOWNS = (("Litchfield", "CT", "06759"), ("Duluth", "MN", "55802"), ("Keene", "NH", "03431"))
HEADS = {True: ("No.", "Name", "Street", "City", "State", "ZIP"),
         False: ("Name", "Street", "City", "State", "ZIP")}  # fmt: skip
Remark = tuple[str, frozenset[int]]


def _of(text: str, *numbers: int) -> Remark:
    return text, frozenset(numbers)


BY_NUMBER = (
    _of("6 no plus one after all", 6), _of("16 kids not invited", 16),
    _of("14 they had a second baby, Mia", 14), _of("12 guest = Alex Tran", 12),
    _of("rows 10-12 cancel", 10, 11, 12), _of("remove 12 13 and 14", 12, 13, 14), _of("12 x", 12),
    _of("number twelve is out", 12), _of("11, 13 and 14 share one envelope", 11, 13, 14),
    _of("line 9 is now Sloane-Hale", 9), _of("no. 3 moved to Ohio", 3), _of("2 deceased", 2),
    _of("5 please write Fallow first", 5), _of("#7 and #8 no kids", 7, 8),
    _of("Nos. 1 through 3 hand delivered", 1, 2, 3), _of("13 +1 is Kit", 13),
    _of("rows 14 to 16 by hand", 14, 15, 16),
)  # fmt: skip
BY_NAME = (
    _of("Thistlewood no plus one after all", 4), _of("Garrity kids not invited", 5),
    _of("the Drurys had a second baby, Mia", 13), _of("Ortiz guest = Alex Tran", 10),
    _of("Kerr, Quarles and the Drurys cancel", 11, 12, 13), _of("Sloane x", 9),
    _of("Dr. Lorne is out", 2), _of("Boyd moved to Ohio", 7),
)  # fmt: skip
OF_NOBODY = (
    _of("Uncle Fred is coming after all"), _of("no kids please!!"),
    _of("ask mom about the cousins"),
)  # fmt: skip
UNKNOWN = _of("number 41 is out")


def rows(*, numbered: bool) -> list[tuple[object, ...]]:
    """The guests, with a column of numbers or without."""
    plain = [(name, f"{10 + 3 * at} Mill Row", *TOWNS[at % 3]) for at, name in enumerate(NAMES)]
    return [(at, *row) for at, row in enumerate(plain, start=1)] if numbered else list(plain)


def _list(sheet: Worksheet, body: Iterable[Sequence[object]]) -> None:
    for row in body:
        sheet.append(list(row))


def _tab(name: str) -> Callable[[Worksheet, list[str], bool], None]:
    def put(sheet: Worksheet, said: list[str], numbered: bool) -> None:  # noqa: FBT001
        _list(sheet, (HEADS[numbered], *rows(numbered=numbered)))
        assert sheet.parent is not None
        _list(sheet.parent.create_sheet(name), ((each,) for each in said))

    return put


def _below(column: int) -> Callable[[Worksheet, list[str], bool], None]:
    def put(sheet: Worksheet, said: list[str], numbered: bool) -> None:  # noqa: FBT001
        _list(sheet, (HEADS[numbered], *rows(numbered=numbered)))
        for at, each in enumerate(said, start=len(NAMES) + 3):
            sheet.cell(at, column, each)

    return put


def _beside(gap: int) -> Callable[[Worksheet, list[str], bool], None]:
    def put(sheet: Worksheet, said: list[str], numbered: bool) -> None:  # noqa: FBT001
        _list(sheet, (HEADS[numbered], *rows(numbered=numbered)))
        for at, each in enumerate(said, start=3):
            sheet.cell(at, len(HEADS[numbered]) + gap, each)

    return put


def _above(sheet: Worksheet, said: list[str], numbered: bool) -> None:  # noqa: FBT001
    _list(sheet, (*((each,) for each in said), HEADS[numbered], *rows(numbered=numbered)))


def _among(sheet: Worksheet, said: list[str], numbered: bool) -> None:  # noqa: FBT001
    body = rows(numbered=numbered)
    _list(sheet, (HEADS[numbered], *body[:8], *((each,) for each in said), *body[8:]))


def _comment(row: int) -> Callable[[Worksheet, list[str], bool], None]:
    def put(sheet: Worksheet, said: list[str], numbered: bool) -> None:  # noqa: FBT001
        _list(sheet, (HEADS[numbered], *rows(numbered=numbered)))
        sheet.cell(row, 2).comment = Comment("\n".join(said), "somebody")

    return put


def _pairs(sheet: Worksheet, said: list[str], numbered: bool) -> None:  # noqa: FBT001
    """A tab of two columns: whom it is about, and what."""
    _list(sheet, (HEADS[numbered], *rows(numbered=numbered)))
    assert sheet.parent is not None
    _list(sheet.parent.create_sheet("Sheet2"), (each.split(" ", 1) for each in said))


PLACES = {
    "a tab Notes": _tab("Notes"), "a tab Changes": _tab("Changes"), "a tab Sheet2": _tab("Sheet2"),
    "below the numbers": _below(1), "below the names": _below(2), "beside the list": _beside(1),
    "a column apart": _beside(2), "above the header": _above, "among the rows": _among,
    "a comment on the header": _comment(1),
}  # fmt: skip


def read(
    folder: Path, place: str, said: list[str], *, numbered: bool
) -> tuple[GuestList, tuple[Finding, ...]]:
    """The list with such remarks at a place."""
    book = openpyxl.Workbook()
    sheet = book.worksheets[0]
    sheet.title = "Guests"
    PLACES[place](sheet, said, numbered)
    path = folder / "list.xlsx"
    book.save(path)
    return read_list(path, {})


def held(text: str, guests: GuestList, findings: Iterable[Finding]) -> tuple[set[int], bool]:
    """The numbers of those who wait for a remark, and whether the list's own question has it."""
    places = {home.key: at for at, home in enumerate(guests.households, start=1)}
    quoting = [found for found in findings if text in found.quoted and found.severity == "ask"]
    waiting = {places[f.household] for f in quoting if f.household is not None and f.holds}
    return waiting, any(f.household is None for f in quoting)


RARELY = settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)


@pytest.mark.parametrize("place", PLACES)
@given(data=st.data())
@RARELY
def test_a_remark_waits_with_whom_it_names_or_is_asked_of_the_list(
    tmp_path: Path, place: str, data: st.DataObject
) -> None:
    numbered = data.draw(st.booleans())
    known = (*BY_NAME, *OF_NOBODY, *((*BY_NUMBER, UNKNOWN) if numbered else ()))
    remarks = data.draw(st.lists(st.sampled_from(known), min_size=1, max_size=7, unique=True))
    guests, findings = read(tmp_path, place, [text for text, _ in remarks], numbered=numbered)
    assert len(guests.households) == len(NAMES)
    for text, numbers in remarks:
        waiting, of_list = held(text, guests, findings)
        assert (text, waiting, of_list) == (text, set(numbers), not numbers)


@pytest.mark.parametrize("place", PLACES)
def test_a_row_of_the_sheet_is_meant_where_the_list_has_no_numbers(
    tmp_path: Path, place: str
) -> None:
    guests, findings = read(tmp_path, place, ["rows 9-11 are out"], numbered=False)
    first = guests.households[0].rows[0].row or 0
    shift = guests.households[-1].rows[0].row != first + len(NAMES) - 1
    waiting, _ = held("rows 9-11 are out", guests, findings)
    assert waiting == ({8, 9} if shift else {at - first + 1 for at in (9, 10, 11)})


PAIRS = (
    _of("12 out", 12), _of("16 kids not invited", 16), _of("10-12 cancel", 10, 11, 12),
    _of("Kerr out", 11), _of("Boyd moved to Ohio", 7), _of("Garrity no kids", 5),
)  # fmt: skip


def test_a_tab_of_two_columns_says_whom_and_what(tmp_path: Path) -> None:
    said = [text for text, _ in PAIRS]
    book = openpyxl.Workbook()
    _pairs(book.worksheets[0], said, numbered=True)
    path = tmp_path / "list.xlsx"
    book.save(path)
    guests, findings = read_list(path, {})
    assert len(guests.households) == len(NAMES)
    for text, numbers in PAIRS:
        waiting, _ = held(text.replace(" ", " – ", 1), guests, findings)
        assert (text, waiting) == (text, set(numbers))


@pytest.mark.parametrize(
    ("rows_of_tab", "waiting", "open_words"),
    [
        (
            (("Name", "Note"), ("Mr. Basil Kerr", "moved to Ohio"), ("Boyd", "no plus one"),
             ("Uncle Fred", "invite him too")),
            {11, 7}, "“Uncle Fred – invite him too”",
        ),
        (
            (("Name", "Reply"), ("Mr. Basil Kerr", "no"), ("Mrs. Lorraine Boyd", "yes"),
             ("Dr. Wren Lorne", "yes + 1")),
            {11, 2}, "",
        ),
        ((("Name", "Gift"), ("Mr. Basil Kerr", "bowl"), ("Dr. Wren Lorne", "vase")), set(), ""),
        ((("Table 1", "Kerr", "Lorne"), ("Table 2", "Boyd", "Cobb")), set(), ""),
        (
            (("3:00 guests arrive",), ("5 pm the Holm trio plays",), ("10:00 last dance",)),
            {14}, "“3:00 guests arrive”, “10:00 last dance”",
        ),
    ],
)  # fmt: skip
def test_a_tab_with_a_header_of_names_and_notes_names_no_guests_anew(
    tmp_path: Path, rows_of_tab: Sequence[Sequence[str]], waiting: set[int], open_words: str
) -> None:
    book = openpyxl.Workbook()
    _list(book.worksheets[0], (HEADS[True], *rows(numbered=True)))
    _list(book.create_sheet("Sheet2"), rows_of_tab)
    path = tmp_path / "list.xlsx"
    book.save(path)
    guests, findings = read_list(path, {})
    places = {home.key: at for at, home in enumerate(guests.households, start=1)}
    assert len(places) == len(NAMES)
    told = [found for found in findings if found.where.sheet == "Sheet2" and found.holds]
    assert {places[found.household or ""] for found in told} == waiting
    assert [f.quoted for f in findings if f.code == "corrections-open"] == [open_words] * bool(
        open_words
    )


def test_new_people_below_each_other_on_a_tab_are_read_and_no_remark_is_glued_to_them(
    tmp_path: Path,
) -> None:
    block = ["Joe Peterson", "12 Elm St", "Dover, DE 19901"]
    said = ["Hi dear,", "rows 10-12 cancel", "16 kids not invited", *block, "Boyd moved to Ohio"]
    guests, findings = read(tmp_path, "a tab Sheet2", [*said, "Uncle Fred"], numbered=True)
    assert [home.name for home in guests.households][len(NAMES) :] == ["Joe Peterson"]
    assert held("rows 10-12 cancel", guests, findings) == ({10, 11, 12}, False)
    assert held("16 kids not invited", guests, findings) == ({16}, False)
    assert held("Boyd moved to Ohio", guests, findings) == ({7}, False)
    assert held("Uncle Fred", guests, findings) == (set(), True)


@pytest.mark.parametrize("said", ["12 guest = Alex Tran", "Quarles guest = Alex Tran"])
def test_a_comment_on_a_guests_cell_waits_with_whom_it_opens_with(
    tmp_path: Path, said: str
) -> None:
    book = openpyxl.Workbook()
    _list(book.worksheets[0], (HEADS[True], *rows(numbered=True)))
    book.worksheets[0]["B5"].comment = Comment(said, "somebody")
    path = tmp_path / "list.xlsx"
    book.save(path)
    assert held(said, *read_list(path, {})) == ({12}, False)


def test_a_note_under_its_header_that_opens_with_another_number_is_that_ones(
    tmp_path: Path,
) -> None:
    notes = ("12 guest = Alex Tran", "2 kids", "cousin of 5")
    book = openpyxl.Workbook()
    body = [(*row, *notes[at : at + 1]) for at, row in enumerate(rows(numbered=True))]
    _list(book.worksheets[0], ((*HEADS[True], "Notes"), *body))
    path = tmp_path / "list.xlsx"
    book.save(path)
    guests, findings = read_list(path, {})
    assert [held(note, guests, findings)[0] for note in notes] == [{12}, {2}, set()]


def test_numbers_with_a_word_below_the_list_are_remarks(tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    body = (*rows(numbered=True), (), (12, "out"), (16, "guest = Alex Tran"))
    _list(book.worksheets[0], (HEADS[True], *body))
    path = tmp_path / "list.xlsx"
    book.save(path)
    guests, findings = read_list(path, {})
    assert len(guests.households) == len(NAMES)
    assert held("12 – out", guests, findings) == ({12}, False)
    assert held("16 – guest = Alex Tran", guests, findings) == ({16}, False)


def test_a_text_file_loses_no_remark_either(tmp_path: Path) -> None:
    body = [HEADS[True], *rows(numbered=True), (), ("rows 10-12 cancel",), ("", "Boyd is out")]
    path = tmp_path / "list.csv"
    with path.open("w", newline="") as stream:
        csv.writer(stream).writerows(body)
    guests, findings = read_list(path, {})
    assert held("rows 10-12 cancel", guests, findings) == ({10, 11, 12}, False)
    assert held("Boyd is out", guests, findings) == ({7}, False)
