"""Codes of the client's own in a column of replies: the few that differ are asked about."""

from collections.abc import Callable

import pytest

from addressing.records.findings import Finding
from addressing.records.guests import GuestList

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]


def asked(read: Read, *codes: str, header: str = "Status") -> list[str]:
    """The codes of the rows that are asked about."""
    rows = [
        (code, f"Odile {family}", f"{number} Mill Row", "Bath", "ME", "04530")
        for number, (code, family) in enumerate(
            zip(codes, ("Penhew", "Orr", "Lorne", "Vale", "Farrenby", "Ruddock"), strict=True), 1
        )
    ]
    _, findings = read([(header, "Name", "Street", "City", "State", "ZIP"), *rows])
    return [each.quoted for each in findings if each.code == "marker-in-list"]


@pytest.mark.parametrize(
    ("codes", "odd"),
    [
        ("AAAAHX", ["H", "X"]),
        ("AAAAAA", []),
        ("ACDEFG", []),
        ("YYYYNY", ["N"]),
        ("YYYYYX", []),
        ("AAAAAH", ["H"]),
    ],
)
def test_a_code_that_sets_a_row_apart_is_asked_about(
    read_rows: Read, codes: str, odd: list[str]
) -> None:
    """An X is a mark for a yes as well as for a no, save among letters of the client's own."""
    assert asked(read_rows, *codes) == odd


def test_words_of_a_reply_are_no_codes(read_rows: Read) -> None:
    replies = ("sent", "sent", "sent", "later", "sent", "sent")
    assert asked(read_rows, *replies) == []
