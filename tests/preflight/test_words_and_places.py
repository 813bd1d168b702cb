"""The judge holds the setting too against what was worded, its room, its zone and the face."""

import threading
from dataclasses import replace
from itertools import pairwise
from pathlib import Path
from types import ModuleType
from typing import TYPE_CHECKING

import pytest

from addressing.preflight import shares
from addressing.preflight.pixels import sample, seen_swatch
from addressing.preflight.words import word_faults
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.set_lines import SetLine, SetPiece

if TYPE_CHECKING:
    from plate_drafts import Job


@pytest.fixture
def job(drafts: ModuleType) -> "Job":
    """A right job of six households."""
    made: Job = drafts.job_of(6)
    return made


def reset(drafts: ModuleType, job: "Job", index: int, lines: tuple[SetLine, ...]) -> "Job":
    """The job with other lines on one page, drawn as they are set."""
    placed = list(job.setting.pieces)
    placed[index] = replace(placed[index], lines=lines)
    setting = replace(job.setting, pieces=tuple(placed))
    made: Job = replace(
        job, setting=setting, draft=drafts.drafted(job.order, setting, job.compositor)
    )
    return made


LONG = Line("Mr. and Mrs. Tobias Wexcombe", Role.NAME, breaks=(13, 20))
PLACE = Line("Farrenby", Role.PLACE)


def faults_of(*parts: tuple[str, int], role: Role = Role.NAME) -> list[str]:
    """What the judge says of some parts of two lines."""
    roles = (role, Role.PLACE)
    lines = tuple(SetLine(text, roles[n], n, 0.0, 0.0, 12.0) for text, n in parts)
    piece = Piece("outer", "h", "H", (Wording((LONG, PLACE)),))
    return list(word_faults(piece, SetPiece("h", "H", 0, lines)))


def test_a_line_kept_whole_or_broken_where_it_may_is_right() -> None:
    assert faults_of((LONG.text, 0), ("Farrenby", 1)) == []
    assert faults_of(("Mr. and Mrs.", 0), ("Tobias Wexcombe", 0), ("Farrenby", 1)) == []
    assert faults_of(("Mr. and Mrs.", 0), ("Tobias", 0), ("Wexcombe", 0), ("Farrenby", 1)) == []


@pytest.mark.parametrize(
    "parts",
    [
        (("Mr.", 0), ("and Mrs. Tobias Wexcombe", 0), ("Farrenby", 1)),
        (("Mr. and Mrs. ", 0), ("Tobias Wexcombe", 0), ("Farrenby", 1)),
        (("Mr. and Mrs.", 0), (" Tobias Wexcombe", 0), ("Farrenby", 1)),
        (("Mr. and Mrs.", 0), ("Tobias Wexcomb", 0), ("Farrenby", 1)),
        (("Mr. and Mrs.", 0), ("", 0), ("Tobias Wexcombe", 0), ("Farrenby", 1)),
        (("Mr. and Mrs. Tobias wexcombe", 0), ("Farrenby", 1)),
        ((LONG.text, 0),),
        (("Farrenby", 1),),
        (("Farrenby", 1), (LONG.text, 0)),
        ((LONG.text, 0), ("Farrenby", 1), ("Farrenby", 1)),
        (("Tobias Wexcombe", 0), ("Mr. and Mrs.", 0), ("Farrenby", 1)),
        (("Mr. and Mrs.", 0), ("Farrenby", 1), ("Tobias Wexcombe", 0)),
    ],
)
def test_words_that_are_not_those_of_the_wording_are_wrong(
    parts: tuple[tuple[str, int], ...],
) -> None:
    assert faults_of(*parts)


def test_a_line_in_another_role_is_wrong() -> None:
    assert faults_of((LONG.text, 0), ("Farrenby", 1), role=Role.EXTRA)


def test_a_line_from_no_worded_line_is_wrong() -> None:
    piece = Piece("outer", "h", "H", (Wording((PLACE,)),))
    lines = tuple(SetLine(t, Role.PLACE, n, 0.0, 0.0, 9.0) for n, t in enumerate(["Farrenby", "x"]))
    assert list(word_faults(piece, SetPiece("h", "H", 0, lines)))
    assert list(word_faults(piece, SetPiece("h", "H", 3, lines[:1])))


def test_a_name_misspelt_between_wording_and_plate_is_refused(
    drafts: ModuleType, job: "Job", tmp_path: Path
) -> None:
    lines = job.setting.pieces[2].lines
    wrong = Line("Mr. and Mrs. Aurelia Penhow", Role.NAME)
    made = reset(drafts, job, 2, (job.compositor.set_line(wrong, 0, lines[0].y, 24.0), *lines[1:]))
    assert made.judge(tmp_path / "plate.pdf").faults == (
        "Page 3 (h-00000002) doesn't carry line 1 of its wording letter for letter.",
    )


def test_a_character_that_the_face_lacks_is_refused(
    drafts: ModuleType, job: "Job", tmp_path: Path
) -> None:
    lines = job.setting.pieces[2].lines
    odd = job.compositor.set_line(Line("Larkmoor 川", Role.NAME), 0, lines[0].y, 24.0)
    faults = reset(drafts, job, 2, (odd, *lines[1:])).judge(tmp_path / "plate.pdf").faults
    assert "Page 3 (h-00000002) asks in line 1 for a letter that the face doesn't have." in faults


