"""Lines of a mail that only name children, companions by "+1", and remarks between an address."""

from pathlib import Path

import pytest

from addressing.guestlist import read_list
from addressing.guestlist.files.bare_numbers import with_bare_numbers
from addressing.guestlist.files.blocks import CHILDREN, NOTES, slots_of
from addressing.guestlist.files.children_told import children_of
from addressing.guestlist.files.entries import entry_of
from addressing.guestlist.files.line_ends import goes_on
from addressing.guestlist.files.mail_lines import Line, cleaned
from addressing.guestlist.files.running import joined
from addressing.guestlist.files.small_talk import says_nothing
from addressing.tables import table

HOME = ("14 Elm Street", "Bath ME 04530")
ROWS = list(table("prose_words"))


@pytest.mark.parametrize("row", [row for row in ROWS if row["kind"] in ("kids", "before-kids")])
def test_children_are_told_by_a_word_before_their_names(row: dict[str, str]) -> None:
    assert children_of(row["example"]) == "Ivy, Kit"
    assert not children_of(row["counter"])


@pytest.mark.parametrize("row", [row for row in ROWS if row["kind"] == "of-list"])
def test_a_lists_own_title_says_nothing(row: dict[str, str]) -> None:
    assert says_nothing(row["example"].title())
    assert not says_nothing(row["counter"])


@pytest.mark.parametrize(
    ("line", "children"),
    [
        ("with Ivy (6) and Kit (4)", "Ivy (6) and Kit (4)"),
        ("plus Ivy (6 months)", "Ivy (6 months)"),
        ("avec leurs enfants Théo et Manon", "Théo et Manon"),
        ("with Ivy and Kit", ""),
        ("plus her son Kit", ""),
        ("kids are Kit's", ""),
        ("kids welcome", ""),
    ],
)
def test_who_may_be_grown_or_is_not_named_is_no_child(line: str, children: str) -> None:
    assert children_of(line) == children


@pytest.mark.parametrize("said", ["no kids!!", "new address!", "no plus one", "*call first"])
def test_a_short_remark_above_an_address_is_no_line_of_it(said: str) -> None:
    slots = slots_of([Line(at, text) for at, text in enumerate(("Kit Penhew", said, *HOME))])
    assert slots is not None
    assert [line.text for line in slots[NOTES]] == [said]
    assert slots["address", 1][0].text == HOME[0]


@pytest.mark.parametrize("said", ["vegetarian x2", "table 4"])
def test_a_remark_below_a_zip_code_is_no_line_of_the_address(said: str) -> None:
    slots = slots_of([Line(at, text) for at, text in enumerate(("Kit Penhew", *HOME, said))])
    assert slots is not None
    assert [line.text for line in slots[NOTES]] == [said]


@pytest.mark.parametrize("part", ["USA", "Apt 4", "c/o Ada Orr"])
def test_a_part_of_the_address_below_a_zip_code_stays(part: str) -> None:
    slots = slots_of([Line(at, text) for at, text in enumerate(("Kit Penhew", *HOME, part))])
    assert slots is not None
    assert NOTES not in slots


def test_children_in_a_line_of_a_block_are_children() -> None:
    lines = ("Kit & Ada Penhew", "with Ivy (6) and Bo (4)", *HOME)
    slots = slots_of([Line(at, text) for at, text in enumerate(lines)])
    assert slots is not None
    assert slots[CHILDREN][0].text == "Ivy (6) and Bo (4)"


@pytest.mark.parametrize(
    ("line", "name", "note"),
    [
        ("Kit Penhew / 14 Elm Street / Bath ME 04530 / +1", "Kit Penhew and guest", ""),
        ("Kit Penhew, 14 Elm Street, Bath ME 04530, plus one", "Kit Penhew and guest", ""),
        ("Kit Penhew, 14 Elm Street, Bath ME 04530 - +1 maybe", "Kit Penhew", "+1 maybe"),
        ("Kit Penhew / 14 Elm Street / Bath ME 04530 / Vegan", "Kit Penhew", "Vegan"),
        ("Kit Penhew, PO Box 7, Bath ME 04530", "Kit Penhew", ""),
        ("Kit Penhew PO Box 7 Bath ME 04530", "Kit Penhew", ""),
    ],
)
def test_what_stands_behind_the_zip_code_is_no_part_of_the_address(
    line: str, name: str, note: str
) -> None:
    entry = entry_of(line)
    assert entry is not None
    assert (entry.name, entry.note) == (name, note)


def test_a_country_behind_the_zip_code_stays() -> None:
    entry = entry_of("Kit Penhew / 14 Elm Street / Bath ME 04530 / USA")
    assert entry is not None
    assert entry.address.endswith("USA")


def test_children_below_an_entry_go_on_with_it() -> None:
    lines = [Line(1, "Kit Penhew, Rosenweg 9, 50667 Köln"), Line(2, "mit Kindern Emil und Ivy")]
    whole = joined(lines)
    assert len(whole) == 1
    entry = entry_of(whole[0].text)
    assert entry is not None
    assert children_of(entry.note) == "Emil und Ivy"


def test_numbers_that_count_on_before_entries_number_a_list() -> None:
    typed = [f"{at} Kit Penhew 9 Elm St Bath ME 04530" for at in (1, 2, 3)]
    lines = with_bare_numbers([cleaned(at, raw) for at, raw in enumerate(typed, 1)])
    assert [line.text[:3] for line in lines] == ["Kit"] * 3
    assert all(line.opens for line in lines)


def test_numbers_of_houses_number_nothing() -> None:
    typed = ["12 Elm Street, Bath ME 04530", "13 Oak Street, Bath ME 04530", "14 Ash Street"]
    lines = [cleaned(at, raw) for at, raw in enumerate(typed, 1)]
    assert with_bare_numbers(lines) == lines


def test_whose_husband_somebody_is_goes_on_with_the_household_above() -> None:
    assert goes_on("Kit is her husband")
    assert not goes_on("Kit is Ada's husband")


# Common practice, no source.
@pytest.mark.parametrize(
    "line", ["Linnet (8), Corwin (5)", "linnet (8), corwin (5)", "Linnet 8, Corwin 5"]
)
def test_names_with_ages_below_the_names_are_children(tmp_path: Path, line: str) -> None:
    path = tmp_path / "mail.txt"
    path.write_text(
        f"Hi!\n\nTobias & Odile Penhew\n{line}\n14 Larkmoor Lane\nLitchfield, CT 06759\n\n"
        "Hugh & Nell Orr\nApt (4)\n9 Mill Row\nLitchfield, CT 06759\n",
        "utf-8",
    )
    first, second = read_list(path, {})[0].households
    assert [(p.given and p.given.title(), p.age) for p in first.people[2:]] == [
        ("Linnet", 8),
        ("Corwin", 5),
    ]
    assert first.address is not None
    assert first.address.recipient_extra is None
    assert len(second.people) == 2


# Publication 28, appendix C2, and common practice abroad.
@pytest.mark.parametrize(
    "line",
    [
        "Unit 6, Box 4",
        "Apt (4)",
        "RR 2, Box 14",
        "Lindenweg 5, Haus 3",
        "Calle 5, Casa 3",
        "Kit (31)",
    ],
)
def test_a_line_of_an_address_names_no_children(line: str) -> None:
    assert not children_of(line)
