"""Each code that the reading of a list can give: a list that has it, and one just beside it."""

import datetime as dt
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import pytest
from openpyxl.cell.rich_text import CellRichText, TextBlock
from openpyxl.cell.text import InlineFont
from openpyxl.comments import Comment
from openpyxl.styles import Font, PatternFill
from openpyxl.workbook import Workbook

from addressing.records.findings import Finding, Severity, held_households
from addressing.records.guests import GuestList
from addressing.tables import lookup, table

Row = Sequence[object]
Change = Callable[[Workbook], object]
ReadRows = Callable[..., tuple[GuestList, tuple[Finding, ...]]]

HEADER = ("Name", "Street", "City", "State", "ZIP")
PENHEW = ("Mr. Tobias Penhew", "14 Larkmoor Lane", "Litchfield", "CT", "06759")
GRAYLING = ("Ms. Ottoline Grayling", "431 Weathervane Drive", "Bar Harbor", "ME", "04609")
HALVORSBY = ("Dr. Ingrid Halvorsby", "1440 Birchbark Trail", "Duluth", "MN", "55802")
CLEAN: tuple[Row, ...] = (HEADER, PENHEW, GRAYLING, HALVORSBY)
PAIRS: tuple[Row, ...] = (
    HEADER,
    ("Mr. and Mrs. Tobias Penhew", *PENHEW[1:]),
    ("Mr. and Mrs. Alaric Grayling", *GRAYLING[1:]),
    ("Dr. and Mrs. Ludo Halvorsby", *HALVORSBY[1:]),
)
MORE: tuple[Row, ...] = (("Mr. Corwin Ruddock", "9 Birchbark Trail", "Duluth", "MN", "55802"),)


@dataclass(frozen=True, slots=True)
class Case:
    """Rows that give a code at `cell`, and rows beside them that don't."""

    code: str
    rows: Sequence[Row]
    cell: str | None
    beside: Sequence[Row] = CLEAN
    change: Change | None = None
    beside_change: Change | None = None


def named(name: str) -> Row:
    """One clean household of that name."""
    return (name, *PENHEW[1:])


def at(street: str = "14 Larkmoor Lane", *place: str) -> Row:
    """Mr. Penhew at an address."""
    return (PENHEW[0], street, *(place or PENHEW[2:]))


def with_column(header: str, text: object, *, rest: object = None) -> tuple[Row, ...]:
    """The clean list with one column more; `text` stands in the first row."""
    return ((*HEADER, header), (*PENHEW, text), (*GRAYLING, rest), (*HALVORSBY, rest))


def first(row: Row) -> tuple[Row, ...]:
    """The clean list with another first row."""
    return (HEADER, row, GRAYLING, HALVORSBY)


def titled(title: str) -> tuple[Row, ...]:
    """The clean list with a column of titles in front, empty but for the first row's."""
    rows = ((title, "Odile Penhew", *PENHEW[1:]), (None, *GRAYLING), (None, *HALVORSBY))
    return (("Title", *HEADER), *rows)


def seasonal(dates: str | None) -> tuple[Row, ...]:
    """The clean list with a winter address in its first row, or with none."""
    header = (*HEADER, "Winter Street", "Winter City", "Winter State", "Winter ZIP", "Season Dates")
    winter = ("9 Birchbark Trail", "Duluth", "MN", "55802", dates) if dates else (None,) * 5
    return (header, (*PENHEW, *winter), (*GRAYLING, *[None] * 5), (*HALVORSBY, *[None] * 5))


def abroad(postcode: str, country: str) -> tuple[Row, ...]:
    """The clean list with its first household abroad."""
    row = (PENHEW[0], "14 Larkmoor Road", "Ottawa", "ON", postcode, country)
    return ((*HEADER, "Country"), row, (*GRAYLING, None), (*HALVORSBY, None))


def strike(book: Workbook) -> None:
    for cell in book.worksheets[0][2]:
        cell.font = Font(strike=True)


