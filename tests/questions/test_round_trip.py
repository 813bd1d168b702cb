"""A client's list goes out as questions and comes back answered: what changes, and what doesn't."""

import csv
import json
from collections.abc import Callable, Mapping
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import openpyxl
import pytest

Fill = Callable[[Path, Mapping[str, str]], Path]
Run = Callable[..., CompletedProcess[str]]
Write = Callable[..., Path]

ROWS = (
    ("Ms. Ottoline Grayling and Guest", "431 Weathervane Drive", "Bar Harbor", "ME", "04609"),
    ("Tobias and Odile Penhew", "14 Larkmoor Lane", "Litchfield", "CT", "06759"),
    ("Mr. Silas Umber", "1440 Birchbark Trail", "Duluth", "MN", ""),
    ("Ms. Linnet Ashgrove", "", "", "", ""),
    ("Mr. Bram Halvorsby", "3 Osier Row", "Portland", "ME", "97201"),
    ("Mr. Hugo Sallow and family", "7 Osier Row", "Litchfield", "CT", "06759"),
)


def answered(run: Run, path: Path, *more: str) -> dict[str, Any]:
    told: dict[str, Any] = json.loads(run("check", path, "--json", *more).stdout)
    return told


def outer(run: Run, path: Path, name: str) -> dict[str, Any]:
    """The household whose first line, or label, holds a name."""
    told = json.loads(run("lines", path, "--json").stdout)
    return next(home for home in told["households"] if name in json.dumps(home, ensure_ascii=False))


def texts(home: dict[str, Any], kind: str = "outer") -> list[str]:
    piece = next(piece for piece in home["pieces"] if piece["kind"] == kind)
    return [line["text"] for line in piece["lines"]]


@pytest.fixture
def asked(addressing: Run, write_list: Write) -> tuple[Path, Path]:
    """(the list, its questions workbook)."""
    path = write_list(ROWS)
    assert addressing("questions", path).returncode == 0
    return path, Path("guests-job/questions.xlsx")


def test_an_unanswered_workbook_changes_nothing(addressing: Run, asked: tuple[Path, Path]) -> None:
    path, book = asked
    before = addressing("lines", path, "--json").stdout
    first = addressing("questions", path, "--json").stdout
    told = addressing("answer", path, book, "--json")
    assert told.returncode == 0
    assert json.loads(told.stdout)["applied"] == []
    assert addressing("lines", path, "--json").stdout == before
    assert addressing("questions", path, "--json").stdout == first


def test_answers_change_the_words_and_nothing_else(
    addressing: Run, asked: tuple[Path, Path], fill: Fill
) -> None:
    path, book = asked
    untouched = outer(addressing, path, "Halvorsby")
    answers = fill(
        book,
        {
            "guest-unnamed": "Mr. Rowan Ashby",
            "title-missing:1": "Mr.",
            "title-missing:2": "Dr",
            "zip-missing": "=55802",
            "address-missing": "=22 Larkmoor Lane, Litchfield, CT 06759",
            "family-unnamed": "=Corwin and Linnet",
        },
    )
    told = json.loads(addressing("answer", path, answers, "--json").stdout)
    assert told["findings"] == []
    assert len(told["applied"]) == 6
    assert texts(outer(addressing, path, "Rowan"), "inner") == ["Ms. Grayling and Mr. Ashby"]
    assert texts(outer(addressing, path, "Odile"))[0] == (
        "Doctor Odile Penhew and Mr. Tobias Penhew"
    )
    assert texts(outer(addressing, path, "Umber"))[-1] == "Duluth, Minnesota 55802"
    assert texts(outer(addressing, path, "Ashgrove"))[1:] == [
        "22 Larkmoor Lane",
        "Litchfield, Connecticut 06759",
    ]
    assert texts(outer(addressing, path, "Sallow"), "inner")[-1] == "Corwin and Linnet"
    assert outer(addressing, path, "Halvorsby") == untouched


def test_a_changed_word_names_the_answer_that_it_comes_from(
    addressing: Run, asked: tuple[Path, Path], fill: Fill
) -> None:
    path, book = asked
    answers = fill(book, {"zip-missing": "=55802"})
    addressing("answer", path, answers)
    home = outer(addressing, path, "Umber")
    place = next(piece for piece in home["pieces"] if piece["kind"] == "outer")["lines"][-1]
    ref = next(
        row
        for row in openpyxl.load_workbook(answers)["Questions"].iter_rows(min_row=3)
        if "zip-missing" in str(row[-1].value)
    )
    cell = f"answers.xlsx!Questions!F{ref[0].row}"
    assert place["from"] == ["C4", "D4", cell]
    assert [decision["from"] for decision in answered(addressing, path)["decisions"]] == [cell]


