"""Children in an answer with names: behind “kids:”, and “kids as listed”."""

from pathlib import Path

import pytest

from addressing.job.asking import list_as_read
from addressing.job.rereading import READERS
from addressing.questions.applying import apply
from addressing.questions.asking import questions_for
from addressing.records.guests import Household, Kind
from addressing.records.questions import Applied, Decision
from addressing.where import Where

LABEL = 'The Quayle Family,"Nell, Bram",'
COUPLE = 'Mr. and Mrs. Otto Quayle,"Nell, Bram",'
BARE = "The Quayle Family,,"
PARENTS = "Mr. Otto and Mrs. Una Quayle"


def told(tmp_path: Path, row: str, words: str) -> Applied:
    """What comes of an answer to the names of a list of one row."""
    path = tmp_path / "list.csv"
    head = "Name,Kids,No. invited,Street,City,State,ZIP"
    path.write_text(f"{head}\n{row},14 Larkmoor Lane,Litchfield,CT,06759\n", "utf-8")
    listed = list_as_read(path, None)
    refs = [each.ref for each in questions_for(listed.guest_list, listed.findings)]
    key = listed.guest_list.households[0].key
    ref = next((each for each in refs if "family-unnamed" in each), f"{key}:correct:names")
    decision = Decision(ref, words, Where("r.txt", "r.txt"))
    return apply(listed.guest_list, listed.findings, [decision], READERS)


def young(done: Applied) -> list[str | None]:
    return [person.given for person in _home(done).people if person.kind is Kind.CHILD]


def grown(done: Applied) -> list[str | None]:
    return [person.given for person in _home(done).people if person.kind is Kind.NAMED]


def _home(done: Applied) -> Household:
    return done.guest_list.households[0]


@pytest.mark.parametrize("row", [LABEL, COUPLE])
@pytest.mark.parametrize(
    "kept",
    [
        ", and kids as listed",
        " and same kids",
        ", and the kids",
        " & kids",
        " (kids as is)",
        ", children as on the list.",
        "; same children",
        ", kids are the same",
    ],
)
def test_kids_as_listed_are_the_lists_children_and_nobodys_name(
    tmp_path: Path, row: str, kept: str
) -> None:
    done = told(tmp_path, row, f"{PARENTS}{kept}")
    assert (grown(done), young(done)) == (["Otto", "Una"], ["Nell", "Bram"])


def test_kids_as_listed_of_whom_the_list_names_none_are_asked_about(tmp_path: Path) -> None:
    done = told(tmp_path, BARE, f"{PARENTS}, kids as listed")
    assert not done.taken
    assert any("names no children" in found.text for found in done.findings)


def test_kids_beside_whom_the_list_has_others_unnamed_stay_so(tmp_path: Path) -> None:
    done = told(tmp_path, "Mr. and Mrs. Otto Quayle and kids,,", f"{PARENTS}, the kids")
    assert _home(done).family is not None


@pytest.mark.parametrize("last", ["Isla Quayle", "Isla", "Isla Orr", "Miss Isla Quayle"])
@pytest.mark.parametrize("behind", [", kids: ", " and kids ", "; children: "])
def test_whoever_stands_behind_kids_is_a_child(tmp_path: Path, behind: str, last: str) -> None:
    done = told(tmp_path, BARE, f"{PARENTS}{behind}Nell (9), Bram (7) and {last}")
    assert (grown(done), young(done)) == (["Otto", "Una"], ["Nell", "Bram", "Isla"])


def test_a_grown_title_behind_kids_and_whoever_stands_behind_a_semicolon_are_grown(
    tmp_path: Path,
) -> None:
    done = told(tmp_path, BARE, f"{PARENTS}, kids: Nell and Mrs. Ada Orr")
    assert grown(done) == ["Otto", "Una", "Ada"]
    done = told(tmp_path, BARE, f"{PARENTS}, kids: Nell; Ada Orr")
    assert grown(done) == ["Otto", "Una", "Ada"]


@pytest.mark.parametrize("row", [LABEL, COUPLE])
def test_children_of_the_list_whom_an_answer_leaves_out_are_asked_about(
    tmp_path: Path, row: str
) -> None:
    done = told(tmp_path, row, f"{PARENTS}, kids: Nell (9), Tuck (7) and Isla Quayle")
    assert not done.taken
    assert any("The list has Bram" in found.text for found in done.findings)


@pytest.mark.parametrize("count", ["", "4", "six"])
def test_an_answer_of_a_couple_that_leaves_out_a_child_is_asked_about(
    tmp_path: Path, count: str
) -> None:
    row = f'Mr. and Mrs. Otto Quayle and family,"Nell, Bram",{count}'
    done = told(tmp_path, row, f"{PARENTS}, kids: Nell, Tuck and Isla")
    assert not done.taken


@pytest.mark.parametrize(
    ("count", "more"), [("5", ""), ("", ", nobody else"), ("", " and no one else")]
)
def test_children_left_out_go_where_the_count_fits_or_the_words_say_so(
    tmp_path: Path, count: str, more: str
) -> None:
    words = f"{PARENTS}, kids: Nell, Tuck and Isla{more}"
    done = told(tmp_path, f"{LABEL}{count}", words)
    assert (grown(done), young(done)) == (["Otto", "Una"], ["Nell", "Tuck", "Isla"])


def test_a_child_spelled_anew_is_not_left_out(tmp_path: Path) -> None:
    done = told(tmp_path, LABEL, f"{PARENTS}, kids: Nelle, Bram and Tuck")
    assert young(done)[-1] == "Tuck"


def test_names_of_an_answer_that_do_not_make_the_lists_number_are_told(tmp_path: Path) -> None:
    words = f"{PARENTS}, kids: Nell, Bram and Tuck"
    done = told(tmp_path, f"{LABEL}4", words)
    assert any("The list counts 4" in found.text for found in done.findings)
    done = told(tmp_path, f"{LABEL}5", words)
    assert not any("The list counts" in found.text for found in done.findings)
