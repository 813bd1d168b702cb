"""Every sentence of a mail reaches all whom it is about, and whoever it brings is a household.

The ways to write are common practice, no source; all names are invented.
"""

from pathlib import Path

import pytest

from addressing.guestlist import read_list
from addressing.guestlist.files.families_told import families_told
from addressing.guestlist.files.line_ends import goes_on
from addressing.guestlist.files.small_talk import announces
from addressing.records.findings import Finding
from addressing.records.guests import GuestList
from addressing.tables import table

LIST = """From: Linda Marsh <linda@example.com>

Hi Rae,

Mr. and Mrs. Tobias Penhew, 14 Larkmoor Lane, Litchfield, CT 06759
Ms. Ottoline Grayling, 431 Weathervane Drive, Bar Harbor, ME 04609
Linda Orr, 7 Mill Row, Duluth, MN 55802
The Tolland Family, 66 Cobbler Green, Concord, NH 03301

"""
Read = tuple[GuestList, tuple[Finding, ...]]


def read(folder: Path, said: str, names: str = LIST) -> Read:
    path = folder / "mail.txt"
    path.write_text(f"{names}{said}\n", encoding="utf-8")
    return read_list(path, {})


def held(found: Read) -> list[str]:
    """The names of the households that wait, in their order on the list."""
    waiting = {each.household for each in found[1] if each.holds}
    return [home.name for home in found[0].households if home.key in waiting]


def told(found: Read) -> list[str]:
    """The names of the households to whom something is told beside the list."""
    asked = {each.household for each in found[1] if each.code == "said-elsewhere"}
    return [home.name for home in found[0].households if home.key in asked]


def unread(found: Read) -> str:
    """What the one question of the list quotes."""
    return " ".join(each.text for each in found[1] if each.code == "lines-not-read")


@pytest.mark.parametrize(
    ("said", "names"),
    [
        ("5/1 – Linda – strike Ottoline", ["Ottoline Grayling"]),
        ("The Penhews moved.\n\nThanks,\n– Linda", ["Tobias Penhew"]),
        ("The Penhews moved.\n\nLinda", ["Tobias Penhew"]),
        ("Strike Linda", ["Linda Orr"]),
        ("NO TOLLAND KIDS", ["The Tolland Family"]),
        ("TOBIAS PENHEW IS OUT", ["Tobias Penhew"]),
        ("The girl from Concord, Judith Tolland, isn't invited.", ["The Tolland Family"]),
        ("The Penhews send their love!", []),
        ("Can't wait to see the Penhews!", []),
    ],
)
def test_a_line_holds_whom_it_is_about(tmp_path: Path, said: str, names: list[str]) -> None:
    assert held(read(tmp_path, said)) == names


def test_a_remark_in_one_block_reaches_the_other_whom_it_names(tmp_path: Path) -> None:
    said = "Mr. Hugh Bly\n9 Elm St\nBath, ME 04530\nThe Penhews moved in with him."
    assert "Tobias Penhew" in held(read(tmp_path, said))


def test_a_sentence_that_follows_one_of_a_new_guest_holds_whom_it_names(tmp_path: Path) -> None:
    said = (
        "My boss, Mrs. Ida Bly, must get one too. Ottoline is away until May, so send hers "
        "to 3 Elm St, Bath, ME 04530."
    )
    assert "Ottoline Grayling" in held(read(tmp_path, said))


@pytest.mark.parametrize(
    "reply", ["not coming after all", "no", "kids are Ole and Finn", "she is Mrs. Bly now"]
)
def test_a_reply_below_a_quoted_line_is_of_its_household(tmp_path: Path, reply: str) -> None:
    names = (
        "Hi,\n\n> Ida Orr, 9 Elm St, Bath, ME 04530\nyes\n"
        f"> Ruth Penhew, 8 Elm St, Bath, ME 04530\n{reply}"
    )
    assert "Ruth Penhew" in held(read(tmp_path, "", names))


def test_a_list_numbered_by_dashes_is_spoken_of_by_its_numbers(tmp_path: Path) -> None:
    names = (
        "Hi,\n\n1 - Gwen and Art Bly - 70 Elm St, Bath, ME 04530\n"
        "2 - Vi Crewe - 8 Elm St, Bath, ME 04530\n3 - Roz Tilden - 14 Elm St, Bath, ME 04530\n\n"
    )
    assert told(read(tmp_path, "1 kids are Wes and Dot", names)) == ["Gwen Bly"]
    assert told(read(tmp_path, "2 and 3 are a couple since May", names)) == [
        "Vi Crewe", "Roz Tilden",
    ]  # fmt: skip
    assert told(read(tmp_path, "Vi = Viola", names)) == ["Vi Crewe"]


def test_a_name_above_the_words_for_anothers_address_is_a_household(tmp_path: Path) -> None:
    guests, _ = read(tmp_path, "Chip Sorensen\nsame as Ottoline")
    home = next(each for each in guests.households if each.name == "Chip Sorensen")
    assert home.address is not None
    assert home.address.city is not None
    assert home.address.city.text == "Bar Harbor"


