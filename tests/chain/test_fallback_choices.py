"""The whole run: a docket names faces for scripts, the list has names in them."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

TOWN = ("Litchfield", "CT", "06759")
GREEK = ("Ms. Ελένη Πένχου", "14 Larkmoor Lane", *TOWN)
PLAIN = ("Mr. Silas Umber", "3 Osier Row", *TOWN)
FACES = "".join(
    f'[[piece]]\nkind = "{kind}"\nface = "great-vibes"\n' for kind in ("outer", "inner")
)
STEPPED = "face-stepped-in"
FALLBACK = '[fallback]\nGreek = "noto-serif"\n'


def findings(ran: Any, code: str) -> list[dict[str, Any]]:  # noqa: ANN401 - a command's run
    return [each for each in json.loads(ran.stdout)["findings"] if each["code"] == code]


def test_a_name_in_a_script_that_the_face_lacks_is_printed_in_the_face_of_the_docket(
    addressing: Callable[..., Any], write_list: Callable[..., Path], tmp_path: Path
) -> None:
    path = write_list([GREEK, PLAIN])
    (tmp_path / "docket.toml").write_text(FACES + FALLBACK)
    ran = addressing("plates", path, "--docket", "docket.toml", "--json")
    manifest = json.loads((tmp_path / "guests-job" / "manifest.json").read_text("utf-8"))
    assert (ran.returncode, manifest["held"]) == (0, [])
    (note,) = findings(addressing("check", path, "--docket", "docket.toml", "--json"), STEPPED)
    assert (
        "Ελένη Πένχου” is set in Noto Serif at 61 % of the line's size: Great Vibes has no Greek."
        in note["text"]
    )


def test_without_a_choice_the_household_waits_and_is_told_which_faces_could_set_it(
    addressing: Callable[..., Any], write_list: Callable[..., Path], tmp_path: Path
) -> None:
    path = write_list([GREEK, PLAIN])
    (tmp_path / "docket.toml").write_text(FACES)
    ran = addressing("check", path, "--docket", "docket.toml", "--json")
    stop, _ = findings(ran, "glyph-missing")
    assert stop["mend"].startswith("“Ελένη” can be set in eb-garamond, eb-garamond-italic, noto-s")
    assert "[fallback]" in stop["mend"]


def test_a_face_for_a_script_that_nobody_uses_leaves_prints_as_they_were(
    addressing: Callable[..., Any], write_list: Callable[..., Path], tmp_path: Path
) -> None:
    """The ledger must not call for a new print of envelopes that look the same."""
    path = write_list([PLAIN])
    prints = []
    for number, docket in enumerate((FACES, FACES + FALLBACK)):
        (tmp_path / "docket.toml").write_text(docket)
        addressing("plates", path, "--docket", "docket.toml", "--to", f"job{number}")
        manifest = json.loads((tmp_path / f"job{number}" / "manifest.json").read_text("utf-8"))
        prints.append([file["prints"] for file in manifest["files"]])
    assert prints[0] == prints[1]


def test_a_script_that_nobody_knows_is_told_in_the_docket(
    addressing: Callable[..., Any], write_list: Callable[..., Path], tmp_path: Path
) -> None:
    path = write_list([PLAIN])
    (tmp_path / "docket.toml").write_text('[fallback]\nGeek = "noto-serif"\n')
    ran = addressing("check", path, "--docket", "docket.toml")
    assert ran.returncode == 3
    assert "Greek, Cyrillic" in ran.stderr


def test_arabic_beside_a_roman_of_large_small_letters_is_no_larger_than_its_lines_bear(
    addressing: Callable[..., Any], write_list: Callable[..., Path], tmp_path: Path
) -> None:
    """Letters of one height would set it at 148 %, and its lines would run into each other."""
    path = write_list([("عائلة الخوري", "14 Larkmoor Lane", *TOWN), PLAIN])
    piece = '[pieces]\nmake = ["outer"]\n[[piece]]\nkind = "outer"\nface = "noto-serif"\n'

    def said(arabic: str) -> str:
        (tmp_path / "docket.toml").write_text(f"{piece}[fallback]\nArabic = {arabic}\n")
        ran = addressing("check", path, "--docket", "docket.toml", "--json")
        (note,) = findings(ran, STEPPED)
        return str(note["text"])

    assert "at 109 % of the line's size" in said('"amiri"')
    assert addressing("plates", path, "--docket", "docket.toml").returncode == 0
    assert addressing("preflight", "guests-job").returncode == 0
    assert "at 140 % of the line's size" in said('{ face = "amiri", size = 1.4 }')
