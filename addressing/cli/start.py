"""`--start NAME`: a file of the user's own, from what a command lists."""

from collections.abc import Callable
from functools import wraps
from pathlib import Path

import click

from addressing.cli.options import Command, json_option


def listing(kind: str, like: str) -> Callable[[Command], Command]:
    """--start, --like, --beside and --json for a command that lists a kind of the shelf.

    The command gets `beside` and `as_json`; `like` is what --start copies unless another is named.
    """

    def with_start(command: Command) -> Command:
        @wraps(command)
        def listed(*, start: str | None, like: str | None, beside: Path, as_json: bool) -> object:
            if start is None:
                return command(beside=beside, as_json=as_json)
            _start(kind, start, like, beside, as_json=as_json)
            return None

        options = (
            click.option(
                "--start",
                metavar="NAME",
                help=f"Write a {kind} of your own, NAME, with a remark on every key.",
            ),
            click.option(
                "--like", metavar="KEY", help=f"With --start: a copy of that one. Default: {like}."
            ),
            click.option(
                "--beside",
                metavar="DIR",
                type=click.Path(path_type=Path),
                default=Path(),
                help="The docket's folder, else the list's. Default: this one.",
            ),
            json_option,
        )
        wrapped: Command = listed
        for option in reversed(options):
            wrapped = option(wrapped)
        return wrapped

    return with_start


def _start(kind: str, name: str, like: str | None, beside: Path, *, as_json: bool) -> None:
    from addressing.cli.speaking import say, say_json
    from addressing.job.starting import start_own

    path, docket = start_own(kind, name, like, beside)
    if as_json:
        say_json({"written": str(path), "docket": docket})
        return
    say(f"{path} is there to be changed; the program reads it as it stands.")
    say(f"In a docket beside it: {docket}")
