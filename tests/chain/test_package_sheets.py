"""Ticket and sheet for what is sent in are part of the seal: no word of theirs may change."""

import hashlib
import json
import shutil
import zipfile
from collections.abc import Callable
from io import BytesIO
from pathlib import Path
from subprocess import CompletedProcess

import pikepdf
import pytest

from addressing.cli import main

Run = Callable[..., CompletedProcess[str]]

DOCKET = """\
[hosts]
name = "Mr. Gideon Penhew"
street = "1 Larkmoor Lane"
city = "Litchfield"
region = "CT"
postcode = "06759"
[pieces]
make = ["outer", "return"]
[shop]
name = "farrenby-press"
"""
ROWS = "Name,Street,City,State,ZIP\n" + "".join(
    f"{who},{n} Larkmoor Lane,Litchfield,CT,06759\n"
    for n, who in enumerate(("Mr. Tobias Penhew", "Ms. Alice Vale"), start=2)
)
PACKAGE = "for-farrenby-press.zip"
TICKET, SENT_IN = "job-ticket.pdf", "envelopes-sent-in.pdf"
GIVEN = ("guests.csv", "--docket", "docket.toml", "--to", "job")


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A job of two households for a shop; its date is said with its plates alone."""
    desk = tmp_path_factory.mktemp("sheets")
    (desk / "guests.csv").write_text(ROWS, "utf-8")
    (desk / "docket.toml").write_text(DOCKET, "utf-8")
    given = (desk / "guests.csv", "--docket", desk / "docket.toml", "--to", desk / "job")
    for command in (("plates", *given, "--date", "2026-03-10"), ("package", *given)):
        with pytest.raises(SystemExit) as ended:
            main(list(map(str, command)))
        assert ended.value.code in {0, 1}
    return desk


@pytest.fixture
def job(made: Path, tmp_path: Path) -> Path:
    """A copy of it in the folder at work."""
    for path in made.iterdir():
        (shutil.copytree if path.is_dir() else shutil.copyfile)(path, tmp_path / path.name)
    return Path("job")


def reworded(sheets: bytes, was: str, now: str) -> bytes:
    """Sheets whose words are others where they say `was`, once."""
    with pikepdf.open(BytesIO(sheets)) as pdf:
        for page in pdf.pages:
            drawn = page.Contents.read_bytes()
            if was.encode("latin-1") in drawn:
                changed = drawn.replace(was.encode("latin-1"), now.encode("latin-1"), 1)
                page.Contents = pdf.make_stream(changed)
                out = BytesIO()
                pdf.save(out)
                return out.getvalue()
    raise AssertionError(was)


def packed_with(job: Path, name: str, was: str, now: str) -> None:
    """The package with one sheet of other words, every digest that can be refreshed fitting it."""
    with zipfile.ZipFile(job / PACKAGE) as package:
        files = {each: package.read(each) for each in package.namelist()}
    files[name] = reworded(files[name], was, now)
    files.pop("checksums.sha256")
    sums = "".join(f"{hashlib.sha256(data).hexdigest()}  {each}\n" for each, data in files.items())
    files["checksums.sha256"] = sums.encode()
    with zipfile.ZipFile(job / PACKAGE, "w") as package:
        for each, data in files.items():
            package.writestr(each, data)
    content = json.loads((job / "manifest.json").read_text("utf-8"))
    for entry in content["files"]:
        entry["sha256"] = hashlib.sha256((job / entry["path"]).read_bytes()).hexdigest()
    (job / "manifest.json").write_text(json.dumps(content), "utf-8")


@pytest.mark.parametrize(
    ("name", "was", "now"),
    [
        (TICKET, "Deep green", "Ivory"),
        (TICKET, "7 days", "70 days"),
        (TICKET, "Nothing is mirrored", "All is mirrored"),
        (TICKET, "100 %, no tint", "50 %, a tint"),
        (SENT_IN, "Deep green", "Ivory"),
        (SENT_IN, "184.15", "148.15"),
        (SENT_IN, "Up to", "More than"),
    ],
)
def test_a_sheet_of_a_package_that_says_anything_else_is_told_though_every_digest_fits(
    name: str, was: str, now: str, addressing: Run, job: Path
) -> None:
    assert addressing("preflight", job).returncode == 0
    packed_with(job, name, was, now)
    ran = addressing("preflight", job)
    assert ran.returncode == 5, ran.stdout
    assert f"{name} in it isn't the one that goes with these plates" in ran.stdout
    shutil.copyfile(job / PACKAGE, "sent.zip")
    ran = addressing("preflight", "sent.zip", "--job", job)
    assert ran.returncode == 5
    assert f"{name} in it isn't the one" in ran.stdout


def test_words_behind_the_letters_of_a_package_s_proof_are_held(addressing: Run, job: Path) -> None:
    packed_with(job, "proof.pdf", "(2 Larkmoor Lane)", "(8 Larkmoor Lane)")
    ran = addressing("preflight", job)
    assert ran.returncode == 5, ran.stdout
    assert "Behind its letters stand other words" in ran.stdout
    assert "not “2 Larkmoor Lane”" in ran.stdout


def test_the_package_bears_the_date_and_the_number_of_the_proof_of_its_plates(
    addressing: Run, job: Path
) -> None:
    before = (job / PACKAGE).read_bytes()
    Path("guests.csv").write_text(ROWS.replace("\n", "\r\n"), "utf-8")  # only saved anew
    assert addressing("package", *GIVEN).returncode == 0
    assert (job / PACKAGE).read_bytes() == before
    assert addressing("preflight", job).returncode == 0
    ran = addressing("package", *GIVEN, "--date", "2026-04-01")
    assert ran.returncode == 3
    assert "2026-03-10" in ran.stderr


def test_a_shop_whose_terms_were_changed_since_gets_no_ticket_that_nobody_signed_for(
    addressing: Run, job: Path
) -> None:
    started = addressing("shops", "--start", "farrenby-press", "--like", "farrenby-press")
    assert started.returncode == 0, started.stderr
    assert addressing("plates", *GIVEN).returncode == 0
    assert addressing("package", *GIVEN).returncode == 0
    own = Path("shops/farrenby-press.toml")
    told = own.read_text("utf-8")
    assert "days = 7" in told
    own.write_text(told.replace("days = 7", "days = 21"), "utf-8")
    ran = addressing("package", *GIVEN)
    assert ran.returncode == 3
    assert "the shop's terms" in ran.stderr
    assert addressing("plates", *GIVEN).returncode == 0
    assert addressing("package", *GIVEN).returncode == 0
    assert addressing("preflight", job).returncode == 0
