"""Lists made for the tests: workbooks and texts with invented guests."""

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

import openpyxl
import pytest
from openpyxl.workbook import Workbook

from addressing.guestlist import read_list
from addressing.guestlist.files.opening import open_list
from addressing.guestlist.files.textfile import read_textfile
from addressing.guestlist.files.workbook import read_workbook
from addressing.guestlist.grid import Grid
from addressing.records.findings import Finding
from addressing.records.guests import GuestList, Kind, Person

Rows = Sequence[Sequence[object]]
MakeBook = Callable[..., Path]
ReadRows = Callable[..., tuple[Grid, ...]]


@pytest.fixture
def make_book(tmp_path: Path) -> MakeBook:
    """Write rows into one sheet; `change` may alter the workbook before it is saved."""

    def make(
        rows: Rows,
        change: Callable[[Workbook], object] | None = None,
        *,
        sheet: str = "Guests",
        name: str = "list.xlsx",
    ) -> Path:
        book = openpyxl.Workbook()
        page = book.worksheets[0]
        page.title = sheet
        for row in rows:
            page.append(list(row))
        if change is not None:
            change(book)
        path = tmp_path / name
        book.save(path)
        return path

    return make


@pytest.fixture
def grids_of(make_book: MakeBook) -> ReadRows:
    """The grids of a workbook made from rows."""

    def read(rows: Rows, change: Callable[[Workbook], object] | None = None) -> tuple[Grid, ...]:
        return read_workbook(open_list(make_book(rows, change)))[0]

    return read


@pytest.fixture
def read_text(tmp_path: Path) -> Callable[[bytes], Grid]:
    """The grid of a text file made from bytes."""

    def read(data: bytes) -> Grid:
        path = tmp_path / "list.csv"
        path.write_bytes(data)
        return read_textfile(open_list(path))[0][0]

    return read


Brief = Callable[[Sequence[Person]], str]


def _person(person: Person) -> str:
    words = [f"{person.title or '-'}/{person.given or '-'}/{person.family or '-'}"]
    if (person.title, person.given, person.family) == (None, None, None):
        words = []
    if person.suffix:
        words[0] += f"/{person.suffix}"
    words += person.credentials
    words += [f"“{person.nickname}”"] if person.nickname else []
    words += [str(person.age)] if person.age is not None else []
    words += [person.kind.value] if person.kind is not Kind.NAMED else []
    return " ".join(words)


@pytest.fixture(scope="session")
def brief() -> Brief:
    """People in one line, as the tables of the tests write them."""

    def write(people: Sequence[Person]) -> str:
        line = ""
        for person in people:
            line += (" & " if person.joined else " ; ") * bool(line) + _person(person)
        return line

    return write


Reading = tuple[GuestList, tuple[Finding, ...]]


@pytest.fixture
def read_rows(make_book: MakeBook) -> Callable[..., Reading]:
    """Read a workbook made from rows, the header first."""

    def read(
        rows: Rows,
        change: Callable[[Workbook], object] | None = None,
        columns: Mapping[str, str] | None = None,
    ) -> Reading:
        return read_list(make_book(rows, change), columns or {})

    return read
