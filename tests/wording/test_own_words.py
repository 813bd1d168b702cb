"""Words of the designer's own for a household: set as written, held against the list."""

from dataclasses import replace

import pytest

from addressing.job.styling import styles_for
from addressing.materials.shelf import open_shelf
from addressing.records.docket import Docket, OwnWords
from addressing.records.findings import Finding
from addressing.records.guests import Cited, GuestList, Household, Kind, Person
from addressing.where import Where
from addressing.wording import check_inners, check_words, word_list

COUPLE = Household(
    "h-aaaaaaaa",
    (
        Person("Mr.", "Tobias", "Wexcombe", nickname="Toby"),
        Person("Mrs.", "Odile", "Wexcombe", joined=True),
        Person(None, "Linnet", "Wexcombe", kind=Kind.CHILD),
    ),
)
LIST = GuestList("list.csv", "", (COUPLE,), 1)


def found(words: OwnWords) -> list[Finding]:
    return list(check_words(LIST, Docket(words=(words,), path="docket.toml")))


def lines(words: OwnWords) -> dict[str, list[str]]:
    docket = Docket(words=(words,), make=("outer", "inner"))
    pieces = word_list(LIST, docket, styles_for(docket, open_shelf(None)))
    return {piece.kind: [line.text for line in piece.wordings[0].lines] for piece in pieces}


def test_own_words_are_set_line_by_line_and_the_other_envelope_keeps_its_style() -> None:
    words = OwnWords("h-aaaaaaaa", inner=("Toby and Odile", "and Linnet"))
    assert lines(words) == {
        "outer": ["Mr. and Mrs. Tobias Wexcombe"],
        "inner": ["Toby and Odile", "and Linnet"],
    }


def test_own_words_say_where_they_come_from() -> None:
    docket = Docket(words=(OwnWords("h-aaaaaaaa", ("The Wexcombes",)),), path="docket.toml")
    piece, *_ = word_list(LIST, docket, styles_for(docket, open_shelf(None)))
    assert piece.wordings[0].lines[0].cells[0].cell == "docket:words[1].outer[1]"


@pytest.mark.parametrize(
    ("inner", "left_out"),
    [
        (("Mr. Wexcombe and Linnet",), "Odile Wexcombe"),
        (("Mr. and Mrs. Wexcombe",), "Linnet Wexcombe"),
        (("Mr. and Mrs. Wexcombe", "and Linnet"), ""),
        (("Mr. & Mrs. Tobias Wexcombe", "Linnet"), ""),
        (("Toby, Odile and Linnet",), ""),
        (("The Wexcombe Family",), ""),
        (("The Wexcombes",), ""),
    ],
)
def test_own_words_count_as_many_people_as_the_list(inner: tuple[str, ...], left_out: str) -> None:
    wrong = [each for each in found(OwnWords("h-aaaaaaaa", inner=inner)) if each.holds]
    assert bool(wrong) is bool(left_out)
    assert all(f"{left_out} would be left out." in each.text for each in wrong)


@pytest.mark.parametrize(
    ("outer", "said"),
    [
        (("Mr. and Mrs. Tobias Wexcomb",), "“Wexcomb” is not in the list."),
        (("Tobias and Odíle Wexcombe",), "“Odíle” is not in the list."),
        (("Tobias & Odile Wexcome",), "“Wexcome” is not in the list."),
        (("Mr. Tobias",), "Odile Wexcombe would be left out."),
        (("Mr. Wexcombe",), "Odile Wexcombe would be left out."),
        (("Mr. Tobias Wexcombe",), "Odile Wexcombe would be left out."),
    ],
)
def test_words_that_differ_from_the_list_hold_the_household(
    outer: tuple[str, ...], said: str
) -> None:
    (one,) = found(OwnWords("h-aaaaaaaa", outer))
    assert (one.code, one.holds, one.household) == ("words-differ", True, "h-aaaaaaaa")
    assert said in one.text
    (sure,) = found(OwnWords("h-aaaaaaaa", outer, sure=True))
    assert (sure.code, sure.holds) == ("words-by-docket", False)


@pytest.mark.parametrize(
    "outer",
    [
        ("The Wexcombes",),
        ("Doctor Odile Wexcombe", "and Mr. Toby Wexcombe"),
        ("The Wexcombe Family",),
        ("Tobias, Odile and Linnet Wexcombe",),
        ("Mr. and Mrs. Wexcombe and Guests",),
    ],
)
def test_words_that_the_list_has_are_noted_only(outer: tuple[str, ...]) -> None:
    assert [(one.code, one.holds) for one in found(OwnWords("h-aaaaaaaa", outer))] == [
        ("words-by-docket", False)
    ]


def test_a_child_left_out_of_the_inner_is_missed_and_of_the_outer_not() -> None:
    inner = found(OwnWords("h-aaaaaaaa", inner=("Tobias and Odile",)))
    assert [one.code for one in inner] == ["words-differ"]
    assert "Linnet Wexcombe would be left out." in inner[0].text
    outer = found(OwnWords("h-aaaaaaaa", outer=("Tobias and Odile",)))
    assert [one.code for one in outer] == ["words-by-docket"]


def test_words_for_a_household_that_isn_t_there_are_told() -> None:
    (one,) = found(OwnWords("h-zzzzzzzz", ("The Wexcombes",)))
    assert (one.code, one.holds, one.household) == ("words-unused", False, None)
    assert one.where.cell == "docket:words[1]"


def listed(text: str, *children: str) -> Household:
    """A household whose inner envelope the list words, with children."""
    kids = tuple(Person(None, name, "Wexcombe", kind=Kind.CHILD) for name in children)
    inner = Cited(text, (Where("list.csv", None, "B2"),))
    return replace(COUPLE, people=(*COUPLE.people[:2], *kids), inner=inner)


def inner_of(home: Household, *words: OwnWords) -> tuple[list[str], list[tuple[str, bool]]]:
    docket = Docket(words=words, make=("outer", "inner"))
    guests = GuestList("list.csv", "", (home,), 1)
    pieces = word_list(guests, docket, styles_for(docket, open_shelf(None)))
    found = [(each.code, each.holds) for each in check_inners(guests, docket)]
    return [line.text for line in pieces[1].wordings[0].lines], found


def test_the_lists_own_words_stand_on_the_inner_as_they_are() -> None:
    lines, found = inner_of(listed("Uncle Toby  &\nAunt Odile"))
    assert lines == ["Uncle Toby &", "Aunt Odile"]
    assert found == [("inner-listed", False)]


def test_children_stand_below_words_that_name_none_of_them() -> None:
    lines, found = inner_of(listed("Uncle Toby and Aunt Odile", "Linnet", "Jonah"))
    assert lines == ["Uncle Toby and Aunt Odile", "Linnet and Jonah"]
    assert found == [("inner-listed", False)]


def test_a_child_whom_the_lists_own_words_leave_out_is_asked_about() -> None:
    lines, found = inner_of(listed("Toby, Odile and Linnet", "Linnet", "Jonah"))
    assert lines == ["Toby, Odile and Linnet"]
    assert found == [("inner-differs", True)]


def test_the_dockets_words_go_before_the_lists() -> None:
    own = OwnWords("h-aaaaaaaa", inner=("Toby and Odile", "and Linnet"))
    lines, found = inner_of(listed("Uncle Toby", "Linnet"), own)
    assert (lines, found) == (["Toby and Odile", "and Linnet"], [])