def strike_a_word(book: Workbook) -> None:
    words = (TextBlock(InlineFont(strike=True), "Mr. Tobias Penhew"), " and Ms. Linnet Ashgrove")
    book.worksheets[0]["A2"] = CellRichText(*words)


def hide_row(book: Workbook) -> None:
    book.worksheets[0].row_dimensions[2].hidden = True


def hide_column(book: Workbook) -> None:
    book.worksheets[0].column_dimensions["B"].hidden = True


def hide_notes(book: Workbook) -> None:
    book.worksheets[0].column_dimensions["F"].hidden = True


def merge(cells: str) -> Callable[[Workbook], None]:
    return lambda book: book.worksheets[0].merge_cells(cells)


def whiten(book: Workbook) -> None:
    book.worksheets[0]["B2"].font = Font(color="FFFFFFFF")


def fill(*cells: str) -> Change:
    def change(book: Workbook) -> None:
        for cell in cells:
            book.worksheets[0][cell].fill = PatternFill("solid", fgColor="FFFFFF00")

    return change


def comment(text: str) -> Change:
    def change(book: Workbook) -> None:
        book.worksheets[0]["A2"].comment = Comment(text, "")

    return change


def more_sheets(*, hidden: bool, rows: Sequence[Row], name: str = "More") -> Change:
    def change(book: Workbook) -> None:
        page = book.create_sheet(name)
        page.sheet_state = "hidden" if hidden else "visible"
        for row in rows:
            page.append(list(row))

    return change


