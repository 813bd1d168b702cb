"""`addressing tidy`: the list as it was read, for a spreadsheet or another program."""

from pathlib import Path

import click

from addressing.cli.options import (
    docket_for,
    docket_option,
    folder_for,
    json_option,
    list_argument,
)
from addressing.faults import Exit


@click.command()
@list_argument
@docket_option
@click.option(
    "--to",
    "path",
    metavar="FILE",
    type=click.Path(path_type=Path),
    help="A workbook (.xlsx) or text (.csv). Default: tidy.xlsx in the job's folder.",
)
@click.option(
    "--job",
    "folder",
    metavar="DIR",
    type=click.Path(path_type=Path),
    help="The job's folder, whose answers are worked in. Default: the list's name and -job.",
)
@json_option
def tidy(
    list_path: Path,
    docket_path: Path | None,
    path: Path | None,
    folder: Path | None,
    *,
    as_json: bool,
) -> int:
    """Write the list as it was read: repaired, answered, every field in a column of its own."""
    from addressing.cli.speaking import say, say_json
    from addressing.job.reading import read_job
    from addressing.job.tidying import write_tidy

    into = folder_for(list_path, folder)
    docket_path = docket_for(docket_path, into)
    reading = read_job(list_path, docket_path, None, into)
    done = write_tidy(reading, path or into / "tidy.xlsx", into)
    homes, held = reading.guest_list.households, reading.held
    if as_json:
        tables = {table.name: len(table.rows) for table in done.tables}
        waiting = [home.key for home in homes if home.key in held]
        say_json({"file": str(done.path), "tables": tables, "held": waiting})
    else:
        waits = f"; {len(held)} are held and say why" if held else ""
        say(f"{len(homes)} households in {done.path}{waits}.")
    return int(Exit.HELD if held else Exit.DONE)
