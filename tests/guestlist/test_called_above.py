"""What the writer calls somebody beside the name for the envelope is no line of it."""

import pytest

from addressing.guestlist.files.called_above import called, is_call, without_call
from addressing.guestlist.files.entries import entry_of
from addressing.guestlist.files.mail_lines import Line


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
