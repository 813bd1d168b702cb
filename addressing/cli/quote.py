"""`addressing quote`: the price to the client."""

import re
from decimal import Decimal

import click

from addressing.cli.options import Job, job_options, json_option


class Hours(click.ParamType[Decimal]):
    """A number of hours as a person writes it: 2, 1.5; a thousand at most."""

    name = "hours"

    def convert(
        self, value: object, param: click.Parameter | None, ctx: click.Context | None
    ) -> Decimal:
        """The number, exactly."""
        written = str(value)
        if not re.fullmatch(r"[0-9]{1,3}(\.[0-9]{1,2})?", written):
            self.fail(f"{written!r} is no number of hours, such as 1.5.", param, ctx)
        return Decimal(written)


@click.command()
@job_options(looks=True)
@json_option
@click.option("--hours", type=Hours(), default="0", metavar="HOURS", help="Hours on the list: 1.5.")
@click.option("--changes", type=click.IntRange(0), default=0, help="Changes after approval.")
@click.option("--rush", is_flag=True, help="With the surcharge for a rush.")
@click.option("--margin", is_flag=True, help="Say what is left of it: for your eyes only.")
def quote(
    job: Job,
    hours: Decimal,
    changes: int,
    *,
    as_json: bool,
    rush: bool,
    margin: bool,
) -> None:
    """Say what the client pays: pieces, list, changes, rush, tax and deposit."""
    from addressing.cli.speaking import say, say_dated, say_json
    from addressing.job.cost_answers import quote_answer
    from addressing.job.estimating import estimate_job, margin_of, quote_job
    from addressing.records.costs import Extras

    shelf = job.shelf()
    reading = job.read()
    rates = shelf.rates()
    asked = quote_job(reading, rates, Extras(hours, changes, rush))
    left, unpaid = None, ""
    if margin:
        found = estimate_job(reading, shelf, rush=rush)
        left = margin_of(found, reading.docket, asked)
        unpaid = ", ".join((*found.unpriced, *found.no_paper))
    if as_json:
        say_json(quote_answer(rates, asked, left))
        return
    due = f"{rates.currency}; {asked.deposit} when the job begins"
    rows = [(part.name, part.amount, part.why) for part in asked.parts]
    rows += [("tax", asked.tax, ""), ("in all", asked.total, due)]
    wide, long = (max(len(str(row[at])) for row in rows) for at in (0, 1))
    for name, amount, why in rows:
        say(f"  {name:<{wide}} {amount:>{long}}  {why}".rstrip())
    if asked.unpriced:
        names = ", ".join(asked.unpriced)
        say(f"\nNot in it: no price for {names} in your rates (under [fees] pieces).")
    if left is not None:
        paid = "your own hours are paid in it"
        say(f"\nFor you: {left} {rates.currency} above what the plan and the suite cost; {paid}.")
        if unpaid:
            say(f"What your rates have no price for isn't taken off: {unpaid}.")
    say_dated("prices", "rates.toml", rates.as_of, invented=rates.invented)
