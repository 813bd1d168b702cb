"""`addressing compare`: two versions of a list, household by household."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from addressing.cli.options import (
    docket_for,
    docket_known,
    docket_option,
    folder_for,
    json_option,
    to_option,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

    from addressing.job.comparing import Compared, Comparison
    from addressing.records.guests import Household

_TITLES = {
    "came": "New",
    "left": "No longer listed",
    "moved": "Another address",
    "respelled": "Another spelling or title",
    "company": "Others invited with them",
    "merged": "Now one household",
    "split": "Now households of their own",
}


@click.command()
@click.argument("old_path", metavar="OLD", type=click.Path(path_type=Path))
@click.argument("new_path", metavar="NEW", type=click.Path(path_type=Path))
@docket_option
@to_option
@json_option
def compare(
    old_path: Path,
    new_path: Path,
    docket_path: Path | None,
    folder: Path | None,
    *,
    as_json: bool,
) -> None:
    """Compare two versions of a list by household. Writes nothing."""
    from addressing.cli.speaking import say, say_json
    from addressing.job.comparing import compare_lists
    from addressing.job.hinting import command_line
    from addressing.job.printing import tried_in

    into = folder_for(old_path, folder)
    told = compare_lists(old_path, new_path, docket_for(docket_path, into, looks=True), into)
    if as_json:
        say_json(_answer(told))
    else:
        _say(told)
        _say_decisions(told, into)
        if told.kept or told.lost:
            command = "reprint" if tried_in(into) else "plates"  # what is on paper may be right
            then = command_line(
                command, new_path, docket=docket_known(docket_path, into), folder=into
            )
            say(f"\nTo go on with them: {then}")


def _answer(told: "Comparison") -> dict[str, Any]:
    from addressing.job.answers import decision_answer, finding_answer

    counts = {kind: _count(told.households, kind) for kind in (*_TITLES, "unchanged")}
    return {
        "old": told.old.file,
        "new": told.new.file,
        "counts": counts,
        "households": [_household(each) for each in told.households],
        "decisions": [decision_answer(decision) for decision in told.kept],
        "findings": [finding_answer(found) for found in told.lost],
    }


def _count(found: "Sequence[Compared]", kind: str) -> int:
    return sum(kind in each.changes for each in found)


def _household(each: "Compared") -> dict[str, Any]:
    return {
        "changes": [change.value for change in each.changes],
        "unsure": each.unsure or None,
        "what": list(each.words),
        "old": _home(each.old),
        "new": _home(each.new),
        "others": [_home(home) for home in each.others],
    }


def _home(home: "Household | None") -> dict[str, Any] | None:
    if home is None:
        return None
    return {"key": home.key, "name": home.name, "cells": [str(row) for row in home.rows]}


def _say(told: "Comparison") -> None:
    from addressing.cli.speaking import heading, say

    said: set[int] = set()
    for kind, title in _TITLES.items():
        same = [each for each in told.households if kind in each.changes and not each.unsure]
        if same:
            heading(f"{title} ({len(same)})")
        for each in same:
            say(f"  {_line(each)}")
            if id(each) not in said:
                for words in each.words:
                    say(f"      {words}")
            said.add(id(each))
    _say_unsure([each for each in told.households if each.unsure])
    say()
    say(f"{_count(told.households, 'unchanged')} unchanged.")


def _say_unsure(unsure: "Sequence[Compared]") -> None:
    from addressing.cli.speaking import heading, say

    if unsure:
        heading(f"Perhaps the same household ({len(unsure)})")
    for each in unsure:
        say(f"  {_line(each)}")
        say(f"      Not sure: {each.unsure} They are taken as two.")


def _line(each: "Compared") -> str:
    home = each.new or each.old
    if home is None:
        return ""
    was = f", was {each.old.name} ({each.old.rows[0]})" if each.old and each.new else ""
    return f"{home.name} ({home.rows[0]}){was}"


def _say_decisions(told: "Comparison", folder: Path) -> None:
    from addressing.cli.speaking import heading, say

    if not told.kept and not told.lost:
        return
    many = len(told.kept)
    applies = "decision still applies" if many == 1 else "decisions still apply"
    say(f"{many} {applies} ({folder}).")
    if told.lost:
        heading(f"Decisions that no longer apply, or wait ({len(told.lost)})")
        for found in told.lost:
            say(f"  {found.where}: {found.text} {found.mend}")
