"""What is let in, what is refused, and in which words; hostile files are made here."""

import hashlib
import io
import zipfile
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from addressing.faults import Exit, Fault
from addressing.guestlist.files.kinds import read_grids
from addressing.guestlist.files.opening import open_list

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
RELATED = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
TYPES = '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>'
BOOK = (
    f'<workbook xmlns="{MAIN}" xmlns:r="{RELATED}">'
    '<sheets><sheet name="Guests" sheetId="1" r:id="rId1"/></sheets></workbook>'
)
LINKS = (
    '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
    f'<Relationship Id="rId1" Type="{RELATED}/worksheet" Target="worksheets/sheet1.xml"/>'
    "</Relationships>"
)


def book_with(path: Path, parts: Mapping[str, bytes | str]) -> Path:
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in {
            "[Content_Types].xml": TYPES,
            "xl/workbook.xml": BOOK,
            "xl/_rels/workbook.xml.rels": LINKS,
            **parts,
        }.items():
            archive.writestr(name, data)
    return path


def sheet_xml(inside: str, before: str = "") -> str:
    return f'<?xml version="1.0"?>{before}<worksheet xmlns="{MAIN}">{inside}</worksheet>'


def refused(path: Path) -> Fault:
    with pytest.raises(Fault) as caught:
        read_grids(open_list(path))
    assert caught.value.exit is Exit.INPUT
    assert caught.value.text.endswith(".")
    assert caught.value.mend.endswith(".")
    return caught.value


def outcome(path: Path) -> Exit:
    """The exit code that reading a file ends with; anything but a Fault goes through."""
    try:
        read_grids(open_list(path))
    except Fault as fault:
        return fault.exit
    return Exit.DONE


def test_a_workbook_is_known_by_its_bytes_and_not_by_its_name(
    make_book: Callable[..., Path],
) -> None:
    path = make_book([["Name"], ["Tobias Penhew"]], name="list.csv")
    before = path.read_bytes()
    opened = open_list(path)
    assert opened.kind == "workbook"
    assert opened.sha256 == hashlib.sha256(before).hexdigest()
    assert path.read_bytes() == before


def test_a_missing_file_and_a_folder_are_list_missing(tmp_path: Path) -> None:
    assert refused(tmp_path / "none.xlsx").code == "list-missing"
    assert refused(tmp_path).code == "list-missing"


def test_an_empty_file_is_list_empty(tmp_path: Path) -> None:
    path = tmp_path / "empty.csv"
    path.touch()
    assert refused(path).code == "list-empty"


@pytest.mark.parametrize(
    ("data", "word"),
    [
        (b"%PDF-1.7\n", "PDF"),
        (b"\x89PNG\r\n\x1a\n", "PNG"),
        (b"\xff\xd8\xff\xe0", "JPEG"),
        (b"{\\rtf1 x}", "RTF"),
        (b"<html><table><tr><td>Name", "web page"),
        (b"\xef\xbb\xbf<?xml version='1.0'?>", "web page"),
        (b"ab\x00\x01\x02", "neither"),
    ],
)
def test_another_kind_of_file_is_named_for_what_it_is(
    tmp_path: Path, data: bytes, word: str
) -> None:
    path = tmp_path / "list.xlsx"
    path.write_bytes(data)
    fault = refused(path)
    assert fault.code == "list-not-a-spreadsheet"
    assert word in fault.text


@pytest.mark.parametrize(
    ("part", "word"),
    [
        ("word/document.xml", "Word"),
        ("Index/Document.iwa", "Numbers"),
        ("xl/workbook.bin", "xlsb"),
        ("letter.txt", "compressed folder"),
    ],
)
def test_a_zip_that_is_no_workbook_is_named_too(tmp_path: Path, part: str, word: str) -> None:
    path = tmp_path / "list.xlsx"
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr(part, "x")
    fault = refused(path)
    assert fault.code == "list-not-a-spreadsheet"
    assert word in fault.text


