"""Pages hurt in one way each time, in a plate that is whole again as a file: the judge names it.

The kinds of hurt are from memory of what goes wrong with plates, and from the traps of
ISO 32000-1 (boxes, rotation, inherited attributes, content of other kinds).
"""

import re
from collections.abc import Callable
from pathlib import Path
from types import ModuleType
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from plate_drafts import Draft, Job


@pytest.fixture
def job(drafts: ModuleType) -> "Job":
    """A right job of twenty households in a static face."""
    made: Job = drafts.job_of(20)
    return made


Hurt = Callable[["Job"], None]


def change_one_glyph(job: "Job") -> None:
    def changed(drawn: bytes) -> bytes:
        first, other = re.findall(rb"/g\d+ ", drawn)[:2]
        return drawn.replace(first, other, 1)

    job.draft.redraw(job.draft.contents[6], changed)


def move_a_line_by_a_millimetre(job: "Job") -> None:
    def moved(drawn: bytes) -> bytes:
        def aside(found: re.Match[bytes]) -> bytes:
            return b"q %s 0 0 %s %.3f" % (found[1], found[1], float(found[2]) + 72 / 25.4)

        return re.sub(rb"q (\S+) 0 0 \S+ (\S+)", aside, drawn, count=1)

    job.draft.redraw(job.draft.contents[6], moved)


def make_a_line_larger(job: "Job") -> None:
    job.draft.redraw(
        job.draft.contents[6], lambda d: d.replace(b"0.024 0 0 0.024", b"0.025 0 0 0.025", 1)
    )


def slant_a_line(job: "Job") -> None:
    job.draft.redraw(
        job.draft.contents[6], lambda d: d.replace(b"0.024 0 0 0.024", b"0.024 0 0.005 0.024", 1)
    )


def drop_the_last_line(job: "Job") -> None:
    job.draft.redraw(job.draft.contents[6], lambda d: d[: d.rindex(b"q ")])


def drop_a_page(job: "Job") -> None:
    draft = job.draft
    draft.swap(draft.branches[0], b" %d 0 R" % draft.pages[6], b"")
    draft.swap(draft.branches[0], b"/Count 20", b"/Count 19")
    draft.swap(draft.tree, b"/Count 20", b"/Count 19")


def drop_a_page_and_its_objects(job: "Job") -> None:
    drop_a_page(job)
    renumber_without(job.draft, {job.draft.pages[6], job.draft.contents[6]})


def renumber_without(draft: "Draft", gone: set[int]) -> None:
    kept = [number for number in draft.texts if number not in gone]
    new = {old: at for at, old in enumerate(kept, start=1)}

    def renamed(text: bytes) -> bytes:
        return re.sub(rb"(\d+) 0 R", lambda m: b"%d 0 R" % new[int(m[1])], text)

    draft.texts = {new[old]: renamed(draft.texts[old]) for old in kept}
    draft.streams = {new[old]: draft.streams[old] for old in kept if old in draft.streams}
    draft.root, draft.info = new[draft.root], new[draft.info]


def swap_two_pages(job: "Job") -> None:
    one, other = job.draft.contents[6], job.draft.contents[9]
    streams = job.draft.streams
    streams[one], streams[other] = streams[other], streams[one]


def swap_two_kids(job: "Job") -> None:
    one, other = (b" %d 0 R" % job.draft.pages[n] for n in (6, 9))
    branch = job.draft.branches[0]
    text = job.draft.texts[branch].replace(one, b" XX").replace(other, one).replace(b" XX", other)
    job.draft.texts[branch] = text


def repeat_a_household(job: "Job") -> None:
    job.draft.streams[job.draft.contents[6]] = job.draft.streams[job.draft.contents[9]]


def show_a_page_twice(job: "Job") -> None:
    one, other = (b" %d 0 R" % job.draft.pages[n] for n in (6, 9))
    job.draft.swap(job.draft.branches[0], one, other)


def share_a_stream(job: "Job") -> None:
    contents = job.draft.contents
    job.draft.swap(job.draft.pages[6], b"/Contents %d" % contents[6], b"/Contents %d" % contents[9])


def blank_a_page(job: "Job") -> None:
    job.draft.streams[job.draft.contents[6]] = b"/Ink cs 1 scn\n"


def empty_a_stream(job: "Job") -> None:
    job.draft.streams[job.draft.contents[6]] = b""


def add_a_cmyk_rectangle(job: "Job") -> None:
    job.draft.redraw(job.draft.contents[6], lambda d: d + b"q 0 0 0 1 k 10 10 40 40 re f Q\n")


def add_an_image(job: "Job") -> None:
    job.draft.redraw(
        job.draft.contents[6], lambda d: d + b"BI /W 1 /H 1 /CS /G /BPC 8 ID \x00 EI\n"
    )


def add_invisible_text(job: "Job") -> None:
    job.draft.redraw(job.draft.contents[6], lambda d: d + b"BT 3 Tr (Ada) Tj ET\n")


def add_a_comment(job: "Job") -> None:
    job.draft.redraw(job.draft.contents[6], lambda d: d + b"% Ada Penhew\n")


def draw_a_tint(job: "Job") -> None:
    job.draft.redraw(job.draft.contents[6], lambda d: d.replace(b"1 scn", b"0.5 scn"))


