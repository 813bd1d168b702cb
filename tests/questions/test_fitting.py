"""A correction deals with the client's words about the same matter, and with no others."""

import pytest

from addressing.questions.fitting import Correction, deal_with, matters_in
from addressing.records.questions import Choice, Decision, Question
from addressing.tables import table
from addressing.where import Where

LISTED = {
    "where": "14 Larkmoor Lane, Litchfield, CT 06759",
    "who": "Ms. Ottoline Vole",
}
HERE = Where("--set", "--set", "1")


def correction(kind: str, words: str) -> Correction:
    """A correction of a household that the list has as above."""
    basis = LISTED["who" if kind in ("names", "everyone", "invited") else "where"]
    out = (Choice("No, leave them out", "drop"), Choice("Yes, still invited", "keep"))
    choices = out if kind == "invited" else ()
    ref = f"h-abcdefgh:correct:{kind}"
    asked = Question(ref, kind, "", "", "", basis, basis, HERE, choices, (), ("h-abcdefgh",))
    return Correction(asked, Decision(ref, words, HERE))


@pytest.mark.parametrize(
    ("words", "kind", "value", "fits"),
    [
        ("They have moved.", "address", "9 Mill Row, Duluth, MN 55802", True),
        ("They have moved.", "names", "Ms. Ottoline Ostrander", False),
        ("They have moved.", "unit", "Apt. 4B", False),
        ("They have moved.", "street", "9 Mill Row", False),
        ("They are at 9 Mill Row by now.", "street", "9 Mill Row", True),
        ("They are at 9 Elm St.", "street", "9 Elm Street", True),
        ("They are at 91 Elm St.", "street", "9 Elm Street", False),
        ("She is Mrs. Ostrander by now.", "street", "9 Mill Row", False),
        ("She is Mrs. Ostrander by now.", "names", "Mrs. Ottoline Ostrander", True),
        ("Use her title, she is a judge.", "street", "9 Mill Row", False),
        ("Moved to 9 Mill Row, and married.", "street", "9 Mill Row", False),
        ("Something is wrong there.", "names", "Ms. Ottoline Ostrander", False),
        ("Something is wrong there.", "invited", "no", True),
        ("They have moved.", "invited", "no", True),
        ("They have moved.", "invited", "yes", False),
        ("The kids are coming, Zora and Ike.", "names", "Mrs. Ottoline Vole", False),
        ("The kids come, Zora and Ike.", "names", "Ottoline and Mrs. Vole", False),
        ("Mrs. Vole's kids are coming.", "names", "Mrs. Ottoline Vole", False),
        ("The kids are coming, Zora and Ike.", "names", "Ottoline, Zora and Ike Vole", True),
        ("The kids are coming.", "names", "Ms. Ottoline Vole, Zora (8)", True),
        ("The kids are coming.", "names", "Ms. Ottoline Vole and Family", True),
        ("The kids are coming.", "everyone", "Ms. Ottoline Vole", True),
        ("The kids are coming.", "invited", "no", True),
        ("Zora gets her own, 9 Mill Row, Duluth 55802", "everyone", "Ms. Ottoline Vole", False),
        ("Zora gets her own, 9 Mill Row, Duluth 55802", "invited", "no", True),
        ("Their ZIP is 55802.", "postcode", "55802", True),
        ("She can't come.", "address", "9 Mill Row, Duluth, MN 55802", False),
    ],
)
def test_a_correction_fits_words_about_the_same(
    words: str, kind: str, value: str, *, fits: bool
) -> None:
    assert deal_with(words, [correction(kind, value)]) is fits


def test_street_and_town_together_deal_with_a_move_and_names_beside_them_with_a_wedding() -> None:
    parts = [correction("street", "9 Mill Row"), correction("city", "Duluth")]
    assert deal_with("They have moved.", parts)
    assert not deal_with("They married and moved.", parts)
    assert deal_with("They married and moved.", [*parts, correction("names", "Ottoline Gray")])


def test_words_in_a_column_of_corrections_are_about_that_where_they_name_no_other_matter() -> None:
    whole = [correction("address", "9 Mill Row, Duluth, MN 55802")]
    assert deal_with("off to Oxford!!", whole, "where")
    assert not deal_with("off to Oxford!!", whole, "who")
    assert not deal_with("she is Mrs. Marsh now", whole, "where")


@pytest.mark.parametrize("row", table("matter_words"), ids=lambda row: row["words"][:20])
def test_a_row_finds_its_matter_in_the_example_and_not_in_the_counter_example(
    row: dict[str, str],
) -> None:
    assert row["matter"] in matters_in(row["example"])
    assert row["matter"] not in matters_in(row["counter_example"])
