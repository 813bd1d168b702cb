"""`addressing plates`: the main job, from the list to proved plates."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from addressing.cli.options import (
    date_option,
    docket_for,
    docket_option,
    folder_for,
    json_option,
    list_argument,
    to_option,
)
from addressing.faults import Exit
from addressing.records.pieces import CARDS

if TYPE_CHECKING:
    from addressing.job.plates import Made


@click.command()
@list_argument
@docket_option
@to_option
@date_option
@json_option
@click.option("--all-or-none", is_flag=True, help="Write nothing while a household is held back.")
def plates(
    list_path: Path,
    docket_path: Path | None,
    folder: Path | None,
    date: str | None,
    *,
    as_json: bool,
    all_or_none: bool,
) -> int:
    """Make proved plates, the proof sheet, the counts and the job sheet."""
    from addressing.cli.speaking import progress, say, say_findings, say_json, say_list
    from addressing.job.answers import made_answer
    from addressing.job.plates import make_plates, steps
    from addressing.job.reading import read_job

    place = folder_for(list_path, folder)
    reading = read_job(list_path, docket_for(docket_path, place), date, place)
    if not as_json:
        say_list(reading)
        say_findings(reading)
    if reading.waits and all_or_none:
        if as_json:
            say_json(made_answer(reading, None))
        else:
            say("\nNothing was written: --all-or-none, and households are held back.")
        return int(Exit.HELD)
    with progress("Plates", steps(reading)) as tell:
        made = make_plates(reading, place, tell)
    if as_json:
        say_json(made_answer(reading, made))
    else:
        _say_made(made)
    return int(Exit.HELD if reading.waits else Exit.DONE)


def _say_made(made: "Made") -> None:
    from addressing.cli.speaking import counted, heading, say

    heading(f"Written to {made.folder}")
    for plate, verdict in zip(made.plates, made.verdicts, strict=True):
        seen = dict(verdict.counted)
        many = (
            counted(plate.pages, "card" if plate.kind in CARDS else "envelope")
            if plate.households
            else f"one page, {counted(plate.copies, 'copy', 'copies')}"
        )
        read = f"{counted(seen['lines'], 'line')} and {counted(seen['glyphs'], 'letter')} re-read"
        say(f"  {plate.path:<32} {plate.ink}, {many}; proved: {read}")
    say(f"  {'proof.pdf':<32} {counted(made.proof_sheets, 'sheet')} to read and sign")
    say(f"  {'job-sheet.pdf':<32} for whoever stands at the device")
    say(f"  {'counts.tsv':<32} what to order, overs and packs")
    for note in made.notes:
        say(f"  note  {note.text} {note.mend}")
