"""A device's test sheets: measured by pixels, and their inks by Ghostscript's separations."""

import subprocess
from dataclasses import replace
from pathlib import Path

import pikepdf
import pypdfium2
import pytest
from PIL import Image

from addressing.feeding import marks_on
from addressing.job.trying import make_test_sheets, trial_of
from addressing.materials.shelf import open_shelf
from addressing.proofs import light_sheet, test_sheet
from addressing.records.affine import moved, on_page
from addressing.records.docket import Docket, FeedChoice
from addressing.records.lays import Calibration
from addressing.records.proofs import Trial
from addressing.units import mm_to_pt

test_sheet.__test__ = False  # type: ignore[attr-defined] # its name is the trade's, it is no test
SHELF = open_shelf(None)


def trial(device: str, layout: str = "a7", **feed: str) -> Trial:
    docket = Docket(device=device, feed=FeedChoice(**feed))
    if device != "home-toner-white":
        pieces = tuple(replace(each, ink="Black") for each in docket.pieces)
        docket = replace(docket, pieces=pieces)
    return trial_of(docket, layout, SHELF, None)


def dark(path: Path, page: int, scale: float = 4.0) -> Image.Image:
    document = pypdfium2.PdfDocument(path)
    try:
        shown: Image.Image = document[page].render(scale=scale).to_pil().convert("L")
        return shown
    finally:
        document.close()


@pytest.mark.parametrize("way", ["envelope", "turned", "sheet", "carrier"])
def test_the_crosses_stand_where_the_marks_say(way: str, tmp_path: Path) -> None:
    shown = trial("home-toner", way=way)
    path = tmp_path / "sheet.pdf"
    assert test_sheet(path, shown) == 2
    picture = dark(path, 0)
    trim = (shown.layout.width, shown.layout.height)
    for left, top in marks_on(trim).values():
        x, y = moved(on_page(shown.lay, trim), mm_to_pt(left), trim[1] - mm_to_pt(top))
        at = (round(x * 4), picture.height - round(y * 4))
        box = (at[0] - 2, at[1] - 2, at[0] + 3, at[1] + 3)
        assert picture.crop(box).point(lambda v: 255 * (v < 160)).getbbox() is not None


def test_a_calibrated_sheet_has_a_page_more_that_is_moved_back(tmp_path: Path) -> None:
    shown = trial("home-toner")
    true = Calibration("trial", (1.0, 0.0, 10.0), (0.0, 1.0, -6.0), 0.0, 4)
    lay = replace(shown.lay, calibration=true)
    path = tmp_path / "sheet.pdf"
    assert test_sheet(path, replace(shown, lay=lay)) == 3
    box, moved_box = (
        dark(path, page).point(lambda v: 255 * (v < 200)).getbbox() for page in (0, 1)
    )
    assert box is not None
    assert moved_box is not None
    assert box != moved_box


@pytest.mark.ghostscript
@pytest.mark.parametrize("layout", ["a7", "a1"])
def test_a_swapped_slot_prints_every_page_with_that_channel_alone(
    layout: str, ghostscript: str, tmp_path: Path
) -> None:
    path = tmp_path / "sheet.pdf"
    pages = test_sheet(path, trial("home-toner-white", layout))
    command = [ghostscript, "-q", "-dBATCH", "-dNOPAUSE", "-dSAFER", "-sDEVICE=tiffsep", "-r72"]
    subprocess.run([*command, "-o", str(tmp_path / "p%d.tif"), str(path)], check=True)  # noqa: S603
    for page in range(1, pages + 1):
        for name in ("Cyan", "Magenta", "Yellow", "Black"):
            with Image.open(tmp_path / f"p{page}({name}).tif") as plane:
                darkest = plane.convert("L").getextrema()[0]
            assert (darkest == 255) == (name != "Black"), (page, name)


def test_a_driver_of_rgb_gets_pure_grey_and_its_black_only_setting_is_named(
    tmp_path: Path,
) -> None:
    path = tmp_path / "sheet.pdf"
    shown = trial("home-inkjet")
    test_sheet(path, shown)
    with pikepdf.open(path) as pdf:
        operators = {
            str(step.operator) for page in pdf.pages for step in pikepdf.parse_content_stream(page)
        }
    assert {"g", "G"} <= operators
    assert not operators & {"rg", "RG", "k", "K", "scn", "SCN", "Do"}
    document = pypdfium2.PdfDocument(path)
    try:
        text = document[1].get_textpage().get_text_range()
    finally:
        document.close()
    assert str(shown.device.black_only) in " ".join(text.split())


@pytest.mark.parametrize(("layout", "across"), [("a7", False), ("a10", True), ("b4", True)])
def test_the_sheet_for_the_light_has_the_envelope_at_true_size(
    layout: str,
    across: bool,  # noqa: FBT001 - of a table
    tmp_path: Path,
) -> None:
    shown = trial("home-toner", "a7")
    envelope = SHELF.layout(layout)
    path = tmp_path / "light.pdf"
    setting = replace(shown.shown.setting, layout=envelope)
    large = replace(shown, layout=envelope, shown=replace(shown.shown, setting=setting))
    assert light_sheet(path, large) == 1
    with pikepdf.open(path) as pdf:
        page = pdf.pages[0]
        wide, high = (float(n) for n in page.MediaBox[2:])
        steps = pikepdf.parse_content_stream(page)
        boxes = [[float(n) for n in s.operands] for s in steps if str(s.operator) == "re"]
    assert (wide > high) == across
    assert [envelope.width, envelope.height] in [pytest.approx(box[2:], abs=1e-3) for box in boxes]


def test_the_same_trial_gives_the_same_bytes_and_both_files(tmp_path: Path) -> None:
    shown = trial("home-toner-white")
    first = make_test_sheets(shown, tmp_path / "one")
    second = make_test_sheets(shown, tmp_path / "two")
    assert [path.name for path in first] == ["test-sheet-a7.pdf", "hold-to-light-a7.pdf"]
    for one, other in zip(first, second, strict=True):
        assert one.read_bytes() == other.read_bytes()
        assert b"Helvetica" not in one.read_bytes()


@pytest.mark.parametrize(
    ("device", "paper"), [("home-toner", "plain"), ("home-toner-white", "dark")]
)
def test_a_sheet_in_white_asks_for_dark_paper(device: str, paper: str, tmp_path: Path) -> None:
    path = tmp_path / "sheet.pdf"
    test_sheet(path, trial(device))
    with pypdfium2.PdfDocument(path) as document:
        said = document[0].get_textpage().get_text_range()
    assert f"on {paper} paper cut to the envelope's size" in said