DATE = dt.datetime(2026, 12, 3)  # noqa: DTZ001 - a cell has no zone
CASES = (
    Case("name-missing", first((None, *PENHEW[1:])), "B2"),
    Case("address-missing", first((PENHEW[0], None, None, None, None)), "A2"),
    Case("address-incomplete", first(at("14 Larkmoor Lane", "", "CT", "06759")), "B2"),
    Case("address-incomplete", first(at("Larkmoor Lane")), "B2", first(at("Nine Larkmoor Lane"))),
    Case(
        "address-doubtful",
        first(at("14 Larkmoor Lane, P.O. Box 12", "Nantucket", "MA", "02554")),
        "B2",
        first(at("14 Larkmoor Lane, Apt. 12")),
    ),
    Case("address-dual", first(at("14 Larkmoor Lane, P.O. Box 12")), "B2",
         first(at("14 Larkmoor Lane, Apt. 12"))),
    Case("zip-missing", first(at("14 Larkmoor Lane", "Litchfield", "CT", "")), "B2"),
    Case("zip-doubtful", first(at("14 Larkmoor Lane", "Litchfield", "CT", "6O759")), "E2"),
    Case("zip-doubtful", first(at("14 Larkmoor Lane", "Duluth", "MN", "5580")), "E2"),
    Case("zip-not-in-state", first(at("14 Larkmoor Lane", "Litchfield", "ME", "06759")), "E2"),
    Case("zip-not-in-town", first(at("14 Larkmoor Lane", "Boston", "MA", "01201")), "E2"),
    Case("town-misspelt", first(at("14 Larkmoor Lane", "Lichfield", "CT", "06759")), "C2"),
    Case("postcode-doubtful", abroad("K1A 0BI", "Canada"), "E2", abroad("K1A 0B1", "Canada")),
    Case("zip-missing", abroad("", "Canada"), "B2", abroad("K1A 0B1", "Canada")),
    Case("country-unknown", abroad("K1A 0B1", "Larkmoor"), "F2", abroad("K1A 0B1", "Canada")),
    Case("country-assumed", abroad("K1A 0B1", ""), "E2", abroad("K1A 0B1", "Canada")),
    Case("duplicate-probable", (*CLEAN, ("Mr. Tobias Penhew", *GRAYLING[1:])), "A2"),
    Case("row-struck", CLEAN, "A2", change=strike),
    Case("row-struck", CLEAN, "A2", change=strike_a_word),
    Case("row-hidden", CLEAN, "A2", change=hide_row),
    Case(
        "column-hidden",
        CLEAN,
        "B2",
        with_column("Notes", "usher"),
        hide_column,
        hide_notes,
    ),
    Case("cells-merged", CLEAN, "A2", change=merge("A2:A3")),
    Case("address-merged", CLEAN, "B2", change=merge("B2:E3")),
    Case("text-unseen", CLEAN, "B2", change=whiten),
    Case("direction-marks", first(named("Mr. Tobias \u202ewehneP")), "A2",
         first(named("\u202aMr. Tobias Penhew\u202c"))),
    Case("colour-not-followed", CLEAN, "A3", change=fill("A3")),
    Case("link-not-followed", first(at("https://maps.example/larkmoor")), "B2"),
    Case("formula-no-value", first(at("=A9&B9")), "B2"),
    Case("cell-too-long", first(at("14 Larkmoor Lane, " * 60)), "B2", first(at("Larkmoor " * 9))),
    Case("date-for-text", first((PENHEW[0], DATE, *PENHEW[2:])), "B2"),
    Case("marker-in-list", with_column("Notes", "Declined"), "F2", with_column("Notes", "usher")),
    Case("marker-in-list", first(named("Mr. Tobias Penhew (deceased)")), "A2"),
    Case("marker-in-list", CLEAN, "A2", change=comment("declined"), beside_change=comment("usher")),
    Case("name-doubtful", first(named("Mr. Tobias Penhew?")), "A2"),
    Case("note-open", with_column("Notes", "still together?"), "F2",
         with_column("Notes", "vegan meal?")),
    Case("unit-noted", with_column("Notes", "2nd floor"), "F2",
         with_column("Notes", "2nd floor of the hall")),
    Case("name-noted", with_column("Notes", "plus one: Jonas Farrenby"), "F2",
         with_column("Notes", "plus one")),
    Case("children-unsaid", first(named("Tobias & Odile & Linnet Penhew")), "A2",
         first(named("Tobias & Odile Penhew"))),
    Case("family-name-doubtful", first(named("Odile Elizabeth and Tobias Penhew")), "A2",
         first(named("Odile Larkmoor and Tobias Penhew"))),
    Case("family-spelt-twice", first(named("Tobias Okonsky and Odile Okonski")), "A2",
         first(named("Tobias Okonsky and Odile Okonska"))),
    Case("lone-name-doubtful", first(named("Dr. Hart & Ms. Nina Penhew")), "A2",
         first(named("Dr. Walter & Ms. Nina Penhew"))),
    Case("title-letters", titled("W"), "A2", titled("Mrs.")),
    Case("suffix-doubtful", first(named("Sven and Ingrid Penhew Jr.")), "A2",
         first(named("Sven Penhew Jr. and Ingrid Penhew"))),
    Case("name-order-doubtful", first(named("Walter, Tobias")), "A2",
         first(named("Penhew, Mr. T."))),
    Case("surname-missing", first(named("Tobias Penhew & Odile")), "A2"),
    Case(
        "children-assumed",
        first(named("Tobias and Odile Penhew, Linnet and Bram")),
        "A2",
        first(named("Tobias and Odile Penhew, Linnet (7) and Bram (4)")),
    ),
    Case("guest-noted", with_column("Notes", "plus one?"), "F2",
         with_column("Notes", "no plus one")),
    Case("children-noted", with_column("Notes", "kids invited too"), "F2",
         with_column("Notes", "kids not invited")),
    Case("apart-noted",
         ((*HEADER, "Notes"), ("Tobias & Odile Penhew", *PENHEW[1:], "separate invites pls"),
          (*GRAYLING, None)), "F2",
         ((*HEADER, "Notes"), (*PENHEW, "separate invites pls"), (*GRAYLING, None))),
    Case("count-differs", with_column("Adults", 2, rest=1), "F2",
         with_column("Adults", 1, rest=1)),
    Case("count-differs", with_column("Number Invited", 3, rest=1), "F2",
         with_column("Number Invited", 1, rest=1)),
    Case("given-missing", first(named("Mr. and Mrs. Penhew")), "A2",
         first(named("Mr. and Mrs. Tobias Penhew"))),
    Case("given-missing", first(named("Dr. Odile Penhew and Mr. Penhew")), "A2",
         first(named("Lady Penhew"))),
    Case("title-missing", first(named("Tobias Penhew")), "A2", first(named("Tobias Penhew, M.D."))),
    Case("partner-unnamed", first(named("Judge Odile Penhew & husband")), "A2",
         first(named("Judge Odile Penhew and Guest"))),
    Case("guest-unnamed", first(named("Mr. Tobias Penhew and Guest")), "A2",
         first(named("Mr. Tobias Guest"))),
    Case("family-unnamed", first(named("Mr. Tobias Penhew and Family")), "A2"),
    Case("family-unnamed", with_column("Children", 2), "A2", with_column("Children", "Linnet")),
    Case("zip-zero-restored", first(at("14 Larkmoor Lane", "Litchfield", "CT", "6759")), "E2"),
    Case("zip-tidied", first(at("14 Larkmoor Lane", "Litchfield", "CT", "067591234")), "E2",
         first(at("14 Larkmoor Lane", "Litchfield", "CT", "06759-1234"))),
    Case("state-from-zip", first(at("14 Larkmoor Lane", "Litchfield", "", "06759")), "E2"),
    Case("address-as-above", (*CLEAN, ("Ms. Linnet Ashgrove", "same as above", "", "", "")), "A5",
         (*CLEAN, ("Ms. Linnet Ashgrove", "16 Larkmoor Lane", *PENHEW[2:]))),
    Case("town-not-listed", first(at("14 Larkmoor Lane", "Wexcombe Mills", "CT", "06759")), "C2"),
    Case("town-near-zip", first(at("14 Larkmoor Lane", "Framingham Center", "MA", "01702")), "C2"),
    Case("town-not-preferred", first(at("14 Larkmoor Lane", "Minnetrista", "MN", "55387")), "C2"),
    Case("duplicate-merged", (*PAIRS, PAIRS[1]), "A5", PAIRS),
    Case("same-door", (*PAIRS, *MORE, ("Ms. Linnet Ashgrove", *MORE[0][1:])), "A6",
         (*PAIRS, *MORE)),
    Case("cell-note", CLEAN, "A2", change=comment("an usher")),
    Case("remark", with_column("Notes", "vegetarian"), "F2"),
    Case("remark", first(at("14 Larkmoor Lane (ring twice)")), "A2"),
    Case("by-hand", with_column("By hand", "yes"), "A2", with_column("By hand", "no")),
    Case("by-hand-noted", with_column("Notes", "will give by hand"), "F2",
         with_column("Notes", "made by hands")),
    Case("season-address", seasonal("Nov - Apr"), "F2", seasonal(None)),
    Case("own-envelope", first(named("Mr. and Mrs. Tobias Penhew, Linnet (19)")), "A2",
         first(named("Mr. and Mrs. Tobias Penhew, Linnet (9)"))),
    Case("letters-left-out", first(named("Captain Tobias Penhew, USMC (Ret.)")), "A2",
         first(named("Captain Tobias Penhew"))),
    Case("family-words-doubtful", first(named("Mr. Carlos Wexcombe Farrenby")), "A2",
         first(named("Mr. Carlos García Pérez"))),
    Case("spaces-mended", first(named("Mr.  Tobias Penhew ")), "A2"),
    Case("invisible-removed", first(named("Mr. Tobias\u200b Penhew")), "A2"),
    Case("encoding-mended", first(named("Mr. JosÃ© Penhew")), "A2",
         first(named("Mr. José Penhew"))),
    Case("accents-joined", first(named("Mr. Zoe\u0308 Penhew")), "A2"),
    Case("lookalike-mended", first(named("Ms. \u0410nnika Penhew")), "A2"),
    Case("column-unknown", with_column("Zorblex", "seven"), "F1",
         with_column("Notes", "seven")),
    Case("sheet-hidden", CLEAN, None, CLEAN,
         more_sheets(hidden=True, rows=(HEADER, at("16 Larkmoor Lane"))),
         more_sheets(hidden=False, rows=(HEADER, ("Ms. Linnet Ashgrove", "16 Larkmoor Lane",
                                                  *PENHEW[2:])))),
    Case("partner-in-brackets", first(named("Mr. and Mrs. Tobias Penhew (Marjorie)")), "A2",
         first(named("Mr. Tobias Penhew (Toby)"))),
    Case("sheet-aside", CLEAN, None, CLEAN,
         more_sheets(hidden=False, name="Vendors", rows=(HEADER, at("16 Larkmoor Lane"))),
         more_sheets(hidden=False, name="Office", rows=(HEADER, named("Ms. Linnet Ashgrove")))),
    Case("block-aside", (*CLEAN, ("Vendors (no invite)",), ("The Brass Penhews",)), "A5",
         (*CLEAN, ("Friends",), ("Ms. Linnet Ashgrove", *GRAYLING[1:]))),
    Case("sheet-not-read", CLEAN, None, CLEAN,
         more_sheets(hidden=False, rows=(("Cake", "Price"), ("Lemon", 120)))),
)  # fmt: skip
IDS = [f"{case.code} {number}" for number, case in enumerate(CASES, start=1)]
ELSEWHERE = {
    "glyph-missing": "typesetting",
    "line-too-wide": "typesetting",
    "block-too-tall": "typesetting",
    "mixed-direction": "typesetting",
    "size-stepped": "typesetting",
    "size-kept": "job",
    "words-near": "job",
    "face-stepped-in": "typesetting",
    "capitals-recased": "wording",
    "unit-marked": "wording",
    "capitals-set": "wording",
    "hosts-missing": "wording",
    "words-differ": "wording",
    "table-missing": "wording",
    "stroke-fine": "job",
    "base-broken": "job",
    "words-by-docket": "wording",
    "inner-differs": "wording",
    "inner-listed": "wording",
    "words-unused": "wording",
    "preview-and-print": "materials",
    "light-on-dark": "job",
    "not-machine-readable": "job",
    "answer-stale": "questions",
    "answer-carried": "questions",
    "merged-people": "questions",
    "merged-place": "questions",
    "merged-noted": "questions",
    "merged-told": "questions",
    "correction-stale": "questions",
    "remark-gone": "questions",
    "correction-gainsaid": "questions",
    "answer-overruled": "questions",
    "list-read-before": "job",
    "answer-conflict": "questions",
    "answer-not-understood": "questions",
    "answer-remark": "questions",
    "beside-names": "questions",
    "left-out": "questions",
    "household-likely": "job",
    "answers-gone": "job",
    "order-small": "job",
    "answer-replaced": "questions",
    "client-wrote": "questions",
    "client-answered": "questions",
    "client-adds": "questions",
    "columns-own": "questions",
    "column-doubtful": "test_headers.py",
    "rows-above-header": "test_headers.py",
    "headings-read": "test_headings.py",
    "kin-left-out": "test_unlettered.py",
    "nickname-left-out": "test_unlettered.py",
    "name-fuller": "test_unlettered.py",
    "given-short": "test_short_givens.py",
    "name-beside": "test_unlettered.py",
    "rows-not-guests": "test_said_elsewhere.py",
    "table-on-its-side": "test_on_side.py",
    "lines-not-read": "test_pasted.py",
    "corrections-read": "test_fix_sheets.py",
    "corrections-open": "test_fix_sheets.py",
    "said-elsewhere": "test_said_elsewhere.py",
    "sentence-read": "test_prose.py",
    "titles-noted": "test_title_headings.py",
    "sender-listed": "test_signatures.py",
    "encoding-doubtful": "test_textfile.py",
    "styles-not-read": "test_workbook.py",
    "macros-not-run": "test_workbook.py",
    "household-doubtful": "test_households.py",
    "groups-not-households": "test_households.py",
    "formal-differs": "test_formal.py",
    "addresses-beside": "test_addresses_beside.py",
    "addresses-of-nobody": "test_addresses_beside.py",
    "legend": "test_parties.py",
    "household-assumed": "test_households.py",
    "guest-out": "test_households.py",
    "season-chosen": "test_seasons.py",
    "firm-doubtful": "test_address_books.py",
    "firm-left-out": "test_address_books.py",
    "address-at-work": "test_address_books.py",
    "wave-later": "job",
    "wave-unsaid": "job",
    "partner-family-assumed": "test_households.py",
    "title-doubtful": "test_households.py",
    "titles-beside": "test_households.py",
}
"""Codes that another room gives, or that another file expects."""


