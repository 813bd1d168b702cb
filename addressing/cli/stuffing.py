"""`addressing stuffing`: every envelope in the order of print, with boxes to tick."""

import click

from addressing.cli.options import Job, job_options, json_option
from addressing.faults import Exit


@click.command()
@job_options()
@click.option(
    "--name",
    default="stuffing-list.pdf",
    show_default=True,
    metavar="FILE",
    help="Its name in the job's folder: .pdf, .tsv, or .xlsx with the counts beside it.",
)
@json_option
def stuffing(job: Job, name: str, *, as_json: bool) -> int:
    """List the envelopes in the order of print: printed, filled, stamped, posted."""
    from addressing.cli.speaking import counted, say, say_json
    from addressing.job.stuffing import write_stuffing
    from addressing.records.findings import told_left_out

    reading = job.read()
    gone = told_left_out(reading.findings)
    made = write_stuffing(reading, job.place, name)
    if as_json:
        told = {"file": str(made.path), "envelopes": made.envelopes, "left_out": list(gone)}
        say_json({**told, "away": made.away, "new": made.new})
    else:
        say(f"{counted(made.envelopes, 'envelope')} in {made.path}")
        if made.away or made.new:
            say("note  The list was changed since the plates were made: order and numbers are")
            say(f"  those of the plates. On them and not to go out now: {made.away}; on none")
            say(f"  of them yet, at the end of the list: {made.new}.")
        for text in gone:
            say(f"  {text}")
    return int(Exit.HELD if reading.waits else Exit.DONE)
