"""A set of which pieces are on paper keeps their size; another is the designer's own choice."""

import json
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]

PLACE = ("Litchfield", "CT", "06759")
NAMES = ("Mr. Alaric Thorne", "Mr. Bram Ostler", "Ms. Cecily Vane", "Ms. Edda Marsh")
ROWS = [(name, f"{number} Larkmoor Lane", *PLACE) for number, name in enumerate(NAMES, 2)]
LONG = ("Mr. and Mrs. Maximilian Wotherspoon-Farrenby", "781 Greater Larkmoor Boulevard", *PLACE)
LONGEST = ("Dr. Maximilian Wotherspoon-Farrenby-Carringtonworth", "9 Larkmoor Lane", *PLACE)


def answer(ran: Ran) -> dict[str, Any]:
    assert ran.returncode in {0, 1}, ran.stderr
    said: dict[str, Any] = json.loads(ran.stdout)
    return said


@pytest.fixture
def docket(tmp_path: Path) -> Path:
    path = tmp_path / "job.toml"
    path.write_text('[pieces]\nmake = ["outer"]\n', encoding="utf-8")
    return path


def sized(docket: Path, choice: str) -> None:
    """The docket's own choice for the outers."""
    outer = 'kind = "outer"\nlayout = "a7"\nface = "cormorant-garamond"\n'
    inked = 'ink = "White"\nstock = "deep-green"\n'
    text = f'[pieces]\nmake = ["outer"]\n\n[[piece]]\n{outer}{inked}{choice}\n'
    docket.write_text(text, encoding="utf-8")


@pytest.fixture
def on_paper(addressing: Run, write_list: Write, docket: Path) -> Path:
    """A job of short names whose outers were all printed, at the largest size."""
    path = write_list(ROWS)
    answer(addressing("plates", path, "--docket", docket, "--json"))
    answer(addressing("printed", path, "--json"))
    return path


def sizes_kept(addressing: Run, path: Path, docket: Path) -> list[dict[str, Any]]:
    said = answer(addressing("check", path, "--docket", docket, "--json"))
    return [found for found in said["findings"] if found["code"] == "size-kept"]


def test_a_longer_name_that_comes_later_leaves_what_is_on_paper_right(
    addressing: Run, on_paper: Path, docket: Path, write_list: Write
) -> None:
    write_list([*ROWS, LONG])
    said = answer(addressing("reprint", on_paper, "--docket", docket, "--json"))
    assert [(p["path"], p["pages"]) for p in said["plates"]] == [("plates/01-outer-white.pdf", 1)]
    assert said["ledger"]["wrong"] == []
    assert answer(addressing("plates", on_paper, "--docket", docket, "--json"))["on_paper"] == 4
    answer(addressing("printed", on_paper, "--reprint", 1, "--json"))
    balance = answer(addressing("ledger", on_paper, "--docket", docket, "--json"))
    assert (len(balance["good"]), balance["due"], balance["wrong"]) == (5, [], [])


def test_a_longer_name_corrected_after_printing_spoils_that_one_print_alone(
    addressing: Run, on_paper: Path, docket: Path, write_list: Write
) -> None:
    write_list([*ROWS[:3], ("Ms. Edda Wilhelmina Annelotte Josephine Marsh", *ROWS[3][1:])])
    assert sizes_kept(addressing, on_paper, docket)
    said = answer(addressing("ledger", on_paper, "--docket", docket, "--json"))
    assert [each["page"] for each in said["good"]] == [1, 2, 3]
    assert [(each["page"], each["why"]) for each in said["wrong"]] == [(4, "words changed")]


