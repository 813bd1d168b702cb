"""A suffix behind the names of two is asked about, with both proposals (common practice)."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

import pytest

Run = Callable[..., CompletedProcess[str]]
LIST = 'Name,Address,City,State,ZIP\n"{}",14 Larkmoor Lane,Litchfield,CT,06759\n'
HIS = "Sven Penhew Jr. and Ingrid Penhew"
HERS = "Sven Penhew and Ingrid Penhew Jr."


@pytest.mark.parametrize("answer", [HIS, HERS])
def test_whose_a_suffix_is_stands_as_the_client_says(
    addressing: Run, tmp_path: Path, answer: str
) -> None:
    path, back = tmp_path / "guests.csv", tmp_path / "back.toml"
    path.write_text(LIST.format("Sven and Ingrid Penhew Jr."), "utf-8")
    told = json.loads(addressing("questions", path, "--json").stdout)
    (question,) = (each for each in told["questions"] if each["codes"] == ["suffix-doubtful"])
    assert question["answers"] == [HIS, HERS]
    name = json.dumps(question["question"])
    back.write_text(f"[[answer]]\nquestion = {name}\nanswer = {json.dumps(answer)}\n", "utf-8")
    addressing("answer", path, back)
    told = json.loads(addressing("lines", path, "--json").stdout)
    (home,) = told["households"]
    assert not home["held"]
    lines = [each["text"] for piece in home["pieces"] for each in piece["lines"]]
    assert any(("Sven Penhew, Jr." if answer == HIS else "Ingrid Penhew, Jr.") in t for t in lines)


def test_a_suffix_in_a_column_of_its_own_is_asked_about_too(
    addressing: Run, tmp_path: Path
) -> None:
    path = tmp_path / "guests.csv"
    path.write_text(
        "First Name,Last Name,Suffix,Address,City,State,ZIP\n"
        "Sven and Ingrid,Penhew,Jr.,14 Larkmoor Lane,Litchfield,CT,06759\n"
        "Walter,Grayling,,15 Larkmoor Lane,Litchfield,CT,06759\n",
        "utf-8",
    )
    told = json.loads(addressing("questions", path, "--json").stdout)
    assert "suffix-doubtful" in [code for each in told["questions"] for code in each["codes"]]
