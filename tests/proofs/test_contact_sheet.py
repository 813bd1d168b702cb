"""The client's proof, read back by libraries that had no part in drawing it (pdfium, qpdf)."""

import unicodedata
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, cast

import pikepdf
import pypdfium2
import pytest

from addressing.proofs import contact_sheet
from addressing.proofs.entries import Entry, draw_name
from addressing.proofs.words import mark
from addressing.records.findings import Finding, Severity
from addressing.records.proofs import ProofHousehold, ProofJob, ProofSet
from addressing.where import Where

if TYPE_CHECKING:
    from addressing.proofs.flow import Pen

Sets = tuple[ProofSet, ...]


def texts(path: Path) -> list[str]:
    """The text of each sheet, white space as single blanks."""
    document = pypdfium2.PdfDocument(path)
    try:
        pages = [page.get_textpage().get_text_range() for page in document]
    finally:
        document.close()
    return [" ".join(page.split()) for page in pages]


@pytest.fixture
def proof(tmp_path: Path, job: ProofJob, sets: Sets) -> Path:
    path = tmp_path / "proof.pdf"
    contact_sheet(path, job, sets)
    return path


def test_the_number_of_sheets_is_what_was_told(tmp_path: Path, job: ProofJob, sets: Sets) -> None:
    path = tmp_path / "proof.pdf"
    told = contact_sheet(path, job, sets)
    pages = texts(path)
    assert len(pages) == told
    assert [page.rsplit(maxsplit=3)[-3:] for page in pages] == [
        [str(number), "/", str(told)] for number in range(1, told + 1)
    ]


def test_every_household_is_named_with_its_number(proof: Path, job: ProofJob) -> None:
    whole = " ".join(texts(proof))
    for number, household in enumerate(job.households, start=1):
        assert f"{number} {household.name}" in whole


def test_every_line_of_every_envelope_can_be_searched(proof: Path, sets: Sets) -> None:
    whole = " ".join(texts(proof))
    lines = [line.text for shown in sets for page in shown.pages for line, *_ in page.lines]
    assert len(lines) > 15
    for line in lines:
        assert line in whole


def test_no_finding_is_lost_nor_said_twice(proof: Path, job: ProofJob) -> None:
    whole = " ".join(texts(proof))
    for finding in job.findings:
        assert whole.count(finding.text) == 1
        assert whole.count(finding.mend) == 1
        assert str(finding.where) in whole


def test_many_findings_of_one_household_run_on_to_further_sheets(
    tmp_path: Path, job: ProofJob, sets: Sets
) -> None:
    where = Where("guests.xlsx", "Guests", "B5")
    many = tuple(
        Finding(Severity.ASK, "x", where, f"Trouble {n:03d}.", f"Cure {n:03d}.", key, holds=False)
        for n in range(90)
        for key in (job.households[0].key, job.households[5].key)
    )
    path = tmp_path / "proof.pdf"
    contact_sheet(path, replace(job, findings=many), sets)
    whole = " ".join(texts(path))
    for n in range(90):
        assert whole.count(f"Trouble {n:03d}.") == 2
        assert whole.count(f"Cure {n:03d}.") == 2


def test_those_that_wait_come_before_those_to_be_printed(proof: Path) -> None:
    whole = " ".join(texts(proof)[:-1])
    before, _, behind = whole.partition("Waiting for an answer")
    waiting, _, ready = behind.partition("To be printed")
    assert "Ó Dálaighin" in waiting
    assert "Penhew" not in waiting
    assert "Penhew" in ready
    assert "envelopes to read" in before


def test_a_first_sheet_with_half_of_it_free_holds_the_first_households(
    tmp_path: Path, job: ProofJob, sets: Sets
) -> None:
    path = tmp_path / "proof.pdf"
    named = tuple(shown for shown in sets if not shown.static)
    contact_sheet(path, replace(job, findings=()), named)
    assert "Waiting for an answer" in texts(path)[0]
    assert "Penhew" in " ".join(texts(path)[:2])


def test_the_inner_of_a_household_that_waits_is_told_in_words(proof: Path) -> None:
    (waiting,) = (page for page in texts(proof) if "Waiting for an answer" in page[:40])
    assert "Inner: Cormac Ó Dálaighin" in waiting


def test_the_last_sheet_is_the_one_to_sign(proof: Path, job: ProofJob) -> None:
    last = texts(proof)[-1]
    for words in (
        "Names and addresses are printed as you approved them. Read every line.",
        "Approved as shown",
        "Approved with the changes",
        "send a new proof",
        "Name",
        "Signature",
        "Date",
        "Households 4",
        "Outer 4",
        "not covered: 2 households, no. 5, 6",
        mark(job),
    ):
        assert words in last, words


