"""`addressing lines`: the wording of every piece."""

from typing import TYPE_CHECKING

import click

from addressing.cli.options import Job, job_options, json_option
from addressing.faults import Exit
from addressing.records.pieces import household_of

if TYPE_CHECKING:
    from addressing.job.reading import Reading
    from addressing.records.pieces import Piece


@click.command()
@job_options(looks=True)
@json_option
def lines(job: Job, *, as_json: bool) -> int:
    """Show the wording of every piece. Writes nothing."""
    from addressing.cli.speaking import say_json
    from addressing.job.answers import lines_answer

    reading = job.read()
    if as_json:
        say_json(lines_answer(reading))
    else:
        _say(reading)
    return int(Exit.HELD if reading.waits else Exit.DONE)


def _say(reading: "Reading") -> None:
    from addressing.cli.speaking import heading, say

    for found in reading.findings_of(None):
        if found.code == "list-read-before":
            say(f"{found.text} {found.mend}")
    pieces: dict[str, list[Piece]] = {}
    for piece in reading.pieces:
        pieces.setdefault(household_of(piece.household or ""), []).append(piece)
    placed = reading.otherwise()
    width = 2 + max((len(piece.kind) for piece in reading.pieces), default=0)
    for household in reading.guest_list.households:
        waits = "  waiting for an answer" if household.key in reading.held else ""
        cells = ", ".join(dict.fromkeys(str(row) for row in household.rows))
        heading(f"{household.number}  {household.name}  {household.key}  {cells}{waits}")
        for piece in pieces.get(household.key, ()):
            other = placed.get((piece.kind, piece.household))
            texts = [line.text for line in (other or piece.wordings[0]).lines]
            for place, text in enumerate(texts):
                say(f"  {piece.kind if place == 0 else '':<{width}}{text}")
            if other is not None:
                say(f"  {'':<{width}}({other.why})")
