"""What stands between list and line: casing, breaks, order, and whom an envelope names."""

from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from addressing.job.styling import styles_for
from addressing.materials.shelf import open_shelf
from addressing.records.docket import Docket, WordingChoices
from addressing.records.guests import GuestList, Household, Person
from addressing.records.pieces import Line, Role
from addressing.tables import table
from addressing.where import Where
from addressing.wording import ask_capitals
from addressing.wording.casing import is_single_case, is_unsure, recase
from addressing.wording.couples import in_order
from addressing.wording.name_lines import NameLines, name_breaks

STYLES = styles_for(Docket(), open_shelf(None))
Worded = Callable[..., dict[str, tuple[Line, ...]]]
PLACES = ("Street", "City", "State", "ZIP")
PLACE = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("WEXCOMBE", "Wexcombe"),
        ("wexcombe", "Wexcombe"),
        ("O'FARRELLY", "O'Farrelly"),
        ("o’farrelly", "O’Farrelly"),
        ("MCWHIRREN", "McWhirren"),
        ("FARRENBY-WEXCOMBE", "Farrenby-Wexcombe"),
        ("TOBIAS WEXCOMBE III", "Tobias Wexcombe III"),
        ("LUDO VAN DER LARKMOOR", "Ludo van der Larkmoor"),
        ("ØDEGÅRD", "Ødegård"),
        ("T. J.", "T. J."),
        ("LARKMOOR PRESS LLC", "Larkmoor Press LLC"),
        ("larkmoor gmbh", "Larkmoor GmbH"),
    ],
)
def test_a_name_in_one_case_is_set_as_names_are(typed: str, name: str) -> None:
    assert recase(typed) == name


def test_a_name_in_mixed_case_is_no_business_of_ours() -> None:
    assert not is_single_case("MacWexcombe")
    assert not is_single_case("deWexcombe")
    assert not is_single_case("Wexcombe")
    assert not is_single_case("TJ")
    assert is_single_case("WEXCOMBE")
    assert is_unsure("MACWEXCOMBE")
    assert not is_unsure("WEXCOMBE")


@pytest.mark.parametrize("name", ["כהן", "הרצל", "محمد", "田中太郎", "ნინო ბერიძე"])
def test_a_name_of_a_script_without_capitals_is_in_no_one_case(name: str) -> None:
    """Hebrew, Arabic and Han have no capitals (Unicode, 5.18); Georgian ones begin no name."""
    assert not is_single_case(name)
    assert recase(name) == name


def test_capitals_are_asked_about_once_a_household() -> None:
    people = (Person("Mr.", "TOBIAS", "MACWEXCOMBE"), Person("Mrs.", None, "MACWEXCOMBE"))
    guest_list = GuestList("list", "", (Household("h-a", people, rows=(Where("list"),)),), 1)
    assert [(f.code, f.household, f.holds) for f in ask_capitals(guest_list)] == [
        ("capitals-recased", "h-a", False)
    ]


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        (
            "Ms. Odile Farrenby and Mr. Tobias Wexcombe",
            ["Ms. Odile Farrenby", "and Mr. Tobias Wexcombe"],
        ),
        ("Mr. and Mrs. Tobias Wexcombe", ["Mr. and Mrs. Tobias Wexcombe"]),
        ("Doctor and Mrs. Tobias Wexcombe", ["Doctor and Mrs. Tobias Wexcombe"]),
        ("Lt. Col. and Mrs. Tobias Wexcombe", ["Lt. Col. and Mrs. Tobias Wexcombe"]),
        ("The Reverend and Mrs. Tobias Wexcombe", ["The Reverend and Mrs. Tobias Wexcombe"]),
        ("Lord and Lady Wexcombe", ["Lord and Lady Wexcombe"]),
        ("Sir Tobias and Lady Wexcombe", ["Sir Tobias", "and Lady Wexcombe"]),
        ("Doctors Odile and Tobias Wexcombe", ["Doctors Odile", "and Tobias Wexcombe"]),
        ("The Honorable Odile Wexcombe", ["The Honorable", "Odile Wexcombe"]),
        ("The Hon. Odile Wexcombe", ["The Hon.", "Odile Wexcombe"]),
        ("The Rev. Dr. Odile Wexcombe", ["The Rev. Dr.", "Odile Wexcombe"]),
        ("Mr. Tobias Wexcombe, Jr.", ["Mr. Tobias Wexcombe, Jr."]),
        ("Linnet, Corwin and Bram", ["Linnet, Corwin", "and Bram"]),
    ],
)
def test_a_line_of_names_breaks_before_and_never_behind_a_title(
    text: str, parts: list[str]
) -> None:
    breaks = name_breaks(text)[:1]
    cut = [text] if not breaks else [text[: breaks[0]].rstrip(), text[breaks[0] :]]
    assert cut == parts