def test_every_font_is_embedded(proof: Path) -> None:
    with pikepdf.open(proof) as document:
        fonts = [one for one in document.objects if _is_font(one)]
        assert fonts
        for font in fonts:
            assert "/FontFile2" in font.FontDescriptor, font.BaseFont
    assert b"Helvetica" not in proof.read_bytes()


def _is_font(one: pikepdf.Object) -> bool:
    return isinstance(one, pikepdf.Dictionary) and one.get("/Type") == "/Font"


def _is_form(one: pikepdf.Object) -> bool:
    return isinstance(one, pikepdf.Stream) and one.get("/Subtype") == "/Form"


def test_letters_are_filled_nonzero_so_that_overlaps_leave_no_holes(proof: Path) -> None:
    with pikepdf.open(proof) as document:
        forms = [one for one in document.objects if _is_form(one)]
        assert forms
        for form in forms:
            operators = [str(step.operator) for step in pikepdf.parse_content_stream(form)]
            assert operators.count("f") == 1
            assert "f*" not in operators


def test_each_letter_form_is_in_the_file_once(proof: Path, job: ProofJob, sets: Sets) -> None:
    # of a household that waits, only the outer is shown
    held = {household.key for household in job.households if household.held}
    used = {
        (shown.setting.kind, glyph)
        for shown in sets
        for page in shown.pages
        if shown.setting.kind == "outer" or page.household not in held
        for line, *_ in page.lines
        for glyph in line.glyphs
        if shown.outlines.glyphs.get(glyph)
    }
    with pikepdf.open(proof) as document:
        forms = [one for one in document.objects if _is_form(one)]
        assert len(forms) == len(used)


def test_the_sheets_have_one_list_of_their_letters_that_lacks_none(proof: Path) -> None:
    with pikepdf.open(proof) as document:
        listed = [page.Resources.XObject for page in document.pages if "/XObject" in page.Resources]
        assert len(listed) > 1
        assert len({each.objgen for each in listed}) == 1
        assert listed[0].is_indirect
        asked = {
            str(step.operands[0])
            for page in document.pages
            for step in pikepdf.parse_content_stream(page)
            if str(step.operator) == "Do"
        }
        assert asked == set(listed[0].keys())


def test_paper_and_ink_are_seen_in_their_colours(tmp_path: Path, job: ProofJob, sets: Sets) -> None:
    path = tmp_path / "proof.pdf"
    contact_sheet(path, replace(job, findings=()), sets)
    number = next(n for n, page in enumerate(texts(path)) if "To be printed" in page)
    document = pypdfium2.PdfDocument(path)
    try:
        picture = document[number].render(scale=2).to_pil().convert("RGB")
    finally:
        document.close()
    colours = {colour: count for count, colour in picture.getcolors(maxcolors=1 << 20)}
    green = tuple(round(part * 255) for part in (0.12, 0.23, 0.18))
    near = sum(
        count
        for colour, count in colours.items()
        if all(abs(a - b) <= 1 for a, b in zip(colour, green, strict=True))
    )
    # envelopes fill a good part of the sheet; letters are white within them
    assert near > 0.2 * picture.width * picture.height


def test_the_same_job_gives_the_same_bytes(tmp_path: Path, job: ProofJob, sets: Sets) -> None:
    first, second = tmp_path / "one.pdf", tmp_path / "two.pdf"
    contact_sheet(first, job, sets)
    contact_sheet(second, job, sets)
    assert first.read_bytes() == second.read_bytes()


def test_the_file_s_properties_name_nobody(proof: Path, job: ProofJob) -> None:
    with pikepdf.open(proof) as document:
        said = " ".join(str(value) for value in document.docinfo.values())
        outline = [item.title for item in document.open_outline().root]
    assert mark(job) in said
    for word in ("Wexcombe", "Penhew", "guests"):
        assert word not in said
    assert outline == ["Waiting for an answer", "To be printed", "Approval"]


def test_a_change_of_list_or_docket_changes_the_proof_s_number(job: ProofJob) -> None:
    marks = {
        mark(job),
        mark(replace(job, list_sha256="c" * 64)),
        mark(replace(job, docket_sha256="c" * 64)),
        mark(replace(job, docket_sha256=None)),
    }
    assert len(marks) == 4
    assert mark(replace(job, findings=())) in marks


def test_a_name_in_letters_that_no_face_has_keeps_their_numbers(
    tmp_path: Path, job: ProofJob, sets: Sets
) -> None:
    first, *others = job.households
    households = (replace(first, name="Dan 中文"), *others)
    path = tmp_path / "proof.pdf"
    contact_sheet(path, replace(job, households=households), sets)
    assert "Dan [U+4E2D][U+6587]" in " ".join(texts(path))


