"""What was changed since the plates were made is told, and what was only saved anew isn't."""

import hashlib
import json
import re
import subprocess
from collections.abc import Callable
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]

PLACE = ("Litchfield", "CT", "06759")
ROWS = [
    ("Mr. Tobias Wexcombe", "14 Larkmoor Lane", *PLACE),
    ("Ms. Odile Farrenby", "2 Larkmoor Lane", *PLACE),
]
JOB = Path("guests-job")
GIVEN = ("guests.csv", "--docket", "job.toml")
DOCKET = """\
[job]
date = "2026-03-10"
[hosts]
name = "Mrs. Odile Larkmoor"
street = "48 Larkmoor Lane"
city = "Litchfield"
region = "CT"
postcode = "06759"
[shop]
name = "farrenby-press"
"""
ANSWER = ("answer", *GIVEN, "--set", "Tobias Wexcombe", "street", "41 Larkmoor Lane")


@pytest.fixture
def job(addressing: Run, write_list: Write) -> Path:
    """A job for a shop, whose plates are made."""
    Path("job.toml").write_text(DOCKET, "utf-8")
    path = write_list(ROWS)
    assert addressing("plates", *GIVEN, "--json").returncode == 0
    return path


def notes(addressing: Run) -> list[str]:
    ran = addressing("preflight", JOB, "--json")
    assert ran.returncode == 0
    (record,) = json.loads(ran.stdout)["manifests"]
    found: list[str] = record["notes"]
    return found


def changed(addressing: Run, *more: str) -> list[str]:
    ran = addressing("printed", "guests.csv", "--json", *more)
    assert ran.returncode == 0, ran.stderr
    told: list[str] = json.loads(ran.stdout)["changed"]
    return told


def fault(ran: Ran) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(ran.stderr.splitlines()[-1])["fault"]
    return found


def test_a_list_that_was_only_saved_anew_is_not_called_changed(addressing: Run, job: Path) -> None:
    job.write_bytes(job.read_bytes().replace(b"\r\n", b"\n").replace(b"\n", b"\r\n") + b"\r\n")
    assert notes(addressing) == []
    assert addressing("package", *GIVEN, "--json").returncode == 0
    assert addressing("preflight", JOB / "for-farrenby-press.zip").returncode == 0
    assert changed(addressing) == []
    job.write_bytes(job.read_bytes().replace(b"14 Lark", b"41 Lark"))
    (note,) = notes(addressing)
    assert "guests.csv was changed since these plates were made" in note
    assert fault(addressing("package", *GIVEN, "--json"))["code"] == "plates-stale"


def test_answers_docket_and_own_layouts_changed_since_are_told(addressing: Run, job: Path) -> None:
    assert notes(addressing) == changed(addressing) == []
    assert addressing(*ANSWER).returncode == 0
    (note,) = notes(addressing)
    assert note.startswith("What the client answered was changed since these plates were made")
    assert changed(addressing, "--again") == ["What the client answered was changed"]
    said = " ".join(addressing("printed", "guests.csv", "--again").stdout.split())
    assert "note What the client answered was changed since these plates were made." in said
    (JOB / "decisions.toml").unlink()
    assert notes(addressing) == []
    Path("job.toml").write_text(DOCKET + "# looked over\n", "utf-8")
    assert "job.toml was changed" in notes(addressing)[0]
    Path("job.toml").write_text(DOCKET, "utf-8")
    shelf = Path(__file__).parents[2] / "layouts"
    own = (shelf / "a7.toml").read_text("utf-8")
    Path("layouts").mkdir()
    Path("layouts/a7.toml").write_text(own, "utf-8")
    assert notes(addressing) == []
    lower = own.replace("left_mm = 14.5\nbottom_mm = 16.0", "left_mm = 15.5\nbottom_mm = 16.0")
    Path("layouts/a7.toml").write_text(lower, "utf-8")
    assert notes(addressing)[0].startswith("A layout, a face, an ink or a calibration")
    Path("layouts/a7.toml").write_text(own + "strange = 1\n", "utf-8")
    assert "can't be read as they are now" in notes(addressing)[0]
    assert job.exists()


def test_what_doesn_t_judge_right_isn_t_noted_as_printed(
    addressing: Run, job: Path, taken_apart: ModuleType
) -> None:
    own = min((JOB / "plates").glob("01-outer*.pdf"))
    whole = own.read_bytes()
    own.unlink()
    told = fault(addressing("printed", "guests.csv", "--json"))
    assert (told["code"], "isn't there" in told["text"]) == ("plate-missing", True)
    own.write_bytes(whole)
    plate = taken_apart.Plate(own)
    drawn: list[bytes] = []

    def seen(its: bytes) -> bytes:
        drawn.append(its)
        return its

    plate.redraw(plate.contents(1), seen)
    plate.redraw(plate.contents(2), lambda _: drawn[0])
    plate.write()
    told = fault(addressing("printed", "guests.csv", "--json"))
    assert told["code"] == "plate-changed"
    assert "Page 2 (" in told["text"]
    assert "carries the piece of" in told["text"]
    assert not (JOB / "ledger.sqlite").exists() or addressing("ledger", *GIVEN).returncode == 0
    assert job.exists()


def test_a_proof_that_is_to_be_signed_is_missed(addressing: Run, job: Path) -> None:
    (JOB / "proof.pdf").unlink()
    ran = addressing("preflight", JOB)
    assert (ran.returncode, job.exists()) == (5, True)
    assert "proof.pdf: missing.\n  It isn't there, and it is to be signed" in ran.stdout


