"""`addressing package`: the plates and all that goes with them, in one file for the shop."""

import click

from addressing.cli.options import Job, date_option, job_options, json_option
from addressing.faults import Exit


@click.command()
@job_options()
@date_option
@json_option
@click.option("--reprint", type=click.IntRange(1), help="The plates of that reprint.")
def package(
    job: Job,
    date: str | None,
    reprint: int | None,
    *,
    as_json: bool,
) -> int:
    """Judge the plates once more and pack them for the shop, with proof, ticket and data."""
    from addressing.cli.speaking import counted, say, say_json
    from addressing.job.packing import pack_job

    reading = job.read(date)
    packed = pack_job(reading, job.place, job.docket, reprint)
    held = [home.key for home in reading.guest_list.households if home.key in reading.held]
    if as_json:
        say_json({"package": str(packed.path), "files": list(packed.names), "held": held})
    else:
        if held:
            say(f"Held back and not in it: {counted(len(held), 'household')}.")
        say(f"{packed.path}: {counted(len(packed.judged), 'plate')}, judged once more and right")
        for name in packed.names:
            say(f"  {name}")
        say("Plates, proof and data name your guests, so that the shop can hold one against the")
        say("other; no file's name does. Send it to the shop alone.")
    return int(Exit.HELD if reading.waits else Exit.DONE)
