"""Whose an address of running text is, where names stand behind it, in brackets, or alone.

The ways to write are common practice, no source; all names are invented.
"""

import pytest

from addressing.guestlist.files.blocks import NAME, STREETS
from addressing.guestlist.files.entries import entry_of
from addressing.guestlist.files.mail_lines import Line, cleaned
from addressing.guestlist.files.prose import homes_in
from addressing.guestlist.files.prose_homes import SENTENCE_SLOT
from addressing.guestlist.files.running import sentences
from addressing.tables import table

ROWS = list(table("prose_words"))
ELM = "9 Elm St, Bath ME 04530"


def read(text: str) -> list[tuple[str, str, bool]]:
    """Each household's names, its address, and whether the client is asked about it."""
    homes = homes_in(tuple(sentences([Line(1, text)])))
    return [
        (
            slots[NAME][0].text,
            slots[STREETS[0]][0].text if STREETS[0] in slots else "",
            SENTENCE_SLOT in slots,
        )
        for _, slots in homes
    ]


def rows_of(*kinds: str) -> list[dict[str, str]]:
    found = [row for row in ROWS if row["kind"] in kinds]
    assert found
    return found


def named(row: dict[str, str]) -> str:
    return f"{row['kind']}: {row['word']}"


@pytest.mark.parametrize("row", rows_of("is-theirs", "outside", "parting"), ids=named)
def test_an_address_is_proposed_for_those_the_sentence_says_it_is_of(row: dict[str, str]) -> None:
    assert read(row["example"]) == [("Odile Penhew", ELM, True)]
    assert read(row["counter"]) == []


@pytest.mark.parametrize("row", rows_of("house-number"), ids=named)
def test_a_house_number_may_be_a_word(row: dict[str, str]) -> None:
    ((_, at, _),) = read(f"She is my aunt, Odile Penhew, and it is {row['example'].split(', ')[1]}")
    assert at.startswith(row["word"].capitalize())
    entry = entry_of(row["example"])
    assert entry is not None
    assert entry.address.startswith(row["word"].capitalize())
    lark = f"{row['word'].capitalize()} Larks"
    assert all(lark not in at for _, at, _ in read(f"They say that Odile Penhew met {lark}, Bath."))
    assert row["counter"].split(", ")[1].startswith(lark)


@pytest.mark.parametrize("row", rows_of("lives-with", "those"), ids=named)
def test_who_lives_with_others_has_their_address(row: dict[str, str]) -> None:
    before = f"Mr. and Mrs. Kit Orr, {ELM}."
    for said, at in ((row["example"], ELM), (row["counter"], "")):
        found = read(f"{before} His aunt, {said} now, Mrs. Ida Hale, and gets her own envelope.")
        assert found[1] == ("Mrs. Ida Hale", at, True)


@pytest.mark.parametrize(
    ("text", "names"),
    [
        (f"Young Amos and his wife Wren are at {ELM}, and he is Mr. Amos Orr, Jr. on it.",
         "Mr. Amos Orr, Jr"),
        (f"Bea and her boyfriend are at {ELM}.", "Bea and her boyfriend"),
        (f"The Penhews are at {ELM}: Kit, Odile and the baby.", "The Penhews"),
        (f"Kit Penhew and his wife Odile are at {ELM}.", "Kit Penhew and Odile"),
        (f"Kit Orr moved. He is at {ELM}, and we like him.", "Kit Orr"),
        (f"Kit Orr and his lady. They may marry. Who knows. {ELM}.", "Kit Orr"),
    ],
)  # fmt: skip
def test_nobody_with_an_address_is_lost_in_a_sentence(text: str, names: str) -> None:
    ((found, at, asked),) = read(text)
    assert (found.removesuffix("."), at, asked) == (names, ELM, True)


def test_whoever_words_for_kin_join_is_read_by_a_name_nobody_knows() -> None:
    found = read(f"Sean Orr and his wife Mei-Xu Orr are down at {ELM}.")
    assert found == [("Sean Orr and Mei-Xu Orr", ELM, False)]


def test_a_full_name_in_brackets_is_the_name_of_who_is_called_otherwise() -> None:
    assert read(f"Cousin Dot (Miss Dora Hale) is at {ELM}.") == [("Miss Dora Hale", ELM, False)]
    ((name, *_),) = read(f"Kit Hale (Dora Hale) is at {ELM}.")
    assert name == "Kit Hale"


def test_a_number_in_doubt_is_asked_about() -> None:
    assert read("Kit Orr, 77 (or is it 79?) Elm St, Bath ME 04530.") == [
        ("Kit Orr", "77 Elm St, Bath ME 04530", True)
    ]
    ((_, _, asked),) = read("Kit Orr, 77 (the red door) Elm St, Bath ME 04530.")
    assert not asked


def test_a_sentence_in_brackets_is_read() -> None:
    assert read(f"We want one. (Miss Ida Orr, {ELM}, if you ask.)") == [("Miss Ida Orr", ELM, True)]


def test_a_place_that_is_nobody_s_home_is_no_household() -> None:
    for text in (
        f"The church is at {ELM}.",
        f"The Carriage House is at {ELM}.",
        "We are at 9 Elm.",
    ):
        assert read(text) == []


@pytest.mark.parametrize("route", ["R.R. 2", "RR 2", "R. R. 2", "Rural Route 2"])
def test_a_rural_route_begins_an_address_however_it_is_shortened(route: str) -> None:
    entry = entry_of(f"Harold and June Orr, {route}, Box 118, Bath, Maine 04530")
    assert entry is not None
    assert (entry.name, entry.address.partition(",")[0]) == ("Harold and June Orr", route)


def test_two_dashes_are_a_bullet() -> None:
    line = cleaned(1, "  -- Kit Orr, 9 Elm St")
    assert (line.text, line.opens) == ("Kit Orr, 9 Elm St", True)
    assert cleaned(1, "--").text == "--"
