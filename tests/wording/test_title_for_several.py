"""A title that the list has once for several: each one's own where they stand alone."""

import pytest

from addressing.guestlist.people.cell import read_people
from addressing.materials.shelf import open_shelf
from addressing.records.docket import WordingChoices
from addressing.wording.forms import Writer

FORMAL = open_shelf(None).style("formal")


@pytest.mark.parametrize(
    ("cell", "alone"),
    [
        ("MM. Tobias et Alaric Penhew", ["Monsieur Tobias Penhew", "Monsieur Alaric Penhew"]),
        ("Mmes Odile et Linnet Penhew", ["Madame Odile Penhew", "Madame Linnet Penhew"]),
        ("Herren Tobias und Alaric Penhew", ["Herr Tobias Penhew", "Herr Alaric Penhew"]),
        ("Sigg. Tobias e Elena Penhew", ["Tobias Penhew", "Elena Penhew"]),
        ("Sres. Tobias e Inés Penhew", ["Tobias Penhew", "Inés Penhew"]),
        ("Sras. Odile e Inés Penhew", ["Señora Odile Penhew", "Señora Inés Penhew"]),
    ],
)
def test_each_alone_bears_no_title_of_several(cell: str, alone: list[str]) -> None:
    writer = Writer(FORMAL, "outer", WordingChoices())
    assert [writer.one(person) for person in read_people(cell).people] == alone