@pytest.mark.parametrize(
    ("stream", "code", "word"),
    [
        ("EncryptedPackage", "list-password", "without a password"),
        ("Workbook", "list-old-format", ".xlsx"),
        ("WordDocument", "list-not-a-spreadsheet", ".xlsx"),
    ],
)
def test_an_old_container_is_told_apart_by_its_streams(
    tmp_path: Path, stream: str, code: str, word: str
) -> None:
    # Header and directory as in [MS-CFB] 2.2 and 2.6.1: stream names are UTF-16.
    path = tmp_path / "list.xlsx"
    path.write_bytes(b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(504) + stream.encode("utf-16-le"))
    fault = refused(path)
    assert fault.code == code
    assert word in fault.mend


def test_a_bomb_is_refused_before_it_unpacks(tmp_path: Path) -> None:
    path = book_with(
        tmp_path / "list.xlsx", {"xl/worksheets/sheet1.xml": b"<a>" + bytes(12_000_000)}
    )
    assert refused(path).code == "list-too-large"


def test_too_many_parts_are_refused(tmp_path: Path) -> None:
    path = book_with(tmp_path / "list.xlsx", {f"xl/p{n}": "" for n in range(5_001)})
    assert refused(path).code == "list-too-large"


FAR = '<row r="1"><c r="A1" t="str"><v>Name</v></c></row>'


@pytest.mark.parametrize(
    "inside",
    [
        "".join(f'<row r="{n}"><c r="XFD{n}"><v>1</v></c></row>' for n in range(1, 300)),
        '<row r="9999999"><c><v>1</v></c></row>',
        "<mergeCells>" + '<mergeCell ref="A1:J99999"/>' * 20_001 + "</mergeCells>",
    ],
    ids=["many far cells", "row beyond the last", "stacked merges"],
)
def test_a_sheet_that_reaches_too_far_is_refused(tmp_path: Path, inside: str) -> None:
    path = book_with(tmp_path / "list.xlsx", {"xl/worksheets/sheet1.xml": sheet_xml(inside)})
    fault = refused(path)
    assert fault.code == "list-too-large"
    assert "Delete" in fault.mend


@pytest.mark.parametrize(
    ("inside", "rows"),
    [
        (FAR + '<row r="1048576"><c r="XFD1048576" t="str"><v>x</v></c></row>', 2),
        (FAR + '<mergeCells><mergeCell ref="A1:XFD1048576"/></mergeCells>', 1),
        (FAR + '<mergeCells><mergeCell ref="A:C"/><mergeCell ref="$2:$900"/></mergeCells>', 1),
        (FAR + '<hyperlinks><hyperlink ref="A1:XFD1048576"/></hyperlinks>', 1),
        (FAR + "".join(f'<row r="{n}" ht="15"/>' for n in range(2, 200_000)), 1),
        (FAR + "".join(f'<row r="{n}"><c r="C{n}" s="1"/></row>' for n in range(2, 9_000)), 1),
    ],
    ids=["last cell", "merge of all", "whole columns", "link on all", "empty rows", "blanks"],
)
def test_a_sheet_that_only_seems_large_is_read(tmp_path: Path, inside: str, rows: int) -> None:
    path = book_with(tmp_path / "list.xlsx", {"xl/worksheets/sheet1.xml": sheet_xml(inside)})
    (grid,), _, _ = read_grids(open_list(path))
    assert len(grid.rows) == rows


def test_columns_told_again_and_again_are_refused(tmp_path: Path) -> None:
    # Each hides all 16 384 columns: a megabyte of them would be a billion steps.
    column = '<col min="1" max="16384" hidden="1"/>'
    xml = sheet_xml(f"<cols>{column * 16_385}</cols>{FAR}")
    path = book_with(tmp_path / "list.xlsx", {"xl/worksheets/sheet1.xml": xml})
    assert refused(path).code == "list-damaged"


