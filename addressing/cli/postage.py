"""`addressing postage`: weight, thickness, class and stamps."""

from collections import Counter
from typing import TYPE_CHECKING

import click

from addressing.cli.options import Job, job_options, json_option

if TYPE_CHECKING:
    from addressing.job.posted import Posted
    from addressing.records.postage import Postage

_PLACES = {"home": "at home", "abroad": "abroad"}


@click.command()
@job_options(looks=True)
@json_option
def postage(job: Job, *, as_json: bool) -> None:
    """Say what a finished envelope weighs, its class and the postage."""
    from addressing.cli.speaking import say_json
    from addressing.job.cost_answers import postage_answer
    from addressing.job.posted import post_job

    reading = job.read()
    found = post_job(reading, job.shelf())
    if as_json:
        say_json(postage_answer(found))
        return
    _say(found)


def _say(found: "Posted") -> None:
    from addressing.cli.speaking import counted, heading, say

    heading("One envelope")
    for name, grams in found.assembly.parts:
        say(f"  {grams:6.1f} g  {name}")
    weight = f"{found.assembly.grams:.1f} g, {found.assembly.ounces:.2f} oz"
    say(f"  {weight}, about {found.assembly.thickness:.1f} mm thick; weigh one to be sure")
    currency = found.rates.currency
    for destination, one, count in found.envelopes:
        heading(f"{count} {_PLACES.get(destination, f'to {destination}')}")
        _say_price(one, count, currency)
        if one is not None and len(one.stamps) > found.stamps:
            room = f"The layout keeps room for {found.stamps}"
            say(f"  {room}: write [post] stamps = {len(one.stamps)} in the docket.")
    if (reply := found.reply) is not None:
        heading(f"{counted(reply.count, 'reply', 'replies')} from home")
        what = "with what comes back in it" if reply.with_card else "weighed empty"
        say(f"  {reply.assembly.grams:.1f} g, {what}")
        if not reply.with_card:
            say("  Mark in the docket what comes back: reply = true under its [[suite]].")
        _say_price(reply.postage, reply.count, currency)
    say(f"\n{found.total} {currency} in all.")
    if found.rates.invented:
        say(
            "\nThis postage is invented. Put your post's rates into postage.toml beside the docket."
        )


def _say_price(one: "Postage | None", count: int, currency: str) -> None:
    """Class, price and stamps of one envelope, and how near it is to the next price."""
    from addressing.cli.speaking import say

    if one is None:
        say("  No class of your rates takes it: ask at the counter.")
        return
    say(f"  {one.post_class}, {one.price} {currency} each, {one.price * count} in all")
    for reason in one.reasons:
        say(f"  dearer, because {reason}")
    if one.stamps:
        over = sum(one.stamps) - one.price
        more = f", {over} too much" if over else ""
        counts = Counter(one.stamps).items()
        told = (f"{number} of {value}" if number > 1 else str(value) for value, number in counts)
        say(f"  stamps: {' and '.join(told)}{more}")
    below = f"{one.room:.1f} g below the next price"
    say(f"  only {below}: a scale may read more" if one.near else f"  {below}")
