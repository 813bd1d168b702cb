"""Live type: a shop, a device or the docket asks for it, and every plate of the job has it."""

import json
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import numpy as np
import pikepdf
import pypdfium2 as pdfium
import pytest
from fontTools.ttLib import TTFont
from PIL import Image

LIST = """\
Name,Street,City,State,Zip,Table
Mr. Tobias Wexcombe,12 Larkmoor Lane,Litchfield,CT,06759,1
Ms. Odile Farrenby,14 Larkmoor Lane,Litchfield,CT,06759,2
Ms. Åsa Żółtek-Đurić,2 Hollin Row,Litchfield,CT,06759,2
"""
SHOP = """\
title = "Hollin Works"
margin_mm = 6.0
inks = {{ White = "HW White", Gold = "HW Gold", Black = "Black", "Spot Varnish" = "HW Varnish" }}
[files]
type = "{type}"
plates = "{plates}"
"""
DOCKET = """\
[job]
date = "2026-05-30"
{press}
[pieces]
make = ["outer"]
[[piece]]
kind = "outer"
ink = "Gold"
face = "eb-garamond"
{more}
[piece.address]
ink = "Black"
face = "great-vibes"
"""
AT_SHOP = '[shop]\nname = "hollin"'


def run(desk: Path, *words: str, expect: int = 0) -> str:
    ran = subprocess.run(  # noqa: S603 - our own command
        [sys.executable, "-m", "addressing", *words],
        cwd=desk, capture_output=True, encoding="utf-8", check=False,
    )  # fmt: skip
    assert ran.returncode == expect, ran.stderr + ran.stdout
    return ran.stdout + ran.stderr


def set_up(
    desk: Path, *, kind: str = "live", plates: str = "apart", press: str = AT_SHOP, more: str = ""
) -> None:
    (desk / "shops").mkdir(parents=True, exist_ok=True)
    (desk / "guests.csv").write_text(LIST, encoding="utf-8")
    shop = SHOP.format(type=kind, plates=plates)
    (desk / "shops" / "hollin.toml").write_text(shop, encoding="utf-8")
    (desk / "job.toml").write_text(DOCKET.format(press=press, more=more), encoding="utf-8")


def plates_of(desk: Path, **choices: str) -> list[Path]:
    """The plates of a job for a shop, or wherever the docket says."""
    set_up(desk, **choices)
    run(desk, "plates", "guests.csv", "--docket", "job.toml", "--to", "job")
    run(desk, "preflight", "job")
    return sorted((desk / "job" / "plates").iterdir())


def types_in(desk: Path) -> set[str]:
    manifest = json.loads((desk / "job" / "manifest.json").read_text("utf-8"))
    return {each["type"] for each in manifest["files"] if each["ink"]}


