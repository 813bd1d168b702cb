"""OpenDocument spreadsheets: what is seen reaches the grid, and what a plain reading loses does."""

import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

from addressing.faults import Fault
from addressing.guestlist import read_list
from addressing.guestlist.files.kinds import read_grids
from addressing.guestlist.files.opening import open_list
from addressing.guestlist.grid import Cell, Grid, Merge

SPACES = (
    " ".join(
        f'xmlns:{short}="urn:oasis:names:tc:opendocument:xmlns:{uri}:1.0"'
        for short, uri in (
            ("office", "office"),
            ("table", "table"),
            ("text", "text"),
            ("style", "style"),
            ("fo", "xsl-fo-compatible"),
            ("draw", "drawing"),
        )
    )
    + ' xmlns:calcext="urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0"'
)
TYPE = "application/vnd.oasis.opendocument.spreadsheet"
STYLES = """
<style:style style:name="out" style:family="table-cell">
 <style:text-properties style:text-line-through-style="solid"/></style:style>
<style:style style:name="out-again" style:family="table-cell" style:parent-style-name="out"/>
<style:style style:name="word-out" style:family="text">
 <style:text-properties style:text-line-through-type="single"/></style:style>
<style:style style:name="white" style:family="table-cell">
 <style:text-properties fo:color="#ffffff"/></style:style>
<style:style style:name="yellow" style:family="table-cell">
 <style:table-cell-properties fo:background-color="#ffff00"/></style:style>
<style:style style:name="ruled" style:family="table-cell">
 <style:map style:condition="cell-content()=&quot;no&quot;" style:apply-style-name="yellow"/>
</style:style>
<style:style style:name="away" style:family="table">
 <style:table-properties table:display="false"/></style:style>
"""
RULES = """<calcext:conditional-formats>
<calcext:conditional-format calcext:target-range-address="Guests.A2:Guests.B9 'My List'.D2">
<calcext:condition calcext:apply-style-name="yellow" calcext:value="duplicate"/>
</calcext:conditional-format></calcext:conditional-formats>"""
Make = Callable[..., Path]


@pytest.fixture
def make_document(tmp_path: Path) -> Make:
    """Write a document; `rows` is what stands in its first sheet, `more` what follows it."""

    def make(rows: str, more: str = "", before: str = "", name: str = "list.ods") -> Path:
        path = tmp_path / name
        content = (
            f'<?xml version="1.0"?>{before}<office:document-content {SPACES}>'
            f"<office:automatic-styles>{STYLES}</office:automatic-styles>"
            f'<office:body><office:spreadsheet><table:table table:name="Guests">{rows}'
            f"</table:table>{more}</office:spreadsheet></office:body></office:document-content>"
        )
        with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
            archive.writestr("mimetype", TYPE)
            archive.writestr("content.xml", content)
        return path

    return make


def text(*words: str, attributes: str = "") -> str:
    paragraphs = "".join(f"<text:p>{word}</text:p>" for word in words)
    return (
        f'<table:table-cell office:value-type="string" {attributes}>{paragraphs}</table:table-cell>'
    )


def row(*cells: str, attributes: str = "") -> str:
    return f"<table:table-row {attributes}>{''.join(cells)}</table:table-row>"


def grids_of(path: Path) -> tuple[Grid, ...]:
    return read_grids(open_list(path))[0]


def cell_at(grid: Grid, number: int, column: int) -> Cell:
    found = next(r for r in grid.rows if r.number == number).cell(column)
    assert found is not None
    return found


def test_a_document_is_known_by_its_bytes_and_its_list_is_read(make_document: Make) -> None:
    header = [text(word) for word in ("Name", "Street", "City", "State", "ZIP")]
    zip_code = (
        '<table:table-cell office:value-type="float" office:value="6759">'
        "<text:p>06759</text:p></table:table-cell>"
    )
    guest = [text("Mr. Tobias Penhew"), text("14 Larkmoor Lane"), text("Litchfield"), text("CT")]
    path = make_document(row(*header) + row(*guest, zip_code), name="list.xlsx")
    guest_list, findings = read_list(path, {})
    (household,) = guest_list.households
    assert household.address is not None
    assert household.address.postcode is not None
    assert household.address.postcode.text == "06759"
    assert str(household.address.postcode.cells[0]) == "Guests!E2"
    assert not [finding for finding in findings if finding.holds]


