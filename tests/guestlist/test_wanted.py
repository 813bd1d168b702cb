"""Households that running text names without an address that could be read: none is lost.

The ways to write are common practice, no source; all names are invented.
"""

from pathlib import Path

import pytest

from addressing.guestlist import read_list
from addressing.guestlist.files.mail_lines import Line
from addressing.guestlist.files.mentions import mentions
from addressing.guestlist.files.running import sentences
from addressing.guestlist.files.spans import spans
from addressing.guestlist.files.wanted import head_of
from addressing.records.guests import GuestList
from addressing.tables import table


def names_at_head(text: str) -> str:
    head = head_of(tuple(sentences([Line(1, text)])))
    return head.names if head is not None else ""


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("Ms. Odile Penhew. One book says 402 Elm St. and the other one 420, I don't know.",
         "Ms. Odile Penhew"),
        ("Kit and Odile Penhew. Somewhere in Sitka, AK 99835.", "Kit and Odile Penhew"),
        ("The Penhews next door. Kit? Tobias? and Odile. I'll carry it over.", "The Penhews"),
        ("the Penhews across the street. I'll drop it off.", "The Penhews"),
        ("The Penhews are coming. I'll tell you more.", ""),
        ("The Penhews are moving. No address yet.", ""),
        ("The Penhews next door. We love them.", ""),
        ("The Penhews next door. They declined, so no address.", ""),
        ("Not the Penhews. I'll carry it over.", ""),
        ("Ms. Odile Penhew. She sings at the 9 o'clock mass.", ""),
        ("Ms. Odile Penhew sang. One book says 402 Elm St.", ""),
    ],
)  # fmt: skip
def test_names_that_begin_a_paragraph_are_a_household_if_an_envelope_is_spoken_of(
    text: str, names: str
) -> None:
    assert names_at_head(text) == names


@pytest.mark.parametrize(
    ("text", "address"),
    [
        ("They are in Kiel, Holtenauer Str. 41, 24105 Kiel, Germany. They fly.",
         "Holtenauer Str. 41, 24105 Kiel, Germany"),
        ("They live at Lindenstr. 8, 72074 Tübingen, Germany",
         "Lindenstr. 8, 72074 Tübingen, Germany"),
        ("He is at Via dei Serragli 42, 50124 Firenze, Italy now",
         "Via dei Serragli 42, 50124 Firenze, Italy"),
        ("Wren, calle Mayor 5, 28013 Madrid", "calle Mayor 5, 28013 Madrid"),
        ("He sold house 9, 12345 times", ""),
        ("We met at Larkmoor 8, 24105 Kiel", ""),
    ],
)  # fmt: skip
def test_an_address_whose_number_stands_last_is_found_in_a_sentence(
    text: str, address: str
) -> None:
    assert [span.text for span in spans(text)] == [address] * bool(address)


def test_a_denied_name_in_capitals_joins_nobody() -> None:
    assert [each.text for each in mentions("she is Ms. Odile Penhew and NOT Orr")] == [
        "Ms. Odile Penhew"
    ]
    assert [each.text for each in mentions("it is Odile Penhew and Bill Orr")] == [
        "Odile Penhew and Bill Orr"
    ]


def test_a_line_that_ends_in_a_code_ends_its_sentence() -> None:
    first = "Odile and Kit Penhew-Lorne, 26 Long Alder Lane Northeast, Bath, ME 04530"
    said = [Line(1, first), Line(2, "Her aunt, Mrs. Wren Orr, lives with them.")]
    assert next(sentences(said)).text == first
    broken = [Line(1, "Odile and Kit Penhew-Lorne live at 11 rue des Ormes de la Source, 69002"),
              Line(2, "Lyon, France.")]  # fmt: skip
    assert len(list(sentences(broken))) == 1


def read(folder: Path, said: str) -> tuple[GuestList, dict[str, str]]:
    """The list of a mail, and what is asked with a quotation of each household."""
    path = folder / "mail.txt"
    path.write_text(f"Hi Odile,\n\n{said}\n\nThanks,\nRosa\n", encoding="utf-8")
    guest_list, findings = read_list(path, {})
    names = {home.key: home.name for home in guest_list.households}
    asked = {names[f.household]: f.quoted for f in findings if f.household and f.quoted and f.holds}
    return guest_list, asked


def names(guest_list: GuestList) -> list[str]:
    return [home.name for home in guest_list.households]


ORRS = "Kit & Odile Orr\n9 Elm St\nBath ME 04530"


