"""What stands beside the names of a mail's line: leads, remarks, and sentences that are no names.

The ways to write are common practice, no source; all names are invented.
"""

from pathlib import Path

import pytest

from addressing.guestlist import read_list
from addressing.guestlist.files.entries import entry_of
from addressing.guestlist.files.mail_lines import is_name
from addressing.guestlist.files.name_lines import without_lead, without_remark
from addressing.tables import table

ROWS = list(table("prose_words"))
HOME = "9 Elm St, Bath ME 04530"


def rows_of(kind: str) -> list[dict[str, str]]:
    found = [row for row in ROWS if row["kind"] == kind]
    assert found
    return found


@pytest.mark.parametrize("row", rows_of("adds"), ids=lambda row: row["word"])
def test_a_word_that_adds_is_none_of_the_names(row: dict[str, str]) -> None:
    assert without_lead(row["example"])[0] == "Miss Odile Penhew"
    assert without_lead(row["counter"])[0] == row["counter"]


@pytest.mark.parametrize("row", rows_of("remark"), ids=lambda row: row["word"])
def test_a_remark_behind_names_is_none_of_them(row: dict[str, str]) -> None:
    assert without_remark(row["example"])[0] == "Odile Penhew"
    assert without_remark(row["counter"]) == (row["counter"], "")


@pytest.mark.parametrize(
    ("text", "names", "lead"),
    [
        ("and his son, Mr. Kit Penhew", "Mr. Kit Penhew", "his son"),
        ("my old godmother, Miss Odile Penhew", "Miss Odile Penhew", "my old godmother"),
        ("P.P.P.S. Add Miss Odile Penhew", "Miss Odile Penhew", ""),
        ("PS. also: Kit Penhew", "Kit Penhew", ""),
        ("P.S. 2: Kit Penhew", "Kit Penhew", ""),
        ("PS 2 Elm St", "2 Elm St", ""),
        ("my florist, Mrs. Odile Penhew", "my florist, Mrs. Odile Penhew", ""),
        ("his ex, Mrs. Odile Penhew", "his ex, Mrs. Odile Penhew", ""),
        ("de la Cruz, Kit", "de la Cruz, Kit", ""),
        ("kit penhew", "kit penhew", ""),
    ],
)
def test_a_lead_says_who_they_are_to_the_writer(text: str, names: str, lead: str) -> None:
    assert without_lead(text) == (names, lead)


@pytest.mark.parametrize(
    ("text", "remark"),
    [
        ("Kit and Wren Penhew, lovely couple", "lovely couple"),
        ("Kit and Wren Penhew, lovely couple, they moved here in 2009",
         "lovely couple, they moved here in 2009"),
        ("Sister Wren Penhew, O.S.B., my aunt", "my aunt"),
        ("Kit Penhew, widower", "widower"),
        ("Kit Penhew, his wife Wren", ""),
        ("Kit Penhew, his wife", ""),
        ("Kit Penhew, and guest", ""),
        ("Kit Penhew, plus one", ""),
        ("Kit Penhew, with children", ""),
        ("Kit Penhew, with the kids", ""),
        ("Kit Penhew, née Orr", ""),
        ("Penhew, Kit", ""),
        ("Cruz, de la", ""),
        ("Kit Penhew, jr.", ""),
        ("Kit, rosa and wren penhew", ""),
        ("Kit Penhew, married to Wren Orr", ""),
        ("Kit Penhew, his daughter Wren", ""),
        ("Kit Penhew (his boss, a bore)", ""),
        ("Kit Penhew, the old cottage", ""),
        ("Kit Penhew, the larkmoor building", ""),
        ("kit penhew, rosewood", ""),
        ("Kit Penhew, at Larkmoor", ""),
    ],
)  # fmt: skip
def test_a_remark_brings_nobody(text: str, remark: str) -> None:
    names, said = without_remark(text)
    assert said == remark
    assert bool(said) != (names == text)


@pytest.mark.parametrize(
    "text",
    [
        "The Penhews downsized",
        "Penhews sold the place",
        "Kit Penhew lost Wren in May!! Just him",
        "Kit? Tobias? and Wren",
        "That makes the list. Not counting Kit and Wren,",
    ],
)
def test_what_somebody_did_is_no_name(text: str) -> None:
    assert not is_name(text)
    assert entry_of(f"{text}, {HOME}") is None


@pytest.mark.parametrize(
    "text",
    ["Capt. Kit Penhew", "Thos. Penhew", "Mr. Kit Penhew, Jr. and Wren", "Kit and beloved Wren"],
)
def test_a_point_or_an_ending_of_a_name_makes_it_no_sentence(text: str) -> None:
    assert is_name(text)


MAIL = f"""Hi Odile,

here are ours:

Cyrus Penhew, 2330 Bluff Loop, Bath ME 04530
Mr. Augustus Orr, 44 Court St, Bath ME 04530
Major Rosa Lorne and Captain Kit Lorne, both Air Force
{HOME}

Love, Bea

> 1) Penhews sold the place, 15 Creek Ln since last June, same town.
> 2) Gus Orr lost Eleanor in May!! Just him, Mr. Augustus Orr.
> 3) you forgot Mr. and Mrs. Ned Hale, 7 Oak St, Bath, ME
>    04530
"""


def test_a_correction_holds_whom_it_names_and_makes_no_household(tmp_path: Path) -> None:
    path = tmp_path / "mail.txt"
    path.write_text(MAIL, encoding="utf-8")
    guest_list, findings = read_list(path, {})
    names = {home.key: home.name for home in guest_list.households}
    assert list(names.values()) == ["Cyrus Penhew", "Augustus Orr", "Rosa Lorne", "Ned Hale"]
    held = {names[each.household] for each in findings if each.holds and each.household}
    assert held == {"Cyrus Penhew", "Augustus Orr"}
    told = " ".join(each.text for each in findings if each.code == "said-elsewhere")
    assert "15 Creek Ln since last June" in told
    assert "lost Eleanor in May" in told
    lorne = guest_list.households[2]
    assert [person.family for person in lorne.people] == ["Lorne", "Lorne"]
