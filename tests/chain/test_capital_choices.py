"""The whole run: how a docket has words all in capitals lettered."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from addressing.job.reading import read_job
from addressing.materials.shelf import open_shelf
from addressing.typesetting import shape_line
from addressing.typesetting.lettering import open_hands

LIST = [("Mr. Tobias Ash III", "77 Vesper Street", "Duluth", "MN", "55802")]
OUTER = '[[piece]]\nkind = "outer"\nface = "{face}"\n[pieces]\nmake = ["outer"]\n'


def notes(addressing: Callable[..., Any], path: Path, docket: str) -> list[str]:
    (path.parent / "docket.toml").write_text(docket)
    ran = addressing("check", path, "--docket", "docket.toml", "--json")
    found = json.loads(ran.stdout)["findings"]
    return [each["text"] for each in found if each["code"] == "face-stepped-in"]


@pytest.mark.parametrize(
    ("docket", "said"),
    [
        (OUTER.format(face="great-vibes"), "“III” is set in Cormorant Garamond Italic: words"),
        (OUTER.format(face="great-vibes") + '[fallback]\ncapitals = "as-written"\n', None),
        (OUTER.format(face="great-vibes") + '[fallback]\ncapitals = "noto-serif"\n', "Noto Serif"),
        (OUTER.format(face="dancing-script"), None),
        (
            OUTER.format(face="eb-garamond")
            + '[fallback]\ncapitals = { face = "eb-garamond", size = 0.9, tracking = 50 }\n',
            None,
        ),
    ],
    ids=["by the face", "as written", "by the docket", "a face that needs none", "spaced"],
)
def test_words_in_capitals_are_set_as_face_or_docket_say_and_the_plate_is_proved(
    addressing: Callable[..., Any],
    write_list: Callable[..., Path],
    docket: str,
    said: str | None,
) -> None:
    path = write_list(LIST)
    found = notes(addressing, path, docket)
    assert (said is None) == (not found)
    assert said is None or said in found[0]
    ran = addressing("plates", path, "--docket", "docket.toml")
    assert ran.returncode == 0
    assert addressing("preflight", "guests-job").returncode == 0


def test_small_capitals_as_written_keep_words_in_capitals_tall(
    addressing: Callable[..., Any], write_list: Callable[..., Path], tmp_path: Path
) -> None:
    """The prints differ in how they are lettered, only where a word is in capitals."""
    prints: dict[str, list[list[str]]] = {}
    for capitals in ("small", "small-as-written"):
        rows = [*LIST, ("Ms. Ida Quill", "3 Osier Row", *LIST[0][2:])]
        docket = OUTER.format(face="eb-garamond").replace(
            "[pieces]", f'capitals = "{capitals}"\n[pieces]'
        )
        (tmp_path / "docket.toml").write_text(docket)
        addressing("plates", write_list(rows), "--docket", "docket.toml", "--to", capitals)
        manifest = json.loads((tmp_path / capitals / "manifest.json").read_text("utf-8"))
        prints[capitals] = [each.split(".") for each in manifest["files"][0]["prints"]]
    (third, plain), (other, same) = prints["small"], prints["small-as-written"]
    assert plain[1] == same[1]
    assert third[1] != other[1]


def test_words_in_capitals_have_no_swashes_where_all_others_have_them(
    addressing: Callable[..., Any], write_list: Callable[..., Path], tmp_path: Path
) -> None:
    """A numeral is drawn as without swashes; “as-written” draws its letters as a word's first."""
    path = write_list([("Mr. Tobias Nash III", "77 Vesper Street", "Duluth", "MN", "55802")])
    drawn = {}
    for name, more in (("plain", ""), ("own", '[fallback]\ncapitals = "as-written"\n')):
        docket = OUTER.format(face="eb-garamond-italic").replace(
            "[pieces]", 'features = ["swsh"]\n[pieces]'
        )
        assert notes(addressing, path, docket + more) == []
        reading = read_job(path, tmp_path / "docket.toml", None)
        (hand,) = open_hands(reading.kinds[0].setting.hands)
        parts = hand.drawn("Tobias Nash III")
        drawn[name] = [glyph for part in parts for glyph in part.words.glyphs if glyph != 1][-3:]
        assert addressing("plates", path, "--docket", "docket.toml").returncode == 0
        assert addressing("preflight", "guests-job").returncode == 0
    shelved = open_shelf(None).face("eb-garamond-italic")
    assert drawn["plain"] == list(shape_line(shelved, "III").glyphs)
    assert drawn["own"] != drawn["plain"]


def test_an_alternate_that_swings_a_capital_out_is_off_in_words_all_in_capitals(
    addressing: Callable[..., Any], write_list: Callable[..., Path], tmp_path: Path
) -> None:
    """ss06 of EB Garamond is a Q with a long tail: it begins a name, and stands in no QVR."""
    path = write_list([("Mr. Tobias Quill III", "77 Vesper Street", "Duluth", "MN", "55802")])
    docket = OUTER.format(face="eb-garamond").replace(
        "[pieces]", 'features = ["ss06", "ss07"]\n[pieces]'
    )
    assert notes(addressing, path, docket) == []
    reading = read_job(path, tmp_path / "docket.toml", None)
    (hand,) = open_hands(reading.kinds[0].setting.hands)
    name, capitals = (part.words for part in hand.drawn("Quill QJR"))
    shelved = open_shelf(None).face("eb-garamond")
    plain, quill = shape_line(shelved, "QJR").glyphs, shape_line(shelved, "Quill").glyphs
    assert name.glyphs[0] != quill[0] == plain[0] == capitals.glyphs[0]
    assert capitals.glyphs[1] != plain[1]  # ss07 is another J, and no swash
    assert addressing("plates", path, "--docket", "docket.toml").returncode == 0
