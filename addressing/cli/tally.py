"""`addressing tally`: how many of each piece, with overs and packs."""

from pathlib import Path

import click

from addressing.cli.options import (
    docket_for,
    docket_option,
    folder_for,
    json_option,
    list_argument,
    to_option,
)
from addressing.faults import Exit


@click.command()
@list_argument
@docket_option
@to_option
@json_option
def tally(list_path: Path, docket_path: Path | None, folder: Path | None, *, as_json: bool) -> int:
    """Count the pieces: needed, overs, packs to order. Writes nothing."""
    from addressing.cli.speaking import say, say_json, say_list
    from addressing.job.answers import tally_answer
    from addressing.job.reading import read_job

    place = folder_for(list_path, folder)
    docket_path = docket_for(docket_path, place, looks=True)
    reading = read_job(list_path, docket_path, None, place)
    answer = tally_answer(reading)
    if as_json:
        say_json(answer)
        return int(Exit.DONE)
    say_list(reading)
    say()
    say(f"  {'':<10}{'needed':>8}{'held':>8}{'overs':>8}{'packs':>8}{'of':>6}{'order':>8}")
    for kind, count in answer["pieces"].items():
        say(
            f"  {kind:<10}{count['needed']:>8}{count['held']:>8}{count['overs']:>8}"
            f"{count['packs']:>8}{count['pack']:>6}{count['to_order']:>8}"
        )
    return int(Exit.DONE)
