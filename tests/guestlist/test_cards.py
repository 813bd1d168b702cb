"""Business cards as text: in a mail, and as a list of their own."""

from pathlib import Path

import pytest

from addressing.guestlist import read_list
from addressing.guestlist.files.cards import without_cards
from addressing.guestlist.files.mail_lines import cleaned
from addressing.records.guests import Household

PENHEW = """BEGIN:VCARD
VERSION:3.0
N:Penhew;Odile;Ann;Dr.;Jr.
FN:Odile Penhew
item1.ADR;TYPE=HOME:P.O. Box 7;;14 Larkmoor Lane;Bath;ME;04530;USA
TEL:555-0100
END:VCARD
"""


def homes_of(folder: Path, text: str) -> tuple[Household, ...]:
    path = folder / "list.vcf"
    path.write_text(text, encoding="utf-8")
    return read_list(path, {})[0].households


def slots_of(text: str) -> list[dict[str, str]]:
    """The slots of each card, by meaning and ordinal, each as one text."""
    lines = [cleaned(number, raw) for number, raw in enumerate(text.splitlines(), start=1)]
    return [
        {f"{name} {place}": line.text for (name, place), (line, *_) in slots.items()}
        for _, slots in without_cards(lines)[0]
    ]


def test_a_file_of_cards_is_a_list_and_each_card_a_household(tmp_path: Path) -> None:
    other = PENHEW.replace("Odile", "Rosa").replace("item1.ADR;TYPE=HOME:P.O. Box 7", "ADR:")
    first, second = homes_of(tmp_path, PENHEW + other)
    assert (first.name, second.name) == ("Odile Ann Penhew Jr.", "Rosa Ann Penhew Jr.")
    assert second.address is not None
    assert second.address.street is not None
    assert second.address.street.text == "14 Larkmoor Lane"
    assert {cell.cell for cell in second.rows} == {"A10"}


def test_a_card_in_a_mail_stands_among_its_households_in_their_order(tmp_path: Path) -> None:
    before, behind = "Tobias Orr\n14 Elm St\nBath ME 04530", "Kit Orr\n9 Elm St\nBath ME 04530"
    homes = homes_of(tmp_path, f"Hi there,\n\n{before}\n\n{PENHEW}\n{behind}\n")
    assert [home.name for home in homes] == ["Tobias Orr", "Odile Ann Penhew Jr.", "Kit Orr"]


@pytest.mark.parametrize(
    ("value", "slot", "text"),
    [
        ("NOTE:wife Rosa\\, girls Mia\n  and Gia", "notes 1", "wife Rosa, girls Mia and Gia"),
        ("NOTE:two\\nlines", "notes 1", "two lines"),
        ('ADR;LABEL="a: b":;;9 Elm\\; rear;Bath;ME;04530;', "address 1", "9 Elm; rear"),
        ("adr:;;9 Elm St;Bath;ME;04530;", "street2 1", "Bath, ME 04530"),
    ],
)
def test_a_value_is_unfolded_and_freed_of_escapes(value: str, slot: str, text: str) -> None:
    (slots,) = slots_of(f"BEGIN:VCARD\nN:Penhew;Odile;;;\n{value}\nEND:VCARD")
    assert slots[slot] == text


@pytest.mark.parametrize(
    ("card", "name"),
    [
        ("N:Penhew;Odile\nFN:O. Penhew", "Odile Penhew"),
        ("FN:Odile Penhew", "Odile Penhew"),
        ("N:\nFN:Odile Penhew", "Odile Penhew"),
        ("ORG:Penhew Press", "Penhew Press"),
    ],
)
def test_the_names_are_those_of_the_first_property_that_has_some(card: str, name: str) -> None:
    (slots,) = slots_of(f"BEGIN:VCARD\n{card}\nEND:VCARD")
    assert slots["name 1"] == name


@pytest.mark.parametrize(
    "text", ["BEGIN:VCARD\nN:Penhew;Odile", "BEGIN:VCARD\nTEL:5\nEND:VCARD", "N:Penhew;Odile"]
)
def test_a_card_without_end_or_name_is_none(text: str) -> None:
    assert slots_of(text) == []
