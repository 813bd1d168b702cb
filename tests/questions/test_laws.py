"""Laws of the round trip, for lists of any kind and answers of any words."""

import io
import json
import tomllib
from collections.abc import Sequence
from pathlib import Path

import openpyxl
import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from addressing.faults import Fault
from addressing.job.asking import list_as_read, open_questions
from addressing.job.rereading import READERS
from addressing.job.styling import styles_for
from addressing.materials.reading import Source
from addressing.materials.shelf import open_shelf
from addressing.questions.applying import apply
from addressing.questions.asking import mark_of, questions_for
from addressing.questions.keeping import decisions_of, decisions_text, together
from addressing.questions.matters import matters_of
from addressing.questions.newcomers import is_of_newcomer
from addressing.questions.rows import answers_in
from addressing.questions.sheets import sheets_for
from addressing.questions.workbook import workbook_bytes
from addressing.records.docket import Docket
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Cited, GuestList
from addressing.records.questions import Decision, Question
from addressing.where import Where, cell_name
from addressing.wording import word_list

HEADER = "Name,Plus One,Street,Unit,City,State,ZIP,Notes"
NAMES = (
    "Mr. and Mrs. Tobias Wexcombe",
    "Ms. Odile Farrenby and Mr. Tobias Wexcombe",
    "The Penhew Family",
    "Linnet & Bram Ashgrove",
    '"Grayling, Alaric"',
    "Mr. Ludo van der Larkmoor and Guest",
    "WEXCOMBE TOBIAS",
    "Tobias Wexcombe +2",
    "Mr. Hugo Sallow & family",
    "Aunt Jo",
    "=cmd()",
    "",
)
PLACES = (
    "14 Larkmoor Lane,Apt. 3,Litchfield,CT,06759",
    "14 Larkmoor Ln.,#3,Litchfield,Conn.,6759",
    "431 Weathervane Drive,,Bar Harbor,ME,04609",
    "1440 Birchbark Trail,,Duluth,ME,55802",
    "1440 Birchbark Trail,,Duluth,MN,",
    "9 Rue des Tilleuls,,,,",
    ",,,,",
)
ROWS = st.lists(
    st.tuples(
        st.sampled_from(NAMES),
        st.sampled_from(("", "yes", "2")),
        st.sampled_from(PLACES),
        st.sampled_from(("", "usher", "declined", "moved?")),
    ).map(",".join),
    min_size=1,
    max_size=7,
)
WORDS = st.sampled_from(
    ("As it stands", "No, leave them out", "Mr. Rowan Ashby", "06759", "CT", "Ms.", "yes", "no",
     "22 Larkmoor Lane, Litchfield, CT 06759", "The Ashby Family", "One household, use the first",
     "An envelope each", "Yes, still invited", "=1+1", "Comes alone", "We give it by hand")
) | st.text(max_size=40)  # fmt: skip
LAW = settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)

Read = tuple[GuestList, tuple[Finding, ...]]


def read(folder: Path, rows: Sequence[str]) -> Read | None:
    path = folder / "list.csv"
    path.write_text("\n".join((HEADER, *rows)) + "\n", "utf-8")
    try:
        listed = list_as_read(path, None)
    except Fault:
        return None
    return listed.guest_list, listed.findings


def decision(question: Question, answer: str, row: int = 3) -> Decision:
    where = Where("answers.xlsx", "answers.xlsx!Questions", f"E{row}")
    return Decision(question.ref, answer, where, mark_of(question.basis))


def lines_of(guest_list: GuestList) -> list[tuple[str | None, list[str]]]:
    pieces = word_list(guest_list, Docket(), styles_for(Docket(), open_shelf(None)))
    return [(p.household, [line.text for line in p.wordings[0].lines]) for p in pieces]


@LAW
@given(rows=ROWS)
def test_as_it_stands_removes_every_ask_and_changes_no_line(
    tmp_path: Path, rows: list[str]
) -> None:
    listed = read(tmp_path, rows)
    if listed is None:
        return
    guest_list, findings = listed
    asked = [
        question
        for question in questions_for(guest_list, findings)
        if all(found.severity is Severity.ASK for found in question.covers)
    ]
    done = apply(guest_list, findings, [decision(q, "As it stands") for q in asked], READERS)
    assert lines_of(done.guest_list) == lines_of(guest_list)
    left = [found for found in done.findings if found.severity is Severity.ASK]
    stopped = {found.household for found in findings if found.severity is Severity.STOP}
    assert [found for found in left if found.household not in stopped] == []


@LAW
@given(rows=ROWS)
def test_every_ask_of_a_list_is_in_a_question(tmp_path: Path, rows: list[str]) -> None:
    listed = read(tmp_path, rows)
    if listed is None:
        return
    guest_list, findings = listed
    questions = questions_for(guest_list, findings)
    covered = {found for question in questions for found in question.covers}
    assert [f for f in findings if f.severity is not Severity.NOTE and f not in covered] == []
    assert len({question.ref for question in questions}) == len(questions)
    assert all(question.choices for question in questions)
    matters = matters_of(questions)
    assert sorted(q.ref for matter in matters for q in matter.questions) == sorted(
        question.ref for question in questions
    )
    assert [matter.number for matter in matters] == list(range(1, len(matters) + 1))


