"""A cell of names gives the people whom a reader of the list sees in it, by table."""

import csv
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest

from addressing.guestlist.folding import fold
from addressing.guestlist.people.cell import CellReading, read_people
from addressing.guestlist.people.children_column import read_children
from addressing.guestlist.people.companions import read_companion
from addressing.guestlist.people.names import known_title
from addressing.guestlist.people.news import doubts_address, is_marker, is_of_parting
from addressing.guestlist.people.vocabulary import meanings, words
from addressing.records.guests import Kind, Person
from addressing.tables import table

Brief = Callable[[Sequence[Person]], str]


def cells() -> list[dict[str, str]]:
    path = Path(__file__).with_name("name_cells.tsv")
    lines = [line for line in path.read_text("utf-8").splitlines() if not line.startswith("#")]
    rows = csv.DictReader(lines, delimiter="\t", quoting=csv.QUOTE_NONE, restval="")
    return [{key: value.replace("\\n", "\n") for key, value in row.items()} for row in rows]


@pytest.mark.parametrize("row", cells(), ids=lambda row: f"{row['rule']}: {row['cell']!a}")
def test_a_cell_names_these_people(row: dict[str, str], brief: Brief) -> None:
    read = read_people(row["cell"])
    assert brief(read.people) == row["people"]
    assert (read.label or "") == row["label"]
    assert (read.family or "") == row["family"]
    assert [doubt.code for doubt in read.doubts] == [row["doubt"]] * bool(row["doubt"])


def test_a_column_that_puts_the_family_first_is_not_asked_about(brief: Brief) -> None:
    read = read_people("Wexcombe, Tobias", family_first=True)
    assert brief(read.people) == "-/Tobias/Wexcombe"
    assert read.doubts == ()


def test_a_column_of_children_is_never_turned_round(brief: Brief) -> None:
    read = read_people("Linnet, Corwin", family_first=None)
    assert brief(read.people) == "-/Linnet/- ; -/Corwin/-"


# ------------------------------------------------ the table of words: each example, each counter


def _joins(read: CellReading, _: str) -> bool:
    return [p.given for p in read.people] == ["Tobias", "Odile"] and read.people[1].joined


def _guest(read: CellReading, _: str) -> bool:
    return bool(read.people) and all(person.kind is Kind.GUEST for person in read.people)


def _family(read: CellReading, _: str) -> bool:
    return read.family is not None and read.label is None and not read.people


def _children(read: CellReading, _: str) -> bool:
    unnamed = bool(read.people) and all(p.kind is Kind.CHILD and not p.given for p in read.people)
    return unnamed or (read.family is not None and not read.people)


def _suffix(read: CellReading, _: str) -> bool:
    return [(p.family, bool(p.suffix)) for p in read.people] == [("Wexcombe", True)]


def _credential(read: CellReading, _: str) -> bool:
    return len(read.people) == 1 and bool(read.people[0].credentials)


def _particle(read: CellReading, word: str) -> bool:
    family = read.people[0].family or ""
    return len(read.people) == 1 and word in fold(family).split() and family.endswith("Larkmoor")


def _company(read: CellReading, _: str) -> bool:
    return read.label is not None and not read.people


def _address_marker(read: CellReading, _: str) -> bool:
    return any(doubts_address(remark) for remark in read.remarks)


def _asked(read: CellReading, _: str) -> bool:
    return [doubt.code for doubt in read.doubts] == ["name-doubtful"]


def _number(read: CellReading, word: str) -> bool:
    guests = [person for person in read.people if person.kind is Kind.GUEST]
    return len(guests) == int(meanings("number")[word])


def _maiden(read: CellReading, word: str) -> bool:
    said = any(fold(word) in fold(remark) for remark in read.remarks)
    return said and read.people[0].family == "Wexcombe"


def _relation(read: CellReading, word: str) -> bool:
    remarks = [fold(remark).split() for remark in read.remarks]
    return len(read.people) == 1 and any(word in said for said in remarks)


def _paired(read: CellReading, word: str) -> bool:
    return any(person.title == meanings("pair-title")[word] for person in read.people)


def _told_by_joint(read: CellReading, word: str) -> bool:
    told = known_title(meanings("joint-title")[word])
    return told is not None and {person.title for person in read.people} == {told.canonical}


def _marker(read: CellReading, _: str) -> bool:
    return any(is_marker(remark) for remark in read.remarks)


