"""First names are asked for where a style goes by them, once, and an answer settles it."""

from pathlib import Path

import pytest
from click.testing import CliRunner

from addressing.cli import addressing
from addressing.job.reading import read_job

LIST = """Name,Street,City,State,Zip
Mr. and Mrs. Tobias Penhew,14 Larkmoor Lane,Litchfield,CT,06759
Mr. Alaric Quill and Mrs. Odile Quill,3 Elm Row,Litchfield,CT,06759
"""


def asked(folder: Path, style: str) -> list[str]:
    (folder / "list.csv").write_text(LIST, encoding="utf-8")
    docket = folder / "docket.toml"
    docket.write_text(f'[wording]\ninner = "{style}"\n', encoding="utf-8")
    job = folder / "list-job"
    reading = read_job(folder / "list.csv", docket, None, job if job.exists() else None)
    return [each.text for each in reading.findings if each.code == "given-missing"]


def test_a_relaxed_inner_asks_for_the_wife_s_name_and_a_formal_one_doesn_t(tmp_path: Path) -> None:
    assert asked(tmp_path, "relaxed") == ["Mrs. Penhew: no first name of her own."]
    assert asked(tmp_path, "formal") == []


def test_the_answered_name_is_set_and_asked_no_more(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert len(asked(tmp_path, "relaxed")) == 1
    monkeypatch.chdir(tmp_path)
    names = "Mr. Tobias Penhew and Mrs. Ida Penhew"
    given = ["answer", "list.csv", "--docket", "docket.toml"]
    ran = CliRunner().invoke(addressing, [*given, "--set", "Tobias Penhew", "names", names])
    assert ran.exit_code == 0, ran.output
    assert asked(tmp_path, "relaxed") == []
    lines = CliRunner().invoke(addressing, ["lines", "list.csv", "--docket", "docket.toml"])
    assert "Tobias and Ida" in lines.output
