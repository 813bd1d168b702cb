"""Reads a text file into one grid: by its separator, its aligned columns, or as a pasted mail."""

import csv
import io
import re
from collections import Counter

from ftfy import fix_encoding

from addressing.faults import Exit, Fault
from addressing.guestlist.files.aligned import aligned_records
from addressing.guestlist.files.cards import is_cards
from addressing.guestlist.files.decoding import old_readings, unicode_of
from addressing.guestlist.files.drafts import MAX_ROWS
from addressing.guestlist.files.mail_tables import is_header
from addressing.guestlist.files.opening import OpenedList
from addressing.guestlist.files.pasted import read_pasted
from addressing.guestlist.grid import Cell, Grid, Row
from addressing.guestlist.repair import repair_text, turns
from addressing.guestlist.tables.meanings import exact_meaning
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Repair
from addressing.where import Where, cell_name

SEPARATORS = ("\t", ";", "|", ",")
MAX_CELLS = 2_000_000

_SAMPLE = 60
_FIRST = 20
"""Records from the top among which a header is looked for."""
_HEADERS = 2
_STEADY = 0.8
_QUOTED_CELL = re.compile(r'^[ \t]*"|[,;\t|]"', re.MULTILINE)
_COMMA_OF_PROSE = re.compile(r",(?=\s|$)")
_RULE = re.compile(r"[-:=_+ ]{2,}|")
"""A cell of the line that parts a header from its table in marked-up text."""
_HINT = re.compile("sep=(.)\r?\n", re.IGNORECASE)
_ACCENTED = re.compile(r"[^\s,;|\"]*[^\x00-\x7f][^\s,;|\"]*")
_END = "\x1eend"


def read_textfile(
    opened: OpenedList,
) -> tuple[tuple[Grid, ...], tuple[Finding, ...], tuple[Repair, ...]]:
    """The file as one grid without a sheet's name, what is doubtful, and what was repaired.

    Rows are numbered as a spreadsheet would number them: a line break inside quotes adds none.

    Raises:
        Fault: exit 3; `list-damaged` (a quotation mark that never closes, broken UTF-16),
            `list-empty`, `list-too-large`.
    """
    text, findings = _decode(opened)
    hint = _HINT.match(text)
    separator = hint[1] if hint else _separator(text)
    is_table = hint is not None or (not is_cards(text) and _is_table(text, separator))
    if not is_table:
        aligned = aligned_records(text)
        if aligned is not None and any(map(is_header, aligned[:_FIRST])):
            return _one_grid(opened, aligned, findings)
    if not is_table or (hint is None and not _is_steady(text, separator)):
        pasted = read_pasted(opened.name, text)
        if pasted is not None:
            grids, made = pasted
            return grids, findings, made
    records = _records(opened, text[hint.end() :] if hint else text, separator)
    return _one_grid(opened, records, findings)


def _one_grid(
    opened: OpenedList, records: list[list[str]], findings: tuple[Finding, ...]
) -> tuple[tuple[Grid, ...], tuple[Finding, ...], tuple[Repair, ...]]:
    repairs: list[Repair] = []
    rows = [
        row
        for number, record in enumerate(records, start=1)
        if (row := _row(opened.name, number, record, repairs)) is not None
    ]
    if not rows:
        raise _fault(opened, "list-empty", "holds no text.", "Ask for the file again.")
    return (Grid(opened.name, None, tuple(rows)),), findings, tuple(repairs)


def _is_table(text: str, separator: str) -> bool:
    """True where the separator parts cells: there is a header, or it is no mark of prose."""
    records = _sample(text, separator)
    if _QUOTED_CELL.search(text) or any(map(is_header, records[:_FIRST])) or _on_side(records):
        return True
    if separator != ",":
        parted = sum(len(record) > 1 for record in records)
        return parted >= sum(map(any, records)) * _STEADY
    commas = text.count(",")
    return commas > 0 and len(_COMMA_OF_PROSE.findall(text)) < commas * (1 - _STEADY)


def _is_steady(text: str, separator: str) -> bool:
    """True where nearly all lines have as many cells: no mail stands around the table."""
    counts = Counter(len(record) for record in _sample(text, separator) if any(record))
    return max(counts.values(), default=0) >= counts.total() * _STEADY