@pytest.mark.parametrize("name", ["Dan דן", "משפחת כהן", "محمد الوردي"])
def test_hebrew_and_arabic_names_are_read_by_others_as_they_are_written(
    tmp_path: Path, job: ProofJob, sets: Sets, name: str
) -> None:
    """pdfium puts letters that run leftwards back into the order in which they are spoken."""
    first, *others = job.households
    path = tmp_path / "proof.pdf"
    contact_sheet(path, replace(job, households=(replace(first, name=name), *others)), sets)
    assert name in unicodedata.normalize("NFKC", " ".join(texts(path)))


def test_a_household_without_an_envelope_is_still_named(
    tmp_path: Path, job: ProofJob, sets: Sets
) -> None:
    last = replace(job.households[-1], held=False)
    path = tmp_path / "proof.pdf"
    contact_sheet(path, replace(job, households=(*job.households[:-1], last)), sets)
    assert f"6 {last.name} no envelope" in " ".join(texts(path))


def test_a_page_of_an_unknown_household_is_refused(
    tmp_path: Path, job: ProofJob, sets: Sets
) -> None:
    with pytest.raises(ValueError, match="h-00000000"):
        contact_sheet(tmp_path / "proof.pdf", replace(job, households=job.households[1:]), sets)


def test_a_job_without_hosts_date_or_held_households_is_proved_too(
    tmp_path: Path, job: ProofJob, sets: Sets
) -> None:
    households = tuple(replace(one, held=False) for one in job.households)
    bare = replace(job, title=None, date=None, docket_sha256=None, households=households)
    path = tmp_path / "proof.pdf"
    contact_sheet(path, bare, sets[:1])
    pages = texts(path)
    assert "guests.xlsx" in pages[0]
    assert not any("Waiting for an answer" in page for page in pages[1:])
    assert "covers the whole list" in pages[-1]


def test_sheets_are_a4_where_letter_is_not_the_custom(
    tmp_path: Path, job: ProofJob, sets: Sets
) -> None:
    path = tmp_path / "proof.pdf"
    contact_sheet(path, replace(job, country="DE"), sets)
    with pikepdf.open(path) as document:
        box = [float(value) for value in document.pages[0].mediabox]
    # ISO 216: 210 by 297 mm
    assert box[2:] == pytest.approx([595.28, 841.89], abs=0.01)
    assert "10 March 2025" in texts(path)[0]


def test_what_was_done_that_a_piece_stands_well_is_told_under_it_once(
    tmp_path: Path, job: ProofJob, sets: Sets
) -> None:
    first, *others = sets
    why = "Line broken: “Mr. Tobias Wexcombe and Ms. Odile Farrenby” is 184 mm wide."
    pieces = (replace(first.setting.pieces[0], why=why), *first.setting.pieces[1:])
    told = (replace(first, setting=replace(first.setting, pieces=pieces)), *others)
    path = tmp_path / "proof.pdf"
    contact_sheet(path, job, told)
    said = " ".join(texts(path))
    assert said.count("Outer: line broken.") == 1
    assert "184 mm" not in said
    finding = Finding(Severity.NOTE, "size-stepped", Where("list"), why, "Nothing.")
    contact_sheet(path, replace(job, findings=(*job.findings, finding)), told)
    assert "line broken" not in " ".join(texts(path))


def test_whom_a_signature_doesn_t_cover_goes_by_the_number_beside_its_name(
    tmp_path: Path, job: ProofJob, sets: Sets
) -> None:
    later = tuple(replace(home, number=home.number + 30) for home in job.households)
    path = tmp_path / "proof.pdf"
    contact_sheet(path, replace(job, households=later), sets)
    said = texts(path)
    numbers = [str(home.number) for home in later if home.held]
    assert f"not covered: 2 households, no. {', '.join(numbers)}." in said[-1]
    assert all(number in " ".join(said[:-1]) for number in numbers)
    assert not [word for word in ("docket", "preflight", "addressing") if word in " ".join(said)]


def test_a_name_that_is_wider_than_its_card_goes_on_beside_it_and_is_whole() -> None:
    name = "Bartholomew Nightjar"
    home = ProofHousehold("h-abcdefgh", name, held=False, number=7)
    drawn: list[tuple[float, str]] = []

    class Caught:
        def words(self, x: float, _y: float, text: str, _style: object, **_: str) -> None:
            drawn.append((x, text))

    for rooms in ((60.0, 400.0), (400.0, 500.0), (60.0,)):
        draw_name(cast("Pen", Caught()), Entry(home, (), ()), (0, 0), rooms, "Place card")
    assert [x for x, text in drawn if text == "Place card"] == [400.0, 400.0, 60.0]
    assert [text == name for _, text in drawn if text.startswith("Bar")] == [True, True]
