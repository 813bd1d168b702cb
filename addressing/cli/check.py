"""`addressing check`: how clean the list is."""

import click

from addressing.cli.options import Job, job_options, json_option
from addressing.faults import Exit


@click.command()
@job_options(looks=True)
@json_option
def check(job: Job, *, as_json: bool) -> int:
    """Say what is in doubt in a guest list. Writes nothing; looks up no house (licensed data)."""
    from addressing.cli.held import say_freeing
    from addressing.cli.speaking import heading, say, say_findings, say_json, say_list
    from addressing.job.answers import check_answer

    reading = job.read()
    if as_json:
        say_json(check_answer(reading))
    else:
        say_list(reading)
        heading("Columns as they were read")
        for column in reading.guest_list.columns:
            sheet = f"{column.sheet}!" if column.sheet else ""
            header = column.header or "(no header)"
            say(f"  {sheet}{column.letters:<3} {header:<28} {column.meaning}")
        say_findings(reading, every=True)
        say_freeing(job, reading)
    return int(Exit.HELD if reading.waits else Exit.DONE)
