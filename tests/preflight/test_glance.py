"""What is proved at a glance is proved: with one figure otherwise a page is looked at closely."""

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from types import ModuleType
from typing import TYPE_CHECKING

import pytest

from addressing.preflight import shares
from addressing.preflight.bench import Bench
from addressing.preflight.container import read_container
from addressing.preflight.faces import Faces
from addressing.preflight.glance import Glance
from addressing.preflight.laying import laid
from addressing.preflight.pages import PageReading, judge_page
from addressing.preflight.shares import judge_share
from addressing.preflight.skeleton import read_skeleton

if TYPE_CHECKING:
    from plate_drafts import Job

PAGES = 6
LATER = 4
"""The index of a page that is seen when others have been found right."""


@pytest.fixture
def job(drafts: ModuleType) -> "Job":
    """A right job of a few households."""
    made: Job = drafts.job_of(PAGES)
    return made


def bench_of(job: "Job", path: Path) -> Bench:
    """The bench for a plate as it is written; no other reader opens it."""
    file = read_container(job.draft.write(path), PAGES)
    skeleton, _ = read_skeleton(file, job.order)
    pieces = {piece.household: piece for piece in job.pieces}
    faces = Faces(job.setting, job.order)
    at = laid(job.order)
    return Bench(
        file, skeleton, skeleton.openings[0], job.order, job.setting, pieces, faces, at, sound=False
    )


def glance_at(bench: Bench) -> Glance:
    """A glance that knows a right page."""
    assert not judge_page([bench], 0).wrong
    glance = Glance(bench)
    glance.learn(0)
    return glance


def figures_changed(drawn: bytes) -> Iterator[bytes]:
    """The stream with one of its figures another, each in turn."""
    for figure in re.finditer(rb"[0-9]", drawn):
        other = b"%d" % ((int(figure[0]) + 1) % 10)
        yield drawn[: figure.start()] + other + drawn[figure.end() :]


