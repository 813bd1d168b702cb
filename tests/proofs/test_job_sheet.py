"""The operator's sheet, read back with pdfium."""

from dataclasses import replace
from pathlib import Path

import pypdfium2
import pytest

from addressing.proofs import job_sheet
from addressing.records.plates import PlateFile
from addressing.records.proofs import PlateRun, ProofJob, ProofSet
from addressing.records.shelf import Device, Shop

DEVICE = Device(
    key="home",
    title="Trial device",
    method="toner",
    margin=14.0,
    load=6,
    smallest=(0.0, 0.0),
    largest=(900.0, 900.0),
    inks=("White",),
    steps=("Open the straight exit.", "Print one envelope."),
    after=("Close the exit.",),
    cautions=("Parts near the fuser are hot.",),
)
SHOP = Shop("farrenby", "Farrenby Press", 18.0, (("White", "FP White"),), ("Count them in.",))
FILES = (
    PlateFile("plates/01-outer-white.pdf", "c" * 64, "outer", "White", 4, 1, 184.15, 133.35, ()),
    PlateFile("plates/02-reply-white.pdf", "d" * 64, "reply", "White", 1, 25, 130.175, 92.075, ()),
)


def text_of(path: Path) -> str:
    document = pypdfium2.PdfDocument(path)
    try:
        pages = [page.get_textpage().get_text_range() for page in document]
    finally:
        document.close()
    return " ".join(" ".join(pages).split())


@pytest.fixture
def run(sets: tuple[ProofSet, ...]) -> PlateRun:
    return PlateRun(FILES, tuple(shown.setting for shown in sets), DEVICE, ("Ink is new.",))


def test_held_households_come_first_with_key_and_reason(
    tmp_path: Path, job: ProofJob, run: PlateRun
) -> None:
    path = tmp_path / "job-sheet.pdf"
    assert job_sheet(path, job, run) <= 2
    text = text_of(path)
    assert "2 households held back" in text
    for household in job.households:
        assert (household.key in text) == household.held
    assert "Sentence of zip-not-in-state in H9." in text
    assert text.index("held back") < text.index("Plates") < text.index("Counts")


def test_every_plate_is_listed_with_pages_copies_and_size(
    tmp_path: Path, job: ProofJob, run: PlateRun
) -> None:
    path = tmp_path / "job-sheet.pdf"
    job_sheet(path, job, run)
    text = text_of(path)
    assert "plates/01-outer-white.pdf Outer White 4 1 1 7¼ × 5¼ in. (184.15 × 133.35 mm)" in text
    assert "plates/02-reply-white.pdf Reply White 1 25 1 5⅛ × 3⅝ in. (130.18 × 92.08 mm)" in text
    assert "Reply 6 2 10 25 1 25" in text


def test_steps_cautions_and_what_comes_after_are_the_device_s(
    tmp_path: Path, job: ProofJob, run: PlateRun
) -> None:
    path = tmp_path / "job-sheet.pdf"
    job_sheet(path, job, run)
    text = text_of(path)
    for words in (*DEVICE.steps, *DEVICE.after, *DEVICE.cautions, *run.notes):
        assert text.count(words) == 1, words
    assert "at most 6 envelopes at once" in text
    assert "the manual is right" in text


def test_a_shop_s_notes_are_there_and_no_device_s(
    tmp_path: Path, job: ProofJob, run: PlateRun
) -> None:
    path = tmp_path / "job-sheet.pdf"
    job_sheet(path, job, replace(run, press=SHOP))
    text = text_of(path)
    assert "Farrenby Press" in text
    assert "Count them in." in text
    assert "Before the run" not in text


def test_without_device_or_shop_or_plates_the_sheet_says_so(tmp_path: Path, job: ProofJob) -> None:
    path = tmp_path / "job-sheet.pdf"
    job_sheet(path, replace(job, households=job.households[:4], counts=()), PlateRun((), ()))
    text = text_of(path)
    assert "neither a device nor a shop" in text
    assert "No plate was made." in text
    assert "No household is held back" in text


def test_a_piece_out_of_the_common_run_is_named_with_the_reason(
    tmp_path: Path, job: ProofJob, run: PlateRun
) -> None:
    setting = run.settings[0]
    apart = replace(setting.pieces[0], why="Set 2 pt smaller: a long name.")
    changed = replace(setting, pieces=(apart, *setting.pieces[1:]))
    path = tmp_path / "job-sheet.pdf"
    job_sheet(path, job, replace(run, settings=(changed, *run.settings[1:])))
    assert "Outer, Tobias Penhew: Set 2 pt smaller: a long name." in text_of(path)


def test_the_same_run_gives_the_same_bytes_and_embeds_its_fonts(
    tmp_path: Path, job: ProofJob, run: PlateRun
) -> None:
    first, second = tmp_path / "one.pdf", tmp_path / "two.pdf"
    job_sheet(first, job, run)
    job_sheet(second, job, run)
    assert first.read_bytes() == second.read_bytes()
    assert b"Helvetica" not in first.read_bytes()


def test_a_plate_that_several_kinds_share_is_listed_once_with_all_of_them(
    tmp_path: Path, job: ProofJob, run: PlateRun
) -> None:
    front = run.files[0]
    shared = (replace(front, kind="place-card"), replace(front, kind="escort-card"))
    path = tmp_path / "job-sheet.pdf"
    job_sheet(path, job, replace(run, files=shared))
    text = text_of(path)
    assert text.count(front.path) == 1
    assert "Place card and escort card" in text


def test_a_composite_is_told_as_layers_of_one_file_and_not_fed_again(
    tmp_path: Path, job: ProofJob, run: PlateRun
) -> None:
    setting = replace(run.settings[0], hits=((run.settings[0].ink.key, 2),))
    front = replace(run.files[0], kind=setting.kind, ink="White + Gold")
    path = tmp_path / "job-sheet.pdf"
    job_sheet(path, job, replace(run, files=(front,), settings=(setting,)))
    text = text_of(path)
    assert "layers of one file" in text
    assert "feed the same stack again" not in text