@pytest.fixture(scope="module")
def live(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    return plates_of(tmp_path_factory.mktemp("live"))


@pytest.fixture(scope="module")
def outlined(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    return plates_of(tmp_path_factory.mktemp("outlined"), kind="outlines")


def has_fonts(path: Path) -> bool:
    with pikepdf.open(path) as pdf:
        return "/Font" in pdf.pages[0].Resources


def test_every_plate_of_a_job_has_the_one_kind_of_type(
    live: list[Path], outlined: list[Path]
) -> None:
    assert len(live) == len(outlined) == 2
    assert all(map(has_fonts, live))
    assert not any(map(has_fonts, outlined))


def test_the_docket_goes_before_the_shop_both_ways(tmp_path: Path) -> None:
    own = AT_SHOP + '\n[files]\ntype = "{}"'
    assert all(map(has_fonts, plates_of(tmp_path / "a", kind="outlines", press=own.format("live"))))
    assert types_in(tmp_path / "a") == {"live"}
    made = plates_of(tmp_path / "b", press=own.format("outlines"))
    assert not any(map(has_fonts, made))
    assert types_in(tmp_path / "b") == {"outlines"}


def test_a_device_asks_for_live_type_and_lays_it_on_its_page(tmp_path: Path) -> None:
    devices = tmp_path / "devices"
    devices.mkdir(parents=True)
    (devices / "mine.toml").write_text(
        'title = "A device"\nmethod = "toner"\nmargin_mm = 5.0\nload = 2\ntype = "live"\n'
        'smallest_mm = [76.2, 127.0]\nlargest_mm = [215.9, 355.6]\ninks = ["Black", "Gold"]\n'
        'slots = { Black = "black" }\nsheets = ["letter"]\n',
        encoding="utf-8",
    )
    made = plates_of(tmp_path, press='[device]\nname = "mine"\nway = "sheet"')
    assert len(made) == 4, "two inks in two batches"
    assert all(map(has_fonts, made))


def test_a_composite_of_two_inks_and_a_varnish_is_live_too(tmp_path: Path) -> None:
    more = 'varnish = "names"'
    (made,) = plates_of(tmp_path, plates="composite", more=more)
    with pikepdf.open(made) as pdf:
        assert set(pdf.pages[0].Resources) == {"/Font", "/ColorSpace", "/ExtGState"}
        assert len(pdf.pages[0].Resources.Font) == 2
        assert pdf.pages[0].Contents.read_bytes().count(b"BT\n") == 4, "the names twice"


CARDS = """\
[hosts]
name = "Mrs. Odile Larkmoor"
street = "48 Larkmoor Lane"
city = "Litchfield"
region = "CT"
postcode = "06759"
[shop]
name = "hollin"
[files]
type = "live"
[pieces]
make = ["place-card", "escort-card", "reply"]
[[piece]]
kind = "place-card"
face = "great-vibes"
[[piece]]
kind = "escort-card"
face = "great-vibes"
[[sheet]]
piece = "place-card"
across = 1
down = 2
beside = [{ piece = "escort-card", across = 1 }]
on = "letter"
[[sheet]]
piece = "reply"
on = "tabloid"
"""


def test_cards_on_sheets_their_marks_and_foot_lines_are_live_too(tmp_path: Path) -> None:
    set_up(tmp_path)
    (tmp_path / "job.toml").write_text(CARDS, encoding="utf-8")
    run(tmp_path, "plates", "guests.csv", "--docket", "job.toml", "--to", "job")
    run(tmp_path, "preflight", "job")
    made = list((tmp_path / "job" / "plates").iterdir())
    assert len(made) >= 2
    assert all(map(has_fonts, made))
    assert types_in(tmp_path) == {"live"}


def test_many_envelopes_are_drawn_and_judged_in_two_processes(tmp_path: Path) -> None:
    set_up(tmp_path)
    rows = [
        f"Mr. Tobias Wexcombe {'ABCDEFGHIJ'[n % 10]}. Penhew{'abcdefghij'[n // 10 % 10]}"
        f",{n} Larkmoor Lane,Litchfield,CT,06759,1\n"
        for n in range(1, 1101)
    ]
    (tmp_path / "guests.csv").write_text(LIST + "".join(rows), encoding="utf-8")
    run(tmp_path, "plates", "guests.csv", "--docket", "job.toml", "--to", "job")
    with pikepdf.open(next((tmp_path / "job" / "plates").iterdir())) as pdf:
        assert len(pdf.pages) > 1000
        assert len(pdf.pages[-1].Resources.Font) == 1


def test_a_white_base_is_refused_with_the_mend(tmp_path: Path) -> None:
    set_up(tmp_path, more='underbase = "White"\nchoke_mm = 0.03')
    said = run(tmp_path, "plates", "guests.csv", "--docket", "job.toml", "--to", "job", expect=3)
    assert "Hollin Works asks for live type, and the base in White" in said
    assert 'type = "outlines"' in said
    assert not list((tmp_path / "job").glob("plates/*"))


def test_a_face_that_may_not_be_embedded_in_part_is_refused_and_outlines_are_offered(
    tmp_path: Path,
) -> None:
    from importlib.resources import files  # noqa: PLC0415

    fonts = tmp_path / "fonts"
    fonts.mkdir()
    source = Path(str(files("fontpkg_great_vibes") / "files" / "GreatVibes-Regular.ttf"))
    with TTFont(source) as font:
        font["OS/2"].fsType = 0x0104
        font.save(fonts / "shut.ttf")
    set_up(tmp_path)
    job = (tmp_path / "job.toml").read_text("utf-8").replace("great-vibes", "shut")
    (tmp_path / "job.toml").write_text(job, encoding="utf-8")
    said = run(tmp_path, "plates", "guests.csv", "--docket", "job.toml", "--to", "job", expect=3)
    assert "only whole, never in part" in said
    assert 'type = "outlines"' in said


def test_the_shop_is_told_that_fonts_are_embedded(live: list[Path]) -> None:
    desk = live[0].parents[2]
    run(desk, "package", "guests.csv", "--docket", "job.toml", "--to", "job")
    with zipfile.ZipFile(desk / "job" / "for-hollin.zip") as package:
        data = package.read("job-ticket.pdf")
    with pdfium.PdfDocument(data) as document:
        said = " ".join(page.get_textpage().get_text_range() for page in document)
    assert "All type is live" in said
    assert "outlines" not in said


def test_a_package_of_the_other_kind_of_type_is_stale(tmp_path: Path) -> None:
    plates_of(tmp_path, kind="outlines")
    set_up(tmp_path)
    again = ("package", "guests.csv", "--docket", "job.toml", "--to", "job")
    assert "stale" in run(tmp_path, *again, expect=3)


needs_poppler = pytest.mark.skipif(shutil.which("pdffonts") is None, reason="no poppler here")


@needs_poppler
def test_poppler_sees_embedded_subsets_with_a_map_to_characters(live: list[Path]) -> None:
    for path, name in zip(live, ("EBGaramond", "GreatVibes"), strict=True):
        told = subprocess.run(  # noqa: S603
            ["pdffonts", str(path)],  # noqa: S607
            capture_output=True, encoding="utf-8", check=True,
        ).stdout.splitlines()[2:]  # fmt: skip
        (row,) = told
        assert name in row
        assert row.split()[1:7] == ["CID", "TrueType", "Identity-H", "yes", "yes", "yes"]


@needs_poppler
def test_poppler_finds_every_word(live: list[Path]) -> None:
    words = ["Mr.", "Tobias", "Wexcombe", "Odile", "Farrenby", "Åsa", "Żółtek-Đurić"]
    words += ["12", "14", "Larkmoor", "Lane", "Hollin", "Row", "Litchfield,", "Connecticut"]
    said = ""
    for path in live:
        told = subprocess.run(  # noqa: S603
            ["pdftotext", str(path), "-"],  # noqa: S607
            capture_output=True, encoding="utf-8", check=True,
        )  # fmt: skip
        assert not told.stderr
        said += told.stdout
    assert [word for word in words if word not in said.split()] == []


def seen(path: Path, finer: int) -> list[np.ndarray]:
    with pdfium.PdfDocument(path) as document:
        return [
            np.asarray(page.render(scale=finer, grayscale=True).to_numpy()) for page in document
        ]


def test_pdfium_draws_the_same_letters_at_the_same_places(
    live: list[Path], outlined: list[Path]
) -> None:
    for one, other in zip(live, outlined, strict=True):
        for drawn, wanted in zip(seen(one, 6), seen(other, 6), strict=True):
            off = np.abs(drawn.astype(int) - wanted.astype(int))
            ink = 255 * wanted.size - wanted.sum(dtype=int)
            assert off.sum() < 0.02 * ink
            assert (off > 128).sum() < 0.0005 * wanted.size


def test_qpdf_finds_nothing_to_mend(live: list[Path]) -> None:
    for path in live:
        with pikepdf.open(path) as pdf:
            assert pdf.check_pdf_syntax() == []


@pytest.mark.ghostscript
def test_ghostscript_separates_the_same_ink(
    tmp_path: Path, ghostscript: str, live: list[Path], outlined: list[Path]
) -> None:
    areas = []
    for place, path in (("live", live[0]), ("outlined", outlined[0])):
        out = tmp_path / place
        out.mkdir()
        command = [ghostscript, "-q", "-dNOPAUSE", "-dBATCH", "-dSAFER", "-sDEVICE=tiffsep"]
        ran = subprocess.run(  # noqa: S603
            [*command, "-r600", f"-sOutputFile={out}/p%d.tif", str(path)],
            capture_output=True, encoding="utf-8", check=True,
        )  # fmt: skip
        assert (ran.stdout, ran.stderr) == ("", "")
        with Image.open(out / "p1(HW Gold).tif") as picture:
            grey = np.asarray(picture.convert("L")).astype(int)
        areas.append((255 - grey).sum() / 255)
    assert 0.75 < areas[0] / areas[1] < 1, "outlines are heavier"
