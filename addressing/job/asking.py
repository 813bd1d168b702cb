"""Questions out and answers in: what the client is asked, what was decided, kept beside the job."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from addressing.faults import Exit, Fault
from addressing.files import Together, make_folder
from addressing.guestlist import read_list
from addressing.guestlist.domestic.tail import cut_country
from addressing.guestlist.folding import fold
from addressing.guestlist.homes.addresses import read_address
from addressing.guestlist.people.cell import CellReading, read_people
from addressing.guestlist.people.companions import read_children
from addressing.guestlist.people.vocabulary import titles
from addressing.guestlist.written import Written
from addressing.job.hinting import command_line
from addressing.job.remembering import HOUSEHOLDS, Remembered, households_text, remember, stale
from addressing.job.replies import LETTERS, kept_letters, letters_json, read_answers
from addressing.job.styling import asks_titles, styles_for
from addressing.materials.docket import read_docket
from addressing.materials.reading import read_toml
from addressing.materials.shelf import open_shelf
from addressing.questions.applying import apply
from addressing.questions.asking import questions_for
from addressing.questions.corrections import CORRECTABLE, set_by_hand
from addressing.questions.keeping import decisions_of, decisions_text, together
from addressing.questions.letter import letter_text
from addressing.questions.matters import ALL, matters_of
from addressing.questions.replacing import replaced, told_of
from addressing.questions.sheets import sheets_for
from addressing.questions.spreading import spread
from addressing.questions.workbook import workbook_bytes
from addressing.records.docket import Docket
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Address, Cited, GuestList
from addressing.records.questions import (
    Applied,
    Decision,
    Given,
    Matter,
    NamesRead,
    Question,
    Readers,
)
from addressing.tables import table
from addressing.where import Where
from addressing.wording import ask_capitals

DECISIONS = "decisions.toml"
"""The file in the job's folder that keeps what was decided."""
_LONGEST_TITLE = 4
"""Words in a title; more are a name."""


@dataclass(frozen=True, slots=True)
class Listed:
    """A list as it was read, before any answer, with all that is asked of it; and the docket.

    `remembered` says which keys its households have from earlier readings.
    """

    guest_list: GuestList
    findings: tuple[Finding, ...]
    docket: Docket
    sources: tuple[Path, ...]
    remembered: Remembered
    titles: bool = True
    """Whether the job's styles bear titles, so that a missing one is asked for."""


@dataclass(frozen=True, slots=True)
class Answered:
    """What came of an answers file: what holds now, what of it is new, what is still asked."""

    path: Path
    applied: Applied
    given: tuple[Decision, ...]
    open: tuple[Question, ...]
    findings: tuple[Finding, ...]

    @property
    def refused(self) -> tuple[Finding, ...]:
        """Why answers weren't taken."""
        return tuple(found for found in self.findings if found.severity is not Severity.NOTE)

    @property
    def remarks(self) -> tuple[Finding, ...]:
        """What the client adds beside the answers."""
        return tuple(found for found in self.findings if found.severity is Severity.NOTE)


def decide(remembered: Remembered, folder: Path | None) -> Applied:
    """The list with what was decided in its job folder; without one, the list as it was read.

    What wording asks is answered too; wording finds it again, so `settled` says that it is done.

    Raises:
        Fault: the decisions can't be read (exit 3).
    """
    decisions = kept_decisions(folder)
    guest_list, findings = remembered.guest_list, remembered.findings
    if not decisions:
        return Applied(guest_list, findings)
    worded = ask_capitals(guest_list)
    applied = apply(guest_list, (*findings, *worded), decisions, READERS)
    rest = tuple(found for found in applied.findings if found not in worded)
    return replace(applied, findings=stale(rest, applied.open, remembered.kept))


def list_as_read(list_path: Path, docket_path: Path | None, folder: Path | None = None) -> Listed:
    """Read a list by a docket (None: the defaults), without any decision.

    Households that the job's folder knows keep their keys.

    Raises:
        Fault: list, docket or what the folder knows (exit 3).
    """
    docket = read_docket(docket_path) if docket_path else Docket()
    home = docket.hosts.country if docket.hosts else "US"
    guest_list, findings = read_list(list_path, dict(docket.columns), home, docket.posting)
    remembered = remember(guest_list, findings, folder)
    worded = ask_capitals(remembered.guest_list)
    sources = tuple(path for path in (list_path, docket_path) if path is not None)
    found = (*remembered.findings, *worded)
    styles = styles_for(docket, open_shelf((docket_path or list_path).parent))
    titles = asks_titles(styles, docket)
    return Listed(remembered.guest_list, found, docket, sources, remembered, titles)


