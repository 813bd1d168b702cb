"""A unit's number alone is set behind "#", which is told once with all its cells."""

from dataclasses import replace

from addressing.records.findings import Severity
from addressing.records.guests import Address, Cited, GuestList, Household
from addressing.where import Where
from addressing.wording import set_behind_sign


def _home(number: int, unit: str, country: str = "US", word: str | None = None) -> Household:
    cell = (Where("list.csv", None, f"C{number}"),)
    address = Address(
        Cited("14 Larkmoor Lane"), Cited(unit, cell), country=Cited(country), unit_word=word
    )
    return Household(f"h-{number:08d}", (), address=address)


def _list(*homes: Household) -> GuestList:
    return GuestList("list.csv", "", homes, len(homes))


def test_all_numbers_alone_are_told_in_one_note_with_their_cells() -> None:
    homes = [_home(2, "10-N"), _home(3, "5B"), _home(4, "7"), _home(5, "B")]
    (note,) = set_behind_sign(_list(*homes))
    assert note.severity is Severity.NOTE
    assert note.household is None
    assert [where.cell for where in (note.where, *note.also)] == ["C2", "C3", "C4", "C5"]
    assert "“10-N” (C2), “5B” (C3), “7” (C4) and 1 more" in note.text


def test_what_the_list_says_itself_is_no_choice() -> None:
    for home in (_home(2, "#5"), _home(2, "Apt 5"), _home(2, "5", word="Apartment")):
        assert not set_behind_sign(_list(home))
    assert not set_behind_sign(_list(_home(2, "5", country="CA")))
    assert not set_behind_sign(_list(replace(_home(2, "5"), by_hand=True)))
