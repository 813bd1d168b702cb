"""An envelope each, and names that are given for all of them: common practice, no source."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

Run = Callable[..., CompletedProcess[str]]
LIST = """Name,Street,City,State,ZIP,Notes
Grandma Rose Whitlock,7 Maple Court,Ithaca,NY,14850,
Aunt Peg,same address as Grandma Rose,,,,"Peg = Margaret Whitlock, never married"
Mr. & Mrs. Luis Lorne,9 Elm St,Ithaca,NY,14850,"Mateo 11, Sofia 19 and baby"
Mr. & Mrs. Tom Umber and Will Jr. (17),11 Elm St,Ithaca,NY,14850,
"""


def lines_after(addressing: Run, folder: Path, *names: str) -> tuple[str, str]:
    """What is told of the names, and the outer envelopes then."""
    (folder / "list.csv").write_text(LIST, "utf-8")
    job = ("--to", str(folder / "job"))
    at = str(folder / "list.csv")
    addressing("questions", at, *job)
    said = (folder / "job" / "questions.txt").read_text("utf-8")
    letter = said.partition("letter ")[2][:8]
    (folder / "reply.txt").write_text(f"letter {letter}\n1: b\n", "utf-8")
    addressing("answer", at, str(folder / "reply.txt"), *job)
    told = addressing("answer", at, *job, "--set", "A2", "everyone", *names).stdout if names else ""
    return told, addressing("lines", at, *job).stdout


def test_a_first_name_alone_on_an_envelope_waits(addressing: Run, tmp_path: Path) -> None:
    _, lines = lines_after(addressing, tmp_path)
    assert "A3  waiting for an answer" in lines


def test_names_of_more_than_get_an_envelope_are_not_taken(addressing: Run, tmp_path: Path) -> None:
    names = "Mrs. Charles Whitlock, Miss Margaret Whitlock and Miss Ann Whitlock"
    told, lines = lines_after(addressing, tmp_path, names)
    assert "the names are of 3, and 2 get an envelope each" in told
    assert "Peg" in lines


def test_names_of_one_are_hers_whose_row_it_is(addressing: Run, tmp_path: Path) -> None:
    _, lines = lines_after(addressing, tmp_path, "Mrs. Charles Whitlock")
    assert "outer  Mrs. Charles Whitlock\n" in lines
    assert "Peg" in lines


def test_names_of_all_stay_apart(addressing: Run, tmp_path: Path) -> None:
    both = "Mrs. Charles Whitlock and Miss Margaret Whitlock"
    _, lines = lines_after(addressing, tmp_path, both)
    assert "outer  Mrs. Charles Whitlock\n" in lines
    assert "outer  Miss Margaret Whitlock\n" in lines


TWO = """Name,Street,City,State,ZIP,Notes
Gus Lindqvist & Ada Moreau,18 Hill Street,Rutland,VT,,separate envelopes?
Tom Hale & Una Pike,3 Cross Street,Rutland,VT,05701,separate envelopes
"""


def answered(addressing: Run, folder: Path, lines: str) -> tuple[str, ...]:
    """(the list, `--to`, the job) when a reply with these lines was read."""
    (folder / "list.csv").write_text(TWO, "utf-8")
    at = (str(folder / "list.csv"), "--to", str(folder / "job"))
    addressing("questions", *at)
    letter = (folder / "job" / "questions.txt").read_text("utf-8").partition("letter ")[2][:8]
    (folder / "reply.txt").write_text(f"letter {letter}\n{lines}", "utf-8")
    addressing("answer", at[0], str(folder / "reply.txt"), *at[1:])
    return at


def held_keys(addressing: Run, at: tuple[str, ...]) -> list[str]:
    """Who waits, by their names."""
    homes = json.loads(addressing("lines", *at, "--json").stdout)["households"]
    return [home["people"][0]["given"] for home in homes if home["held"]]


def test_what_is_missing_in_the_address_holds_each_of_them(addressing: Run, tmp_path: Path) -> None:
    assert held_keys(addressing, answered(addressing, tmp_path, "1: a\n2: a\n")) == ["Gus", "Ada"]


def test_words_below_an_answer_hold_everybody_whom_they_name(
    addressing: Run, tmp_path: Path
) -> None:
    said = "1: a\n3: a\n2: a\nAda Moreau moved to Boston last week.\n"
    assert held_keys(addressing, answered(addressing, tmp_path, said)) == [
        "Gus", "Ada", "Tom", "Una"
    ]  # fmt: skip


def test_words_of_several_are_told_once_and_closed_by_themselves(
    addressing: Run, tmp_path: Path
) -> None:
    at = answered(addressing, tmp_path, "1: a\n")
    letter = (tmp_path / "reply.txt").read_text("utf-8").partition("\n")[0]
    said = "Ada Moreau and Una Pike can't come on Friday. Tom Hale will be late."
    (tmp_path / "more.txt").write_text(f"{letter}\n\n{said}\n", "utf-8")
    told = addressing("answer", at[0], str(tmp_path / "more.txt"), *at[1:]).stdout
    assert told.count("can't come on Friday.”") == 1
    assert "--settled 'Tom Hale will be late.'" in told
    addressing("answer", *at, "--settled", "Tom Hale will be late.")
    assert "Tom" in held_keys(addressing, at)
