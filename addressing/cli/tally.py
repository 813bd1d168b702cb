"""`addressing tally`: how many of each piece, with overs and packs."""

from pathlib import Path
from typing import TYPE_CHECKING

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

if TYPE_CHECKING:
    from addressing.job.answers import Answer


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
    _say_counts({**answer["pieces"], **answer["suite"]})
    _say_blanks(answer["pieces"])
    return int(Exit.DONE)


def _say_counts(counts: "Answer") -> None:
    from addressing.cli.speaking import say

    wide = max(10, *(len(name) + 2 for name in counts)) if counts else 10
    heads = f"{'needed':>8}{'held':>8}{'overs':>8}{'packs':>8}{'of':>6}{'order':>8}"
    say(f"  {'':<{wide}}{heads}")
    for kind, count in counts.items():
        say(
            f"  {kind:<{wide}}{count['needed']:>8}{count['held']:>8}{count['overs']:>8}"
            f"{count['packs']:>8}{count['pack']:>6}{count['to_order']:>8}"
        )


def _say_blanks(pieces: "Answer") -> None:
    """What the envelopes become, and between how many the need may end."""
    from addressing.cli.speaking import say

    say()
    for kind, count in pieces.items():
        if "addressed" in count:
            flap = f", {count['flap_printed']} with the flap printed and no address"
            rest = flap if count["flap_printed"] else ""
            say(f"  {kind}: {count['addressed']} addressed{rest}, {count['plain']} plain")
    outer = pieces.get("outer", {}).get("open")
    if outer and outer["low"] != outer["high"]:
        enough = "the overs will do" if outer["covered"] else "the overs won't do for all"
        say(
            f"  The list leaves open: between {outer['low']} (nobody who is held back) and"
            f" {outer['high']} outers (each unnamed guest with an own envelope); {enough}."
        )
