"""A plate that says the same in other bytes is refused: in what says nothing, data can hide.

The other spellings are all legal by ISO 32000-1, 7.2 to 7.3 and 7.5; nearly any reader takes them.
"""

import re
from collections.abc import Callable
from pathlib import Path
from types import ModuleType
from typing import TYPE_CHECKING

import pytest

from addressing.preflight.judge import judge_plate
from addressing.preflight.values import Objection, read_dict, read_value, spelled

if TYPE_CHECKING:
    from plate_drafts import Job


@pytest.fixture
def job(drafts: ModuleType) -> "Job":
    """A right job of four households in a static face."""
    made: Job = drafts.job_of(4)
    return made


Hurt = Callable[["Job"], None]
WHERE: tuple[str, ...] = ("root", "info", "tree", "resources", "ink", "page", "branch", "form")


def _number(job: "Job", where: str) -> int:
    draft = job.draft
    several = {
        "page": draft.pages[2],
        "branch": draft.branches[0],
        "form": next(iter(draft.forms.values())),
    }
    return int(several[where] if where in several else getattr(draft, where))


@pytest.mark.parametrize("where", WHERE)
@pytest.mark.parametrize(
    "blank",
    [b"  /", b"\n/", b"\r\n/", b"\t/", b"\x0b/", b"\x0c/", b"/"],
    ids=["two", "line", "crlf", "tab", "vt", "ff", "none"],
)
def test_other_blanks_between_keys_are_refused(
    job: "Job", tmp_path: Path, where: str, blank: bytes
) -> None:
    number = _number(job, where)
    text = job.draft.texts[number]
    changed = text.replace(b" /", blank)
    job.draft.texts[number] = changed
    assert changed != text
    assert not job.judge(tmp_path / "plate.pdf").proved


@pytest.mark.parametrize("where", [where for where in WHERE if where not in {"form", "ink"}])
def test_keys_in_another_order_are_refused(job: "Job", tmp_path: Path, where: str) -> None:
    number = _number(job, where)
    turned = dict(reversed(read_dict(job.draft.texts[number]).items()))
    job.draft.texts[number] = spelled(turned)
    faults = job.judge(tmp_path / "plate.pdf").faults
    named = r"in another order than every plate|not as the last of its parts"
    assert any(re.search(named, fault) for fault in faults), faults


def other_names(job: "Job") -> None:
    job.draft.swap(job.draft.pages[2], b"/MediaBox", b"/M#65diaBox")


def another_ink_name(job: "Job") -> None:
    job.draft.swap(job.draft.ink, b"/White", b"/Wh#69te")


def a_title_in_hexadecimal(job: "Job") -> None:
    title = re.escape(b"01-outer-white")
    text = job.draft.texts[job.draft.info]
    new = b"<%s>" % b"01-outer-white".hex().encode().upper()
    job.draft.texts[job.draft.info] = re.sub(rb"\(" + title + rb"\)", new, text)


def a_title_in_utf_16(job: "Job") -> None:
    new = b"<FEFF%s>" % "01-outer-white".encode("utf-16-be").hex().upper().encode()
    job.draft.swap(job.draft.info, b"(01-outer-white)", new)


def a_title_with_idle_escapes(job: "Job") -> None:
    job.draft.swap(job.draft.info, b"white)", rb"\white)")


def a_title_over_two_lines(job: "Job") -> None:
    job.draft.swap(job.draft.info, b"white)", b"\\\nwhite)")


def a_leading_zero(job: "Job") -> None:
    job.draft.swap(job.draft.pages[2], b"/TrimBox [0 0 522", b"/TrimBox [0 0 0522")


def an_idle_fraction(job: "Job") -> None:
    job.draft.swap(job.draft.pages[2], b"/TrimBox [0 0 522", b"/TrimBox [0 0 522.0")


def less_than_nothing(job: "Job") -> None:
    job.draft.swap(job.draft.pages[2], b"/TrimBox [0", b"/TrimBox [-0")


def a_count_as_a_real(job: "Job") -> None:
    job.draft.swap(job.draft.tree, b"/Count 4", b"/Count 4.0")


def a_size_a_hair_larger(job: "Job") -> None:
    job.draft.swap(job.draft.pages[2], b"/MediaBox [0 0 522 ", b"/MediaBox [0 0 522.001 ")


def a_colour_a_hair_stronger(job: "Job") -> None:
    job.draft.swap(job.draft.ink, b"/C1 [0.3 ", b"/C1 [0.301 ")


def decimals_beyond_a_thousandth(job: "Job") -> None:
    job.draft.swap(job.draft.ink, b"/C1 [0.3 ", b"/C1 [0.3001 ")


def a_scale_with_idle_zeros(job: "Job") -> None:
    job.draft.redraw(
        job.draft.contents[2], lambda d: d.replace(b"0.024 0 0 0.024", b"0.0240 0 0 0.0240")
    )