@pytest.mark.parametrize(
    ("text", "and_word"),
    [
        ("Herr und Frau Tobias Wexcombe", "und"),
        ("Herr Dr. und Frau Tobias Wexcombe", "und"),
        ("Monsieur et Madame Tobias Wexcombe", "et"),
        ("Señor y Señora Tobias Farrenby", "y"),
        ("Signor e Signora Tobias Wexcombe", "e"),
    ],
)
def test_two_titles_before_one_name_are_not_parted_in_any_tongue(text: str, and_word: str) -> None:
    assert name_breaks(text, and_word) == ()


def test_rank_goes_before_a_spouse_without_and_two_ranks_stay_as_listed() -> None:
    # Rank, then the list's order: common practice, no source.
    mr, dr = Person("Mr.", "Tobias", "Wexcombe"), Person("Dr.", "Odile", "Wexcombe")
    captain = Person("Captain", "Alaric", "Wexcombe")
    colonel = Person("Colonel", "Ysolde", "Wexcombe")
    assert in_order((mr, dr)) == (dr, mr)
    assert in_order((dr, captain)) == (dr, captain)
    assert in_order((captain, dr)) == (captain, dr)
    assert in_order((captain, colonel)) == (colonel, captain)
    assert in_order((mr, Person("Ms.", "Odile", "Farrenby"))) == (
        mr,
        Person("Ms.", "Odile", "Farrenby"),
    )


def test_every_name_line_says_the_cells_of_all_whom_it_names(worded: Worded) -> None:
    found = worded(
        ("Name", "Plus One", "Children", *PLACES),
        ("Mr. and Mrs. Tobias Wexcombe", "yes", "Linnet and Bram", *PLACE),
    )
    names = [line for line in found["inner"] if line.role is Role.NAME]
    assert [line.text for line in names] == [
        "Mr. and Mrs. Wexcombe and Guest",
        "Linnet and Bram",
    ]
    assert [[where.cell for where in line.cells] for line in names] == [["A2", "B2"], ["C2"]]


def test_two_of_one_family_from_two_rows_share_a_line_unless_titles_part_them() -> None:
    def outer(*people: Person) -> list[str]:
        lines = NameLines(STYLES["outer"], "outer", WordingChoices())
        household = Household("h-a", people)
        return [line.text for line in lines.of(household, everybody=False)]

    tobias, odile = Person(None, "Tobias", "Wexcombe"), Person(None, "Odile", "Wexcombe")
    linnet = Person(None, "Linnet", "Wexcombe")
    assert outer(tobias, odile) == ["Tobias and Odile Wexcombe"]
    assert outer(tobias, odile, linnet) == ["Tobias, Odile and Linnet Wexcombe"]
    assert outer(tobias, Person(None, "Odile", "Farrenby")) == [
        "Tobias Wexcombe",
        "Odile Farrenby",
    ]
    junior = replace(tobias, suffix="Jr.")
    assert outer(tobias, junior) == ["Tobias Wexcombe", "Tobias Wexcombe, Jr."]
    titled = (replace(tobias, title="Mr."), replace(odile, title="Miss"))
    assert outer(*titled) == ["Mr. Tobias Wexcombe", "Miss Odile Wexcombe"]


@pytest.mark.parametrize(
    ("name", "line"),
    [
        ("Tobias Wexcombe Jr. and Odile Wexcombe", "Tobias Wexcombe, Jr. and Odile Wexcombe"),
        ("Odile and Tobias Wexcombe Jr.", "Odile Wexcombe and Tobias Wexcombe, Jr."),
        ("Tobias and Odile Wexcombe", "Tobias and Odile Wexcombe"),
    ],
)
def test_a_suffix_never_stands_behind_a_given_name_alone(
    worded: Worded, name: str, line: str
) -> None:
    # common practice, no source
    lines = worded(("Name", *PLACES), (name, *PLACE))
    assert lines["outer"][0].text == line


