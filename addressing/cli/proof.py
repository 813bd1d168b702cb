"""`addressing proof`: the proof sheet alone."""

import click

from addressing.cli.options import Job, date_option, job_options, json_option
from addressing.faults import Exit


@click.command()
@job_options()
@date_option
@json_option
def proof(
    job: Job,
    date: str | None,
    *,
    as_json: bool,
) -> int:
    """Draw the proof sheet for the client to read and sign."""
    from addressing.cli.speaking import counted, say, say_json, say_list
    from addressing.job.plates import draw_proof

    reading = job.read(date)
    path, sheets = draw_proof(reading, job.place)
    if as_json:
        say_json({"proof": str(path), "sheets": sheets, "held": sorted(reading.held)})
    else:
        say_list(reading)
        say(f"{path}: {counted(sheets, 'sheet')}.")
    return int(Exit.HELD if reading.waits else Exit.DONE)