def test_a_manifest_of_other_plates_is_blamed_itself(addressing: Run, job: Path) -> None:
    older = (JOB / "manifest.json").read_bytes()
    job.write_bytes(job.read_bytes().replace(b"14 Lark", b"41 Lark"))
    assert addressing("plates", *GIVEN, "--json").returncode == 0
    (JOB / "manifest.json").write_bytes(older)
    ran = addressing("preflight", JOB, "--json")
    assert ran.returncode == 3
    assert fault(ran)["code"] == "manifest-changed"


def test_another_list_is_told_as_that(addressing: Run, job: Path) -> None:
    other = job.with_name("others.csv")
    other.write_bytes(job.read_bytes().replace(b"14 Lark", b"41 Lark"))
    ran = addressing("printed", other, "--to", JOB, "--json")
    assert ran.returncode == 0, ran.stderr
    (told,) = json.loads(ran.stdout)["changed"]
    assert told == f"{other}, another list, took the place of guests.csv"


def own_layout(addressing: Run) -> None:
    """Something of the designer's own beside the docket, so that it is looked at."""
    assert addressing("layouts", "--start", "mine", "--like", "a7").returncode == 0


def summed(text: str) -> str:
    """What is kept of households, changed, with the sum of it all as it should be."""
    told = text.rpartition(',\n"sum"')[0]
    sum_ = hashlib.sha256(told.encode()).hexdigest()[:16]
    return f'{told},\n"sum": "{sum_}"}}\n'


def forged(text: str) -> str:
    """Another key for the first household."""
    key = re.search(r'"key":"(h-[a-z0-9]+)"', text)
    assert key is not None
    return summed(text.replace(key[1], "h-aaaaaaaa"))


def test_exchanged_keys_are_told_as_such_and_nothing_is_wrong_by_them(
    addressing: Run, job: Path
) -> None:
    assert addressing("printed", job).returncode == 0
    own_layout(addressing)
    kept = JOB / "households.json"
    one, two = json.loads((JOB / "manifest.json").read_text("utf-8"))["files"][0]["households"]
    told = kept.read_text("utf-8").replace(one, "h-other").replace(two, one)
    kept.write_text(summed(told.replace("h-other", two)), "utf-8")
    (note,) = notes(addressing)
    assert "households.json, which has the keys of households, was changed" in note
    ran = addressing("ledger", *GIVEN)
    assert ran.returncode == 0
    assert "destroy" not in ran.stdout
    assert "To print" not in ran.stdout


@pytest.mark.usefixtures("job")
def test_a_manifest_that_was_changed_is_no_change_of_a_layout(addressing: Run) -> None:
    own_layout(addressing)
    path = JOB / "manifest.json"
    content = json.loads(path.read_text("utf-8"))
    content["files"][0]["households"].reverse()
    path.write_text(json.dumps(content), "utf-8")
    ran = addressing("preflight", JOB)
    assert ran.returncode == 5
    assert "manifest.json: changed since the plates were made" in ran.stdout
    assert "A layout" not in ran.stdout


@pytest.mark.parametrize("left", [None, "", "# nothing\n"])
@pytest.mark.usefixtures("job")
def test_answers_that_are_lost_are_told_until_plates_are_made_without_them(
    addressing: Run, left: str | None
) -> None:
    assert addressing(*ANSWER).returncode == 0
    assert addressing("printed", "guests.csv").returncode == 0
    kept = JOB / "decisions.toml"
    was = kept.read_bytes()
    kept.unlink() if left is None else kept.write_text(left, "utf-8")
    told = "An answer that was kept here isn't in decisions.toml any more (of Tobias Wexcombe)"
    assert addressing("questions", *GIVEN).returncode == 0
    for command in ("check", "reprint", "plates"):
        assert told in " ".join(addressing(command, *GIVEN).stdout.split()), command
    assert told not in " ".join(addressing("check", *GIVEN).stdout.split())
    kept.write_bytes(was)
    assert addressing("plates", *GIVEN).returncode == 0
    (ref,) = json.loads((JOB / "households.json").read_text("utf-8"))["answered"]
    assert ref.endswith(":correct:street")
    other = ("answer", *GIVEN, "--set", "Odile Farrenby", "street", "3 Larkmoor Lane")
    kept.unlink()
    assert addressing(*other).returncode == 0  # one more answer hides no lost one
    assert told in " ".join(addressing("check", *GIVEN).stdout.split())


@pytest.mark.usefixtures("job")
def test_an_answer_that_is_taken_back_is_not_called_lost(addressing: Run) -> None:
    assert addressing(*ANSWER).returncode == 0
    assert addressing("answer", *GIVEN, "--undo", "Tobias Wexcombe:street").returncode == 0
    assert "isn't in decisions.toml" not in addressing("check", *GIVEN).stdout


@pytest.mark.usefixtures("job")
@pytest.mark.parametrize(
    ("hurt", "told"),
    [
        (lambda _: "{}x", "can't be read: it isn't the list of households"),
        (lambda text: text[: len(text) // 2], "can't be read"),
        (lambda text: text.replace("odile", "adele"), "isn't as this program wrote it"),
        (forged, "as on these plates: it is another job's, or older"),
        (None, "isn't there any more: it has the keys of households"),
    ],
    ids=["garbage", "cut short", "a word", "a key and the sum", "gone"],
)
def test_households_that_are_damaged_are_told_with_what_mends_them(
    addressing: Run, hurt: Callable[[str], str] | None, told: str
) -> None:
    assert notes(addressing) == []
    path = JOB / "households.json"
    was = path.read_text("utf-8")
    path.unlink() if hurt is None else path.write_text(hurt(was), "utf-8")
    (note,) = notes(addressing)
    assert told in note
    assert "back from a copy" in note
    path.write_text(was, "utf-8")
    assert notes(addressing) == []
