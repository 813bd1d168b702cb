"""The package for a shop: whole, safe, of today's plates, with nobody in it who isn't printed."""

import hashlib
import io
import json
import re
import subprocess
import zipfile
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import numpy as np
import pikepdf
import pypdfium2 as pdfium
import pytest

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]

MM = 72 / 25.4
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
ROWS = (
    ("Mr. and Mrs. Tobias Penhew", "14 Larkmoor Lane", "Litchfield", "CT", "06759"),
    ("Ms. Ottoline Grayling", "431 Weathervane Drive", "Bar Harbor", "ME", "04609"),
    ("Mr. Ambrose Quillfeather", "9 Vesper Street", "Duluth", "MN", "04609"),
)
"""The last one's ZIP lies in another state: that household is held back."""


@pytest.fixture
def job(addressing: Run, write_list: Write, tmp_path: Path) -> tuple[str, ...]:
    """The arguments of a job whose plates are made; its list bears a guest's name."""
    (tmp_path / "job.toml").write_text(DOCKET)
    path = write_list(ROWS, "penhew wedding.csv")
    arguments = (str(path), "--docket", "job.toml", "--to", "job")
    assert addressing("plates", *arguments, "--json").returncode == 1
    return arguments


def packed(addressing: Run, job: tuple[str, ...]) -> zipfile.ZipFile:
    ran = addressing("package", *job, "--json")
    assert ran.returncode == 1, ran.stderr
    return zipfile.ZipFile(io.BytesIO(Path(json.loads(ran.stdout)["package"]).read_bytes()))


def fault_of(addressing: Run, job: tuple[str, ...]) -> tuple[int, str]:
    ran = addressing("package", *job, "--json")
    assert ran.stdout == ""
    return ran.returncode, json.loads(ran.stderr.splitlines()[-1])["fault"]["code"]


def test_it_holds_plates_proof_ticket_data_and_checksums_that_fit(
    addressing: Run, job: tuple[str, ...]
) -> None:
    package = packed(addressing, job)
    assert package.testzip() is None
    assert package.namelist() == [
        "plates/01-outer-fp-white.pdf",
        "plates/02-inner-fp-white.pdf",
        "plates/03-return-fp-white.pdf",
        "plates/04-reply-fp-white.pdf",
        "proof.pdf",
        "job-ticket.pdf",
        "envelopes-sent-in.pdf",
        "data.tsv",
        "checksums.sha256",
    ]
    told = package.read("checksums.sha256").decode().splitlines()
    sums = {line[66:]: line[:64] for line in told}
    assert list(sums) == package.namelist()[:-1]
    for name, digest in sums.items():
        assert hashlib.sha256(package.read(name)).hexdigest() == digest
    for name in sums:
        if name.startswith("plates/"):
            assert package.read(name) == (Path("job") / name).read_bytes()


def test_its_names_are_safe_everywhere_and_name_no_guest(
    addressing: Run, job: tuple[str, ...]
) -> None:
    package = packed(addressing, job)
    assert Path("job/for-farrenby-press.zip").is_file()
    for info in package.infolist():
        assert re.fullmatch(r"(plates/)?[a-z0-9.-]+", info.filename)
        assert "penhew" not in info.filename
        assert info.date_time == (1980, 1, 1, 0, 0, 0)


def test_the_data_says_what_stands_on_each_page(addressing: Run, job: tuple[str, ...]) -> None:
    package = packed(addressing, job)
    head, *rows = package.read("data.tsv").decode().splitlines()
    assert head.split("\t")[:5] == ["plate", "page", "copies", "key", "line1"]
    cells = [row.split("\t") for row in rows]
    assert all(len(row) == len(head.split("\t")) for row in cells)
    outers = [row for row in cells if row[0] == "01-outer-fp-white.pdf"]
    assert [row[1] for row in outers] == ["1", "2"]
    assert outers[1][4:7] == [
        "Ms. Ottoline Grayling", "431 Weathervane Drive", "Bar Harbor, Maine 04609",
    ]  # fmt: skip
    assert [row[2] for row in cells if row[0].startswith("03")] == ["13"]