@pytest.mark.parametrize(
    ("change", "named"),
    [
        (("x", 30.0), "has ink of line 2 outside the room that it may use"),
        (("x", 110.0), "out of line"),
        (("y", 187.0), "has lines 1 and 2 33.000 pt apart, not 32.000"),
        (("y", 230.0), "has lines 1 and 2 -10.000 pt apart"),
    ],
)
def test_a_line_set_where_it_may_not_stand_is_refused(
    drafts: ModuleType, job: "Job", tmp_path: Path, change: tuple[str, float], named: str
) -> None:
    lines = job.setting.pieces[2].lines
    axis, place = change
    x, y = (place, lines[1].y) if axis == "x" else (lines[1].x, place)
    moved = lines[1]._replace(x=x, y=y)
    made = reset(drafts, job, 2, (lines[0], moved, lines[2]))
    faults = made.judge(tmp_path / "plate.pdf").faults
    assert any("Page 3" in fault and named in fault for fault in faults), faults


def test_a_room_beyond_the_page_is_refused(job: "Job", tmp_path: Path) -> None:
    room = replace(job.setting.room, left=-10.0, width=542.0)
    made = replace(job, setting=replace(job.setting, room=room))
    assert "The room for ink reaches beyond the page." in made.judge(tmp_path / "a.pdf").faults


def test_households_set_in_another_order_than_ordered_are_refused(
    job: "Job", tmp_path: Path
) -> None:
    order = replace(job.order, households=tuple(reversed(job.order.households)))
    faults = replace(job, order=order).judge(tmp_path / "plate.pdf").faults
    assert "The households of the order aren't those that were set, in the same order." in faults


def test_a_face_whose_file_was_changed_is_refused(job: "Job", tmp_path: Path) -> None:
    face = replace(job.setting.face, sha256="0" * 64)
    made = replace(job, setting=replace(job.setting, face=face))
    verdict = made.judge(tmp_path / "plate.pdf")
    assert verdict.faults == (f"The file of the face {face.key} was changed since it was chosen.",)


def test_an_ink_that_nobody_can_see_is_refused(drafts: ModuleType, tmp_path: Path) -> None:
    pale = replace(drafts.WHITE, alternate=(0.0, 0.0, 0.0, 0.0))
    faults = drafts.job_of(3, ink=pale).judge(tmp_path / "plate.pdf").faults
    assert any("all but invisible" in fault for fault in faults), faults


@pytest.mark.parametrize("channel", ["cyan", "black"])
def test_an_ink_in_a_process_slot_is_proved(
    drafts: ModuleType, tmp_path: Path, channel: str
) -> None:
    slot = replace(drafts.WHITE, channel=channel)
    job = drafts.job_of(3, ink=slot)
    assert job.judge(tmp_path / "plate.pdf").faults == ()
    other = replace(slot, channel="magenta")
    made = replace(
        job, order=replace(job.order, ink=other), setting=replace(job.setting, ink=other)
    )
    assert not made.judge(tmp_path / "plate.pdf").proved


def test_a_variable_face_is_proved(drafts: ModuleType, tmp_path: Path) -> None:
    assert drafts.job_of(3, face=drafts.CORMORANT).judge(tmp_path / "plate.pdf").faults == ()


def in_halves(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have even a few pages judged and seen by two processes, half of them by each."""
    for name, value in (("PAGES_WORTH", 1), ("PIXELS_WORTH", 1), ("FIRST", 0.5), ("BESIDE", 0)):
        monkeypatch.setattr(shares, name, value)


def test_two_processes_find_what_one_finds(
    job: "Job", tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    right = job.judge(tmp_path / "plate.pdf")
    job.draft.redraw(job.draft.contents[0], lambda drawn: drawn + b"q Q\n")
    job.draft.redraw(job.draft.contents[5], lambda drawn: drawn + b"q Q\n")
    wrong = job.judge(tmp_path / "hurt.pdf")
    in_halves(monkeypatch)
    assert job.judge(tmp_path / "hurt.pdf") == wrong
    assert [fault[:6] for fault in wrong.faults[-2:]] == ["Page 1", "Page 6"]
    for number in (0, 5):
        job.draft.redraw(job.draft.contents[number], lambda drawn: drawn[:-4])
    assert job.judge(tmp_path / "plate.pdf") == right
    assert right.proved


def test_beside_another_thread_all_is_judged_as_well(
    job: "Job", tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    in_halves(monkeypatch)
    done = threading.Event()
    other = threading.Thread(target=done.wait)
    other.start()
    try:
        verdict = job.judge(tmp_path / "plate.pdf")
    finally:
        done.set()
        other.join()
    assert verdict.faults == ()
    assert dict(verdict.counted)["pages seen as pixels"] == 6


def test_the_sample_holds_the_first_and_the_last_page_and_is_the_same_each_time() -> None:
    assert sample(200) == tuple(range(200))
    seen = sample(4321)
    assert (seen[0], seen[-1], len(set(seen))) == (0, 4320, 40)
    assert max(after - before for before, after in pairwise(seen)) <= 111
    assert seen == sample(4321)


def test_black_in_its_slot_is_seen_dark(drafts: ModuleType) -> None:
    assert seen_swatch(replace(drafts.WHITE, channel="black")).darkest < 60