def test_an_answered_finding_no_longer_asks_and_the_others_still_do(
    addressing: Run, asked: tuple[Path, Path], fill: Fill
) -> None:
    path, book = asked
    before = {(f["code"], f["household"]) for f in answered(addressing, path)["findings"]}
    addressing("answer", path, fill(book, {"zip-missing": "=55802", "title-missing:1": "Mr."}))
    after = {(f["code"], f["household"]) for f in answered(addressing, path)["findings"]}
    gone = {code for code, _ in before - after}
    assert gone == {"zip-missing"}  # one of two titles is still asked for
    assert after - before == set()


def test_leaving_out_takes_the_household_off_and_says_so(
    addressing: Run, write_list: Write, fill: Fill
) -> None:
    path = write_list([*ROWS[:1], ("Mr. Silas Umber", "", "", "", "")])
    addressing("questions", path)
    addressing("answer", path, fill(Path("guests-job/questions.xlsx"), {
        "address-missing": "Leave them out",
    }))  # fmt: skip
    told = answered(addressing, path)
    assert told["households"] == 1
    assert told["rows"] == told["rows_used"] + len(told["rows_not_used"]) == 2
    assert "answers.xlsx!Questions!" in told["rows_not_used"][0]["why"]


def test_two_rows_that_are_one_household_become_one(
    addressing: Run, write_list: Write, fill: Fill
) -> None:
    street = ("650 Osier Street", "Duluth", "MN", "55802")
    path = write_list(
        [("Mr. and Mrs. Eamon O'Drennan", *street), ("Mr. Eamon and Mrs. Nora ODrennan", *street)]
    )
    addressing("questions", path)
    book = Path("guests-job/questions.xlsx")
    page = openpyxl.load_workbook(book)["Questions"]
    asked = [row[-1].value for row in page.iter_rows(min_row=3) if row[-1].value]
    assert len(asked) == 1  # one question for the pair
    addressing("answer", path, fill(book, {"duplicate": "One household, use the second"}))
    told = json.loads(addressing("lines", path, "--json").stdout)
    assert [home["pieces"][1]["lines"][0]["text"] for home in told["households"]] == [
        "Mr. and Mrs. ODrennan"
    ]
    assert not any(home["held"] for home in told["households"])


def test_two_households_at_one_door_can_be_parted(
    addressing: Run, write_list: Write, fill: Fill
) -> None:
    street = ("650 Osier Street", "Duluth", "MN", "55802")
    path = write_list([
        ("Ms. Ottoline Grayling", *street), ("Mr. Silas Umber", *street),
        ("Mr. and Mrs. Tobias Penhew", "14 Larkmoor Lane", "Litchfield", "CT", "06759"),
    ])  # fmt: skip
    addressing("questions", path)
    book = Path("guests-job/questions.xlsx")
    assert answered(addressing, path)["households"] == 2
    addressing("answer", path, fill(book, {"same-door": "An envelope each"}))
    told = json.loads(addressing("lines", path, "--json").stdout)["households"]
    assert [texts(home)[0] for home in told] == [
        "Ms. Ottoline Grayling", "Mr. Silas Umber", "Mr. and Mrs. Tobias Penhew",
    ]  # fmt: skip
    assert len({home["key"] for home in told}) == 3


def test_answering_again_replaces_question_by_question(
    addressing: Run, asked: tuple[Path, Path], fill: Fill
) -> None:
    path, book = asked
    whole = book.read_bytes()
    addressing("answer", path, fill(book, {"zip-missing": "=55803", "title-missing:1": "Mr."}))
    book.write_bytes(whole)
    addressing("answer", path, fill(book, {"zip-missing": "=55802"}))
    decisions = {d["question"]: d["answer"] for d in answered(addressing, path)["decisions"]}
    assert sorted(decisions.values()) == ["55802", "Mr."]


def test_an_answer_to_other_words_than_the_list_has_is_stale(
    addressing: Run, asked: tuple[Path, Path], fill: Fill, write_list: Write
) -> None:
    path, book = asked
    answers = fill(book, {"zip-missing": "=55802", "guest-unnamed": "Mr. Rowan Ashby"})
    moved = ("Mr. Silas Umber", "9 Quarry Hill", "Duluth", "MN", "")
    write_list([*ROWS[:2], moved, *ROWS[3:]])
    told = json.loads(addressing("answer", path, answers, "--json").stdout)
    assert [found["code"] for found in told["findings"]] == ["answer-stale"]
    assert [decision["answer"] for decision in told["applied"]] == ["Mr. Rowan Ashby"]
    assert any("zip-missing" in question["question"] for question in told["open"])


