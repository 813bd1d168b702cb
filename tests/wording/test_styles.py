"""What a style's forms write, and the docket's choices where guides differ."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from addressing.materials.shelf import open_shelf
from addressing.records.docket import WordingChoices
from addressing.records.guests import Person
from addressing.records.pieces import Line, Role
from addressing.records.styles import Form, Style
from addressing.wording.forms import Writer, failing
from addressing.wording.persons import child_title

Worded = Callable[..., dict[str, tuple[Line, ...]]]
PLACES = ("Street", "City", "State", "ZIP")
PLACE = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")
STYLES = open_shelf(None).styles()


def names(lines: tuple[Line, ...]) -> list[str]:
    return [line.text for line in lines if line.role is Role.NAME]


@pytest.mark.parametrize("key", STYLES)
def test_every_form_writes_its_example(key: str) -> None:
    assert failing(open_shelf(None).style(key)) == ()


def test_a_style_without_points_leaves_them_to_initials() -> None:
    writer = Writer(open_shelf(None).style("british"), "outer", WordingChoices())
    one, other = Person(None, "T.", "Penhew", "Jr."), Person(None, "O.", "Penhew")
    assert writer.one(one) == "T. Penhew, Jr"
    assert writer.two(other, replace(one, suffix=None)) == "O. and T. Penhew"
    esquire = Person(None, "T.", "Penhew", credentials=("Esq.",))
    assert writer.one(esquire) == "T. Penhew, Esq"
    assert writer.style.points is False


def test_a_form_that_writes_something_else_is_found_out() -> None:
    style = open_shelf(None).style("formal")
    first = replace(style.forms[0], gives="Uncle Toby")
    wrong = failing(replace(style, forms=(first, *style.forms[1:])))
    assert [(form.gives, text) for form, text in wrong] == [("Uncle Toby", "Uncle Tobias")]


@pytest.mark.parametrize("key", STYLES)
def test_no_form_could_be_taken_away_unnoticed(key: str) -> None:
    style = open_shelf(None).style(key)
    for place, form in enumerate(style.forms[: style.own]):
        less = replace(style, forms=(*style.forms[:place], *style.forms[place + 1 :]))
        assert not form.when or spoken(less, form) != spoken(style, form), form.write


def spoken(style: Style, form: Form) -> list[str]:
    """A form's example as the style writes it: each envelope, each choice for couples."""
    writers = [
        Writer(style, envelope, WordingChoices(couple=couple, same_title=same))
        for envelope in form.on
        for couple in ("traditional", "both-names")
        for same in ("each", "together")
    ]
    people = form.example
    return [
        writer.one(people[0]) if len(people) == 1 else writer.two(people[0], people[1])
        for writer in writers
    ]


@pytest.mark.parametrize(
    ("choices", "cells", "outer"),
    [
        # Who goes first: guides differ (common practice, no source), so the docket chooses.
        (
            WordingChoices(order="rank"),
            ("Mr. Tobias Wexcombe and Dr. Odile Farrenby", ""),
            ["Doctor Odile Farrenby and Mr. Tobias Wexcombe"],
        ),
        (
            WordingChoices(order="list"),
            ("Mr. Tobias Wexcombe and Dr. Odile Farrenby", ""),
            ["Mr. Tobias Wexcombe and Doctor Odile Farrenby"],
        ),
        # Two of one address and two surnames: two lines (a newspaper's etiquette column) or one.
        (
            WordingChoices(apart="two-lines"),
            ("Ms. Odile Farrenby", "Mr. Tobias Wexcombe"),
            ["Ms. Odile Farrenby", "Mr. Tobias Wexcombe"],
        ),
        (
            WordingChoices(apart="one-line"),
            ("Ms. Odile Farrenby", "Mr. Tobias Wexcombe"),
            ["Ms. Odile Farrenby and Mr. Tobias Wexcombe"],
        ),
        # GPO Style Manual 2008, 16.12; The Chicago Manual of Style (from memory); common practice.
        (WordingChoices(), ("Mr. Tobias Wexcombe Jr", ""), ["Mr. Tobias Wexcombe, Jr."]),
        (
            WordingChoices(junior="plain"),
            ("Mr. Tobias Wexcombe Jr", ""),
            ["Mr. Tobias Wexcombe Jr."],
        ),
        (
            WordingChoices(junior="spelled"),
            ("Mr. Tobias Wexcombe Jr", ""),
            ["Mr. Tobias Wexcombe, junior"],
        ),
        (
            WordingChoices(junior="spelled"),
            ("Mr. Tobias Wexcombe III", ""),
            ["Mr. Tobias Wexcombe III"],
        ),
    ],
)
def test_where_guides_differ_the_docket_chooses(
    choices: WordingChoices, cells: tuple[str, str], outer: list[str], worded: Worded
) -> None:
    found = worded(("Name", "Partner", *PLACES), (*cells, *PLACE), choices)
    assert names(found["outer"]) == outer


