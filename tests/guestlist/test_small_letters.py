"""Mails in small letters, without commas: who is a guest, what is an address, what only is said.

The mails are invented, in the manner of people who write such lists: common practice, no source.
"""

from pathlib import Path

from addressing.guestlist import read_list
from addressing.guestlist.files.mail_lines import Line
from addressing.guestlist.files.small_letters import with_capitals
from addressing.records.guests import GuestList

ON_LINES = """\
tobias and odile penhew 9 elm st bath me 04530
dr ada orr po box 77 bath me 04530
the farrenby family 4 st johns rd bath me 04530
tobias will call about the penhews
"""
IN_BLOCKS = """\
hey here are my people so far

uncle toby
tobias penhew
9 elm st apt 6c
bath me 04530
hes bringing someone i think

ada and jess orr
4 mill row
bath me 04530

thats all for now
"""


def read(folder: Path, text: str) -> tuple[GuestList, set[tuple[str, int]]]:
    path = folder / "mail.txt"
    path.write_text(text, encoding="utf-8")
    guests, findings = read_list(path, {})
    names = {home.key: home.name for home in guests.households}
    rows = {(names[each.household], each.where.row) for each in findings if each.household}
    return guests, {(name, row) for name, row in rows if row is not None}


def test_lines_without_commas_are_households_with_their_addresses(tmp_path: Path) -> None:
    guests, _ = read(tmp_path, ON_LINES)
    homes = [
        (home.name, home.address.street.text)
        for home in guests.households
        if home.address and home.address.street
    ]
    assert homes == [
        ("tobias penhew", "9 elm st"),
        ("ada orr", "po box 77"),
        ("the farrenby family", "4 st johns rd"),
    ]


def test_what_is_said_in_small_letters_is_asked_of_whom_it_names(tmp_path: Path) -> None:
    _, asked = read(tmp_path, ON_LINES)
    assert ("tobias penhew", 4) in asked


def test_blocks_are_households_and_sentences_are_none(tmp_path: Path) -> None:
    guests, asked = read(tmp_path, IN_BLOCKS)
    assert [home.name for home in guests.households] == ["tobias penhew", "ada orr"]
    assert ("tobias penhew", 7) in asked


def test_the_list_keeps_what_was_typed(tmp_path: Path) -> None:
    guests, _ = read(tmp_path, IN_BLOCKS)
    assert guests.households[1].people[0].given == "ada"


def test_lines_with_a_capital_and_lines_that_tell_stay_as_they_are() -> None:
    lines = [Line(1, "Kit penhew 9 elm st bath me 04530"), Line(2, "we moved in 2009")]
    assert with_capitals(lines) == lines
