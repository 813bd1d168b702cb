"""`addressing tally`: how many of each piece, with overs and packs."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from addressing.cli.options import Job, job_options, json_option
from addressing.faults import Exit

if TYPE_CHECKING:
    from collections.abc import Sequence

    from addressing.job.answers import Answer
    from addressing.job.reading import Reading
    from addressing.materials.shelf import Shelf
    from addressing.records.costs import Cheaper
    from addressing.records.rates import Rates


@click.command()
@job_options(looks=True)
@click.option(
    "--table",
    metavar="FILE",
    type=click.Path(path_type=Path),
    help="Write everything that is ordered into a .tsv or .xlsx.",
)
@json_option
def tally(
    job: Job,
    table: Path | None,
    *,
    as_json: bool,
) -> int:
    """Count the pieces: needed, overs, packs to order. Writes nothing but the table."""
    from addressing.cli.speaking import say, say_json, say_list
    from addressing.job.answers import tally_answer
    from addressing.job.cheaper import cheaper_orders, rates_of_shops
    from addressing.job.order_table import write_order_table

    reading, shelf = job.read(), job.shelf()
    rates = rates_of_shops(reading, shelf)
    cheaper = cheaper_orders(reading, rates) if rates else ()
    answer = tally_answer(reading, cheaper, rates)
    if table is not None:
        write_order_table(reading, table)
    if as_json:
        say_json(answer)
        return int(Exit.DONE)
    say_list(reading)
    say()
    _say_counts({**answer["pieces"], **answer["suite"]})
    _say_blanks(reading)
    if rates and cheaper:
        _say_cheaper(cheaper, rates, shelf)
    if table is not None:
        say(f"  Written to {table}.")
    return int(Exit.DONE)


def _say_counts(counts: "Answer") -> None:
    from addressing.cli.speaking import say

    wide = max(10, *(len(name) + 2 for name in counts)) if counts else 10
    heads = f"{'needed':>8}{'held':>8}{'overs':>8}{'packs':>8}{'of':>6}{'order':>8}"
    say(f"  {'':<{wide}}{heads}")
    for kind, count in counts.items():
        say(
            f"  {kind:<{wide}}{count['needed']:>8}{count['held']:>8}{count['overs']:>8}"
            f"{count['packs']:>8}{count['pack']:>6}{count['to_order']:>8}"
        )


def _say_cheaper(found: "Sequence[Cheaper]", rates: "Rates", shelf: "Shelf") -> None:
    """Where more costs less; of which day the prices are."""
    from addressing.cli.speaking import say, say_dated
    from addressing.job.cheaper import told_cheaper

    say()
    for each in found:
        say(f"  {told_cheaper(each, shelf.shop(each.place).title, rates.currency)}")
    say_dated("prices", "rates.toml", rates.as_of, invented=rates.invented)


def _say_blanks(reading: "Reading") -> None:
    """What the envelopes become, between how many the need may end, replies from abroad."""
    from addressing.cli.speaking import counted, say
    from addressing.job.counting import count_job, count_suite, replies_abroad, sheets_by_kind
    from addressing.job.counts_told import told_blanks, told_flaps, told_spans, told_terms
    from addressing.job.hinting import all_of

    say()
    counts = count_job(reading)
    for told in told_blanks(reading, counts):
        say(f"  {told}")
    for kinds, on in sheets_by_kind(reading, counts).items():
        sheets = counted(on.sheets, "sheet")
        say(f"  {all_of(kinds)}: {sheets} of {on.paper}, {on.stock} with the overs (packs above).")
    for told in (*told_terms(reading), *told_flaps(reading)):
        say(f"  {told}")
    if others := told_spans(reading, (*counts, *count_suite(reading))):
        say(f"  So with these: {'; '.join(others)}.")
    if number := replies_abroad(reading):
        comes = "comes" if number == 1 else "come"
        abroad = f"{counted(number, 'reply', 'replies')} {comes} from abroad"
        say(f"  {abroad}, where your stamps aren't valid: those envelopes stay without.")
