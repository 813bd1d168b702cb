"""A street that may be read as another one: both are proposed, in the list's own words."""

import json
import subprocess
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

Run = Callable[..., subprocess.CompletedProcess[str]]
Fill = Callable[[Path, Mapping[str, str]], Path]


CHOSEN = {
    "RR 2": ("RD 2", "RR 2", "Rural Route 2"),
    "RD 2, as it stands here": ("RD 2", "RR 2", "Road 2"),
    "10 Elm St": ("1O Elm St", "10 Elm St", "10 Elm Street"),
}
"""The answer → what the list says, what is proposed, and the line of the envelope."""


@pytest.mark.parametrize("chosen", CHOSEN)
def test_what_one_line_may_mean_is_proposed_beside_it(
    addressing: Run, fill: Fill, tmp_path: Path, chosen: str
) -> None:
    street, proposed, line = CHOSEN[chosen]
    path = tmp_path / "guests.csv"
    head = "Name,Street,City,State,ZIP"
    path.write_text(f"{head}\nMr. Tobias Wexcombe,{street},Litchfield,CT,06759\n", "utf-8")
    (question,) = json.loads(addressing("questions", path, "--json").stdout)["questions"]
    assert f"Your list says “{street}”. What is meant?" in question["text"]
    assert question["answers"] == [proposed, f"{street}, as it stands here"]
    filled = fill(tmp_path / "guests-job" / "questions.xlsx", {"address-doubtful": chosen})
    assert addressing("answer", path, filled).returncode == 0
    assert f"\n         {line}\n" in addressing("lines", path).stdout
