"""What is looked for before a costly search lets through all that the search can find."""

import pytest

from addressing.guestlist.domestic.boxes import is_box
from addressing.guestlist.domestic.tail import cut_tail
from addressing.guestlist.homes.clearing import clear
from addressing.guestlist.places.places import may_end_state
from addressing.guestlist.written import Written
from addressing.records.guests import Cited
from addressing.tables import table


def test_every_form_of_a_state_may_end_one() -> None:
    for row in table("states"):
        others = row["other_forms_seen"].replace(";", ",").split(",")
        for form in (row["code"], row["name"], row["traditional_abbreviation"], *others):
            assert not form.strip() or may_end_state(form.split()[-1]), form


def test_no_word_for_a_box_begins_with_a_figure() -> None:
    assert [r["written"] for r in table("style_words") if r["written"][:1].isdecimal()] == []
    assert is_box("P.O. Box 12")
    assert not is_box("12 Box Lane")


@pytest.mark.parametrize("state", ["New Hampshire", "N.H.", "NH", "N. H.", "N H"])
def test_a_state_of_several_words_or_letters_is_cut_off(state: str) -> None:
    tail = cut_tail(f"14 Larkmoor Lane, Keene, {state} 03431")
    assert (tail.rest, tail.city, tail.region) == ("14 Larkmoor Lane", "Keene", state.strip("."))


@pytest.mark.parametrize(
    ("line", "left"),
    [
        ("14 Larkmoor Lane", "14 Larkmoor Lane"),
        ("14 Larkmoor LaneLitchfield", "14 Larkmoor Lane, Litchfield"),
        ("14Larkmoor Lane", "14 Larkmoor Lane"),
        ("14 Larkmoor Lane - ring twice", "14 Larkmoor Lane"),
        ("14 Larkmoor Lane (Apt 4B)", "14 Larkmoor Lane, Apt 4B"),
    ],
)
def test_a_plain_street_is_left_and_another_is_cleared(line: str, left: str) -> None:
    assert [each.text for each in clear(Written((Cited(line),))).written.lines] == [left]
