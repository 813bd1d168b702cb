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
    path, sheets, unsealed = draw_proof(reading, job.place)
    if as_json:
        held = sorted(reading.held)
        say_json({"proof": str(path), "sheets": sheets, "held": held, "unsealed": unsealed})
    else:
        say_list(reading)
        say(f"{path}: {counted(sheets, 'sheet')}.")
        if unsealed:
            say("note  It isn't the proof that was made with the plates and bears no seal of them:")
            say("  before it is signed, make the plates again. addressing plates gives both.")
    return int(Exit.HELD if reading.waits else Exit.DONE)
