"""Where the name of a firm, a church or a family may be broken, and where it must not."""

import pytest

from addressing.tables import table
from addressing.wording.firm_breaks import firm_breaks

ROWS = table("firm_breaks")


def place(marked: str) -> tuple[str, int]:
    return marked.replace("|", " "), marked.index("|") + 1


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["word"])
def test_a_firms_name_breaks_as_the_tables_example_and_never_as_its_counter_example(
    row: dict[str, str],
) -> None:
    text, at = place(row["example"])
    assert at in firm_breaks(text)
    text, at = place(row["counter"])
    assert at not in firm_breaks(text)
    assert row["word"] in row["example"].casefold().replace("|", " ").replace(".", "")


@pytest.mark.parametrize(
    ("text", "first"),
    [
        ("Quillfeather, Goddenham & Daughters LLP", "& Daughters LLP"),
        ("The Friends of the Larkmoor Library", "of the Larkmoor Library"),
        ("Larkmoor Quarry Hill Rowing Club", "Hill Rowing Club"),
        ("The Family of Doctor Tobias Penhew", "of Doctor Tobias Penhew"),
    ],
)
def test_the_best_place_is_before_and_or_of_else_the_middle(text: str, first: str) -> None:
    assert text[firm_breaks(text)[0] :] == first


@pytest.mark.parametrize("text", ["Quillfeather", "The Wexcombe Family", "St. Odile", "Penhew LLP"])
def test_what_is_one_name_has_no_break(text: str) -> None:
    assert firm_breaks(text) == ()


def test_no_persons_name_is_parted_within_a_label() -> None:
    text = "The Family of Mr. and Mrs. Tobias Penhew"
    assert [text[at:] for at in firm_breaks(text)] == ["of Mr. and Mrs. Tobias Penhew"]
