"""What stands right below a household's address in a mail is said of that household."""

from collections.abc import Callable
from pathlib import Path

import pytest

from addressing.guestlist import read_list
from addressing.records.findings import Finding

GREETING = "Hello, our addresses are below.\n\n"
FIRST = "Mr. and Mrs. Corwin Ruddock\n14 Larkmoor Lane\nLitchfield, CT 06759\n"
SECOND = "\nMs. Ottoline Grayling\n9 Mill Row\nBar Harbor, ME 04609\n"


@pytest.fixture
def asked(tmp_path: Path) -> Callable[[str], tuple[list[str], list[Finding]]]:
    """The households of a mail by name, and what is found of them."""

    def read(text: str) -> tuple[list[str], list[Finding]]:
        path = tmp_path / "mail.txt"
        path.write_text(text, "utf-8")
        guest_list, findings = read_list(path, {})
        assert "them" not in f"{[home.address for home in guest_list.households]}"
        names = [home.name for home in guest_list.households]
        return names, [found for found in findings if found.household]

    return read


@pytest.mark.parametrize(
    "said",
    [
        "- please check with Odile before you do this one, I'm not sure they're still on the list",
        "- ask my mother first",
        "* don't send yet",
        "don't send yet",
        "Maybe",
        "MAYBE",
        "?",
        "there are 3 of them now",
        "+ Zora and Ike",
        "skip if there's no room",
    ],
)
def test_what_stands_below_an_address_holds_its_household_and_no_other(
    asked: Callable[[str], tuple[list[str], list[Finding]]], said: str
) -> None:
    homes, found = asked(f"{GREETING}{FIRST}{said}\n{SECOND}")
    assert homes == ["Corwin Ruddock", "Ottoline Grayling"]
    held = {each.household for each in found if each.holds}
    assert len(held) == 1
    assert all(said[2:] in each.quoted for each in found if each.holds and len(said) > len("?"))
    assert not asked(f"{GREETING}{FIRST}{SECOND}")[1]


@pytest.mark.parametrize("said", ["+ guest", "and guest", "plus one"])
def test_a_companion_below_an_address_or_names_comes_along(
    asked: Callable[[str], tuple[list[str], list[Finding]]], said: str
) -> None:
    below = asked(f"{GREETING}{FIRST}{SECOND}{said}\n")
    codes = [each.code for each in below[1]]
    assert "guest-unnamed" in codes or "guest-noted" in codes
    between = SECOND.replace("9 Mill", f"{said}\n9 Mill")
    if said != "plus one":
        assert "guest-unnamed" in [each.code for each in asked(f"{GREETING}{FIRST}{between}")[1]]


@pytest.mark.parametrize("last", ["USA", "Apt. 4", "United States"])
def test_what_may_follow_an_address_is_no_remark(
    asked: Callable[[str], tuple[list[str], list[Finding]]], last: str
) -> None:
    assert not [each for each in asked(f"{GREETING}{FIRST}{last}\n{SECOND}")[1] if each.quoted]


def test_bullets_below_a_heading_are_households_of_their_own(
    asked: Callable[[str], tuple[list[str], list[Finding]]],
) -> None:
    text = f"{GREETING}{FIRST}\nNeighbors:\n+ Mr. Leo Orr, 3 Elm St, Bath, ME 04530\n"
    homes, found = asked(f"{text}+ Ms. Ada Bell, 5 Elm St, Bath, ME 04530\n")
    assert homes == ["Corwin Ruddock", "Leo Orr", "Ada Bell"]
    assert not found


def test_the_parents_of_somebody_are_the_one_family_of_that_name(
    asked: Callable[[str], tuple[list[str], list[Finding]]],
) -> None:
    said = "same address as her parents, but she's 22 so please give her her own"
    homes, found = asked(f"{GREETING}{FIRST}{SECOND}\nMiss Ada Ruddock\n{said}\n")
    assert homes == ["Corwin Ruddock", "Ottoline Grayling", "Ada Ruddock"]
    assert [each.quoted for each in found if each.holds] == [said]
    assert "address-as-above" in [each.code for each in found]
    homes, found = asked(f"{GREETING}{FIRST}{SECOND}\nMiss Ada Bell\n{said}\n")
    assert "address-missing" in [each.code for each in found]


def test_brackets_below_a_household_speak_of_it_alone(
    asked: Callable[[str], tuple[list[str], list[Finding]]],
) -> None:
    other = "\nCol. and Mrs. Raymond Orr\n3 Elm St\nBath, ME 04530\n"
    said = "(Ray passed away last year so it's just her)"
    _, found = asked(f"{GREETING}{FIRST}{SECOND}{said}\n{other}")
    assert len({each.household for each in found if each.holds}) == 1
    _, found = asked(f"{GREETING}{FIRST}{SECOND}(the Orrs have moved too)\n{other}")
    assert "said-elsewhere" in [each.code for each in found]


@pytest.mark.parametrize(
    ("line", "name"),
    [
        ("Aunt Tilly - Mrs. Matilda Orr", "Matilda Orr"),
        ("Uncle Bert – Mr. Albert Orr", "Albert Orr"),
        ("Grandma - Mrs. Rose Orr", "Rose Orr"),
    ],
)
def test_a_word_of_kinship_before_a_dash_leads_to_the_name_for_the_envelope(
    asked: Callable[[str], tuple[list[str], list[Finding]]], line: str, name: str
) -> None:
    homes, found = asked(f"{GREETING}{FIRST}{SECOND}\n{line}\n3 Elm St\nBath, ME 04530\n")
    assert homes[-1] == name
    assert not [each for each in found if each.holds]


@pytest.mark.parametrize(
    "said",
    [
        "* new address as of May: 3 Elm St, Bath, ME 04530",
        "zip might be 06750",
        "spelled Ruddick!",
        "she remarried, it's Mrs. Ada Bell",
        "NOT SURE",
    ],
)
def test_what_mends_a_name_or_address_below_it_is_asked_of_its_household(
    asked: Callable[[str], tuple[list[str], list[Finding]]], said: str
) -> None:
    homes, found = asked(f"{GREETING}{FIRST}{said}\n{SECOND}")
    assert homes == ["Corwin Ruddock", "Ottoline Grayling"]
    assert {each.quoted for each in found if each.holds} == {said.removeprefix("* ")}
