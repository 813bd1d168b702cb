"""No line of a mail is lost: it is on an envelope, quoted in a question, or says nothing.

The mails are invented, in the manner of people who write such lists: common practice, no source.
"""

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from addressing.guestlist import read_list
from addressing.guestlist.files.small_talk import NOTHING, says_nothing
from addressing.records.findings import Finding
from addressing.records.guests import Cited, GuestList, Household

HERE = Path(__file__).parent
MAILS = sorted(
    path.relative_to(HERE)
    for folder in ("whole_mails", "mails")
    for path in (HERE / folder).glob("*.txt")
)
EVIDENT = frozenset(
    {
        NOTHING, "a greeting", "a heading", "the head of a mail", "the opening of a quoted mail",
        "the signature of a mail", "a ruled line", "the foot of a mail",
    }
)  # fmt: skip
Read = tuple[GuestList, tuple[Finding, ...]]


@cache
def read(mail: Path) -> Read:
    return read_list(HERE / mail, {})


def lines_of(mail: Path) -> Iterator[tuple[int, str]]:
    text = (HERE / mail).read_text("utf-8")
    return ((at, line) for at, line in enumerate(text.splitlines(), 1) if line.strip())


def words(text: str) -> set[str]:
    return set(re.findall(r"\w+", text.casefold()))


def parts_of(household: Household) -> list[Cited]:
    """Whatever the list says of a household, with its cells."""
    address = household.address
    fields = ("street", "unit", "recipient_extra", "city", "region", "postcode", "country")
    parts = [getattr(address, name) for name in fields] if address else []
    parts += [household.label, household.family, household.wave, household.side]
    return [part for part in parts if part is not None]


def used(home: Household) -> set[int | None]:
    """The lines that a household's words stand in."""
    cells = [cell for person in home.people for cell in person.cells]
    cells += [cell for part in parts_of(home) for cell in part.cells]
    return {cell.row for cell in (*home.rows, *cells)}


MARKS = re.compile(
    r"^[>\s]*(?:\(?\d{1,2}[.)]\s|(?:P\.?\s?)+S\b[.:]?(?:\s\d:?)?|[-–*]"
    r"|\[[^\]]*\] \w+:|\d+/\d+ – \w+ –)?\s*"
)
"""A quote mark, a bullet, a number, PS, or who wrote it when."""


def sentences(line: str) -> list[str]:
    """The sentences of a line."""
    said = re.split(r"(?<=[.!?)])\s+(?=[^\W\d])", MARKS.sub("", line))
    return [each for each in said if words(each)]


@pytest.mark.parametrize("mail", MAILS, ids=str)
def test_every_line_is_used_or_quoted_or_says_nothing(mail: Path) -> None:
    guests, findings = read(mail)
    lines = {row for home in guests.households for row in used(home)}
    told = [words(f"{found.text} {found.quoted}") for found in findings]
    told += [words(" ".join(c.text for c in parts_of(home))) for home in guests.households]
    told += [words(" ".join(column.header for column in guests.columns))]
    aside = {row.row for row in guests.unused if row.why in EVIDENT}
    lost = [
        said
        for at, line in lines_of(mail)
        if at not in lines and at not in aside
        for said in sentences(line)
        if not says_nothing(said) and not any(words(said) <= each for each in told)
    ]
    assert lost == []


@pytest.mark.parametrize("mail", MAILS, ids=str)
def test_every_line_that_is_on_no_envelope_is_asked_of_whom_it_names(mail: Path) -> None:
    guests, findings = read(mail)
    lines = {row for home in guests.households for row in used(home)}
    families: dict[str, set[str]] = {}
    for home in guests.households:
        for person in home.people:
            families.setdefault(person.family or "", set()).add(home.key)
    aside = {row.row for row in guests.unused if row.why in EVIDENT}
    missed = [
        (family, line)
        for at, line in lines_of(mail)
        if at not in lines and at not in aside
        for family, keys in families.items()
        if len(family) > 1 and re.search(rf"\b{re.escape(family)}(?:e?s)?\b", line)
        if not any(
            found.household in keys and at in {cell.row for cell in (found.where, *found.also)}
            for found in findings
        )
    ]
    assert missed == []


@pytest.mark.parametrize("mail", MAILS, ids=str)
def test_all_that_is_small_talk_is_asked_once_at_most(mail: Path) -> None:
    _, findings = read(mail)
    assert sum(found.code == "lines-not-read" for found in findings) <= 1
