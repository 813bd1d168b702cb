"""A mail that gives people of one door an envelope each: followed if it names them, else asked."""

from pathlib import Path

import pytest

from addressing.guestlist import read_list

REST = """
Mr. and Mrs. Tobias Penhew
14 Larkmoor Lane
Litchfield, CT 06759

Ms. Ottoline Grayling
431 Weathervane Drive
Bar Harbor, ME 04609
"""
DOOR = "118 Larkmoor Street, Apt. 3R\nBrooklyn, NY 11201\n"


def read(folder: Path, text: str) -> tuple[list[str], list[str]]:
    """The names of each household, and the codes of what holds one."""
    path = folder / "mail.txt"
    path.write_text(f"Hi Odile,\n\n{text}\n{REST}", encoding="utf-8")
    guest_list, findings = read_list(path, {})
    names = [
        " & ".join(f"{p.given} {p.family}" for p in home.people if p.given)
        for home in guest_list.households
    ]
    assert all(home.address for home in guest_list.households)
    return names, [found.code for found in findings if found.holds]


@pytest.mark.parametrize(
    "said",
    [
        "Wren and Kit still share the flat but send them one EACH please:",
        "College people. Wren & Kit get separate invitations:",
        "Note that Ms. Lorne and Mr. Vale are NOT a couple, one each!\n",
    ],
)
@pytest.mark.parametrize(
    "names",
    ["Ms. Wren Lorne\nMr. Kit Vale", "Ms. Wren Lorne / Mr. Kit Vale", "Wren Lorne & Kit Vale"],
)
def test_each_of_whom_the_words_above_part_has_a_household(
    tmp_path: Path, said: str, names: str
) -> None:
    found, held = read(tmp_path, f"{said}\n{names}\nboth: {DOOR}")
    assert found[:2] == ["Wren Lorne", "Kit Vale"]
    assert len(found) == 4
    assert held == []


@pytest.mark.parametrize(
    "said",
    [
        "Wren and Kit don't need one each:",
        "College people:",
        "Bram and Ysolde want one each:",
        "Wren and Kit are a couple at last:",
    ],
)
def test_nobody_is_parted_whom_no_words_part(tmp_path: Path, said: str) -> None:
    found, _ = read(tmp_path, f"{said}\nMs. Wren Lorne\nMr. Kit Vale\n{DOOR}")
    assert len(found) == 3


def test_words_that_part_people_further_down_are_asked_of_their_household(tmp_path: Path) -> None:
    text = f"Ms. Wren Lorne\nMr. Kit Vale\n{DOOR}\nWren and Kit would like an envelope each."
    found, held = read(tmp_path, text)
    assert len(found) == 3
    assert held == ["apart-noted"]


def test_two_given_names_that_several_have_name_those_who_have_both(tmp_path: Path) -> None:
    others = (
        "Wren Penhew\n12 Mill Row\nDuluth, MN 55802\n\nKit Farrenby\n9 Mill Row\nDuluth, MN 55802"
    )
    text = f"Ms. Wren Lorne\nMr. Kit Vale\n{DOOR}\n{others}\n\nWren and Kit want one each."
    found, held = read(tmp_path, text)
    assert len(found) == 5
    assert held == ["apart-noted"]
