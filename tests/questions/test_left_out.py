"""Who is left out: no household goes by words that mean a part of it, and none goes unseen."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import pypdfium2
import pytest

from addressing.questions.choosing import chosen
from addressing.questions.kinds import Asking, asking_several
from addressing.records.questions import Choice

Run = Callable[..., CompletedProcess[str]]
HEADER = "Name,Notes,Address,City,State,ZIP\n"
PLACE = "14 Larkmoor Lane,Litchfield,CT,06759\n"
OTHER = "Mr. Ivo Sands,,9 Quarry Hill,Rutland,VT,05701\n"


class Desk:
    """A list of two rows, the first with a note that is asked about."""

    def __init__(self, run: Run, folder: Path, name: str, note: str) -> None:
        self.run, self.folder, self.path = run, folder, folder / "guests.csv"
        self.path.write_text(f'{HEADER}"{name}","{note}",{PLACE}{OTHER}', "utf-8")
        asked = json.loads(run("questions", self.path, "--json").stdout)["questions"]
        self.asked = next(q for q in asked if "title-missing" not in q["question"])

    @property
    def proposed(self) -> list[str]:
        return list(self.asked["answers"])

    def answer(self, words: str) -> dict[str, Any]:
        back = self.folder / "back.toml"
        said = (json.dumps(self.asked["question"]), json.dumps(words))
        back.write_text(f"[[answer]]\nquestion = {said[0]}\nanswer = {said[1]}\n", "utf-8")
        return dict(json.loads(self.run("answer", self.path, back, "--json").stdout))

    def people(self) -> list[list[str]]:
        homes = json.loads(self.run("lines", self.path, "--json").stdout)["households"]
        return [[person["given"] or person["kind"] for person in home["people"]] for home in homes]

    def check(self) -> dict[str, Any]:
        return dict(json.loads(self.run("check", self.path, "--json").stdout))

    def left_out(self) -> list[str]:
        found = self.check()["findings"]
        return [each["text"] for each in found if each["code"] == "left-out"]


@pytest.mark.parametrize(
    ("name", "note", "proposed"),
    [
        ("Ms. Maud Tressel-Orme", "Is Lou coming?", "No, without Lou"),
        ("Ms. Maud Tressel-Orme", "w/ Lou?", "No, without Lou"),
        ("Ms. Maud Tressel-Orme", "plus one (Lou?)", "No, without Lou"),
        ("Ms. Maud Tressel-Orme", "plus one?", "No, without the plus-one"),
        ("Ms. Maud Tressel-Orme", "Lou not coming", "Without Lou, else as listed"),
        ("Ms. Maud Tressel-Orme", "plus one declined", "Without the plus-one, else as listed"),
        ("Mr. Theo and Mrs. Odile Penhew", "Is Odile coming?", "No, without Odile"),
    ],
)  # fmt: skip
def test_a_note_on_part_of_a_household_proposes_to_leave_out_that_part_by_name(
    addressing: Run, tmp_path: Path, name: str, note: str, proposed: str
) -> None:
    assert proposed in Desk(addressing, tmp_path, name, note).proposed


@pytest.mark.parametrize(
    ("name", "note", "who"),
    [
        ("Ms. Maud Tressel-Orme", "Is Lou coming?", "Ms. Maud Tressel-Orme"),
        ("Mr. Theo and Mrs. Odile Penhew", "are they coming?", "Mr. Theo and Mrs. Odile Penhew"),
        ("Ms. Maud Tressel-Orme", "Lou not coming", "Ms. Maud Tressel-Orme"),
    ],
)
def test_to_leave_all_of_a_household_out_is_proposed_with_its_name(
    addressing: Run, tmp_path: Path, name: str, note: str, who: str
) -> None:
    desk = Desk(addressing, tmp_path, name, note)
    assert f"Leave out the whole household: {who}" in desk.proposed
    assert not [words for words in desk.proposed if "them out" in words]


@pytest.mark.parametrize("words", ["leave them out", "Leave out", "not invited", "please remove"])
@pytest.mark.parametrize(
    ("name", "note"),
    [
        ("Ms. Maud Tressel-Orme", "Is Lou coming?"),
        ("Ms. Maud Tressel-Orme", "Lou not coming"),
        ("Mr. Theo and Mrs. Odile Penhew", "Is she coming?"),
    ],
)
def test_words_that_may_mean_a_part_take_no_household_away_and_are_asked_about(
    addressing: Run, tmp_path: Path, words: str, name: str, note: str
) -> None:
    desk = Desk(addressing, tmp_path, name, note)
    told = desk.answer(words)
    assert len(desk.people()) == 2
    assert [q["question"] for q in told["open"] if q["question"] == desk.asked["question"]]
    (why,) = [f["text"] for f in told["findings"] if f["code"] == "answer-not-understood"]
    assert "the whole household" in why
    assert desk.check()["households_held"] == 1


@pytest.mark.parametrize(
    ("note", "words"),
    [
        ("Is Lou coming?", "No, without Lou"),
        ("Is Lou coming?", "leave Lou out"),
        ("Lou not coming", "without Lou"),
        ("plus one (Lou?)", "leave them out"),
        ("plus one declined", "no plus one"),
    ],
)
def test_the_part_that_is_left_out_leaves_the_others_as_they_are(
    addressing: Run, tmp_path: Path, note: str, words: str
) -> None:
    desk = Desk(addressing, tmp_path, "Ms. Maud Tressel-Orme", note)
    told = desk.answer(words)
    assert told["findings"] == []
    assert desk.people() == [["Maud"], ["Ivo"]]
    assert desk.check()["households_held"] == 0


def test_somebody_of_the_household_who_is_left_out_by_name_goes_alone(
    addressing: Run, tmp_path: Path
) -> None:
    desk = Desk(addressing, tmp_path, "Mr. Theo and Mrs. Odile Penhew", "Is Odile coming?")
    desk.answer("No, without Odile")
    assert desk.people() == [["Theo"], ["Ivo"]]


@pytest.mark.parametrize("words", ["leave them out", "leave her out", "Leave out the whole"])
def test_one_alone_of_whom_a_note_asks_can_be_left_out_in_any_words(
    addressing: Run, tmp_path: Path, words: str
) -> None:
    desk = Desk(addressing, tmp_path, "Ms. Odile Wexcombe", "Is she coming?")
    desk.answer(words)
    assert desk.people() == [["Ivo"]]


def test_a_household_left_out_by_an_answer_is_told_with_its_name_and_the_answer(
    addressing: Run, tmp_path: Path
) -> None:
    desk = Desk(addressing, tmp_path, "Ms. Maud Tressel-Orme", "declined")
    desk.answer("No, leave out the whole household")
    (told,) = desk.left_out()
    assert "Maud Tressel-Orme" in told
    assert "“No, leave out the whole household”" in told
    (row,) = desk.check()["rows_not_used"]
    assert row["row"] == 2
    assert "Maud Tressel-Orme" in addressing("check", desk.path).stdout


def test_proof_job_sheet_and_stuffing_list_name_who_is_left_out(
    addressing: Run, tmp_path: Path
) -> None:
    desk = Desk(addressing, tmp_path, "Ms. Maud Tressel-Orme", "declined")
    desk.answer("No, leave out the whole household")
    addressing("plates", desk.path)
    addressing("stuffing", desk.path)
    job = tmp_path / "guests-job"
    for sheet in ("proof.pdf", "job-sheet.pdf", "stuffing-list.pdf"):
        with pypdfium2.PdfDocument(job / sheet) as document:
            pages = [page.get_textpage().get_text_range() for page in document]
        assert "Maud Tressel" in " ".join(" ".join(pages).split()), sheet


def test_a_household_that_another_stands_for_is_told_too(addressing: Run, tmp_path: Path) -> None:
    path = tmp_path / "guests.csv"
    rows = f"Ms. Maud Tressel,,{PLACE}Ms. Maud Tressell,,{PLACE}"
    path.write_text(f"{HEADER}{rows}", "utf-8")
    asked = json.loads(addressing("questions", path, "--json").stdout)["questions"]
    ref = next(q["question"] for q in asked if "duplicate-probable" in q["question"])
    back = tmp_path / "back.toml"
    back.write_text(f'[[answer]]\nquestion = "{ref}"\nanswer = "use the first"\n', "utf-8")
    addressing("answer", path, back)
    found = json.loads(addressing("check", path, "--json").stdout)["findings"]
    (told,) = [each["text"] for each in found if each["code"] == "left-out"]
    assert "Maud Tressell" in told
    assert "one household with Ms. Maud Tressel" in told


def test_answer_says_at_once_who_is_left_out(addressing: Run, tmp_path: Path) -> None:
    desk = Desk(addressing, tmp_path, "Ms. Maud Tressel-Orme", "declined")
    (told,) = desk.answer("No, leave out the whole household")["left_out"]
    assert "Maud Tressel-Orme is left out" in told


@pytest.mark.parametrize("words", ["leave her out", "remove him"])
def test_one_of_a_couple_left_out_takes_no_couple_away(
    addressing: Run, tmp_path: Path, words: str
) -> None:
    desk = Desk(addressing, tmp_path, "Mr. Theo and Mrs. Odile Penhew", "declined")
    told = desk.answer(words)
    assert len(desk.people()) == 2
    assert "the whole household" in told["findings"][0]["text"]


@pytest.mark.parametrize("words", ["leave them out", "no kids", "comes alone", "remove"])
def test_a_companion_without_a_name_who_is_left_out_leaves_the_guest_alone(
    addressing: Run, tmp_path: Path, words: str
) -> None:
    desk = Desk(addressing, tmp_path, "Mr. Rex Tarn and Guest", "")
    assert desk.answer(words)["findings"] == []
    assert desk.people() == [["Rex"], ["Ivo"]]


@pytest.mark.parametrize("words", ["no kids", "nobody else", "leave them out"])
def test_unnamed_family_that_is_left_out_leaves_the_couple(
    addressing: Run, tmp_path: Path, words: str
) -> None:
    desk = Desk(addressing, tmp_path, "Mr. Theo and Mrs. Odile Penhew and Family", "")
    assert desk.answer(words)["findings"] == []
    homes = json.loads(addressing("lines", desk.path, "--json").stdout)["households"]
    assert "Family" not in json.dumps(homes[0]["pieces"])
    assert desk.people()[0] == ["Theo", "Odile"]


@pytest.mark.parametrize("words", ["none", "no names"])
def test_none_says_nothing_of_who_is_still_invited(
    addressing: Run, tmp_path: Path, words: str
) -> None:
    desk = Desk(addressing, tmp_path, "Mr. Theo and Mrs. Odile Penhew", "declined")
    desk.answer(words)
    assert desk.check()["households_held"] == 1


def test_a_companion_of_two_notes_is_left_out_by_one_answer() -> None:
    open_, noted = (
        Asking("names", "Names", "", "", choices)
        for choices in (
            (Choice("No, without Lou", "part", "Lou"), Choice("Leave out the whole", "whole")),
            (Choice("Yes", "set", "names=A"), Choice("No, without the plus-one", "part", "guest")),
        )
    )
    proposed = asking_several("names", (open_, noted)).choices
    assert [(each.effect, each.value) for each in proposed] == [
        ("part", "Lou|guest"), ("set", "names=A"), ("whole", ""), ("keep", ""),
    ]  # fmt: skip
    assert chosen(proposed, "leave them out", "names") is None
    assert chosen(proposed, "without Lou", "names") == proposed[0]
