"""A note that names a companion, says where to send it or how to address them is asked about."""

from pathlib import Path

import pytest

from addressing.guestlist import read_list
from addressing.guestlist.asking import finding
from addressing.guestlist.people.news import doubts_address
from addressing.guestlist.rows.new_names import renamed
from addressing.guestlist.rows.noted import asked_of
from addressing.records.guests import Address, Cited, Household, Kind, Person
from addressing.tables import table
from addressing.where import Where

ROWS = table("note_words")
CODES = {
    "elsewhere": "address-doubtful",
    "mended": "address-doubtful",
    "asked-place": "address-doubtful",
    "now-there": "address-doubtful",
    "company": "guest-noted",
    "offspring": "children-noted",
    "people-counted": "guest-noted",
    "apart": "apart-noted",
    "own": "apart-noted",
    "unsure": "marker-in-list",
    "unsure-alone": "marker-in-list",
    "unsure-of": "marker-in-list",
    "childless": "marker-in-list",
}
"""What the words of a kind become; the others are "name-noted"."""
QUIET = ("no-name", "negation", "of-another", "unwed", "unit-told", "unit-before", "unit-not")
PAIRS = ("apart", "own", "rank-before", "rank-behind", "rank-of-all", "doctors-degree")
"""Kinds whose examples are of two."""
PENHEW = (Person(title="Mr.", given="Tobias", family="Penhew"),)
COUPLE = (*PENHEW, Person(title="Mrs.", given="Odile", family="Penhew"))
HOME = Address(street=Cited("14 Larkmoor Lane"))


def code_of(
    note: str,
    people: tuple[Person, ...] = PENHEW,
    asked: tuple[str, ...] = (),
    address: Address | None = HOME,
) -> str:
    found = finding("remark", Where("list.csv", None, "F2"), "The list says it.", "Read it.", note)
    return asked_of(found, Household("h-aaaaaaaa", people, address=address), asked).code


def people_for(kind: str) -> tuple[Person, ...]:
    if kind == "wed":
        return (*PENHEW, Person(title="Ms.", given="Odile", family="Lorne"))
    if kind == "becomes":
        return (*PENHEW, Person(given="Odile", family="Lorne"))
    if kind == "childless":
        return (*COUPLE, Person(given="Linnet", kind=Kind.CHILD))
    return COUPLE if kind in PAIRS or kind == "renamed" else PENHEW


@pytest.mark.parametrize(
    "row",
    [row for row in ROWS if row["kind"] not in QUIET],
    ids=lambda row: f"{row['kind']}: {row['words']!a}",
)
def test_a_note_with_such_words_is_asked_about_and_its_neighbour_is_not(
    row: dict[str, str],
) -> None:
    people = people_for(row["kind"])
    assert code_of(row["example"], people) == CODES.get(row["kind"], "name-noted")
    beside = ("remark", "guest-noted") if row["kind"] == "companion" else ("remark",)
    assert code_of(row["counter_example"], people) in beside


@pytest.mark.parametrize(
    ("note", "people", "code"),
    [
        ("family of 5", 2, "children-noted"),
        ("4 ppl", 2, "children-noted"),
        ("2 people", 2, "remark"),
        ("2 people", 1, "guest-noted"),
        ("1 person", 1, "remark"),
        ("not 4 people", 2, "remark"),
    ],
)
def test_a_note_that_counts_more_than_are_named_is_asked_about(
    note: str, people: int, code: str
) -> None:
    assert code_of(note, COUPLE[:people]) == code


def test_a_note_with_a_whole_address_is_asked_about_and_a_street_alone_is_not() -> None:
    there = "at her daughter's until Easter: c/o Lucy Orr, 12 Elm Place, Mobile, AL 36604"
    assert code_of(there) == "address-doubtful"
    assert code_of("grew up on 12 Elm Place") == "remark"


@pytest.mark.parametrize(
    "row",
    [row for row in ROWS if row["kind"] == "no-name"],
    ids=lambda row: row["words"],
)
def test_a_word_that_is_no_name_names_no_companion(row: dict[str, str]) -> None:
    assert code_of(row["example"]) in ("remark", "guest-noted")
    assert code_of(row["counter_example"]) == "name-noted"


