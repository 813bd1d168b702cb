"""`addressing quote`: the price to the client."""

import re
from decimal import Decimal
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
@list_argument
@docket_option
@to_option
@json_option
@click.option("--hours", type=Hours(), default="0", metavar="HOURS", help="Hours on the list: 1.5.")
@click.option("--changes", type=click.IntRange(0), default=0, help="Changes after approval.")
@click.option("--rush", is_flag=True, help="With the surcharge for a rush.")
@click.option("--margin", is_flag=True, help="Say what is left of it: for your eyes only.")
def quote(  # noqa: PLR0913 - one parameter for each option
    list_path: Path,
    docket_path: Path | None,
    folder: Path | None,
    hours: Decimal,
    changes: int,
    *,
    as_json: bool,
    rush: bool,
    margin: bool,
) -> None:
    """Say what the client pays: pieces, list, changes, rush, tax and deposit."""
    from addressing.cli.speaking import say, say_json
    from addressing.job.cost_answers import quote_answer
    from addressing.job.estimating import estimate_job, quote_job
    from addressing.job.reading import read_job
    from addressing.materials.shelf import open_shelf
    from addressing.records.costs import Extras

    place = folder_for(list_path, folder)
    docket_path = docket_for(docket_path, place, looks=True)
    shelf = open_shelf((docket_path or list_path).parent)
    reading = read_job(list_path, docket_path, None, place)
    rates = shelf.rates()
    asked = quote_job(reading, rates, Extras(hours, changes, rush))
    cheapest = estimate_job(reading, shelf).cheapest if margin else None
    left = None if cheapest is None else asked.net - cheapest.total
    if as_json:
        say_json(quote_answer(rates, asked, left))
        return
    for part in asked.parts:
        say(f"  {part.name:<8} {part.amount:>9}  {part.why}")
    say(f"  {'tax':<8} {asked.tax:>9}")
    say(f"  {'in all':<8} {asked.total:>9} {rates.currency}; {asked.deposit} when the job begins")
    if left is not None:
        paid = "your own hours are paid in it"
        say(f"\nFor you: {left} {rates.currency} above the cheapest plan; {paid}.")
    if rates.invented:
        say("\nThese prices are invented. Put your own into rates.toml beside the docket.")
