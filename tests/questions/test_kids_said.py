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


def told(tmp_path: Path, row: str, words: str, what: str = "") -> Applied:
    """What comes of an answer to the names of a list of one row."""
    path = tmp_path / "list.csv"
    head = "Name,Kids,No. invited,Street,City,State,ZIP"
    path.write_text(f"{head}\n{row},14 Larkmoor Lane,Litchfield,CT,06759\n", "utf-8")
    listed = list_as_read(path, None)
    refs = [each.ref for each in questions_for(listed.guest_list, listed.findings)]
    key = listed.guest_list.households[0].key
    ref = next((each for each in refs if what and f":{what}" in each), f"{key}:correct:names")
    ref = next((each for each in refs if not what and "family-unnamed" in each), ref)
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
