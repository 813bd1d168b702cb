"""Two versions of a list, compared by household."""

import json
from collections.abc import Callable, Sequence
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

Run = Callable[..., CompletedProcess[str]]
Write = Callable[..., Path]

OLD = (
    ("Mr. and Mrs. Tobias Penhew", "14 Larkmoor Lane", "Litchfield", "CT", "06759"),
    ("Ms. Ottoline Grayling", "431 Weathervane Drive", "Bar Harbor", "ME", "04609"),
    ("Dr. Ingrid Halvorsby", "1440 Birchbark Trail", "Duluth", "MN", "55802"),
    ("Mr. Silas Umber", "3 Osier Row", "Litchfield", "CT", "06759"),
    ("Ms. Linnet Ashgrove", "9 Quarry Hill", "Duluth", "MN", "55802"),
    ("Mr. Hugo Sallow and Ms. Clementine Sallow", "7 Osier Row", "Litchfield", "CT", "06759"),
)


def compared(run: Run, write: Write, new: Sequence[tuple[str, ...]]) -> dict[str, list[Any]]:
    """Name → [changes, unsure]; the new name, or the old one of who left."""
    old = write(OLD, name="old.csv")
    told = json.loads(run("compare", old, write(new, name="new.csv"), "--json").stdout)
    return {
        (each["new"] or each["old"])["name"]: [each["changes"], each["unsure"]]
        for each in told["households"]
    }


def test_a_list_and_itself_in_another_order_are_unchanged(
    addressing: Run, write_list: Write
) -> None:
    found = compared(addressing, write_list, list(OLD[::-1]))
    assert len(found) == len(OLD)
    assert {json.dumps(each) for each in found.values()} == {'[["unchanged"], null]'}


def test_each_change_is_called_by_its_name(addressing: Run, write_list: Write) -> None:
    new = [
        ("Mr. and Mrs. Tobias Penhewe", *OLD[0][1:]),  # another spelling
        ("Ms. Ottoline Grayling", "22 Larkmoor Lane", "Litchfield", "CT", "06759"),  # moved
        ("Dr. Ingrid Halvorsby and Guest", *OLD[2][1:]),  # comes with someone
        ("Ms. Linnet Ashgrove", *OLD[4][1:]),
        ("Ms. Rowan Ashby", "8 Osier Row", "Litchfield", "CT", "06759"),  # new
        OLD[5],
    ]
    assert compared(addressing, write_list, new) == {
        "Tobias Penhewe": [["respelled"], None],
        "Ottoline Grayling": [["moved"], None],
        "Ingrid Halvorsby": [["company"], None],
        "Linnet Ashgrove": [["unchanged"], None],
        "Rowan Ashby": [["came"], None],
        "Hugo Sallow": [["unchanged"], None],
        "Silas Umber": [["left"], None],
    }


def test_a_title_alone_is_another_spelling(addressing: Run, write_list: Write) -> None:
    new = [*OLD[:3], ("Dr. Silas Umber", *OLD[3][1:]), *OLD[4:]]
    assert compared(addressing, write_list, new)["Silas Umber"] == [["respelled"], None]


def test_a_corrected_zip_is_an_address_changed_and_the_household_is_known(
    addressing: Run, write_list: Write
) -> None:
    new = [*OLD[:2], ("Dr. Ingrid Halvorsby", "1440 Birchbark Trail", "Duluth", "MN", "55803")]
    found = compared(addressing, write_list, [*new, *OLD[3:]])
    assert found["Ingrid Halvorsby"] == [["moved"], None]
    assert len(found) == len(OLD)


def test_who_is_recognised_by_a_first_name_and_family_elsewhere_is_told_as_unsure(
    addressing: Run, write_list: Write
) -> None:
    new = [*OLD[:5], ("Ms. Clementine Sallow", "22 Larkmoor Lane", "Litchfield", "CT", "06759")]
    changes, unsure = compared(addressing, write_list, new)["Clementine Sallow"]
    assert changes == ["moved", "company"]
    assert unsure


def test_strangers_who_move_in_are_not_taken_for_those_before(
    addressing: Run, write_list: Write
) -> None:
    new = [*OLD[:3], ("Ms. Beatrix Hollowell", *OLD[3][1:]), *OLD[4:]]
    found = compared(addressing, write_list, new)
    assert found["Beatrix Hollowell"] == [["came"], None]
    assert found["Silas Umber"] == [["left"], None]


def test_the_answer_in_words_names_both_places(addressing: Run, write_list: Write) -> None:
    old = write_list(OLD, name="old.csv")
    new = write_list([("Mr. and Mrs. Tobias Penhewe", *OLD[0][1:]), *OLD[1:5]], name="new.csv")
    said = addressing("compare", old, new).stdout
    assert "Tobias Penhewe (A2), was Tobias Penhew (A2)" in said
    assert "No longer listed (1)" in said
    assert "4 unchanged." in said


