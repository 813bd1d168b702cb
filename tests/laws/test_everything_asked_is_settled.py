"""Whatever `check` asks or stops, some command with the place that it tells settles it for good.

The lists are the examples of docs/findings.md (scripts/finding_examples.toml), the demo list, and
small ones here for codes without an example there.
"""

import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from addressing.job.answering import answers_and_corrections, keep_answers
from addressing.job.asking import list_as_read
from addressing.job.reading import read_job
from addressing.records.findings import Finding, Severity
from addressing.tables import table

TOP = Path(__file__).resolve().parents[2]
HEADER = "Name,Street,City,State,ZIP,Notes\n"
AT = "14 Larkmoor Lane,Litchfield,CT,06759"
MORE = {
    "note-open": f"{HEADER}Mr. Silas Umber,{AT},married?\n",
    "name-noted": f"{HEADER}Ms. Nell Umber,{AT},goes by Mrs. Penhew\n",
    "guest-noted": f"{HEADER}Ms. Nell Umber,{AT},plus one ok\n",
    "children-noted": f"{HEADER}Mr. and Mrs. Silas Umber,{AT},kids too\n",
    "apart-noted": f"{HEADER}Mr. Silas Umber and Ms. Nell Orr,{AT},separate invitations\n",
    "rows-not-guests": f"{HEADER}Mr. Silas Umber,{AT},\nTBD,,,,,\n",
    "partner-unnamed": f"{HEADER}Mr. Silas Umber and wife,{AT},\n",
    "given-missing": f"{HEADER}Mr. Umber,{AT},\n",
}
BY_DOCKET = {
    "line-too-wide": "another size or layout",
    "block-too-tall": "another size or layout",
    "wave-unsaid": "the round that goes out now",
    "words-differ": "the words of [[words]]",
    "mixed-direction": "a face or the words; the list's own marks are asked as direction-marks",
}
"""Stops and asks of the docket's own choices: it mends them, and no answer can."""
OF_ANSWERS = {
    "answer-stale": "tests/questions/test_outdated.py",
    "answer-conflict": "isn't kept at the next answer",
    "answer-not-understood": "isn't kept at the next answer",
    "remark-gone": "tests/questions/test_remarks_gone.py",
    "correction-stale": "tests/questions/test_corrected_before.py",
    "correction-gainsaid": "tests/questions/test_read_again.py",
    "client-wrote": "tests/questions/test_words_kept.py",
    "client-answered": "tests/questions/test_words_kept.py",
    "client-adds": "tests/questions/test_words_kept.py",
    "said-elsewhere": "tests/questions/test_remarks_settled.py",
}
"""What answers themselves bring, each with the test that settles it."""
LIKELY = {
    "name-missing": ("names", "Mr. Silas Umber"),
    "address-missing": ("address", "9 Mill Row, Litchfield, CT 06759"),
    "glyph-missing": ("names", "Ms. Lin Penhew"),
}
"""Stops can't stand as they are: what is set instead."""


@cache
def lists() -> dict[str, tuple[str, str]]:
    """Code → (list, docket) that gives it."""
    examples = tomllib.loads((TOP / "scripts/finding_examples.toml").read_text("utf-8"))
    known = {code: (each["list"], each.get("docket", "")) for code, each in examples.items()}
    return known | {code: (text, "") for code, text in MORE.items()}


def codes() -> Iterator[str]:
    for row in table("findings"):
        asked = row["severity"] != "note" and row["code"] not in BY_DOCKET
        if asked and row["code"] in lists():
            yield row["code"]


def open_at(path: Path, docket: Path | None, job: Path, asked: Finding) -> bool:
    found = read_job(path, docket, None, job).findings
    return any((each.code, each.where) == (asked.code, asked.where) for each in found)


@pytest.mark.parametrize("code", sorted(codes()))
def test_what_is_asked_is_settled_by_the_place_that_is_told(tmp_path: Path, code: str) -> None:
    text, choices = lists()[code]
    path, job = tmp_path / "list.csv", tmp_path / "job"
    path.write_text(text, "utf-8")
    docket = tmp_path / "docket.toml" if choices else None
    if docket:
        docket.write_text(choices, "utf-8")
    found = read_job(path, docket, None, job).findings
    asked = next(each for each in found if each.code == code)
    listed = list_as_read(path, docket, job)
    corrections = []
    settle: tuple[str, ...] = (f"{asked.where}:{code}",)
    if asked.severity is Severity.STOP:
        corrections, settle = [(str(asked.where), *LIKELY[code])], ()
    given = answers_and_corrections(listed, None, corrections, job, more=True)
    keep_answers(listed, given, job, settle=settle)
    assert not open_at(path, docket, job, asked)
    again = list_as_read(path, docket, job)
    keep_answers(again, answers_and_corrections(again, None, (), job, more=True), job)
    assert not open_at(path, docket, job, asked)


def test_all_that_the_demo_list_asks_is_settled_in_one_go(tmp_path: Path) -> None:
    path, job = TOP / "demo_guests.xlsx", tmp_path / "job"
    docket = TOP / "demo_docket.toml"
    found = read_job(path, docket, None, job).findings
    known = {row["code"] for row in table("answers")}
    asks = [each for each in found if each.severity is Severity.ASK and each.code in known]
    stops = {each.household for each in found if each.severity is Severity.STOP}
    free = [each for each in asks if each.household not in stops]
    listed = list_as_read(path, docket, job)
    given = answers_and_corrections(listed, None, (), job, more=True)
    keep_answers(listed, given, job, settle=[f"{each.where}:{each.code}" for each in free])
    left = read_job(path, docket, None, job).findings
    open_now = {(each.code, each.where) for each in left}
    assert len({each.code for each in free}) > 10
    assert [each for each in free if (each.code, each.where) in open_now] == []


def test_every_code_that_asks_is_tried_or_has_another_way() -> None:
    asks = {row["code"] for row in table("findings") if row["severity"] != "note"}
    ways = set(codes()) | set(BY_DOCKET) | set(OF_ANSWERS)
    left = {code for code in asks - ways if code not in {row["code"] for row in table("answers")}}
    assert left <= {"table-missing"}  # the list's own column is filled in
