"""Lists as relatives paste them: counts before names, houses without a street, other tongues.

The lists are invented: common practice, no source.
"""

from pathlib import Path

import pytest

from addressing.guestlist import read_list
from addressing.guestlist.files.entries import entry_of
from addressing.guestlist.files.mail_lines import Line, has_verb
from addressing.guestlist.files.prose_words import prose_words
from addressing.guestlist.files.run_together import apart
from addressing.guestlist.people.cell import read_people
from addressing.guestlist.rows.noted_titles import gives_rank
from addressing.records.guests import GuestList, Household, Kind, Person

BRITISH = """\
Mr & Mrs Kit Penhew
The Old Forge
Mill Lane
Bakewell
Derbyshire
DE45 1AA

Miss Ada Orr and guest
Flat 2, 61 Gloucester Road
Bristol
BS7 8AA
"""
GERMAN = """\
Kit Penhew mit Begleitung
Hafenweg 22
20457 Hamburg

Ada Orr
Bahnhofstraße 5
39100 Bozen
"""
PAIR = Household("h-aaaaaaaa", (Person(given="Kit", family="Orr"), Person(given="Ada")))


def read(folder: Path, text: str) -> GuestList:
    path = folder / "mail.txt"
    path.write_text(text, encoding="utf-8")
    return read_list(path, {})[0]


def test_a_postcode_on_a_line_of_its_own_ends_an_address(tmp_path: Path) -> None:
    homes = read(tmp_path, BRITISH).households
    codes = [home.address.postcode.text for home in homes if home.address and home.address.postcode]
    assert codes == ["DE45 1AA", "BS7 8AA"]
    assert [person.kind for person in homes[1].people] == [Kind.NAMED, Kind.GUEST]


def test_a_german_street_with_five_figures_is_in_germany_save_in_south_tyrol(
    tmp_path: Path,
) -> None:
    homes = read(tmp_path, GERMAN).households
    assert [bool(home.address and home.address.country) for home in homes] == [True, False]


@pytest.mark.parametrize(
    ("text", "kinds"),
    [
        ("Kit Orr mit Begleitung", [Kind.NAMED, Kind.GUEST]),
        ("Kit Orr avec invitée", [Kind.NAMED, Kind.GUEST]),
        ("Kit Orr et son épouse Ada", [Kind.NAMED, Kind.NAMED]),
        ("Kit Orr y su esposo Luis", [Kind.NAMED, Kind.NAMED]),
        ("Kit et Ada Orr avec leurs enfants Théo et Ivy", [Kind.NAMED] * 2 + [Kind.CHILD] * 2),
        ("Kit Orr mit Kindern Emil und Ivy", [Kind.NAMED, Kind.CHILD, Kind.CHILD]),
        ("Con Orr", [Kind.NAMED]),
    ],
)
def test_who_comes_along_is_told_in_other_tongues(text: str, kinds: list[Kind]) -> None:
    assert [person.kind for person in read_people(text).people] == kinds


def test_children_by_word_alone_behind_a_spanish_name_are_a_family() -> None:
    read = read_people("Lucía Orr e hijos")
    assert ([person.family for person in read.people], read.family) == (["Orr"], "hijos")


@pytest.mark.parametrize("text", ["LT COL KIT ORR USMC RET", "Lt Col Kit Orr USMC RET"])
def test_letters_behind_letters_are_no_family_name(text: str) -> None:
    assert (read_people(text).people[0].family or "").title() == "Orr"


@pytest.mark.parametrize(
    "text", ["The Orrs (Kit, Ada, Ivy (9), Bo (7))", "The Orrs - Kit, Ivy (9)"]
)
def test_a_family_with_its_members_and_ages_is_that_family(text: str) -> None:
    read = read_people(text)
    assert (read.label, [doubt.code for doubt in read.doubts]) == ("The Orrs", ["name-doubtful"])


@pytest.mark.parametrize(
    "note", ["Kit's a judge", "he's a pastor", 'Kit\'s a judge so "The Honorable"']
)
def test_an_office_in_small_letters_is_asked_about(note: str) -> None:
    assert gives_rank(note, PAIR)


@pytest.mark.parametrize("note", ["Kit's judge", "Kit is the father", "Kit's a general pain"])
def test_other_words_give_no_office(note: str) -> None:
    assert not gives_rank(note, PAIR)


@pytest.mark.parametrize("word", sorted(prose_words("sole-house")))
def test_a_house_may_have_a_town_and_no_street(word: str) -> None:
    entry = entry_of(f"The Reverend and Mrs. Kit Orr, The {word.title()}, Bath, Maine 04530")
    assert entry is not None
    assert entry.address == f"The {word.title()}, Bath, Maine 04530"


def test_how_many_they_are_before_names_is_a_remark() -> None:
    entry = entry_of("Party of 4: Mr. & Mrs. Kit Orr, 9 Elm St, Bath ME 04530")
    assert entry is not None
    assert (entry.name, entry.note) == ("Mr. & Mrs. Kit Orr", "Party of 4")


def test_households_in_one_line_are_one_each_and_a_sentence_stays() -> None:
    one, two = "Kit Orr, 9 Elm St, Bath ME 04530", "Ada Bell and guest, 4 Oak St, Bath ME 04530"
    assert [line.text for line in apart([Line(1, f"{one}; {two}")])] == [one, two]
    spoken = Line(1, f"{one}. They moved to us in May")
    assert apart([spoken]) == [spoken]


LABELLED = """\
Name: Kit and Ada Penhew
Address: 9 Elm St, Bath, ME 04530
Kids: Ivy, Bo

Name: Tom Penhew
Address: he just moved, ask Ada
"""
OUT = """\
Aunts
Kit Penhew, 9 Elm St, Bath, ME 04530
Ada Orr, 4 Oak St, Bath, ME 04530

Do Not Invite
Tom Bell, 5 Oak St, Bath, ME 04530
"""


def test_a_record_whose_address_is_words_is_a_household_and_children_stay_out_of_addresses(
    tmp_path: Path,
) -> None:
    homes = read(tmp_path, LABELLED).households
    assert [len(home.people) for home in homes] == [4, 1]
    assert homes[0].address is not None
    assert homes[0].address.city is not None
    assert homes[0].address.city.text == "Bath"


def test_those_below_a_heading_that_leaves_them_out_wait(tmp_path: Path) -> None:
    path = tmp_path / "mail.txt"
    path.write_text(OUT, encoding="utf-8")
    guests, findings = read_list(path, {})
    held = {found.household for found in findings if found.holds}
    assert [home.key in held for home in guests.households] == [False, False, True]


@pytest.mark.parametrize("text", ["Kit K.", "Kit & Ada K", "Kit k"])
def test_a_family_name_of_one_letter_is_asked_about(text: str) -> None:
    assert [doubt.code for doubt in read_people(text).doubts] == ["name-doubtful"]


def test_a_family_name_before_a_title_stands_first_with_a_comma_before_and_too() -> None:
    people = read_people("O'Shea, Dr. Ada, and Mr. Kit Orr").people
    assert [(person.given, person.family) for person in people] == [
        ("Ada", "O'Shea"),
        ("Kit", "Orr"),
    ]


def test_whose_parents_they_are_before_a_colon_is_a_remark() -> None:
    entry = entry_of("Ada Bell's parents: Kit and Ivy Bell, 9 Elm St, Bath ME 04530")
    assert entry is not None
    assert (entry.name, entry.note) == ("Kit and Ivy Bell", "Ada Bell's parents")


def test_letters_of_an_order_end_no_sentence() -> None:
    assert not has_verb("Fr. Kit Orr, S.J.")
