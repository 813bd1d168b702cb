"""Whatever bytes a file holds: it is read or refused in words, and every row is accounted for."""

import io
import re
import zipfile
from collections.abc import Callable
from pathlib import Path

import openpyxl
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from hypothesis.strategies import DataObject
from openpyxl.comments import Comment
from openpyxl.formatting.rule import Rule
from openpyxl.styles import Font, PatternFill
from openpyxl.styles.differential import DifferentialStyle

from addressing.faults import Exit, Fault
from addressing.guestlist import read_list
from addressing.guestlist.files.kinds import read_grids
from addressing.guestlist.files.opening import open_list
from addressing.guestlist.repair import repair_text
from addressing.guestlist.tables.headers import find_tables
from addressing.where import Where

SOMETIMES = settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
LINES = (
    "Mr. and Mrs. Tobias Penhew", "14 Larkmoor Lane", "Apt. 3", "Litchfield, CT 06759", "",
    "Ms. Ottoline Grayling, 9 Mill Row, Bar Harbor, ME 04609", "Hi Odile,", "> Linnet Ashgrove",
    "1. Bram", "- Corwin Ruddock", "Name: Ludo", "Name,Street,City,State,ZIP", "c/o Farrenby",
    "(moved)", "Thanks!", "--", "From: Bea", "P.O. Box 12", "|---|---|", "a\tb\tc", '"', "Total 12",
    "Odile  Farrenby   9 Mill Row", "UK", "here are more:", "\u202ewehneP",
)  # fmt: skip
SPREADSHEET = "application/vnd.oasis.opendocument.spreadsheet"
CONTENT = (
    '<office:document-content xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" '
    'xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" '
    'xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0" xmlns:calcext='
    '"urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0"><office:body>'
    '<office:spreadsheet><table:table table:name="Guests"><table:table-row>'
    '<table:table-cell table:number-columns-repeated="2"><text:p>Name</text:p></table:table-cell>'
    '</table:table-row><table:table-row table:number-rows-repeated="2"><table:table-cell '
    'table:number-rows-spanned="2" office:value-type="float" office:value="12"><text:p>012'
    "</text:p></table:table-cell></table:table-row><calcext:conditional-format "
    'calcext:target-range-address="Guests.A2:Guests.B9"><calcext:condition calcext:value="=1"/>'
    "</calcext:conditional-format></table:table></office:spreadsheet>"
    "</office:body></office:document-content>"
)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("any")


def outcome(path: Path) -> Exit:
    """How reading ends; anything but a Fault goes through."""
    try:
        read_list(path, {})
    except Fault as fault:
        return fault.exit if fault.text and fault.mend else Exit.INTERNAL
    return Exit.DONE


@SOMETIMES
@given(st.binary(max_size=300) | st.text(max_size=300).map(str.encode))
def test_any_bytes_are_read_or_refused(folder: Path, data: bytes) -> None:
    path = folder / "any"
    path.write_bytes(data)
    assert outcome(path) in {Exit.DONE, Exit.INPUT}


def workbook_parts() -> dict[str, bytes]:
    """The parts of a workbook with something of everything in it."""
    book = openpyxl.Workbook()
    page = book.worksheets[0]
    for row in (("Name", "Street", "ZIP"), ("Tobias Penhew", "14 Larkmoor Lane", 6759), ("=A2", 1)):
        page.append(row)
    page["A2"].font = Font(strike=True, color="FFFFFFFF")
    page["B2"].fill = PatternFill("solid", fgColor="FFFFFF00")
    page["C2"].number_format = "00000"
    page["C3"].number_format = "d-mmm"
    page["B3"].comment = Comment("moved", "")
    page.merge_cells("B2:B3")
    page.column_dimensions["C"].hidden = True
    yellow = DifferentialStyle(fill=PatternFill("solid", bgColor="FFFFFF00"))
    rule = Rule("expression", formula=['$A2="no"'], dxf=yellow)
    page.conditional_formatting.add("A2:C3", rule)
    target = io.BytesIO()
    book.save(target)
    with zipfile.ZipFile(target) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


WORKBOOK = workbook_parts()
DOCUMENT = {"mimetype": SPREADSHEET.encode(), "content.xml": CONTENT.encode()}
VALUE = re.compile(rb'="([^"]*)"|>([^<]+)<')


def hurt_bytes(data: DataObject, part: bytes) -> bytes:
    """Some bytes of a part replaced, put in, or taken out."""
    hurt = bytearray(part)
    for _ in range(data.draw(st.integers(1, 4))):
        start = data.draw(st.integers(0, len(hurt)))
        end = min(len(hurt), start + data.draw(st.integers(0, 20)))
        hurt[start:end] = data.draw(st.binary(max_size=12))
    return bytes(hurt)


def hurt_values(data: DataObject, part: bytes) -> bytes:
    """Some values of a part replaced by others, so that the part stays whole."""
    found = list(VALUE.finditer(part))
    for _ in range(data.draw(st.integers(1, 3)) if found else 0):
        match = data.draw(st.sampled_from(found))
        group = 1 if match[1] is not None else 2
        odd = data.draw(
            st.sampled_from((b"", b"-1", b"99999999999", b"1e999", b"nan", b"x", b"A1:XFD1048576"))
        )
        part = part[: match.start(group)] + odd + part[match.end(group) :]
        found = list(VALUE.finditer(part))
    return part


@SOMETIMES
@given(st.data())
@pytest.mark.parametrize("parts", [WORKBOOK, DOCUMENT], ids=["workbook", "document"])
@pytest.mark.parametrize("hurt", [hurt_bytes, hurt_values], ids=["bytes", "values"])
def test_a_book_with_a_hurt_part_is_read_or_refused(
    folder: Path,
    parts: dict[str, bytes],
    hurt: Callable[[DataObject, bytes], bytes],
    data: DataObject,
) -> None:
    name = data.draw(st.sampled_from(sorted(parts)))
    path = folder / "hurt"
    with zipfile.ZipFile(path, "w") as archive:
        for part, content in parts.items():
            archive.writestr(part, hurt(data, content) if part == name else content)
    assert outcome(path) in {Exit.DONE, Exit.INPUT}


@SOMETIMES
@given(st.lists(st.sampled_from(LINES), max_size=14))
def test_every_line_of_a_text_is_used_or_listed(folder: Path, lines: list[str]) -> None:
    path = folder / "mail.txt"
    path.write_text("\n".join(lines), encoding="utf-8")
    try:
        grids, _, _ = read_grids(open_list(path))
        tables, unused, _ = find_tables(grids, {})
    except Fault:
        return
    if not all(grid.meanings for grid in grids):
        return
    held = [str(c.where.cell) for table in tables for row in table.rows for c in row.cells if c]
    numbers = {int(cell[1:]) for cell in held} | {line.row for line in unused}
    filled = {number for number, line in enumerate(lines, start=1) if line.strip(" >")}
    assert numbers <= filled
    joined = [c.text for table in tables for row in table.rows for c in row.cells if c]
    for number in filled - numbers:  # a line that goes on with the one before is in its cell
        words = re.sub(r"^(?:>|\d+\.|-|Name:) ?", "", lines[number - 1]).strip(" ()")
        assert any(repair_text(words, Where("x"))[0] in text for text in joined), words
    guest_list, _ = read_list(path, {})
    used = sum(len(household.rows) for household in guest_list.households)
    assert guest_list.rows == used + len(guest_list.unused)


@given(st.text())
def test_a_repaired_text_is_repaired(text: str) -> None:
    once = repair_text(text, Where("x"))[0]
    assert repair_text(once, Where("x")) == (once, ())