def a_reference_with_a_zero(job: "Job") -> None:
    job.draft.swap(job.draft.root, b"/Pages 3", b"/Pages 03")


def letters_out_of_order(job: "Job") -> None:
    named = re.findall(rb"/g\d+ \d+ 0 R", job.draft.texts[job.draft.resources])
    both = named[0] + b" " + named[1]
    job.draft.swap(job.draft.resources, both, named[1] + b" " + named[0])


def a_branch_of_its_own(job: "Job") -> None:
    draft = job.draft
    first, rest = draft.pages[0], draft.pages[1:]
    alone = draft.add(
        b"<< /Type /Pages /Parent %d 0 R /Kids [%d 0 R] /Count 1 >>" % (draft.tree, first)
    )
    kids = b" ".join(b"%d 0 R" % page for page in rest)
    draft.texts[draft.branches[0]] = b"<< /Type /Pages /Parent %d 0 R /Kids [%s] /Count 3 >>" % (
        draft.tree,
        kids,
    )
    draft.swap(first, b"/Parent %d" % draft.branches[0], b"/Parent %d" % alone)
    draft.swap(draft.tree, b"/Kids [", b"/Kids [%d 0 R " % alone)


TAMPERS: tuple[tuple[Hurt, str], ...] = (
    (other_names, r"Page 3 .* isn't written as plainly as it can be"),
    (another_ink_name, r"isn't written as plainly as it can be"),
    (a_title_in_hexadecimal, r"title isn't 01-outer-white"),
    (a_title_in_utf_16, r"title isn't 01-outer-white"),
    (a_title_with_idle_escapes, r"isn't written as plainly as it can be"),
    (a_title_over_two_lines, r"isn't written as plainly as it can be"),
    (a_leading_zero, r"Page 3 .* isn't written as plainly as it can be"),
    (an_idle_fraction, r"Page 3 .* isn't written as plainly as it can be"),
    (less_than_nothing, r"Page 3 .* isn't written as plainly as it can be"),
    (a_count_as_a_real, r"isn't written as plainly as it can be"),
    (a_size_a_hair_larger, r"Page 3 .* isn't 522 × 378 pt \(its MediaBox\)"),
    (a_colour_a_hair_stronger, r"alternate of “White” is another colour"),
    (decimals_beyond_a_thousandth, r"isn't written as plainly as it can be"),
    (a_scale_with_idle_zeros, r"Page 3 .* has line 1 laid in another way"),
    (a_reference_with_a_zero, r"isn't written as plainly as it can be"),
    (letters_out_of_order, r"letters aren't in the order of their numbers"),
    (a_branch_of_its_own, r"Branch 1 of the page tree is wrong in its count"),
)


@pytest.mark.parametrize(
    ("hurt", "named"), TAMPERS, ids=[hurt.__name__.replace("_", "-") for hurt, _ in TAMPERS]
)
def test_the_same_in_other_words_is_refused_by_name(
    job: "Job", tmp_path: Path, hurt: Hurt, named: str
) -> None:
    hurt(job)
    verdict = job.judge(tmp_path / "plate.pdf")
    assert any(re.search(named, fault) for fault in verdict.faults), verdict.faults


FILES: tuple[tuple[str, bytes, bytes], ...] = (
    ("another comment", b"%\xe2\xe3\xcf\xd3\n", b"%\xe2\xe3\xcf\xd2\n"),
    ("an empty line", b"endobj\n2 0 obj", b"endobj\n\n2 0 obj"),
    ("a line end of two bytes", b">>\nstream\n", b">>\nstream\r\n"),
    ("a zero before the table's place", b"startxref\n", b"startxref\n0"),
    ("a size with a zero", b"/Size ", b"/Size 0"),
    ("two blanks in the trailer", b" /Root", b"  /Root"),
)


@pytest.mark.parametrize(("old", "new"), [pair[1:] for pair in FILES], ids=[f[0] for f in FILES])
def test_a_file_laid_out_otherwise_is_refused(
    job: "Job", tmp_path: Path, old: bytes, new: bytes
) -> None:
    path = job.draft.write(tmp_path / "good.pdf")
    data = path.read_bytes()
    assert old in data
    path.write_bytes(data.replace(old, new, 1))
    assert not judge_plate(path, job.order, job.setting, job.pieces).proved


def test_an_id_in_lower_case_is_refused(job: "Job", tmp_path: Path) -> None:
    path = job.draft.write(tmp_path / "plate.pdf")
    path.write_bytes(re.sub(rb"(?<=/ID).*", lambda found: found[0].lower(), path.read_bytes()))
    assert not judge_plate(path, job.order, job.setting, job.pieces).proved


@pytest.mark.parametrize(
    "text",
    [b"-0", b"1.50", b"01", b".5", b"5.", b"0.0001", b"<ab>", b"(\xe9)", b"/a#62", b"[1  2]"],
)
def test_a_value_has_one_spelling(text: bytes) -> None:
    with pytest.raises(Objection):
        read_value(text)
