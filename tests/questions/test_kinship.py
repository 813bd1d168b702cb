"""Aunt and Uncle stay on the inner envelope when a title is given for the outer one."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

import pytest

Run = Callable[..., CompletedProcess[str]]
AT = "13 Vesper Street,Bethel,ME,04217"


@pytest.mark.parametrize(
    ("listed", "kind", "said", "outer", "inner"),
    [
        ("Uncle Ned Pellam", "title", "Mr.", "Mr. Ned Pellam", "Uncle Ned"),
        ("Uncle Ned", "names", "Mr. Ned Pellam", "Mr. Ned Pellam", "Uncle Ned"),
        ("Aunt Jo & Uncle Bert Umber", "names", "Mr. Bert Umber and Mrs. Jo Umber",
         "Mr. and Mrs. Bert Umber", "Aunt Jo and Uncle Bert"),
        ("Grandma Ida Orr", "title", "Mrs.", "Mrs. Ida Orr", "Grandma Ida"),
        ("Uncle Ned Pellam", "names", "Mr. Hugo Orr", "Mr. Hugo Orr", "Mr. Orr"),
        ("Uncle Ned Pellam", "names", "Ned Pellam", "Ned Pellam", "Uncle Ned"),
        ("Ned Pellam", "title", "Mr.", "Mr. Ned Pellam", "Mr. Pellam"),
    ],
)  # fmt: skip
def test_a_word_of_kinship_stays_inside(  # noqa: PLR0913 - a row of the table
    addressing: Run, tmp_path: Path, *, listed: str, kind: str, said: str, outer: str, inner: str
) -> None:
    path = tmp_path / "guests.csv"
    path.write_text(f"Name,Street,City,State,ZIP\n{listed},{AT}\n", "utf-8")
    done = addressing("answer", path, "--set", "A2", kind, said)
    assert done.returncode == 0, done.stdout + done.stderr
    home = json.loads(addressing("lines", path, "--json").stdout)["households"][0]
    lines = {piece["kind"]: piece["lines"][0]["text"] for piece in home["pieces"]}
    assert (lines["outer"], lines["inner"]) == (outer, inner)
