"""Proof, job sheet and ticket are held to the plates, though their seal and all digests agree."""

import hashlib
import io
import json
import re
import shutil
import zipfile
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import pikepdf
import pytest

from addressing.cli import main

Run = Callable[..., CompletedProcess[str]]
Change = Callable[[pikepdf.Pdf], None]

DOCKET = """\
[job]
date = "2026-03-10"
[pieces]
make = ["outer", "inner"]
[shop]
name = "farrenby-press"
"""
ROWS = "Name,Street,City,State,ZIP\n" + "".join(
    f"{who},{n} Larkmoor Lane,Litchfield,CT,06759\n"
    for n, who in enumerate(("Mr. Tobias Penhew", "Ms. Alice Vale", "Dr. Ysolde Orr"), start=2)
)
PACKAGE = "for-farrenby-press.zip"


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    desk = tmp_path_factory.mktemp("forged")
    (desk / "guests.csv").write_text(ROWS, "utf-8")
    (desk / "docket.toml").write_text(DOCKET, "utf-8")
    given = (desk / "guests.csv", "--docket", desk / "docket.toml", "--to", desk / "job")
    for command in ("plates", "package"):
        with pytest.raises(SystemExit) as ended:
            main([command, *map(str, given)])
        assert ended.value.code == 0
    return desk


@pytest.fixture
def job(made: Path, tmp_path: Path) -> Path:
    for path in made.iterdir():
        (shutil.copytree if path.is_dir() else shutil.copyfile)(path, tmp_path / path.name)
    return Path("job")


def refreshed(job: Path) -> None:
    """Let the manifest agree with the files as they are now."""
    content = json.loads((job / "manifest.json").read_text("utf-8"))
    for entry in content["files"]:
        data = (job / entry["path"]).read_bytes()
        entry["sha256"] = hashlib.sha256(data).hexdigest()
    (job / "manifest.json").write_text(json.dumps(content), "utf-8")


def judged(addressing: Run, job: Path) -> tuple[int, dict[str, Any]]:
    ran = addressing("preflight", job, "--json")
    files = json.loads(ran.stdout)["files"]
    return ran.returncode, {Path(each["path"]).name: each for each in files}


def forged(sheets: bytes, change: Change) -> bytes:
    out = io.BytesIO()
    with pikepdf.open(io.BytesIO(sheets)) as document:
        change(document)
        document.save(out)
    return out.getvalue()


def packed(job: Path, name: str, change: Change) -> None:
    """Forge a sheet of the package, its checksums and the manifest."""
    repacked(job, lambda files: files.update({name: forged(files[name], change)}))


def repacked(job: Path, change: Callable[[dict[str, bytes]], None]) -> None:
    """Forge the package, its checksums and the manifest."""
    path = job / PACKAGE
    with zipfile.ZipFile(path) as was:
        files = {each: was.read(each) for each in was.namelist()}
    change(files)
    files.pop("checksums.sha256")
    sums = (f"{hashlib.sha256(data).hexdigest()}  {each}\n" for each, data in files.items())
    files["checksums.sha256"] = "".join(sums).encode()
    with zipfile.ZipFile(path, "w") as now:
        for each, data in files.items():
            now.writestr(each, data)
    refreshed(job)


def drawn(pattern: bytes, new: bytes, count: int = 1) -> Change:
    """What sheets draw, with something else for the first that fits."""

    def change(document: pikepdf.Pdf) -> None:
        for page in document.pages:
            own = page.Contents.read_bytes()
            if re.search(pattern, own):
                page.Contents = document.make_stream(re.sub(pattern, new, own, count=count))
                return
        pytest.fail(f"{pattern!r} isn't drawn")

    return change


def another_shape(document: pikepdf.Pdf) -> None:
    forms = document.pages[0].Resources.XObject
    own = next(form for name, form in forms.items() if "outer-" in str(name))
    own.write(own.read_bytes().replace(b" l ", b" l 3 3 l ", 1))


def nothing(document: pikepdf.Pdf) -> None:
    """Written anew as it is."""


def noted(document: pikepdf.Pdf) -> None:
    document.pages[0].Annots = document.make_indirect(pikepdf.Array([]))


FORGED: dict[str, tuple[Change, str]] = {
    "a letter for another": (drawn(rb"outer-\d+ Do\n(?=Q)", b"outer-125 Do\n"), "the outer of"),
    "two letters changed over": (
        drawn(rb"(/FormXob.outer-\d+ Do)(\n[^\n]+ cm\n)(/FormXob.outer-(?!\1)\d+ Do)", rb"\3\2\1"),
        "the outer of",
    ),
    "a letter moved": (drawn(rb"1 0 0 1 \d+ 0 cm\n(?=/FormXob.inner)", b"1 0 0 1 9 0 cm\n"),
                       "the inner of"),
    "a line moved": (drawn(rb" cm\n1 0 0 1 0 0 cm", b" cm\n1 0 0 1 0 300 cm"), "as they are"),
    "a line left out": (drawn(rb"1 0 0 1 0 0 cm\n(?:/FormXob.inner[^Q]+)Q", b"Q"), "the inner of"),
    "words laid over": (
        drawn(rb"n (\d\S*) (\d\S*) \S+ \S+ re B\*\nQ", rb"\g<0>\nBT 1 0 0 1 \1 \2 Tm (x) Tj ET"),
        "words laid over an envelope",
    ),
    "another way of drawing": (drawn(rb"\nQ", b"\n0 0 99 99 re f\nQ"), "draws what no proof"),
    "letters of another shape": (another_shape, "another shape"),
    "a sheet left out": (lambda document: document.pages.__delitem__(0), "as they are"),
    "a note": (noted, "a note or a stamp"),
}  # fmt: skip