def test_repeated_rows_and_cells_are_there_as_often_as_they_are_seen(make_document: Make) -> None:
    twice = 'table:number-columns-repeated="2"'
    path = make_document(
        row(text("Name", attributes=twice), text("City"))
        + row("<table:table-cell/>", attributes='table:number-rows-repeated="3"')
        + row(text("Tobias Penhew"), attributes='table:number-rows-repeated="2"')
        + row(
            '<table:table-cell table:number-columns-repeated="16384"/>',
            attributes='table:number-rows-repeated="1048570"',
        )
    )
    (grid,) = grids_of(path)
    assert [r.number for r in grid.rows] == [1, 5, 6]
    assert [c.where.cell for c in grid.rows[0].filled] == ["A1", "B1", "C1"]
    assert [str(r.filled[0].where) for r in grid.rows[1:]] == ["Guests!A5", "Guests!A6"]


def test_strikes_of_cells_and_of_words_are_seen(make_document: Make) -> None:
    part = 'Tobias <text:span text:style-name="word-out">and Bea</text:span> Penhew'
    path = make_document(
        row(text(part), text("ME", attributes='table:style-name="out-again"'))
        + row(text("Annika", attributes='table:style-name="out"'))
    )
    (grid,) = grids_of(path)
    assert (cell_at(grid, 1, 0).text, cell_at(grid, 1, 0).struck) == ("Tobias Penhew", ("and Bea",))
    assert cell_at(grid, 1, 1).wholly_struck
    assert [r.struck for r in grid.rows] == [False, True]


def test_hidden_rows_columns_and_sheets_are_seen(make_document: Make) -> None:
    columns = (
        '<table:table-column table:number-columns-repeated="2"/>'
        '<table:table-column table:visibility="collapse"/>'
    )
    filtered = 'table:visibility="filter"'
    path = make_document(
        columns + row(text("Name")) + row(text("Tobias"), attributes=filtered),
        f'<table:table table:name="Old" table:style-name="away">{row(text("x"))}</table:table>',
    )
    guests, old = grids_of(path)
    assert [r.hidden for r in guests.rows] == [False, True]
    assert guests.hidden_columns == {2}
    assert (guests.hidden, old.hidden) == (False, True)


def test_annotations_are_notes_and_drawings_are_no_words(make_document: Make) -> None:
    note = "<office:annotation><text:p>moved</text:p><text:p>in May</text:p></office:annotation>"
    drawing = "<draw:frame><draw:text-box><text:p>Cake!</text:p></draw:text-box></draw:frame>"
    cell = f"<table:table-cell>{note}{drawing}<text:p>Tobias</text:p></table:table-cell>"
    (grid,) = grids_of(make_document(row(cell)))
    assert cell_at(grid, 1, 0) == Cell("Tobias", cell_at(grid, 1, 0).where, note="moved\nin May")


def test_merged_cells_give_their_value_to_each_row(make_document: Make) -> None:
    merged = 'table:number-rows-spanned="2" table:number-columns-spanned="1"'
    covered = "<table:covered-table-cell><text:p>hidden below</text:p></table:covered-table-cell>"
    path = make_document(
        row(text("Tobias"), text("12 Larkmoor Lane", attributes=merged))
        + row(text("Annika"), covered)
    )
    (grid,) = grids_of(path)
    assert cell_at(grid, 2, 1).text == "12 Larkmoor Lane"
    assert cell_at(grid, 2, 1).spread
    assert grid.merges == (Merge(1, 1, 2, 1),)


def test_formulas_give_their_stored_value_or_are_none(make_document: Make) -> None:
    def formula(inside: str, attributes: str = "") -> str:
        return (
            f'<table:table-cell table:formula="of:=[.B1]" {attributes}>{inside}</table:table-cell>'
        )

    stored = formula("<text:p>Tobias</text:p>", 'office:value-type="string"')
    broken = formula("<text:p>#REF!</text:p>", 'office:value-type="string"')
    (grid,) = grids_of(make_document(row(stored, formula(""), broken)))
    said = [(c.text, c.kind, c.shown) for c in grid.rows[0].filled]
    assert said == [("Tobias", "text", None), ("", "formula", "=[.B1]"), ("", "error", "#REF!")]


