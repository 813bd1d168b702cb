"""The questions workbook: text in every cell, the same bytes, easy to read."""

import io
import json
import zipfile
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

import openpyxl
import pytest
from openpyxl.cell.cell import Cell, MergedCell
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from addressing.questions.sheets import Row, Sheet
from addressing.questions.spreadsheet import LONGEST, plain
from addressing.questions.workbook import workbook_bytes
from addressing.tables import table

Run = Callable[..., CompletedProcess[str]]
Write = Callable[..., Path]
DEMO = Path(__file__).resolve().parents[2] / "demo_guests.xlsx"
COLUMNS = (("Question", 20.0), ("Your answer", 20.0), ("Ref", 3.0))


def sheet(text: str, *choices: str) -> Sheet:
    return Sheet("Questions", text, COLUMNS, (Row((text, "", "h-a:x 1"), choices),))


@pytest.fixture
def demo(addressing: Run) -> Path:
    assert addressing("questions", DEMO).returncode == 0
    return Path("demo_guests-job")


@pytest.mark.parametrize("text", ["=1+1", "+1", "-Tobias", "@SUM(A1)", "=HYPERLINK('x')", "\t=1"])
def test_what_looks_like_a_formula_stays_text(text: str) -> None:
    data = workbook_bytes([sheet(text, text)])
    for page in openpyxl.load_workbook(io.BytesIO(data)).worksheets:
        for row in page.iter_rows():
            assert {cell.data_type for cell in row if cell.value is not None} <= {"s"}
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        parts = [archive.read(name) for name in archive.namelist() if "worksheets/" in name]
    assert not any(b"<f>" in part for part in parts)


@pytest.mark.parametrize(
    "text", ["a\x00b", "\x07", "\x1b[31m", "\ud800", "\uffff", "x" * 40_000, "_x0041_", "a\r\nb"]
)
def test_what_a_cell_cannot_hold_is_cleaned(text: str) -> None:
    data = workbook_bytes([sheet(text)])
    cell = openpyxl.load_workbook(io.BytesIO(data))["Questions"]["A3"].value
    assert len(cell or "") <= LONGEST
    assert not any(ord(mark) < 32 and mark != "\n" for mark in cell or "")


def test_cleaning_leaves_names_of_every_script_as_they_are() -> None:
    for name in ("Zoë Ødegård", "林 Penhew", "O’Farrelly", "משה", "de la Tour"):
        assert plain(name) == name