@pytest.mark.parametrize("name", FORGED)
def test_a_forged_proof_in_a_package_is_told(addressing: Run, job: Path, name: str) -> None:
    change, words = FORGED[name]
    packed(job, "proof.pdf", change)
    code, files = judged(addressing, job)
    assert code == 5
    assert words in " ".join(files[PACKAGE]["faults"]), files[PACKAGE]["faults"]


@pytest.mark.parametrize("name", FORGED)
def test_a_forged_proof_is_told(addressing: Run, job: Path, name: str) -> None:
    change, words = FORGED[name]
    path = job / "proof.pdf"
    path.write_bytes(forged(path.read_bytes(), change))
    refreshed(job)
    code, files = judged(addressing, job)
    assert code == 5
    assert words in " ".join(files["proof.pdf"]["faults"])


CAPTIONS: dict[str, Change] = {
    "a name": drawn(rb"\(Alice Vale\)", b"(Alice Vane)"),
    "the date": drawn(rb"\(March 10", b"(March 11"),
    "a household's number": drawn(rb"\(2\) Tj", b"(7) Tj"),
    "a colour": drawn(rb"BT", b"1 0 0 rg\nBT"),
    "nothing but the bytes": nothing,
}  # fmt: skip


@pytest.mark.parametrize("name", CAPTIONS)
def test_what_stands_beside_the_envelopes_of_a_proof_is_held(
    addressing: Run, job: Path, name: str
) -> None:
    path = job / "proof.pdf"
    path.write_bytes(forged(path.read_bytes(), CAPTIONS[name]))
    packed(job, "proof.pdf", CAPTIONS[name])
    refreshed(job)
    code, files = judged(addressing, job)
    assert code == 5
    assert files["proof.pdf"]["faults"]
    assert "proof.pdf in it" in " ".join(files[PACKAGE]["faults"])


def test_a_proof_drawn_anew_under_another_date_bears_no_seal(addressing: Run, job: Path) -> None:
    anew = ("proof", "guests.csv", "--docket", "docket.toml", "--to", job)
    assert addressing(*anew).returncode == 0
    assert judged(addressing, job)[0] == 0
    assert addressing(*anew, "--date", "2031-01-02").returncode == 0
    code, files = judged(addressing, job)
    assert code == 5
    assert "another date" in " ".join(files["proof.pdf"]["faults"])


def test_a_job_sheet_that_says_something_else_is_told(addressing: Run, job: Path) -> None:
    path = job / "job-sheet.pdf"
    path.write_bytes(forged(path.read_bytes(), drawn(rb"\(JOB SHEET\)", b"(JOB SHOOT)")))
    refreshed(job)
    code, files = judged(addressing, job)
    assert code == 5
    assert "isn't the one that was made" in " ".join(files["job-sheet.pdf"]["faults"])


TICKETS: dict[str, tuple[Change, str]] = {
    "copies": (drawn(rb"\(1\) Tj", b"(2) Tj"), "doesn't say of 01-outer"),
    "prints": (drawn(rb"\(3\) Tj", b"(4) Tj"), "something else than 3 of outer"),
    "a file's name": (drawn(rb"01-outer", b"01-inner"), "doesn't say of 01-outer"),
    "a file more": (drawn(rb"(BT[^\n]+)\(02-inner[^\n]+ET", rb"\g<0>\n\1(03-reply.pdf) Tj ET"),
                    "names other files"),
}  # fmt: skip


@pytest.mark.parametrize("name", TICKETS)
def test_a_ticket_that_says_something_else_is_told(addressing: Run, job: Path, name: str) -> None:
    change, words = TICKETS[name]
    packed(job, "job-ticket.pdf", change)
    code, files = judged(addressing, job)
    assert code == 5
    assert words in " ".join(files[PACKAGE]["faults"]), files[PACKAGE]["faults"]


@pytest.mark.parametrize(
    "name", ["proof.pdf", "job-ticket.pdf", "envelopes-sent-in.pdf", "data.tsv", "notes.txt"]
)
def test_a_package_that_lacks_a_file_or_has_one_more_is_told(
    addressing: Run, job: Path, name: str
) -> None:
    def change(files: dict[str, bytes]) -> None:
        if files.pop(name, None) is None:
            files[name] = b"Please print on ivory."

    repacked(job, change)
    code, files = judged(addressing, job)
    assert code == 5
    assert name in " ".join(files[PACKAGE]["faults"])
