"""Entries on one line of a mail: what is the name, what the address, what only said."""

import pytest

from addressing.guestlist.files.entries import Entry, bare_entry, entry_of
from addressing.guestlist.files.mail_lines import cleaned
from addressing.guestlist.files.running import joined
from addressing.guestlist.people.cell import read_people

HOME = "14 Elm Street, Bath ME 04530"


@pytest.mark.parametrize(
    ("line", "name", "address", "note"),
    [
        (f"Ada Penhew - {HOME}", "Ada Penhew", HOME, ""),
        (f"Ada Penhew ({HOME[:2]} this year) {HOME}", "Ada Penhew (14 this year)", HOME, ""),
        (f"Ada & Tom Penhew; {HOME}; (his boss)", "Ada & Tom Penhew", HOME, "his boss"),
        (f"The Hon. Ada Penhew, {HOME}. She was a judge", "The Hon. Ada Penhew", HOME,
         "She was a judge"),
        (f"Ada Penhew, {HOME} - no nuts", "Ada Penhew", HOME, "no nuts"),
        (f"Ada Penhew - lives there now: {HOME}", "Ada Penhew", HOME, "lives there now"),
        ("Ada Penhew, Rt. 3 Box 57B, Bath ME 04530", "Ada Penhew",
         "Rt. 3 Box 57B, Bath ME 04530", ""),
        ("Ada Penhew, Unit 29401 Box 12, APO AE 09014", "Ada Penhew",
         "Unit 29401 Box 12, APO AE 09014", ""),
        ("Ada Penhew, W349 N6520 Road C, Oconomowoc, WI 53066", "Ada Penhew",
         "W349 N6520 Road C, Oconomowoc, WI 53066", ""),
        ("Ada Penhew, 77-15 113th St, Apt 4B, Forest Hills, NY 11375", "Ada Penhew",
         "77-15 113th St, Apt 4B, Forest Hills, NY 11375", ""),
        ("Ada Penhew, Larkmoor House, 9 Mill Row, Bath BA1 5NH", "Ada Penhew",
         "Larkmoor House, 9 Mill Row, Bath BA1 5NH", ""),
        ("Ada Penhew, Lerchengasse 7, 10435 Berlin", "Ada Penhew", "Lerchengasse 7, 10435 Berlin",
         ""),
        (f"Ada Penhew {HOME}", "Ada Penhew", HOME, ""),
        (f"Ada & Tom Penhew at {HOME}", "Ada & Tom Penhew", HOME, ""),
        ("Ada Penhew / 14 Elm Street / Bath ME 04530", "Ada Penhew", HOME, ""),
        ("Ada Penhew -- 14 Elm Street -- Bath ME 04530", "Ada Penhew", HOME, ""),
        (f"Ada Penhew and guest. {HOME}", "Ada Penhew and guest", HOME, ""),
        ("Ada Penhew, same address as Tom", "Ada Penhew", "same address as Tom", ""),
        (f"Ada Penhew, Tom Penhew and family, {HOME}", "Ada Penhew, Tom Penhew and family", HOME,
         ""),
    ],
)  # fmt: skip
def test_an_entry_has_its_name_its_address_and_what_is_said(
    line: str, name: str, address: str, note: str
) -> None:
    assert entry_of(line) == Entry(name, address, note)


@pytest.mark.parametrize(
    "line",
    [
        "The Penhews have moved: 14 Elm Street, Bath ME 04530",
        "Phone me if it isn't clear, 860 555 0134.",
        "The photographer (Lyle, 12 Depot Road, Essex) is not a guest.",
        "14 Elm Street, Bath ME 04530",
        "Ada Penhew, 14",
        f"Send it to Ada at {HOME}",
        f"The letter to Ada came back from {HOME}",
    ],
)
def test_what_is_no_entry_is_none(line: str) -> None:
    assert entry_of(line) is None


def test_names_with_a_remark_are_a_household_without_an_address_and_a_club_is_none() -> None:
    assert bare_entry("Ada & Tom Penhew - they moved") == Entry(
        "Ada & Tom Penhew", "", "they moved"
    )
    assert bare_entry("Tennis Club") is None


@pytest.mark.parametrize(
    "lines",
    [
        ("Ada Penhew, 14 Elm Street, Bath, Maine", "04530"),
        ("Ada Penhew, 14 Elm Street,", "Bath ME 04530"),
        ("Ada Penhew and family (Tom, baby", f"Jo), {HOME}"),
    ],
)
def test_an_entry_that_a_mailer_broke_is_one_line_that_knows_both(lines: tuple[str, str]) -> None:
    raws = [cleaned(number, f"> {line}") for number, line in enumerate(lines, start=4)]
    (whole,) = joined(raws)
    assert whole.text == " ".join(lines)
    assert [line.number for line in (whole, *whole.more)] == [4, 5]
    assert entry_of(whole.text) is not None


def test_lines_of_a_block_are_not_joined() -> None:
    block = ("Ada Penhew", "14 Elm Street", "Bath, Maine", "04530")
    assert len(joined([cleaned(number, line) for number, line in enumerate(block)])) == len(block)


def test_a_stamp_of_a_telephone_is_no_part_of_a_message() -> None:
    line = cleaned(1, f"[4/12/27, 9:16:40 PM] Mom: Ada Penhew, {HOME}")
    assert line.text == f"Ada Penhew, {HOME}"
    assert line.opens


def test_a_number_of_children_before_their_names_is_no_further_child() -> None:
    read = read_people("Sam Okoye and Rita Brand + 2 kids (Tobi, 6 and Ada, 3)")
    assert [(person.given, person.family) for person in read.people] == [
        ("Sam", "Okoye"), ("Rita", "Brand"), ("Tobi", None), ("Ada", None),
    ]  # fmt: skip
