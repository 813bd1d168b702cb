"""Plates judged again later, by what lies in the job's folder alone."""

import json
import re
import shutil
import subprocess
import zlib
from collections.abc import Callable
from pathlib import Path
from types import ModuleType
from typing import Any

import pikepdf
import pytest

from addressing.records.shelf import Face

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]


@pytest.fixture
def job(addressing: Run, write_list: Write) -> Path:
    """A job of three households."""
    assert addressing("plates", write_list(), "--json").returncode == 0
    return Path("guests-job")


def judged(addressing: Run, *arguments: str | Path) -> tuple[int, list[dict[str, Any]]]:
    ran = addressing("preflight", *arguments, "--json")
    return ran.returncode, json.loads(ran.stdout)["plates"]


def fault_of(addressing: Run, *arguments: str | Path) -> tuple[int, str]:
    ran = addressing("preflight", *arguments, "--json")
    assert ran.stdout == ""
    return ran.returncode, json.loads(ran.stderr.splitlines()[-1])["fault"]["code"]


def outer(job: Path) -> Path:
    return job / "plates" / "01-outer-white.pdf"


def test_all_plates_of_a_job_are_proved_again_without_list_and_docket(
    addressing: Run, job: Path
) -> None:
    Path("guests.csv").unlink()
    code, plates = judged(addressing, job)
    assert code == 0
    assert [plate["plate"] for plate in plates] == ["01-outer-white", "02-inner-white"]
    assert all(plate["proved"] and not plate["faults"] for plate in plates)
    assert plates[0]["counted"]["pages seen as pixels"] == 3
    for plate in plates:
        assert 0 < plate["finest_stroke_pt"] < plate["narrowest_gap_pt"]
        assert plate["bytes"] == Path(plate["path"]).stat().st_size


def test_a_line_moved_by_a_millimetre_is_told_with_its_page(
    addressing: Run, job: Path, taken_apart: ModuleType
) -> None:
    plate = taken_apart.Plate(outer(job))

    def moved(drawn: bytes) -> bytes:
        first = re.search(rb"0 0 \S+ (\S+) (\S+) cm", drawn)
        assert first is not None
        raised = b"%.3f" % (float(first[2]) + 72 / 25.4)
        return drawn[: first.start(2)] + raised.rstrip(b"0").rstrip(b".") + drawn[first.end(2) :]

    plate.redraw(plate.contents(2), moved)
    plate.write()
    code, (told, *_) = judged(addressing, outer(job))
    assert code == 5
    assert not told["proved"]
    assert [fault["page"] for fault in told["faults"]] == [2]
    assert "2.835 pt up or down" in told["faults"][0]["text"]
    said = addressing("preflight", outer(job)).stdout
    assert "not to be printed" in said
    assert "Ottoline Grayling" in said


def test_two_pages_that_changed_places_are_told_by_household(
    addressing: Run, job: Path, taken_apart: ModuleType
) -> None:
    plate = taken_apart.Plate(outer(job))
    one, two = plate.contents(1), plate.contents(3)
    plate.objects[one], plate.objects[two] = plate.objects[two], plate.objects[one]
    plate.write()
    code, (told, *_) = judged(addressing, outer(job))
    assert code == 5
    assert {fault["page"] for fault in told["faults"]} == {1, 3}
    assert all("carries the piece of h-" in fault["text"] for fault in told["faults"])


def test_a_letter_nicked_by_twenty_units_is_found(
    addressing: Run, job: Path, taken_apart: ModuleType
) -> None:
    plate = taken_apart.Plate(outer(job))
    form = next(n for n, body in plate.objects.items() if b"/Subtype /Form" in body)

    def nicked(drawn: bytes) -> bytes:
        x, rest = drawn.split(b" ", 1)
        return b"%g %b" % (float(x) + 20, rest)

    plate.redraw(form, nicked)
    plate.write()
    code, (told, *_) = judged(addressing, outer(job))
    assert code == 5
    assert any("isn't drawn as the face draws it" in fault["text"] for fault in told["faults"])


def test_a_plate_saved_by_another_program_is_not_proved(addressing: Run, job: Path) -> None:
    with pikepdf.open(outer(job), allow_overwriting_input=True) as pdf:
        pdf.save(outer(job))
    code, (told, *_) = judged(addressing, outer(job))
    assert code == 5
    assert told["faults"]


def test_a_plate_that_draws_the_same_in_other_bytes_is_not_the_proved_one(
    addressing: Run, job: Path, taken_apart: ModuleType
) -> None:
    plate = taken_apart.Plate(outer(job))
    plate.redraw(plate.contents(1), lambda drawn: drawn, level=9)
    plate.write()
    code, (told, *_) = judged(addressing, outer(job))
    assert code == 5
    assert "byte for byte" in told["faults"][0]["text"]


