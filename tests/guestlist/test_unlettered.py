"""Words of kinship and names in brackets are on no envelope unseen: they are told or asked."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

import pytest

from addressing.guestlist import read_list

Write = Callable[..., Path]
Run = Callable[..., CompletedProcess[str]]
HERE = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")
CASES = [
    ("Gwen (Gwendolyn) Penhew", "name-fuller", "Gwendolyn"),
    ("Gwen Penhew (Gwendolyn)", "name-fuller", "Gwendolyn"),
    ("Tobias and Gwen (Gwendolyn) Penhew", "name-fuller", "Gwendolyn"),
    ("Peggy (Margaret) Penhew", "name-fuller", "Margaret"),
    ('Kate "Katherine" Penhew', "name-fuller", "Katherine"),
    ("Gwen (Penhew) Farrenby", "name-beside", "Penhew"),
    ("Gwendolyn (Gwen) Penhew", "nickname-left-out", "Gwen"),
    ("Robert (Bob) Penhew", "nickname-left-out", "Bob"),
    ("Ignatius “Iggy” Penhew", "nickname-left-out", "Iggy"),
    ("Charles (Bo) Penhew", "nickname-left-out", "Bo"),
    ("Grandma Ruth Penhew", "kin-left-out", "Grandma"),
    ("Aunt Jo Penhew", "kin-left-out", "Aunt"),
    ("Great Aunt Ida Penhew", "kin-left-out", "Great-Aunt"),
    ("Uncle Pete and Jo Penhew", "kin-left-out", "Uncle"),
]
ASKED = [
    "Grandma Ruth",
    "Uncle Pete & Aunt Jo",
    "Aunt Sally",
    "Cousin Wes",
    "Grandpa Joe & Grandma Ruth",
    "Granny Penhew",
    "Nana",
    "Nana & Pop",
    "Mom and Dad",
    "Grandma & Grandpa Penhew",
]


@pytest.mark.parametrize(("name", "code", "said"), CASES)
def test_words_beside_a_name_that_are_on_no_envelope_are_told_or_asked(
    write_list: Write, name: str, code: str, said: str
) -> None:
    _, findings = read_list(write_list(((name, *HERE),)), {})
    (told,) = [found for found in findings if found.code == code]
    assert told.quoted == said
    assert told.where.cell == "A2"
    assert not told.holds


@pytest.mark.parametrize("name", ASKED)
def test_a_word_of_kinship_without_a_family_name_holds(write_list: Write, name: str) -> None:
    _, findings = read_list(write_list(((name, *HERE),)), {})
    assert [found.code for found in findings if found.holds] == ["name-doubtful"]


@pytest.mark.parametrize(
    "name", ["Ms. Ruth Penhew", "Lorraine (Lorraine) Boyd", "Grandison Penhew"]
)
def test_a_name_without_such_words_has_no_such_finding(write_list: Write, name: str) -> None:
    _, findings = read_list(write_list(((name, *HERE),)), {})
    assert not {found.code for found in findings} & {code for _, code, _ in CASES}


def test_the_fuller_name_is_proposed_and_set(addressing: Run, write_list: Write) -> None:
    path = write_list((("Mr. Tobias and Ms. Gwen (Gwendolyn) Penhew", *HERE),))
    told = json.loads(addressing("questions", path, "--json").stdout)["questions"]
    (asked,) = [each for each in told if "name-fuller" in each["codes"]]
    fuller = asked["answers"][-1]
    assert "Gwendolyn" in fuller
    back = path.parent / "back.toml"
    back.write_text(f'[[answer]]\nquestion = "{asked["question"]}"\nanswer = "{fuller}"\n')
    assert addressing("answer", path, back).returncode == 0
    (home,) = json.loads(addressing("lines", path, "--json").stdout)["households"]
    assert [(each["title"], each["given"]) for each in home["people"]] == [
        ("Mr.", "Tobias"),
        ("Ms.", "Gwendolyn"),
    ]
