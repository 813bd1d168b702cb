"""`addressing proof`: the proof sheet alone."""

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
def proof(
    list_path: Path,
    docket_path: Path | None,
    folder: Path | None,
    date: str | None,
    *,
    as_json: bool,
) -> int:
    """Draw the proof sheet for the client to read and sign."""
    from addressing.cli.speaking import counted, say, say_json, say_list
    from addressing.job.plates import draw_proof
    from addressing.job.reading import read_job

    place = folder_for(list_path, folder)
    reading = read_job(list_path, docket_for(docket_path, place), date, place)
    path, sheets = draw_proof(reading, place)
    if as_json:
        say_json({"proof": str(path), "sheets": sheets, "held": sorted(reading.held)})
    else:
        say_list(reading)
        say(f"{path}: {counted(sheets, 'sheet')}.")
    return int(Exit.HELD if reading.waits else Exit.DONE)