def test_one_household_of_two_and_two_of_one_are_told(addressing: Run, write_list: Write) -> None:
    old = [
        ("Mr. Hugo Sallow", *OLD[0][1:]),
        ("Ms. Maud Elver", "8 Osier Row", "Litchfield", "CT", "06759"),
        ("Mr. Silas Quill and Ms. Linnet Quill", *OLD[1][1:]),
    ]
    new = [
        ("Mr. Hugo Sallow and Ms. Maud Elver", *OLD[0][1:]),
        ("Mr. Silas Quill", *OLD[1][1:]),
        ("Ms. Linnet Quill", "9 Osier Row", "Litchfield", "CT", "06759"),
    ]
    paths = write_list(old, name="old.csv"), write_list(new, name="new.csv")
    told = json.loads(addressing("compare", *paths, "--json").stdout)
    assert told["counts"]["merged"] == told["counts"]["split"] == 1
    by_name = {(each["new"] or each["old"])["name"]: each for each in told["households"]}
    assert by_name["Hugo Sallow"]["changes"] == ["company", "merged"]
    assert [home["name"] for home in by_name["Hugo Sallow"]["others"]] == ["Maud Elver"]
    assert by_name["Silas Quill"]["changes"] == ["company", "split"]
    assert by_name["Linnet Quill"]["changes"] == ["came"]
    assert by_name["Maud Elver"]["changes"] == ["left"]


def test_what_changed_is_told_in_words(addressing: Run, write_list: Write) -> None:
    old = [("Ms. Ada Sallow and Guest", *OLD[0][1:]), ("The Penhew Family", *OLD[1][1:])]
    new = [
        ("Ms. Ada Sallow and Mr. Otto Brandt", "22 Larkmoor Lane", "Litchfield", "CT", "06759"),
        ("Mr. and Mrs. Hugo Penhew", *OLD[1][1:]),
    ]
    paths = write_list(old, name="old.csv"), write_list(new, name="new.csv")
    ada, penhew = json.loads(addressing("compare", *paths, "--json").stdout)["households"]
    street = OLD[0][1]
    assert f"address was {street}, " in ada["what"][0]
    assert ada["what"][1] == "a guest is Mr. Otto Brandt now"
    assert penhew["changes"] == ["respelled"]
    assert penhew["what"] == ["The Penhew Family is Mr. Hugo Penhew and Mrs. Penhew now"]


def test_decisions_that_hold_are_counted_and_the_others_say_why(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    old = [
        ("Ada Sallow", *OLD[0][1:]),
        ("Otto Brandt", *OLD[1][1:]),
        ("Hugo Penhew Sr.", *OLD[2][1:]),
    ]
    path = write_list(old, name="old.csv")
    asked = json.loads(addressing("questions", path, "--json").stdout)["questions"]
    titles = [each for each in asked if "title-missing" in each["codes"]]
    answers = "".join(
        f'[[answer]]\nquestion = "{each["question"]}"\nanswer = "Dr."\n' for each in titles
    )
    (tmp_path / "answers.toml").write_text(answers)
    addressing("answer", path, "answers.toml")
    new = [
        ("Ada Sallow and Guest", "22 Larkmoor Lane", "Litchfield", "CT", "06759"),
        ("Hugo Penhew Jr.", *OLD[2][1:]),
    ]
    paths = path, write_list(new, name="new.csv")
    told = json.loads(addressing("compare", *paths, "--json").stdout)
    assert [each["answer"] for each in told["decisions"]] == ["Dr."]
    texts = {found["text"] for found in told["findings"]}
    assert {found["code"] for found in told["findings"]} == {"answer-stale"}
    assert any("Otto Brandt, no longer on the list" in text for text in texts)
    assert any("It isn't certain that Hugo Penhew Jr." in text for text in texts)
    said = addressing("compare", *paths).stdout
    assert "1 decision still applies (old-job)." in said
    assert "Perhaps the same household (1)" in said
    after = json.loads(addressing("check", paths[1], "--to", "old-job", "--json").stdout)
    assert len(after["decisions"]) == 1


def test_a_household_that_may_be_one_of_before_is_told_by_check_with_both_names(
    addressing: Run, write_list: Write
) -> None:
    path = write_list(OLD)
    assert addressing("plates", path).returncode in (0, 1)
    write_list([("Mr. Silas Farrenby", *OLD[3][1:]) if row == OLD[3] else row for row in OLD])
    told = json.loads(addressing("check", path, "--json").stdout)["findings"]
    (found,) = [each for each in told if each["code"] == "household-likely"]
    assert "Silas Farrenby may be Silas Umber of the list before" in found["text"]
    assert (found["cell"], found["holds"]) == ("A5", False)
    assert addressing("questions", path).returncode == 0
    assert "Silas Farrenby may be Silas Umber" in addressing("check", path).stdout, "told still"
    write_list([("Mr. Silas Farrenby", *OLD[3][1:]), *OLD])
    assert "may be" not in addressing("check", path).stdout, "he has come back"


def test_a_decision_about_one_who_was_renamed_says_so_whenever_the_list_is_read(
    addressing: Run, write_list: Write
) -> None:
    path = write_list(OLD)
    assert addressing("answer", path, "--set", "A5", "names", "Dr. Silas Umber").returncode == 0
    write_list([("Mr. Theo Umber", *OLD[3][1:]) if row == OLD[3] else row for row in OLD])
    for _ in range(2):
        said = addressing("plates", path).stdout
        assert "“Dr. Silas Umber” was said of Silas Umber." in said
        assert "It isn't certain that Theo Umber is the same household." in said
