"""pikepdf and pdfium each notice by themselves what the judge's own reading would refuse first."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from types import ModuleType
from typing import TYPE_CHECKING

import pikepdf
import pytest

from addressing.preflight.bench import Bench
from addressing.preflight.container import read_container
from addressing.preflight.faces import Faces
from addressing.preflight.laying import laid
from addressing.preflight.pixels import pixel_faults
from addressing.preflight.reopening import reopening_faults
from addressing.preflight.skeleton import read_skeleton

if TYPE_CHECKING:
    from plate_drafts import Job


@pytest.fixture
def job(drafts: ModuleType) -> "Job":
    """A right job of three households."""
    made: Job = drafts.job_of(3)
    return made


def bench_of(job: "Job", path: Path) -> Bench:
    """The bench for a plate that is written as it is, right or hurt."""
    file = read_container(job.draft.write(path), 3)
    skeleton, _ = read_skeleton(file, job.order)
    pieces = {piece.household: piece for piece in job.pieces}
    faces = Faces(job.setting, job.order)
    return Bench(
        file,
        skeleton,
        skeleton.openings[0],
        job.order,
        job.setting,
        pieces,
        faces,
        laid(job.order),
        sound=True,
    )


def add_a_rule_in_the_corner(drawn: bytes) -> bytes:
    return drawn + b"5 5 30 2 re f\n"


def add_a_rule_between_lines_and_edge_of_room(drawn: bytes) -> bytes:
    return drawn + b"200 90 30 2 re f\n"


def fill_much_of_the_lines(drawn: bytes) -> bytes:
    return drawn + b"220 160 60 60 re f\n"


def lose_two_lines(drawn: bytes) -> bytes:
    return drawn[: drawn.index(b"Q\n") + 2]


def add_black(drawn: bytes) -> bytes:
    return drawn + b"0 0 0 1 k 250 190 4 4 re f\n"


def draw_nothing(_: bytes) -> bytes:
    return b""


@pytest.mark.parametrize(
    ("hurt", "named"),
    [
        (add_a_rule_in_the_corner, "shows ink outside its room"),
        (add_a_rule_between_lines_and_edge_of_room, "shows ink where none of its lines stands"),
        (fill_much_of_the_lines, "square points of ink where its letters cover"),
        (lose_two_lines, "square points of ink where its letters cover"),
        (add_black, "shows another colour than the plate's ink"),
        (draw_nothing, "looks blank"),
    ],
)
def test_pdfium_sees_what_is_wrong_by_pixels_alone(
    job: "Job", tmp_path: Path, hurt: Callable[[bytes], bytes], named: str
) -> None:
    job.draft.redraw(job.draft.contents[1], hurt)
    found = list(pixel_faults([bench_of(job, tmp_path / "plate.pdf")], range(3)))
    assert {index for index, _ in found} == {1}
    assert any(named in fault for _, fault in found), found


def test_pdfium_sees_nothing_wrong_with_a_right_plate(job: "Job", tmp_path: Path) -> None:
    assert list(pixel_faults([bench_of(job, tmp_path / "plate.pdf")], range(3))) == []


def test_pdfium_sees_another_size(job: "Job", tmp_path: Path) -> None:
    bench = bench_of(job, tmp_path / "plate.pdf")
    other = replace(bench, at=laid(replace(bench.order, trim=(500.0, 378.0))))
    assert all("isn't of the ordered size" in fault for _, fault in pixel_faults([other], range(3)))
    assert len(list(pixel_faults([other], range(3)))) == 3


def test_pikepdf_sees_the_same_plate(job: "Job", tmp_path: Path) -> None:
    bench = bench_of(job, tmp_path / "plate.pdf")
    assert (
        list(reopening_faults(tmp_path / "plate.pdf", bench.file, bench.skeleton, range(3))) == []
    )


def test_pikepdf_sees_another_order_of_pages(job: "Job", tmp_path: Path) -> None:
    bench = bench_of(job, tmp_path / "plate.pdf")
    turned = replace(bench.skeleton, pages=tuple(reversed(bench.skeleton.pages)))
    faults = list(reopening_faults(tmp_path / "plate.pdf", bench.file, turned, range(3)))
    assert faults == ["Another reader sees other pages, or in another order."]


def test_pikepdf_sees_a_lock_another_version_and_other_objects(job: "Job", tmp_path: Path) -> None:
    bench = bench_of(job, tmp_path / "plate.pdf")
    locked = tmp_path / "locked.pdf"
    with pikepdf.open(tmp_path / "plate.pdf") as document:
        lock = pikepdf.Encryption(owner="a", user="")
        document.save(locked, encryption=lock)  # brings PDF 1.7 along
    faults = " ".join(reopening_faults(locked, bench.file, bench.skeleton, range(3)))
    assert "protected by a password" in faults
    assert "takes the file for PDF 1.7" in faults
    assert "another number of objects" in faults


def test_pikepdf_says_when_it_cannot_open_a_file(job: "Job", tmp_path: Path) -> None:
    bench = bench_of(job, tmp_path / "plate.pdf")
    (tmp_path / "none.pdf").write_bytes(b"not a plate")
    faults = list(reopening_faults(tmp_path / "none.pdf", bench.file, bench.skeleton, range(3)))
    assert faults == ["Another reader can't open the file."]