@pytest.mark.parametrize(
    ("choices", "cells", "outer", "inner"),
    [
        # A reference-desk chart: The Honorable and the full name; inside the office, as it is said.
        (
            WordingChoices(honorable="office"),
            ("Judge Tobias Wexcombe and Mrs. Odile Wexcombe", ""),
            ["The Honorable Tobias Wexcombe and Mrs. Wexcombe"],
            ["Judge and Mrs. Wexcombe"],
        ),
        (
            WordingChoices(),
            ("Senator Odile Farrenby", ""),
            ["Senator Odile Farrenby"],
            ["Senator Farrenby"],
        ),
        (
            WordingChoices(honorable="office"),
            ("Senator Odile Farrenby", ""),
            ["The Honorable Odile Farrenby"],
            ["Senator Farrenby"],
        ),
        # Not county and city officials (a protocol guide).
        (
            WordingChoices(honorable="office"),
            ("Sheriff Odile Farrenby", ""),
            ["Sheriff Odile Farrenby"],
            ["Sheriff Farrenby"],
        ),
        # Common practice, no source: a capital or a small g.
        (
            WordingChoices(guest="small"),
            ("Mr. Tobias Wexcombe and Guest", ""),
            ["Mr. Tobias Wexcombe"],
            ["Mr. Wexcombe and guest"],
        ),
        # Several etiquette guides; the age is one of those that they name.
        (
            WordingChoices(children="titles"),
            ("Mr. and Mrs. Tobias Wexcombe", "Miss Linnet (9), Master Corwin (6)"),
            ["Mr. and Mrs. Tobias Wexcombe"],
            ["Mr. and Mrs. Wexcombe", "Miss Linnet Wexcombe", "Master Corwin Wexcombe"],
        ),
        (
            WordingChoices(children="titles", master_until=6),
            ("Mr. and Mrs. Tobias Wexcombe", "Linnet (9), Master Corwin (6)"),
            ["Mr. and Mrs. Tobias Wexcombe"],
            ["Mr. and Mrs. Wexcombe", "Linnet Wexcombe", "Corwin Wexcombe"],
        ),
        (
            WordingChoices(),
            ("Mr. and Mrs. Tobias Wexcombe", "Miss Linnet (9), Master Corwin (6)"),
            ["Mr. and Mrs. Tobias Wexcombe"],
            ["Mr. and Mrs. Wexcombe", "Linnet and Corwin"],
        ),
    ],
)
def test_offices_children_and_guests_are_as_the_docket_says(
    choices: WordingChoices,
    cells: tuple[str, str],
    outer: list[str],
    inner: list[str],
    worded: Worded,
) -> None:
    found = worded(("Name", "Children", *PLACES), (*cells, *PLACE), choices)
    assert (names(found["outer"]), names(found["inner"])) == (outer, inner)


def test_a_boy_is_master_until_an_age_then_without_a_title_and_mister_from_eighteen() -> None:
    boy = Person("Master", "Corwin", "Wexcombe")
    titles = [child_title(replace(boy, age=age), 8) for age in (None, 7, 8, 17, 18)]
    assert titles == ["Master", "Master", None, None, "Mr."]
    assert child_title(Person("Miss", "Linnet", None, age=12), 8) == "Miss"


def test_outer_and_inner_may_have_styles_of_their_own(worded: Worded) -> None:
    row = ("Mr. Tobias and Mrs. Odile Wexcombe", *PLACE)
    found = worded(("Name", *PLACES), row, WordingChoices(outer="postal", inner="relaxed"))
    assert [line.text for line in found["outer"]] == [
        "MR AND MRS TOBIAS WEXCOMBE",
        "14 LARKMOOR LN",
        "LITCHFIELD CT 06759",
    ]
    assert names(found["inner"]) == ["Tobias and Odile"]


def test_beside_a_title_of_another_language_a_doctor_is_dr() -> None:
    writer = Writer(open_shelf(None).style("formal"), "outer", WordingChoices())
    ludwig = Person("Dr.", "Ludwig", "Wexcombe")
    said = writer.two(ludwig, Person("Frau", "Greta", "Farrenby"))
    assert said == "Dr. Ludwig Wexcombe und Frau Greta Farrenby"
    said = writer.two(ludwig, Person("Ms.", "Greta", "Farrenby"))
    assert said == "Doctor Ludwig Wexcombe and Ms. Greta Farrenby"


def test_a_form_for_given_names_calls_nobody_by_her_husband_s() -> None:
    formal = open_shelf(None).style("formal")
    odile = (Person("Ms.", "Odile", "Farrenby"),)
    first = Form(1, ("inner",), ("given name",), "{one.given}", odile, "Odile", "ours")
    style = replace(formal, forms=(first, *formal.forms))
    writer = Writer(style, "inner", WordingChoices())
    widow = Person(title="Mrs.", given="Tobias", family="Wexcombe")
    assert writer.one(widow) == "Mrs. Wexcombe"
    assert writer.one(replace(widow, given="Odile")) == "Odile"
