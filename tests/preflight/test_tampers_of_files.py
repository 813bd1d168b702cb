"""A plate hurt as a file: scripts, metadata, guests left behind, updates, locks, a packed bomb.

The kinds of hurt are from memory, and from ISO 32000-1, 7.5 (structure of a file).
"""

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from types import ModuleType
from typing import TYPE_CHECKING

import pikepdf
import pytest

from addressing.preflight.judge import judge_plate
from addressing.records.plates import Verdict

if TYPE_CHECKING:
    from plate_drafts import Job


@pytest.fixture
def job(drafts: ModuleType) -> "Job":
    """A right job of twenty households in a static face."""
    made: Job = drafts.job_of(20)
    return made


Hurt = Callable[["Job"], None]


def run_a_script(job: "Job") -> None:
    act = job.draft.add(b"<< /S /JavaScript /JS (app.alert) >>")
    job.draft.swap(job.draft.root, b"/Pages", b"/OpenAction %d 0 R /Pages" % act)


def name_guests_in_metadata(job: "Job") -> None:
    told = job.draft.add(b"<< /Type /Metadata /Subtype /XML >>", b"<x>Mr. Tobias Wexcombe</x>")
    job.draft.swap(job.draft.root, b"/Pages", b"/Metadata %d 0 R /Pages" % told)


def name_guests_in_the_information(job: "Job") -> None:
    job.draft.swap(job.draft.info, b"/Title", b"/Subject (Tobias Wexcombe) /Title")


def another_title(job: "Job") -> None:
    job.draft.swap(job.draft.info, b"(01-outer-white)", b"(02-inner-white)")


def a_date(job: "Job") -> None:
    job.draft.swap(job.draft.info, b"/Title", b"/CreationDate (D:20260101000000Z) /Title")


def trapped_as_a_boolean(job: "Job") -> None:
    job.draft.swap(job.draft.info, b"/Trapped /False", b"/Trapped false")


def leave_an_unused_page_behind(job: "Job") -> None:
    drawn = job.draft.add(b"<< >>", job.draft.streams[job.draft.contents[3]])
    job.draft.add(
        job.draft.texts[job.draft.pages[3]].replace(
            b"/Contents %d" % job.draft.contents[3], b"/Contents %d" % drawn
        )
    )


def text_behind_the_end(job: "Job") -> None:
    job.draft.behind = b"Mr. Tobias Wexcombe\n"


def an_update_behind_the_end(job: "Job") -> None:
    job.draft.behind = (
        b"5 0 obj\n<< >>\nendobj\nxref\n5 1\n0000000009 00000 n \n"
        b"trailer\n<< /Size 6 /Root 1 0 R /Prev 9 >>\nstartxref\n9\n%%EOF\n"
    )


def a_section_before(job: "Job") -> None:
    job.draft.extra = b" /Prev 15"


def claim_encryption(job: "Job") -> None:
    lock = job.draft.add(b"<< /Filter /Standard /V 1 /R 2 /O (x) /U (y) /P -4 >>")
    job.draft.extra = b" /Encrypt %d 0 R" % lock


def two_pages_in_the_count(job: "Job") -> None:
    job.draft.swap(job.draft.tree, b"/Count 20", b"/Count 22")


def a_key_twice(job: "Job") -> None:
    job.draft.swap(job.draft.pages[6], b"/Type /Page", b"/Type /Page /Type /Page")


def a_compressed_bomb(job: "Job") -> None:
    job.draft.streams[job.draft.contents[6]] = b"/Ink cs 1 scn\n" + bytes(200_000_000)


TAMPERS: tuple[tuple[Hurt, str], ...] = (
    (run_a_script, r"catalogue holds what no plate may hold: OpenAction"),
    (name_guests_in_metadata, r"catalogue holds what no plate may hold: Metadata"),
    (name_guests_in_the_information, r"information holds what no plate may hold: Subject"),
    (another_title, r"title isn't 01-outer-white"),
    (a_date, r"information holds what no plate may hold: CreationDate"),
    (trapped_as_a_boolean, r"holds something that no plate may hold"),
    (leave_an_unused_page_behind, r"Something in the file belongs to no page: objects 100, 101"),
    (text_behind_the_end, r"cut short or added to"),
    (an_update_behind_the_end, r"isn't where it should be|no plate may hold|added to"),
    (a_section_before, r"trailer holds what no plate may hold: Prev"),
    (claim_encryption, r"trailer holds what no plate may hold: Encrypt"),
    (two_pages_in_the_count, r"states another number of pages"),
    (a_key_twice, r"Page 7 .* key twice"),
    (a_compressed_bomb, r"Page 7 .* far too large"),
)


@pytest.mark.parametrize(
    ("hurt", "named"), TAMPERS, ids=[hurt.__name__.replace("_", "-") for hurt, _ in TAMPERS]
)
def test_a_tampered_plate_is_refused_by_name(
    job: "Job", tmp_path: Path, hurt: Hurt, named: str
) -> None:
    hurt(job)
    verdict = job.judge(tmp_path / "plate.pdf")
    assert not verdict.proved
    assert any(re.search(named, fault) for fault in verdict.faults), verdict.faults
    assert not any("Wexcombe" in fault or "Ada" in fault for fault in verdict.faults)


def test_a_right_plate_is_proved_and_counted(job: "Job", tmp_path: Path) -> None:
    verdict = job.judge(tmp_path / "plate.pdf")
    assert verdict.faults == ()
    counted = dict(verdict.counted)
    drawn = sum(stream.count(b" Do\n") for stream in job.draft.streams.values())
    assert counted == {
        "pages": 20,
        "lines": 60,
        "glyphs": drawn,
        "forms": len(job.draft.forms),
        "pages seen as pixels": 20,
    }


def test_a_plate_locked_by_pikepdf_is_refused(job: "Job", tmp_path: Path) -> None:
    plate = job.draft.write(tmp_path / "plate.pdf")
    locked = tmp_path / "locked.pdf"
    with pikepdf.open(plate) as document:
        document.save(locked, encryption=pikepdf.Encryption(owner="a", user="b"))
    assert not _judged(job, locked).proved


def test_a_plate_saved_again_by_another_program_is_refused(job: "Job", tmp_path: Path) -> None:
    plate = job.draft.write(tmp_path / "plate.pdf")
    again = tmp_path / "again.pdf"
    with pikepdf.open(plate) as document:
        document.save(again, force_version="1.6")
    assert not _judged(job, again).proved


def test_an_order_that_repeats_a_household_is_refused(job: "Job", tmp_path: Path) -> None:
    keys = list(job.order.households)
    keys[4] = keys[3]
    changed = replace(job, order=replace(job.order, households=tuple(keys)))
    verdict = changed.judge(tmp_path / "plate.pdf")
    assert "The order has household h-00000003 2 times." in verdict.faults


def test_a_household_that_was_never_worded_is_refused(job: "Job", tmp_path: Path) -> None:
    verdict = replace(job, pieces=job.pieces[:5] + job.pieces[6:]).judge(tmp_path / "plate.pdf")
    assert verdict.faults == ("Page 6 (h-00000005) carries a piece that was never worded.",)


def _judged(job: "Job", path: Path) -> Verdict:
    return judge_plate(path, job.order, job.setting, job.pieces)
