"""`addressing calendar`: by when each step must be done."""

import click

from addressing.cli.options import Job, date_option, job_options, json_option


@click.command()
@job_options(looks=True)
@date_option
@json_option
def calendar(
    job: Job,
    date: str | None,
    *,
    as_json: bool,
) -> None:
    """Count back from the wedding: by when each step must be done, and what is late."""
    from addressing.cli.speaking import say, say_json
    from addressing.job.calendar import days_of
    from addressing.job.cost_answers import calendar_answer

    reading = job.read(date)
    days = days_of(reading, job.shelf())
    if as_json:
        say_json(calendar_answer(days))
        return
    for day in days:
        late = click.style("  LATE", fg="red") if day.late else ""
        say(f"{day.date.isoformat()}  {day.what} ({day.why}){late}")
