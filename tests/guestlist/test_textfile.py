"""Text files: encodings, separators, and rows numbered as a spreadsheet numbers them."""

import csv
import io
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from addressing.faults import Fault
from addressing.guestlist.files.opening import open_list
from addressing.guestlist.files.textfile import SEPARATORS, read_textfile
from addressing.guestlist.grid import Grid
from addressing.guestlist.repair import repair_text
from addressing.records.findings import Severity
from addressing.where import Where

ReadText = Callable[[bytes], Grid]
NAMES = "Name,City\nIda Ødegård,Penhew\nJosé Peña,Farrenby\n"


def texts(grid: Grid) -> list[list[str]]:
    return [[cell.text if cell else "" for cell in row.cells] for row in grid.rows]


@pytest.mark.parametrize(
    "data",
    [NAMES.encode(), NAMES.encode("utf-8-sig"), NAMES.encode("utf-16"), NAMES.encode("utf-32")],
    ids=["utf-8", "utf-8 with mark", "utf-16", "utf-32"],
)
def test_unicode_is_read_without_a_question(tmp_path: Path, data: bytes) -> None:
    path = tmp_path / "list.csv"
    path.write_bytes(data)
    (grid,), findings, repairs = read_textfile(open_list(path))
    assert texts(grid) == [["Name", "City"], ["Ida Ødegård", "Penhew"], ["José Peña", "Farrenby"]]
    assert (findings, repairs) == ((), ())


@pytest.mark.parametrize("encoding", ["cp1252", "mac_roman"])
def test_an_old_encoding_is_read_and_asked_about_once(tmp_path: Path, encoding: str) -> None:
    path = tmp_path / "list.csv"
    path.write_bytes(NAMES.encode(encoding))
    (grid,), findings, _ = read_textfile(open_list(path))
    assert texts(grid)[1] == ["Ida Ødegård", "Penhew"]
    (question,) = findings
    assert (question.code, question.severity) == ("encoding-doubtful", Severity.ASK)
    assert not question.holds
    assert "Peña" in question.text


@pytest.mark.parametrize("separator", SEPARATORS)
def test_the_steadiest_separator_is_taken(read_text: ReadText, separator: str) -> None:
    rows = [["Name", "Address"], ["Tobias, Bea", "12 Larkmoor Lane, Penhew; rear"], ["Ann", "x"]]
    target = io.StringIO()
    csv.writer(target, delimiter=separator).writerows(rows)
    assert texts(read_text(target.getvalue().encode())) == rows


def test_commas_in_unquoted_addresses_do_not_beat_the_semicolon(read_text: ReadText) -> None:
    data = "Name;Address\nBea;12 Larkmoor Lane, Penhew, ME\nTobias;3 Mill Row, Penhew, ME\n"
    assert texts(read_text(data.encode()))[1] == ["Bea", "12 Larkmoor Lane, Penhew, ME"]


def test_a_list_of_one_column_needs_no_separator(read_text: ReadText) -> None:
    assert texts(read_text(b"Names\nTobias Penhew\n")) == [["Names"], ["Tobias Penhew"]]


def test_rows_are_numbered_as_in_a_spreadsheet(read_text: ReadText) -> None:
    grid = read_text(b'Name,Address\r\nBea,"12 Larkmoor Lane\r\nPenhew"\r\n\r\nTobias,x\r\n')
    assert [row.number for row in grid.rows] == [1, 2, 4]
    address = grid.rows[1].cell(1)
    assert address is not None
    assert (address.text, address.where) == (
        "12 Larkmoor Lane\nPenhew",
        Where("list.csv", None, "B2"),
    )
    assert grid.sheet is None


def test_a_hint_for_the_separator_is_no_row(read_text: ReadText) -> None:
    grid = read_text(b"sep=;\r\nName;City\r\nBea;Penhew, ME\r\n")
    assert [(row.number, len(row.cells)) for row in grid.rows] == [(1, 2), (2, 2)]


@pytest.mark.parametrize(
    ("data", "code", "cell"),
    [
        (b'Name,City\nBea,"Penhew\nTobias,Farrenby\n', "list-damaged", "A2"),
        (b"\xff\xfeN\x00a", "list-damaged", None),
        (b"\n \n,,\n", "list-empty", None),
        (b"Name\n" + b"x" * 200_000, "list-damaged", "A2"),
    ],
    ids=["open quotation", "half a letter", "blank", "endless cell"],
)
def test_a_broken_text_is_refused(
    read_text: ReadText, data: bytes, code: str, cell: str | None
) -> None:
    with pytest.raises(Fault) as caught:
        read_text(data)
    assert caught.value.code == code
    assert caught.value.where is not None
    assert caught.value.where.cell == cell


@given(
    st.lists(
        st.lists(
            st.text(st.characters(codec="utf-8", exclude_characters="\0")), min_size=2, max_size=2
        ),
        min_size=1,
    )
)
def test_what_the_csv_writer_writes_is_read_back_repaired(
    tmp_path_factory: pytest.TempPathFactory, rows: list[list[str]]
) -> None:
    rows = [["Name", "City"], *rows]
    target = io.StringIO(newline="")
    csv.writer(target, quoting=csv.QUOTE_ALL).writerows(rows)
    path = tmp_path_factory.getbasetemp() / "written.csv"
    path.write_bytes(target.getvalue().encode())
    (grid,), _, _ = read_textfile(open_list(path))
    expected = {
        number: [repair_text(text, Where("x"))[0] for text in row]
        for number, row in enumerate(rows, start=1)
    }
    read = {row.number: [c.text if c else "" for c in row.cells] for row in grid.rows}
    assert read == {number: row for number, row in expected.items() if any(row)}


WORDS = {
    "western": "Ida Ødegård,Peña; José Müller-Weiß; Zoë Lefèvre; João Gonçalves",
    "swedish": "Åsa Björk; Östen Sjöström; Märta Ängström",
    "spanish": "Íñigo Núñez; Begoña Muñoz; Álvaro Güell",
    "one letter": "Renée Penhew; Tobias Wexcombe",
    "quotes": "Tobias O’Farrelly; “Bea” Penhew – no address",
    "polish": "Łukasz Żółć; Świętosława Gęś; Gdańsk",
    "czech": "Zdeněk Dvořák; Jiří Šťastný; Růžena Černá",
}


ENCODINGS = (
    "utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "utf-32", "cp1252", "latin-1",
    "mac_roman", "cp850", "cp1250", "iso8859_2", "mac_latin2",
)  # fmt: skip


def has_letters(encoding: str, names: str) -> bool:
    return (
        names in WORDS and WORDS[names].encode(encoding, "replace").decode(encoding) == WORDS[names]
    )


@pytest.mark.parametrize(
    ("encoding", "names"),
    [
        (encoding, names)
        for encoding in ENCODINGS
        for names in WORDS
        if has_letters(encoding, names)
    ],
)
def test_short_lists_are_read_in_any_common_encoding(
    read_text: ReadText, encoding: str, names: str
) -> None:
    header, words = "Name\nBea Penhew\n", WORDS[names].replace("; ", "\n")
    data = f"{header}{words}\n".encode(encoding)
    read = "\n".join(
        ",".join(cell.text for cell in row.cells if cell is not None)
        for row in read_text(data).rows[2:]
    )
    assert read == words
