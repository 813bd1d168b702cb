"""The filled workbook, read back: each answer finds its question by the ref in its row."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from addressing.questions.corrections import CORRECT
from addressing.questions.sheets import ANSWER, CHANGES, OWN, REF
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Cited
from addressing.records.questions import Decision

SheetRow = tuple[Cited | None, ...]
"""One row as it was read: a cell for each column, None where it is empty."""


@dataclass(frozen=True, slots=True)
class _Columns:
    """Where a sheet's answers stand: column → what is answered there."""

    ref: int
    answers: Mapping[int, str]


def answers_in(
    sheets: Iterable[Sequence[SheetRow]],
) -> tuple[tuple[Decision, ...], tuple[Finding, ...], int]:
    """(the answers, what is wrong with them, how many questions the workbook holds).

    Rows may be sorted, taken away, and columns moved: a row is known by its ref. A row without an
    answer stays open.
    """
    decisions: list[Decision] = []
    findings: list[Finding] = []
    held = 0
    for rows in sheets:
        columns: _Columns | None = None
        for row in rows:
            header = _columns(row)
            if header is not None:
                columns = header
            elif columns is not None:
                given, wrong = _row(row, columns)
                held += _cell(row, columns.ref) is not None
                decisions.extend(given)
                findings.extend(wrong)
    return tuple(decisions), tuple(findings), held


def _columns(row: SheetRow) -> _Columns | None:
    names = {place: cell.text.strip() for place, cell in enumerate(row) if cell is not None}
    ref = next((place for place, name in names.items() if name == REF), None)
    if ref is None:
        return None
    answers = {p: name for p, name in names.items() if name in (ANSWER, OWN) or name in CHANGES}
    return _Columns(ref, answers)


def _cell(row: SheetRow, place: int) -> Cited | None:
    cell = row[place] if place < len(row) else None
    return cell if cell is not None and cell.text.strip() else None


def _row(row: SheetRow, columns: _Columns) -> tuple[list[Decision], list[Finding]]:
    ref = _cell(row, columns.ref)
    given = [(name, cell) for place, name in columns.answers.items() if (cell := _cell(row, place))]
    if not given:
        return [], []
    if ref is None:
        return [], [
            _finding("answer-not-understood", cell, "stands in a row that asks nothing.")
            for _, cell in given
        ]
    name, _, mark = ref.text.strip().partition(" ")
    if name.endswith(f":{CORRECT}"):
        return [_decision(f"{name}:{CHANGES[said]}", "", cell) for said, cell in given], []
    same = {cell.text.strip().casefold() for _, cell in given}
    if len(same) > 1:
        text = "was chosen, and other words stand beside it."
        return [], [_finding("answer-conflict", given[0][1], text, name.partition(":")[0])]
    return [_decision(name, mark.strip(), given[-1][1])], []


def _decision(ref: str, mark: str, cell: Cited) -> Decision:
    return Decision(ref, cell.text.strip(), cell.cells[0], mark)


def _finding(code: str, cell: Cited, text: str, household: str | None = None) -> Finding:
    mend = "Which one holds?" if code == "answer-conflict" else "What is meant?"
    key = household if household and household.startswith("h-") else None
    return Finding(Severity.ASK, code, cell.cells[0], f"“{cell.text}” {text}", mend, key)
