"""The same household sent in again, or kept twice: used once, and no word of either row is lost."""

from collections.abc import Callable

from addressing.records.findings import Finding
from addressing.records.guests import GuestList

ReadRows = Callable[..., tuple[GuestList, tuple[Finding, ...]]]

HEADER = ("Timestamp", "First", "Last", "Partner", "Address", "City", "State", "ZIP", "Comments")
TOWN = ("Richmond", "VA", "23221")


def _sent(time: str, names: tuple[str, str, str], street: str, said: str = "") -> tuple[str, ...]:
    return (f"2027-02-01 {time}", *names, street, *TOWN, said)


def _names(guests: GuestList) -> list[list[str | None]]:
    return [[p.given for p in home.people] for home in guests.households]


def test_three_answers_of_one_couple_are_one_envelope_and_their_comments_stay(
    read_rows: ReadRows,
) -> None:
    names = ("Tobias", "Wexcombe", "Odile Wexcombe")
    small = ("tobias", "wexcombe", "odile wexcombe")
    guests, findings = read_rows(
        [
            HEADER,
            _sent("9:00", small, "17 larkmoor ln", "we bring grandma too"),
            _sent("9:05", names, "17 Larkmoor Ln", "hit enter too soon"),
            _sent("9:09", names, "17 Larkmoor Lane"),
        ]
    )
    assert _names(guests) == [["Tobias", "Odile"]]
    assert [row.row for row in guests.unused] == [2, 4]
    assert "duplicate-probable" not in {found.code for found in findings}
    said = " ".join(found.text for found in findings)
    assert "we bring grandma too" in said
    assert "hit enter too soon" in said


def test_a_couple_that_each_sent_in_is_one(read_rows: ReadRows) -> None:
    guests, findings = read_rows(
        [
            HEADER,
            _sent("9:00", ("Tobias", "Wexcombe", "Odile Wexcombe"), "17 Larkmoor Ln"),
            _sent("9:05", ("Odile", "Wexcombe", "Tobias Wexcombe"), "17 Larkmoor Lane"),
        ]
    )
    assert _names(guests) == [["Tobias", "Odile"]]
    assert not [found for found in findings if found.holds]


def test_a_unit_more_is_asked_about(read_rows: ReadRows) -> None:
    guests, findings = read_rows(
        [
            HEADER,
            _sent("9:00", ("Kit", "Orr", ""), "17 Larkmoor Ln"),
            _sent("9:05", ("Kit", "Orr", ""), "17 Larkmoor Ln Apt 5"),
        ]
    )
    assert len(guests.households) == 2
    assert "duplicate-probable" in {found.code for found in findings}


def test_an_accent_more_is_asked_about(read_rows: ReadRows) -> None:
    guests, _ = read_rows(
        [
            HEADER,
            _sent("9:00", ("José", "Orr", "Una Orr"), "17 Larkmoor Ln"),
            _sent("9:05", ("Jose", "Orr", "Una Orr"), "17 Larkmoor Ln"),
        ]
    )
    assert len(guests.households) == 2


def test_a_note_beside_a_row_that_equals_another_to_the_letter_is_asked_about(
    read_rows: ReadRows,
) -> None:
    names = ("Tobias", "Wexcombe", "")
    guests, findings = read_rows(
        [
            HEADER,
            _sent("9:00", names, "17 Larkmoor Ln"),
            _sent("9:05", names, "17 Larkmoor Ln", "can't come after all"),
        ]
    )
    assert len(guests.households) == 1
    assert [f.holds for f in findings if "can't come" in f.text] == [True]
