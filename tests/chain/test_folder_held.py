"""What lies in a job's folder beside its plates, and packages that left it, held to the job."""

import hashlib
import json
import re
import shutil
import zipfile
import zlib
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import openpyxl
import pikepdf
import pypdfium2 as pdfium
import pytest

from addressing.cli import main

Run = Callable[..., CompletedProcess[str]]

DOCKET = """\
[job]
date = "2026-03-10"
[pieces]
make = ["outer", "inner"]
[[piece]]
kind = "outer"
ink = "Black"
[[piece]]
kind = "inner"
ink = "Black"
[shop]
name = "farrenby-press"
"""
ROWS = "Name,Street,City,State,ZIP\n" + "".join(
    f"{who},{n} Larkmoor Lane,Litchfield,CT,06759\n"
    for n, who in enumerate(("Mr. Tobias Penhew", "Ms. Alice Vale"), start=2)
)
PACKAGE = "for-farrenby-press.zip"


def quietly(*arguments: str | Path) -> None:
    with pytest.raises(SystemExit) as ended:
        main(list(map(str, arguments)))
    assert ended.value.code in {0, 1}


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A job of two households for a shop, with its package and a stuffing list."""
    desk = tmp_path_factory.mktemp("beside")
    (desk / "guests.csv").write_text(ROWS, "utf-8")
    (desk / "docket.toml").write_text(DOCKET, "utf-8")
    given = (desk / "guests.csv", "--docket", desk / "docket.toml", "--to", desk / "job")
    for command in ("plates", "package", "stuffing"):
        quietly(command, *given)
    return desk


@pytest.fixture
def job(made: Path, tmp_path: Path) -> Path:
    """A copy of it in the folder at work."""
    for path in made.iterdir():
        (shutil.copytree if path.is_dir() else shutil.copyfile)(path, tmp_path / path.name)
    return Path("job")


def judged(addressing: Run, *arguments: str | Path) -> tuple[int, dict[str, Any]]:
    ran = addressing("preflight", *arguments, "--json")
    return ran.returncode, json.loads(ran.stdout)


def faults_of(answer: dict[str, Any]) -> dict[str, str]:
    return {
        Path(each["path"]).name: " ".join(each["faults"])
        for each in answer["files"]
        if each["faults"]
    }


def refreshed(job: Path) -> None:
    """Let the manifest agree with the files as they are now."""
    content = json.loads((job / "manifest.json").read_text("utf-8"))
    for entry in content["files"]:
        data = (job / entry["path"]).read_bytes()
        entry["sha256"] = hashlib.sha256(data).hexdigest()
    (job / "manifest.json").write_text(json.dumps(content), "utf-8")


def packed_anew(
    package: Path, change: Callable[[dict[str, bytes]], object], *, honest: bool, how: int = 0
) -> None:
    """Write a package with other files in it; `honest` are checksums that fit them."""
    with zipfile.ZipFile(package) as was:
        files = {name: was.read(name) for name in was.namelist()}
    change(files)
    if honest:
        files.pop("checksums.sha256")
        sums = (f"{hashlib.sha256(data).hexdigest()}  {name}\n" for name, data in files.items())
        files["checksums.sha256"] = "".join(sums).encode()
    with zipfile.ZipFile(package, "w", how) as now:
        for name, data in files.items():
            now.writestr(name, data)


def test_a_job_as_it_was_made_has_all_its_files_told_as_such(addressing: Run, job: Path) -> None:
    code, answer = judged(addressing, job)
    assert code == 0
    assert [Path(each["path"]).name for each in answer["files"]] == [
        "counts.tsv", "proof.pdf", "job-sheet.pdf", PACKAGE, "stuffing-list.pdf",
    ]  # fmt: skip
    assert all(each["unchanged"] for each in answer["files"])
    assert answer["manifests"][0]["notes"] == []
    said = addressing("preflight", job).stdout
    assert "as they were made: counts.tsv, proof.pdf, job-sheet.pdf" in said


@pytest.mark.parametrize(
    ("name", "command"),
    [
        ("proof.pdf", "addressing proof"),
        ("job-sheet.pdf", "addressing plates"),
        ("counts.tsv", "addressing plates"),
        ("stuffing-list.pdf", "addressing stuffing"),
        (PACKAGE, "addressing package"),
    ],
)
def test_a_file_that_was_changed_is_named_with_what_makes_it_again(
    name: str, command: str, addressing: Run, job: Path
) -> None:
    (job / name).write_bytes((job / name).read_bytes() + b"\n")
    code, answer = judged(addressing, job)
    assert code == 5
    assert list(faults_of(answer)) == [name]
    assert f"Make it again: {command}." in faults_of(answer)[name]
    assert judged(addressing, job / name)[0] == 5  # named alone it is judged too


def test_a_proof_named_alone_is_as_it_was_made(addressing: Run, job: Path) -> None:
    code, answer = judged(addressing, job / "proof.pdf")
    assert code == 0
    assert answer["plates"] == []
    assert [each["unchanged"] for each in answer["files"]] == [True]


def test_a_file_that_was_taken_away_is_a_note(addressing: Run, job: Path) -> None:
    (job / "job-sheet.pdf").unlink()
    ran = addressing("preflight", job)
    assert ran.returncode == 0
    assert "job-sheet.pdf: It isn't there any more." in ran.stdout


@pytest.mark.parametrize("name", ["03-outer-black.pdf", "again/01-outer-black.PDF"])
def test_a_pdf_among_the_plates_that_is_none_is_named(
    name: str, addressing: Run, job: Path
) -> None:
    strange = job / "plates" / name
    strange.parent.mkdir(exist_ok=True)
    shutil.copyfile(job / "plates" / "01-outer-black.pdf", strange)
    code, answer = judged(addressing, job)
    assert code == 5
    assert "no plate of this job" in faults_of(answer)[strange.name]


def test_a_missing_plate_is_told_and_the_others_are_judged(addressing: Run, job: Path) -> None:
    (job / "plates" / "01-outer-black.pdf").unlink()
    code, answer = judged(addressing, job)
    assert code == 5
    assert [each["proved"] for each in answer["plates"]] == [False, True]
    assert "Make the plates again" in answer["plates"][0]["faults"][0]["text"]


def test_a_list_or_docket_changed_since_is_a_note(addressing: Run, job: Path) -> None:
    Path("guests.csv").write_text(ROWS.replace("Vale", "Vail"), "utf-8")
    code, answer = judged(addressing, job)
    assert code == 0
    assert "guests.csv was changed since" in answer["manifests"][0]["notes"][0]
    Path("docket.toml").write_text(DOCKET + "\n", "utf-8")
    assert len(judged(addressing, job)[1]["manifests"][0]["notes"]) == 2
    Path("guests.csv").unlink()  # what isn't at hand is no news
    assert len(judged(addressing, job)[1]["manifests"][0]["notes"]) == 1


def test_what_is_noted_as_printed_tells_of_a_list_changed_since(addressing: Run, job: Path) -> None:
    given = ("printed", "guests.csv", "--to", job)
    assert "was changed since" not in addressing(*given).stdout
    Path("guests.csv").write_text(ROWS.replace("Vale", "Vail"), "utf-8")
    ran = addressing(*given, "--again")
    assert ran.returncode == 0
    assert "guests.csv was changed since these plates were made" in " ".join(ran.stdout.split())
    assert json.loads(addressing(*given, "--again", "--json").stdout)["list_changed"]


def test_the_job_sheet_bears_the_seal_that_preflight_says_until_the_orders_are_forged(
    addressing: Run, job: Path
) -> None:
    with closing(pdfium.PdfDocument(job / "job-sheet.pdf")) as sheet:
        told = " ".join(page.get_textpage().get_text_bounded() for page in sheet)
    seal = judged(addressing, job)[1]["manifests"][0]["seal"]
    assert len(seal) == 14
    assert f"Seal of these plates: {seal}" in told
    assert f"seal {seal}" in addressing("preflight", job).stdout
    kept = job / "orders.json.z"
    kept.write_bytes(zlib.compress(zlib.decompress(kept.read_bytes()), 9))
    refreshed(job)
    assert judged(addressing, job)[1]["manifests"][0]["seal"] != seal


def words_of(sheets: Path | bytes) -> list[str]:
    with closing(pdfium.PdfDocument(sheets)) as document:
        return [" ".join(page.get_textpage().get_text_bounded().split()) for page in document]


def test_every_sheet_of_the_proof_and_those_of_a_package_bear_the_seal(
    addressing: Run, job: Path
) -> None:
    seal = judged(addressing, job)[1]["manifests"][0]["seal"]
    proof = words_of(job / "proof.pdf")
    assert all(seal in words for words in proof)
    assert f"Seal of the plates that were made with it, and of no others: {seal}" in proof[-1]
    with zipfile.ZipFile(job / PACKAGE) as package:
        for name in ("proof.pdf", "job-ticket.pdf", "envelopes-sent-in.pdf"):
            assert all(seal in words for words in words_of(package.read(name))), name


FORGED: dict[str, Callable[[Path], object]] = {
    "proof.pdf": lambda path: path.write_bytes(path.with_name("stuffing-list.pdf").read_bytes()),
    "job-sheet.pdf": lambda path: path.write_bytes(path.with_name("proof.pdf").read_bytes()[:999]),
    "stuffing-list.pdf": lambda path: path.write_bytes(path.with_name("proof.pdf").read_bytes()),
    "counts.tsv": lambda path: path.write_text(path.read_text("utf-8").replace("2", "3"), "utf-8"),
}


@pytest.mark.parametrize("name", FORGED)
def test_what_goes_with_other_plates_is_found_though_its_digest_was_forged(
    name: str, addressing: Run, job: Path
) -> None:
    FORGED[name](job / name)
    refreshed(job)
    code, answer = judged(addressing, job)
    assert code == 5
    assert list(faults_of(answer)) == [name]
    assert "Make " in faults_of(answer)[name]


@pytest.mark.parametrize("name", ["job-ticket.pdf", "envelopes-sent-in.pdf", "proof.pdf"])
def test_a_sheet_of_a_package_in_another_s_place_is_found_though_it_bears_the_seal(
    name: str, addressing: Run, job: Path
) -> None:
    with zipfile.ZipFile(job / PACKAGE) as package:
        other = "proof.pdf" if name != "proof.pdf" else "job-ticket.pdf"
        data = package.read(other)
    packed_anew(job / PACKAGE, lambda files: files.update({name: data}), honest=True)
    refreshed(job)
    code, answer = judged(addressing, job)
    assert code == 5
    assert f"{name} in it doesn't bear the seal" in json.dumps(answer)


def test_the_stuffing_list_bears_the_seal_of_the_plates_it_follows(
    addressing: Run, job: Path
) -> None:
    seal = judged(addressing, job)[1]["manifests"][0]["seal"]
    assert all(seal in words for words in words_of(job / "stuffing-list.pdf"))


def test_the_proof_of_another_list_is_not_that_of_these_plates(addressing: Run, job: Path) -> None:
    given = ("proof", "guests.csv", "--docket", "docket.toml", "--to", job)
    assert addressing(*given).returncode == 0  # drawn again of the same: it has the seal
    assert judged(addressing, job)[0] == 0
    Path("guests.csv").write_text(ROWS.replace("Vale", "Vail"), "utf-8")
    assert addressing(*given).returncode == 0
    code, answer = judged(addressing, job)
    assert code == 5
    assert "doesn't bear the seal of these plates" in faults_of(answer)["proof.pdf"]


def test_orders_forged_with_all_that_follows_are_told_by_proof_and_job_sheet(
    addressing: Run, job: Path
) -> None:
    kept = job / "orders.json.z"
    told = zlib.decompress(kept.read_bytes())
    kept.write_bytes(zlib.compress(told.replace(b'"held":[]', b'"held":["h-aaaaaaaa"]')))
    content = json.loads((job / "manifest.json").read_text("utf-8"))
    (job / "manifest.json").write_text(json.dumps({**content, "held": ["h-aaaaaaaa"]}), "utf-8")
    refreshed(job)
    code, answer = judged(addressing, job)
    assert code == 5
    assert not answer["manifests"][0]["faults"]
    assert {"proof.pdf", "job-sheet.pdf", PACKAGE} <= faults_of(answer).keys()


def test_a_manifest_with_a_doubled_key_is_not_read(addressing: Run, job: Path) -> None:
    path = job / "manifest.json"
    path.write_text(path.read_text("utf-8").replace('"files":', '"files": [], "files":', 1))
    ran = addressing("preflight", job)
    assert ran.returncode == 3
    assert "manifest in job can't be read" in ran.stderr


@pytest.mark.parametrize("name", ["proof.pdf", "plates/01-outer-black.pdf"])
def test_a_link_that_leads_to_itself_is_told(name: str, addressing: Run, job: Path) -> None:
    (job / name).unlink()
    (job / name).symlink_to(Path(name).name)
    ran = addressing("preflight", job)
    assert ran.returncode == 5
    assert f"{Path(name).name}" in ran.stdout


def replaced(files: dict[str, bytes]) -> None:
    files["plates/02-inner-black.pdf"] = files["plates/01-outer-black.pdf"]


def other_data(files: dict[str, bytes]) -> None:
    files["data.tsv"] = files["data.tsv"].replace(b"Penhew", b"Penhow")


PACKAGES: dict[str, tuple[Callable[[dict[str, bytes]], object], bool, str]] = {
    "a plate under another's name": (
        replaced, True,
        "02-inner-black.pdf in it isn't the plate that was proved: it is plates/01-outer-black",
    ),
    "a plate changed": (
        lambda files: files.update({"plates/01-outer-black.pdf": b"%PDF-1.6"}), True,
        "it was changed, or is an older one",
    ),
    "a plate left out": (
        lambda files: files.pop("plates/02-inner-black.pdf"), True,
        "The plate plates/02-inner-black.pdf isn't in it.",
    ),
    "a plate more": (
        lambda files: files.update({"plates/03.pdf": files["plates/01-outer-black.pdf"]}), True,
        "plates/03.pdf in it is no plate of this job.",
    ),
    "other data": (other_data, True, "data.tsv in it says something else"),
    "checksums that don't fit": (
        lambda files: files.update({"proof.pdf": b"%PDF"}), False, "checksums.sha256 in it doesn't",
    ),
    "a way out of the folder": (
        lambda files: files.update({"../evil.pdf": b""}), True, "a name that no package has",
    ),
}  # fmt: skip


@pytest.mark.parametrize("how", PACKAGES)
def test_a_package_with_other_files_in_it_is_found_wherever_it_lies(
    how: str, addressing: Run, job: Path, tmp_path_factory: pytest.TempPathFactory
) -> None:
    change, honest, told = PACKAGES[how]
    packed_anew(job / PACKAGE, change, honest=honest)
    refreshed(job)  # only what is in it can show it
    code, answer = judged(addressing, job)
    assert code == 5
    assert told in faults_of(answer)[PACKAGE]
    away = tmp_path_factory.mktemp("away") / "sent.zip"
    shutil.copyfile(job / PACKAGE, away)
    code, answer = judged(addressing, away, "--job", job)
    assert code == 5
    assert told in faults_of(answer)["sent.zip"]
    assert [path.name for path in away.parent.iterdir()] == ["sent.zip"]


def test_a_package_that_was_sent_is_right_by_the_job_it_is_of(
    addressing: Run, job: Path, tmp_path_factory: pytest.TempPathFactory
) -> None:
    away = tmp_path_factory.mktemp("away") / PACKAGE
    shutil.copyfile(job / PACKAGE, away)
    code, answer = judged(addressing, away, "--job", job)
    assert code == 0
    assert [each["unchanged"] for each in answer["files"]] == [True]
    assert len(answer["plates"]) == 2
    packed_anew(away, lambda files: files, honest=True)  # the same files, by another hand
    code, answer = judged(addressing, away, "--job", job)
    assert code == 5
    assert "changed since it was made" in faults_of(answer)[PACKAGE]


@pytest.mark.parametrize("data", [b"", b"no zip", b"PK\x03\x04" + bytes(60)])
def test_what_is_no_package_is_told(data: bytes, addressing: Run, job: Path) -> None:
    (job / PACKAGE).write_bytes(data)
    code, answer = judged(addressing, job / PACKAGE)
    assert code == 5
    assert "can't be read as a package" in faults_of(answer)[PACKAGE]


def test_a_package_whose_files_are_deflated_is_not_read(addressing: Run, job: Path) -> None:
    deflated = zipfile.ZIP_DEFLATED
    packed_anew(
        job / PACKAGE,
        lambda files: files.update({"proof.pdf": bytes(9_000_000)}),
        honest=True,
        how=deflated,
    )
    assert "packed by another program" in faults_of(judged(addressing, job)[1])[PACKAGE]


def test_plates_that_were_unpacked_elsewhere_are_those_that_are_judged(
    addressing: Run, job: Path, tmp_path_factory: pytest.TempPathFactory
) -> None:
    away = tmp_path_factory.mktemp("away")
    with zipfile.ZipFile(job / PACKAGE) as package:
        package.extractall(away)
    code, answer = judged(addressing, away, "--job", job)
    assert code == 0
    assert all(Path(each["path"]).is_relative_to(away) for each in answer["plates"])
    outer = away / "plates" / "01-outer-black.pdf"
    outer.write_bytes(outer.read_bytes()[:-9])
    shutil.copyfile(outer, away / "plates" / "more.pdf")
    (away / "plates" / "02-inner-black.pdf").unlink()
    code, answer = judged(addressing, away, "--job", job)
    assert code == 5
    assert [each["proved"] for each in answer["plates"]] == [False, False]
    assert f"isn't in {away}" in answer["plates"][1]["faults"][0]["text"]
    assert list(faults_of(answer)) == ["more.pdf"]
    assert judged(addressing, job)[0] == 0


def test_a_stuffing_list_with_other_rows_is_told_though_it_bears_the_seal(
    addressing: Run, job: Path
) -> None:
    path = job / "stuffing-list.pdf"
    with pikepdf.open(path, allow_overwriting_input=True) as sheets:
        (page,) = sheets.pages
        drawn = page.Contents.read_bytes()
        assert b"Tobias" in drawn
        page.Contents = sheets.make_stream(drawn.replace(b"Tobias", b"Edward"))
        sheets.save(path)
    refreshed(job)
    code, answer = judged(addressing, job)
    assert code == 5
    assert "It doesn't have in their places: print 1, Tobias Penhew" in faults_of(answer)[path.name]


def test_a_workbook_of_the_stuffing_list_with_other_rows_is_told(
    addressing: Run, job: Path
) -> None:
    listed = job.parent / "guests.csv"
    ran = addressing("stuffing", listed, "--to", job, "--name", "list.xlsx")
    assert ran.returncode in {0, 1}, ran.stderr
    assert judged(addressing, job)[0] == 0
    path = job / "list.xlsx"
    book = openpyxl.load_workbook(path)
    cells = [cell for row in book.worksheets[0] for cell in row if "Tobias" in str(cell.value)]
    cells[0].value = "Edward Penhew"
    book.save(path)
    refreshed(job)
    code, answer = judged(addressing, job)
    assert code == 5
    assert "in their places: print 1, Tobias Penhew" in faults_of(answer)[path.name]


ROWS_HURT: dict[str, tuple[Callable[[list[list[str]]], object], str]] = {
    "a row doubled": (
        lambda rows: rows.insert(2, rows[1]), "more than once, or besides: print 1, Tobias Penhew",
    ),
    "the last row doubled": (
        lambda rows: rows.append(rows[2]), "more than once, or besides: print 2, Alice Vale",
    ),
    "a row left out": (lambda rows: rows.pop(1), "in their places: print 1, Tobias Penhew"),
    "two rows swapped": (lambda rows: rows.insert(1, rows.pop()), "places: print 2, Alice"),
    "a number changed": (
        lambda rows: rows.__setitem__(2, ["7", *rows[2][1:]]), "places: print 2, Alice Vale",
    ),
    "another's key": (
        lambda rows: rows.__setitem__(2, [*rows[2][:2], rows[1][2], *rows[2][3:]]),
        "in their places: print 2, Alice Vale",
    ),
    "a row without its number again": (
        lambda rows: rows.append(["", *rows[1][1:]]), "besides: Tobias Penhew (no number)",
    ),
    "a guest of nobody's": (
        lambda rows: rows.append(["3", "Edward Penhew", "h-aaaaaaaa"]), "besides: print 3, Edward",
    ),
}  # fmt: skip


@pytest.mark.parametrize("form", [".tsv", ".xlsx"])
@pytest.mark.parametrize("how", ROWS_HURT)
def test_a_table_of_the_stuffing_list_is_held_row_by_row(
    how: str, form: str, addressing: Run, job: Path
) -> None:
    change, told = ROWS_HURT[how]
    path = job / f"rows{form}"
    quietly("stuffing", "guests.csv", "--to", job, "--name", path.name)
    assert judged(addressing, job)[0] == 0
    if form == ".tsv":
        rows = [line.split("\t") for line in path.read_text("utf-8").splitlines()]
        change(rows)
        path.write_text("".join("\t".join(row) + "\n" for row in rows), "utf-8")
    else:
        book = openpyxl.load_workbook(path)
        sheet = book.worksheets[0]
        rows = [["" if cell.value is None else str(cell.value) for cell in row] for row in sheet]
        change(rows)
        sheet.delete_rows(1, sheet.max_row)
        for row in rows:
            sheet.append(row)
        book.save(path)
    refreshed(job)
    code, answer = judged(addressing, job)
    assert code == 5
    assert told in faults_of(answer)[path.name]


@pytest.mark.parametrize("where", ["Tobias", "Alice"])
def test_a_row_doubled_on_the_sheet_of_the_stuffing_list_is_told(
    where: str, addressing: Run, job: Path
) -> None:
    path = job / "stuffing-list.pdf"
    with pikepdf.open(path, allow_overwriting_input=True) as sheets:
        (page,) = sheets.pages
        drawn = page.Contents.read_bytes()
        rows = re.findall(rb"BT 1 0 0 1 [^\n]*\n", drawn)
        at = next(place for place, row in enumerate(rows) if where.encode() in row)
        again = b"".join(re.sub(rb" [0-9.]+ Tm", b" 300 Tm", row) for row in rows[at - 1 : at + 4])
        page.Contents = sheets.make_stream(drawn.replace(rows[at + 3], rows[at + 3] + again))
        sheets.save(path)
    refreshed(job)
    code, answer = judged(addressing, job)
    assert code == 5
    assert f"besides: print {1 + (where == 'Alice')}, {where}" in faults_of(answer)[path.name]


@pytest.mark.parametrize(
    "name", ["plates/01-outer-black.PS", "plates/new/scan.tif", "01-Outer-Black.pdf"]
)
def test_what_may_be_printed_for_a_plate_and_is_none_is_named(
    name: str, addressing: Run, job: Path
) -> None:
    (job / name).parent.mkdir(exist_ok=True)
    (job / name).write_bytes(b"%PDF-1.6 of another job")
    code, answer = judged(addressing, job)
    assert code == 5
    assert list(faults_of(answer)) == [Path(name).name]


def test_a_remark_in_a_package_is_told(addressing: Run, job: Path) -> None:
    with zipfile.ZipFile(job / PACKAGE, "a") as package:
        package.comment = b"print on ivory"
    refreshed(job)
    code, answer = judged(addressing, job)
    assert code == 5
    assert "a remark in it" in faults_of(answer)[PACKAGE]


def test_a_copy_of_a_package_under_another_name_is_held_in_full(
    addressing: Run, job: Path, tmp_path: Path
) -> None:
    shutil.copyfile(job / PACKAGE, tmp_path / "sent.zip")
    code, answer = judged(addressing, "sent.zip", "--job", job)
    assert code == 0
    assert "weren't" not in json.dumps(answer)
