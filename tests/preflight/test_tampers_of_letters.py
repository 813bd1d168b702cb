"""Ink and letter forms hurt in one way each time: the judge names what is wrong.

The kinds of hurt are from memory, and from ISO 32000-1, 8.6.6.4 (Separation) and 8.10 (forms).
"""

import re
from collections.abc import Callable
from pathlib import Path
from types import ModuleType
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from plate_drafts import Job


@pytest.fixture
def job(drafts: ModuleType) -> "Job":
    """A right job of twenty households in a static face."""
    made: Job = drafts.job_of(20)
    return made


Hurt = Callable[["Job"], None]


def rename_the_ink(job: "Job") -> None:
    job.draft.swap(job.draft.ink, b"/White", b"/Weiss")


def ink_on_every_plate(job: "Job") -> None:
    job.draft.swap(job.draft.ink, b"/White", b"/All")


def change_the_alternate(job: "Job") -> None:
    job.draft.swap(job.draft.ink, b"/C1 [0.3 ", b"/C1 [0.4 ")


def alternate_in_rgb(job: "Job") -> None:
    job.draft.swap(job.draft.ink, b"/DeviceCMYK", b"/DeviceRGB")


def bend_the_tint(job: "Job") -> None:
    job.draft.swap(job.draft.ink, b"/N 1", b"/N 2")


def a_second_alternate(job: "Job") -> None:
    text = job.draft.texts[job.draft.ink].replace(b"/C1 [0.3 ", b"/C1 [0.9 ")
    other = job.draft.add(text)
    job.draft.swap(job.draft.resources, b"/Ink ", b"/Other %d 0 R /Ink " % other)


def _a_form(job: "Job") -> int:
    return int(list(job.draft.forms.values())[7])


def clip_a_letter(job: "Job") -> None:
    form = _a_form(job)
    text = re.sub(
        rb"/BBox \[(\S+) (\S+) (\S+) (\S+)\]", rb"/BBox [\1 \2 100 100]", job.draft.texts[form]
    )
    assert text != job.draft.texts[form]
    job.draft.texts[form] = text


def frame_with_fractions(job: "Job") -> None:
    job.draft.texts[_a_form(job)] = (
        b"<< /Type /XObject /Subtype /Form /BBox [-2000.5 -2000 3000 3000] >>"
    )


def turn_a_letter(job: "Job") -> None:
    job.draft.swap(_a_form(job), b"/BBox", b"/Matrix [1 0 0.1 1 0 0] /BBox")


def layer_a_letter(job: "Job") -> None:
    layer = job.draft.add(b"<< /Type /OCG /Name (hidden) >>")
    job.draft.swap(_a_form(job), b"/BBox", b"/OC %d 0 R /BBox" % layer)


def a_blank_that_is_none(job: "Job") -> None:
    """A vertical tab is white space to Python, not to PDF: readers drop the contour behind it."""
    job.draft.redraw(_a_form(job), lambda d: d.replace(b" m\n", b"\x0bm\n"))


def blanks_that_say_nothing(job: "Job") -> None:
    job.draft.redraw(_a_form(job), lambda d: d.replace(b" m\n", b"  m\n"))


def zeros_that_say_nothing(job: "Job") -> None:
    job.draft.redraw(_a_form(job), lambda d: b"0" + d)


def a_roomy_frame(job: "Job") -> None:
    form = _a_form(job)
    text = re.sub(rb"/BBox \[(\S+) ", rb"/BBox [-83697 ", job.draft.texts[form])
    assert text != job.draft.texts[form]
    job.draft.texts[form] = text


def holes_in_a_letter(job: "Job") -> None:
    job.draft.redraw(_a_form(job), lambda d: d.replace(b"\nf\n", b"\nf*\n"))


def stroke_a_letter(job: "Job") -> None:
    job.draft.redraw(_a_form(job), lambda d: d.replace(b"\nf\n", b"\nB\n"))


def colour_in_a_letter(job: "Job") -> None:
    job.draft.redraw(_a_form(job), lambda d: b"1 0 0 rg\n" + d)


