"""An answer never takes away more than it says."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any, Self

import openpyxl
import pytest

from addressing.guestlist import read_list
from addressing.questions.whereto import place_elsewhere
from addressing.tables import table

Run = Callable[..., CompletedProcess[str]]


class Job:
    """A list of one household with a note, and its letter."""

    def __init__(self, run: Run, folder: Path) -> None:
        self.run, self.path = run, folder / "guests.csv"

    def of(self, names: str, note: str) -> Self:
        row = f'"{names}",9 Mill Lane,Kingston,NY,12401,"{note}"\n'
        self.path.write_text(f"Name,Street,City,State,ZIP,Notes\n{row}", "utf-8")
        return self.ask()

    def ask(self) -> Self:
        """Write the letter."""
        told = json.loads(self.run("questions", self.path, "--json").stdout)
        self.letter = Path("guests-job/questions.txt").read_text("utf-8")
        self.numbers = {m["matter"]: m["number"] for m in told["matters"]}
        return self

    def answer(self, code: str, words: str, name: str = "reply.txt") -> str:
        """What `answer` says of words at the question with a code, in a reply to the letter."""
        mark = next(line for line in self.letter.splitlines() if "letter " in line)
        number = next(each for ref, each in self.numbers.items() if f":{code}" in ref)
        Path(name).write_text(f"{mark}\n\n{number}: {words}\n", "utf-8")
        return self.run("answer", self.path, name).stdout

    def home(self) -> dict[str, Any]:
        homes = json.loads(self.run("lines", self.path, "--json").stdout)["households"]
        return dict(homes[0])

    def lines(self, kind: str = "outer") -> list[str]:
        piece = next(each for each in self.home()["pieces"] if each["kind"] == kind)
        return [line["text"] for line in piece["lines"]]


@pytest.fixture
def job(addressing: Run, tmp_path: Path) -> Job:
    return Job(addressing, tmp_path)


@pytest.mark.parametrize(
    ("names", "note", "words"),
    [
        ("Mr. and Mrs. William Foster", "is he a judge now?", "The Honorable William Foster"),
        ("Mr. and Mrs. William Foster", "is he a judge now?", "William Foster"),
        ("Mr. and Mrs. William Foster", "is he a judge now?", "Judge Bill Foster"),
        ("Mr. and Mrs. William Foster", "is he a judge now?", "Mrs. Foster"),
        ("Ida and Anna Foster", "does she go by Annie?", "Dr. Annie Foster"),
        ("Ida and Anna Foster", "does she go by Annie?", "Anna"),
        ("Ida and Anna Foster", "does she go by Annie?", "Anna and kids"),
    ],
)
def test_fewer_names_than_the_list_has_are_asked_about(
    job: Job, names: str, note: str, words: str
) -> None:
    before = job.of(names, note).lines()
    assert "It doesn't say whether" in job.answer("note-open", words)
    assert job.home()["held"]
    assert job.lines() == before


@pytest.mark.parametrize("words", ["William Foster alone", "only William Foster", "just William"])
def test_a_word_that_leaves_out_everybody_else_takes_the_partner_away(job: Job, words: str) -> None:
    job.of("Mr. and Mrs. William Foster", "is she still with him?").answer("note-open", words)
    assert not job.home()["held"]
    assert job.lines()[0] == "Mr. William Foster"


def test_a_word_for_alone_takes_children_and_a_companion_away_too(job: Job) -> None:
    job.of("William Foster and Guest, Nell (5)", "is he a judge now?")
    job.answer("note-open", "Judge William Foster alone")
    assert [each["given"] for each in job.home()["people"]] == ["William"]


def test_what_a_proposed_answer_takes_away_is_taken_in_other_words_too(job: Job) -> None:
    job.of("Ida and Anna Foster", "is Anna coming?")
    job.answer("note-open", "Ida Foster")
    assert not job.home()["held"]
    assert job.lines()[0] == "Ida Foster"


def test_names_that_are_asked_for_as_all_who_are_invited_are_all(job: Job) -> None:
    job.of("Ida and Anna Foster", "Anna declined").answer("marker-in-list", "Ida Foster")
    assert job.lines()[0] == "Ida Foster"


@pytest.mark.parametrize(
    ("words", "first"),
    [
        ("Liam, Maeve and baby", "Liam and Maeve"),
        ("Maeve, Liam + baby", "Maeve and Liam"),
        ("Liam & Maeve and twins", "Liam and Maeve"),
        ("Liam and Maeve Doyle and infant", "Liam and Maeve"),
    ],
)
def test_a_child_without_a_name_behind_the_parents_stays_with_them(
    job: Job, words: str, first: str
) -> None:
    job.of("Liam and Maeve Doyle", "they have a baby - how do we write it?")
    job.answer("children-noted", words)
    assert not job.home()["held"]
    assert job.lines("inner") == [first, "and Family"]


def test_a_designer_who_sets_fewer_names_is_told_who_goes(job: Job) -> None:
    job.of("Mr. and Mrs. William Foster", "")
    done = job.run("answer", job.path, "--set", "Foster", "names", "The Honorable William Foster")
    assert "leaves out whom the list has: Mrs. Foster" in done.stdout
    assert job.lines()[0] == "The Honorable William Foster"


@pytest.mark.parametrize("words", ["see 10", "same as no. 4", "ditto", "as above", "cf. row 3"])
def test_an_answer_that_speaks_of_another_is_kept_and_asked_again(job: Job, words: str) -> None:
    before = job.of("The Doyle Family", "").lines()
    job.answer("family-unnamed", words)
    assert job.home()["held"]
    assert job.lines() == before
    asked = json.loads(job.run("questions", job.path, "--json").stdout)["questions"]
    assert [each["codes"] for each in asked] == [["family-unnamed"]]


BOTH = "moved to 88 Birch Lane, Troy and she goes by Dr. now"
NEW = "88 Birch Lane, Troy NY 12180"


class Notes(Job):
    """A list with a sheet of remarks beside it."""

    def of(self, names: str, note: str) -> Self:
        self.path = self.path.with_suffix(".xlsx")
        book = openpyxl.Workbook()
        book.worksheets[0].append(["Name", "Street", "City", "State", "ZIP"])
        book.worksheets[0].append([names, "9 Mill Lane", "Kingston", "NY", "12401"])
        for each in note.split("|"):
            (book["Notes"] if "Notes" in book else book.create_sheet("Notes")).append([each])
        book.save(self.path)
        return self.ask()


@pytest.fixture
def notes(addressing: Run, tmp_path: Path) -> Notes:
    return Notes(addressing, tmp_path)


def words_open(job: Job) -> list[str]:
    found = json.loads(job.run("check", job.path, "--json").stdout)["findings"]
    return [each["text"] for each in found if each["code"] == "client-wrote"]


@pytest.mark.parametrize(
    ("remark", "place"),
    [
        ("The Voles have moved to Albany", "Albany"),
        ("The Voles are now in Cold Spring", "Cold Spring"),
    ],
)
def test_a_street_alone_is_asked_about_where_the_remark_names_another_town(
    notes: Notes, remark: str, place: str
) -> None:
    notes.of("Greta and Piet Vole", remark)
    assert f"it was said of {place}" in notes.answer("said-elsewhere", "88 Birch Lane")
    assert notes.home()["held"]
    notes.answer("said-elsewhere", "88 Birch Lane, Albany NY 12203", "later.txt")
    assert not notes.home()["held"]
    assert notes.lines()[1:] == ["88 Birch Lane", "Albany, New York 12203"]


@pytest.mark.parametrize(
    "remark",
    ["The Voles have moved in May", "Has the Voles' address changed?", "The Voles moved together"],
)
def test_a_street_alone_is_taken_where_the_remark_names_no_other_town(
    notes: Notes, remark: str
) -> None:
    notes.of("Greta and Piet Vole", remark).answer("said-elsewhere", "88 Birch Lane")
    assert not notes.home()["held"]
    assert notes.lines()[1:] == ["88 Birch Lane", "Kingston, New York 12401"]


@pytest.mark.parametrize("row", table("no_towns"), ids=lambda row: row["example"])
def test_a_word_that_is_no_town_is_none_and_one_like_it_is(
    write_list: Callable[..., Path], row: dict[str, str]
) -> None:
    home = read_list(write_list((("Greta Vole", "9 Mill Lane", "Kingston", "NY", "12401"),)), {})
    (greta,) = home[0].households
    assert not place_elsewhere(row["example"], "88 Birch Lane", greta)
    assert place_elsewhere(row["counter_example"], "88 Birch Lane", greta)


def test_what_an_answer_leaves_open_of_a_remark_holds_and_is_asked(notes: Notes) -> None:
    notes.of("Hana and Otto Vole", f"Hana Vole {BOTH}").answer("said-elsewhere", NEW)
    assert notes.lines()[1] == "88 Birch Lane"
    assert notes.home()["held"]
    assert words_open(notes) == [
        "The client wrote: “she goes by Dr. now”. Nothing could be made of it."
    ]
    notes.ask().answer("client-wrote", "Dr. Hana Vole and Otto Vole", "later.txt")
    assert not notes.home()["held"]
    assert notes.lines()[:2] == ["Doctor Hana Vole and Otto Vole", "88 Birch Lane"]


def test_an_answer_to_a_row_s_note_leaves_the_rest_of_the_note_open_too(job: Job) -> None:
    job.of("Hana and Otto Vole", BOTH).answer("address-doubtful", NEW)
    assert job.home()["held"]
    assert words_open(job)
    job.run("answer", job.path, "--set", "Vole", "names", "Dr. Hana Vole and Otto Vole")
    assert not job.home()["held"]


def test_the_same_number_answered_again_about_the_other_fact_leaves_the_first_answer(
    notes: Notes,
) -> None:
    notes.of("Hana and Otto Vole", f"Hana Vole {BOTH}").answer("said-elsewhere", NEW)
    notes.answer("said-elsewhere", "Dr. Hana Vole and Otto Vole", "later.txt")
    for _ in range(2):
        assert not notes.home()["held"]
        assert notes.lines()[:2] == ["Doctor Hana Vole and Otto Vole", "88 Birch Lane"]
        notes.run("answer", notes.path, "reply.txt")  # the first one, read again


@pytest.mark.parametrize(
    ("remark", "words"),
    [
        ("Mrs. Vole and her husband moved to Troy", NEW),
        ("Dr. Hana Vole moved, please send it to the new address", NEW),
        ("Hana Vole got married, it is Dr. Blum now", "Dr. Hana Blum and Mr. Otto Blum"),
    ],
)
def test_a_remark_of_one_fact_is_closed_by_its_answer(
    notes: Notes, remark: str, words: str
) -> None:
    notes.of("Dr. Hana Vole and Mr. Otto Vole", remark).answer("said-elsewhere", words)
    assert not notes.home()["held"]


def test_another_answer_to_the_same_question_is_told_with_the_one_before(notes: Notes) -> None:
    notes.of("Greta and Piet Vole", "The Voles have moved").answer("said-elsewhere", NEW)
    done = notes.answer("said-elsewhere", "7 Cliff Road, Troy NY 12180", "later.txt")
    assert f"“{NEW}” no longer holds" in done
    assert notes.lines()[1] == "7 Cliff Road"


TWO = "The Voles have moved|Greta Vole's address has changed"
OTHER = "7 Cliff Road, Troy NY 12180"


def answered(job: Job, first: str, second: str) -> str:
    """Both remarks answered in one reply."""
    mark = next(line for line in job.letter.splitlines() if "letter " in line)
    Path("both.txt").write_text(f"{mark}\n\n1: {first}\n\n2: {second}\n", "utf-8")
    return job.run("answer", job.path, "both.txt").stdout


def test_two_addresses_for_one_household_in_a_reply_are_both_asked_about(notes: Notes) -> None:
    done = answered(notes.of("Greta and Piet Vole", TWO), NEW, OTHER)
    assert done.count("another answer of the same reply gives another address") == 2
    assert notes.home()["held"]
    assert notes.lines()[1] == "9 Mill Lane"


def test_one_address_said_twice_in_a_reply_is_one(notes: Notes) -> None:
    answered(notes.of("Greta and Piet Vole", TWO), NEW, "88 Birch Ln, Troy, New York 12180")
    assert not notes.home()["held"]
    assert notes.lines()[1] == "88 Birch Lane"


@pytest.mark.parametrize(("first", "second"), [(1, 2), (2, 1)])
def test_of_two_addresses_in_two_replies_the_later_one_holds_and_that_is_told(
    notes: Notes, first: int, second: int
) -> None:
    notes.of("Greta and Piet Vole", TWO)
    mark = next(line for line in notes.letter.splitlines() if "letter " in line)
    Path("one.txt").write_text(f"{mark}\n\n{first}: {NEW}\n", "utf-8")
    Path("two.txt").write_text(f"{mark}\n\n{second}: {OTHER}\n", "utf-8")
    notes.run("answer", notes.path, "one.txt")
    assert f"“{NEW}” no longer holds" in notes.run("answer", notes.path, "two.txt").stdout
    notes.run("answer", notes.path, "one.txt")  # read again
    assert not notes.home()["held"]
    assert notes.lines()[1] == "7 Cliff Road"


@pytest.mark.parametrize(
    ("words", "news"),
    [
        (f"Hana and Otto Vole, {NEW}", None),
        (f"Hana Vole\n{NEW}", None),
        (f"Mr. and Mrs. Otto Vole, {NEW}", None),
        (f"Dr. Hana and Otto Vole, {NEW}", "Dr. Hana and Otto Vole"),
        (f"Hana Vole, Jonas Vole; {NEW}", "Hana Vole, Jonas Vole"),
    ],
)
def test_names_before_an_address_are_no_line_of_it_and_what_they_tell_is_asked(
    job: Job, words: str, news: str | None
) -> None:
    job.of("Hana and Otto Vole", "moved").answer("address-doubtful", words)
    assert job.lines() == ["Hana and Otto Vole", "88 Birch Lane", "Troy, New York 12180"]
    assert job.home()["held"] == (news is not None)
    assert all(f"“{news}”" in each for each in words_open(job))


@pytest.mark.parametrize(
    ("words", "line"),
    [
        (f"c/o Hana Vole, {NEW}", "in care of Hana Vole"),
        (f"Rose Cottage, {NEW}", "Rose Cottage"),
        (f"c/o Ann Moss, {NEW}", "in care of Ann Moss"),
    ],
)
def test_a_line_of_the_address_of_its_own_stays(job: Job, words: str, line: str) -> None:
    job.of("Hana and Otto Vole", "moved").answer("address-doubtful", words)
    assert not job.home()["held"]
    assert job.lines()[1:3] == [line, "88 Birch Lane"]


NAMED_TWICE = "Hana Vole has a new name|Otto Vole's name is spelled wrong"


def test_two_answers_in_a_reply_that_give_the_names_in_two_ways_are_both_asked_about(
    notes: Notes,
) -> None:
    notes.of("Hana Vole and Otto Vole", NAMED_TWICE)
    done = answered(notes, "Hana Blum and Otto Vole", "Hana and Otho Vole")
    assert done.count("another answer of the same reply gives other names") == 2
    assert notes.home()["held"]
    assert notes.lines()[0] == "Hana and Otto Vole"


def test_the_same_names_at_two_remarks_of_a_reply_are_taken(notes: Notes) -> None:
    notes.of("Hana Vole and Otto Vole", NAMED_TWICE)
    answered(notes, "Hana Blum and Otho Vole", "Hana Blum and Otho Vole")
    assert not notes.home()["held"]
    assert notes.lines()[0] == "Hana Blum and Otho Vole"
