"""Who is proposed of two when a note tells of a death."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

import pytest

from addressing.guestlist.rows.noted import asked_of
from addressing.guestlist.rows.said import remark
from addressing.guestlist.rows.surviving import survivors, tells_of_another
from addressing.records.guests import Household, Person
from addressing.tables import table
from addressing.where import Where

COUPLE = (Person("Mr.", "Tobias", "Penhew"), Person("Mrs.", None, "Penhew"))
NAMED = (Person(None, "Tobias", "Penhew"), Person(None, "Odile", "Orr"))


def left(note: str, people: tuple[Person, ...] = COUPLE) -> tuple[str, ...]:
    return survivors(note, Household("h-aaaaaaaa", people))


@pytest.mark.parametrize("row", table("died"), ids=lambda row: str(row["words"]))
def test_words_of_a_death_propose_whoever_is_left_and_their_neighbours_nobody(
    row: dict[str, str],
) -> None:
    assert left(row["example"])
    assert left(row["counter_example"]) == ()


@pytest.mark.parametrize(
    ("note", "people", "names"),
    [
        ("she passed away in May", COUPLE, ("Mr. Tobias Penhew",)),
        ("He died, God rest him", COUPLE, ("Mrs. Tobias Penhew",)),
        ("Tobias passed away", NAMED, ("Odile Orr",)),
        ("widowed this spring", NAMED, ("Tobias Penhew", "Odile Orr")),
        ("Toby passed in the spring. So only Mrs. Joan Penhew", COUPLE,
         ("Mrs. Joan Penhew", "Mr. Tobias Penhew", "Mrs. Tobias Penhew")),
        ("she passed away", NAMED[:1], ()),
        ("she is away in May", COUPLE, ()),
    ],
)  # fmt: skip
def test_who_is_left(note: str, people: tuple[Person, ...], names: tuple[str, ...]) -> None:
    assert left(note, people) == names


@pytest.mark.parametrize(
    ("answer", "outer"),
    [
        ("Mr. Tobias Penhew alone", "Mr. Tobias Penhew"),
        ("Mr. Tobias Penhew", "Mr. Tobias Penhew"),
        ("All are invited as listed", "Mr. and Mrs. Tobias Penhew"),
    ],
)
def test_the_survivor_is_set_as_the_client_says(
    addressing: Callable[..., CompletedProcess[str]], tmp_path: Path, answer: str, outer: str
) -> None:
    path = tmp_path / "guests.csv"
    path.write_text(
        "Name,Street,City,State,ZIP,Notes\n"
        "Mr. and Mrs. Tobias Penhew,14 Larkmoor Lane,Litchfield,CT,06759,she passed away in May\n"
    )
    (question,) = json.loads(addressing("questions", path, "--json").stdout)["questions"]
    back = tmp_path / "back.toml"
    back.write_text(f'[[answer]]\nquestion = "{question["question"]}"\nanswer = "{answer}"\n')
    assert addressing("answer", path, back).returncode == 0
    (home,) = json.loads(addressing("lines", path, "--json").stdout)["households"]
    piece = next(each for each in home["pieces"] if each["kind"] == "outer")
    assert (piece["lines"][0]["text"], home["held"]) == (outer, False)


@pytest.mark.parametrize(
    ("note", "asked"),
    [
        ("Judy passed in January", False),
        ("his wife died last year", False),
        ("Tobias passed in May", True),
        ("Toby died", True),
    ],
)
def test_the_death_of_somebody_who_is_not_listed_holds_nobody(note: str, asked: bool) -> None:  # noqa: FBT001
    home = Household("h-aaaaaaaa", (Person("Mr.", "Tobias", "Penhew"),))
    found = remark(Where("list.csv", None, "F2"), note, whole=True)
    assert (asked_of(found, home).code == "marker-in-list") is asked
    assert tells_of_another(note, home) is not asked
    assert not tells_of_another(f"{note}, now with Sue", home)
