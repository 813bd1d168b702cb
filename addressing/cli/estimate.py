"""`addressing estimate`: what it costs, and where to print it."""

from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING

import click

from addressing.cli.options import Job, job_options, json_option

if TYPE_CHECKING:
    from collections.abc import Sequence

    from addressing.job.estimating import Estimate
    from addressing.records.costs import CostPicture, Offer, Place


@click.command()
@job_options(looks=True)
@click.option(
    "--picture",
    metavar="FILE",
    type=click.Path(path_type=Path),
    help="Draw cost against quantity into a .svg, .png or .pdf.",
)
@click.option("--rush", is_flag=True, help="With what shops ask for a rush, and its days.")
@json_option
def estimate(
    job: Job,
    picture: Path | None,
    *,
    rush: bool,
    as_json: bool,
) -> None:
    """Say what the job costs at each device and shop, and where to print it."""
    from addressing.cli.speaking import say_json
    from addressing.job.cost_answers import estimate_answer
    from addressing.job.estimating import estimate_job
    from addressing.job.printing import tried_in

    reading = job.read()
    shelf = job.shelf()
    found = estimate_job(reading, shelf, tried_in(job.place), rush=rush)
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
    from addressing.cli.speaking import counted, heading, say, say_dated

    currency = found.rates.currency
    suite = {run.kind for run in found.runs if run.suite}
    wide = max((len(run.kind) for run in found.runs), default=0) + 1
    able = [place for place in found.places if found.prints_any(place)]
    for place in able:
        heading(place.title)
        for offer in found.offers:
            if offer.place == place.key and offer.kind not in suite:
                _say_offer(offer, offer.kind, max(wide, 8), currency)
        for part in place.parts:
            say(f"  {part.name:<8} {part.amount:>9} {currency}  {part.why}")
        whole = found.in_one_place(place)
        if whole is not None:
            days = f", {counted(whole.days, 'day')}" if whole.days else ""
            say(f"  in all   {whole.total:>9} {currency}{days}")
    _say_unable(found, [place for place in found.places if place not in able])
    _say_suite(found, suite)
    _say_plans(found)
    say_dated("prices", "rates.toml", found.rates.as_of, invented=found.rates.invented)


def _say_unable(found: "Estimate", places: "Sequence[Place]") -> None:
    """The places that can print no piece of the job, with the reasons."""
    from addressing.cli.speaking import heading, say
    from addressing.job.hinting import all_of

    if not places:
        return
    heading("Left out, since nothing of this job can be printed there")
    for place in places:
        kinds: dict[str, list[str]] = {}
        for offer in found.plates_at(place):
            kinds.setdefault(offer.why_not or "", []).append(offer.kind)
        for why, its in kinds.items():
            say(f"  {all_of(its)}: {why}")


def _say_offer(offer: "Offer", name: str, wide: int, currency: str) -> None:
    from addressing.cli.speaking import say

    if offer.why_not:
        say(f"  {name:<{wide}} can't be printed there: {offer.why_not}")
        return
    say(f"  {name:<{wide}} {offer.total:>9} {currency}")
    for part in offer.parts:
        say(f"    {part.name:<10} {part.amount:>9}  {part.why}")


def _say_suite(found: "Estimate", suite: set[str]) -> None:
    """What the suite's pieces cost at the shops that price them, and those that are bought."""
    from addressing.cli.speaking import heading, say

    if not (suite or found.bought or found.unpriced):
        return
    heading("The suite")
    currency = found.rates.currency
    for kind in (run.kind for run in found.runs if run.kind in suite):
        its = [offer for offer in found.offers if offer.kind == kind]
        shown = [o for o in its if o.feasible] or [o for o in its if not o.home]
        for offer in shown:
            name = f"{kind} at {offer.title}"
            _say_offer(offer, name, len(name), currency)
    for part in found.bought:
        say(f"  {part.name} {part.amount:>9} {currency}  bought: {part.why}")
    for name in found.unpriced:
        say(f"  {name}: no price in your rates (under [[shop.piece]] or [[bought]])")


def _say_plans(found: "Estimate") -> None:
    """The advice, in three sentences, and what to try first."""
    from addressing.cli.speaking import heading, say
    from addressing.job.advising import advice, backups, trials

    heading("Where to print")
    for sentence in advice(found):
        say(f"  {sentence}")
    pieces = [*backups(found)]
    wide = max((len(kind) for kind, _, _ in pieces), default=0)
    for kind, first, other in pieces:
        else_ = f"else {other.title}" if other else "nowhere else"
        say(f"    {kind:<{wide}}  {first.title}; {else_}")
    _say_break_even(found, wide)
    if found.bought and found.cheapest is not None:
        bought = sum((part.amount for part in found.bought), Decimal(0))
        total, currency = found.cheapest.total + bought, found.rates.currency
        say(f"  With what is bought for the suite: {total} {currency}.")
    if found.no_paper:
        told = ", ".join(found.no_paper)
        say(
            f"  Not in it: {told}, for which your rates have no price (under [[envelopes]]"
            " or [[paper]])."
        )
    if found.cheapest is None:
        say("  Some piece can't be printed at any place of your rates; see above.")
    if untried := trials(found):
        say(f"\n  Not yet on paper in this job: {'; '.join(untried)}.")
        say("  Before the run, print one of each on the real stock; of a shop, ask for a sample.")


def _say_break_even(found: "Estimate", wide: int) -> None:
    """Of each piece from how many on which place is the cheapest, where that changes."""
    from addressing.cli.speaking import say
    from addressing.job.estimating import FURTHEST, cheaper_from

    titles = {place.key: place.title for place in found.places}
    changes = {run.kind: cheaper_from(found, run.kind) for run in found.runs}
    if not any(len(its) > 1 for its in changes.values()):
        return
    say(f"\n  Of one piece alone, up to {FURTHEST}, with what a place costs once:")
    for kind, its in changes.items():
        told = "; ".join(f"from {number} on {titles[place]}" for number, place in its)
        if told:
            say(f"    {kind:<{wide}}  {told}")
    say()


def _say_picture(drawn: "CostPicture", path: Path) -> None:
    from addressing.cli.speaking import say

    told = "; ".join(
        f"{drawn.lines[at].title} from {quantity} on" for quantity, at in drawn.crossings
    )
    say(f"\n{path}. Cheapest for everything in one place: {told}.")