@pytest.mark.parametrize(
    "row", [row for row in ROWS if row["kind"] == "negation"], ids=lambda row: row["words"]
)
def test_what_a_note_denies_is_no_question(row: dict[str, str]) -> None:
    assert code_of(row["example"]) == "remark"
    assert code_of(row["counter_example"]) == "guest-noted"


def test_a_note_that_goes_on_behind_the_rows_name_is_asked_about() -> None:
    for note in ("& Lois. In Florida until May", "and Lois", "&Lois"):
        assert code_of(note) == "name-noted"
    for note in ("& no nuts", "Friends of Ann & Lois", "and vegan"):
        assert code_of(note) == "remark"


def test_a_companion_whom_the_row_names_already_is_no_question() -> None:
    both = (*PENHEW, Person(title="Ms.", given="Lucy", family="Orr"))
    assert code_of("plus one is Lucy Orr", both) == "remark"
    assert code_of("plus one is Jonas Berg", both) == "name-noted"


def test_a_companion_whom_the_row_has_without_a_name_is_no_question() -> None:
    assert code_of("plus one?", (*PENHEW, Person(kind=Kind.GUEST))) == "remark"
    assert code_of("plus one?", COUPLE) == "remark"


def test_children_whom_the_row_has_are_no_question() -> None:
    assert code_of("kids too", (*PENHEW, Person(given="Una", kind=Kind.CHILD))) == "remark"


def test_separate_envelopes_are_no_question_of_somebody_alone() -> None:
    assert code_of("separate invites pls", PENHEW) == "remark"


@pytest.mark.parametrize("note", ["kept her name", "getting married in May", "just married"])
def test_a_name_that_she_keeps_is_no_question_where_both_names_stand(note: str) -> None:
    both = (*PENHEW, Person(title="Ms.", given="Lucy", family="Orr", joined=True))
    assert code_of(note, both) == "remark"
    assert code_of(note, COUPLE) == "name-noted"
    assert code_of(note, (*PENHEW, Person(given="Lucy"))) == "name-noted"


def test_a_name_that_will_be_another_is_asked_about_all_the_same() -> None:
    both = (*PENHEW, Person(title="Ms.", given="Lucy", family="Orr"))
    assert code_of("getting married in May, will be Mrs. Penhew", both) == "name-noted"


def test_a_name_that_is_lacking_is_asked_for_once() -> None:
    assert code_of("get last name", PENHEW) == "name-noted"
    assert code_of("get last name", PENHEW, ("name-doubtful",)) == "remark"


@pytest.mark.parametrize(
    "note", ["Odile only please", "no Tobias", "put Odile first", "just Tobias"]
)
def test_a_note_that_names_one_of_two_is_asked_about(note: str) -> None:
    assert code_of(note, COUPLE) == "name-noted"
    assert code_of("Odile knows the band", COUPLE) == "remark"


def test_a_note_of_nothing_but_question_marks_is_a_question() -> None:
    assert code_of("??") == "note-open"
    assert code_of("!!") == "remark"


def test_who_is_the_doctor_is_asked_where_nobody_is_titled_so() -> None:
    doctor = (*PENHEW, Person(title="Dr.", given="Odile", family="Penhew"))
    assert code_of("she is the doctor", COUPLE) == "name-noted"
    assert code_of("ODILE is the doctor", doctor) == "remark"


def test_an_address_that_is_lacking_is_asked_for_once() -> None:
    assert code_of("ask mom for address", address=None) == "remark"


def test_a_title_that_the_list_has_already_is_no_question() -> None:
    listed = (Person(title="Mrs.", given="Odile", family="Penhew"),)
    assert code_of("widowed - she likes Mrs.", listed) == "remark"
    assert code_of("prefers Mrs. Carl Penhew!", listed) == "name-noted"


@pytest.mark.parametrize(
    "note",
    ["Vegetarian", "usher", "Table 4", "use the side gate", "college friend of Odile",
     "need email address", "gift sent 5/2", "just him", "adults only", "sister / MOH"],
)  # fmt: skip
def test_any_other_note_stays_a_remark(note: str) -> None:
    assert code_of(note) == "remark"


