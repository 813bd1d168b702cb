"""Whole mails of several hands: who is read, with which titles, and who has to wait.

The mails are invented, in the manner of people who write such lists: common practice, no source.
"""

import csv
from pathlib import Path

import pytest

from addressing.guestlist import read_list

HERE = Path(__file__).parent / "mails"
LINES = (HERE / "expected.tsv").read_text("utf-8").splitlines()
ROWS = list(csv.DictReader((line for line in LINES if line[0] != "#"), delimiter="\t"))


@pytest.mark.parametrize("mail", sorted({row["mail"] for row in ROWS}))
def test_a_mail_is_read_and_nobody_goes_out_unasked(mail: str) -> None:
    guest_list, findings = read_list(HERE / mail, {})
    rows = [row for row in ROWS if row["mail"] == mail]
    held = {found.household for found in findings if found.holds}
    read = [
        (home.name, " ".join(person.title or "-" for person in home.people) or "-")
        for home in guest_list.households
    ]
    assert read == [(row["name"], row["titles"]) for row in rows]
    waits = [home.name for home in guest_list.households if home.key in held]
    assert {row["name"] for row in rows if row["waits"] == "must"} <= set(waits)
    assert set(waits) <= {row["name"] for row in rows if row["waits"] != "no"}


def test_every_mail_is_expected() -> None:
    assert {path.name for path in HERE.glob("*.txt")} == {row["mail"] for row in ROWS}
