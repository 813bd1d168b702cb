"""`addressing test-sheet`: where a device truly prints, found on plain paper."""

from pathlib import Path

import click

from addressing.cli.options import Through, device_options, folder_for, json_option


@click.command("test-sheet")
@click.option(
    "--list",
    "list_path",
    metavar="LIST",
    type=click.Path(path_type=Path),
    help="Hold the fullest piece of this list to the light; without it, a sample.",
)
@click.option(
    "--to",
    "folder",
    metavar="DIR",
    type=click.Path(path_type=Path),
    help="Where the sheets go. Default: this folder.",
)
@json_option
@device_options
def test_sheet(
    through: Through, list_path: Path | None, folder: Path | None, *, as_json: bool
) -> None:
    """Draw the test sheets of LAYOUT: rulers and marks to measure, and one to hold to the light.

    Print the first as a plate is printed, on paper cut to the size (dark paper for white);
    `addressing calibrate` takes what you measure.
    """
    from addressing.cli.speaking import say, say_json
    from addressing.job.hinting import command_line
    from addressing.job.laying import docket_with
    from addressing.job.reading import read_job
    from addressing.job.trying import make_test_sheets, trial_of
    from addressing.materials.shelf import open_shelf

    docket = docket_with(through.docket, through.device, through.way, through.tray)
    reading = read_job(list_path, through.docket, None) if list_path is not None else None
    trial = trial_of(docket, through.layout, open_shelf(through.folder), reading)
    job = folder_for(list_path, None) if list_path is not None else None
    measured, held = make_test_sheets(trial, folder or Path(), job)
    if as_json:
        told = trial.lay.calibration.name if trial.lay.calibration is not None else None
        say_json(
            {
                "test_sheet": str(measured),
                "hold_to_light": str(held),
                "way": trial.lay.way,
                "calibration": told,
                "marks_mm": {name: [left, top] for name, left, top in trial.marks},
            }
        )
        return
    cut = f"{trial.paper} cut to {trial.layout.title}"
    say(f"{measured}: print it at 100 % on {cut}, and measure.")
    say(f"{held}: lay an envelope on it and hold both to the light.")
    then = command_line("calibrate", trial.layout.key, docket=through.docket)
    say(f"Then: {then} --mark A=…,… --mark B=…,…")
