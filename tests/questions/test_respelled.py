"""An answer goes with what it was said of when the list respells it, and not to anything else."""

import json
from collections.abc import Callable, Mapping
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import pytest

Run = Callable[..., CompletedProcess[str]]
Fill = Callable[[Path, Mapping[str, str]], Path]
HEADER = "Name,Notes,Address,City,State,ZIP\n"
PLACE = ",Litchfield,CT,06759"


def write(path: Path, *rows: str) -> Path:
    path.write_text(HEADER + "".join(f"{row}{PLACE}\n" for row in rows), "utf-8")
    return path


def codes(run: Run, path: Path) -> set[str]:
    told: dict[str, Any] = json.loads(run("check", path, "--json").stdout)
    return {found["code"] for found in told["findings"]}


@pytest.mark.parametrize(
    ("first", "code", "answer", "then", "holds"),
    [
        ("Hugh Carow,not sure if coming", "marker-in-list", "Yes, still invited",
         "Hugh Carrow,not sure if coming", True),
        ("Hugh Carow,not sure if coming", "marker-in-list", "Yes, still invited",
         "Hugh Carow,declined", False),
        ("Hugh Carrow,need address", "address-doubtful", "Yes, it is right",
         "Hugh Carow,need address", True),
        ("Kit Marlow & Wren Lorne,roommates", "apart-noted", "One envelope for both",
         "Wren Lorn & Kit Marlow,roommates", True),
        ("Kit Marlow & Wren Lorne,roommates", "apart-noted", "One envelope for both",
         "Kit Marlow & Una Pike,roommates", False),
        ("Zoe Adler,check spelling", "name-noted", "Right as they are",
         "Zoë Adler,check spelling", True),
        ("Zoe Adler,check spelling", "name-noted", "Right as they are",
         "Ms. Zoe Adler,check spelling", True),
        ("Zoe Adler,check spelling", "name-noted", "Right as they are",
         "Zoe Addler,check spelling", False),
    ],
)  # fmt: skip
def test_a_decision_holds_for_the_same_people_and_no_others(  # noqa: PLR0913 - a row of the table
    addressing: Run, tmp_path: Path, fill: Fill,
    *, first: str, code: str, answer: str, then: str, holds: bool,
) -> None:  # fmt: skip
    path = write(tmp_path / "guests.csv", f"{first},14 Larkmoor Lane")
    assert addressing("questions", path).returncode == 0
    back = fill(tmp_path / "guests-job" / "questions.xlsx", {f":{code}": answer})
    assert addressing("answer", path, back).returncode in (0, 1)
    assert code not in codes(addressing, path)
    write(path, f"{then},14 Larkmoor Lane")
    now = codes(addressing, path)
    assert (now.isdisjoint((code, "answer-stale"))) is holds


@pytest.mark.parametrize(
    ("street", "holds"),
    [("14 Larkmoor Ln", True), ("14 Larkmoor Ln.", True), ("15 Larkmoor Lane", False)],
)
def test_a_decision_on_an_address_holds_for_the_same_door(
    addressing: Run, tmp_path: Path, fill: Fill, street: str, *, holds: bool
) -> None:
    path = write(tmp_path / "guests.csv", "Mr. Hugh Carrow,need address,14 Larkmoor Lane")
    assert addressing("questions", path).returncode == 0
    answers = {":address-doubtful": "Yes, it is right"}
    back = fill(tmp_path / "guests-job" / "questions.xlsx", answers)
    assert addressing("answer", path, back).returncode == 0
    write(path, f"Mr. Hugh Carrow,need address,{street}")
    now = codes(addressing, path)
    assert now.isdisjoint(("address-doubtful", "answer-stale")) is holds


def test_a_decision_that_the_list_has_by_now_is_no_news(
    addressing: Run, tmp_path: Path, fill: Fill
) -> None:
    path = write(tmp_path / "guests.csv", "Mr. Hugh Carrow,check spelling,14 Larkmoor Lane")
    assert addressing("questions", path).returncode == 0
    back = fill(tmp_path / "guests-job" / "questions.xlsx", {":name-noted": "=Mr. Hugh Carow"})
    assert addressing("answer", path, back).returncode == 0
    write(path, "Mr. Hugh Carow,,14 Larkmoor Lane")
    assert "answer-stale" not in codes(addressing, path)
    write(path, "Mr. Hugh Carroway,,14 Larkmoor Lane")
    assert "remark-gone" in codes(addressing, path), "who may be meant waits"
