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
from addressing.records.shelf import Face

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


def restricted(script: Face, path: Path, without: str) -> None:
    """A font that may not be embedded, and lacks some letters besides."""
    with TTFont(script.path) as font:
        font["OS/2"].fsType = 2
        for table in font["cmap"].tables:
            for letter in without:
                table.cmap.pop(ord(letter), None)
        font.save(path)


def test_a_refused_font_says_which_of_the_lists_names_it_lacks_letters_of_besides(
    addressing: Run, write_list: Callable[..., Path], tmp_path: Path, script: Face
) -> None:
    """So nobody asks the foundry for a licence in vain; a child reads the font."""
    (tmp_path / "fonts").mkdir()
    place = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")
    path = write_list([("Mr. Søren Penhew", *place), ("Ms. Ida Quill", "3 Elm Row", *place[1:])])
    restricted(script, tmp_path / "fonts" / "mine.ttf", "ø")
    (tmp_path / "docket.toml").write_text(
        '[pieces]\nmake = ["outer"]\n[[piece]]\nkind = "outer"\nface = "mine"\n'
    )
    ran = addressing("plates", path, "--docket", "docket.toml", "--json")
    fault = json.loads(ran.stderr.splitlines()[-1])["fault"]
    assert (ran.returncode, fault["code"]) == (3, "face-restricted")
    assert fault["text"].endswith(" Besides, it lacks ø: “Mr. Søren Penhew” couldn't be set in it.")
    (tmp_path / "docket.toml").unlink()
    ran = addressing("faces", path, "--to", "faces.pdf", "--json")
    mine = next(one for one in json.loads(ran.stdout)["faces"] if one["key"] == "mine")
    assert mine["fault"]["text"].startswith("mine.ttf says of itself")
    assert (mine["coverage"]["households"], mine["coverage"]["able"]) == (2, 1)
    assert mine["coverage"]["unset"][0]["letters"] == ["ø"]
    words = pdfium.PdfDocument(tmp_path / "faces.pdf")
    text = "".join(page.get_textpage().get_text_bounded() for page in words)
    assert "Besides, it lacks letters of this list" in text


def test_a_refused_font_that_can_set_no_name_says_so(
    addressing: Run, write_list: Callable[..., Path], tmp_path: Path, script: Face
) -> None:
    (tmp_path / "fonts").mkdir()
    restricted(script, tmp_path / "fonts" / "mine.ttf", "MrDs")
    docket = '[pieces]\nmake = ["outer"]\n[[piece]]\nkind = "outer"\nface = "mine"\n'
    (tmp_path / "docket.toml").write_text(docket)
    ran = addressing("plates", write_list(), "--docket", "docket.toml", "--json")
    text = json.loads(ran.stderr.splitlines()[-1])["fault"]["text"]
    assert "None of these 3 names could be set in it: it lacks M r s D." in text


def test_a_refused_font_that_has_all_letters_says_nothing_more(
    addressing: Run, write_list: Callable[..., Path], tmp_path: Path, script: Face
) -> None:
    (tmp_path / "fonts").mkdir()
    restricted(script, tmp_path / "fonts" / "mine.ttf", "")
    docket = '[pieces]\nmake = ["outer"]\n[[piece]]\nkind = "outer"\nface = "mine"\n'
    (tmp_path / "docket.toml").write_text(docket)
    ran = addressing("plates", write_list(), "--docket", "docket.toml", "--json")
    assert "Besides" not in json.loads(ran.stderr.splitlines()[-1])["fault"]["text"]


def test_a_list_is_never_overwritten_by_the_sheet(
    addressing: Run, write_list: Callable[..., Path]
) -> None:
    path = write_list(LIST)
    before = path.read_bytes()
    assert addressing("faces", path, "--to", path).returncode == 4
    assert path.read_bytes() == before
