"""The job's folder after the demo: what the manifest says is so."""

import hashlib
import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pikepdf
import pytest

from addressing.version import VERSION

Demo = Mapping[str, Any]
FILE = {
    "path", "sha256", "kind", "ink", "pages", "copies", "width_mm", "height_mm", "households",
    "names", "prints", "way", "calibration", "first", "reverse", "up",
    "press", "stock", "layout", "hits", "type",
}  # fmt: skip
STATIC = ("return", "reply")


def plates_of(demo: Demo) -> list[dict[str, Any]]:
    return [file for file in demo["manifest"]["files"] if file["path"].startswith("plates/")]


def sha256(path: Path) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest()


def test_the_manifest_has_the_fields_that_scripts_rely_on(demo: Demo) -> None:
    manifest = demo["manifest"]
    assert set(manifest) == {
        "files",
        "held",
        "later",
        "list",
        "list_sha256",
        "docket",
        "docket_sha256",
        "decisions_sha256",
        "version",
    }
    assert all(set(file) == FILE for file in manifest["files"])
    assert manifest["version"] == VERSION


def test_the_folder_holds_what_the_manifest_names_and_nothing_else(demo: Demo) -> None:
    folder = demo["folder"]
    found = {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}
    assert found == {file["path"] for file in demo["manifest"]["files"]} | {
        "manifest.json",
        "households.json",
    }
    assert [file["path"] for file in demo["manifest"]["files"]] == [
        "plates/01-outer-white.pdf",
        "plates/02-inner-white.pdf",
        "plates/03-return-white.pdf",
        "plates/04-reply-white.pdf",
        "counts.tsv",
        "proof.pdf",
        "job-sheet.pdf",
        "orders.json.z",
    ]


def test_every_fingerprint_is_of_the_file_that_lies_there(demo: Demo) -> None:
    for file in demo["manifest"]["files"]:
        assert sha256(demo["folder"] / file["path"]) == file["sha256"], file["path"]
    assert demo["manifest"]["list_sha256"] == sha256(demo["desk"] / "demo_guests.xlsx")
    assert demo["manifest"]["docket"] == "demo_docket.toml"
    assert demo["manifest"]["docket_sha256"] == sha256(demo["desk"] / "demo_docket.toml")


def test_a_plate_has_the_pages_and_the_size_that_the_manifest_says(demo: Demo) -> None:
    # against pikepdf
    for file in plates_of(demo):
        with pikepdf.open(demo["folder"] / file["path"]) as pdf:
            assert len(pdf.pages) == file["pages"]
            for page in pdf.pages:
                left, bottom, right, top = (float(edge) for edge in page.trimbox)
                assert (right - left) / 72 * 25.4 == pytest.approx(file["width_mm"], abs=0.01)
                assert (top - bottom) / 72 * 25.4 == pytest.approx(file["height_mm"], abs=0.01)


def test_sizes_are_those_of_the_trade(demo: Demo) -> None:
    # 7 1/4 by 5 1/4 in, 7 by 5 1/8 in, 5 1/8 by 3 5/8 in: US trade sizes
    sizes = {file["kind"]: (file["width_mm"], file["height_mm"]) for file in plates_of(demo)}
    assert sizes == {
        "outer": (184.15, 133.35),
        "inner": (177.8, 130.175),
        "return": (184.15, 133.35),
        "reply": (130.175, 92.075),
    }


def test_every_household_is_on_a_plate_once_or_held(demo: Demo) -> None:
    keys = [home["key"] for home in demo["lines"]["households"]]
    for file in plates_of(demo):
        if file["kind"] in STATIC:
            continue
        assert len(file["households"]) == len(set(file["households"])) == file["pages"]
        assert set(file["households"]).isdisjoint(demo["manifest"]["held"])
        assert set(file["households"]) | set(demo["manifest"]["held"]) == set(keys)
        assert file["copies"] == 1


def test_a_static_piece_is_one_page_with_a_quantity(demo: Demo) -> None:
    tally = demo["tally"]["pieces"]
    for file in plates_of(demo):
        if file["kind"] in STATIC:
            count = tally[file["kind"]]
            assert (file["pages"], file["households"]) == (1, [])
            assert file["copies"] == count["needed"] + count["overs"]


def test_what_is_no_plate_has_no_ink_and_no_size(demo: Demo) -> None:
    for file in demo["manifest"]["files"]:
        plate = file in plates_of(demo)
        assert (file["ink"] == "White") is plate
        assert (file["width_mm"] is not None) is plate


def test_the_answer_names_the_plates_of_the_manifest_and_what_was_counted(demo: Demo) -> None:
    answer = demo["plates"]
    assert [plate["path"] for plate in answer["plates"]] == [
        file["path"] for file in plates_of(demo)
    ]
    assert answer["folder"] == "demo_guests-job"
    for plate in answer["plates"]:
        assert plate["counted"]["pages"] == plate["pages"]
        assert plate["counted"]["glyphs"] > 0


def test_the_manifest_is_readable_text(demo: Demo) -> None:
    text = (demo["folder"] / "manifest.json").read_text("utf-8")
    assert json.loads(text) == demo["manifest"]
    assert text.endswith("}\n")
