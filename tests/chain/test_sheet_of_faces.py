"""`addressing faces` with a list and as a sheet: coverage, rights, set lines."""

import json
from collections.abc import Callable
from importlib.resources import files
from pathlib import Path
from typing import Any

import pikepdf
import pypdfium2 as pdfium
from fontTools.ttLib import TTFont

from addressing.materials.shelf import open_shelf

Run = Callable[..., Any]
TOWN = ("Litchfield", "CT", "06759")
LIST = [
    ("Ms. Ελένη Πένχου", "14 Larkmoor Lane", *TOWN),
    ("Mr. Silas Umber", "3 Osier Row", *TOWN),
]


def told(addressing: Run, *given: str | Path) -> dict[str, dict[str, Any]]:
    ran = addressing("faces", *given, "--json")
    assert ran.returncode == 0
    return {row["key"]: row for row in json.loads(ran.stdout)["faces"]}


def test_each_face_says_which_letters_of_which_cells_it_lacks(
    addressing: Run, write_list: Callable[..., Path]
) -> None:
    """By fontTools' reading of the character maps."""
    faces = told(addressing, write_list(LIST))
    assert set(faces) >= {"great-vibes", "noto-serif"}
    for key, row in faces.items():
        with TTFont(open_shelf(None).face(key).path) as font:
            has = set(font.getBestCmap())
        wanted = [letter for letter in "Ελένη Πένχου" if ord(letter) not in has and letter != " "]
        coverage = row["coverage"]
        assert (coverage["households"], coverage["able"]) == (2, 1 if wanted else 2)
        lines = {unset["from"][0]: unset["letters"] for unset in coverage["unset"]}
        assert lines == ({"A2": list(dict.fromkeys(wanted))} if wanted else {})


def test_a_face_that_has_every_letter_says_that_all_can_be_set(
    addressing: Run, write_list: Callable[..., Path]
) -> None:
    said = addressing("faces", write_list(LIST)).stdout
    (noto,) = [line for line in said.splitlines() if line.startswith("noto-serif")]
    assert "all 2 households can be set" in noto


def test_the_sheet_shows_every_face_and_embeds_no_guests_face(
    addressing: Run, write_list: Callable[..., Path], tmp_path: Path
) -> None:
    path = write_list(LIST)
    assert addressing("faces", path, "--to", "faces.pdf").returncode == 0
    document = pdfium.PdfDocument(tmp_path / "faces.pdf")
    text = "".join(page.get_textpage().get_text_bounded() for page in document)
    document.close()
    for key in open_shelf(None).faces():
        assert key in text
    assert "All 2 households can be set." in text
    assert "1 of 2 households can be set." in text
    assert "may be embedded" in text
    with pikepdf.open(tmp_path / "faces.pdf") as opened:
        fonts = {
            str(font.BaseFont) for page in opened.pages for font in page.Resources.Font.values()
        }
    assert not any("Vibes" in name or "Playfair" in name for name in fonts)


def test_the_same_faces_give_the_same_sheet(addressing: Run, tmp_path: Path) -> None:
    for name in ("one.pdf", "two.pdf"):
        addressing("faces", "--to", name)
    assert (tmp_path / "one.pdf").read_bytes() == (tmp_path / "two.pdf").read_bytes()


def test_pictures_are_written_where_the_name_ends_in_png(addressing: Run, tmp_path: Path) -> None:
    ran = addressing("faces", "--to", "faces.png", "--json")
    sheets = json.loads(ran.stdout)["sheets"]
    assert len(sheets) > 1
    for name in sheets:
        assert (tmp_path / name).read_bytes().startswith(b"\x89PNG\r\n\x1a\n")


def test_a_font_that_can_t_be_used_is_told_on_the_sheet_and_spoils_no_other(
    addressing: Run, tmp_path: Path
) -> None:
    (tmp_path / "fonts").mkdir()
    (tmp_path / "fonts" / "torn.ttf").write_bytes(b"\x00\x01\x00\x00 no font")
    script = files("fontpkg_great_vibes") / "files" / "GreatVibes-Regular.ttf"
    (tmp_path / "fonts" / "mine.ttf").write_bytes(script.read_bytes())
    faces = told(addressing, "--to", "faces.pdf")
    assert faces["torn"]["fault"]["text"].startswith("torn.ttf can't be used")
    assert [faces["torn"][key] for key in ("family", "licence", "embedding")] == [None] * 3
    assert faces["torn"]["figures"] is None
    assert faces["mine"]["fault"] is None


def test_beside_a_list_a_font_that_can_t_be_used_has_its_line_among_the_others(
    addressing: Run, write_list: Callable[..., Path], tmp_path: Path
) -> None:
    (tmp_path / "fonts").mkdir()
    (tmp_path / "fonts" / "aaa.ttf").write_bytes(b"\x00\x01\x00\x00 no font")
    ran = addressing("faces", write_list())
    lines = ran.stdout.splitlines()
    assert ran.returncode == 0
    assert "aaa.ttf can't be used" in lines[0]
    assert all("households can be set" in line for line in lines[1:])
    assert max(map(len, lines[1:])) < 128, "a fault's sentence widens no column of the others"


def test_a_list_is_never_overwritten_by_the_sheet(
    addressing: Run, write_list: Callable[..., Path]
) -> None:
    path = write_list(LIST)
    before = path.read_bytes()
    assert addressing("faces", path, "--to", path).returncode == 4
    assert path.read_bytes() == before
