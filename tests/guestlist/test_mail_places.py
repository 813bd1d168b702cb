"""Towns that a mail gives to all below a sentence, or leaves to another's address; names twice.

The ways to write are common practice, no source; all names are invented.
"""

from pathlib import Path

import pytest

from addressing.guestlist import read_list
from addressing.records.findings import Finding
from addressing.records.guests import Household
from addressing.tables import table


def rows_of(kind: str) -> list[dict[str, str]]:
    found = [row for row in table("prose_words") if row["kind"] == kind]
    assert found
    return found


def of_mail(folder: Path, said: str) -> tuple[tuple[Household, ...], tuple[Finding, ...]]:
    path = folder / "mail.txt"
    path.write_text(f"Hi Odile,\n\n{said}\n\nThanks,\nRosa\n", encoding="utf-8")
    guest_list, findings = read_list(path, {})
    return guest_list.households, findings


def at(home: Household) -> str:
    address = home.address
    parts = (address.street, address.city, address.postcode) if address else ()
    return ", ".join(part.text for part in parts if part is not None)


@pytest.mark.parametrize(
    "said",
    [
        "And here is church. They are ALL Bath, Maine 04530.",
        "These are all Bath, ME 04530:",
        "All of the next ones are in Bath, Maine 04530.",
    ],
)
def test_a_town_said_of_all_is_that_of_each_street_below(tmp_path: Path, said: str) -> None:
    homes, _ = of_mail(
        tmp_path,
        f"{said}\n\n1) Mr. Kit Orr, 27 Orchard Terrace\n2) Mr. and Mrs. Sam Hale, 5 Mill Hill, "
        "Unit 14\n3) Ms. Ida Lorne, 9 Elm St, Augusta, ME 04330",
    )
    assert [at(home) for home in homes] == [
        "27 Orchard Terrace, Bath, 04530",
        "5 Mill Hill, Bath, 04530",
        "9 Elm St, Augusta, 04330",
    ]


@pytest.mark.parametrize(
    "said", ["Nearly all are Bath, Maine 04530.", "Not all are Bath, ME 04530."]
)
def test_a_town_with_a_hedge_is_given_to_nobody(tmp_path: Path, said: str) -> None:
    homes, findings = of_mail(
        tmp_path, f"{said}\n\n1) Mr. Kit Orr, 27 Elm St\n2) Ms. Ida Hale, 9 Elm St"
    )
    assert [at(home) for home in homes] == ["27 Elm St", "9 Elm St"]
    assert {found.household for found in findings if found.code == "address-incomplete"} == {
        home.key for home in homes
    }


def test_a_town_said_of_all_ends_with_the_next_heading(tmp_path: Path) -> None:
    homes, _ = of_mail(
        tmp_path,
        "They are all Bath, Maine 04530.\n\n1) Mr. Kit Orr, 27 Elm St\n2) Mr. Sam Hale, 5 Elm St\n"
        "\nOthers:\nMs. Ida Lorne, 9 Mill Row\nMs. Wren Pine, 4 Mill Row",
    )
    assert [at(home) for home in homes[2:]] == ["9 Mill Row", "4 Mill Row"]


@pytest.mark.parametrize("row", rows_of("same-code"), ids=lambda row: row["word"])
def test_the_same_zip_is_that_of_the_others_in_the_town(
    tmp_path: Path, row: dict[str, str]
) -> None:
    for key, wanted in (("example", "7 Oak St, Bath, 04530"), ("counter", "7 Oak St, Bath")):
        homes, findings = of_mail(
            tmp_path,
            "Mr. Kit Orr, 27 Elm St, Bath, Maine 04530\n\n"
            f"My aunt never married, she is Miss Ida Hale, and {row[key]}.",
        )
        assert [at(home) for home in homes] == ["27 Elm St, Bath, 04530", wanted]
        assert any(found.household == homes[1].key and found.holds for found in findings)


def test_the_same_zip_is_left_open_where_the_town_has_two(tmp_path: Path) -> None:
    homes, _ = of_mail(
        tmp_path,
        "Mr. Kit Orr, 27 Elm St, Bath, Maine 04530\nMr. Sam Orr, 29 Elm St, Bath, Maine 04531\n\n"
        "My aunt never married, she is Miss Ida Hale, and it is 7 Oak St, Bath, same zip.",
    )
    assert at(homes[2]) == "7 Oak St, Bath"


@pytest.mark.parametrize("row", rows_of("same-street"), ids=lambda row: row["word"])
def test_the_same_street_is_that_of_who_is_named(tmp_path: Path, row: dict[str, str]) -> None:
    for key, wanted in (("example", "31 Elm St, Bath, 04530"), ("counter", "")):
        homes, _ = of_mail(
            tmp_path,
            "Mr. Kit Orr, 27 Elm St, Bath, Maine 04530\n\n"
            f"Please invite Mrs. Ida Hale, {row[key]}.",
        )
        assert [at(home) for home in homes] == ["27 Elm St, Bath, 04530", wanted]


@pytest.mark.parametrize(
    "said",
    [
        "So it wants to be Captain and Mrs. Kit Orr now, same house.",
        "1. Kit Orr -- NO. I have crossed him out.\n2. Ms. Ada Lorne, 5 Elm St, Bath, ME 04530",
    ],
)
def test_names_that_stand_elsewhere_with_an_address_are_a_remark(tmp_path: Path, said: str) -> None:
    homes, findings = of_mail(tmp_path, f"{said}\n\nCapt. Kit Orr, 27 Elm St, Bath, Maine 04530")
    kit = [home for home in homes if home.name == "Kit Orr"]
    assert len(kit) == 1
    asked = [found for found in findings if found.household == kit[0].key and found.holds]
    assert [found.code for found in asked] == ["said-elsewhere"]


def test_a_bare_name_may_be_another_of_that_name(tmp_path: Path) -> None:
    homes, _ = of_mail(
        tmp_path,
        "Mr. Kit Orr, 27 Elm St, Bath, Maine 04530\nMs. Ida Hale, 9 Elm St, Bath, ME 04530\n"
        "Mr. Kit Orr",
    )
    assert [home.name for home in homes] == ["Kit Orr", "Ida Hale", "Kit Orr"]