def kept_decisions(folder: Path | None) -> tuple[Decision, ...]:
    """The decisions of a job's folder; none when nothing was decided there.

    Raises:
        Fault: the file is there and can't be read (exit 3).
    """
    path = folder / DECISIONS if folder is not None else None
    if path is None or not path.exists():
        return ()
    return decisions_of(read_toml("decisions", path))


def open_questions(listed: Listed, folder: Path | None) -> tuple[Question, ...]:
    """What is still to be asked of a list, after what was decided in the job's folder.

    Raises:
        Fault: the decisions can't be read (exit 3).
    """
    decisions = kept_decisions(folder)
    return _open(listed, apply(listed.guest_list, listed.findings, decisions, READERS))


def open_matters(listed: Listed, folder: Path | None) -> tuple[Matter, ...]:
    """The same as the client meets it: numbered, and what is asked many times over in a table.

    Raises:
        Fault: the decisions can't be read (exit 3).
    """
    return matters_of(open_questions(listed, folder))


def _open(listed: Listed, applied: Applied) -> tuple[Question, ...]:
    taken = {question.ref for question, _ in applied.taken}
    left = frozenset(applied.findings)
    return tuple(
        question
        for question in questions_for(listed.guest_list, listed.findings)
        if question.ref not in taken
        and any(found in left for found in question.covers)
        and (listed.titles or question.kind != "title")
    )


def write_questions(listed: Listed, matters: Sequence[Matter], folder: Path) -> tuple[Path, Path]:
    """The workbook and the letter: (questions.xlsx, questions.txt) in the job's folder.

    Raises:
        Fault: they can't be written, or would overwrite the list or answers that nobody has read
            yet (exit 4).
    """
    make_folder(folder)
    book, letter = folder / "questions.xlsx", folder / "questions.txt"
    _guard_answers(book, folder, _answering(listed, book, folder))
    letters = kept_letters(folder)
    then = _answering(listed, letter, folder)
    _guard_letter(letter, [each.text for each in letters], then)
    with Together(listed.sources) as files:
        files.working(book).write_bytes(workbook_bytes(sheets_for(listed.guest_list, matters)))
        files.working(letter).write_bytes(letter_text(matters).encode())
        if matters:
            files.working(folder / LETTERS, private=True).write_bytes(
                letters_json(letters, matters)
            )
        files.working(folder / HOUSEHOLDS, private=True).write_bytes(_known_bytes(listed))
    return book, letter


def _known_bytes(listed: Listed) -> bytes:
    """What the folder keeps of the households: their keys stand in the questions."""
    return households_text(listed.remembered.kept.known).encode()


def _answering(listed: Listed, path: Path, folder: Path) -> str:
    """The command that reads a file of answers of this job."""
    source, *dockets = listed.sources
    into = None if folder == Path(f"{source.stem}-job") else folder
    return command_line("answer", source, path, docket=dockets[0] if dockets else None, folder=into)


def _guard_answers(book: Path, folder: Path, then: str) -> None:
    """A workbook that was filled in where it lies isn't written over before it is read."""
    if not book.exists():
        return
    kept = {(decision.ref, decision.answer) for decision in kept_decisions(folder)}
    try:
        given = read_answers(book, folder)
        told = (each for each in given.decisions if not each.ref.startswith(f"{ALL}:"))
        unread = bool(given.findings) or any((e.ref, e.answer) not in kept for e in told)
        text = f"{book} holds answers that aren't kept yet."
    except Fault:
        unread, text = True, f"{book} is there and isn't a workbook of questions."
    if unread:
        mend = f"Read it ({then}), or give it another name."
        raise Fault(Exit.WRITE, "answers-unread", text, mend, Where(str(book)))


def _guard_letter(letter: Path, sent: Sequence[str], then: str) -> None:
    """A letter that was answered where it lies isn't written over either."""
    if not letter.exists() or not sent:
        return
    if letter.read_bytes().decode("utf-8", "replace") not in (*sent, letter_text(())):
        text = f"{letter} isn't as it was written: it may hold answers."
        mend = f"Read it ({then}), then give it another name."
        raise Fault(Exit.WRITE, "answers-unread", text, mend, Where(str(letter)))


