"""The demo list, answered as a client would: everything can be printed but who was left out."""

import json
from collections.abc import Callable, Mapping
from pathlib import Path
from subprocess import CompletedProcess

Fill = Callable[[Path, Mapping[str, str]], Path]
Run = Callable[..., CompletedProcess[str]]
DEMO = Path(__file__).resolve().parents[2] / "demo_guests.xlsx"
ANSWERS = {
    "row-struck": "No, leave them out",  # a whole row; the next stands for a name within a row
    "row-struck:": "Yes, still invited",
    "row-hidden": "Yes, still invited",
    "cells-merged": "Yes, it is right",
    "marker-in-list": "Yes, still invited",
    "by-hand-noted": "Yes, it goes by post",
    "address-doubtful": "As it stands",  # with the ZIP's question; the next stands alone
    "h-bilddlsi:address-doubtful": "Yes, it is right",
    "zip-not-in-state": "The ZIP is right, the state is Oregon",
    "address-missing": "=22 Larkmoor Lane, Litchfield, CT 06759",
    "zip-missing": "=40502",
    "duplicate-probable": "One household, use the second",
    "title-missing": "No title",
    "note-open": "Nothing changes",
    "guest-unnamed": "“and Guest” is fine",
    "family-unnamed": "No names, as it stands",
    "capitals-recased": "Capitals at the front are right",
}


def test_after_the_answers_nothing_of_the_demo_is_held_or_asked(
    addressing: Run, fill: Fill
) -> None:
    before = json.loads(addressing("check", DEMO, "--json").stdout)
    addressing("questions", DEMO)
    answers = fill(Path("demo_guests-job/questions.xlsx"), ANSWERS)
    told = json.loads(addressing("answer", DEMO, answers, "--json").stdout)
    assert told["findings"] == []
    assert [":title-new:" in each["question"] for each in told["open"]] == [True]
    (ref,) = (each["question"] for each in told["open"])  # who was struck out has no title either
    Path("late.toml").write_text(f'[[answer]]\nquestion = "{ref}"\nanswer = "No title"\n')
    assert json.loads(addressing("answer", DEMO, "late.toml", "--json").stdout)["open"] == []
    plates = addressing("plates", DEMO, "--json")
    assert plates.returncode == 0
    made = json.loads(plates.stdout)
    assert made["held"] == []
    check = made["check"]
    assert [f["code"] for f in check["findings"] if f["severity"] != "note"] == []
    left_out = [row for row in check["rows_not_used"] if "answers.xlsx!" in row["why"]]
    assert len(left_out) == 3
    assert check["households"] == before["households"] - 3
    assert check["rows"] == before["rows"] == check["rows_used"] + len(check["rows_not_used"])


def test_one_answer_for_a_table_serves_all_of_its_rows(addressing: Run, fill: Fill) -> None:
    told = json.loads(addressing("questions", DEMO, "--json").stdout)
    titles = next(matter for matter in told["matters"] if matter["table"] == "Titles")
    book = Path("demo_guests-job/questions.xlsx")
    first, *others = titles["questions"]
    answers = fill(book, {"all:title-missing": "Yes, as filled in (empty: no title)", first: "Dr."})
    told = json.loads(addressing("answer", DEMO, answers, "--json").stdout)
    assert told["findings"] == []
    given = {each["question"]: each["answer"] for each in told["applied"]}
    assert given == {first: "Dr.", **dict.fromkeys(others, "As it stands")}
    again = json.loads(addressing("questions", DEMO, "--json").stdout)
    assert "title-missing" not in json.dumps(again)


def test_to_fill_in_a_table_and_not_to_do_it_is_asked_about(addressing: Run, fill: Fill) -> None:
    addressing("questions", DEMO)
    book = Path("demo_guests-job/questions.xlsx")
    answers = fill(book, {"all:title-missing": "Yes, as filled in (empty: no title)"})
    told = json.loads(addressing("answer", DEMO, answers, "--json").stdout)
    assert [found["code"] for found in told["findings"]] == ["answer-not-understood"]
    assert told["applied"] == []