def test_who_waits_is_nowhere_in_it(addressing: Run, job: tuple[str, ...]) -> None:
    package = packed(addressing, job)
    assert "Quillfeather" not in package.read("data.tsv").decode()
    said = pdf_words(package.read("proof.pdf"))
    assert "OttolineGrayling" in said
    assert "Quillfeather" not in said
    assert "penhew wedding" not in package.read("proof.pdf").decode("latin-1")


def pdf_words(data: bytes) -> str:
    """The words of sheets as pdfium reads them, blanks left out."""
    with closing(pdfium.PdfDocument(data)) as document:
        pages = [page.get_textpage().get_text_range() for page in document]
    return "".join("".join(pages).split())


def test_the_ticket_says_what_how_many_on_what_and_by_when(
    addressing: Run, job: tuple[str, ...]
) -> None:
    package = packed(addressing, job)
    said = pdf_words(package.read("job-ticket.pdf"))
    for words in ("FP White", "Deep green", "Digital press", "7 days from the approved proof",
                  "name, telephone, e-mail", "01-outer-fp-white.pdf"):  # fmt: skip
        assert words.replace(" ", "") in said, words
    assert "Grayling" not in said
    sent = pdf_words(package.read("envelopes-sent-in.pdf"))
    # 13 returns go on the outers' flaps: so many outers are sent in, and 5 % more
    assert "Outerandreturn" in sent
    assert "132114" in sent  # prints, passes (front and flap), spare, sent in


def test_the_ticket_says_how_large_each_die_is_and_names_no_die_that_is_not_made(
    addressing: Run, job: tuple[str, ...], tmp_path: Path
) -> None:
    said = pdf_words(packed(addressing, job).read("job-ticket.pdf"))
    assert "dies" not in said
    flap = '[[piece]]\nkind = "return"\nmethod = "letterpress"\nink = "Gold"\nstock = "ivory"\n'
    (tmp_path / "job.toml").write_text(DOCKET + flap)
    assert addressing("plates", *job, "--json").returncode == 1
    package = packed(addressing, job)
    said = pdf_words(package.read("job-ticket.pdf"))
    found = re.search(
        r"Platesordiesforletterpress,nevermirroredbyus:return,(\d+)×(\d+)mm,([\d.]+)cm²\.", said
    )
    assert found, said
    assert "byarea,100cm²atleast,gangedonone;keptstanding12months" in said
    # As pdfium draws the plate: the dark pixels' rectangle, 0.25 mm each.
    (plate,) = (name for name in package.namelist() if "return" in name)
    with closing(pdfium.PdfDocument(package.read(plate))) as pages:
        seen = pages[0].render(scale=4 / MM, grayscale=True).to_numpy() < 250
    high, wide = (int(np.ptp(np.flatnonzero(seen.any(axis=side)))) / 4 for side in (1, 0))
    assert float(found[1]) == pytest.approx(wide, abs=1)
    assert float(found[2]) == pytest.approx(high, abs=1)
    assert float(found[3]) == pytest.approx(wide * high / 100, rel=0.1)


def test_the_same_job_gives_the_same_bytes(addressing: Run, job: tuple[str, ...]) -> None:
    packed(addressing, job)
    first = Path("job/for-farrenby-press.zip").read_bytes()
    packed(addressing, job)
    assert Path("job/for-farrenby-press.zip").read_bytes() == first


def test_a_plate_that_was_touched_is_not_packed(addressing: Run, job: tuple[str, ...]) -> None:
    with pikepdf.open("job/plates/01-outer-fp-white.pdf", allow_overwriting_input=True) as pdf:
        pdf.save("job/plates/01-outer-fp-white.pdf")
    ran = addressing("package", *job, "--json")
    fault = json.loads(ran.stderr.splitlines()[-1])["fault"]
    assert (ran.returncode, fault["code"]) == (5, "plate-not-proved")
    assert "The file was saved by another program" in fault["text"]
    assert not Path("job/for-farrenby-press.zip").exists()


def own_shop(white: str) -> None:
    """A shop of the user's own takes the place of the packaged one."""
    Path("shops").mkdir()
    text = f'title = "F"\nmargin_mm = 6.35\ninks = {{ White = "{white}" }}\n'
    Path("shops/farrenby-press.toml").write_text(text)


