"""`addressing calendar`: by when each step must be done."""

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


@click.command()
@list_argument
@docket_option
@to_option
@date_option
@json_option
def calendar(
    list_path: Path,
    docket_path: Path | None,
    folder: Path | None,
    date: str | None,
    *,
    as_json: bool,
) -> None:
    """Count back from the wedding: by when each step must be done, and what is late."""
    from addressing.cli.speaking import say, say_json
    from addressing.job.calendar import days_of
    from addressing.job.cost_answers import calendar_answer
    from addressing.job.reading import read_job
    from addressing.materials.shelf import open_shelf

    place = folder_for(list_path, folder)
    docket_path = docket_for(docket_path, place, looks=True)
    reading = read_job(list_path, docket_path, date, place)
    days = days_of(reading, open_shelf((docket_path or list_path).parent))
    if as_json:
        say_json(calendar_answer(days))
        return
    for day in days:
        late = click.style("  LATE", fg="red") if day.late else ""
        say(f"{day.date.isoformat()}  {day.what} ({day.why}){late}")
