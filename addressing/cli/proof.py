"""`addressing proof`: the proof sheet alone."""

from pathlib import Path

import click

from addressing.cli.options import (
    date_option,
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
    from addressing.cli.speaking import say, say_json, say_list
    from addressing.job.plates import draw_proof
    from addressing.job.reading import read_job

    reading = read_job(list_path, docket_path, date, folder_for(list_path, folder))
    path, sheets = draw_proof(reading, folder_for(list_path, folder))
    if as_json:
        say_json({"proof": str(path), "sheets": sheets, "held": sorted(reading.held)})
    else:
        say_list(reading)
        say(f"{path}: {sheets} sheets.")
    return int(Exit.HELD if reading.waits else Exit.DONE)
