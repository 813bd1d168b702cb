"""`addressing clear`: the job is over, its files go."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from addressing.cli.options import folder_for, json_option, list_argument, to_option

if TYPE_CHECKING:
    from addressing.job.clearing import Belongings


@click.command()
@list_argument
@to_option
@json_option
@click.option("--others", is_flag=True, help="And what else lies in the folder: a picture, a copy.")
@click.option("--yes", is_flag=True, help="Take them away without asking.")
def clear(list_path: Path, folder: Path | None, *, as_json: bool, others: bool, yes: bool) -> None:
    """Take away every file of a job; they hold guests' names and homes. LIST itself stays."""
    from addressing.cli.speaking import say, say_json
    from addressing.job.clearing import belongings, with_others
    from addressing.job.clearing import clear as take_away

    found = belongings(folder_for(list_path, folder), list_path)
    if others:
        found = with_others(found, list_path)
    if not as_json:
        _say_files(found, list_path)
    if not yes and not as_json:
        click.confirm("Take them away?", abort=True)
    if yes or not as_json:
        take_away(found)
    if as_json:
        say_json(
            {
                "folder": str(found.folder),
                "files": [found.told(path) for path in found.own],
                "stays": [found.told(path) for path, _ in found.stays],
                "removed": yes,
            }
        )
        return
    gone = "1 file is" if len(found.own) == 1 else f"{len(found.own)} files are"
    say(f"{gone} gone. Copies may lie in backups, mails and print queues.")
    if found.stays:
        more = "" if others else ", or take it away with --others"
        say(f"What stays may hold names and homes too: look at it{more}.")


def _say_files(found: "Belongings", list_path: Path) -> None:
    """What goes, and what stays."""
    from addressing.cli.speaking import heading, say

    heading(f"Files of the job in {found.folder}")
    for path in found.own:
        say(f"  {found.told(path)}")
    for path, why in found.stays:
        say(f"  {found.told(path)}: {why}")
    say(f"  {list_path}, the docket and the client's answers stay: take them away yourself.")
