"""Whatever stands in a cell of names: reading it raises nothing, and no letter of it is lost."""

import re

from hypothesis import example, given, settings
from hypothesis import strategies as st

from addressing.guestlist.folding import fold
from addressing.guestlist.people.cell import CellReading, read_people
from addressing.guestlist.people.children_column import read_children
from addressing.guestlist.people.companions import read_companion
from addressing.guestlist.people.vocabulary import meanings, titles
from addressing.tables import table

NAMES = ("Tobias", "Odile", "Wexcombe", "Farrenby-Penhew", "O’Farrelly", "Mary Ann", "J. R.", "林")
MARKS = (" ", " ", " ", ", ", " & ", "/", "; ", "\n", " - ", " (", ") ", '"', ". ", " + ", "’s ")
TITLES = ("Mr.", "Mrs", "Drs.", "The Rev.", "Lt. Col.", "Aunt", "Sir", "Sr.", "M.", "SrA", "Dean")
WORDS = tuple(row["word"] for row in table("name_words"))
cells = st.lists(
    st.one_of(*(st.sampled_from(each) for each in (NAMES, MARKS, MARKS, TITLES, WORDS)))
    | st.integers(0, 120).map(str),
    max_size=12,
).map("".join)
anything = st.text(alphabet="aBé林ñ'’.-,;&+/()[]⟨⟩#%*\"“ \n12", max_size=24)
orders = st.sampled_from((True, False, None))


def words_of(text: str) -> list[str]:
    return re.findall(r"[^\W\d_]+|\d+", text.casefold())


def said(read: CellReading) -> str:
    """All that a reading hands on: people, what it calls them, remarks, and what it asks."""
    parts = [read.label, read.family, *read.remarks, *(doubt.text for doubt in read.doubts)]
    for p in read.people:
        parts += [p.title, p.given, p.family, p.suffix, p.nickname, *p.credentials, p.kind.value]
        parts += [str(p.age)] if p.age is not None else []
    return " ".join(part for part in parts if part)


def _functional() -> frozenset[str]:
    """Words that are no names and may be understood instead of kept: titles, joints, counts."""
    understood = (row["word"] for row in table("name_words") if row["kind"] in UNDERSTOOD)
    written = [
        *titles(),
        *understood,
        *meanings("relation"),
        "their",
        "his",
        "her",
        "our",
        "the",
        "a",
        "s",
        "for",
        "of",
    ]
    return frozenset(part for word in written for part in words_of(fold(word)))


UNDERSTOOD = ("and", "and-between", "guest", "family", "children", "number", "suffix", "maiden",
              "kin", "kin-like")  # fmt: skip
FUNCTIONAL = _functional()


def lost(text: str, read: CellReading) -> list[str]:
    """Words of the cell that a reading hands on nowhere, numbers that were understood left out."""
    kept = "".join(words_of(fold(said(read))))
    return [
        word
        for word in (fold(written).replace(" ", "") for written in words_of(text))
        if word not in kept and word not in FUNCTIONAL and not word.isdigit() and not _age(word)
    ]


def _age(word: str) -> bool:
    weeks = {"mo", "mos", "mth", "mths", "month", "months", "wk", "wks", "week", "weeks"}
    return word in {"age", "aged", "yrs", "yr", "years", "year", "yo", "old", "y", "o"} | weeks


@settings(deadline=None)
@given(text=cells, family_first=orders)
@example(text="Tobias ⟨#5⟩ Wexcombe", family_first=False)
@example(text="Odile Farrenby (", family_first=False)
@example(text="guest of honor", family_first=True)
def test_no_word_of_a_cell_is_lost(*, text: str, family_first: bool | None) -> None:
    assert lost(text, read_people(text, family_first=family_first)) == []


@settings(deadline=None)
@given(text=anything, family_first=orders)
def test_any_text_can_be_read_and_keeps_its_letters(
    *, text: str, family_first: bool | None
) -> None:
    assert lost(text, read_people(text, family_first=family_first)) == []


@settings(deadline=None)
@given(st.text(max_size=40))
def test_reading_raises_nothing_whatever_the_text(text: str) -> None:
    read_people(text)
    read_companion(text)
    read_children(text)


@settings(deadline=None)
@given(cells, st.integers(100, 99_999))
def test_a_long_number_is_handed_on_as_it_is(text: str, number: int) -> None:
    assert str(number) in said(read_people(f"Tobias {text} {number}"))
