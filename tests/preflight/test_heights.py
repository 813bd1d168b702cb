"""Blocks of a set stand at heights that they have in common; one that was moved is found."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from types import ModuleType
from typing import TYPE_CHECKING

import pytest

from addressing.preflight.faces import Faces
from addressing.preflight.heights import height_faults
from addressing.records.pieces import Role
from addressing.records.set_lines import SetLine, SetPiece

if TYPE_CHECKING:
    from plate_drafts import Job

    from addressing.records.pages import Setting

ROOM_BOTTOM, ROOM_TOP, SIZE = 100.0, 300.0, 20.0
CAPITAL, ABOVE, BELOW = 0.66, 0.8, -0.3
"""What an invented face measures (em)."""
FIRST: dict[str, Callable[[float], float]] = {
    "middle": lambda depth: (ROOM_BOTTOM + ROOM_TOP + depth - CAPITAL * SIZE) / 2,
    "top": lambda _: ROOM_TOP - ABOVE * SIZE,
    "bottom": lambda depth: ROOM_BOTTOM + depth - BELOW * SIZE,
}
"""The first baseline of a block of this depth."""


def piece(number: int, lines: int, valign: str, off: float = 0.0) -> SetPiece:
    first = FIRST[valign](26.0 * (lines - 1)) + off
    placed = tuple(
        SetLine("Odile", Role.NAME, n, 20.0, round(first - 26.0 * n, 3), SIZE) for n in range(lines)
    )
    return SetPiece(f"h-{number}", "Odile", 0, placed)


@pytest.fixture
def job(drafts: ModuleType) -> "Job":
    made: Job = drafts.job_of(5)
    return made


def faults(job: "Job", valign: str, *pieces: SetPiece) -> list[str]:
    room = replace(job.setting.room, bottom=ROOM_BOTTOM, height=ROOM_TOP - ROOM_BOTTOM)
    zone = replace(job.setting.zone, valign=valign)
    setting: Setting = replace(job.setting, room=room, zone=zone, pieces=pieces, size=SIZE)
    return list(height_faults(setting, Faces(setting, job.order), cards=False))


@pytest.mark.parametrize("valign", FIRST)
def test_blocks_of_any_number_of_lines_have_one_measure(job: "Job", valign: str) -> None:
    assert faults(job, valign, *(piece(n, 1 + n % 4, valign) for n in range(9))) == []


@pytest.mark.parametrize("valign", FIRST)
@pytest.mark.parametrize(("off", "told"), [(-2.8, "0.99 mm too low"), (0.1, "0.04 mm too high")])
def test_a_block_that_was_moved_up_or_down_is_told(
    job: "Job", valign: str, off: float, told: str
) -> None:
    pieces = [piece(n, 2 + n % 2, valign) for n in range(5)]
    pieces[3] = piece(3, 3, valign, off)
    assert faults(job, valign, *pieces) == [
        f"Page 4 (h-3) stands {told} by the others of its kind."
    ]


def test_a_block_whose_ink_touches_the_edge_may_stand_off(job: "Job") -> None:
    pieces = [piece(n, 2, "middle") for n in range(5)]
    line = pieces[2].lines[0]
    drawn = Faces(job.setting, job.order).line(line)
    touching = line._replace(y=round(ROOM_TOP - drawn.top * SIZE, 3))
    pieces[2] = replace(pieces[2], lines=(touching,))
    assert faults(job, "middle", *pieces) == []
    pieces[2] = replace(pieces[2], lines=(touching._replace(y=touching.y - 0.1),))
    assert len(faults(job, "middle", *pieces)) == 1


def test_of_two_pieces_nobody_can_say_which_was_moved(job: "Job") -> None:
    two = [piece(0, 2, "middle"), piece(1, 2, "middle", 2.0)]
    assert faults(job, "middle", *two) == []


def test_a_plate_with_a_moved_block_is_not_proved(
    drafts: ModuleType, job: "Job", tmp_path: Path
) -> None:
    assert job.judge(job.draft.write(tmp_path / "right.pdf")).proved
    placed = list(job.setting.pieces)
    lower = tuple(line._replace(y=line.y - 2.0) for line in placed[1].lines)
    placed[1] = replace(placed[1], lines=lower)
    setting = replace(job.setting, pieces=tuple(placed))
    moved: Job = replace(
        job, setting=setting, draft=drafts.drafted(job.order, setting, job.compositor)
    )
    verdict = moved.judge(moved.draft.write(tmp_path / "moved.pdf"))
    assert len(verdict.faults) == 1
    assert "0.71 mm too low" in verdict.faults[0]


def bent(off: float) -> tuple[SetLine, ...]:
    """Two short lines on flat arcs about the middle of the room, `off` points from their place."""
    return tuple(
        SetLine("Odile", Role.NAME, n, 200.0, round(200.0 - 26.0 * n + off, 3), SIZE)
        for n in range(2)
    )


@pytest.mark.parametrize("align", ["arch", "bowl"])
@pytest.mark.parametrize("valign", FIRST)
def test_a_block_on_arcs_tells_by_itself_where_it_belongs(
    job: "Job", align: str, valign: str
) -> None:
    room = replace(job.setting.room, bottom=ROOM_BOTTOM, height=ROOM_TOP - ROOM_BOTTOM)
    zone = replace(job.setting.zone, valign=valign, align=align, radius=600.0)

    def told(off: float) -> list[str]:
        placed = (SetPiece("h-0", "Odile", 0, bent(off)),)
        setting = replace(job.setting, room=room, zone=zone, pieces=placed, size=SIZE)
        return list(height_faults(setting, Faces(setting, job.order), cards=False))

    (first,) = told(0.0)
    far = float(first.split(" stands ")[1].split(" mm")[0]) * 72 / 25.4
    right = -far if "too high" in first else far
    assert abs(right) > 1
    (moved,) = told(right - 2.835)
    assert moved == "Page 1 (h-0) stands 1.00 mm too low for its zone."
    assert len(told(right + 0.1)) == 1