AUNT = "Her aunt, Mrs. Rosa Lorne, lives there and wants her own invitation."
DAUGHTER = """
Odile's daughter Wren Lorne and her fiancé Tobias Hale live out back so same
street and number, but put Carriage House on it."""
TENANT = "\nNed Hale rents the garage apartment behind the Orrs, same address otherwise."
NEIGHBORS = """
The Hales next door. Ned? Ted? and Rosa. I'll carry it over myself so no
address."""


@pytest.mark.parametrize(
    ("said", "name"),
    [
        (AUNT, "Rosa Lorne"),
        (DAUGHTER, "Wren Lorne"),
        (TENANT, "Ned Hale"),
        (NEIGHBORS, "The Hales"),
    ],
)
def test_who_lives_beside_a_household_has_one_and_waits(
    tmp_path: Path, said: str, name: str
) -> None:
    guest_list, asked = read(tmp_path, f"{ORRS}\n{said}")
    assert names(guest_list) == ["Kit Orr", name]
    assert name in asked


def test_who_is_listed_and_named_once_more_is_no_second_household(tmp_path: Path) -> None:
    guest_list, asked = read(
        tmp_path, f"{ORRS}\n\nPS only him, Mr. Kit Orr, same house, the divorce is through"
    )
    assert names(guest_list) == ["Kit Orr"]
    assert "same house" in asked["Kit Orr"]


def test_words_that_go_on_below_an_entry_are_of_its_household(tmp_path: Path) -> None:
    hale = "Ned Hale, 7 Oak St, Bath ME 04530\nbut HOLD that one until I have talked to Roy."
    guest_list, asked = read(tmp_path, f"* Kit Orr, 9 Elm St, Bath ME 04530\n* {hale}")
    assert names(guest_list) == ["Kit Orr", "Ned Hale"]
    assert list(asked) == ["Ned Hale"]
    assert "HOLD" in asked["Ned Hale"]


@pytest.mark.parametrize(
    "row",
    [row for row in table("prose_words") if row["kind"] == "goes-below"],
    ids=lambda r: r["word"],
)
def test_words_with_which_a_line_goes_on(tmp_path: Path, row: dict[str, str]) -> None:
    hale = "* Kit Orr, 9 Elm St, Bath ME 04530\n* Ned Hale, 7 Oak St, Bath ME 04530\n"
    _, asked = read(tmp_path, f"{hale}{row['example']}.")
    assert list(asked) == ["Ned Hale"]
    _, asked = read(tmp_path, f"{hale}{row['counter']}.")
    assert asked == {}


def test_of_two_of_a_given_name_the_suffix_tells_who_is_meant(tmp_path: Path) -> None:
    both = ("Mr. Tobias Orr, Sr.\n9 Elm St\nBath ME 04530\n\n"
            "Mr. Tobias Orr, Jr.\n80 Oak St\nBath ME 04530")  # fmt: skip
    guest_list, asked = read(tmp_path, f"{both}\n\nPS Tobias Jr. is 8 Oak, I turned it around.")
    assert list(asked) == [guest_list.households[1].name]


def test_a_sentence_with_names_of_two_is_of_whom_its_suffix_tells(tmp_path: Path) -> None:
    both = ("Mr. Tobias Orr, Sr.\n9 Elm St\nBath ME 04530\n\n"
            "Mr. Tobias Orr, Jr.\n80 Oak St\nBath ME 04530")  # fmt: skip
    guest_list, asked = read(tmp_path, f"{both}\n\nPS It was Mr. Tobias Orr, Sr. who sold it.")
    assert list(asked) == [guest_list.households[0].name]


def test_of_the_lines_not_read_those_that_may_name_guests_are_shown(tmp_path: Path) -> None:
    path = tmp_path / "mail.txt"
    said = ("It was hot here. We sat in the Shade. They sang for Us. The Moon was out.\n\n"
            "Then I thought of Mr. Ned Hale. I wonder.")  # fmt: skip
    path.write_text(f"Hi Odile,\n\n{ORRS}\n\n{said}\n\nThanks,\nRosa\n", encoding="utf-8")
    _, findings = read_list(path, {})
    (asked,) = (found for found in findings if found.code == "lines-not-read")
    assert asked.text.startswith("No household could be read in “Then I thought of Mr. Ned Hale")


@pytest.mark.parametrize("between", ["\n", "\n\n"])
def test_a_change_below_a_household_holds_it(tmp_path: Path, between: str) -> None:
    both = "Ms. Kit Orr\n9 Elm St\nBath ME 04530\n\nMrs. Ada Hale\n7 Oak St\nBath ME 04530"
    rest = "Mr. Ned Penhew\n2 Oak St\nBath ME 04530"
    _, asked = read(tmp_path, f"{both}{between}make that Ms.\n\n{rest}")
    assert list(asked) == ["Ada Hale"]