def test_a_date_keeps_what_is_shown_and_unseen_text_is_told(make_document: Make) -> None:
    date = (
        '<table:table-cell office:value-type="date" office:date-value="2026-01-02">'
        "<text:p>2-Jan</text:p></table:table-cell>"
    )
    white = text("psst", attributes='table:style-name="white"')
    yellow = text("Bea", attributes='table:style-name="yellow"')
    (grid,) = grids_of(make_document(row(date, white, yellow)))
    assert (cell_at(grid, 1, 0).text, cell_at(grid, 1, 0).shown) == ("2026-01-02", "2-Jan")
    assert cell_at(grid, 1, 1).unseen
    assert grid.rows[0].colours == ((2, "FFFF00"),)


def test_changes_that_were_tracked_are_no_rows(make_document: Make) -> None:
    path = make_document(row(text("Tobias")))
    with zipfile.ZipFile(path) as archive:
        content = archive.read("content.xml").decode()
    gone = f"<table:deletion>{row(text('Gone'))}</table:deletion>"
    changes = f"<table:tracked-changes>{gone}</table:tracked-changes>"
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("mimetype", TYPE)
        archive.writestr(
            "content.xml", content.replace("<office:spreadsheet>", f"<office:spreadsheet>{changes}")
        )
    (grid,) = grids_of(path)
    assert [cell.text for r in grid.rows for cell in r.filled] == ["Tobias"]


@pytest.mark.parametrize(
    ("rows", "before", "code"),
    [
        (row(text("x"), attributes='table:number-rows-repeated="1048577"'), "", "list-too-large"),
        (
            row(
                text("x", attributes='table:number-columns-repeated="16384"'),
                attributes='table:number-rows-repeated="1000"',
            ),
            "",
            "list-too-large",
        ),
        (row(text("x" * 1_000_000)), "", "list-too-large"),
        (row("<table:table-cell/>"), "", "list-empty"),
        ("<table:table-row>", "", "list-damaged"),
        (row(text("x")), '<!DOCTYPE x [<!ENTITY a "ha">]>', "list-damaged"),
        (row(text("x"), attributes='table:number-rows-repeated="many"'), "", "list-damaged"),
    ],
    ids=["too many rows", "too many cells", "megabyte", "empty", "broken", "entity", "no number"],
)
def test_a_document_that_is_no_list_is_refused(
    make_document: Make, rows: str, before: str, code: str
) -> None:
    with pytest.raises(Fault) as caught:
        grids_of(make_document(rows, before=before))
    assert caught.value.code == code


def test_another_document_and_a_protected_one_are_named(
    make_document: Make, tmp_path: Path
) -> None:
    path = tmp_path / "letter.odt"
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("mimetype", "application/vnd.oasis.opendocument.text")
        archive.writestr("content.xml", "<x/>")
    with pytest.raises(Fault, match="text or drawing"):
        open_list(path)
    with zipfile.ZipFile(make_document(row(text("x"))), "a") as archive:
        archive.writestr("META-INF/manifest.xml", "<manifest:encryption-data/>")
    with pytest.raises(Fault) as caught:
        grids_of(tmp_path / "list.ods")
    assert caught.value.code == "list-password"


@pytest.mark.parametrize(
    ("style", "behind", "told"),
    [
        ("", "", ""),
        ("ruled", "", 'A2 (cell-content()="no")'),
        (
            "",
            RULES,
            "A2:B9 (duplicate)",
        ),
    ],
    ids=["none", "in a style", "behind the rows"],
)
def test_a_look_that_a_rule_gives_is_told(
    make_document: Make, style: str, behind: str, told: str
) -> None:
    named = f'table:style-name="{style}"' if style else ""
    rows = row(text("Name"), text("Street")) + row(
        text("Mr. Tobias Penhew", attributes=named), text("14 Larkmoor Lane")
    )
    _, findings = read_list(make_document(rows + behind), {})
    notes = [each.text for each in findings if each.code == "colour-not-followed"]
    assert len(notes) == bool(told)
    assert all(told in note for note in notes)