def test_given_names_alone_with_a_remark_are_those_who_are_listed(tmp_path: Path) -> None:
    found = read(tmp_path, "1) Ottoline & Linda: one invitation\n2) The Penhews -> Mr. T. Penhew")
    assert len(found[0].households) == 4
    assert held(found) == ["Tobias Penhew", "Ottoline Grayling", "Linda Orr"]


@pytest.mark.parametrize(
    ("said", "name", "street"),
    [
        ("I nearly forgot the Blys! They are at 10 Cove Ct, Mystic, CT 06355.", "The Blys", "10"),
        ("I forgot the Blys! 55 Bridge St, Mystic, CT 06355", "The Blys", "55"),
        ("Please also invite the Blys, no address yet.", "The Blys", ""),
        ("And Ida Bly (10 Cove Ct, Mystic, CT 06355), a friend of hers.", "Ida Bly", "10"),
        ("the Blys\n10 Cove Ct\nMystic, CT 06355", "The Blys", "10"),
        ("Mrs. Ida Bly, because she raised us; she is at 30 Elm St, Bath, ME 04530",
         "Mrs. Bly", "30"),
    ],
)  # fmt: skip
def test_whoever_is_told_in_a_sentence_is_a_household(
    tmp_path: Path, said: str, name: str, street: str
) -> None:
    guests, _ = read(tmp_path, said)
    home = next(each for each in guests.households if "Bly" in each.name)
    assert home.name.split()[-1] == name.rsplit(maxsplit=1)[-1]
    assert (home.address.street.text if home.address and home.address.street else "").startswith(
        street
    )


def test_a_family_of_the_list_that_a_sentence_brings_is_no_second_household(
    tmp_path: Path,
) -> None:
    found = read(tmp_path, "Don't forget the Penhews, now at 10 Cove Ct, Mystic, CT 06355.")
    assert len(found[0].households) == 4
    assert held(found) == ["Tobias Penhew"]


def test_of_two_addresses_each_goes_to_whom_the_sentence_names_before_it(tmp_path: Path) -> None:
    said = (
        "We invite Mr. and Mrs. Howard Birch of 11 Elm St, Bath, ME 04530, and also their son "
        "Teddo Birch, who lives at 40 Elm St, Bath, ME 04530."
    )
    guests, _ = read(tmp_path, said)
    streets = {home.name: home.address.street.text for home in guests.households
               if home.address and home.address.street}  # fmt: skip
    assert streets["Howard Birch"] == "11 Elm St"
    assert streets["Teddo Birch"] == "40 Elm St"


def test_lines_below_a_name_that_are_other_peoples_are_no_address_of_it(tmp_path: Path) -> None:
    said = (
        "Lucy Yarrow (away at college, send to parents)\n"
        "Mrs. Gert Plum, because she raised us; her address is 30 Elm St, Bath, ME 04530\n"
        "Mr. Abel Nunn, not Mrs., she died, 41 Elm St, Bath, ME 04530"
    )
    guests, _ = read(tmp_path, said)
    assert {"Gert Plum", "Abel Nunn"} <= {home.name for home in guests.households}


def test_every_line_that_names_nobody_is_quoted_in_one_question(tmp_path: Path) -> None:
    said = [
        "no children at all please", "Could you do the seating cards as well?",
        "Everybody from abroad gets a map.", "The band will want five plates.",
    ]  # fmt: skip
    quoted = unread(read(tmp_path, "\n".join(said)))
    assert all(line in quoted for line in said)


@pytest.mark.parametrize(
    "said", ["Here is our list so far.", "Thanks a bunch!", "Hope the dog is better.", "Notes"]
)
def test_words_that_say_nothing_are_not_asked_about(tmp_path: Path, said: str) -> None:
    assert unread(read(tmp_path, said)) == ""


def test_two_at_one_door_of_whom_one_is_in_care_of_the_other_stay_two(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_text(
        "Name,Street 1,Street 2,City,State,ZIP\n"
        "Dr. Owen Tate,100 Park Dr,,Boston,MA,02215\n"
        "Mrs. Una Quill,c/o Tate,100 Park Dr,Boston,MA,02215\n",
        encoding="utf-8",
    )
    guests, _ = read_list(path, {})
    assert [home.name for home in guests.households] == ["Owen Tate", "Una Quill"]


@pytest.mark.parametrize(
    "row", [row for row in table("prose_words") if row["kind"] == "brings"], ids=lambda r: r["word"]
)
def test_such_a_word_brings_a_family(row: dict[str, str]) -> None:
    assert [each.text for each in families_told(row["example"])] == ["The Penhews"]
    assert families_told(row["counter"]) == []


@pytest.mark.parametrize(
    "row",
    [row for row in table("prose_words") if row["kind"] == "own-subject"],
    ids=lambda r: r["word"],
)
def test_a_line_with_a_subject_of_its_own_doesnt_go_on(row: dict[str, str]) -> None:
    assert not goes_on(row["example"])
    assert goes_on(row["counter"])


@pytest.mark.parametrize(
    "row",
    [row for row in table("mail_words") if row["kind"] == "announces"],
    ids=lambda r: r["word"],
)
def test_such_words_announce_the_list(row: dict[str, str]) -> None:
    assert announces(row["example"])
    assert not announces(f"{row['example'].rstrip('.!')} of the Penhews")