def test_the_same_list_gives_the_same_bytes_and_no_clock(addressing: Run, demo: Path) -> None:
    first = (demo / "questions.xlsx").read_bytes(), (demo / "questions.txt").read_bytes()
    addressing("questions", DEMO)
    assert ((demo / "questions.xlsx").read_bytes(), (demo / "questions.txt").read_bytes()) == first
    with zipfile.ZipFile(io.BytesIO(first[0])) as archive:
        assert {entry.date_time for entry in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        assert archive.read("docProps/core.xml").count(b"1980-01-01T00:00:00Z") == 2


def questions_of(page: Worksheet) -> list[tuple[Cell | MergedCell, ...]]:
    """The rows that ask something: those with a ref."""
    return [row for row in page.iter_rows(min_row=3) if row[-1].value]


def test_what_the_demo_has_many_times_over_is_asked_once_with_a_table(demo: Path) -> None:
    book = openpyxl.load_workbook(demo / "questions.xlsx")
    names = [page.title for page in book.worksheets if page.sheet_state == "visible"]
    assert (names[0], names[-1]) == ("Questions", "Everyone")
    assert {"Titles", "Companions", "Spelling"} <= set(names[1:-1])
    refs = [str(row[-1].value) for row in questions_of(book["Questions"])]
    assert len([ref for ref in refs if ref.startswith("all:")]) == len(names) - 2
    assert len(refs) <= 20
    assert len(questions_of(book["Titles"])) >= 50


def test_headers_stay_in_view_refs_are_hidden_and_answers_are_offered(demo: Path) -> None:
    book = openpyxl.load_workbook(demo / "questions.xlsx")
    for page in book.worksheets[:-1]:
        assert page.freeze_panes == "A3"
        assert page.cell(2, page.max_column).value == "Ref"
        letters = get_column_letter(page.max_column)
        assert page.column_dimensions[letters].hidden
        if page.title == "Everyone":
            continue
        rules = page.data_validations.dataValidation
        offered = {cell for rule in rules for part in rule.sqref.ranges for cell in part.cells}
        answers = [cell.value for cell in page[2]].index("Your answer") + 1
        assert offered == {(row[0].row, answers) for row in questions_of(page)}


def test_only_the_cells_for_answers_can_be_written(demo: Path) -> None:
    book = openpyxl.load_workbook(demo / "questions.xlsx")
    for page in book.worksheets[:-1]:
        assert page.protection.sheet
        assert not page.protection.password
        headers = [cell.value for cell in page[2]]
        for row in page.iter_rows(min_row=1):
            free = {headers[n] for n, cell in enumerate(row) if not cell.protection.locked}
            answers = {"Your answer", "Or in your own words", "New names", "New address"}
            asks = bool(row[-1].value) and row[-1].value != "Ref"
            assert free == (answers & set(headers) if asks else set())


def test_the_answers_that_a_list_offers_are_the_questions_own(addressing: Run, demo: Path) -> None:
    told = json.loads(addressing("questions", DEMO, "--json").stdout)
    answers = {question["question"]: question["answers"] for question in told["questions"]}
    answers |= {matter["matter"]: matter["answers"] for matter in told["matters"]}
    book = openpyxl.load_workbook(demo / "questions.xlsx")
    for page in book.worksheets[:-2]:
        rows = {row[0].row: row[-1].value for row in page.iter_rows(min_row=3)}
        for rule in page.data_validations.dataValidation:
            name, area = str(rule.formula1).split("!")
            texts = [cell.value for row in book[name][area.replace("$", "")] for cell in row]
            for part in rule.sqref.ranges:
                for number, _ in part.cells:
                    assert answers[str(rows[number]).split()[0]] == texts


def test_the_letter_has_every_question_under_the_number_of_the_workbook(demo: Path) -> None:
    letter = " ".join((demo / "questions.txt").read_text("utf-8").split())
    book = openpyxl.load_workbook(demo / "questions.xlsx")
    for page in book.worksheets[:-2]:
        for row in questions_of(page):
            first = page.title == "Questions"
            assert f"{'Question ' if first else ' '}{row[0].value}" in letter
            for part in str(row[2].value).split("\n"):
                assert " ".join(part.split()) in letter


def test_no_line_of_the_letter_is_too_long_for_a_mail(demo: Path) -> None:
    lines = (demo / "questions.txt").read_text("utf-8").split("\n")
    assert max(map(len, lines)) <= 72


def test_the_client_meets_no_code_and_no_jargon(demo: Path) -> None:
    codes = {row["code"] for row in table("findings") if "-" in row["code"]}
    book = openpyxl.load_workbook(demo / "questions.xlsx")
    seen = [
        str(cell.value)
        for page in book.worksheets
        for row in page.iter_rows()
        for cell in row
        if cell.value is not None and page.cell(2, cell.column).value != "Ref"
    ]
    seen.append((demo / "questions.txt").read_text("utf-8"))
    assert [text for text in seen if any(code in text for code in codes)] == []


def test_a_clean_list_has_no_questions(addressing: Run, write_list: Write) -> None:
    said = addressing("questions", write_list())
    assert said.returncode == 0
    assert "0 questions" in said.stdout
    assert "no questions" in Path("guests-job/questions.txt").read_text("utf-8")


@pytest.mark.parametrize(
    "row", table("answers"), ids=lambda row: f"{row['code']} {row['needs']} {row['about']}"
)
def test_a_row_of_answers_offers_at_most_four_that_are_known_but_for_titles(
    row: dict[str, str],
) -> None:
    effects = [part.partition(": ")[0].partition("=")[0] for part in row["answers"].split("|")]
    known = {
        "keep", "part", "drop", "whole", "hand", "omit", "restore", "first", "second", "split",
        "title", "city", "region", "postcode", "names", "children", "lines", "street",
        "unit", "bring",
    }  # fmt: skip
    proposed = [part for part in row["answers"].split("|") if "{likely}" in part]
    sure = len(effects) - len(proposed)  # a remark gives one or two of what may be proposed
    assert len(effects) >= 1
    assert sure <= (7 if row["kind"] in ("title", "letters") else 4)
    assert set(effects) <= known
    stops = {r["code"] for r in table("findings") if r["severity"] == "stop"}
    stays = not {"keep", "part"}.isdisjoint(effects)
    assert stays is (row["code"] not in stops) or row["kind"] == "struck"


def test_what_the_client_is_asked_has_its_answers_and_the_rest_is_the_designers() -> None:
    asked = {row["code"] for row in table("answers")}
    for row in table("findings"):
        whose = "client" if row["code"] in asked else "designer"
        assert row["for"] in (("", "designer") if row["severity"] == "note" else (whose,)), row


def test_likely_values_are_proposed(addressing: Run, write_list: Write) -> None:
    rows = [
        ("Ms. Ottoline Grayling", "1 Quarry Hill", "Portland", "ME", "97201"),
        ("Mr. Silas Umber", "2 Quarry Hill", "Litchfeld", "CT", "06759"),
        ("Ms. Linnet Ashgrove", "3 Quarry Hill", "Duluth", "MN", "55401"),
        ("Tobias Penhew & Odile", "4 Quarry Hill", "Litchfield", "CT", "06759"),
        ("Walter, Hugo", "5 Quarry Hill", "Litchfield", "CT", ""),
    ]
    told = json.loads(addressing("questions", write_list(rows), "--json").stdout)["questions"]
    asked = {question["text"]: question["answers"] for question in told}
    assert asked["The ZIP code 97201 belongs to Oregon, your list says ME. Which is right?"][0] == (
        "The ZIP is right, the state is Oregon"
    )
    assert asked[
        "The ZIP code 06759 belongs to Litchfield, your list says Litchfeld. Is Litchfield meant?"
    ] == ["Yes, Litchfield", "No, it is right as listed"]
    town = "The ZIP code 55401 belongs to Minneapolis, your list says Duluth. Which is right?"
    assert asked[town][0] == "The ZIP is right, the town is Minneapolis"
    assert asked["A family name is missing. How should the names read?"] == [
        "Tobias Penhew and Odile Penhew",
        "Right as they are",
    ]
    order = "First name and family name may have changed places. Which is right?"
    assert asked[order] == ["Hugo Walter", "Walter Hugo"]
    missing = "This address has no ZIP code or postcode. Which one belongs to it?"
    assert asked[missing] == ["06759", "Send it without"]


def test_several_doubts_about_one_address_are_each_told(addressing: Run, write_list: Write) -> None:
    rows = [("Mr. Silas Umber", "Quarry Hill", "Portland", "ME", "97201")]
    told = json.loads(addressing("questions", write_list(rows), "--json").stdout)["questions"]
    assert len(told) == 1
    assert "Part of this address seems to be missing." in told[0]["text"]
    assert "The ZIP code 97201 belongs to Oregon, your list says ME." in told[0]["text"]
    assert told[0]["answers"] == [
        "The ZIP is right, the state is Oregon",
        "It is right as it is",
    ]


@pytest.mark.parametrize("row", table("matters"), ids=lambda row: f"{row['code']} {row['kind']}")
def test_a_table_is_of_a_question_that_is_asked_and_says_known_things(row: dict[str, str]) -> None:
    asked = {(each["code"], each["kind"]) for each in table("answers")}
    assert (row["code"], row["kind"]) in asked
    effects = [part.partition(": ")[0] for part in row["answers"].split("|") if part]
    known = {"keep", "part", "drop", "whole", "hand", "split", "rest", "each", "set"}
    assert set(effects) <= known
    assert int(row["least"]) > 1
    assert "{count}" in row["question"]
    assert len(row["table"]) <= 31  # Microsoft, Excel specifications and limits: a sheet's name


def test_no_two_tables_share_a_name() -> None:
    names = [row["table"] for row in table("matters")]
    assert len(set(names)) == len(names)
