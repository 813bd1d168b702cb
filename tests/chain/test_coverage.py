"""The ink that the estimate prices is what lies on the rendered plates, by Ghostscript's count."""

import json
import re
import subprocess
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

Run = Callable[..., subprocess.CompletedProcess[str]]
Write = Callable[..., Path]
DOTS = 1200
"""Dots to the inch of the rendering; Ghostscript inks every sixteenth of one that it touches."""


def inked(plate: Path, ghostscript: str) -> float:
    """The area of black on all pages of a plate, in mm²."""
    pictures = plate.parent / f"{plate.stem}-%03d.pgm"
    subprocess.run(  # noqa: S603 - Ghostscript, on a plate of ours
        [
            ghostscript, "-q", "-dBATCH", "-dNOPAUSE", "-dSAFER", "-sDEVICE=pgmraw", f"-r{DOTS}",
            "-dGraphicsAlphaBits=4", "-dTextAlphaBits=4", f"-sOutputFile={pictures}", str(plate),
        ],
        check=True,
        capture_output=True,
    )  # fmt: skip
    total = 0.0
    for picture in sorted(plate.parent.glob(f"{plate.stem}-*.pgm")):
        grey = np.asarray(Image.open(picture), dtype=float)
        total += float((255 - grey).sum()) / (255 - grey.min())  # black alone isn't quite 0 there
    return total * (25.4 / DOTS) ** 2


@pytest.mark.parametrize("face", ["cormorant-garamond", "great-vibes", "eb-garamond"])
def test_the_priced_area_of_ink_is_what_a_renderer_counts(
    addressing: Run, write_list: Write, tmp_path: Path, ghostscript: str, face: str
) -> None:
    path, docket = write_list(), tmp_path / "docket.toml"
    docket.write_text(
        '[pieces]\nmake = ["outer"]\n[device]\nname = "home-toner"\n[[piece]]\nkind = "outer"\n'
        f'ink = "Black"\nstock = "ivory"\nface = "{face}"\n'
    )
    assert addressing("plates", path, "--docket", docket).returncode == 0
    (plate,) = (tmp_path / "guests-job" / "plates").glob("*.pdf")
    counted = inked(plate, ghostscript)
    said = json.loads(addressing("estimate", path, "--docket", docket, "--json").stdout)
    assert said["ink_mm2"]["outer"] == pytest.approx(counted, rel=0.02)
    # Yields are stated at 5 % of a page (ISO/IEC 19752, 19798, 24711): an A4 page has 62 370 mm².
    home = next(route for route in said["routes"] if route["place"] == "home-toner")
    (why,) = (p["why"] for p in home["pieces"][0]["parts"] if p["name"] == "ink")
    told = re.search(r"([\d.]+) of a cartridge's 2300 pages", why)
    assert told is not None
    spoiled = 1  # 4 % of three, rounded up
    pages = counted * (3 + spoiled) / 3 / (62_370 * 0.05)
    assert float(told[1]) == pytest.approx(pages, rel=0.02, abs=0.05)


def test_the_base_under_an_ink_is_priced_as_it_is_drawn_in(
    addressing: Run, write_list: Write, tmp_path: Path, ghostscript: str
) -> None:
    """A base of black, so that its cover can be counted in grey."""
    path, docket = write_list(), tmp_path / "docket.toml"
    docket.write_text(
        '[pieces]\nmake = ["outer"]\n[[piece]]\nkind = "outer"\nstock = "ivory"\nchoke_mm = 0.05\n'
        'ink = "Gold"\nunderbase = "Black"\nface = "eb-garamond"\n'
    )
    assert addressing("plates", path, "--docket", docket).returncode == 0
    (plate,) = (tmp_path / "guests-job" / "plates").glob("*-black.pdf")
    said = json.loads(addressing("estimate", path, "--docket", docket, "--json").stdout)
    areas = said["inks_mm2"]["outer"]
    assert areas["Black"] == pytest.approx(inked(plate, ghostscript), rel=0.02)
    assert areas["Black"] < 0.9 * areas["Gold"]
