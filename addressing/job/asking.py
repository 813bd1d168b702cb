"""Questions out: what the client is asked of a list, written as a workbook and a letter."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from addressing.faults import Exit, Fault
from addressing.files import Together, alone_in, make_folder
from addressing.guestlist import read_list
from addressing.job.answers_kept import refuse_answers_here
from addressing.job.deciding import (
    answers_gone,
    answers_noted,
    kept_decisions,
    kept_earlier,
    kept_words,
    open_words,
)
from addressing.job.hinting import command_line
from addressing.job.remembering import (
    HOUSEHOLDS,
    Remembered,
    households_text,
    ledger_beside,
    remember,
)
from addressing.job.replies import LETTERS, kept_letters, letters_json, read_answers
from addressing.job.rereading import READERS
from addressing.job.styling import ask_names, asks_places, asks_titles, styles_for
from addressing.job.words import heard
from addressing.materials.docket import read_docket
from addressing.materials.shelf import open_shelf
from addressing.questions.applying import apply
from addressing.questions.asking import questions_for
from addressing.questions.kinds import is_of_place
from addressing.questions.letter import letter_text
from addressing.questions.matters import matters_of
from addressing.questions.said import OF_WORDS, told_words
from addressing.questions.sheets import sheets_for
from addressing.questions.spreading import in_own_words, is_for_all
from addressing.questions.workbook import workbook_bytes
from addressing.records.docket import Docket
from addressing.records.findings import Finding
from addressing.records.guests import GuestList, Household
from addressing.records.questions import Applied, Decision, Given, Matter, Question, Said
from addressing.where import Where


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


def list_as_read(list_path: Path, docket_path: Path | None, folder: Path | None = None) -> Listed:
    """Read a list by a docket (None: the defaults), without any decision.

    Households that the job's folder knows keep their keys.

    Raises:
        Fault: list, docket or what the folder knows (exit 3); the docket takes answers from
            another job's folder, where questions and answers belong (exit 2).
    """
    docket = read_docket(docket_path) if docket_path else Docket()
    if folder is not None:
        refuse_answers_here(docket, folder)
    home = docket.hosts.country if docket.hosts else "US"
    guest_list, findings = read_list(list_path, dict(docket.columns), home, docket.posting)
    remembered = remember(guest_list, findings, folder)
    sources = tuple(path for path in (list_path, docket_path) if path is not None)
    styles = styles_for(docket, open_shelf((docket_path or list_path).parent))
    titles = asks_titles(styles, docket)
    decisions = kept_decisions(folder)
    words = open_words(remembered.guest_list, folder, decisions)
    words = (*answers_gone(remembered, decisions), *words)
    found = (*remembered.findings, *words, *ask_names(remembered.guest_list, styles, docket))
    return Listed(remembered.guest_list, found, docket, sources, remembered, titles)


def with_words(listed: Listed, words: Sequence[Said], decided: Collection[str]) -> Listed:
    """A list with what is open of the client's words; `decided` are the refs of decisions."""
    homes = {home.key: home for home in listed.guest_list.households}
    own = (found for found in listed.findings if found.code not in OF_WORDS)
    return replace(listed, findings=(*own, *told_words(words, homes, decided)))


def open_questions(listed: Listed, folder: Path | None) -> tuple[Question, ...]:
    """What is still to be asked of a list, after what was decided in the job's folder.

    Raises:
        Fault: the decisions can't be read (exit 3).
    """
    decisions = kept_decisions(folder)
    return still_open(listed, apply(listed.guest_list, listed.findings, decisions, READERS))


@dataclass(frozen=True, slots=True)
class Outgoing:
    """What goes to the client: all that is asked, and everybody as they are called by now."""

    matters: tuple[Matter, ...]
    households: tuple[Household, ...]


def outgoing(listed: Listed, folder: Path | None) -> Outgoing:
    """What is still to be asked as the client meets it: numbered, what is asked often in a table.

    Raises:
        Fault: the decisions can't be read (exit 3).
    """
    applied = apply(listed.guest_list, listed.findings, kept_decisions(folder), READERS)
    homes = listed.guest_list.households
    now = (applied.called[home.key].home if home.key in applied.called else home for home in homes)
    return Outgoing(matters_of(still_open(listed, applied)), tuple(now))


