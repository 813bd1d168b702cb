"""The filled workbook, read back: each answer finds its question by the ref in its row."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from addressing.questions.corrections import CORRECT
from addressing.questions.matters import GROUPS
from addressing.questions.sheets import ANSWER, CHANGES, HEADERS, OWN, SEE
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Cited
from addressing.records.questions import Asked, Decision, Given, Said

SheetRow = tuple[Cited | None, ...]
"""One row as it was read: a cell for each column, None where it is empty."""

_REF = re.compile(
    r"(?P<ref>(?:h-[a-z2-7]{8}(?:-\d+)?|list|all):[a-z-]+(?::\S*)?)"
    r"(?: (?P<mark>[0-9a-f]{8}))?(?: (?P<matter>all:\S+))?"
)
_FOLDED = {header.casefold(): header for header in HEADERS}


@dataclass(frozen=True, slots=True)
class _Columns:
    """Where a sheet's answers stand: column → what is answered there; `ours` are all we wrote."""

    answers: Mapping[int, str]
    ours: frozenset[int]


@dataclass(slots=True)
class _Read:
    """What was found so far."""

    decisions: list[Decision] = field(default_factory=list)
    blanks: list[Asked] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    said: list[Said] = field(default_factory=list)
    held: int = 0


def answers_in(sheets: Iterable[Sequence[SheetRow]]) -> Given:
    """The answers of a workbook, with what is wrong with them and what the client adds.

    Rows may be sorted, taken away, and columns moved: a row is known by its ref, a column by its
    heading. A row without an answer stays open.
    """
    read = _Read()
    for rows in sheets:
        _sheet(rows, read)
    found = tuple(read.findings)
    return Given(tuple(read.decisions), tuple(read.blanks), found, read.held, tuple(read.said))


def _sheet(rows: Sequence[SheetRow], read: _Read) -> None:
    columns: _Columns | None = None
    headless = True
    for row in rows:
        header = _columns(row)
        if header is not None:
            columns = header
        elif columns is not None:
            _row(row, columns, read)
        elif headless and _ref(row) is not None:
            headless = False
            _no_headings(row, read)


def _columns(row: SheetRow) -> _Columns | None:
    """The columns of a header row; None for any other row."""
    names = {
        place: _FOLDED[words]
        for place, cell in enumerate(row)
        if cell is not None and (words := _plain(cell.text)) in _FOLDED
    }
    answers = {p: name for p, name in names.items() if name in (ANSWER, OWN) or name in CHANGES}
    return _Columns(answers, frozenset(names)) if answers and _ref(row) is None else None


def _plain(text: str) -> str:
    return " ".join(text.split()).strip(" :").casefold()


def _ref(row: SheetRow) -> re.Match[str] | None:
    found = (_REF.fullmatch(cell.text.strip()) for cell in row if cell is not None)
    return next((match for match in found if match), None)


def _row(row: SheetRow, columns: _Columns, read: _Read) -> None:
    ref = _ref(row)
    given = [
        (columns.answers[place], cell)
        for place, cell in enumerate(row)
        if place in columns.answers and cell is not None and cell.text.strip()
    ]
    if ref is None:
        ours = any(cell is not None and cell.text.startswith(SEE) for cell in row)
        _without_ref(_beside(row, columns) if ours else row, given, read)
        return
    read.held += 1
    name, mark = ref["ref"], ref["mark"] or ""
    _add_remarks(_beside(row, columns), read, _key(name))
    if name.endswith(f":{CORRECT}"):
        read.decisions += [_decision(f"{name}:{CHANGES[said]}", "", cell) for said, cell in given]
    elif not given:
        read.blanks.append(Asked(name, mark, ref["matter"] or ""))
    elif len({_plain(cell.text) for _, cell in given}) > 1:
        text = f"“{given[0][1].text}” was chosen, and beside it stands “{given[-1][1].text}”."
        found = _finding("answer-conflict", given[0][1], text, "Which one holds?", name)
        read.findings.append(found)
        both = " / ".join(cell.text.strip() for _, cell in given)
        read.said.append(Said(both, given[0][1].cells[0], name, _key(name)))
    else:
        read.decisions.append(_decision(name, mark, given[-1][1]))


def _without_ref(row: Sequence[Cited | None], given: list[tuple[str, Cited]], read: _Read) -> None:
    """A row that asks nothing: an answer there can't be placed, other words are a remark."""
    for _, cell in given:
        text = f"“{cell.text}” stands in a row that asks nothing."
        read.findings.append(_finding("answer-not-understood", cell, text, "What is meant?"))
    words = [cell for cell in row if cell is not None and cell.text.strip() not in ("", *GROUPS)]
    if given:
        read.said.append(_said_of(words or [cell for _, cell in given]))
    else:
        _add_remarks(words, read)


def _add_remarks(cells: Sequence[Cited], read: _Read, key: str | None = None) -> None:
    """What the client adds in a row, which may be a household's."""
    read.findings += [_remark(cell) for cell in cells]
    if cells:
        read.said.append(replace(_said_of(cells), household=key))


def _said_of(cells: Sequence[Cited]) -> Said:
    """The words of a row's cells, which belong together."""
    return Said("; ".join(cell.text.strip() for cell in cells), cells[0].cells[0])


def _key(ref: str) -> str | None:
    """The household that a ref is of."""
    key = ref.partition(":")[0]
    return key if key.startswith("h-") else None


def _beside(row: SheetRow, columns: _Columns) -> list[Cited]:
    """Cells of a row that stand in no column of ours: what the client adds."""
    return [
        cell
        for place, cell in enumerate(row)
        if cell is not None
        and place not in columns.ours
        and cell.text.strip()
        and not _REF.fullmatch(cell.text.strip())
    ]


def _no_headings(row: SheetRow, read: _Read) -> None:
    cell = next(cell for cell in row if cell is not None)
    text = f"Here are questions, and no column has the heading “{ANSWER}”."
    mend = f"Give the column of answers its heading “{ANSWER}” back, above the first question."
    read.held += 1
    read.findings.append(_finding("answer-not-understood", cell, text, mend))


def _decision(ref: str, mark: str, cell: Cited) -> Decision:
    return Decision(ref, cell.text.strip(), cell.cells[0], mark)


def _remark(cell: Cited) -> Finding:
    text = f"The client adds: “{cell.text.strip()}”."
    return Finding(Severity.NOTE, "answer-remark", cell.cells[0], text, "Worth reading.")


def _finding(code: str, cell: Cited, text: str, mend: str, ref: str = "") -> Finding:
    return Finding(Severity.ASK, code, cell.cells[0], text, mend, _key(ref))
