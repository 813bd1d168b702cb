"""Answers written in a hurry: the same, or only the companion, where more is asked."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

import pytest

Run = Callable[..., CompletedProcess[str]]
AT = "8 Mill Row,Litchfield,CT,06759"


@pytest.mark.parametrize(
    ("row", "code", "words", "line", "taken"),
    [
        (f"Rev. Amos Teller & Ruth,{AT},", "surname-missing", "same",
         "The Reverend Amos Teller and Ruth Teller", True),
        (f"Rev. Amos Teller & Ruth,{AT},", "surname-missing", "as is",
         "The Reverend Amos Teller and Ruth", True),
        (f"Ms. Penny Vale,{AT},+1 Rob?", "guest-noted", "Rob Hale", "Ms. Penny Vale", False),
        (f"Ms. Penny Vale,{AT},+1 Rob?", "guest-noted", "Rob Vale", "Ms. Penny Vale", False),
        (f"Ms. Penny Vale,{AT},+1 Rob?", "guest-noted", "Ms. Penny Vale and Mr. Rob Hale",
         "Ms. Penny Vale and Mr. Rob Hale", True),
        (f"Bea Olin,{AT},", "title-missing", "same", "Bea Olin", False),
        (f"Bea Olin,{AT},", "title-missing", "Miss", "Miss Bea Olin", True),
    ],
)  # fmt: skip
def test_an_answer_in_a_hurry_takes_nobody_away(  # noqa: PLR0913 - a row of the table
    addressing: Run, tmp_path: Path, *, row: str, code: str, words: str, line: str, taken: bool
) -> None:
    path = tmp_path / "guests.csv"
    path.write_text(f"Name,Street,City,State,ZIP,Notes\n{row}\n", "utf-8")
    asked = json.loads(addressing("questions", path, "--json").stdout)["questions"]
    ref = next(each["question"] for each in asked if code in each["codes"])
    back = tmp_path / "back.toml"
    back.write_text(f'[[answer]]\nquestion = "{ref}"\nanswer = "{words}"\n', "utf-8")
    assert addressing("answer", path, back).returncode == (0 if taken else 1)
    home = json.loads(addressing("lines", path, "--json").stdout)["households"][0]
    lines = [each["text"] for each in home["pieces"][0]["lines"]]
    assert " ".join(lines).startswith(line)
    assert home["held"] or taken