def answers_and_corrections(
    listed: Listed, answers: Path | None, said: Sequence[tuple[str, str, str]], folder: Path
) -> Given:
    """What came back, with a designer's own corrections: (household, what changes, words) each.

    Raises:
        Fault: neither is given, a correction names no household or nothing that can be changed
            (exit 2); the answers can't be read (exit 3).
    """
    corrections, unknown = set_by_hand(listed.guest_list.households, said)
    if unknown or (answers is None and not said):
        text = f"Can't tell what is meant by {', '.join(unknown)}." if unknown else "No answers."
        changes = ", ".join(CORRECTABLE)
        mend = f"Give a file, or --set with a household's key or cell, one of {changes}, and words."
        raise Fault(Exit.OPTIONS, "answers-missing", text, mend)
    given = read_answers(answers, folder) if answers is not None else Given(())
    return replace(given, decisions=(*given.decisions, *corrections))


def keep_answers(listed: Listed, read: Given, folder: Path, date: str | None = None) -> Answered:
    """Check answers against the list, and keep those that hold beside the job.

    What is stale, in conflict or not understood isn't kept; what was decided before stays, where
    it isn't answered again, names given now don't replace it and it still applies. `date` is the
    day that is noted with the new ones.

    Raises:
        Fault: what was decided before can't be read (exit 3), the decisions can't be written
            (exit 4).
    """
    given, wrong = spread(read, questions_for(listed.guest_list, listed.findings))
    given = tuple(replace(each, date=each.date or date) for each in given)
    before = kept_decisions(folder)
    decisions = together(before, given)
    applied = apply(listed.guest_list, listed.findings, decisions, READERS)
    past = replaced(before, given, applied)
    if past:
        decisions = tuple(decision for decision in decisions if decision not in past)
        applied = apply(listed.guest_list, listed.findings, decisions, READERS)
    make_folder(folder)
    path = folder / DECISIONS
    with Together(listed.sources) as files:
        files.working(folder / HOUSEHOLDS, private=True).write_bytes(_known_bytes(listed))
        files.working(path).write_bytes(
            decisions_text(decision for _, decision in applied.taken).encode()
        )
    said = stale(applied.findings, applied.open, listed.remembered.kept)
    refused = (each for each in said if each.code in _OF_ANSWERS)
    found = (*read.findings, *wrong, *refused, *map(told_of, past))
    return Answered(path, applied, given, _open(listed, applied), found)


_OF_ANSWERS = frozenset(("answer-stale", "answer-conflict", "answer-not-understood"))


def _names(text: str) -> NamesRead:
    return _read(read_people(text))


def _children(text: str) -> NamesRead:
    return _read(read_children(text))


def _read(reading: CellReading) -> NamesRead:
    doubtful = any(doubt.code == "name-doubtful" for doubt in reading.doubts)
    return NamesRead(reading.people, reading.label, doubtful)


def _title(text: str) -> str | None:
    """A title in the table's form, an unknown one as typed; None for what is none."""
    known = titles().get(fold(text))
    if known is not None:
        return known.canonical
    words = text.split()
    plain = all(mark.isalpha() or mark in " .'’-" for mark in text)
    return " ".join(words) if plain and 0 < len(words) <= _LONGEST_TITLE else None


def _holding() -> frozenset[str]:
    return frozenset(row["code"] for row in table("findings") if row["holds"] == "yes")


def _address(fields: Mapping[str, Cited]) -> tuple[Address | None, tuple[str, ...]]:
    """An address by its fields, read as the list is; "home" is the country if none is named."""
    lines = fields.get("lines") or fields.get("street")
    country = fields.get("country")
    home = fields.get("home")
    if lines is not None and home is not None and home.text != "US":
        country = country or (None if cut_country(lines.text)[1] else home)
    written = Written(
        lines=_lines(lines),
        unit=fields.get("unit"),
        extra=fields.get("recipient_extra"),
        city=fields.get("city"),
        region=fields.get("region"),
        postcode=fields.get("postcode"),
        country=country,
    )
    address, troubles, _ = read_address(written, frozenset())
    holding = _holding()
    return address, tuple(each.text for each in troubles if each.code in holding)


def _lines(cited: Cited | None) -> tuple[Cited, ...]:
    if cited is None:
        return ()
    return tuple(Cited(line, cited.cells) for line in cited.text.split("\n") if line.strip())


READERS = Readers(_names, _children, _title, _address)
"""The list's own reading, for answers."""