def nick_a_letter(job: "Job") -> None:
    def nicked(drawn: bytes) -> bytes:
        rows = drawn.split(b"\n")
        at = next(n for n, row in enumerate(rows) if n > 2 and row.endswith(b" c"))
        numbers = rows[at].split()
        numbers[4] = b"%g" % (float(numbers[4]) + 20)
        return b"\n".join([*rows[:at], b" ".join(numbers), *rows[at + 1 :]])

    job.draft.redraw(_a_form(job), nicked)


def drop_a_contour(job: "Job") -> None:
    form = next(n for n in job.draft.forms.values() if job.draft.streams[n].count(b"h\n") > 1)
    job.draft.redraw(form, lambda d: d[: d.index(b"h\n") + 2] + b"f\n")


def reverse_roles_of_letters(job: "Job") -> None:
    one, other = list(job.draft.forms.values())[7:9]
    streams, texts = job.draft.streams, job.draft.texts
    streams[one], streams[other] = streams[other], streams[one]
    texts[one], texts[other] = texts[other], texts[one]


def a_letter_that_no_line_uses(job: "Job") -> None:
    spare = max(set(range(20, 200)) - set(job.draft.forms))
    form = job.draft.add(*job.compositor.form(spare))
    job.draft.swap(job.draft.resources, b"/XObject <<", b"/XObject << /g%d %d 0 R" % (spare, form))


def embed_a_live_font(job: "Job") -> None:
    font = job.draft.add(b"<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>")
    job.draft.swap(
        job.draft.resources, b"<< /XObject", b"<< /Font << /F1 %d 0 R >> /XObject" % font
    )


def draw_with_transparency(job: "Job") -> None:
    state = job.draft.add(b"<< /Type /ExtGState /ca 0.5 >>")
    job.draft.swap(
        job.draft.resources, b"<< /XObject", b"<< /ExtGState << /G %d 0 R >> /XObject" % state
    )


TAMPERS: tuple[tuple[Hurt, str], ...] = (
    (rename_the_ink, r"ink is named “Weiss”; “White” was ordered"),
    (ink_on_every_plate, r"ink is named “All”; “White” was ordered"),
    (change_the_alternate, r"alternate of “White” is another colour"),
    (alternate_in_rgb, r"alternate of “White” isn't in CMYK"),
    (bend_the_tint, r"alternate of “White” isn't even"),
    (a_second_alternate, r"list of inks holds what no plate may hold: Other"),
    (clip_a_letter, r"drawing of letter \d+ has a frame that cuts it off"),
    (frame_with_fractions, r"letter \d+ has a frame .* isn't in whole units"),
    (turn_a_letter, r"drawing of letter \d+ holds what no plate may hold: Matrix"),
    (layer_a_letter, r"drawing of letter \d+ holds what no plate may hold: OC"),
    (a_blank_that_is_none, r"drawing of letter \d+ holds more than an outline, or isn't written"),
    (
        blanks_that_say_nothing,
        r"drawing of letter \d+ holds more than an outline, or isn't written",
    ),
    (zeros_that_say_nothing, r"drawing of letter \d+ holds more than an outline, or isn't written"),
    (a_roomy_frame, r"drawing of letter \d+ has a frame that"),
    (holes_in_a_letter, r"drawing of letter \d+ isn't one outline filled once"),
    (stroke_a_letter, r"drawing of letter \d+ isn't one outline filled once"),
    (colour_in_a_letter, r"drawing of letter \d+ holds more than an outline"),
    (nick_a_letter, r"Letter \d+ isn't drawn as the face draws it: a point is 20 units off"),
    (drop_a_contour, r"Letter \d+ isn't drawn as the face draws it: other contours"),
    (reverse_roles_of_letters, r"Letter \d+ isn't drawn as the face draws it"),
    (a_letter_that_no_line_uses, r"letters that no line uses"),
    (embed_a_live_font, r"list of parts holds what no plate may hold: Font"),
    (draw_with_transparency, r"list of parts holds what no plate may hold: ExtGState"),
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