STALE: dict[str, Callable[[], object]] = {
    "the list": lambda: Path("penhew wedding.csv").write_text(
        Path("penhew wedding.csv").read_text().replace("Ottoline", "Otillie")
    ),
    "the docket": lambda: Path("job.toml").write_text(f"{DOCKET}# later\n"),
    "a layout, a face, an ink or the shop's rules": lambda: own_shop("Farrenby Bright White"),
}


@pytest.mark.parametrize("what", STALE)
def test_stale_plates_are_not_packed(what: str, addressing: Run, job: tuple[str, ...]) -> None:
    STALE[what]()
    ran = addressing("package", *job, "--json")
    assert ran.returncode == 3
    fault = json.loads(ran.stderr.splitlines()[-1])["fault"]
    assert fault["code"] == "plates-stale"
    assert f"{what} changed" in fault["text"]
    assert "addressing plates" in fault["mend"]


def test_new_plates_take_the_old_package_away_and_so_does_clear(
    addressing: Run, job: tuple[str, ...]
) -> None:
    packed(addressing, job)
    assert addressing("plates", *job, "--json").returncode == 1
    assert not Path("job/for-farrenby-press.zip").exists()
    packed(addressing, job)
    assert addressing("clear", job[0], "--to", "job", "--yes").returncode == 0
    assert not Path("job").exists()


def test_a_job_printed_at_home_and_one_without_plates_are_refused(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket = tmp_path / "home.toml"
    docket.write_text('[device]\nname = "home-toner-white"\n[pieces]\nmake = ["outer"]\n')
    arguments = (str(write_list()), "--docket", "home.toml")
    assert fault_of(addressing, arguments) == (3, "shop-missing")
    docket.write_text('[shop]\nname = "farrenby-press"\n[pieces]\nmake = ["outer"]\n')
    assert fault_of(addressing, arguments) == (3, "plates-missing")


def test_a_reprint_is_packed_alone_with_its_own_proof_and_data(
    addressing: Run, job: tuple[str, ...]
) -> None:
    list_path, folder = job[0], Path(job[-1])
    assert addressing("printed", list_path, "--to", folder).returncode == 0
    assert addressing("spoiled", list_path, "2", "--to", folder).returncode == 0
    assert addressing("reprint", *job).returncode == 1
    ran = addressing("package", *job, "--reprint", 1, "--json")
    assert ran.returncode == 1, ran.stderr
    path = Path(json.loads(ran.stdout)["package"])
    assert path.parent == folder / "reprint-01"
    with zipfile.ZipFile(path) as package:
        plates = [name for name in package.namelist() if name.startswith("plates/")]
        assert plates == ["plates/01-outer-fp-white.pdf"]
        assert package.read(plates[0]) == (path.parent / plates[0]).read_bytes()
        (row,) = package.read("data.tsv").decode().splitlines()[1:]
        proof = pdf_words(package.read("proof.pdf"))
    assert "Ms. Ottoline Grayling" in row
    assert "OttolineGrayling" in proof
    assert "TobiasPenhew" not in proof
    # once it is on paper it isn't due any more: the package would have it printed again
    assert addressing("printed", list_path, "--to", folder, "--reprint", 1).returncode == 0
    late = addressing("package", *job, "--reprint", 1, "--json")
    fault = json.loads(late.stderr.splitlines()[-1])["fault"]
    assert (late.returncode, fault["code"]) == (3, "nothing-due")
    assert "before you note it as printed" in fault["mend"]


def test_a_reprint_of_what_is_due_otherwise_by_now_is_not_packed(
    addressing: Run, job: tuple[str, ...]
) -> None:
    list_path, folder = job[0], job[-1]
    addressing("printed", list_path, "--to", folder)
    addressing("spoiled", list_path, "2", "--to", folder)
    addressing("reprint", *job)
    addressing("spoiled", list_path, "1", "--to", folder)
    late = addressing("package", *job, "--reprint", 1, "--json")
    fault = json.loads(late.stderr.splitlines()[-1])["fault"]
    assert (late.returncode, fault["code"]) == (3, "plates-stale")
    assert "what is on paper" in fault["text"]
