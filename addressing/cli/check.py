"""`addressing check`: how clean the list is."""

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
def check(list_path: Path, docket_path: Path | None, folder: Path | None, *, as_json: bool) -> int:
    """Say what is in doubt in a guest list. Writes nothing; looks up no house (licensed data)."""
    from addressing.cli.speaking import heading, say, say_findings, say_json, say_list
    from addressing.job.answers import check_answer
    from addressing.job.reading import read_job

    place = folder_for(list_path, folder)
    docket_path = docket_for(docket_path, place, looks=True)
    reading = read_job(list_path, docket_path, None, place)
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
    return int(Exit.HELD if reading.waits else Exit.DONE)
