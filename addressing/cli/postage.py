"""`addressing postage`: weight, thickness, class and stamps."""

from collections import Counter
from collections.abc import Sequence
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
    from addressing.cli.speaking import counted, heading, say, say_dated

    kinds = found.by_contents
    for one in kinds:
        heading("One envelope" if len(kinds) == 1 else _with(one.contents, one.count))
        for name, grams in one.assembly.parts:
            say(f"  {grams:6.1f} g  {name}")
        weight = f"{one.assembly.grams:.1f} g, {one.assembly.ounces:.2f} oz"
        say(f"  {weight}, about {one.assembly.thickness:.1f} mm thick; weigh one to be sure")
    currency = found.rates.currency
    for sent in found.envelopes:
        where = _PLACES.get(sent.destination, f"to {sent.destination}")
        with_what = f", {_with(sent.contents)}" if len(kinds) > 1 else ""
        heading(f"{sent.count} {where}{with_what}")
        _say_price(sent.postage, sent.count, currency)
        if sent.postage is not None and len(sent.postage.stamps) > found.stamps:
            room = f"The layout keeps room for {found.stamps}"
            say(f"  {room}: write [post] stamps = {len(sent.postage.stamps)} in the docket.")
    if (reply := found.reply) is not None:
        heading(f"{counted(reply.count, 'reply', 'replies')} from home")
        what = "with what comes back in it" if reply.with_card else "weighed empty"
        say(f"  {reply.assembly.grams:.1f} g, {what}")
        if not reply.with_card:
            say("  Mark in the docket what comes back: reply = true under its [[suite]].")
        _say_price(reply.postage, reply.count, currency)
    say(f"\n{found.total} {currency} in all.")
    say_dated("rates", "postage.toml", found.rates.as_of, invented=found.rates.invented)


def _with(contents: Sequence[str], count: int = 0) -> str:
    """What is in an envelope: "with invitation and map", "12 with invitation"."""
    *first, last = contents or ("nothing in it",)
    told = f"{', '.join(first)} and {last}" if first else last
    return f"{count} with {told}" if count else f"with {told}"


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
