"""`addressing answer`: the client's answers are read back and kept beside the job."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from addressing.cli.options import Job, date_option, job_options, json_option
from addressing.cli.questions import question_answer
from addressing.faults import Exit

if TYPE_CHECKING:
    from collections.abc import Sequence

    from addressing.job.answering import Answered
    from addressing.records.findings import Finding
    from addressing.records.questions import Question


@click.command()
@job_options()
@click.argument(
    "answers_path", metavar="[ANSWERS]", required=False, type=click.Path(path_type=Path)
)
@click.option(
    "--set",
    "said",
    nargs=3,
    multiple=True,
    metavar="HOUSEHOLD WHAT WORDS",
    help="A correction of your own: a household's key, cell, name or proof:NUMBER, or a place that "
    "`check` tells; what changes (see above), and the new words. May be given again.",
)
@click.option(
    "--undo",
    multiple=True,
    metavar="HOUSEHOLD[:WHAT]",
    help="Take a decision back: its place (--set!2), or a household's key, cell or name, and what "
    "was decided (B14:names, B14:title); without it everything that was decided of it. May be "
    "given again.",
)
@click.option(
    "--settled",
    multiple=True,
    metavar="PLACE",
    help="What is open there is dealt with, or stands as it is: its place as `check` tells it "
    "(with its code where several things are open there: B14:title-missing), the client's words, "
    "or the household. May be given again.",
)
@date_option
@json_option
def answer(  # noqa: PLR0913 - every option of the command
    job: Job,
    answers_path: Path | None,
    said: tuple[tuple[str, str, str], ...],
    date: str | None,
    *,
    undo: tuple[str, ...],
    settled: tuple[str, ...],
    as_json: bool,
) -> int:
    """Read the filled workbook, a reply to the letter or TOML, and keep what was decided.

    With --set HOUSEHOLD WHAT WORDS you correct a household yourself. WHAT is one of:

    \b
      names     whom the list names, as written   B14 names "Ms. Odile Farrenby"
      everyone  all who are invited, children too B14 everyone "Mr. Alaric Penhew, Linnet (6)"
      title     of somebody who is alone          B14 title Dr.
      invited   yes or no                         B14 invited no
      address   the whole address, or by hand     B14 address "9 Quarry Hill, Rutland, VT 05701"
      street    number and street                 B14 street "9 Quarry Hill"
      unit      apartment, suite, floor           B14 unit "Apt. 4B"
      city      the town                          B14 city Rutland
      region    state, province, county           B14 region VT
      postcode  ZIP or postcode                   B14 postcode 05701
      country   its name or two letters           B14 country Sweden

    B14 is any cell of the household's row; its key or its name will do as well, and so will a
    number that says where it was read: proof:12, print:12 (slips, stuffing list) or
    01-outer-white.pdf:12. The same goes for --undo and --settled.

    Exit 0 says that every answer that was given holds, 1 that some don't. What the client wrote
    besides is told and kept, and changes the exit code of `check`, not this one; who still waits is
    told at the end.
    """  # noqa: D301 - the command's help takes a backspace for "as it stands"
    from addressing.cli.speaking import say_json
    from addressing.job.answering import answers_and_corrections, keep_answers
    from addressing.job.answers import decision_answer, finding_answer
    from addressing.job.asking import list_as_read
    from addressing.job.manifest import keep_docket
    from addressing.job.meant import by_plates

    into = job.place
    said = tuple((by_plates(into, whose), what, words) for whose, what, words in said)
    undo, settled = (tuple(by_plates(into, each) for each in names) for names in (undo, settled))
    listed = list_as_read(job.list_path, job.docket, into)
    job.refuse_earlier(listed.remembered.versions)
    more = bool(undo or settled)
    given = answers_and_corrections(listed, answers_path, said, into, more=more)
    day = date or listed.docket.date
    done = keep_answers(listed, given, into, day, undo=undo, settle=settled)
    keep_docket(into, listed.guest_list, listed.docket)
    if as_json:
        say_json(
            {
                "decisions": str(done.path),
                "applied": [decision_answer(decision) for _, decision in done.applied.taken],
                "open": [question_answer(question) for question in done.open],
                "findings": [finding_answer(found) for found in done.findings],
                "left_out": [found.text for found in done.left_out],
                "words_open": [finding_answer(found) for found in done.words],
            }
        )
    else:
        _say(done, _waiting(job, date))
    return int(Exit.HELD if done.refused else Exit.DONE)


def _waiting(job: Job, date: str | None) -> int | None:
    """How many households wait, as `check` counts them; None where the docket can't be followed."""
    from addressing.faults import Fault

    try:
        return len(job.read(date).held)
    except Fault:
        return None


def _say(done: "Answered", waiting: int | None) -> None:
    from addressing.cli.speaking import say

    taken, given = {decision for _, decision in done.applied.taken}, set(done.given)
    kept = "1 decision is kept" if len(taken) == 1 else f"{len(taken)} decisions are kept"
    of_given = f"{len(taken & given)} of {len(given)} answers hold; " if given else ""
    say(f"{of_given}{kept}.")
    say(f"  {done.path}")
    for line in done.set_now:
        say(f"  {line}")
    _say_refused(done)
    for title, told in (
        ("Left out", done.left_out),
        ("No longer held to", done.replaced),
        ("Read before, and decided since", done.overruled),
        ("Beside the names", done.beside),
        ("The client adds", done.remarks),
    ):
        _say_told(title, told)
    _say_words(done)
    say()
    say(_still_open(done, waiting))


