"""Plates are read piece by piece, and larger ones given to other readers in parts."""

from dataclasses import replace
from pathlib import Path
from types import ModuleType
from typing import TYPE_CHECKING

import pypdfium2 as pdfium
import pytest

from addressing.preflight import source
from addressing.preflight.container import Container, read_container
from addressing.preflight.excerpt import with_pages
from addressing.preflight.reopening import reopening_faults
from addressing.preflight.skeleton import Skeleton, read_skeleton
from addressing.preflight.source import Source
from addressing.preflight.values import Objection

if TYPE_CHECKING:
    from plate_drafts import Job

PAGES = 450
"""Three branches of the page tree."""


@pytest.fixture(scope="module")
def job(drafts: ModuleType) -> "Job":
    """A right job on three branches."""
    made: Job = drafts.job_of(PAGES)
    return made


@pytest.fixture
def plate(job: "Job", tmp_path: Path) -> tuple[Path, Container, Skeleton]:
    """Its plate, as it is read."""
    path = job.draft.write(tmp_path / "plate.pdf")
    file = read_container(path, PAGES)
    skeleton, faults = read_skeleton(file, job.order)
    assert not faults
    return path, file, skeleton


@pytest.mark.parametrize("window", [64, 1000, 1 << 18])
def test_pieces_of_any_size_give_the_same_bytes(
    plate: tuple[Path, Container, Skeleton], window: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(source, "WINDOW", window)
    data = plate[0].read_bytes()
    read = Source(plate[0])
    assert len(read) == len(data)
    for start, stop in ((0, 10), (60, 200), (5000, 9000), (10, 12), (len(data) - 5, len(data) + 9)):
        assert read[start:stop] == data[start:stop]
    assert read[7:7] == b""


def test_a_plate_that_changes_while_it_is_judged_is_told(
    plate: tuple[Path, Container, Skeleton], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(source, "WINDOW", 4096)
    path = plate[0]
    read = Source(path)
    assert read[:8] == b"%PDF-1.6"
    data = path.read_bytes()
    path.write_bytes(data + b" ")
    with pytest.raises(Objection, match="changed while it was judged"):
        read[8192:8200]
    path.unlink()
    with pytest.raises(Objection, match="can't be read"):
        read[8192:8200]


def reopened(path: Path, file: Container, skeleton: Skeleton) -> list[str]:
    """What pikepdf sees wrong, branch by branch."""
    batches = (range(start, min(start + 200, PAGES)) for start in range(0, PAGES, 200))
    return [fault for batch in batches for fault in reopening_faults(path, file, skeleton, batch)]


def test_a_plate_in_parts_is_the_same_to_pikepdf(
    plate: tuple[Path, Container, Skeleton],
) -> None:
    path, file, skeleton = plate
    assert reopened(path, file, skeleton) == []
    swapped = list(skeleton.pages)
    swapped[301], swapped[302] = swapped[302], swapped[301]
    other = replace(skeleton, pages=tuple(swapped))
    told = ["Another reader sees other pages, or in another order."]
    assert reopened(path, file, other) == told


def test_pikepdf_says_what_is_no_page_in_a_later_part(
    job: "Job", tmp_path: Path, drafts: ModuleType
) -> None:
    hurt = drafts.drafted(job.order, job.setting, job.compositor)
    right = hurt.pages[301]
    path = hurt.write(tmp_path / "plate.pdf")
    file = read_container(path, PAGES)
    skeleton, _ = read_skeleton(file, job.order)
    hurt.texts[right] = b"[%b]" % hurt.texts[right]
    hurt.write(path)
    file = read_container(path, PAGES)
    assert reopened(path, file, skeleton)


def test_pdfium_is_shown_the_very_pages_that_were_asked_for(
    plate: tuple[Path, Container, Skeleton],
) -> None:

    path, file, skeleton = plate
    asked = (0, 7, 201, 449)
    whole, part = pdfium.PdfDocument(path), pdfium.PdfDocument(with_pages(file, skeleton, asked))
    assert len(part) == len(asked)
    for place, index in enumerate(asked):
        seen, own = part[place].render(scale=1), whole[index].render(scale=1)
        assert bytes(seen.buffer) == bytes(own.buffer)
    part.close()
    whole.close()