def test_a_title_and_a_name_beside_another_name_are_asked_about() -> None:
    """A widow may keep to her husband's name; what they call an aunt is no other name."""
    listed = (Person(given="Odile", family="Penhew"),)
    assert code_of("Mrs. Harold – widow", listed) == "name-noted"
    assert code_of("Aunt Teddy", listed) == "remark"
    assert code_of("Mr. Orr's neighbor", listed) == "remark"


def proposed(note: str, *people: Person) -> list[str]:
    found = finding("remark", Where("list.csv", None, "F2"), "The list says it.", "Read it.", note)
    home = Household("h-aaaaaaaa", people or PENHEW, address=HOME)
    return [value for field, value in asked_of(found, home).likely if field == "names"]


@pytest.mark.parametrize(
    ("note", "names"),
    [
        ("wife Lucy", "Mr. Tobias Penhew and Lucy Penhew"),
        ("wife Lucy. Mail only to the box", "Mr. Tobias Penhew and Lucy Penhew"),
        ("husb. Mr. Jonas van Berg", "Mr. Tobias Penhew and Mr. Jonas van Berg"),
        ("husband: Jonas Berg (not Dr.)", "Mr. Tobias Penhew and Jonas Berg"),
        ("& Lucy. In Florida until May", "Mr. Tobias Penhew and Lucy Penhew"),
        ("Mrs. = Lucy", "Mr. Tobias Penhew and Mrs. Lucy Penhew"),
        ("plus one: Lucy Orr", "Mr. Tobias Penhew and Lucy Orr"),
    ],
)
def test_the_companion_of_a_note_is_proposed_as_an_answer(note: str, names: str) -> None:
    assert proposed(note) == [names]


@pytest.mark.parametrize(
    "note",
    [
        "plus one is Lucy",  # whose family name?
        "husband Mr. Drew C.",
        "wife Lucy, kids Amos and Ruth",
        "goes by Toby",
        "wife Lucy or husband Jonas",
    ],
)
def test_nothing_is_proposed_where_a_name_is_not_whole(note: str) -> None:
    assert proposed(note) == []


def test_nothing_is_proposed_beside_two() -> None:
    assert proposed("wife Lucy", *COUPLE) == []


HERE = [row for row in table("row_words") if row["kind"] == "address-here"]


@pytest.mark.parametrize("row", HERE, ids=lambda row: row["word"])
def test_a_note_that_the_listed_address_is_the_new_one_asks_nothing(row: dict[str, str]) -> None:
    assert code_of(row["example"]) == "remark"
    assert not doubts_address(row["example"])
    assert "moved" not in row["counter_example"]
    assert doubts_address(f"moved, {row['counter_example']}")


def test_a_name_that_both_have_already_is_no_question() -> None:
    assert code_of("she's a Penhew too since May", COUPLE) == "remark"


@pytest.mark.parametrize("header", ["Notes", ""])
def test_a_bare_maybe_beside_a_guest_holds_them(tmp_path: Path, header: str) -> None:
    path = tmp_path / "list.csv"
    rows = "Kit Orr,9 Elm St,Bath,ME,04530,maybe\nIda Orr,8 Elm St,Bath,ME,04530,yes\n"
    path.write_text(f"Name,Address,City,State,ZIP,{header}\n{rows}", encoding="utf-8")
    guest_list, findings = read_list(path, {})
    held = {found.household for found in findings if found.code == "marker-in-list"}
    assert held == {guest_list.households[0].key}


def test_the_name_that_one_of_them_goes_by_now_is_proposed() -> None:
    alone = Household("h-aaaaaaaa", (Person("Ms.", "Lena", "Vail"),))
    assert renamed("divorced, went back to Lena Corrigan.", alone) == "Ms. Lena Corrigan"
    assert renamed("now goes by Odile Fosse", Household("h-aaaaaaaa", COUPLE)) == (
        "Mr. Tobias Penhew and Mrs. Odile Fosse"
    )
    for note in ("went back to Lena Vail", "went back to Bath Maine", "goes back to school"):
        assert not renamed(note, alone)


def test_a_note_that_asks_for_what_the_address_is_asked_for_is_no_second_question() -> None:
    assert code_of("zip?", asked=("zip-missing",)) == "remark"
    assert code_of("zip?", asked=("title-missing",)) == "address-doubtful"
    assert code_of("unit mate?") == "note-open"