def test_an_inner_bears_no_address(worded: Worded) -> None:
    found = worded(("Name", *PLACES), ("Mr. Tobias Wexcombe", *PLACE))
    assert {line.role for line in found["inner"]} == {Role.NAME}
    assert {line.role for line in found["outer"]} == {Role.NAME, Role.STREET, Role.PLACE}


def test_a_child_alone_is_addressed_as_the_grown_are(worded: Worded) -> None:
    found = worded(("Name", *PLACES), ("Miss Linnet Wexcombe (9)", *PLACE))
    assert found["outer"][0].text == "Miss Linnet Wexcombe"
    assert [line.text for line in found["inner"]] == ["Miss Wexcombe"]


@pytest.mark.parametrize(
    ("cells", "parts"),
    [
        ("Mr. and Mrs. Tobias Wexcombe, Jr.", ["MR AND MRS TOBIAS WEXCOMBE JR"]),
        ("Herr und Frau Tobias Wexcombe", ["HERR UND FRAU TOBIAS WEXCOMBE"]),
        (
            "Mr. T. J. Wexcombe, Jr. and Ms. Odile Farrenby",
            ["MR T J WEXCOMBE JR", "AND MS ODILE FARRENBY"],
        ),
        (
            "Frau Odile Farrenby und Herr Tobias Wexcombe",
            ["FRAU ODILE FARRENBY", "UND HERR TOBIAS WEXCOMBE"],
        ),
    ],
)
def test_a_line_in_capitals_breaks_where_it_would_in_small_letters(
    cells: str, parts: list[str], worded: Worded
) -> None:
    found = worded(("Name", *PLACES), (cells, *PLACE), WordingChoices("postal"))
    line = found["outer"][0]
    cuts = [0, *sorted(line.breaks), len(line.text)]
    assert [line.text[one:other].rstrip() for one, other in pairwise(cuts)] == parts


@pytest.mark.parametrize(
    "row", table("capital_words"), ids=lambda row: f"{row['kind']} {row['word']}"
)
def test_a_row_of_capitals_tells_the_unsure_from_the_sure(row: dict[str, str]) -> None:
    assert not row["example"] or is_unsure(row["example"])
    assert not row["counter_example"] or not is_unsure(row["counter_example"])
    assert row["example"] or row["counter_example"]
    assert row["source"]


@pytest.mark.parametrize(
    "name", ["ODILE", "DAVID", "DEBORAH", "LAURA", "VANESSA", "TOBIAS WEXCOMBE"]
)
def test_names_that_hide_no_capital_are_told_and_not_asked(name: str) -> None:
    people = (Person("Mr.", name, "WEXCOMBE"),)
    guest_list = GuestList("list", "", (Household("h-a", people, rows=(Where("list"),)),), 1)
    assert [found.code for found in ask_capitals(guest_list)] == ["capitals-set"]


def test_a_word_in_small_letters_among_names_with_capitals_is_asked_about() -> None:
    people = (Person("Mr.", "Tobias", "Wexcombe"), Person(None, "little", "Linnet"))
    guest_list = GuestList("list", "", (Household("h-a", people, rows=(Where("list"),)),), 1)
    assert [found.code for found in ask_capitals(guest_list)] == ["capitals-recased"]


PEOPLE = st.builds(
    Person,
    title=st.sampled_from([None, "Mrs.", "Captain"]),
    given=st.sampled_from([None, "Tobias", "Odile"]),
    family=st.sampled_from(["Wexcombe", "McLorne", "Mclorne"]),
    joined=st.booleans(),
)


@given(
    st.lists(st.tuples(PEOPLE, PEOPLE), min_size=2, max_size=12), st.sampled_from(["rank", "list"])
)
def test_two_people_are_worded_alike_whoever_was_before(
    couples: list[tuple[Person, Person]], order: str
) -> None:
    def writer() -> NameLines:
        return NameLines(STYLES["outer"], "outer", WordingChoices(order=order))

    one, homes = writer(), [Household("h-a", people) for people in couples]
    together = [one.of(home, everybody=True) for home in homes]
    assert together == [writer().of(home, everybody=True) for home in homes]
