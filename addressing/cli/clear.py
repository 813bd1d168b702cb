"""`addressing clear`: the job is over, its files go."""

from pathlib import Path

import click

from addressing.cli.options import folder_for, json_option, list_argument, to_option


@click.command()
@list_argument
@to_option
@json_option
@click.option("--yes", is_flag=True, help="Take them away without asking.")
def clear(list_path: Path, folder: Path | None, *, as_json: bool, yes: bool) -> None:
    """Take away every file of a job; they hold guests' names and homes. LIST itself stays."""
    from addressing.cli.speaking import heading, say, say_json
    from addressing.job.clearing import belongings
    from addressing.job.clearing import clear as take_away

    found = belongings(folder_for(list_path, folder))
    if not as_json:
        heading(f"Files of the job in {found.folder}")
        for path in found.own:
            say(f"  {path.relative_to(found.folder)}")
        for path in found.others:
            say(f"  {path.relative_to(found.folder)}: not the job's, stays")
    if not yes and not as_json:
        click.confirm("Take them away?", abort=True)
    if yes or not as_json:
        take_away(found)
    if as_json:
        say_json(
            {
                "folder": str(found.folder),
                "files": [str(path.relative_to(found.folder)) for path in found.own],
                "stays": [str(path.relative_to(found.folder)) for path in found.others],
                "removed": yes,
            }
        )
        return
    gone = "1 file is" if len(found.own) == 1 else f"{len(found.own)} files are"
    say(f"{gone} gone. Copies may lie in backups, mails and print queues.")
    if found.others:
        say("What stays may hold names and homes too: look at it.")
