"""`answer` counts who waits as `check` does, and says nothing of answers where none was given."""

import json
import re
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

import pytest

Run = Callable[..., CompletedProcess[str]]
LONG = "-".join(["Featherstonehaugh"] * 12)
LIST = f"""Name,Street,City,State,ZIP,Notes
Mr. Hugo Orr,5 Mill Row,Litchfield,CT,06759,
Ms. Nell Umber,,,,,
Mr. Ambrose {LONG},9 Mill Row,Litchfield,CT,06759,
Ms. Ada Sallow,11 Mill Row,Litchfield,CT,06759,declined
"""


def told(run: Run, path: Path, *more: str) -> str:
    return run("answer", path, *more).stdout


@pytest.mark.parametrize(
    "given",
    [
        (),
        ("--set", "Nell Umber", "address", "by hand"),
        ("--set", "Ada Sallow", "invited", "no"),
        ("--set", "Ada Sallow", "city", "please ask her"),
        ("--settled", "F5:marker-in-list"),
    ],
)
def test_who_waits_is_counted_as_check_does(
    addressing: Run, tmp_path: Path, given: tuple[str, ...]
) -> None:
    path = tmp_path / "guests.csv"
    path.write_text(LIST, "utf-8")
    said = told(addressing, path, "--set", "Hugo Orr", "street", "5 Mill Row", *given)
    held = json.loads(addressing("check", path, "--json").stdout)["households_held"]
    assert held
    counted = re.search(r"(\d+) households? (?:is|are) held back\.", said)
    assert counted, said
    assert int(counted[1]) == held


def test_without_an_answer_only_what_is_kept_is_told(addressing: Run, tmp_path: Path) -> None:
    path = tmp_path / "guests.csv"
    path.write_text(LIST, "utf-8")
    said = told(addressing, path, "--settled", "F5:marker-in-list")
    assert said.startswith("1 decision is kept.")
    said = told(addressing, path, "--undo", "Ada Sallow")
    assert said.startswith("0 decisions are kept.")