def forget_the_ink(job: "Job") -> None:
    job.draft.redraw(job.draft.contents[6], lambda d: d.replace(b"/Ink cs 1 scn\n", b""))


def add_a_crop_box(job: "Job") -> None:
    job.draft.swap(job.draft.pages[6], b"/Type /Page", b"/Type /Page /CropBox [0 0 300 300]")


def rotate_a_page(job: "Job") -> None:
    job.draft.swap(job.draft.pages[6], b"/Type /Page", b"/Type /Page /Rotate 180")


def turn_a_page_wholly(job: "Job") -> None:
    job.draft.swap(job.draft.pages[6], b"/Type /Page", b"/Type /Page /Rotate 360")


def inherit_a_rotation(job: "Job") -> None:
    job.draft.swap(job.draft.branches[0], b"/Type /Pages", b"/Type /Pages /Rotate 180")


def inherit_from_the_root(job: "Job") -> None:
    job.draft.swap(job.draft.tree, b"/Type /Pages", b"/Type /Pages /CropBox [0 0 9 9]")


def another_unit(job: "Job") -> None:
    job.draft.swap(job.draft.pages[6], b"/Type /Page", b"/Type /Page /UserUnit 2")


def wrong_media_box(job: "Job") -> None:
    job.draft.swap(job.draft.pages[6], b"/MediaBox [0 0 522 378]", b"/MediaBox [0 0 523 378]")


def shifted_trim_box(job: "Job") -> None:
    job.draft.swap(job.draft.pages[6], b"/TrimBox [0 0 522 378]", b"/TrimBox [1 0 522 378]")


def no_bleed_box(job: "Job") -> None:
    job.draft.swap(job.draft.pages[6], b" /BleedBox [0 0 522 378]", b"")


def add_an_annotation(job: "Job") -> None:
    note = job.draft.add(b"<< /Type /Annot /Subtype /Text /Rect [0 0 9 9] /Contents (Ada) >>")
    job.draft.swap(job.draft.pages[6], b"/Type /Page", b"/Type /Page /Annots [%d 0 R]" % note)


def resources_of_its_own(job: "Job") -> None:
    own = job.draft.add(job.draft.texts[job.draft.resources])
    page = job.draft.pages[6]
    job.draft.swap(page, b"/Resources %d" % job.draft.resources, b"/Resources %d" % own)


TAMPERS: tuple[tuple[Hurt, str], ...] = (
    (change_one_glyph, r"Page 7 \(h-00000006\) has other letters in line \d"),
    (move_a_line_by_a_millimetre, r"Page 7 \(h-00000006\) has line 1 2.83[45] pt aside"),
    (make_a_line_larger, r"Page 7 .* has line 1 in another size than 24 pt"),
    (slant_a_line, r"Page 7 .* has line 1 laid in another way"),
    (drop_the_last_line, r"Page 7 .* has 2 lines where 3 belong"),
    (drop_a_page, r"Household h-00000006 is on no page"),
    (drop_a_page_and_its_objects, r"Household h-00000006 is on no page"),
    (swap_two_pages, r"Page 7 \(h-00000006\) carries the piece of h-00000009"),
    (swap_two_kids, r"Page 10 \(h-00000009\) carries the piece of h-00000006"),
    (repeat_a_household, r"Household h-00000009 is on 2 pages: 7, 10"),
    (show_a_page_twice, r"Household h-00000009 is on 2 pages: 7, 10"),
    (share_a_stream, r"Household h-00000006 is on no page"),
    (blank_a_page, r"Page 7 .* is blank"),
    (empty_a_stream, r"Page 7 .* doesn't begin with the plate's ink"),
    (add_a_cmyk_rectangle, r"Page 7 .* something that isn't a line of letters"),
    (add_an_image, r"Page 7 .* something that isn't a line of letters"),
    (add_invisible_text, r"Page 7 .* something that isn't a line of letters"),
    (add_a_comment, r"Page 7 .* something that isn't a line of letters"),
    (draw_a_tint, r"Page 7 .* doesn't begin with the plate's ink"),
    (forget_the_ink, r"Page 7 .* doesn't begin with the plate's ink"),
    (add_a_crop_box, r"Page 7 .* holds what no plate may hold: CropBox"),
    (rotate_a_page, r"Page 7 .* holds what no plate may hold: Rotate by 180"),
    (turn_a_page_wholly, r"Page 7 .* holds what no plate may hold: Rotate by 360"),
    (inherit_a_rotation, r"Branch 1 of the page tree holds what no plate may hold: Rotate"),
    (inherit_from_the_root, r"The page tree holds what no plate may hold: CropBox"),
    (another_unit, r"Page 7 .* holds what no plate may hold: UserUnit"),
    (wrong_media_box, r"Page 7 .* isn't 522 × 378 pt \(its MediaBox\)"),
    (shifted_trim_box, r"Page 7 .* isn't 522 × 378 pt \(its TrimBox\)"),
    (no_bleed_box, r"Page 7 .* lacks what every plate has: BleedBox"),
    (add_an_annotation, r"Page 7 .* holds what no plate may hold: Annots"),
    (resources_of_its_own, r"Page 7 .* has resources of its own"),
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
