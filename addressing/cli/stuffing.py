"""`addressing stuffing`: every envelope in the order of print, with boxes to tick."""

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
@click.option(
    "--name",
    default="stuffing-list.pdf",
    show_default=True,
    metavar="FILE",
    help="Its name in the job's folder: .pdf, .tsv, or .xlsx with the counts beside it.",
)
@json_option
def stuffing(
    list_path: Path, docket_path: Path | None, folder: Path | None, name: str, *, as_json: bool
) -> int:
    """List the envelopes in the order of print: printed, filled, stamped, posted."""
    from addressing.cli.speaking import counted, say, say_json
    from addressing.job.reading import read_job
    from addressing.job.stuffing import write_stuffing

    place = folder_for(list_path, folder)
    reading = read_job(list_path, docket_for(docket_path, place), None, place)
    path, envelopes = write_stuffing(reading, place, name)
    if as_json:
        say_json({"file": str(path), "envelopes": envelopes})
    else:
        say(f"{counted(envelopes, 'envelope')} in {path}")
    return int(Exit.HELD if reading.waits else Exit.DONE)
