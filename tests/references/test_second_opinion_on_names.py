"""Single names read a second time by nameparser 2.6.0: both agree, but where a reason is given."""

import pytest
from nameparser import HumanName

from addressing.guestlist.folding import fold
from addressing.guestlist.people.cell import read_people
from addressing.guestlist.people.vocabulary import titles

AGREED = (
    "Tobias Wexcombe",
    "Mr. Tobias Wexcombe",
    "Mrs. Odile Wexcombe",
    "Ms. Odile Farrenby",
    "Miss Odile Farrenby",
    "Dr. Odile Farrenby",
    "Dr Ingrid Halvorsby",
    "Prof. Ottoline Grayling",
    "Rev. Tobias Wexcombe",
    "Capt. Tobias Wexcombe",
    "Col. Ysolde Penhew",
    "Maj. Odile Wexcombe",
    "Sgt. Bram Ashgrove",
    "Judge Odile Farrenby",
    "Rabbi Alaric Penhew",
    "Father Corwin Ruddock",
    "Sir Alaric Penhew",
    "Tobias A. Wexcombe",
    "T. J. Wexcombe",
    "Tobias Arden Wexcombe",
    "Mr. Tobias Arden Wexcombe",
    "Mary Ann Wexcombe",
    "Odile Farrenby-Wexcombe",
    "Anne-Marie Farrenby",
    "Ludo van der Larkmoor",
    "Ludo van Larkmoor",
    "Maria de la Larkmoor",
    "Maria del Larkmoor",
    "Marie du Larkmoor",
    "Idris bin Larkmoor",
    "Ysolde St. Clarrow",
    "Ludo von Larkmoor",
    "Mr. Ludo van den Larkmoor",
    "Tobias Wexcombe Jr.",
    "Tobias Wexcombe, Jr.",
    "Mr. Tobias Wexcombe, Sr.",
    "Tobias Wexcombe III",
    "Mr. Tobias Wexcombe II",
    "Tobias Arden Wexcombe IV",
    "Dr. Tobias Wexcombe Jr.",
    "Zoë Ødegård",
    "José Penhew",
    "Siobhán Farrenby",
    "Barnaby O'Farrelly",
    "Barnaby O’Farrelly",
    "Alaric MacWhirren",
    "Alaric McWhirren",
    "Wexcombe, Tobias",
    "Wexcombe, Mr. Tobias",
    "Wexcombe, Tobias A.",
    "van der Larkmoor, Ludo",
    "Mr. Tobias 'Toby' Wexcombe",
    'Tobias "Toby" Wexcombe',
    "Tobias (Toby) Wexcombe",
    "Van Penhew",
    "Mr. Tobias Guest",
    "Linnet Ashgrove",
    "Bram Ruddock",
    "Corwin Penhew",
    "Sorrel Ashgrove",
    "Tobias Wexcombe, M.D.",
    "Odile Farrenby, Ph.D.",
    "Lt. Col. Tobias Wexcombe",
    "Dean Penhew",
    "Major Wexcombe",
    "Mr. Wexcombe",
    "Ma Penhew",
    "Captain Tobias Wexcombe, USN",
    "Sister Mary Odile",
    "Aunt Odile",
    "Odile Do",
    "J.D. Penhew",
    "Ortega Ruiz y Larkmoor",
    "Mx. Rowan Penhew",
    "Aoife Ní Larkmoor",
    "The Hon. Odile Wexcombe",
    "The Rev. Dr. Tobias Wexcombe",
    "Tobias Wexcombe, Esq.",
    "Wexcombe, Tobias, Jr.",
    "Señor Tobias Wexcombe",
    "Al Penhew",
    "Tobias O. Penhew",
    "Junior Penhew",
)
DIFFERENT = {
    "Saint Penhew": "a given name here, a title there: nobody is addressed as Saint",
    "Ludo ten Larkmoor": "ten is a Dutch particle that the other reader doesn't know",
    "Marie Saint Larkmoor": "Saint belongs to the family name, as St. does",
    "Tobias Wexcombe 3rd": "3rd is a suffix here, a family name there",
}


def ours(name: str) -> dict[str, str]:
    (person,) = read_people(name, family_first=None if "," not in name else False).people
    return {
        "title": person.title or "",
        "given": person.given or "",
        "family": person.family or "",
        "suffix": fold(" ".join((person.suffix or "", *person.credentials))),
        "nickname": person.nickname or "",
    }


def theirs(name: str) -> dict[str, str]:
    read = HumanName(name)
    title = titles().get(fold(read.title))
    return {
        "title": title.canonical if title else read.title,
        "given": f"{read.first} {read.middle}".strip(),
        "family": read.last,
        "suffix": fold(read.suffix),
        "nickname": read.nickname,
    }


@pytest.mark.parametrize("name", AGREED)
def test_a_second_reader_agrees(name: str) -> None:
    assert ours(name) == theirs(name)


@pytest.mark.parametrize("name", DIFFERENT)
def test_where_the_readers_differ_there_is_a_reason(name: str) -> None:
    assert ours(name) != theirs(name), DIFFERENT[name]
