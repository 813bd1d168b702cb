"""What is on the demo's plates: one ink, no font, no name; read by pikepdf and Ghostscript."""

import re
import subprocess
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any

import pikepdf
import pytest
from PIL import Image

Demo = Mapping[str, Any]
Ran = subprocess.CompletedProcess[str]

DEVICE = '[device]\nname = "home-toner-white"\n'
SHOP = '[shop]\nname = "farrenby-press"\n'


def plates_of(demo: Demo) -> list[Path]:
    return sorted((demo["folder"] / "plates").glob("*.pdf"))


def objects_of(pdf: pikepdf.Pdf) -> Iterator[pikepdf.Object]:
    """All dictionaries and streams of a file, and the dictionaries inside them."""
    for each in pdf.objects:
        yield from nested(each)


def nested(each: pikepdf.Object) -> Iterator[pikepdf.Object]:
    if isinstance(each, pikepdf.Dictionary | pikepdf.Stream):
        yield each
        for value in dict(each.items()).values():
            if isinstance(value, pikepdf.Dictionary) and not value.is_indirect:
                yield from nested(value)


def operators(page: pikepdf.Page) -> list[tuple[str, list[str]]]:
    return [
        (str(each.operator), [str(operand) for operand in each.operands])
        for each in pikepdf.parse_content_stream(page)
    ]


COLOUR = {"cs", "CS", "sc", "SC", "scn", "SCN", "g", "G", "rg", "RG", "k", "K"}


def colours(page: pikepdf.Page) -> list[tuple[str, list[str]]]:
    return [(name, operands) for name, operands in operators(page) if name in COLOUR]


def test_no_plate_has_a_font_or_a_picture(demo: Demo) -> None:
    for path in plates_of(demo):
        with pikepdf.open(path) as pdf:
            kinds = {str(each.get("/Type")) for each in objects_of(pdf)}
            assert "/Font" not in kinds
            assert "/FontDescriptor" not in kinds
            assert not any("/Font" in each for each in objects_of(pdf))
            subtypes = {str(each.get("/Subtype")) for each in objects_of(pdf)} - {"None"}
            assert subtypes == {"/Form"}


def test_every_page_has_the_one_ink_in_full_and_no_other_colour(demo: Demo) -> None:
    for path in plates_of(demo):
        with pikepdf.open(path) as pdf:
            for page in pdf.pages:
                (space,) = page.Resources.ColorSpace.values()
                assert [str(space[0]), str(space[1])] == ["/Separation", "/White"]
                (name,) = page.Resources.ColorSpace.keys()
                assert colours(page) == [("cs", [name]), ("scn", ["1"])]


def test_no_name_and_no_street_can_be_read_in_a_plate(demo: Demo) -> None:
    words = {
        word
        for home in demo["lines"]["households"]
        for person in home["people"]
        for name in (person["given"], person["family"])
        for word in re.findall(r"\w{5,}", name or "")
    }
    assert len(words) > 100
    for path in plates_of(demo):
        raw = path.read_bytes()
        with pikepdf.open(path) as pdf:
            streams = [each.read_bytes() for each in objects_of(pdf) if is_stream(each)]
            told = str(dict(pdf.docinfo.items()))
            assert "/Metadata" not in pdf.Root
        everything = raw + b"".join(streams) + told.encode()
        assert not [word for word in words if word.encode() in everything]


def is_stream(each: pikepdf.Object) -> bool:
    return isinstance(each, pikepdf.Stream)


def test_the_information_of_a_plate_is_its_name_and_the_program(demo: Demo) -> None:
    for path in plates_of(demo):
        with pikepdf.open(path) as pdf:
            assert set(pdf.docinfo.keys()) == {"/Title", "/Producer", "/Trapped"}
            assert str(pdf.docinfo.Title) == path.stem


def inks_seen(ghostscript: str, plate: Path, out: Path) -> dict[str, int]:
    """The darkest value of the first page on each separation; 255 is no ink."""
    out.mkdir()
    command = [ghostscript, "-q", "-dBATCH", "-dNOPAUSE", "-dSAFER", "-sDEVICE=tiffsep", "-r72"]
    page = ["-dFirstPage=1", "-dLastPage=1", f"-o{out / 'page.tif'}", str(plate)]
    subprocess.run([*command, *page], check=True, capture_output=True)  # noqa: S603 - Ghostscript
    seen: dict[str, int] = {}
    for found in out.glob("page(*).tif"):
        with Image.open(found) as picture:
            counts = picture.convert("L").histogram()
            seen[found.name[5:-5]] = next(value for value, count in enumerate(counts) if count)
    return seen


@pytest.mark.ghostscript
def test_ghostscript_sees_ink_on_white_only(demo: Demo, ghostscript: str, tmp_path: Path) -> None:
    seen = inks_seen(ghostscript, plates_of(demo)[0], tmp_path / "seen")
    assert seen == {"Cyan": 255, "Magenta": 255, "Yellow": 255, "Black": 255, "White": 0}


@pytest.mark.ghostscript
def test_white_in_the_black_slot_is_black_alone(
    addressing: Callable[..., Ran],
    write_list: Callable[..., Path],
    tmp_path: Path,
    ghostscript: str,
) -> None:
    (tmp_path / "docket.toml").write_text(DEVICE)
    assert addressing("plates", write_list(), "--docket", "docket.toml").returncode == 0
    plate = tmp_path / "guests-job" / "plates" / "01-outer-white.pdf"
    with pikepdf.open(plate) as pdf:
        for page in pdf.pages:
            assert colours(page) == [("k", ["0", "0", "0", "1"])]
            assert "/ColorSpace" not in page.Resources
    seen = inks_seen(ghostscript, plate, tmp_path / "seen")
    assert seen == {"Cyan": 255, "Magenta": 255, "Yellow": 255, "Black": 0}


def test_a_shop_gets_its_own_name_of_the_ink(
    addressing: Callable[..., Ran], write_list: Callable[..., Path], tmp_path: Path
) -> None:
    (tmp_path / "docket.toml").write_text(SHOP)
    assert addressing("plates", write_list(), "--docket", "docket.toml").returncode == 0
    plates = sorted((tmp_path / "guests-job" / "plates").iterdir())
    assert [plate.name for plate in plates] == ["01-outer-fp-white.pdf", "02-inner-fp-white.pdf"]
    for plate in plates:
        with pikepdf.open(plate) as pdf:
            (space,) = pdf.pages[0].Resources.ColorSpace.values()
            assert [str(space[0]), str(space[1])] == ["/Separation", "/FP White"]
