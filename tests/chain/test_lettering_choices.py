"""How a docket letters its pieces, seen at the end of the chain: features, a second hand."""

import json
import re
import subprocess
from collections.abc import Callable
from pathlib import Path

from addressing.job.reading import read_job
from addressing.materials.shelf import open_shelf
from addressing.typesetting import shape_line
from addressing.typesetting.lettering import open_hands

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]

OUTER = '[pieces]\nmake = ["outer"]\n[[piece]]\nkind = "outer"\n'


def plate(addressing: Run, listed: Path, folder: Path, choices: str) -> bytes:
    """The outer's plate by a docket with these choices of lettering; it was proved."""
    (folder / "docket.toml").write_text(OUTER + choices, encoding="utf-8")
    ran = addressing("plates", listed, "--docket", "docket.toml", "--json")
    assert ran.returncode == 0, ran.stderr
    return (folder / "guests-job" / "plates" / "01-outer-white.pdf").read_bytes()


def test_swashes_by_choice_are_set_and_proved(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    listed = write_list()
    plain, swash = (
        plate(addressing, listed, tmp_path, f'face = "eb-garamond-italic"\n{features}')
        for features in ("", 'features = ["swsh", "liga=0"]\n')
    )
    assert plain != swash


def test_a_feature_that_the_face_lacks_stops_the_job_and_lists_what_it_has(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    (tmp_path / "docket.toml").write_text(f'{OUTER}face = "great-vibes"\nfeatures = ["swsh"]\n')
    ran = addressing("plates", write_list(), "--docket", "docket.toml", "--json")
    assert ran.returncode == 3
    fault = json.loads(ran.stderr.splitlines()[-1])["fault"]
    assert (fault["code"], fault["cell"]) == ("feature-unknown", "docket:piece.outer.features")
    assert "ss01" in fault["mend"]
    assert not (tmp_path / "guests-job").exists()


def test_faces_tell_their_figures_and_features_in_plain_words(addressing: Run) -> None:
    faces = json.loads(addressing("faces", "--json").stdout)["faces"]
    garamond = next(face for face in faces if face["key"] == "eb-garamond-italic")
    assert garamond["figures"] == ["lining", "old-style", "tabular"]
    assert {"tag": "swsh", "what": "swashes", "on": False} in garamond["features"]
    assert {"tag": "liga", "what": "ligatures", "on": True} in garamond["features"]


def test_names_in_a_script_and_the_address_in_small_capitals_are_made_and_proved(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    listed = write_list()
    hand = '[piece.address]\nface = "eb-garamond"\nsize = 0.6\ntracking = 50\ncapitals = '
    small, capitals = (
        plate(addressing, listed, tmp_path, f'face = "great-vibes"\n{hand}"{how}"\n')
        for how in ("small", "all")
    )
    assert small != capitals


def test_small_capitals_that_a_face_lacks_are_refused_and_not_made_by_shrinking(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    (tmp_path / "docket.toml").write_text(f'{OUTER}face = "great-vibes"\ncapitals = "small"\n')
    ran = addressing("plates", write_list(), "--docket", "docket.toml", "--json")
    assert ran.returncode == 3
    fault = json.loads(ran.stderr.splitlines()[-1])["fault"]
    assert fault["text"] == "Great Vibes has no small capitals."
    assert fault["cell"] == "docket:piece.outer.capitals"


def test_words_that_a_swash_brings_too_near_are_told_with_the_space_that_clears_them(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    row = "Mr. Jacob Grantley", "14 Larkmoor Lane", "Litchfield", "CT", "06759"
    listed = write_list([row])
    piece = f'{OUTER}face = "great-vibes"\nfeatures = ["ss02"]\n'

    def near(more: str) -> list[dict[str, str]]:
        (tmp_path / "docket.toml").write_text(piece + more, encoding="utf-8")
        ran = addressing("check", listed, "--docket", "docket.toml", "--json")
        found = json.loads(ran.stdout)["findings"]
        return [each for each in found if each["code"] == "words-near"]

    (note,) = near("")
    assert (note["severity"], note["cell"]) == ("note", "docket:piece.outer.word_space")
    assert "“Jacob Grantley” (for one household)" in note["text"]
    said = re.search(r"word_space = (\d+) clears them\), or leave ss02 out", note["mend"])
    assert said is not None
    assert near(f"word_space = {said[1]}\n") == []
    assert near("word_space = 120\n")


def test_a_swash_that_would_take_the_blank_before_its_word_is_off_there_and_nowhere_else(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    """“Yorick Quigley” would read as one word; a Q that begins the line keeps its swash."""
    row = "Mr. Yorick Quigley", "14 Quincy Lane", "Litchfield", "CT", "06759"
    listed = write_list([row])
    docket = f'{OUTER}face = "eb-garamond-italic"\nfeatures = ["swsh"]\n'
    drawn = {}
    for name, more in (("off", ""), ("own", '[fallback]\ncrowded = "as-written"\n')):
        (tmp_path / "docket.toml").write_text(docket + more, encoding="utf-8")
        ran = addressing("plates", listed, "--docket", "docket.toml", "--json")
        assert ran.returncode == 0, ran.stderr
        assert addressing("preflight", "guests-job").returncode == 0
        reading = read_job(listed, tmp_path / "docket.toml", None)
        (hand,) = open_hands(reading.kinds[0].setting.hands)
        words = [part.words.glyphs[0] for part in hand.drawn("Quincy Quay")]
        drawn[name] = words[0], words[-1] if len(words) > 1 else None
    swash, plain = drawn["off"]
    assert plain is not None
    assert swash != plain == shape_line(open_shelf(None).face("eb-garamond-italic"), "Q").glyphs[0]
    assert drawn["own"] == (swash, None)
