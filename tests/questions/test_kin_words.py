"""“Grandma” in a mail is the one household that the list calls so."""

from pathlib import Path

import pytest

from addressing.job.asking import list_as_read
from addressing.job.words import heard
from addressing.records.questions import Said
from addressing.where import Where

HEAD = "Name,Street,City,State,ZIP,Notes"
NOTED = 'Mrs. Eleanor Penhew,79 Elm Row,Litchfield,CT,06759,"Grandma - widowed, Grandpa was Harold"'
OTHERS = (
    "Mr. and Mrs. Otto Penhew,80 Elm Row,Litchfield,CT,06759,",
    "Mr. and Mrs. Ned Orr,81 Elm Row,Litchfield,CT,06759,ask grandma for it",
)
SECOND = "Mrs. Ada Vole,82 Elm Row,Litchfield,CT,06759,groom's grandma"
CALLED = "Nana Ada Vole,82 Elm Row,Litchfield,CT,06759,"


def held(tmp_path: Path, words: str, *rows: str) -> list[str | None]:
    """The names of the households that a sentence of a mail is kept for."""
    path = tmp_path / "list.csv"
    path.write_text("\n".join((HEAD, *rows)) + "\n", "utf-8")
    listed = list_as_read(path, None)
    homes = listed.guest_list.households
    called = {home.key: home.name for home in homes}
    said = Said(words, Where("r.txt", "r.txt", "line 3"))
    kept = heard([said], (), homes, None, (), listed.findings)
    return [called.get(each.household or "") for each in kept]


@pytest.mark.parametrize(
    "words",
    [
        "Also, Grandma would like to be Mrs. Harold Penhew on the envelope please!",
        "Grandma moved to Bath",
        "oh and my grandma moved to Bath",
        "Grandpa has died, as you know",
    ],
)
def test_a_word_of_kinship_holds_the_one_household_that_a_note_calls_so(
    tmp_path: Path, words: str
) -> None:
    assert held(tmp_path, words, NOTED, *OTHERS) == ["Eleanor Penhew"]


def test_a_word_of_kinship_before_a_name_of_the_list_is_hers(tmp_path: Path) -> None:
    assert held(tmp_path, "Nana moved to Bath", CALLED, *OTHERS) == ["Ada Vole"]


@pytest.mark.parametrize(
    "words",
    [
        "Her grandma moved to Bath",
        "Please add Grandma",
        "Grandma Lou moved to Bath",
        "Kit's Grandma moved to Bath",
        "Nana moved to Bath",
    ],
)
def test_somebody_elses_kin_and_others_are_nobody_of_the_list(tmp_path: Path, words: str) -> None:
    assert held(tmp_path, words, NOTED, *OTHERS) == [None]


def test_of_two_who_are_called_so_nobody_is_taken(tmp_path: Path) -> None:
    assert held(tmp_path, "Grandma moved to Bath", NOTED, SECOND) == [None]


def test_a_family_name_of_one_household_holds_it(tmp_path: Path) -> None:
    words = "Please write Mrs. Harold Penhew on the envelope"
    assert held(tmp_path, words, NOTED) == ["Eleanor Penhew"]