def test_the_designer_is_told_which_size_is_kept_and_how_to_choose_another(
    addressing: Run, on_paper: Path, docket: Path, write_list: Write
) -> None:
    assert sizes_kept(addressing, on_paper, docket) == []
    write_list([*ROWS, LONG])
    (found,) = sizes_kept(addressing, on_paper, docket)
    assert "keeps the 26 pt of the 4 on paper; fitted afresh it would stand at" in found["text"]
    told = addressing("ledger", on_paper, "--docket", docket).stdout
    assert "The outer set keeps the 26 pt of the 4 on paper" in told
    choice = found["mend"].partition("put ")[2].partition(" at this piece")[0]
    sized(docket, choice)
    said = answer(addressing("ledger", on_paper, "--docket", docket, "--json"))
    assert [each["why"] for each in said["due"]] == [*["size and place changed"] * 4, "new"]
    assert (len(said["moved"]), said["wrong"]) == (4, [])
    told = addressing("ledger", on_paper, "--docket", docket).stdout
    assert "Right words, set in another size or place than they would be now" in told
    assert "destroy" not in told
    assert sizes_kept(addressing, on_paper, docket) == []


def test_a_list_without_its_long_name_keeps_the_smaller_size_on_paper(
    addressing: Run, write_list: Write, docket: Path
) -> None:
    path = write_list([*ROWS, LONG])
    answer(addressing("plates", path, "--docket", docket, "--json"))
    answer(addressing("printed", path, "--json"))
    write_list(ROWS)
    said = answer(addressing("ledger", path, "--docket", docket, "--json"))
    assert (len(said["good"]), said["due"]) == (4, [])
    (found,) = sizes_kept(addressing, path, docket)
    assert "fitted afresh it would stand at 26 pt" in found["text"]


def test_who_comes_to_a_printed_set_with_a_very_long_name_is_set_smaller_alone_and_it_is_told(
    addressing: Run, on_paper: Path, docket: Path, write_list: Write
) -> None:
    write_list([*ROWS, LONGEST])
    said = answer(addressing("reprint", on_paper, "--docket", docket, "--json"))
    assert [(p["path"], p["pages"]) for p in said["plates"]] == [("plates/01-outer-white.pdf", 1)]
    assert said["ledger"]["wrong"] == []
    told = answer(addressing("check", on_paper, "--docket", docket, "--json"))["findings"]
    (found,) = [each for each in told if each["code"] == "size-stepped"]
    assert "the others stand at 26 pt on paper" in found["text"]
    assert "It will be seen" in found["mend"]


def test_without_prints_no_piece_is_set_so_much_smaller_than_the_rest(
    addressing: Run, docket: Path, write_list: Write
) -> None:
    sized(docket, "size = 26")
    path = write_list([*ROWS, LONGEST])
    assert addressing("plates", path, "--docket", docket).returncode == 1


def test_what_can_t_be_set_in_the_printed_size_waits_and_is_told_what_helps(
    addressing: Run, on_paper: Path, docket: Path, write_list: Write
) -> None:
    sized(docket, "smallest = 20")
    write_list([*ROWS, LONGEST])
    ran = addressing("reprint", on_paper, "--docket", docket)
    assert ran.returncode == 1
    told = answer(addressing("check", on_paper, "--docket", docket, "--json"))["findings"]
    (found,) = [each for each in told if each["code"] == "line-too-wide"]
    helps = found["mend"].partition("Let this one be set at ")[2].partition(" pt")[0]
    assert "(smallest in the docket)" in found["mend"]
    cost = "4 of the set are on paper at 26 pt: at another size they are printed again."
    assert cost in ran.stdout
    sized(docket, f"smallest = {helps}")
    assert addressing("reprint", on_paper, "--docket", docket).returncode == 0


def test_where_nothing_on_paper_can_be_right_any_more_the_set_is_fitted_afresh(
    addressing: Run, on_paper: Path, docket: Path, write_list: Write
) -> None:
    write_list([*ROWS, LONG])
    sized(docket, "tracking = 20")
    assert sizes_kept(addressing, on_paper, docket) == []
    sized(docket, "largest = 24")
    assert sizes_kept(addressing, on_paper, docket) == []


def test_destroyed_prints_bind_nobody(
    addressing: Run, on_paper: Path, docket: Path, write_list: Write
) -> None:
    assert addressing("destroyed", on_paper, "1-4").returncode == 0
    write_list([*ROWS, LONG])
    assert sizes_kept(addressing, on_paper, docket) == []
