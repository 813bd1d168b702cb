"""`addressing package`: the plates and all that goes with them, in one file for the shop."""

from pathlib import Path

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


@click.command()
@list_argument
@docket_option
@to_option
@date_option
@json_option
@click.option("--reprint", type=click.IntRange(1), help="The plates of that reprint.")
def package(
    list_path: Path,
    docket_path: Path | None,
    folder: Path | None,
    date: str | None,
    reprint: int | None,
    *,
    as_json: bool,
) -> int:
    """Judge the plates once more and pack them for the shop, with proof, ticket and data."""
    from addressing.cli.speaking import counted, say, say_json
    from addressing.job.packing import pack_job
    from addressing.job.reading import read_job

    place = folder_for(list_path, folder)
    docket = docket_for(docket_path, place)
    reading = read_job(list_path, docket, date, place)
    packed = pack_job(reading, place, docket, reprint)
    held = [home.key for home in reading.guest_list.households if home.key in reading.held]
    if as_json:
        say_json({"package": str(packed.path), "files": list(packed.names), "held": held})
    else:
        if held:
            say(f"Held back and not in it: {counted(len(held), 'household')}.")
        say(f"{packed.path}: {counted(len(packed.judged), 'plate')}, judged once more and right")
        for name in packed.names:
            say(f"  {name}")
    return int(Exit.HELD if reading.waits else Exit.DONE)