@pytest.mark.parametrize("case", CASES, ids=IDS)
def test_a_list_that_has_it_gives_the_code_at_its_cell(case: Case, read_rows: ReadRows) -> None:
    _, findings = read_rows(case.rows, case.change)
    found = [finding for finding in findings if finding.code == case.code]
    assert found, [finding.code for finding in findings]
    assert found[0].where.cell == case.cell
    assert found[0].text
    assert found[0].mend


@pytest.mark.parametrize("case", CASES, ids=IDS)
def test_a_list_just_beside_it_does_not(case: Case, read_rows: ReadRows) -> None:
    _, findings = read_rows(case.beside, case.beside_change)
    assert case.code not in {finding.code for finding in findings}


@pytest.mark.parametrize("case", CASES, ids=IDS)
def test_severity_and_waiting_are_those_of_the_table(case: Case, read_rows: ReadRows) -> None:
    guest_list, findings = read_rows(case.rows, case.change)
    kinds = {row["code"]: row for row in table("findings")}
    keys = {household.key for household in guest_list.households}
    for finding in findings:
        kind = kinds[finding.code]
        assert finding.severity == Severity(kind["severity"])
        assert finding.holds == (kind["holds"] == "yes")
        assert finding.household is None or finding.household in keys
    assert held_households(findings) <= keys