def test_decisions_that_went_stale_are_told_by_check(
    addressing: Run, asked: tuple[Path, Path], fill: Fill, write_list: Write
) -> None:
    path, book = asked
    addressing("answer", path, fill(book, {"zip-missing": "=55802"}))
    write_list(ROWS[:2])
    told = answered(addressing, path)
    assert [f["code"] for f in told["findings"] if f["code"].startswith("answer")] == [
        "answer-stale"
    ]
    assert told["decisions"] == []


@pytest.mark.parametrize(
    ("part", "answer"),
    [
        ("zip-missing", "=no idea"),
        ("zip-missing", "=02134"),
        ("address-missing", "As it stands"),
        ("address-missing", "=?"),
        ("title-missing:1", "the tall one, with 2 dogs"),
        ("zip-not-in-state", "yes"),
    ],
)
def test_an_answer_that_cannot_be_taken_changes_nothing_and_is_told(
    addressing: Run, asked: tuple[Path, Path], fill: Fill, part: str, answer: str
) -> None:
    path, book = asked
    before = json.loads(addressing("lines", path, "--json").stdout)["households"]
    told = addressing("answer", path, fill(book, {part: answer}), "--json")
    assert told.returncode == 1
    assert [found["code"] for found in json.loads(told.stdout)["findings"]] == [
        "answer-not-understood"
    ]
    after = json.loads(addressing("lines", path, "--json").stdout)["households"]
    for was, now in zip(before, after, strict=True):
        assert [now[what] for what in ("people", "address")] == [was["people"], was["address"]]
        codes = [each["code"] for each in now["findings"]]
        assert [code for code in codes if code != "client-answered"] == [
            each["code"] for each in was["findings"]
        ]


def test_a_choice_and_other_words_beside_it_are_a_conflict(
    addressing: Run, asked: tuple[Path, Path], tmp_path: Path
) -> None:
    path, book = asked
    workbook = openpyxl.load_workbook(book)
    for row in workbook["Questions"].iter_rows(min_row=3):
        if "zip-missing" in str(row[-1].value):
            row[4].value, row[5].value = "Send it without", "55802"
    workbook.save(tmp_path / "both.xlsx")
    told = json.loads(addressing("answer", path, tmp_path / "both.xlsx", "--json").stdout)
    assert [found["code"] for found in told["findings"]] == ["answer-conflict"]
    assert told["applied"] == []


def test_a_row_that_was_copied_and_answered_otherwise_is_a_conflict(
    addressing: Run, asked: tuple[Path, Path], fill: Fill
) -> None:
    path, book = asked
    answers = fill(book, {"title-missing:1": "Mr."})
    workbook = openpyxl.load_workbook(answers)
    page = workbook["Questions"]
    copied = next(
        [cell.value for cell in row]
        for row in page.iter_rows(min_row=3)
        if "title-missing:1" in str(row[-1].value)
    )
    copied[4] = "Dr."
    page.append(copied)
    workbook.save(answers)
    told = json.loads(addressing("answer", path, answers, "--json").stdout)
    assert {found["code"] for found in told["findings"]} == {"answer-conflict"}
    assert told["applied"] == []


def test_rows_may_be_sorted_and_columns_moved(
    addressing: Run, asked: tuple[Path, Path], fill: Fill
) -> None:
    path, book = asked
    answers = fill(book, {"title-missing:1": "Mr.", "title-missing:2": "Mrs."})
    workbook = openpyxl.load_workbook(answers)
    page = workbook["Questions"]
    for area in list(page.merged_cells.ranges):
        page.unmerge_cells(str(area))
    rows = [[cell.value for cell in row] for row in page.iter_rows(min_row=2)]
    page.delete_rows(2, page.max_row)
    for row in (rows[0], *reversed(rows[1:])):
        page.append([*row[::-1]])
    workbook.save(answers)
    told = json.loads(addressing("answer", path, answers, "--json").stdout)
    assert sorted(decision["answer"] for decision in told["applied"]) == ["Mr.", "Mrs."]


