"""Where guides differ the docket chooses: each choice with each of its values."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any, get_args

import pytest

from addressing.materials.docket_entries import WordingEntry
from addressing.records.docket import WordingChoices
from addressing.records.pieces import Line, Role
from addressing.tables import table

PLACES = ("Street", "City", "State", "ZIP")
PLACE = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")
ELSEWHERE = frozenset(("flap", "place_card", "numbers", "outer", "inner", "cards", "style"))
"""Choices that no name line depends on; tested with cards, streets, styles and the return."""

Worded = Callable[..., dict[str, tuple[Line, ...]]]
Case = tuple[str, Any, tuple[str, str], str, str]

# The matters of dispute are those of the house's list; all forms: several etiquette guides, or
# common practice, no source. / parts the lines.
CASES: tuple[Case, ...] = (
    ("couple", "traditional", ("Mr. Tobias and Mrs. Odile Wexcombe", ""),
     "Mr. and Mrs. Tobias Wexcombe", "Mr. and Mrs. Wexcombe"),
    ("couple", "both-names", ("Mr. Tobias and Mrs. Odile Wexcombe", ""),
     "Mr. Tobias Wexcombe and Mrs. Odile Wexcombe", "Mr. and Mrs. Wexcombe"),
    ("order", "rank", ("Mr. Tobias Wexcombe and Ms. Odile Farrenby", ""),
     "Mr. Tobias Wexcombe and Ms. Odile Farrenby", "Mr. Wexcombe and Ms. Farrenby"),
    ("order", "rank", ("Mr. Tobias Wexcombe and Dr. Odile Farrenby", ""),
     "Doctor Odile Farrenby and Mr. Tobias Wexcombe", "Doctor Farrenby and Mr. Wexcombe"),
    ("order", "woman", ("Mr. Tobias Wexcombe and Ms. Odile Farrenby", ""),
     "Ms. Odile Farrenby and Mr. Tobias Wexcombe", "Ms. Farrenby and Mr. Wexcombe"),
    ("order", "woman", ("Mr. Tobias Wexcombe", "Ms. Odile Farrenby"),
     "Ms. Odile Farrenby / Mr. Tobias Wexcombe", "Ms. Farrenby / Mr. Wexcombe"),
    ("order", "woman", ("Ms. Odile Farrenby and Capt. Tobias Wexcombe", ""),
     "Captain Tobias Wexcombe and Ms. Odile Farrenby", "Captain Wexcombe and Ms. Farrenby"),
    ("order", "woman", ("Tobias Wexcombe and Odile Farrenby", ""),
     "Tobias Wexcombe and Odile Farrenby", "Tobias and Odile"),
    ("untitled", "given", ("Tobias Wexcombe Jr.", ""), "Tobias Wexcombe, Jr.", "Tobias"),
    ("untitled", "given", ("Dr. Odile Farrenby", "Tobias Wexcombe"),
     "Doctor Odile Farrenby / Tobias Wexcombe", "Doctor Farrenby / Tobias Wexcombe"),
    ("untitled", "full", ("Tobias Wexcombe", ""), "Tobias Wexcombe", "Tobias Wexcombe"),
    ("untitled", "full", ("Tobias and Odile Wexcombe", ""),
     "Tobias and Odile Wexcombe", "Tobias and Odile Wexcombe"),
    ("order", "list", ("Mr. Tobias Wexcombe and Dr. Odile Farrenby", ""),
     "Mr. Tobias Wexcombe and Doctor Odile Farrenby", "Mr. Wexcombe and Doctor Farrenby"),
    ("apart", "two-lines", ("Ms. Odile Farrenby", "Mr. Tobias Wexcombe"),
     "Ms. Odile Farrenby / Mr. Tobias Wexcombe", "Ms. Farrenby / Mr. Wexcombe"),
    ("apart", "one-line", ("Ms. Odile Farrenby", "Mr. Tobias Wexcombe"),
     "Ms. Odile Farrenby and Mr. Tobias Wexcombe", "Ms. Farrenby and Mr. Wexcombe"),
    ("junior", "comma", ("Mr. Tobias Wexcombe Jr", ""), "Mr. Tobias Wexcombe, Jr.", "Mr. Wexcombe"),
    ("junior", "plain", ("Mr. Tobias Wexcombe Jr", ""), "Mr. Tobias Wexcombe Jr.", "Mr. Wexcombe"),
    ("junior", "spelled", ("Mr. Tobias Wexcombe Jr", ""),
     "Mr. Tobias Wexcombe, junior", "Mr. Wexcombe"),
    ("honorable", "as-listed", ("Judge Odile Farrenby", ""),
     "Judge Odile Farrenby", "Judge Farrenby"),
    ("honorable", "office", ("Judge Odile Farrenby", ""),
     "The Honorable Odile Farrenby", "Judge Farrenby"),
    ("honorable", "office", ("Sheriff Odile Farrenby", ""),
     "Sheriff Odile Farrenby", "Sheriff Farrenby"),
    ("honorable", "local", ("Sheriff Odile Farrenby", ""),
     "The Honorable Odile Farrenby", "Sheriff Farrenby"),
    ("honorable", "local", ("Judge Odile Farrenby", ""),
     "The Honorable Odile Farrenby", "Judge Farrenby"),
    ("military", "rank-first", ("Lt. Tobias Wexcombe, USN", ""),
     "Lieutenant Tobias Wexcombe", "Lieutenant Wexcombe"),
    ("military", "name-first", ("Lt. Tobias Wexcombe, USN", ""),
     "Tobias Wexcombe / Lieutenant, United States Navy", "Lieutenant Wexcombe"),
    ("military", "name-first", ("SSG Tobias Wexcombe", ""),
     "Tobias Wexcombe / Staff Sergeant", "Sergeant Wexcombe"),
    ("military", "name-first", ("Col. Tobias Wexcombe, US Army", ""),
     "Colonel Tobias Wexcombe", "Colonel Wexcombe"),
    ("military", "name-first", ("Lt. and Mrs. Tobias Wexcombe", ""),
     "Lieutenant and Mrs. Tobias Wexcombe", "Lieutenant and Mrs. Wexcombe"),
    ("military", "name-first", ("Lt. Tobias Wexcombe, USN and Ms. Odile Farrenby", ""),
     "Tobias Wexcombe / Lieutenant, United States Navy / and Ms. Odile Farrenby",
     "Lieutenant Wexcombe and Ms. Farrenby"),
    ("military", "name-first", ("Lt. T. Wexcombe, USN", "Ens. Odile Farrenby, USN"),
     "T. Wexcombe / Lieutenant, United States Navy / Odile Farrenby / Ensign, United States Navy",
     "Lieutenant Wexcombe / Ensign Farrenby"),
    ("military", "name-first", ("Mr. Tobias Wexcombe and Lt. Odile Wexcombe, USAF", ""),
     "Odile Wexcombe / Lieutenant, United States Air Force / and Mr. Tobias Wexcombe",
     "Lieutenant Wexcombe and Mr. Wexcombe"),
    ("military", "name-first", ("Col. Odile Farrenby, US Army and Sgt. Tobias Wexcombe", ""),
     "Colonel Odile Farrenby / and Tobias Wexcombe / Sergeant",
     "Colonel Farrenby and Sergeant Wexcombe"),
    ("military", "name-first", ("Lt. Tobias Wexcombe and Lt. Odile Wexcombe", ""),
     "Lieutenants Tobias and Odile Wexcombe", "The Lieutenants Wexcombe"),
    ("children", "names", ("Mr. and Mrs. Tobias Wexcombe", "+Miss Linnet (9)"),
     "Mr. and Mrs. Tobias Wexcombe", "Mr. and Mrs. Wexcombe / Linnet"),
    ("children", "names", ("Mr. and Mrs. Corwin Wexcombe", "+Corwin Jr. (17), Ada (12)"),
     "Mr. and Mrs. Corwin Wexcombe", "Mr. and Mrs. Wexcombe / Corwin Jr. and Ada"),
    ("children", "titles", ("Mr. and Mrs. Tobias Wexcombe", "+Miss Linnet (9)"),
     "Mr. and Mrs. Tobias Wexcombe", "Mr. and Mrs. Wexcombe / Miss Linnet Wexcombe"),
    ("guest", "capital", ("Mr. Tobias Wexcombe and Guest", ""),
     "Mr. Tobias Wexcombe", "Mr. Wexcombe and Guest"),
    ("guest", "small", ("Mr. Tobias Wexcombe and Guest", ""),
     "Mr. Tobias Wexcombe", "Mr. Wexcombe and guest"),
    ("doctor", "spelled", ("Dr. Odile Farrenby, PhD", ""),
     "Doctor Odile Farrenby", "Doctor Farrenby"),
    ("doctor", "short", ("Dr. Odile Farrenby, M.D.", ""), "Dr. Odile Farrenby", "Dr. Farrenby"),
    ("doctor", "physicians", ("Dr. Odile Farrenby, PhD", ""), "Dr. Odile Farrenby", "Dr. Farrenby"),
    ("doctor", "physicians", ("Dr. Odile Farrenby, M.D.", ""),
     "Doctor Odile Farrenby", "Doctor Farrenby"),
    ("doctor", "physicians", ("Dr. Odile Farrenby, M.D., Ph.D.", ""),
     "Doctor Odile Farrenby", "Doctor Farrenby"),
    ("doctor", "physicians", ("Dr. Odile Farrenby", ""),
     "Doctor Odile Farrenby", "Doctor Farrenby"),
    ("same_title", "each", ("Mr. Alaric Penhew and Mr. Tobias Penhew", ""),
     "Mr. Alaric Penhew and Mr. Tobias Penhew", "Mr. Penhew and Mr. Penhew"),
    ("same_title", "together", ("Mr. Alaric Penhew and Mr. Tobias Penhew", ""),
     "The Messrs. Alaric and Tobias Penhew", "The Messrs. Penhew"),
)  # fmt: skip


def said(lines: Sequence[Line]) -> str:
    return " / ".join(line.text for line in lines if line.role is Role.NAME)


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case[0]}-{case[1]}-{case[2][0]}")
def test_a_disputed_matter_is_worded_as_the_docket_chooses(case: Case, worded: Worded) -> None:
    choice, value, (name, second), outer, inner = case
    column = "Children" if second.startswith("+") else "Partner"
    header, row = ("Name", column, *PLACES), (name, second.removeprefix("+"), *PLACE)
    found = worded(header, row, replace(WordingChoices(), **{choice: value}))
    assert (said(found["outer"]), said(found["inner"])) == (outer, inner)


@pytest.mark.parametrize(
    ("kind", "names"),
    [
        ("outer", "Tobias Wexcombe / Lieutenant, United States Navy / and Guest"),
        ("escort-card", "Lieutenant Tobias Wexcombe and Guest"),
    ],
)
def test_a_guest_without_a_name_stands_below_the_rank_and_cards_have_no_old_form(
    kind: str, names: str, worded: Worded
) -> None:
    row = ("Lt. Tobias Wexcombe, USN and Guest", *PLACE)
    choices = WordingChoices(military="name-first")
    found = worded(("Name", *PLACES), row, choices, make=(kind,))
    assert said(found[kind]) == names


def test_every_value_of_every_choice_is_tried() -> None:
    tried = {(choice, value) for choice, value, *_ in CASES}
    for name, entry in WordingEntry.model_fields.items():
        if name not in ELSEWHERE | {"master_until"}:  # ages: test_styles.py
            assert {(name, value) for value in get_args(entry.annotation)} <= tried, name


@pytest.mark.parametrize(
    ("apart", "inner"),
    [("two-lines", "Mr. Wexcombe / Ms. Farrenby"), ("one-line", "Mr. Wexcombe and Ms. Farrenby")],
)
def test_a_companion_whose_name_is_known_stands_by_the_rule_for_two_surnames(
    apart: str, inner: str, worded: Worded
) -> None:
    row = ("Mr. Tobias Wexcombe", "Ms. Odile Farrenby", *PLACE)
    found = worded(("Name", "Plus One", *PLACES), row, WordingChoices(apart=apart))
    assert said(found["inner"]) == inner


def test_letters_and_ranks_have_their_sources() -> None:
    for name in ("doctorates", "junior_ranks", "honored_offices"):
        assert all(row["source"] for row in table(name))
    known = {row["canonical"] for row in table("titles")}
    assert {row["word"] for row in table("junior_ranks") if row["kind"] == "rank"} <= known
    assert {row["title"] for row in table("honored_offices")} <= known
