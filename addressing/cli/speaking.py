"""How answers are said to a person: short, calm, colour only on a terminal (click sees to that).

Nothing heavy is imported here: help and faults needn't wait for the rooms.
"""

import json
import sys
from collections.abc import Callable, Collection, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

import click

from addressing.faults import Fault
from addressing.records.findings import CARRIED, LOST, Finding, Severity
from addressing.records.pieces import CARDS, household_of
from addressing.tables import lookup

if TYPE_CHECKING:
    from addressing.job.reading import Reading

_SHOWN = 6
"""So many households are named under one heading; check and the proof have them all."""
_COLOURS = {Severity.STOP: "red", Severity.ASK: "yellow", Severity.NOTE: "blue"}


def say(text: str = "") -> None:
    """One line of the answer."""
    click.echo(text)


def say_json(answer: dict[str, Any]) -> None:
    """The one JSON object on standard output, in UTF-8 whatever the terminal speaks."""
    click.echo(json.dumps(answer, ensure_ascii=False, indent=1).encode())


def say_fault(fault: Fault, *, as_json: bool) -> None:
    """What stopped the work, where, and how to mend it; for programs as the last line."""
    shown = str(fault.where) if fault.where else ""
    where = f" ({shown})" if shown and shown not in fault.text else ""
    click.secho(f"{fault.text}{where}", fg="red", err=True)
    click.echo(fault.mend, err=True)
    if as_json:
        click.echo(json.dumps(fault_answer(fault), ensure_ascii=False).encode(), err=True)


def fault_answer(fault: Fault) -> dict[str, Any]:
    """A fault as programs read it."""
    where = fault.where
    return {
        "fault": {
            "exit": int(fault.exit),
            "code": fault.code,
            "file": where.file if where else None,
            "sheet": where.sheet if where else None,
            "cell": where.cell if where else None,
            "text": fault.text,
            "mend": fault.mend,
        }
    }


def heading(text: str) -> None:
    """A heading of the answer."""
    say()
    click.secho(text, bold=True)


def say_list(reading: "Reading") -> None:
    """Rows, households, guests, envelopes in one line."""
    guests = reading.guest_list
    people = sum(len(household.people) for household in guests.households)
    unused = f" ({counted(len(guests.unused), 'row')} not used)" if guests.unused else ""
    say(
        f"{guests.file}: {counted(guests.rows, 'row')}{unused}, "
        f"{counted(len(guests.households), 'household')}, {counted(people, 'guest')}, "
        f"{', '.join(_pieces(reading))}."
    )
    if reading.words_open:
        many = (
            "1 thing that the client wrote is"
            if reading.words_open == 1
            else (f"{reading.words_open} things that the client wrote are")
        )
        say(f"{many} open: see below, or `check`.")


def _pieces(reading: "Reading") -> Iterator[str]:
    """How many envelopes bear a name and how many cards, and how many of each are held back."""
    named = [piece for piece in reading.pieces if piece.household is not None]
    cards = [piece for piece in named if piece.kind in CARDS]
    envelopes = [piece for piece in named if piece.kind not in CARDS]
    for word, its in (("envelope", envelopes), ("card", cards)):
        if its or (word == "envelope" and not cards):
            held = sum(household_of(piece.household or "") in reading.held for piece in its)
            yield counted(len(its), word) + (f" ({held} of them held back)" if held else "")


def counted(count: int, word: str, many: str | None = None) -> str:
    """A number with its word: 1 page, 2 pages; `many` is the plural that an s doesn't make."""
    return f"{count} {word}" if count == 1 else f"{count} {many or word + 's'}"


def counted_questions(matters: int, single: int) -> str:
    """Questions as the letter numbers them; how many answers they want, where tables have more.

    >>> counted_questions(1, 1), counted_questions(2, 9)
    ('1 question', '2 questions (9 answers with those of their tables)')
    """
    more = f" ({single} answers with those of their tables)" if single > matters else ""
    return f"{counted(matters, 'question')}{more}"


def say_findings(reading: "Reading", *, every: bool = False) -> None:
    """What stopped, what to ask, what to know; one heading a kind, unless `every` is wanted."""
    holding = [found for found in reading.findings if found.holds]
    asking = [f for f in reading.findings if f.severity is Severity.ASK and not f.holds]
    notes = [f for f in reading.findings if f.severity is Severity.NOTE]
    if holding:
        heading(f"Held back until answered: {counted(len(reading.held), 'household')}")
        _say_kinds(reading, holding, every=True)
    if asking:
        heading("To ask; set as listed until it is answered")
        _say_kinds(reading, asking, every=every)
    if notes:
        heading("Worth knowing")
        _say_kinds(reading, notes, every=every)


def say_asked_of(reading: "Reading", keys: Collection[str]) -> None:
    """What is in doubt of some households that are printed all the same, or was carried over."""
    found = [
        each
        for each in reading.findings
        if each.household in keys and not each.holds and each.severity is not Severity.NOTE
    ]
    carried = [f for f in reading.findings if f.household in keys and f.code == CARRIED]
    if found:
        heading("To ask of these; set as listed until it is answered")
        _say_kinds(reading, found, every=True)
    if carried:
        heading("Carried over to these")
        _say_kinds(reading, carried, every=True)


def say_lost_answers(reading: "Reading") -> None:
    """Which of the client's answers aren't there any more."""
    for found in reading.findings:
        if found.code == LOST:
            say(f"note  {found.text} {found.mend}")


def _say_kinds(reading: "Reading", findings: list[Finding], *, every: bool) -> None:
    """One question for all that have it, then each cell with its own words."""
    names = {household.key: household.name for household in reading.guest_list.households}
    titles = lookup("findings", "code", "title")
    kinds: dict[str, list[Finding]] = {}
    for found in findings:
        kinds.setdefault(found.code, []).append(found)
    for code, same in kinds.items():
        mark = click.style(f"{same[0].severity.value:<5}", fg=_COLOURS[same[0].severity])
        count = f" ({len(same)})" if len(same) > 1 else ""
        say(f"  {mark}{titles.get(code, code)}{count}  {click.style(code, dim=True)}")
        shown = same if every else same[:_SHOWN] if len(same) <= _SHOWN else []
        for found in shown:
            who = names.get(found.household or "", "")
            place = f"{found.where}  {who}".strip()
            say(f"       {place}: {found.text} {_mend(found)}".rstrip())


def _mend(found: Finding) -> str:
    """What to do; of notes only what the docket decides, the others want nothing."""
    of_docket = (found.where.cell or "").startswith("docket:")
    told = found.severity is not Severity.NOTE or of_docket or found.code == CARRIED
    return found.mend if told else ""


@contextmanager
def progress(label: str, length: int) -> Iterator[Callable[[str, int], None]]:
    """A bar on a terminal, nothing when piped. The callable takes a step's name and its share."""
    if not sys.stderr.isatty():
        yield lambda _step, _done: None
        return
    with click.progressbar(length=length, label=label, file=sys.stderr) as bar:

        def tell(step: str, done: int) -> None:
            bar.label = f"{step:<28}"
            bar.update(done)

        yield tell


def say_dated(what: str, file: str, as_of: str, *, invented: bool) -> None:
    """Of which day the user's own prices are, or that the packaged ones are invented."""
    if invented:
        say(f"\nThese {what} are invented. Put your own into {file} beside the docket.")
    else:
        say(f"\n{what.capitalize()} as of {as_of}, from {file}.")