@LAW
@given(rows=ROWS, data=st.data())
def test_no_answer_raises_anything_and_households_that_are_not_asked_about_stay(
    tmp_path: Path, rows: list[str], data: st.DataObject
) -> None:
    listed = read(tmp_path, rows)
    if listed is None:
        return
    guest_list, findings = listed
    questions = questions_for(guest_list, findings)
    decisions = [decision(question, data.draw(WORDS)) for question in questions]
    done = apply(guest_list, findings, decisions, READERS)
    assert len(done.taken) + len(done.open) == len(decisions)
    touched = {key for question, _ in done.taken for key in question.households}
    after = {home.key: home for home in done.guest_list.households}
    assert [h for h in guest_list.households if h.key not in touched and h != after[h.key]] == []
    assert len(after) == len(done.guest_list.households)
    lines_of(done.guest_list)


@LAW
@given(rows=ROWS, data=st.data())
def test_applying_is_the_same_whatever_the_order_of_the_decisions(
    tmp_path: Path, rows: list[str], data: st.DataObject
) -> None:
    listed = read(tmp_path, rows)
    if listed is None:
        return
    guest_list, findings = listed
    decisions = [
        decision(question, data.draw(WORDS), row)
        for row, question in enumerate(questions_for(guest_list, findings), start=3)
    ]
    one = apply(guest_list, findings, decisions, READERS)
    other = apply(guest_list, findings, data.draw(st.permutations(decisions)), READERS)
    assert one.guest_list.households == other.guest_list.households
    assert set(one.findings) == set(other.findings)


@LAW
@given(rows=ROWS)
@example(  # a table without an answer for all: its row on the first sheet only points to it
    rows=[
        "Mr. and Mrs. Tobias Wexcombe,,1440 Birchbark Trail,,Duluth,MN,,",
        "Mr. and Mrs. Tobias Wexcombe,yes,1440 Birchbark Trail,,Duluth,MN,,",
        "Mr. and Mrs. Tobias Wexcombe,2,1440 Birchbark Trail,,Duluth,MN,,",
        "Ms. Odile Farrenby and Mr. Tobias Wexcombe,,1440 Birchbark Trail,,Duluth,MN,,",
    ]
)
def test_questions_written_and_read_back_have_the_same_refs(
    tmp_path: Path, rows: list[str]
) -> None:
    listed = read(tmp_path, rows)
    if listed is None:
        return
    guest_list, findings = listed
    questions = questions_for(guest_list, findings)
    sheets = sheets_for(guest_list.households, matters_of(questions))
    data = workbook_bytes(sheets)
    assert workbook_bytes(sheets) == data
    book = openpyxl.load_workbook(io.BytesIO(data))
    rows_read = []
    for page in book.worksheets[:-1]:
        headers = [cell.value for cell in page[2]]
        place = headers.index("Your answer") if "Your answer" in headers else None
        for row in page.iter_rows(min_row=3):
            assert all(cell.data_type in ("s", "n") for cell in row)
            assert all(cell.value is None for cell in row if cell.data_type == "n")
            if place is not None and str(row[-1].value or "all:")[:4] != "all:":
                row[place].value = "As it stands"
        rows_read.append([
            tuple(
                Cited(str(c.value), (Where("f", page.title, cell_name(n, number)),))
                if c.value is not None else None
                for n, c in enumerate(row, start=1)
            )
            for number, row in enumerate(page.iter_rows(), start=1)
        ])  # fmt: skip
    read_back = answers_in(rows_read)
    assert read_back.findings == ()
    assert {(d.ref, d.mark) for d in read_back.decisions} == {
        (q.ref, mark_of(q.basis)) for q in questions
    }


TEXTS = st.text(st.characters(codec="utf-8"), max_size=60)


@given(
    decisions=st.lists(
        st.builds(
            Decision,
            ref=TEXTS.filter(bool),
            answer=TEXTS,
            where=st.builds(Where, TEXTS.filter(bool), TEXTS.filter(bool), TEXTS.filter(bool)),
            mark=TEXTS,
            sure=st.booleans(),
            date=st.none() | st.just("2026-05-30"),
        ),
        max_size=5,
    )
)
def test_decisions_written_and_read_are_the_same(decisions: list[Decision]) -> None:
    text = decisions_text(decisions)
    source = Source("decisions", Path("decisions.toml"), text, tomllib.loads(text))
    key = [json.dumps([d.ref, d.answer, str(d.where), d.mark, d.sure, d.date]) for d in decisions]
    back = decisions_of(source)
    assert sorted(
        json.dumps([d.ref, d.answer, str(d.where), d.mark, d.sure, d.date]) for d in back
    ) == sorted(key)


def test_the_last_answer_holds_question_by_question() -> None:
    where = Where("answers.xlsx", "answers.xlsx", "E3")
    first, second, other = (
        Decision("a", "1", where),
        Decision("a", "2", where),
        Decision("b", "1", where),
    )
    assert together([first, other], [second]) == (other, second)


@pytest.mark.parametrize("answered", ["half", "all"])
def test_the_demo_list_asks_what_is_left_and_no_more(tmp_path: Path, answered: str) -> None:
    demo = Path(__file__).resolve().parents[2] / "demo_guests.xlsx"
    listed = list_as_read(demo, None)
    questions = open_questions(listed, tmp_path)
    take = questions[::2] if answered == "half" else questions
    given_now = [decision(q, q.choices[0].text) for q in take]
    text = decisions_text(given_now)
    (tmp_path / "decisions.toml").write_text(text, "utf-8")
    left = [q for q in open_questions(listed, tmp_path) if not is_of_newcomer(q.ref)]
    assert {q.ref for q in left} == {q.ref for q in questions} - {q.ref for q in take}
