"""`addressing plates`: the main job, from the list to proved plates."""

from typing import TYPE_CHECKING

import click

from addressing.cli.options import Job, date_option, job_options, json_option
from addressing.faults import Exit
from addressing.records.pieces import CARDS

if TYPE_CHECKING:
    from collections.abc import Sequence

    from addressing.job.plates import Made
    from addressing.job.reading import Reading
    from addressing.records.plates import PlateFile, Verdict

    Plates = list[tuple[PlateFile, Verdict]]


@click.command()
@job_options()
@date_option
@json_option
@click.option(
    "--from",
    "number",
    type=click.IntRange(1),
    metavar="N",
    help="After a jam: only the envelopes from number N of the order of print on.",
)
@click.option(
    "--kind", default="outer", metavar="KIND", help="The kind of piece for --from. Default: outer."
)
@click.option("--all-or-none", is_flag=True, help="Write nothing while a household is held back.")
def plates(
    job: Job,
    date: str | None,
    number: int | None,
    kind: str,
    *,
    as_json: bool,
    all_or_none: bool,
) -> int:
    """Make proved plates, the proof sheet, the counts and the job sheet."""
    from addressing.cli.held import say_freeing
    from addressing.cli.speaking import counted, progress, say, say_findings, say_json, say_list
    from addressing.job.answers import made_answer
    from addressing.job.going_on import drop_continuations, go_on
    from addressing.job.hinting import command_line
    from addressing.job.ledger_kept import ledger_told
    from addressing.job.plates import make_plates, steps
    from addressing.job.printing import right_on_paper

    reading = job.read(date)
    if not as_json:
        say_list(reading)
        say_findings(reading)
        say_freeing(job, reading)
    if reading.waits and all_or_none:
        if as_json:
            say_json(made_answer(reading, None))
        else:
            say("\nNothing was written: --all-or-none, and households are held back.")
        return int(Exit.HELD)
    with progress("Plates", steps(reading)) as tell:
        made = (
            make_plates(reading, job.place, tell)
            if number is None
            else go_on(reading, job.place, kind, number, tell)
        )
    if number is None:
        drop_continuations(job.place)
    printed, lost = right_on_paper(reading, job.place), ledger_told(job.place)
    if as_json:
        say_json({**made_answer(reading, made), "on_paper": printed, "lost": lost or None})
    else:
        _say_made(made)
        if printed:
            then = command_line("reprint", job.list_path, docket=job.asked, folder=job.folder)
            right = "is on paper and right" if printed == 1 else "are on paper and right"
            say(f"\n{counted(printed, 'piece')} of these {right}. Only the others: {then}")
        if lost:
            say(f"\nnote  {lost}")
        _say_otherwise(reading)
        _say_next(job, reading)
    return int(Exit.HELD if reading.waits else Exit.DONE)


TOLD = 12
"""Pieces that are told of one by one; the job sheet has all."""


def _say_otherwise(reading: "Reading") -> None:
    """The pieces that don't stand as they are worded, and why."""
    from addressing.cli.speaking import counted, heading, say

    apart = [
        (kind.kind, placed)
        for kind in reading.kinds
        for placed in kind.setting.pieces
        if placed.why
    ]
    if not apart:
        return
    heading(f"{counted(len(apart), 'piece')} set otherwise")
    for kind, placed in apart[:TOLD]:
        say(f"  {kind:<8} {placed.name}: {placed.why}")
        if len({line.source for line in placed.lines}) < len(placed.lines):
            say(f"  {'':<8} it stands: {' / '.join(line.text for line in placed.lines)}")
    if len(apart) > TOLD:
        say(f"  and {len(apart) - TOLD} more: the job sheet has all")


def _say_next(job: Job, reading: "Reading") -> None:
    """What comes after the plates: read the proof, hand them to the shop, say what was printed."""
    from addressing.cli.speaking import say
    from addressing.job.hinting import command_line
    from addressing.records.shelf import Shop

    say("\nRead proof.pdf before anything is printed.")
    if isinstance(reading.press, Shop):
        pack = command_line("package", job.list_path, docket=job.asked, folder=job.folder)
        say(f"For {reading.press.title}: {pack}")
    if any(not kind.static for kind in reading.kinds):
        done = command_line("printed", job.list_path, folder=job.folder)
        say(f"When they are on paper: {done}")


def _say_made(made: "Made") -> None:
    from addressing.cli.speaking import counted, heading, say

    heading(f"Written to {made.folder}")
    sets: dict[tuple[str, str], Plates] = {}
    for plate, verdict in zip(made.plates, made.verdicts, strict=True):
        sets.setdefault((plate.kind, plate.ink), []).append((plate, verdict))
    files: dict[tuple[str, ...], list[Plates]] = {}
    for each in sets.values():
        files.setdefault(tuple(plate.path for plate, _ in each), []).append(each)
    for kinds in files.values():
        say(f"  {_paths(kinds[0]):<32} {_said(kinds)}")
    say(f"  {'proof.pdf':<32} {counted(made.proof_sheets, 'sheet')} to read and sign")
    say(f"  {'job-sheet.pdf':<32} for whoever stands at the device")
    if made.slips:
        say(f"  {'slips.pdf':<32} a slip to lay on each pile")
    say(f"  {'counts.tsv':<32} what to order, overs and packs")
    for name in made.gone:
        say(f"  {name:<32} taken away: it was made of the plates before; make it anew")
    for note in made.notes:
        say(f"  note  {note.text} {note.mend}")


def _paths(plates: "Plates") -> str:
    """The path of a set's plates; of several the first and the ending of the last."""
    first, last = plates[0][0].path, plates[-1][0].path
    if first == last:
        return first
    ending = last.removesuffix(".pdf").rpartition("-")[2]
    return f"{first.removesuffix('.pdf')} … {ending}.pdf"


def _many(plates: "Plates") -> str:
    """How many pieces of a kind are on its plates."""
    from addressing.cli.speaking import counted

    first = plates[0][0]
    if not first.households:
        pages = sum(plate.pages for plate, _ in plates)
        if pages > 1:
            return counted(pages * first.up * first.copies, "copy", "copies")
        return f"one page, {counted(first.copies, 'copy', 'copies')}"
    word = "card" if first.kind in CARDS else "envelope"
    return counted(sum(len(plate.households) for plate, _ in plates), word)


def _said(kinds: "Sequence[Plates]") -> str:
    """Ink, number, batches and what was proved of a set's plates, which kinds may share."""
    from addressing.cli.speaking import counted

    plates = kinds[0]
    first = plates[0][0]
    pages = sum(plate.pages for plate, _ in plates)
    many = _many(plates)
    if len(kinds) > 1:
        many = " and ".join(f"{_many(each)} ({each[0][0].kind})" for each in kinds)
    if first.up > 1:
        many += f" on {counted(pages, 'sheet')}, {' and '.join(str(e[0][0].up) for e in kinds)} up"
    if len(plates) > 1:
        many += f" in {len(plates)} batches of {max(plate.pages for plate, _ in plates)}"
    lines, letters = (
        sum(dict(verdict.counted)[what] for _, verdict in plates) for what in ("lines", "glyphs")
    )
    read = f"{counted(lines, 'line')} and {counted(letters, 'letter')} re-read"
    return f"{first.ink}, {many}; proved: {read}"
