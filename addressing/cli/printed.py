"""`addressing printed`, `spoiled`, `destroyed`, `handed-over`, `ledger`: what is on paper."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from addressing.cli.naming import HOW, Which
from addressing.cli.options import (
    Command,
    Job,
    date_option,
    docket_for,
    docket_option,
    folder_for,
    job_options,
    json_option,
    list_argument,
    same_docket_option,
    to_option,
)

if TYPE_CHECKING:
    from addressing.job.recording import Noted, Plate
    from addressing.job.which_prints import Numbers
    from addressing.records.prints import Print


@click.command()
@same_docket_option
@list_argument
@to_option
@date_option
@json_option
@click.option("--kind", "kinds", multiple=True, metavar="KIND", help="Only this kind of piece.")
@click.option(
    "--batch",
    "batches",
    multiple=True,
    type=click.IntRange(1),
    metavar="N",
    help="Only this batch, by the number on its slip.",
)
@click.option(
    "--ink",
    "inks",
    multiple=True,
    metavar="INK",
    help="Only the plates in this ink, where a piece has several passes.",
)
@click.option("--reprint", type=click.IntRange(1), help="The plates of that reprint.")
@click.option("--again", is_flag=True, help="They were printed once more.")
def printed(  # noqa: PLR0913 - one parameter for each option
    list_path: Path,
    folder: Path | None,
    date: str | None,
    kinds: tuple[str, ...],
    batches: tuple[int, ...],
    reprint: int | None,
    *,
    inks: tuple[str, ...],
    as_json: bool,
    again: bool,
) -> None:
    """Say that the job's plates were printed, every page once.

    What is in the ledger already isn't noted twice: after a first batch this notes the others.
    """
    from addressing.cli.speaking import counted, say, say_json
    from addressing.job.hinting import all_of, command_line
    from addressing.job.ledger_kept import lost_prints
    from addressing.job.printing import reprint_folder
    from addressing.job.recording import Ran, plates_for_all, record_printed
    from addressing.job.remembering import refuse_earlier_file
    from addressing.job.since import changed_since

    place = folder_for(list_path, folder)
    refuse_earlier_file(list_path, place)
    ran = Ran(reprint, frozenset(kinds), frozenset(batches), frozenset(inks))
    lost = lost_prints(place)
    noted = record_printed(place, ran, date, again=again)
    made_in = place if reprint is None else reprint_folder(place, reprint)
    stale = changed_since(made_in, list_path)
    for_all = _paths_for_all(plates_for_all(made_in, ran.kinds)) if not batches else {}
    if as_json:
        now = [{"path": one.path, "pages": one.pages} for one in noted if not one.before]
        before = [one.path for one in noted if one.before]
        changed = any(text.startswith(str(list_path)) for text in stale)
        told = {"printed": now, "before": before, "list_changed": changed, "changed": list(stale)}
        told["lost"] = lost or None
        told["same_for_all"] = for_all
        say_json(told)
        return
    for one in noted:
        if one.before:
            say(f"{one.path}: in the ledger already. Once more since? Say so with --again.")
            continue
        together = f", {all_of(one.kinds)} together" if len(one.kinds) > 1 else ""
        say(f"{one.path}: {counted(one.pages, 'page')} on paper{together}, {_from_to(one)}.")
    for path, same in for_all.items():
        say(f"{path}: {same}, the same for all; no copies of it are counted in the ledger.")
    if for_all:
        copies = command_line(
            "spoiled", list_path, "--kind", next(iter(for_all.values())), folder=folder
        )
        say(f"  Spoiled copies of such a plate: {copies} --copies N")
    if lost:
        say(f"note  Before this, {lost} Note the other prints again too: each reprint with")
        say("  --reprint, what was printed twice with --again, then what was spoiled.")
    if stale:
        shown = command_line("ledger", list_path, folder=folder)
        say(
            f"note  {'; '.join(stale)} since these plates were made. Noted is what they bear; "
            f"what is wrong or due by now: {shown}"
        )
    kind = () if "outer" in noted[0].kinds else ("--kind", noted[0].kinds[0])
    then = command_line("spoiled", list_path, noted[0].first, *kind, folder=folder)
    say(f"Spoiled some? Say which, by the name on it: {then}")


def _paths_for_all(plates: "Sequence[Plate]") -> dict[str, str]:
    """The kind, or kinds, of each plate that is the same for all, by its path."""
    kinds: dict[str, str] = {}
    for each in plates:
        kinds.setdefault(each["path"], each["kind"])
    return kinds


def _from_to(noted: "Noted") -> str:
    """Whose a pile's prints are, the first and the last."""
    return noted.first if noted.first == noted.last else f"{noted.first} to {noted.last}"


def _row(one: "Print") -> dict[str, object]:
    """A print as programs read it."""
    return {
        "run": one.run,
        "kind": one.wanted.kind,
        "page": one.page,
        "name": one.wanted.name,
        "household": one.wanted.household,
        "state": one.state,
    }


@dataclass(frozen=True, slots=True)
class Asked:
    """What was said to a mark's own option; `own` are the values of those options."""

    list_path: Path
    folder: Path | None
    kind: str
    as_json: bool
    own: dict[str, Any]


