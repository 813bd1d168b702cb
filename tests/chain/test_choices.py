"""What a docket may choose, seen at the end of the chain."""

import json
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from addressing.records.shelf import Face

TOP = Path(__file__).resolve().parents[2]
Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]


def outer_of(folder: Path) -> dict[str, Any]:
    files = json.loads((folder / "manifest.json").read_text("utf-8"))["files"]
    outer: dict[str, Any] = next(file for file in files if file["kind"] == "outer")
    return outer


def test_a_layout_of_ones_own_beside_the_docket_is_used(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    desk = tmp_path / "desk"
    (desk / "layouts").mkdir(parents=True)
    text = (TOP / "layouts" / "a7.toml").read_text("utf-8")
    own = text.replace("width_mm = 184.15", "width_mm = 190.0", 1)
    (desk / "layouts" / "penhew.toml").write_text(own, encoding="utf-8")
    choice = '[[piece]]\nkind = "outer"\nlayout = "penhew"\n'
    (desk / "docket.toml").write_text(choice)
    ran = addressing("plates", write_list(), "--docket", "desk/docket.toml", "--json")
    assert ran.returncode == 0
    assert outer_of(tmp_path / "guests-job")["width_mm"] == 190.0


def test_a_layout_of_ones_own_comes_before_the_package_s(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    (tmp_path / "layouts").mkdir()
    text = (TOP / "layouts" / "a7.toml").read_text("utf-8")
    own = text.replace("width_mm = 184.15", "width_mm = 190.0", 1)
    (tmp_path / "layouts" / "a7.toml").write_text(own, encoding="utf-8")
    assert addressing("plates", write_list()).returncode == 0
    assert outer_of(tmp_path / "guests-job")["width_mm"] == 190.0


def test_a_face_of_ones_own_is_used(
    addressing: Run, write_list: Write, tmp_path: Path, script: Face
) -> None:
    (tmp_path / "fonts").mkdir()
    shutil.copyfile(script.path, tmp_path / "fonts" / "Penhew Script.ttf")
    choice = '[[piece]]\nkind = "outer"\nface = "penhew-script"\n'
    (tmp_path / "docket.toml").write_text(choice)
    ran = addressing("plates", write_list(), "--docket", "docket.toml", "--json")
    assert ran.returncode == 0
    counted = json.loads(ran.stdout)["plates"][0]["counted"]
    assert counted["pages"] == 3


def test_postal_style_is_in_capitals_without_points(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    # USPS Publication 28, October 2023, 211 to 213: capitals, no punctuation, standard
    # abbreviations of suffixes
    (tmp_path / "docket.toml").write_text('[wording]\nstyle = "postal"\n')
    given = ("--docket", "docket.toml")
    ran = addressing("lines", write_list(), *given, "--json")
    assert ran.returncode == 0
    outers = [
        [line["text"] for line in piece["lines"]]
        for home in json.loads(ran.stdout)["households"]
        for piece in home["pieces"]
        if piece["kind"] == "outer"
    ]
    assert outers[0][1:] == ["14 LARKMOOR LN", "LITCHFIELD CT 06759"]
    assert outers[2][1:] == ["1440 BIRCHBARK TRL", "DULUTH MN 55802"]
    assert all(text == text.upper() and "." not in text for lines in outers for text in lines)
    assert addressing("plates", write_list(), *given).returncode == 0


def test_a_postal_docket_carries_the_whole_demo_through(addressing: Run, tmp_path: Path) -> None:
    shutil.copyfile(TOP / "demo_guests.xlsx", tmp_path / "demo_guests.xlsx")
    (tmp_path / "docket.toml").write_text('[wording]\nstyle = "postal"\n')
    ran = addressing("plates", "demo_guests.xlsx", "--docket", "docket.toml", "--json")
    assert ran.returncode == 1
    assert [plate["kind"] for plate in json.loads(ran.stdout)["plates"]] == ["outer", "inner"]


def test_both_names_are_written_where_the_docket_wants_them(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    street = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")
    path = write_list([("Mr. Tobias and Mrs. Odile Penhew", *street)])
    said = {}
    for couple in ("traditional", "both-names"):
        (tmp_path / "docket.toml").write_text(f'[wording]\ncouple = "{couple}"\n')
        answer = json.loads(addressing("lines", path, "--docket", "docket.toml", "--json").stdout)
        outer = answer["households"][0]["pieces"][0]["lines"]
        said[couple] = [line["text"] for line in outer if line["role"] == "name"]
    assert said["traditional"] == ["Mr. and Mrs. Tobias Penhew"]
    assert "Odile" in " ".join(said["both-names"])


def test_only_the_pieces_that_are_chosen_are_made_and_counted(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    (tmp_path / "docket.toml").write_text('[pieces]\nmake = ["outer"]\n')
    path = write_list()
    given = ("--docket", "docket.toml", "--json")
    assert set(json.loads(addressing("tally", path, *given).stdout)["pieces"]) == {"outer"}
    assert set(json.loads(addressing("check", path, *given).stdout)["pieces"]) == {"outer"}
    (plate,) = json.loads(addressing("plates", path, *given).stdout)["plates"]
    assert plate["path"] == "plates/01-outer-white.pdf"


def test_without_an_inner_the_companion_stands_on_the_outer_last(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    (tmp_path / "docket.toml").write_text('[pieces]\nmake = ["outer"]\n')
    address = ("431 Weathervane Drive", "Bar Harbor", "ME", "04609")
    path = write_list([("Ms. Ottoline Grayling and Guest", *address)])
    answer = json.loads(addressing("lines", path, "--docket", "docket.toml", "--json").stdout)
    (piece,) = answer["households"][0]["pieces"]
    names = [line["text"] for line in piece["lines"] if line["role"] == "name"]
    assert " ".join(names).endswith("and Guest")


def test_a_size_that_the_docket_names_is_the_size_of_the_set(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    (tmp_path / "docket.toml").write_text('[[piece]]\nkind = "outer"\nsize = 14.0\n')
    path = write_list()
    assert addressing("plates", path, "--docket", "docket.toml", "--to", "one").returncode == 0
    assert addressing("plates", path, "--to", "two").returncode == 0
    one, two = (outer_of(tmp_path / name)["sha256"] for name in ("one", "two"))
    assert one != two


def test_a_column_that_the_docket_explains_is_read(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list()
    path.write_text(path.read_text().replace("Name", "Zog", 1))
    (tmp_path / "docket.toml").write_text('[columns]\nZog = "name"\n')
    ran = addressing("check", path, "--docket", "docket.toml", "--json")
    assert ran.returncode == 0
    column = json.loads(ran.stdout)["columns"][0]
    assert (column["header"], column["meaning"], column["how"]) == ("Zog", "name", "docket")


@pytest.mark.parametrize(
    ("said", "overs", "packs"),
    [
        ("percent = 0\nminimum = 0\npack = 3", 0, 1),
        ("percent = 34\nminimum = 0\npack = 1", 2, 5),
        ("percent = 34\nminimum = 5\npack = 4", 5, 2),
        ("percent = 100\nminimum = 1\npack = 25", 3, 1),
    ],
)
def test_overs_and_packs_follow_the_docket(
    addressing: Run, write_list: Write, tmp_path: Path, said: str, overs: int, packs: int
) -> None:
    # three households: by hand
    (tmp_path / "docket.toml").write_text(f"[overs]\n{said}\n")
    ran = addressing("tally", write_list(), "--docket", "docket.toml", "--json")
    count = json.loads(ran.stdout)["pieces"]["outer"]
    assert (count["overs"], count["packs"]) == (overs, packs)