def test_a_change_that_nobody_asked_for_can_be_written_beside_the_name(
    addressing: Run, asked: tuple[Path, Path], tmp_path: Path
) -> None:
    path, book = asked
    workbook = openpyxl.load_workbook(book)
    for row in workbook["Everyone"].iter_rows(min_row=3):
        if "Grayling" in str(row[0].value):
            row[3].value = "Ms. Ottoline Greyling"
            row[4].value = "9 Quarry Hill, Bar Harbor, ME 04609"
    workbook.save(tmp_path / "more.xlsx")
    told = json.loads(addressing("answer", path, tmp_path / "more.xlsx", "--json").stdout)
    assert told["findings"] == []
    home = outer(addressing, path, "Greyling")
    assert texts(home)[:2] == ["Ms. Ottoline Greyling", "9 Quarry Hill"]
    assert texts(home, "inner") == ["Ms. Greyling and Guest"]


def test_a_designer_may_write_answers_by_hand(
    addressing: Run, asked: tuple[Path, Path], tmp_path: Path
) -> None:
    path, _book = asked
    questions = json.loads(addressing("questions", path, "--json").stdout)["questions"]
    ref = next(q["question"] for q in questions if "zip-missing" in q["question"])
    key = next(q["household"] for q in questions if "Penhew" in q["who"])
    by_hand = tmp_path / "mine.toml"
    by_hand.write_text(
        f'[[answer]]\nquestion = "{ref}"\nanswer = "55802"\n\n'
        f'[[answer]]\nhousehold = "{key}"\nchange = "street"\nanswer = "9 Quarry Hill"\n',
        "utf-8",
    )
    told = json.loads(addressing("answer", path, by_hand, "--json").stdout)
    assert told["findings"] == []
    assert texts(outer(addressing, path, "Penhew"))[1:] == [
        "9 Quarry Hill", "Litchfield, Connecticut 06759",
    ]  # fmt: skip
    assert "mine.toml!answer[2]" in json.dumps(outer(addressing, path, "Penhew"))


def test_what_is_wrong_with_answers_by_hand_is_a_fault(
    addressing: Run, asked: tuple[Path, Path], tmp_path: Path
) -> None:
    path, _book = asked
    by_hand = tmp_path / "mine.toml"
    for text in ('[[answer]]\nanswer = "x"\n', '[[answer]]\nhousehold = "h"\nanswer = ""\n', "a"):
        by_hand.write_text(text, "utf-8")
        assert addressing("answer", path, by_hand).returncode == 3


def test_a_workbook_without_our_questions_is_a_fault(
    addressing: Run, asked: tuple[Path, Path]
) -> None:
    path, _book = asked
    told = addressing("answer", path, path, "--json")
    assert told.returncode == 3
    assert json.loads(told.stderr.splitlines()[-1])["fault"]["code"] == "answers-none"


def test_another_folder_has_decisions_of_its_own(
    addressing: Run, asked: tuple[Path, Path], fill: Fill
) -> None:
    path, book = asked
    addressing("answer", path, fill(book, {"zip-missing": "=55802"}), "--to", "other")
    assert answered(addressing, path)["decisions"] == []
    assert len(answered(addressing, path, "--to", "other")["decisions"]) == 1


def test_the_clients_own_file_and_the_answers_stay_as_they_are(
    addressing: Run, asked: tuple[Path, Path], fill: Fill
) -> None:
    path, book = asked
    answers = fill(book, {"zip-missing": "=55802"})
    before = path.read_bytes(), answers.read_bytes()
    addressing("answer", path, answers)
    addressing("plates", path)
    assert (path.read_bytes(), answers.read_bytes()) == before
    assert Path("guests-job/decisions.toml").exists()


def test_a_workbook_filled_in_where_it_lies_is_not_written_over_before_it_is_read(
    addressing: Run, asked: tuple[Path, Path], fill: Fill
) -> None:
    path, book = asked
    book.write_bytes(fill(book, {"zip-missing": "=55802"}).read_bytes())
    before = book.read_bytes()
    told = addressing("questions", path, "--json")
    assert told.returncode == 4
    assert json.loads(told.stderr.splitlines()[-1])["fault"]["code"] == "answers-unread"
    assert book.read_bytes() == before
    addressing("answer", path, book)
    assert addressing("questions", path).returncode == 0
    assert book.read_bytes() != before


def test_another_file_of_that_name_is_left_alone(addressing: Run, write_list: Write) -> None:
    path = write_list(ROWS)
    Path("guests-job").mkdir()
    Path("guests-job/questions.xlsx").write_text("mine", "utf-8")
    assert addressing("questions", path).returncode == 4
    assert Path("guests-job/questions.xlsx").read_text("utf-8") == "mine"


