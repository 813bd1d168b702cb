"""`addressing compare`: two versions of a list, household by household."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from addressing.cli.options import docket_option, json_option

if TYPE_CHECKING:
    from collections.abc import Sequence

    from addressing.job.comparing import Compared
    from addressing.records.guests import Household

_TITLES = {
    "came": "New",
    "left": "No longer listed",
    "moved": "Another address",
    "respelled": "Another spelling or title",
    "company": "Others invited with them",
}


@click.command()
@click.argument("old_path", metavar="OLD", type=click.Path(path_type=Path))
@click.argument("new_path", metavar="NEW", type=click.Path(path_type=Path))
@docket_option
@json_option
def compare(old_path: Path, new_path: Path, docket_path: Path | None, *, as_json: bool) -> None:
    """Compare two versions of a list by household. Writes nothing."""
    from addressing.cli.speaking import say_json
    from addressing.job.comparing import compare_lists

    old, new, found = compare_lists(old_path, new_path, docket_path)
    if as_json:
        counts = {kind: _count(found, kind) for kind in (*_TITLES, "unchanged")}
        households = [_answer(each) for each in found]
        say_json({"old": old.file, "new": new.file, "counts": counts, "households": households})
    else:
        _say(found)


def _count(found: "Sequence[Compared]", kind: str) -> int:
    return sum(kind in each.changes for each in found)


def _answer(each: "Compared") -> dict[str, Any]:
    return {
        "changes": [change.value for change in each.changes],
        "unsure": each.unsure or None,
        "old": _home(each.old),
        "new": _home(each.new),
    }


def _home(home: "Household | None") -> dict[str, Any] | None:
    if home is None:
        return None
    return {"key": home.key, "name": home.name, "cells": [str(row) for row in home.rows]}


def _say(found: "Sequence[Compared]") -> None:
    from addressing.cli.speaking import heading, say

    for kind, title in _TITLES.items():
        same = [each for each in found if kind in each.changes]
        if same:
            heading(f"{title} ({len(same)})")
        for each in same:
            home = each.new or each.old
            if home is None:
                continue
            was = f", was {each.old.name} ({each.old.rows[0]})" if each.old and each.new else ""
            unsure = f"  Not sure: {each.unsure}" if each.unsure else ""
            say(f"  {home.name} ({home.rows[0]}){was}{unsure}")
    say()
    say(f"{_count(found, 'unchanged')} unchanged.")
