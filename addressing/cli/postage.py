"""`addressing postage`: weight, thickness, class and stamps."""

from typing import TYPE_CHECKING

import click

from addressing.cli.options import Job, job_options, json_option

if TYPE_CHECKING:
    from addressing.job.posted import Posted


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
    from addressing.cli.speaking import heading, say

    heading("One envelope")
    for name, grams in found.assembly.parts:
        say(f"  {grams:6.1f} g  {name}")
    weight = f"{found.assembly.grams:.1f} g, {found.assembly.ounces:.2f} oz"
    say(f"  {weight}, about {found.assembly.thickness:.1f} mm thick; weigh one to be sure")
    currency = found.rates.currency
    for destination, one, count in found.envelopes:
        heading(f"{count} {'at home' if destination == 'home' else 'abroad'}")
        if one is None:
            say("  No class of your rates takes it: ask at the counter.")
            continue
        say(f"  {one.post_class}, {one.price} {currency} each, {one.price * count} in all")
        for reason in one.reasons:
            say(f"  dearer, because {reason}")
        if one.near:
            say(f"  only {one.room:.1f} g below the next price: a scale may read more")
    if found.rates.invented:
        say(
            "\nThis postage is invented. Put your post's rates into postage.toml beside the docket."
        )
