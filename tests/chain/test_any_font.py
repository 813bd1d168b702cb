"""Fonts of any build through the whole chain: a collection, places on axes, other figures."""

import subprocess
from collections.abc import Callable
from importlib.resources import files
from pathlib import Path

import pytest
from fontTools.ttLib import TTCollection, TTFont

from addressing.preflight.letters import Letters
from addressing.records.shelf import Face

Run = Callable[..., subprocess.CompletedProcess[str]]
Write = Callable[..., Path]

GARAMOND = Path(str(files("fontpkg_eb_garamond") / "files" / "EBGaramond[wght].ttf"))
VIBES = Path(str(files("fontpkg_great_vibes") / "files" / "GreatVibes-Regular.ttf"))
OUTER = '[pieces]\nmake = ["outer"]\n'
PIECE = '[[piece]]\nkind = "outer"\n'
WAYS = ("", '[files]\ntype = "live"\n')


@pytest.fixture
def fonts(tmp_path: Path) -> Path:
    """A folder of fonts of one's own: a collection of two, a variable font at three places."""
    folder = tmp_path / "fonts"
    folder.mkdir()
    collection = TTCollection()
    collection.fonts += [TTFont(str(VIBES)), TTFont(str(GARAMOND))]
    collection.save(folder / "both.ttc")
    second = 'family = "Second"\nfile = "both.ttc"\nindex = 1\naxes = { wght = 600 }\n'
    (folder / "second.toml").write_text(second, encoding="utf-8")
    (folder / "mine.ttf").write_bytes(GARAMOND.read_bytes())
    for weight in (400, 550, 800):
        entry = f'family = "W{weight}"\nfile = "mine.ttf"\naxes = {{ wght = {weight} }}\n'
        (folder / f"w{weight}.toml").write_text(entry, encoding="utf-8")
    return folder


def plate(addressing: Run, listed: Path, choices: str) -> bytes:
    """The outer's plate by a docket with these choices; it was proved."""
    Path("docket.toml").write_text(OUTER + choices, encoding="utf-8")
    ran = addressing("plates", listed, "--docket", "docket.toml", "--json")
    assert ran.returncode == 0, ran.stderr
    return Path("guests-job/plates/01-outer-white.pdf").read_bytes()


@pytest.mark.usefixtures("fonts")
@pytest.mark.parametrize("way", WAYS, ids=["outlines", "live"])
def test_names_in_a_collection_s_first_face_and_the_address_in_its_second_are_proved(
    way: str, addressing: Run, write_list: Write
) -> None:
    listed = write_list()
    hand = '[piece.address]\nface = "{}"\ncapitals = "small"\n'
    second = plate(addressing, listed, f'{way}{PIECE}face = "both"\n{hand.format("second")}')
    other = plate(addressing, listed, f'{way}{PIECE}face = "both"\n{hand.format("w400")}')
    assert second != other


@pytest.mark.usefixtures("fonts")
@pytest.mark.parametrize("way", WAYS, ids=["outlines", "live"])
def test_a_variable_font_is_set_and_proved_at_the_place_on_its_axes_that_is_chosen(
    way: str, addressing: Run, write_list: Write
) -> None:
    listed = write_list()
    plates = {
        plate(addressing, listed, f'{way}{PIECE}face = "w{weight}"\n') for weight in (400, 550, 800)
    }
    assert len(plates) == 3


def test_letters_at_a_place_on_an_axis_are_those_that_fonttools_makes_there(fonts: Path) -> None:
    data = (fonts / "mine.ttf").read_bytes()
    areas = []
    for weight in (400.0, 550.0, 800.0):
        face = Face("w", "W", fonts / "mine.ttf", "", axes=(("wght", weight),))
        letters = Letters(face, data)
        areas.append(sum(letters.letter(glyph).area for glyph in letters.glyphs_of("Tobias")))
    assert areas == sorted(set(areas))


@pytest.mark.parametrize("way", WAYS, ids=["outlines", "live"])
def test_figures_and_small_capitals_by_choice_are_each_another_plate_and_proved(
    way: str, addressing: Run, write_list: Write
) -> None:
    listed = write_list()
    choices = ("", 'features = ["onum"]\n', 'features = ["pnum"]\n', 'capitals = "small"\n')
    plates = {
        plate(addressing, listed, f'{way}{PIECE}face = "eb-garamond"\n{choice}')
        for choice in choices
    }
    assert len(plates) == len(choices)
