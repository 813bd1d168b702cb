"""What the writer calls somebody beside the name for the envelope is no line of it."""

from collections.abc import Callable

import pytest

from addressing.guestlist.files.called_above import called, is_call, without_call
from addressing.guestlist.files.entries import entry_of
from addressing.guestlist.files.mail_lines import Line
from addressing.records.findings import Finding
from addressing.records.guests import GuestList
from addressing.tables import table

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
OTHER = ("Mr. Tobias Wexcombe", "14 Elm St, Bath ME 04530")


@pytest.mark.parametrize(
    ("call", "names"),
    [
        ("Aunt Lou", "Louise Penhew"),
        ("Jess & Marco", "Jessica Penhew and Marco Orr"),
        ("Mom and Bill", "Patty and Bill Penhew"),
        ("My boss", "Ada Penhew"),
        ("Mrs. B from church", "Ada Bell"),
        ("Hot neighbor Kit lol", "Kit Penhew"),
        ("Mel & Mel", "Melissa Penhew and Melanie Orr"),
        ("Aunt Dot", "Mrs. Dorothy Penhew"),
    ],
)
def test_a_name_behind_what_somebody_is_called_is_that_person(call: str, names: str) -> None:
    assert is_call(call, names)


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("Kit Penhew", "Ada Orr"),
        ("Kit Penhew", "Kit Orr"),
        ("Kit", "Penhew Farm"),
        ("Kit and Ada", "Louise Penhew"),
        ("Aunt Lou", "Ada Penhew"),
        ("The Penhews", "Kit and Ada Penhew"),
        ("Kit", "Kit's mother said no"),
    ],
)
def test_two_people_or_a_house_stay_beside_each_other(first: str, second: str) -> None:
    assert not is_call(first, second)


def test_the_line_above_is_kept_as_a_remark() -> None:
    lines = [Line(1, "Aunt Lou"), Line(2, "Louise Penhew"), Line(3, "9 Elm St")]
    assert without_call(lines) == (lines[1:], lines[:1])


def test_brackets_behind_other_people_stay() -> None:
    assert called("Kit Penhew (Ada Orr)") == ("Kit Penhew (Ada Orr)", "")


def test_an_entry_has_the_name_and_keeps_the_call() -> None:
    entry = entry_of("Mom & Dad (Kit and Ada Penhew), 9 Elm St, Bath ME 04530")
    assert entry is not None
    assert (entry.name, entry.note) == ("Kit and Ada Penhew", "Mom & Dad")


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("Great-uncle Morty - Mortimer Penhew", "Mortimer Penhew"),
        ("Your Aunt Bev, that's Beverly Penhew", "Beverly Penhew"),
        ("The Penhews: Kit & Ada Penhew", "Kit & Ada Penhew"),
        ("The Penhew Family - Kit and Ada Penhew", "Kit and Ada Penhew"),
    ],
)
def test_names_behind_a_dash_or_colon_are_those_who_are_called_so(text: str, names: str) -> None:
    assert called(text)[0] == names


@pytest.mark.parametrize(
    "text",
    ["Kit Penhew - Ada Orr", "The Penhews: Kit & Ada", "The Penhews: Kit Orr", "Kit - no plus one"],
)
def test_others_behind_a_dash_or_colon_stay(text: str) -> None:
    assert called(text) == (text, "")


@pytest.mark.parametrize(
    ("line", "names", "note"),
    [
        ("aunt carol - mrs carol orr - 9 Elm St, Bath ME 04530", "mrs carol orr", "aunt carol"),
        ("the orrs - kit & ada orr - 9 Elm St, Bath ME 04530", "kit & ada orr", "the orrs"),
        ("The Canadians - Ted and Bev Orr - 9 Elm St, Bath ME 04530", "Ted and Bev Orr",
         "The Canadians"),
    ],
)  # fmt: skip
def test_a_line_with_the_call_before_a_dash_has_the_name_behind_it(
    line: str, names: str, note: str
) -> None:
    entry = entry_of(line)
    assert entry is not None
    assert (entry.name, entry.note) == (names, note)


@pytest.mark.parametrize(
    "row", [row for row in table("prose_words") if row["kind"] == "called-the"],
    ids=lambda row: row["word"],
)  # fmt: skip
def test_a_word_for_several_behind_the_is_what_they_are_called(row: dict[str, str]) -> None:
    assert called(row["example"]) == ("Ted and Bev Orr", row["example"].partition(" - ")[0])
    assert called(row["counter"]) == (row["counter"], "")


@pytest.mark.parametrize(
    ("cell", "people", "remark"),
    [
        ("Mom & Dad (Kit and Ada Penhew)", "Kit Penhew, Ada Penhew", "Mom & Dad"),
        ("Peg = Margaret Penhew", "Margaret Penhew", "Peg"),
        ("Grandma: Odile Penhew", "Odile Penhew", "Grandma"),
        ("The neighbors - Ted and Ada Orr", "Ted Orr, Ada Orr", "The neighbors"),
        ("Bob (Robert Orr)", "Robert Orr", "Bob"),
        ("Kit Penhew (Ada Orr)", "Kit Penhew", "Ada Orr"),
        ("Papaw and Nana - Bill & Faye Orr", "Bill Orr, Faye Orr", "Papaw and Nana"),
    ],
)
def test_a_cell_that_names_somebody_in_full_behind_the_call_is_that_person(
    read_rows: Read, cell: str, people: str, remark: str
) -> None:
    rows = [("Name", "Address"), (cell, "9 Elm St, Bath ME 04530"), OTHER]
    guest_list, findings = read_rows(rows)
    home = guest_list.households[0]
    assert ", ".join(f"{p.given} {p.family}" for p in home.people) == people
    assert [f.quoted for f in findings if f.code == "remark" and f.household == home.key] == [
        remark
    ]
    held = [f.code for f in findings if f.holds and f.household == home.key]
    assert held == []


def test_who_is_named_behind_the_name_of_a_family_is_asked_about(read_rows: Read) -> None:
    rows = [("Name", "Address"), ("The Willows - Ted Orr", "9 Elm St, Bath ME 04530"), OTHER]
    assert "name-doubtful" in {f.code for f in read_rows(rows)[1] if f.holds}


@pytest.mark.parametrize("call", ["Pops and Nana", "Pop and Lolly"])
def test_two_whose_calls_nobody_knows_are_asked_about_before_their_names(
    read_rows: Read, call: str
) -> None:
    rows = [("Name", "Address"), (f"{call} - Bill & Faye Orr", "9 Elm St, Bath ME 04530"), OTHER]
    assert "name-doubtful" in {f.code for f in read_rows(rows)[1] if f.holds}