def test_every_byte_counts(addressing: Run, job: Path) -> None:
    good = outer(job).read_bytes()
    for at in range(7, len(good), len(good) // 20):
        hurt = bytearray(good)
        hurt[at] ^= 1
        outer(job).write_bytes(bytes(hurt))
        assert judged(addressing, outer(job))[0] == 5, at


def test_a_damaged_byte_is_told_by_the_letter_or_the_page_that_it_is_in(
    addressing: Run, job: Path
) -> None:
    good = outer(job).read_bytes()
    with pikepdf.open(outer(job)) as pdf:
        page = pdf.pages[1].Contents.objgen[0]
        letter = next(iter(pdf.pages[0].Resources.XObject.values())).objgen[0]
    for number, told in ((letter, "is damaged in the file"), (page, "Page 2 ")):
        hurt = bytearray(good)
        begin = good.index(b"stream\n", good.index(b"\n%d 0 obj\n" % number)) + len(b"stream\n")
        hurt[begin + 12] ^= 0xFF
        outer(job).write_bytes(bytes(hurt))
        said = addressing("preflight", outer(job)).stdout
        assert told in said, said
        assert f"object {number} " not in said.split("Page 2")[0]


def test_a_line_nudged_by_less_than_a_hundredth_is_not_told_as_nought(
    addressing: Run, job: Path, taken_apart: ModuleType
) -> None:
    plate = taken_apart.Plate(outer(job))

    def moved(drawn: bytes) -> bytes:
        first = re.search(rb"0 0 \S+ (\S+) (\S+) cm", drawn)
        assert first is not None
        nudged = b"%.3f" % (float(first[2]) + 0.01)
        return drawn[: first.start(2)] + nudged.rstrip(b"0").rstrip(b".") + drawn[first.end(2) :]

    plate.redraw(plate.contents(2), moved)
    plate.write()
    said = " ".join(addressing("preflight", outer(job)).stdout.split())
    assert "under 0.01 mm up or down from its place" in said
    assert "0.00 mm" not in said


@pytest.mark.parametrize(
    ("pattern", "instead", "words"),
    [
        (rb"q (\S+) 0 0 \S+ (\S+ )(\S+) cm", rb"q \1 0 0.001 \1 \2\g<3>0 cm", "line 1 ("),
        (rb"^", b"1 0 0 1 0.85 0 cm\n", "is moved, turned or scaled as a whole"),
    ],
)
def test_what_is_moved_by_another_hand_is_told_as_moved(
    pattern: bytes, instead: bytes, words: str, addressing: Run, job: Path, taken_apart: ModuleType
) -> None:
    plate = taken_apart.Plate(outer(job))
    plate.redraw(plate.contents(2), lambda drawn: re.sub(pattern, instead, drawn, count=1))
    plate.write()
    said = " ".join(addressing("preflight", outer(job)).stdout.split())
    assert words in said
    assert "moved, turned" in said


def test_a_copy_elsewhere_is_judged_when_its_job_is_named(
    addressing: Run, job: Path, tmp_path_factory: pytest.TempPathFactory
) -> None:
    copy = tmp_path_factory.mktemp("away") / outer(job).name
    shutil.copyfile(outer(job), copy)
    assert fault_of(addressing, copy) == (3, "plate-unknown")
    assert judged(addressing, copy, "--job", job)[0] == 0


def test_what_can_t_be_judged_is_refused(addressing: Run, job: Path) -> None:
    assert fault_of(addressing, job / "plates" / "09-none.pdf") == (3, "plate-missing")
    (job / "else.pdf").write_bytes(b"%PDF")
    assert fault_of(addressing, job / "else.pdf") == (3, "plate-unknown")
    kept = job / "orders.json.z"
    whole = kept.read_bytes()
    kept.write_bytes(zlib.compress(zlib.decompress(whole).replace(b"Penhew", b"Penhaw")))
    assert fault_of(addressing, outer(job)) == (3, "orders-changed")
    kept.unlink()
    assert fault_of(addressing, outer(job)) == (3, "orders-wrong")


def test_a_face_that_is_no_longer_there_as_it_was_is_told(
    addressing: Run, write_list: Write, ruler: Face, tmp_path: Path
) -> None:
    (tmp_path / "fonts").mkdir()
    font = tmp_path / "fonts" / "ruler.ttf"
    shutil.copyfile(ruler.path, font)
    docket = tmp_path / "job.toml"
    docket.write_text('[pieces]\nmake = ["outer"]\n[[piece]]\nkind = "outer"\nface = "ruler"\n')
    assert addressing("plates", write_list(), "--docket", docket, "--json").returncode in {0, 1}
    assert judged(addressing, Path("guests-job"))[0] == 0
    font.unlink()
    assert fault_of(addressing, Path("guests-job")) == (3, "face-missing")


def test_the_record_is_its_owner_s_alone_and_names_no_place_of_this_machine(job: Path) -> None:
    kept = job / "orders.json.z"
    assert kept.stat().st_mode & 0o077 == 0
    told = zlib.decompress(kept.read_bytes())
    assert b'"path":""' in told
    assert b".ttf" not in told
