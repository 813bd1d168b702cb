"""Faults, places, lengths and tables: small, and everybody leans on them."""

import copy
import pickle

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl.utils import get_column_letter

from addressing.faults import Exit, Fault
from addressing.tables import lookup, table
from addressing.units import mm_to_pt, pt_to_mm
from addressing.where import Where, cell_name, column_letters


def test_exit_codes_are_those_that_scripts_rely_on() -> None:
    # the contract; 70 is EX_SOFTWARE of sysexits.h, 130 is 128 and the signal of Ctrl-C
    assert {code.name: code.value for code in Exit} == {
        "DONE": 0,
        "HELD": 1,
        "OPTIONS": 2,
        "INPUT": 3,
        "WRITE": 4,
        "PREFLIGHT": 5,
        "INTERNAL": 70,
        "INTERRUPTED": 130,
    }


def fields_of(fault: Fault) -> tuple[object, ...]:
    return (fault.exit, fault.code, fault.text, fault.mend, fault.where)


def test_a_fault_crosses_to_another_process_unchanged() -> None:
    fault = Fault(Exit.INPUT, "list-empty", "It is empty.", "Ask again.", Where("a.csv"))
    assert fields_of(pickle.loads(pickle.dumps(fault))) == fields_of(fault)  # noqa: S301 - our own
    assert fields_of(copy.copy(fault)) == fields_of(fault)


def test_a_fault_takes_a_note_and_prints_its_text() -> None:
    fault = Fault(Exit.INPUT, "list-empty", "It is empty.", "Ask again.")
    fault.add_note("seen twice")
    assert str(fault) == "It is empty."
    assert fault.where is None


@pytest.mark.parametrize(
    ("where", "shown"),
    [
        (Where("a.xlsx", "Guests", "C14"), "Guests!C14"),
        (Where("a.xlsx", "who! what?", "C14"), "who! what?!C14"),
        (Where("a.csv", None, "C14"), "C14"),
        (Where("a.xlsx", "Guests"), "Guests"),
        (Where("a.csv"), "a.csv"),
    ],
)
def test_a_place_is_shown_as_people_name_it(where: Where, shown: str) -> None:
    assert str(where) == shown


def test_places_in_one_sheet_can_be_sorted() -> None:
    one, two = Where("a.xlsx", "Guests", "A1"), Where("a.xlsx", "Guests", "B1")
    assert sorted([two, one]) == [one, two]


@given(st.integers(1, 16_384))
def test_columns_are_named_as_spreadsheets_name_them(column: int) -> None:
    # against openpyxl
    assert column_letters(column) == get_column_letter(column)
    assert cell_name(column, 7) == f"{get_column_letter(column)}7"


@given(st.floats(-1e6, 1e6))
def test_millimetres_come_back_from_points(length: float) -> None:
    assert pt_to_mm(mm_to_pt(length)) == pytest.approx(length)


def test_a_sheet_of_a4_is_as_many_points_as_everybody_says() -> None:
    # ISO 216: 210 by 297 mm; common practice: 595 by 842 pt
    assert (round(mm_to_pt(210)), round(mm_to_pt(297))) == (595, 842)


def test_a_table_is_read_once_without_its_remarks() -> None:
    rows = table("directionals")
    assert rows is table("directionals")
    assert all(set(row) == set(rows[0]) for row in rows)
    assert lookup("directionals", "direction", "abbreviation")["North"] == "N"


def test_cells_of_a_table_have_no_blanks_around_them() -> None:
    for name in ("titles", "findings", "states"):
        assert all(cell == cell.strip() for row in table(name) for cell in row.values())