def _say_told(title: str, told: "Sequence[Finding]") -> None:
    """What became of answers and decisions, under its heading; nothing where there is none."""
    from addressing.cli.speaking import heading, say

    if told:
        heading(f"{title} ({len(told)})")
        for found in told:
            say(f"  {found.where}: {found.text}")


def _say_refused(done: "Answered") -> None:
    """The answers that don't hold; of those that stay as words of the client what to do, too."""
    from addressing.cli.speaking import heading, say

    if not done.refused:
        return
    heading(f"Not taken ({len(done.refused)})")
    names = {home.key: home.name for home in done.applied.guest_list.households}
    words = {_at(found): found for found in done.words}
    numbers = {decision.where: done.number_of(decision) for decision in done.applied.open}
    for found in done.refused:
        asked = numbers.get(found.where)
        question = f" (question {asked})" if asked else ""
        place = f"{found.where}{question}  {names.get(found.household or '', '')}".rstrip()
        open_ = words.get(_at(found))
        mend = _what_to_do(open_) if open_ is not None else found.mend
        say(f"  {place}: {found.text} {mend}{_who_waits_too(found, done)}")


def _who_waits_too(refused: "Finding", done: "Answered") -> str:
    """Who else waits for the words of an answer that isn't taken, since they name them."""
    same = (each for each in done.words if _at(each)[:2] == _at(refused)[:2])
    others = {each.household for each in same if each.holds} - {refused.household, None}
    who = [name for key, name in done.names.items() if key in others]
    if not who:
        return ""
    return f" {', '.join(who)} {'waits' if len(who) == 1 else 'wait'} too."


def _at(found: "Finding") -> tuple[object, ...]:
    return found.where, found.quoted, found.household


def _what_to_do(words: "Finding") -> str:
    return f"The household waits. {words.mend}" if words.holds else words.mend


def _say_words(done: "Answered") -> None:
    """What the client wrote beside the answers: what is dealt with now, and what is open."""
    from addressing.cli.speaking import heading, say

    if done.settled:
        heading(f"Dealt with ({len(done.settled)})")
        for closed in done.settled:
            who = f"  {closed.who}" if closed.who else ""
            what = f"“{closed.words}” stands as it is." if closed.stands else f"“{closed.words}”."
            say(f"  {closed.where}{who}: {what} Still open? answer --undo '{closed.undo}'")
            _say_still_asked(tuple(closed.still_asked(done.open)))
    refused = {(found.where, found.quoted) for found in done.refused}
    rest: dict[tuple[object, ...], list[Finding]] = {}
    for found in done.words:
        if _at(found)[:2] not in refused:
            rest.setdefault(_at(found)[:2], []).append(found)
    if rest:
        heading(f"The client wrote, and nothing could be made of it ({len(rest)})")
        for same in rest.values():
            _say_open(same, done)


def _say_open(same: "Sequence[Finding]", done: "Answered") -> None:
    """Words that are open, once for all whom they name."""
    from addressing.cli.speaking import say

    found = same[0]
    who = [done.names.get(each.household or "", "") for each in same]
    who = list(filter(None, dict.fromkeys(who)))
    whom = f"  {', '.join(who)}" if who else ""
    what = _what_to_do(found)
    what = what.replace("The household waits.", "They wait.") if len(who) > 1 else what
    say(f"  {found.where}{whom}: “{' '.join(found.quoted.split())}”. {what}")


def _say_still_asked(questions: "Sequence[Question]") -> None:
    """What closed words leave open, and how that is answered; nothing where nothing is asked."""
    from addressing.cli.speaking import say
    from addressing.questions.closing import may_stand

    if not questions:
        return
    say("    The line is closed. The question stays open and goes into the next letter:")
    for question in questions:
        found = question.covers[0]
        own = f"answer --set '{found.where}' WHAT WORDS"
        stands = f"; as it stands: answer --settled '{found.where}:{found.code}'"
        say(f"    {found.text} Say it: {own}{stands if may_stand(question) else ''}")


def _still_open(done: "Answered", waiting: int | None) -> str:
    """How many questions are left, counted as in the letter, and how many households wait.

    `waiting` None: not known.
    """
    from addressing.cli.speaking import counted_questions

    count = len(done.open)
    if not count and not done.words and waiting == 0:
        return "Nothing is open."
    asked = "No question is" if not count else counted_questions(done.open_matters, count)
    verb = {0: "", 1: " is"}.get(done.open_matters, " are")
    asked = f"{asked}{verb} still open"
    if waiting is None:
        return f"{asked}; `check` tells who waits."
    waits = {0: "no household is", 1: "1 household is"}.get(waiting, f"{waiting} households are")
    return f"{asked}; {waits} held back."