def test_the_clean_list_has_no_findings(read_rows: ReadRows) -> None:
    guest_list, findings = read_rows(CLEAN)
    assert findings == ()
    assert len(guest_list.households) == 3


def test_every_code_of_the_table_is_expected_somewhere() -> None:
    codes = set(lookup("findings", "code", "severity"))
    assert codes == {case.code for case in CASES} | set(ELSEWHERE)


def test_of_two_streets_the_one_that_is_not_struck_is_used(read_rows: ReadRows) -> None:
    def strike(words: str, rest: str) -> Change:
        struck = TextBlock(InlineFont(strike=True), words)

        def change(book: Workbook) -> None:
            book.worksheets[0]["B2"] = CellRichText(struck, rest)

        return change

    _, findings = read_rows(CLEAN, strike("9 Mill Row", " 14 Larkmoor Lane"))
    assert [each.code for each in findings] == ["remark"]
    _, findings = read_rows(CLEAN, strike("Apt 3", " 14 Larkmoor Lane"))
    assert "row-struck" in {each.code for each in findings}


@pytest.mark.parametrize(
    "row", [r for r in table("row_words") if r["kind"] == "posted-later"], ids=lambda r: r["word"]
)
def test_what_is_posted_another_day_is_not_given_by_hand(
    row: dict[str, str], read_rows: ReadRows
) -> None:
    for said, by_hand in ((f"{row['example']}, please", False), (row["counter_example"], True)):
        _, findings = read_rows(with_column("Notes", said))
        assert ("by-hand-noted" in {each.code for each in findings}) is by_hand
