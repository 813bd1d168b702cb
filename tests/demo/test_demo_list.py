"""The demo list: made by its script, believable in its towns, messy in what it must be messy in."""

import importlib.util
import zipfile
from io import BytesIO
from pathlib import Path
from types import ModuleType

import openpyxl
import pytest
import zipcodes

from addressing.materials.docket import read_docket

TOP = Path(__file__).resolve().parents[2]
MEANT_TO_DISAGREE = {"97201"}  # Portland in the wrong state


@pytest.fixture(scope="module")
def script() -> ModuleType:
    spec = importlib.util.spec_from_file_location("make_demo", TOP / "scripts" / "make_demo.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_script_makes_the_very_file_that_lies_in_the_checkout(script: ModuleType) -> None:
    made = script.stable_bytes(script.workbook())
    with zipfile.ZipFile(BytesIO(made)) as new, zipfile.ZipFile(TOP / "demo_guests.xlsx") as old:
        assert new.namelist() == old.namelist()
        for name in new.namelist():
            assert new.read(name) == old.read(name), name


def test_town_state_and_zip_agree_but_where_they_are_meant_not_to(script: ModuleType) -> None:
    # against the table of ZIP codes that the package `zipcodes` carries
    seen = 0
    for row in script.rows_of("demo_guests.tsv")[1:]:
        town, state, code, country = row[6:10]
        digits = code.rpartition(":")[2].zfill(5)
        if country or not code or digits in MEANT_TO_DISAGREE:
            continue
        (found,) = zipcodes.matching(digits)  # type: ignore[no-untyped-call]
        names = {found["city"].lower(), *(name.lower() for name in found["acceptable_cities"])}
        assert found["state"] == state.upper(), row
        assert town.lower() in names, row
        seen += 1
    assert seen > 40


def test_the_list_has_its_hidden_struck_merged_and_remarked_rows() -> None:
    book = openpyxl.load_workbook(TOP / "demo_guests.xlsx", rich_text=True)
    sheet = book["Guests"]
    rows = range(5, sheet.max_row + 1)
    assert sum(bool(sheet.cell(row, 2).font.strike) for row in rows) == 1
    assert sum(sheet.row_dimensions[row].hidden for row in rows) == 1
    assert [str(area) for area in sheet.merged_cells.ranges] == ["D48:D49"]
    assert sum(sheet.cell(row, 2).comment is not None for row in rows) == 1
    parts = [sheet.cell(row, 2).value for row in rows]
    rich = [part for part in parts if isinstance(part, openpyxl.cell.rich_text.CellRichText)]
    assert [block.text for text in rich for block in text if not isinstance(block, str)] == [
        "Sabine Rouvelle"
    ]
    lost = [sheet.cell(row, 8) for row in rows if isinstance(sheet.cell(row, 8).value, int)]
    assert {cell.number_format for cell in lost} == {"General", "00000"}


def test_the_demo_docket_is_read_and_chooses_every_piece_that_it_makes() -> None:
    docket = read_docket(TOP / "demo_docket.toml")
    assert {choice.kind for choice in docket.pieces} >= set(docket.make)
    assert docket.hosts is not None
    assert docket.date == "2025-03-10"