Option = Callable[[Command], Command]


def _marking(
    name: str,
    state: str,
    text: str,
    more: Sequence[Option] = (),
    otherwise: Callable[[Asked], bool] | None = None,
) -> click.Command:
    """A command that says what became of printed pages.

    `more` are options of its own, `otherwise` what they do: False where none of them is given.
    """

    def marked(
        list_path: Path,
        which: "tuple[Numbers | str, ...]",
        folder: Path | None,
        kind: str,
        run: int | None,
        *,
        as_json: bool,
        **own: object,
    ) -> None:
        from addressing.cli.speaking import say_json
        from addressing.job.marking import Named, mark

        asked = Asked(list_path, folder, kind, as_json, own)
        if otherwise is not None and otherwise(asked):
            return
        if not which:
            raise click.UsageError("Say which: by the name on it, or by a number (print:12).")
        numbers = [part for part in which if not isinstance(part, str)]
        names = [part for part in which if isinstance(part, str)]
        prints = mark(folder_for(list_path, folder), Named(kind, run, numbers, names), state)
        if as_json:
            say_json({"prints": [_row(one) for one in prints]})
            return
        _say_prints(prints)

    marked.__doc__ = f"{text}\n\n{HOW}"
    command: Command = marked
    options: tuple[Option, ...] = (
        json_option,
        click.option("--run", type=click.IntRange(1), help="Not the last run, but this one."),
        click.option("--kind", default="outer", show_default=True, help="The kind of piece."),
        to_option,
        *more,
        click.argument(
            "which",
            nargs=-1,
            required=otherwise is None,
            type=Which(),
            metavar="HOUSEHOLD|NUMBER...",
        ),
        list_argument,
    )
    for option in options:
        command = option(command)
    return click.command(name=name)(command)


def _say_prints(prints: "Sequence[Print]") -> None:
    from addressing.cli.speaking import say

    for one in prints:
        place = f"{one.wanted.kind} in {one.wanted.ink}, print {one.page} of run {one.run}"
        say(f"  {one.wanted.name} ({one.wanted.household}): {one.state}  ({place})")


def _copies(asked: Asked) -> bool:
    """`spoiled --copies`: of what is the same for all."""
    from addressing.cli.speaking import counted, say, say_json
    from addressing.job.copies import spoil_copies
    from addressing.job.hinting import command_line

    copies, kind = asked.own["copies"], asked.kind
    if copies is None:
        return False
    total = spoil_copies(folder_for(asked.list_path, asked.folder), kind, copies)
    if asked.as_json:
        say_json({"copies": {"kind": kind, "spoiled": total}})
        return True
    say(f"{kind}: {counted(total, 'copy', 'copies')} spoiled in all.")
    say(f"How many are left: {command_line('ledger', asked.list_path, folder=asked.folder)}")
    return True


def _all_wrong(asked: Asked) -> bool:
    """`destroyed --wrong`: all that the ledger says is wrong by now, of every kind."""
    from addressing.cli.speaking import counted, say, say_json
    from addressing.job.marking import destroy_wrong
    from addressing.job.reading import read_job

    if not asked.own["wrong"]:
        return False
    place = folder_for(asked.list_path, asked.folder)
    docket = docket_for(asked.own["docket_path"], place)
    prints, aside = destroy_wrong(read_job(asked.list_path, docket, None, place), place)
    if asked.as_json:
        say_json({"prints": [_row(one) for one in prints], "set_aside": aside})
        return True
    _say_prints(prints)
    say(f"{counted(len(prints), 'wrong print')} destroyed." if prints else "Nothing is wrong.")
    if aside:
        say(f"Set aside until the client has said, and not destroyed: {counted(aside, 'print')}.")
    return True


spoiled = _marking(
    "spoiled",
    "spoiled",
    "Say which prints were spoiled; they are due again.",
    (
        same_docket_option,
        click.option(
            "--copies",
            type=int,
            metavar="N",
            help="Of a --kind that is the same for all (return, reply): so many copies more were "
            "spoiled; -N takes back so many.",
        ),
    ),
    _copies,
)
destroyed = _marking(
    "destroyed",
    "destroyed",
    "Say which wrong prints were destroyed.",
    (
        docket_option,
        click.option(
            "--wrong", is_flag=True, help="All that `ledger` says is wrong by now, of every kind."
        ),
    ),
    _all_wrong,
)
handed_over = _marking(
    "handed-over",
    "handed over",
    "Say which prints were given to the client or the post.",
    (same_docket_option,),
)


@click.command()
@job_options()
@json_option
def ledger(job: Job, *, as_json: bool) -> None:
    """Show what is on paper, what is due and what is wrong by now."""
    from addressing.cli.balance import say_balance
    from addressing.cli.held import say_held
    from addressing.cli.speaking import say_json
    from addressing.job.print_answers import balance_answer
    from addressing.job.printing import balance_of

    reading = job.read()
    balance = balance_of(reading, job.place)
    if as_json:
        say_json({**balance_answer(balance), "held_households": sorted(reading.held)})
        return
    say_balance(balance, job, reading)
    say_held(job, reading)
