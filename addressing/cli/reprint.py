"""`addressing reprint`: plates of only what changed since it was printed."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

import click

from addressing.cli.options import Job, date_option, job_options, json_option
from addressing.faults import Exit

if TYPE_CHECKING:
    from addressing.job.printing import Reprint, Unprinted


@click.command()
@job_options()
@date_option
@json_option
def reprint(
    job: Job,
    date: str | None,
    *,
    as_json: bool,
) -> int:
    """Make proved plates of only what is new, changed or spoiled since it was printed."""
    from addressing.cli.balance import say_balance
    from addressing.cli.held import say_held
    from addressing.cli.speaking import (
        counted,
        heading,
        progress,
        say,
        say_asked_of,
        say_json,
        say_lost_answers,
    )
    from addressing.job.hinting import command_line
    from addressing.job.plates import steps
    from addressing.job.print_answers import reprint_answer
    from addressing.job.printing import make_reprint
    from addressing.records.pieces import household_of
    from addressing.records.shelf import Shop

    reading = job.read(date)
    with progress("Plates", steps(reading)) as tell:
        again = make_reprint(reading, job.place, tell)
    if as_json:
        say_json(reprint_answer(reading, again))
    else:
        say_balance(again.balance, job, reading)
        say_lost_answers(reading)
        if again.made is None and not again.balance.for_all:
            say("Nothing needs printing.")
        elif again.made is None:
            say("Nothing that bears a name needs printing.")
        else:
            heading(f"Written to {again.folder}")
            for plate in again.made.plates:
                say(f"  {plate.path:<32} {plate.ink}, {counted(plate.pages, 'page')}; proved")
            for each in again.replaces:
                say(f"  {_replaced(each)}")
            for told in _blanks(again):
                say(f"  {told}")
            homes = (key for plate in again.made.plates for key in plate.households)
            say_asked_of(reading, {household_of(key) for key in homes if key})
            number = str(again.folder).rpartition("-")[2].lstrip("0")
            if isinstance(reading.press, Shop):
                pack = ("--reprint", number)
                given = command_line("package", job.list_path, *pack, folder=job.folder)
                say(f"For {reading.press.title}: {given}")
            then = command_line("printed", job.list_path, "--reprint", number, folder=job.folder)
            say(f"When they are printed: {then}")
        say_held(job, reading)
    return int(Exit.HELD if reading.waits else Exit.DONE)


def _blanks(again: "Reprint") -> Iterator[str]:
    """How many blanks of each kind are left then, or what must be ordered first."""
    from addressing.cli.speaking import counted

    order = {each.kind: each for each in again.made.counts} if again.made is not None else {}
    for kind, left in again.left:
        count = order.get(kind)
        if count is None or not count.to_order:
            yield f"{kind}: {counted(left, 'blank')} of the order left then"
            continue
        packs = f" ({counted(count.packs, 'pack')})" if count.pack > 1 else ""
        yield f"{kind}: the order hasn't enough blanks for these; order {count.to_order}{packs}"


def _replaced(plate: "Unprinted") -> str:
    """What becomes of an earlier plate that isn't printed yet."""
    if plate.again == plate.pieces:
        return f"These replace {plate.path}, which isn't noted as printed: don't print that one."
    return (
        f"{plate.path} isn't noted as printed, and {plate.again} of its {plate.pieces} are here:"
        " print these and not that one, or they come twice."
    )
