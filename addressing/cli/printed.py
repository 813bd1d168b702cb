"""`addressing printed`, `spoiled`, `destroyed`, `handed-over`, `ledger`: what is on paper."""

from collections import Counter
from pathlib import Path
from typing import TYPE_CHECKING

import click

from addressing.cli.options import (
    Command,
    date_option,
    docket_option,
    folder_for,
    json_option,
    list_argument,
    to_option,
)

if TYPE_CHECKING:
    from addressing.records.prints import Balance

_LARGEST_PAGE = 1_000_000


@click.command()
@list_argument
@to_option
@date_option
@json_option
@click.option("--kind", "kinds", multiple=True, metavar="KIND", help="Only this kind of piece.")
@click.option("--reprint", type=click.IntRange(1), help="The plates of that reprint.")
@click.option("--again", is_flag=True, help="They were printed once more.")
def printed(  # noqa: PLR0913 - one parameter for each option
    list_path: Path,
    folder: Path | None,
    date: str | None,
    kinds: tuple[str, ...],
    reprint: int | None,
    *,
    as_json: bool,
    again: bool,
) -> None:
    """Say that the job's plates were printed, every page once."""
    from addressing.cli.speaking import say, say_json
    from addressing.job.printing import record_printed

    place = folder_for(list_path, folder)
    runs = record_printed(place, reprint, frozenset(kinds), date, again=again)
    if as_json:
        say_json({"printed": [{"path": path, "pages": pages} for path, pages in runs]})
        return
    for path, pages in runs:
        say(f"{path}: {pages} on paper.")
    say("Spoiled some? Say which: addressing spoiled LIST 12 40-42")


class Pages(click.ParamType[tuple[int, ...]]):
    """Pages as a person writes them: 12, or 40-42."""

    name = "pages"

    def convert(
        self, value: object, param: click.Parameter | None, ctx: click.Context | None
    ) -> tuple[int, ...]:
        """The numbers."""
        first, dash, last = str(value).partition("-")
        sound = first.isdecimal() and (last.isdecimal() or not dash)
        begin, end = (int(first), int(last or first)) if sound else (0, 0)
        if not 1 <= begin <= end <= _LARGEST_PAGE:
            self.fail("write pages as 12 or 40-42, counted from 1.", param, ctx)
        return tuple(range(begin, end + 1))


def _marking(name: str, state: str, text: str) -> click.Command:
    """A command that says what became of printed pages."""

    def marked(
        list_path: Path,
        pages: tuple[tuple[int, ...], ...],
        folder: Path | None,
        kind: str,
        run: int | None,
        *,
        as_json: bool,
    ) -> None:
        from addressing.cli.speaking import say, say_json
        from addressing.job.printing import mark

        numbers = sorted({number for part in pages for number in part})
        prints = mark(folder_for(list_path, folder), kind, run, numbers, state)
        if as_json:
            rows = [
                {"page": p.page, "household": p.wanted.household, "state": p.state} for p in prints
            ]
            say_json({"prints": rows})
            return
        for each in prints:
            say(f"  {each.page:>4}  {each.wanted.name}: {each.state}")

    marked.__doc__ = text
    command: Command = marked
    for option in (
        json_option,
        click.option("--run", type=click.IntRange(1), help="Not the last run, but this one."),
        click.option("--kind", default="outer", show_default=True, help="The kind of piece."),
        to_option,
        click.argument("pages", nargs=-1, required=True, type=Pages()),
        list_argument,
    ):
        command = option(command)
    return click.command(name=name)(command)


spoiled = _marking("spoiled", "spoiled", "Say which pages were spoiled; they are due again.")
destroyed = _marking("destroyed", "destroyed", "Say which wrong prints were destroyed.")
handed_over = _marking(
    "handed-over", "handed over", "Say which prints were given to the client or the post."
)


@click.command()
@list_argument
@docket_option
@to_option
@json_option
def ledger(
    list_path: Path, docket_path: Path | None, folder: Path | None, *, as_json: bool
) -> None:
    """Show what is on paper, what is due and what is wrong by now."""
    from addressing.cli.speaking import say_json
    from addressing.job.print_answers import balance_answer
    from addressing.job.printing import balance_of
    from addressing.job.reading import read_job

    place = folder_for(list_path, folder)
    reading = read_job(list_path, docket_path, None, place)
    balance = balance_of(reading, place)
    if as_json:
        say_json(balance_answer(balance))
        return
    say_balance(balance)


def say_balance(balance: "Balance") -> None:
    """What is good by kind, what is due and what is wrong, each with its reason."""
    from addressing.cli.speaking import heading, say

    good = Counter(each.wanted.kind for each in balance.good)
    say(
        "On paper and right: " + (", ".join(f"{n} {kind}" for kind, n in good.items()) or "nothing")
    )
    if balance.due:
        heading("To print")
        for due in balance.due:
            say(f"  {due.wanted.kind:<8} {due.wanted.name}: {due.why}")
    if balance.wrong:
        heading("Wrong by now: take out and destroy, they carry a guest's name and address")
        for one, why in balance.wrong:
            run = f"run {one.run}, page {one.page}"
            say(f"  {one.wanted.kind:<8} {one.wanted.name} ({run}): {why}")
