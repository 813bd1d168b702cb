"""`addressing estimate`: what it costs, and where to print it."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from addressing.cli.options import Job, job_options, json_option

if TYPE_CHECKING:
    from addressing.job.estimating import Estimate
    from addressing.records.costs import CostPicture


@click.command()
@job_options(looks=True)
@click.option(
    "--picture",
    metavar="FILE",
    type=click.Path(path_type=Path),
    help="Draw cost against quantity into a .svg, .png or .pdf.",
)
@json_option
def estimate(
    job: Job,
    picture: Path | None,
    *,
    as_json: bool,
) -> None:
    """Say what the job costs at each device and shop, and where to print it."""
    from addressing.cli.speaking import say_json
    from addressing.job.cost_answers import estimate_answer
    from addressing.job.estimating import estimate_job
    from addressing.job.printing import tried_in

    reading = job.read()
    shelf = job.shelf()
    found = estimate_job(reading, shelf, tried_in(job.place))
    if as_json:
        say_json(estimate_answer(found))
    else:
        _say(found)
    if picture is not None:
        from addressing.job.picturing import write_picture

        drawn = write_picture(found, picture, reading.sources)
        if not as_json:
            _say_picture(drawn, picture)


def _say(found: "Estimate") -> None:
    from addressing.cli.speaking import counted, heading, say

    currency = found.rates.currency
    for place in found.places:
        heading(place.title)
        for offer in (each for each in found.offers if each.place == place.key):
            if offer.why_not:
                say(f"  {offer.kind:<8} can't be printed there: {offer.why_not}")
                continue
            say(f"  {offer.kind:<8} {offer.total:>9} {currency}")
            for part in offer.parts:
                say(f"    {part.name:<10} {part.amount:>9}  {part.why}")
        for part in place.parts:
            say(f"  {part.name:<8} {part.amount:>9} {currency}  {part.why}")
        whole = found.in_one_place(place)
        if whole is not None:
            days = f", {counted(place.days, 'day')}" if place.days else ""
            say(f"  in all   {whole.total:>9} {currency}{days}")
    _say_plans(found)
    if found.rates.invented:
        say("\nThese prices are invented. Put your own into rates.toml beside the docket.")


def _say_plans(found: "Estimate") -> None:
    """The advice, in three sentences, and what to try first."""
    from addressing.cli.speaking import heading, say
    from addressing.job.advising import advice, trials

    heading("Where to print")
    for sentence in advice(found):
        say(f"  {sentence}")
    if found.cheapest is None:
        say("  Some piece can't be printed at any place of your rates; see above.")
    if untried := trials(found):
        say(f"\n  Not yet on paper in this job: {'; '.join(untried)}.")
        say("  Before the run, print one of each on the real stock; of a shop, ask for a sample.")


def _say_picture(drawn: "CostPicture", path: Path) -> None:
    from addressing.cli.speaking import say

    told = "; ".join(
        f"{drawn.lines[at].title} from {quantity} on" for quantity, at in drawn.crossings
    )
    say(f"\n{path}. Cheapest for everything in one place: {told}.")