def test_every_page_but_the_first_is_seen_at_a_glance_and_reads_the_same(
    job: "Job", tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    read: list[int] = []

    def reads(layers: Sequence[Bench], index: int) -> PageReading:
        read.append(index)
        return judge_page(layers, index)

    monkeypatch.setattr(shares, "judge_page", reads)
    bench = bench_of(job, tmp_path / "plate.pdf")
    share = judge_share([bench], range(PAGES))
    assert read == [0]
    slow = [judge_page([bench], index) for index in range(PAGES)]
    assert list(share.contents) == [page.contents for page in slow]
    assert (share.lines, share.letters) == (3 * PAGES, sum(page.letters for page in slow))
    assert share.faulty == ()


def test_a_page_with_one_figure_otherwise_is_never_let_pass(job: "Job", tmp_path: Path) -> None:
    number = job.draft.contents[LATER]
    bench = bench_of(job, tmp_path / "plate.pdf")
    right = glance_at(bench)
    assert right.page(LATER) == judge_page([bench], LATER)
    drawn = job.draft.streams[number]
    changes = list(figures_changed(drawn))
    assert len(changes) > 300
    for at, changed in enumerate(changes):
        job.draft.streams[number] = changed
        hurt = replace(bench, file=read_container(job.draft.write(tmp_path / "hurt.pdf"), PAGES))
        assert glance_at(hurt).page(LATER) is None
        assert at < len(changes) - 1 or judge_page([hurt], LATER).wrong


def test_a_page_with_a_byte_more_or_less_is_never_let_pass(job: "Job", tmp_path: Path) -> None:
    number = job.draft.contents[LATER]
    bench = bench_of(job, tmp_path / "plate.pdf")
    drawn = job.draft.streams[number]
    for at in range(0, len(drawn), 7):
        for changed in (drawn[:at] + b" " + drawn[at:], drawn[:at] + drawn[at + 1 :]):
            job.draft.streams[number] = changed
            path = job.draft.write(tmp_path / "hurt.pdf")
            hurt = replace(bench, file=read_container(path, PAGES))
            assert glance_at(hurt).page(LATER) is None


def give_it_another_pages_drawing(job: "Job") -> None:
    draft = job.draft
    own, other = draft.contents[LATER], draft.contents[LATER - 1]
    draft.swap(draft.pages[LATER], b"/Contents %d " % own, b"/Contents %d " % other)


def give_it_a_wider_box(job: "Job") -> None:
    job.draft.swap(job.draft.pages[LATER], b"/TrimBox [0 0 522", b"/TrimBox [0 0 523")


def crop_it(job: "Job") -> None:
    page = job.draft.pages[LATER]
    job.draft.swap(page, b" /Resources", b" /CropBox [0 0 522 378] /Resources")


def turn_it(job: "Job") -> None:
    job.draft.swap(job.draft.pages[LATER], b" 0 R >>", b" 0 R /Rotate 180 >>")


def hang_it_elsewhere(job: "Job") -> None:
    draft = job.draft
    branch = draft.branches[0]
    draft.swap(draft.pages[LATER], b"/Parent %d " % branch, b"/Parent %d " % draft.tree)


def give_it_other_letters(job: "Job") -> None:
    draft = job.draft
    other = draft.add(draft.texts[draft.resources])
    own = b"/Resources %d " % draft.resources
    draft.swap(draft.pages[LATER], own, b"/Resources %d " % other)


def call_its_drawing_something(job: "Job") -> None:
    job.draft.texts[job.draft.contents[LATER]] = b"<< /Type /Any >>"


@pytest.mark.parametrize(
    "hurt",
    [
        give_it_another_pages_drawing,
        give_it_a_wider_box,
        crop_it,
        turn_it,
        hang_it_elsewhere,
        give_it_other_letters,
        call_its_drawing_something,
    ],
)
def test_a_later_page_framed_otherwise_is_refused_by_the_reading_that_follows(
    job: "Job", tmp_path: Path, hurt: Callable[["Job"], None]
) -> None:
    hurt(job)
    bench = bench_of(job, tmp_path / "plate.pdf")
    assert glance_at(bench).page(LATER) is None
    assert LATER in {page.index for page in judge_share([bench], range(PAGES)).faulty}


def test_a_piece_set_otherwise_than_worded_or_out_of_place_is_never_let_pass(
    job: "Job", tmp_path: Path
) -> None:
    bench = bench_of(job, tmp_path / "plate.pdf")
    placed = job.setting.pieces[LATER]
    first, *rest = placed.lines
    wrong = (
        (first._replace(text=first.text[:-1]), *rest),
        (first._replace(x=first.x + 0.02), *rest),
        (first._replace(y=first.y + 0.02), *rest),
        (first._replace(size=first.size + 0.01), *rest),
        (first._replace(source=1), *rest),
        (*rest, first),
    )
    for lines in wrong:
        pieces = list(job.setting.pieces)
        pieces[LATER] = replace(placed, lines=lines)
        setting = replace(job.setting, pieces=tuple(pieces))
        job.draft.streams[job.draft.contents[LATER]] = b"/Ink cs 1 scn\n" + b"".join(
            job.compositor.draw(line) for line in lines
        )  # the plate draws what was set: only the set is wrong
        path = job.draft.write(tmp_path / "hurt.pdf")
        hurt = replace(bench, setting=setting, file=read_container(path, PAGES))
        assert glance_at(hurt).page(LATER) is None
        assert judge_page([hurt], LATER).wrong


def test_what_was_learnt_from_a_wrong_page_is_nothing(job: "Job", tmp_path: Path) -> None:
    job.draft.swap(job.draft.pages[0], b"/TrimBox [0 0 522", b"/TrimBox [0 0 523")
    glance = Glance(bench_of(job, tmp_path / "plate.pdf"))
    glance.learn(0)
    assert [glance.page(index) for index in range(PAGES)] == [None] * PAGES
