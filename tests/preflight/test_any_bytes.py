"""Whatever the bytes are, a verdict comes back, and only the right ones are proved."""

import hashlib
import random
import re
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType
from typing import TYPE_CHECKING

import pytest

from addressing.preflight.judge import judge_plate
from addressing.records.plates import Verdict

if TYPE_CHECKING:
    from plate_drafts import Job

HOSTILE = (
    b"9999999999", b"-1", b"0", b"1e5", b"[", b"]", b">>", b"<<", b"[[[[[[[[[[", b"(", b"()",
    b"<41>", b"/X", b"/#ff", b"1 0 R", b"99999 0 R", b"0 0 R", b"null", b"true", b"<<>>", b"%", b"",
)  # fmt: skip


@pytest.fixture(scope="module")
def job(drafts: ModuleType) -> "Job":
    """A right job of three households."""
    made: Job = drafts.job_of(3)
    return made


@pytest.fixture
def good(job: "Job", tmp_path: Path) -> bytes:
    """The right plate's bytes."""
    return job.draft.write(tmp_path / "good.pdf").read_bytes()


def judged(job: "Job", path: Path, data: bytes) -> Verdict:
    """Write and judge."""
    path.write_bytes(data)
    return judge_plate(path, job.order, job.setting, job.pieces)


def unproved_calmly(verdict: Verdict) -> bool:
    """Refused, and by a fault that the judge foresaw."""
    return not verdict.proved and not any("to its end" in fault for fault in verdict.faults)


def resealed(data: bytes) -> bytes:
    """The bytes with the ID that fits them."""
    table = data.rindex(b"xref\n0 ")
    seal = hashlib.sha256(data[:table]).hexdigest()[:32].upper().encode()
    new = b"/ID [<%s> <%s>]" % (seal, seal)
    return data[:table] + re.sub(rb"/ID \[<\w+> <\w+>\]", new, data[table:])


def test_a_flipped_bit_is_always_refused(job: "Job", good: bytes, tmp_path: Path) -> None:
    dice = random.Random(20261125)  # noqa: S311  # the same flips each time
    for _ in range(30):
        data = bytearray(good)
        at = dice.randrange(len(data))
        data[at] ^= 1 << dice.randrange(8)
        assert unproved_calmly(judged(job, tmp_path / "plate.pdf", bytes(data))), at


def test_a_flipped_bit_is_refused_even_when_the_id_was_made_to_fit(
    job: "Job", good: bytes, tmp_path: Path
) -> None:
    dice = random.Random(11)  # noqa: S311
    body = good.rindex(b"xref\n0 ")
    for _ in range(30):
        data = bytearray(good)
        at = dice.randrange(body)
        data[at] ^= 1 << dice.randrange(8)
        assert unproved_calmly(judged(job, tmp_path / "plate.pdf", resealed(bytes(data)))), at


def test_a_plate_cut_short_anywhere_is_refused(job: "Job", good: bytes, tmp_path: Path) -> None:
    for length in [*range(0, len(good), len(good) // 40), len(good) - 1]:
        assert unproved_calmly(judged(job, tmp_path / "plate.pdf", good[:length])), length


def test_bytes_without_sense_are_refused(job: "Job", tmp_path: Path) -> None:
    dice = random.Random(3)  # noqa: S311
    for length in (0, 1, 7, 100, 5000, 200_000):
        assert unproved_calmly(judged(job, tmp_path / "plate.pdf", dice.randbytes(length)))


def _spoiled(text: bytes, dice: random.Random) -> Iterator[bytes]:
    """A text with one word after another replaced by something hostile."""
    words = re.findall(rb"[^ ]+", text)
    for at in range(len(words)):
        yield b" ".join([*words[:at], dice.choice(HOSTILE), *words[at + 1 :]])


def test_a_hostile_word_in_any_object_is_refused(drafts: ModuleType, tmp_path: Path) -> None:
    dice = random.Random(5)  # noqa: S311
    job = drafts.job_of(2)
    draft = job.draft
    numbers = [draft.root, draft.info, draft.tree, draft.branches[0], draft.pages[1], draft.ink]
    for number in [*numbers, draft.resources, next(iter(draft.forms.values()))]:
        right = draft.texts[number]
        for wrong in list(_spoiled(right, dice))[:16]:
            draft.texts[number] = wrong
            assert wrong == right or unproved_calmly(job.judge(tmp_path / "plate.pdf")), wrong
        draft.texts[number] = right
    assert job.judge(tmp_path / "plate.pdf").proved


def test_a_hostile_word_in_a_drawing_is_refused(drafts: ModuleType, tmp_path: Path) -> None:
    dice = random.Random(6)  # noqa: S311
    job = drafts.job_of(2)
    draft = job.draft
    for number in (draft.contents[1], next(iter(draft.forms.values()))):
        right = draft.streams[number]
        for wrong in list(_spoiled(right.replace(b"\n", b" \n "), dice))[:24]:
            draft.streams[number] = wrong.replace(b" \n ", b"\n")
            same = draft.streams[number] == right
            assert same or unproved_calmly(job.judge(tmp_path / "plate.pdf")), wrong
        draft.streams[number] = right


def test_a_missing_file_is_refused(job: "Job", tmp_path: Path) -> None:
    verdict = judge_plate(tmp_path / "nowhere.pdf", job.order, job.setting, job.pieces)
    assert verdict.faults == ("The file can't be read: No such file or directory.",)


def test_a_folder_is_refused(job: "Job", tmp_path: Path) -> None:
    assert unproved_calmly(judge_plate(tmp_path, job.order, job.setting, job.pieces))


def test_a_file_far_too_large_is_refused_unread(job: "Job", tmp_path: Path) -> None:
    path = tmp_path / "large.pdf"
    with path.open("wb") as stream:
        stream.truncate(1 << 34)
    verdict = judge_plate(path, job.order, job.setting, job.pieces)
    assert verdict.faults == ("The file is far larger than a plate of so many pages can be.",)