def test_a_sheet_that_came_back_as_text_is_read_too(
    addressing: Run, asked: tuple[Path, Path], fill: Fill, tmp_path: Path
) -> None:
    path, book = asked
    page = openpyxl.load_workbook(fill(book, {"title-missing:1": "Mr."}))["Questions"]
    with (tmp_path / "titles.csv").open("w", encoding="utf-8", newline="") as stream:
        csv.writer(stream).writerows([cell.value for cell in row] for row in page.iter_rows())
    told = json.loads(addressing("answer", path, tmp_path / "titles.csv", "--json").stdout)
    assert [decision["from"] for decision in told["applied"]] == ["titles.csv!E11"]


def test_decisions_that_cannot_be_read_stop_the_work_and_say_where(
    addressing: Run, asked: tuple[Path, Path]
) -> None:
    path, _book = asked
    Path("guests-job/decisions.toml").write_text('[[answer]]\nquestion = "h"\nanser = "x"\n')
    told = addressing("check", path)
    assert told.returncode == 3
    assert "decisions.toml" in told.stderr


def test_relaxed_wording_asks_for_no_titles(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket = tmp_path / "docket.toml"
    docket.write_text('[wording]\nstyle = "relaxed"\n', "utf-8")
    told = addressing("questions", write_list(ROWS), "--docket", docket, "--json")
    assert "title-missing" not in told.stdout


def test_a_designer_may_set_a_correction_by_the_cell_of_a_row(
    addressing: Run, asked: tuple[Path, Path]
) -> None:
    path, _book = asked
    told = addressing(
        "answer", path, "--set", "A4", "postcode", "55802", "--set", "A3", "street",
        "9 Quarry Hill", "--date", "2026-05-30", "--json",
    )  # fmt: skip
    assert [
        (each["answer"], each["from"], each["date"]) for each in json.loads(told.stdout)["applied"]
    ] == [
        ("55802", "--set!1", "2026-05-30"),
        ("9 Quarry Hill", "--set!2", "2026-05-30"),
    ]
    assert texts(outer(addressing, path, "Umber"))[-1] == "Duluth, Minnesota 55802"
    assert texts(outer(addressing, path, "Penhew"))[1] == "9 Quarry Hill"
    assert addressing("answer", path, "--set", "A4", "postcode", "55803").returncode == 0
    assert texts(outer(addressing, path, "Umber"))[-1] == "Duluth, Minnesota 55803"


@pytest.mark.parametrize(
    "options", [(), ("--set", "A99", "street", "x"), ("--set", "A4", "colour", "x")]
)
def test_a_correction_of_nobody_or_of_nothing_is_a_wrong_option(
    addressing: Run, asked: tuple[Path, Path], options: tuple[str, ...]
) -> None:
    path, _book = asked
    assert addressing("answer", path, *options).returncode == 2
    assert not Path("guests-job/decisions.toml").exists()


def test_what_the_client_writes_beside_the_questions_is_told_and_changes_nothing(
    addressing: Run, asked: tuple[Path, Path]
) -> None:
    path, book = asked
    workbook = openpyxl.load_workbook(book)
    page = workbook["Questions"]
    page.insert_cols(3)
    page["C2"].value = "My notes"
    page["C5"].value = "we will seat them together"
    page.append(["And thank you for the lovely paper!"])
    workbook.save("noted.xlsx")
    told = addressing("answer", path, "noted.xlsx", "--json")
    assert told.returncode == 0
    answer = json.loads(told.stdout)
    assert [(found["code"], found["cell"]) for found in answer["findings"]] == [
        ("answer-remark", "C5"),
        ("answer-remark", f"A{page.max_row}"),
    ]
    assert answer["applied"] == []


def test_headings_that_were_changed_are_asked_for(
    addressing: Run, asked: tuple[Path, Path], fill: Fill
) -> None:
    path, book = asked
    answers = fill(book, {"zip-missing": "=55802"})
    workbook = openpyxl.load_workbook(answers)
    for cell in workbook["Questions"][2]:
        cell.value = "Antwort" if cell.value in ("Your answer", "Or in your own words") else "x"
    workbook.save(answers)
    told = json.loads(addressing("answer", path, answers, "--json").stdout)
    assert [found["code"] for found in told["findings"]] == ["answer-not-understood"]
    assert "Your answer" in told["findings"][0]["mend"]