def still_open(listed: Listed, applied: Applied) -> tuple[Question, ...]:
    """What is asked of a list and neither answered nor settled by what was decided."""
    done = {question.ref for question, _ in applied.taken} | applied.moot
    left, places = frozenset(applied.findings), asks_places(listed.docket)
    return tuple(
        question
        for question in (
            *questions_for(listed.guest_list, listed.findings, applied.called),
            *applied.asked,
        )
        if question.ref not in done
        and any(found in left for found in question.covers)
        and (listed.titles or question.kind != "title")
        and (places or not all(is_of_place(found.code) for found in question.covers))
    )


def write_questions(listed: Listed, out: Outgoing, folder: Path) -> tuple[Path, Path]:
    """The workbook and the letter: (questions.xlsx, questions.txt) in the job's folder.

    Raises:
        Fault: they can't be written, or would overwrite the list or answers that nobody has read
            yet (exit 4).
    """
    make_folder(folder)
    book, letter = folder / "questions.xlsx", folder / "questions.txt"
    _guard_answers(book, folder, _answering(listed, book, folder), listed.guest_list.households)
    letters = kept_letters(folder)
    then = _answering(listed, letter, folder)
    _guard_letter(letter, [each.text for each in letters], then)
    # The letter comes last: one that the folder doesn't know would be taken for an answered one.
    with alone_in(folder), Together(listed.sources) as files:
        files.working(folder / HOUSEHOLDS).write_bytes(
            known_bytes(listed, folder, kept_decisions(folder))
        )
        if out.matters:
            files.working(folder / LETTERS).write_bytes(letters_json(letters, out.matters))
        sheets = sheets_for(out.households, out.matters)
        files.working(book).write_bytes(workbook_bytes(sheets))
        files.working(letter).write_bytes(letter_text(out.matters).encode())
    return book, letter


def known_bytes(listed: Listed, folder: Path, decisions: Sequence[Decision]) -> bytes:
    """What the folder keeps of the households: their keys stand in the questions.

    `decisions` are those that it will hold.
    """
    known, beside = listed.remembered, ledger_beside(folder)
    answered = answers_noted(folder, decisions)
    return households_text(known.kept.known, known.versions, beside, answered).encode()


def _answering(listed: Listed, path: Path, folder: Path) -> str:
    """The command that reads a file of answers of this job."""
    source, *dockets = listed.sources
    into = None if folder == Path(f"{source.stem}-job") else folder
    return command_line("answer", source, path, docket=dockets[0] if dockets else None, folder=into)


def _guard_answers(book: Path, folder: Path, then: str, homes: Sequence[Household]) -> None:
    """A workbook that was filled in where it lies isn't written over before it is read."""
    if not book.exists():
        return
    try:
        unread = _is_unread(read_answers(book, folder), folder, homes)
        text = f"{book} holds answers that aren't kept yet."
    except Fault:
        unread, text = True, f"{book} is there and isn't a workbook of questions."
    if unread:
        mend = f"Read it ({then}), or give it another name."
        raise Fault(Exit.WRITE, "answers-unread", text, mend, Where(str(book)))


def _is_unread(given: Given, folder: Path, homes: Sequence[Household]) -> bool:
    """True for a workbook with anything that the job's folder doesn't keep."""
    kept = {(decision.ref, decision.answer) for decision in kept_decisions(folder)}
    kept_said = kept_words(folder)
    kept |= {(said.ref, said.words) for said in kept_said}
    kept |= {(each.decision.ref, each.decision.answer) for each in kept_earlier(folder)}
    places = {words.where for words in given.said}
    told = (each for each in given.decisions if not is_for_all(each.ref))
    words = {each.words for each in heard(given.said, (), homes, None)}
    words |= {each.answer for each in in_own_words(given.decisions)}
    return (
        any(found.where not in places for found in given.findings)
        or bool(words - {said.words for said in kept_said})
        or any((each.ref, each.answer) not in kept for each in told)
    )


def _guard_letter(letter: Path, sent: Sequence[str], then: str) -> None:
    """A letter that was answered where it lies isn't written over either."""
    if not letter.exists() or not sent:
        return
    if letter.read_bytes().decode("utf-8", "replace") not in (*sent, letter_text(())):
        text = f"{letter} isn't as it was written: it may hold answers."
        mend = f"Read it ({then}), then give it another name."
        raise Fault(Exit.WRITE, "answers-unread", text, mend, Where(str(letter)))
