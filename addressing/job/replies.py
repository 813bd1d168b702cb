"""What came back from the client: a workbook in any form, an answered letter, answers in TOML."""

import email
import email.policy
from collections.abc import Sequence
from pathlib import Path

from pydantic import BaseModel, ConfigDict, TypeAdapter, ValidationError

from addressing.faults import Exit, Fault
from addressing.guestlist.files.kinds import read_grids
from addressing.guestlist.files.opening import open_list
from addressing.guestlist.grid import Cell, Grid
from addressing.materials.reading import read_toml
from addressing.questions.keeping import decisions_of
from addressing.questions.letter import letter_mark, letter_text
from addressing.questions.replies import marks_in, reply_answers
from addressing.questions.rows import SheetRow, answers_in
from addressing.questions.slots import Letter, Slot, slots_of
from addressing.records.guests import Cited
from addressing.records.questions import Asked, Given, Matter
from addressing.where import Where

LETTERS = "letters.json"
"""The file in the job's folder that keeps what the letters asked."""
_MAIL = (".txt", ".eml")
_MOST = 2_000_000
"""Bytes of a reply; a longer one is no letter."""


class _SlotEntry(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)
    number: str
    ref: str
    mark: str
    matter: str
    label: str
    answers: tuple[str, ...]
    who: str = ""


class _LetterEntry(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)
    mark: str
    text: str
    slots: tuple[_SlotEntry, ...]


_ENTRIES = TypeAdapter(tuple[_LetterEntry, ...])


def read_answers(path: Path, folder: Path | None) -> Given:
    """The answers of a filled workbook (also as text), of a reply to a letter, or in TOML.

    Raises:
        Fault: it can't be read, holds no question, or answers an unknown letter (exit 3).
    """
    if path.suffix.lower() == ".toml":
        return Given(decisions_of(read_toml("answers", path)))
    text = _text_of(path) if path.suffix.lower() in _MAIL else ""
    if path.suffix.lower() == ".eml" or marks_in(text):
        return _reply(path, text, kept_letters(folder))
    given = answers_in([_rows(grid) for grid in read_grids(open_list(path))[0]])
    if not given.held:
        raise _none(path, "Give the workbook that `addressing questions` wrote, filled in.")
    return given


def kept_letters(folder: Path | None) -> tuple[Letter, ...]:
    """The letters that a job's folder knows; none without a file of them.

    Raises:
        Fault: the file is there and can't be read (exit 3).
    """
    path = folder / LETTERS if folder is not None else None
    if path is None or not path.exists():
        return ()
    try:
        entries = _ENTRIES.validate_json(path.read_bytes())
    except (ValidationError, OSError) as error:
        text = f"{path} can't be read as the letters that were sent."
        mend = "Take it away; letters that were sent can then be answered in the workbook only."
        raise Fault(Exit.INPUT, "letters-wrong", text, mend, Where(str(path))) from error
    return tuple(_letter(entry) for entry in entries)


def letters_json(before: Sequence[Letter], matters: Sequence[Matter]) -> bytes:
    """The file of letters with one more; a letter that asks the same is kept once."""
    new = Letter(letter_mark(matters), letter_text(matters), slots_of(matters))
    kept = [letter for letter in before if letter.mark != new.mark]
    entries = tuple(_entry(letter) for letter in (*kept, new))
    return _ENTRIES.dump_json(entries, indent=1) + b"\n"


def _letter(entry: _LetterEntry) -> Letter:
    slots = (
        Slot(
            each.number, Asked(each.ref, each.mark, each.matter), each.label, each.answers, each.who
        )
        for each in entry.slots
    )
    return Letter(entry.mark, entry.text, tuple(slots))


def _entry(letter: Letter) -> _LetterEntry:
    slots = tuple(
        _SlotEntry(
            number=slot.number, ref=slot.asked.ref, mark=slot.asked.mark,
            matter=slot.asked.matter, label=slot.label, answers=slot.answers, who=slot.who,
        )
        for slot in letter.slots
    )  # fmt: skip
    return _LetterEntry(mark=letter.mark, text=letter.text, slots=slots)


def _reply(path: Path, text: str, letters: Sequence[Letter]) -> Given:
    known = {letter.mark: letter for letter in letters}
    marks = [mark for mark in marks_in(text) if mark in known]
    if len(marks) == 1:
        return reply_answers(text, known[marks[0]], path.name)
    if marks:
        several = f"{path.name} answers more than one of our letters."
        raise _none(path, "Part it, a file for each.", several)
    unknown = f"{path.name} answers no letter that was written into this job's folder."
    keep = "Keep the line with “letter” and its mark in the reply, or fill in the workbook."
    raise _none(path, keep, unknown)


def _text_of(path: Path) -> str:
    """The words of a reply: a text file, or the plain text of a saved mail."""
    try:
        data = path.read_bytes()[:_MOST]
    except OSError as error:
        text = f"{path} can't be read: {error.strerror or error}."
        raise Fault(
            Exit.INPUT, "answers-unreadable", text, "Look at its name and place.", Where(str(path))
        ) from error
    if path.suffix.lower() == ".eml":
        body = email.message_from_bytes(data, policy=email.policy.default).get_body(("plain",))
        return str(body.get_content()) if body is not None else ""
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", "replace")


def _none(path: Path, mend: str, text: str = "") -> Fault:
    told = text or f"{path.name} holds none of our questions."
    return Fault(Exit.INPUT, "answers-none", told, mend, Where(str(path)))


def _rows(grid: Grid) -> list[SheetRow]:
    """A grid as the answers' reader takes it; an answer's place names its file too."""

    def cited(cell: Cell | None) -> Cited | None:
        if cell is None or cell.spread:
            return None
        sheet = f"{grid.file}!{grid.sheet}" if grid.sheet else grid.file
        return Cited(cell.text, (Where(cell.where.file, sheet, cell.where.cell),))

    return [tuple(cited(cell) for cell in row.cells) for row in grid.rows]
