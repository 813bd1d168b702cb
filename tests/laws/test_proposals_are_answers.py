"""Each answer that letter or workbook proposes is taken when it is given back word for word.

The lists are those of `test_everything_asked_is_settled.py`, the demo list and the lists of others.
"""

import tomllib
from collections.abc import Sequence
from itertools import zip_longest
from pathlib import Path

import pytest

from addressing.job.asking import Listed, list_as_read, still_open
from addressing.job.rereading import READERS
from addressing.questions.applying import apply
from addressing.questions.asking import mark_of, questions_for
from addressing.questions.matters import matters_of
from addressing.questions.slots import LETTERS, slots_of
from addressing.records.questions import Decision, Question
from addressing.where import Where

TOP = Path(__file__).resolve().parents[2]
OTHERS = [
    path
    for path in (*sorted((TOP / "tests" / "lists").glob("[!_]*/*.*")), TOP / "demo_guests.xlsx")
    if not path.name.endswith(".truth.json")
]
HERE = Where("reply.txt", "reply.txt", "line 3")


def refused(listed: Listed, given: Sequence[Decision]) -> list[Decision]:
    """Of answers given at once those that aren't taken, or after which it is asked again."""
    done = apply(listed.guest_list, listed.findings, given, READERS)
    again = {each.ref for each in still_open(listed, done)}
    taken = {decision for _, decision in done.taken}
    return [said for said in given if said.ref in again or said not in taken]


def all_refused(listed: Listed) -> list[str]:
    """The proposed answers that aren't taken when each is given alone.

    All first ones are given at once, then all second ones: what is taken beside others need not be
    tried alone, which a long list would take minutes for.
    """
    asked = questions_for(listed.guest_list, listed.findings)
    rounds = zip_longest(*(proposed(question) for question in asked))
    doubtful = [said for each in rounds for said in refused(listed, list(filter(None, each)))]
    return [f"{said.ref}: {said.answer}" for said in doubtful if refused(listed, [said])]


def proposed(question: Question) -> list[Decision]:
    mark = mark_of(question.basis)
    return [Decision(question.ref, choice.text, HERE, mark) for choice in question.choices]


def test_every_proposal_to_each_code_is_taken(tmp_path: Path) -> None:
    examples = tomllib.loads((TOP / "scripts" / "finding_examples.toml").read_text("utf-8"))
    path, docket = tmp_path / "list.csv", tmp_path / "docket.toml"
    tried, lost = set(), []
    for code, each in examples.items():
        path.write_text(each["list"], "utf-8")
        docket.write_text(each.get("docket", ""), "utf-8")
        listed = list_as_read(path, docket if each.get("docket") else None)
        lost += [f"{code}: {text}" for text in all_refused(listed)]
        asked = questions_for(listed.guest_list, listed.findings)
        tried |= {found.code for question in asked for found in question.covers}
    assert lost == []
    assert len(tried) > 15


@pytest.mark.parametrize("path", OTHERS, ids=lambda path: f"{path.parent.name}/{path.name}")
def test_every_proposal_of_a_list_is_taken(path: Path) -> None:
    assert all_refused(list_as_read(path, None)) == []


@pytest.mark.parametrize("path", OTHERS[-1:], ids=["demo"])
def test_every_proposal_has_a_letter_of_the_letter(path: Path) -> None:
    listed = list_as_read(path, None)
    asked = questions_for(listed.guest_list, listed.findings)
    assert all(len(slot.answers) <= len(LETTERS) for slot in slots_of(matters_of(asked)))


def test_two_rows_that_look_alike_are_asked_of_once(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    rows = (
        "Party,Title,First,Last,Street,City,State,ZIP",
        "Umber,Mr.,Silas,Umber,9 Mill Row,Litchfield,CT,06759",
        "Umber,Mrs.,Ida,Umber,,,,",
        "Umber,Ms.,Nell,Umber,,,,",
        "Umber/Vole,Ms.,Nell,Umber,5 Elm Row,Duluth,MN,55802",
        "Umber/Vole,Mr.,Ned,Vole,,,,",
    )
    path.write_text("\n".join(rows) + "\n", "utf-8")
    listed = list_as_read(path, None)
    pairs = [
        question.households
        for question in questions_for(listed.guest_list, listed.findings)
        if question.kind == "pair"
    ]
    assert len({frozenset(pair) for pair in pairs}) == len(pairs)