def _parted(read: CellReading, _: str) -> bool:
    return any(is_of_parting(remark) for remark in read.remarks) and len(read.people) == 1


def _brings(read: CellReading, _: str) -> bool:
    return [(p.given, p.family, p.kind) for p in read.people[1:]] == [(None, None, Kind.GUEST)]


CHECKS: dict[str, Callable[[CellReading, str], bool]] = {
    "and": _joins,
    "guest": _guest,
    "family": _family,
    "family-label": lambda read, _: read.label is not None and not read.people,
    "children": _children,
    "suffix": _suffix,
    "credential": _credential,
    "particle": _particle,
    "company": _company,
    "company-weak": _company,
    "marker": _marker,
    "marker-alone": _marker,
    "asked": _asked,
    "asked-aside": _asked,
    "nameless": _asked,
    "number": _number,
    "maiden": _maiden,
    "relation": _relation,
    "kin": _brings,
    "kin-like": _brings,
    "pair-title": _paired,
    "joint-title": _told_by_joint,
    "two-titles": lambda read, _: len({p.title for p in read.people}) == len(read.people) > 1,
    "and-between": _joins,
    "and-before": lambda read, _: [p.given for p in read.people] == ["Tobias", "Elena"],
    "company-last": _company,
    "company-kin": _company,
    "address-marker": _address_marker,
    "parted": _parted,
    "said-to-be": lambda read, _: read.remarks in (("Aunt",), ("Uncle",)) and not read.doubts,
    "unrelated": lambda read, _: [d.code for d in read.doubts] == ["name-doubtful"],
    "role": lambda read, word: [fold(remark) for remark in read.remarks] == [word],
}


COLUMNS: dict[str, Callable[[str], bool]] = {
    "yes": lambda text: [p.kind for p in read_companion(text).people] == [Kind.GUEST],
    "no": lambda text: not read_companion(text).people and not read_children(text).people,
    "unsure": lambda text: [d.code for d in read_companion(text).doubts] == ["guest-noted"],
    "child-group": lambda text: fold(text) in words("child-group"),
    "adult-group": lambda text: fold(text) in words("adult-group"),
    "guest-group": lambda text: fold(text) in words("guest-group"),
}
"""Words that stand in columns of their own."""


def _behind_a_name(kind: str, text: str) -> str:
    """A word for a companion or children stands behind the name of the one who is asked."""
    return text if kind not in ("guest", "family", "children") else f"Tobias Wexcombe {text}"


def _others(read: CellReading, kind: str) -> CellReading:
    """The same reading without the one in front."""
    if kind not in ("guest", "family", "children"):
        return read
    return CellReading(read.people[1:], read.label, read.family, read.remarks, read.doubts)


@pytest.mark.parametrize(
    "row", table("name_words"), ids=lambda row: f"{row['kind']} {row['word']}: {row['example']!a}"
)
def test_the_example_of_a_word_is_read_as_its_kind(row: dict[str, str]) -> None:
    if row["kind"] in COLUMNS:
        assert COLUMNS[row["kind"]](row["example"])
        return
    read = _others(read_people(_behind_a_name(row["kind"], row["example"])), row["kind"])
    assert CHECKS[row["kind"]](read, row["word"]), read


@pytest.mark.parametrize(
    "row",
    [row for row in table("name_words") if row["counter_example"]],
    ids=lambda row: f"{row['kind']} {row['word']}: {row['counter_example']!a}",
)
def test_the_counter_example_of_a_word_is_not_read_as_its_kind(row: dict[str, str]) -> None:
    read = read_people(row["counter_example"])
    assert not CHECKS[row["kind"]](read, row["word"]), read
    assert not read.doubts


def test_a_given_name_is_of_one_kind_and_each_row_names_its_source() -> None:
    rows = table("given_names")
    names = [fold(row["name"]) for row in rows]
    assert len(set(names)) == len(names)
    assert {row["kind"] for row in rows} == {"double", "perhaps", "single", "both"}
    assert all(row["source"] for row in rows)


@pytest.mark.parametrize("word", sorted(meanings("relation")))
def test_a_word_for_a_friend_or_relative_in_small_letters_is_no_part_of_the_name_behind(
    word: str,
) -> None:
    _, other = read_people(f"Odile Farrenby and {word} Fern Penhew").people
    assert (other.title, other.given, other.family) == (None, "Fern", "Penhew")
    _, named = read_people(f"Odile Farrenby and Fern {word.title()}").people
    assert named.family == word.title()