def test_one_sheet_under_many_names_is_read_only_so_often(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    sheet = sheet_xml(FAR + "<!--" + "x" * 10_000 + "-->")
    names = '<sheet name="Guests" sheetId="1" r:id="rId1"/>'
    parts = {"xl/worksheets/sheet1.xml": sheet, "xl/workbook.xml": BOOK.replace(names, names * 50)}
    path = book_with(tmp_path / "list.xlsx", parts)
    assert len(read_grids(open_list(path))[0]) == 50
    monkeypatch.setattr("addressing.guestlist.files.package._MOST_READ", 200_000)
    assert refused(path).code == "list-damaged"


@pytest.mark.parametrize(
    ("inside", "code"),
    [
        ('<row r="9e9"><c/></row>', "list-damaged"),
        ('<row r="1"><c r="1A"><v>1</v></c></row>', "list-damaged"),
        ('<row r="1"><c r="A1" t="s"><v>5</v></c></row>', "list-damaged"),
        ('<row r="1"><c r="A1" t="str"><v>' + "x" * 1_000_000 + "</v></c></row>", "list-too-large"),
    ],
    ids=["row as power", "no cell", "no such text", "a megabyte"],
)
def test_a_broken_cell_is_refused(tmp_path: Path, inside: str, code: str) -> None:
    path = book_with(tmp_path / "list.xlsx", {"xl/worksheets/sheet1.xml": sheet_xml(inside)})
    assert refused(path).code == code


@pytest.mark.parametrize(
    "before",
    [
        '<!DOCTYPE w [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;"><!ENTITY c "&b;&b;&b;">]>',
        '<!DOCTYPE w [<!ENTITY a SYSTEM "file:///etc/hostname">]>',
        "<!DOCTYPE w>",
    ],
    ids=["laughs", "external", "doctype"],
)
def test_entities_and_document_types_are_refused(tmp_path: Path, before: str) -> None:
    xml = sheet_xml(FAR, before)
    path = book_with(tmp_path / "list.xlsx", {"xl/worksheets/sheet1.xml": xml})
    assert refused(path).code == "list-damaged"
    elsewhere = {"xl/media/sheet1.png": xml, "xl/worksheets/sheet1.xml": sheet_xml(FAR)}
    read_grids(open_list(book_with(tmp_path / "other.xlsx", elsewhere)))  # never looked at


def test_deep_nesting_is_refused(tmp_path: Path) -> None:
    path = book_with(tmp_path / "list.xlsx", {"xl/worksheets/sheet1.xml": "<a>" * 5_000})
    assert refused(path).code == "list-damaged"


def test_a_zip_cut_short_is_damaged(tmp_path: Path, make_book: Callable[..., Path]) -> None:
    whole = make_book([["Name"], ["Tobias Penhew"]]).read_bytes()
    path = tmp_path / "cut.xlsx"
    path.write_bytes(whole[: len(whole) // 2])
    assert refused(path).code == "list-damaged"


def test_a_zip_with_a_password_is_list_password(tmp_path: Path) -> None:
    path = book_with(tmp_path / "list.xlsx", {"a.xml": "<a/>"})
    data = bytearray(path.read_bytes())
    at = data.rindex(b"PK\x01\x02")
    data[at + 8] |= 1  # general purpose bit 0: encrypted (APPNOTE 4.4.4)
    path.write_bytes(data)
    assert refused(path).code == "list-password"


@given(st.binary(max_size=400))
def test_no_bytes_make_reading_raise_anything_but_a_fault(
    tmp_path_factory: pytest.TempPathFactory, data: bytes
) -> None:
    path = tmp_path_factory.getbasetemp() / "random"
    path.write_bytes(data)
    assert outcome(path) in {Exit.DONE, Exit.INPUT}


@given(st.data())
def test_no_damage_to_a_workbook_raises_anything_but_a_fault(
    tmp_path_factory: pytest.TempPathFactory, data: st.DataObject
) -> None:
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w") as archive:
        archive.writestr("[Content_Types].xml", TYPES)
        archive.writestr("xl/workbook.xml", f'<workbook xmlns="{MAIN}"><sheets/></workbook>')
    whole = bytearray(target.getvalue())
    for _ in range(data.draw(st.integers(1, 6))):
        whole[data.draw(st.integers(0, len(whole) - 1))] = data.draw(st.integers(0, 255))
    path = tmp_path_factory.getbasetemp() / "hurt.xlsx"
    path.write_bytes(whole)
    assert outcome(path) in {Exit.DONE, Exit.INPUT}
