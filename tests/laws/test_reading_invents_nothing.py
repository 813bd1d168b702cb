"""Whatever stands in a cell: reading it raises nothing, and invents no letter and no digit."""

from collections import Counter

from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.strategies import DataObject, SearchStrategy

from addressing.guestlist.homes.addresses import read_address
from addressing.guestlist.people.cell import read_people
from addressing.guestlist.people.children_column import read_children
from addressing.guestlist.people.companions import read_companion
from addressing.guestlist.repair import repair_text
from addressing.guestlist.written import Written
from addressing.records.guests import Address, Cited, Person
from addressing.where import Where

HERE = Where("list.csv", None, "A2")


def letters(text: str) -> Counter[str]:
    return Counter(mark for mark in text if mark.isalnum())


def names(person: Person) -> tuple[str, ...]:
    """What was taken as it stands; titles and suffixes have a form of their own."""
    found = (person.given, person.family, person.nickname, *person.credentials)
    return tuple(name for name in found if name)


@given(st.data())
def test_a_name_has_only_letters_of_its_cell(
    name_cells: SearchStrategy[str], data: DataObject
) -> None:
    cell, _ = repair_text(data.draw(name_cells), HERE)
    for family_first in (False, True, None):
        read = read_people(cell, family_first=family_first)
        for person in read.people:
            for name in names(person):
                assert all(word in cell for word in name.split()), (cell, name)
            given_names = letters(f"{person.given or ''}{person.nickname or ''}")
            assert given_names <= letters(cell)
        for text in (read.label, read.family):
            assert text is None or all(word in cell for word in text.split())


@given(st.data())
def test_the_marks_of_the_reader_reach_no_name(
    name_cells: SearchStrategy[str], data: DataObject
) -> None:
    cell = data.draw(name_cells)
    if set(cell) & set("⟨⟩\u2060"):
        return
    for read in (read_people(cell), read_companion(cell), read_children(cell)):
        said = [*(n for p in read.people for n in names(p)), read.label or "", read.family or ""]
        assert not set("".join(said)) & set("⟨⟩\u2060")


@settings(deadline=None)  # the first address loads the ZIP codes
@given(st.data())
def test_every_word_of_an_address_stands_in_its_cell(
    address_cells: SearchStrategy[str], data: DataObject
) -> None:
    cell, _ = repair_text(data.draw(address_cells), HERE)
    if not cell:
        return
    address, _, _ = read_address(Written(lines=(Cited(cell, (HERE,)),)), frozenset())
    if address is None:
        return
    for cited in as_written(address):
        for word in cited.text.replace(",", " ").split():
            assert word in cell, (cell, cited.text)
            assert cited.cells == (HERE,)


@settings(deadline=None)
@given(st.data())
def test_no_digit_of_an_address_is_lost_or_made(
    address_cells: SearchStrategy[str], data: DataObject
) -> None:
    cell, _ = repair_text(data.draw(address_cells), HERE)
    if not cell:
        return
    address, troubles, remarks = read_address(Written(lines=(Cited(cell, (HERE,)),)), frozenset())
    if address is None or any(trouble.repair for trouble in troubles):
        return
    read = "".join(cited.text for cited in (*as_written(address), *places(address)))
    assert digits(read + "".join(remarks)) == digits(cell)


def as_written(address: Address) -> tuple[Cited, ...]:
    found = (address.street, address.unit, address.recipient_extra, address.city)
    return tuple(cited for cited in found if cited is not None)


def places(address: Address) -> tuple[Cited, ...]:
    found = (address.region, address.postcode)
    return tuple(cited for cited in found if cited is not None)


def digits(text: str) -> Counter[str]:
    return Counter(mark for mark in text if mark.isdecimal())
