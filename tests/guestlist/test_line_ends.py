"""Where a line of a mail ends what it says: the words of prose_words.tsv, and sentences."""

import pytest

from addressing.guestlist.files.line_ends import changes_above, ends_itself, parted
from addressing.guestlist.files.mail_lines import Line
from addressing.tables import table

ROWS = [row for row in table("prose_words") if row["kind"] in ("line-opens", "line-ends")]
BACK = [row for row in table("prose_words") if row["kind"] == "points-back"]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['kind']} {row['word']}")
def test_a_line_goes_on_with_such_a_word(row: dict[str, str]) -> None:
    wide = "and this is the widest line of all"
    one, other = ([*row[each].split(" ⏎ "), wide] for each in ("example", "counter"))
    assert not ends_itself(one, 0)
    assert ends_itself(other, 0)


def test_a_line_that_a_mailer_broke_goes_on() -> None:
    wrapped = ["the Penhews told us that they moved last", "winter to a house by the sea"]
    assert not ends_itself(wrapped, 0)
    assert ends_itself([*wrapped, f"{wrapped[0]} winter, nobody knew"], 0)


@pytest.mark.parametrize("row", BACK, ids=lambda row: row["word"])
def test_a_sentence_that_points_back_stays_with_the_one_before(row: dict[str, str]) -> None:
    first = Line(1, "The Penhews moved.")
    one, other = (tuple(parted((first, Line(2, row[each])))) for each in ("example", "counter"))
    assert len(one) == 1
    assert len(other) == 2


@pytest.mark.parametrize(
    "row", [row for row in table("prose_words") if row["kind"] == "of-above"],
    ids=lambda row: row["word"],
)  # fmt: skip
def test_a_line_by_itself_changes_the_household_above_it(row: dict[str, str]) -> None:
    assert changes_above(row["example"])
    assert not changes_above(row["counter"])