def _on_side(records: list[list[str]]) -> bool:
    """True where nearly each record begins with the name of a field: a table on its side."""
    labels = [record[0].strip() for record in records if any(map(str.strip, record[1:]))]
    known = [hit.meaning for label in labels if (hit := exact_meaning(label)) is not None]
    return len(set(known)) > _HEADERS and len(known) >= len(labels) * _STEADY


def _fault(opened: OpenedList, code: str, text: str, mend: str, cell: str | None = None) -> Fault:
    where = Where(opened.name, None, cell)
    return Fault(Exit.INPUT, code, f"{opened.name} {text}", mend, where)


def _decode(opened: OpenedList) -> tuple[str, tuple[Finding, ...]]:
    """As Unicode where it is that, else the likeliest of some old encodings and a question."""
    name = unicode_of(opened.data)
    if name is None:
        readings = old_readings(opened.data)
        others = readings[1:2]
        return readings[0], tuple(_encoding_doubt(opened, readings[0], other) for other in others)
    try:
        return opened.data.decode(name), ()
    except UnicodeDecodeError as error:
        mend = "Save it again as CSV in UTF-8."
        raise _fault(opened, "list-damaged", "breaks off inside a letter.", mend) from error


def _encoding_doubt(opened: OpenedList, text: str, other: str) -> Finding:
    """One question that shows up to three words in both readings."""
    pairs: dict[str, str] = {}
    for match in _ACCENTED.finditer(text):
        here, there = (fix_encoding(each[match.start() : match.end()]) for each in (text, other))
        if here != there:
            pairs.setdefault(here, there)
        if len(pairs) == 3:  # noqa: PLR2004 - enough to see it
            break
    shown = ", ".join(f"“{here}” or “{there}”" for here, there in pairs.items())
    return Finding(
        Severity.ASK,
        "encoding-doubtful",
        Where(opened.name),
        f"The file doesn't say how its accented letters are stored: {shown}?",
        "The first of each pair is used. If it is wrong, save the list as .xlsx.",
    )


def _separator(text: str) -> str:
    """The separator whose count per row is steadiest; a file without any is one column."""
    best, best_score = ",", (0.0, 0)
    for candidate in SEPARATORS:
        counts = Counter(len(record) - 1 for record in _sample(text, candidate) if any(record))
        counts_with = {count: times for count, times in counts.items() if count}
        if not counts_with:
            continue
        count, times = max(counts_with.items(), key=lambda item: (item[1], item[0]))
        score = (times / counts.total(), count)
        if score > best_score:
            best, best_score = candidate, score
    return best


def _sample(text: str, separator: str) -> list[list[str]]:
    records: list[list[str]] = []
    try:
        for record in csv.reader(io.StringIO(text, newline=""), delimiter=separator):
            records.append(record)
            if len(records) == _SAMPLE:
                break
    except csv.Error:
        pass
    return records


def _records(opened: OpenedList, text: str, separator: str) -> list[list[str]]:
    """All records; a mark at the end shows whether the last quotation was closed."""
    reader = csv.reader(io.StringIO(f"{text.rstrip()}\n{_END}\n", newline=""), delimiter=separator)
    records: list[list[str]] = []
    cells = 0
    try:
        for record in reader:
            records.append(record)
            cells += len(record)
            if cells > MAX_CELLS or len(records) > MAX_ROWS:
                mend = "Keep only the list itself."
                raise _fault(opened, "list-too-large", "has more cells than a list can.", mend)
    except csv.Error as error:
        mend = "Look for a lone quotation mark near it and take it out."
        raise _fault(
            opened,
            "list-damaged",
            f"can't be split into cells: {error}.",
            mend,
            cell_name(1, len(records) + 1),
        ) from error
    if records.pop() != [_END]:
        mend = "Close the quotation or take its mark out."
        text = f"opens a quotation in row {len(records) + 1} that never closes."
        raise _fault(opened, "list-damaged", text, mend, cell_name(1, len(records) + 1))
    return records


def _row(file: str, number: int, record: list[str], repairs: list[Repair]) -> Row | None:
    if all(map(_RULE.fullmatch, record)):
        return None
    cells: list[Cell | None] = []
    for column, raw in enumerate(record, start=1):
        where = Where(file, None, cell_name(column, number))
        text, mended = repair_text(raw, where)
        if text:
            repairs.extend(mended)
        turned = bool(mended) and turns(raw)
        cells.append(Cell(text, where, turned=turned) if text else None)
    if not any(cells):
        return None
    return Row(None, number, tuple(cells))
