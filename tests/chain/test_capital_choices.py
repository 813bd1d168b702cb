"""The whole run: how a docket has words all in capitals lettered."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

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