@pytest.mark.parametrize(
    "row", [r for r in table("row_words") if r["kind"] == "address-until"], ids=lambda r: r["word"]
)
def test_until_when_an_address_holds_is_asked_about(row: dict[str, str]) -> None:
    assert doubts_address(row["example"])
    assert not doubts_address(row["counter_example"])


@pytest.mark.parametrize("note", ["they are married", "now married!", "got married in May 2025"])
def test_two_on_two_lines_who_are_married_are_proposed_on_one(tmp_path: Path, note: str) -> None:
    path = tmp_path / "list.csv"
    row = f'"Mr. Silas Umber\nMs. Nell Orr",14 Larkmoor Lane,Litchfield,CT,06759,{note}\n'
    path.write_text(f"Name,Street,City,State,ZIP,Notes\n{row}", "utf-8")
    asked = [each for each in read_list(path, {})[1] if each.code == "name-noted"]
    assert [each.likely for each in asked] == [(("names", "Mr. Silas Umber and Ms. Nell Orr"),)]


@pytest.mark.parametrize(
    "row", [r for r in ROWS if r["kind"] == "unwed"], ids=lambda row: str(row["words"])
)
def test_two_of_two_names_on_one_line_stand_apart_where_a_note_says_unmarried(
    tmp_path: Path, row: dict[str, str]
) -> None:
    # etiquette.tsv, couple.unmarried.together: "and" means marriage.
    path = tmp_path / "list.csv"
    for note, joined in ((row["example"], False), (row["counter_example"], True)):
        cells = f'Nell Orr & Silas Umber,14 Larkmoor Lane,Litchfield,CT,06759,"{note}"\n'
        path.write_text(f"Name,Street,City,State,ZIP,Notes\n{cells}", "utf-8")
        guests, asked = read_list(path, {})
        assert guests.households[0].people[1].joined is joined, note
        assert {each.code for each in asked if each.severity == "ask"} <= {"title-missing"}


@pytest.mark.parametrize("note", ["daughter is engaged", "Silas's sister is engaged", "Table 4"])
def test_a_note_on_others_parts_no_couple(tmp_path: Path, note: str) -> None:
    path = tmp_path / "list.csv"
    cells = f'Nell Orr & Silas Umber,14 Larkmoor Lane,Litchfield,CT,06759,"{note}"\n'
    path.write_text(f"Name,Street,City,State,ZIP,Notes\n{cells}", "utf-8")
    assert read_list(path, {})[0].households[0].people[1].joined


def test_who_has_the_others_name_in_a_double_one_is_married_unasked() -> None:
    two = (Person(None, "Nell", "Orr"), Person(None, "Silas", "Orr-Umber"))
    assert code_of("got married last fall", two) == "remark"


@pytest.mark.parametrize(
    ("note", "people"),
    [
        ("they are not married", people_for("wed")),
        ("they are married", (*PENHEW, Person("Ms.", "Odile", "Lorne", joined=True))),
        ("they are married", COUPLE),
        ("they are married", PENHEW),
    ],
)
def test_where_one_line_is_theirs_or_nobody_is_married_nothing_is_asked(
    note: str, people: tuple[Person, ...]
) -> None:
    assert code_of(note, people) == "remark"


def test_two_of_one_family_whom_a_note_calls_married_stand_on_one_line_unasked(
    tmp_path: Path,
) -> None:
    path = tmp_path / "list.csv"
    first = "Mr. Silas Umber,14 Larkmoor Lane,Litchfield,CT,06759,"
    second = "Mr. Ned Umber,14 Larkmoor Lane,Litchfield,CT,06759,"
    for note, joined in (("we're married now", True), ("brothers, not married", False)):
        path.write_text(f"Name,Street,City,State,ZIP,Notes\n{first}\n{second}{note}\n", "utf-8")
        guests, asked = read_list(path, {})
        assert guests.households[0].people[1].joined is joined
        assert "name-noted" not in {each.code for each in asked}


def test_a_note_that_leaves_one_of_a_household_off_is_asked_about() -> None:
    assert code_of("leave Caleb off please, he'll be in Spain") == "marker-in-list"
    assert code_of("leaves at seven") == "remark"
