"""`addressing calibrate`: a device's true position, from distances measured on its test sheet."""

import re
import tomllib
from pathlib import Path
from typing import TYPE_CHECKING

import click

from addressing.cli.options import Through, device_options, json_option

if TYPE_CHECKING:
    from addressing.feeding import Measured, Solved

_MARK = re.compile(
    r"\s*([A-Za-z])\s*[=:]\s*([0-9]+(?:\.[0-9]+)?)\s*[,;x ]\s*([0-9]+(?:\.[0-9]+)?)\s*"
)


@click.command()
@click.option(
    "--mark",
    "marks",
    metavar="A=LEFT,TOP",
    multiple=True,
    help="A mark as it came out: mm from the paper's left edge and from its top, words upright.",
)
@click.option(
    "--measured",
    "path",
    metavar="FILE",
    type=click.Path(path_type=Path),
    help="The marks in a TOML file instead: a line for each, A = [20.5, 19.0].",
)
@json_option
@device_options
def calibrate(
    through: Through, marks: tuple[str, ...], path: Path | None, *, as_json: bool
) -> None:
    """Keep where a device truly prints LAYOUT; plates for it then come out corrected.

    Print `addressing test-sheet LAYOUT`, measure its marks with a ruler, and give at least two
    for the shift, four for scale and skew too. A mark may be given again, from another print.
    """
    from addressing.cli.speaking import say_json
    from addressing.job.laying import calibrate as keep
    from addressing.job.laying import docket_with

    docket = docket_with(through.docket, through.device, through.way, through.tray)
    measured = (*map(_mark, marks), *(_read(path) if path is not None else ()))
    solved, kept = keep(docket, through.layout, measured, through.folder)
    if as_json:
        say_json(_answer(solved, kept))
    else:
        _say(solved, kept)


def _mark(written: str) -> "Measured":
    from addressing.feeding import Measured

    found = _MARK.fullmatch(written)
    if found is None:
        raise click.BadParameter(
            f'"{written}" isn\'t a mark with two distances in mm: write A=20.5,19.',
            param_hint="--mark",
        )
    return Measured(found[1].upper(), float(found[2]), float(found[3]))


def _read(path: Path) -> tuple["Measured", ...]:
    from addressing.faults import Exit, Fault
    from addressing.feeding import Measured
    from addressing.where import Where

    try:
        rows = tomllib.loads(path.read_text(encoding="utf-8-sig")).items()
        return tuple(Measured(mark, *map(float, distances)) for mark, distances in rows)
    except (OSError, ValueError, TypeError) as error:
        raise Fault(
            Exit.INPUT,
            "measured-unreadable",
            f"{path} can't be read as measured marks.",
            "Write a line for each mark, mm from the left and from the top: A = [20.5, 19.0].",
            Where(str(path)),
        ) from error


def _answer(solved: "Solved", kept: Path) -> dict[str, object]:
    return {
        "calibration": solved.calibration.name,
        "file": str(kept),
        "shift_mm": [round(part, 3) for part in solved.shift],
        "scale": [round(part, 5) for part in solved.scale],
        "turned_degrees": round(solved.turned, 3),
        "skew_degrees": round(solved.skew, 3),
        "left_over_mm": [[mark, round(miss, 3)] for mark, miss in solved.left_over],
        "unsure_mm": None if solved.unsure is None else round(solved.unsure, 3),
    }


def _say(solved: "Solved", kept: Path) -> None:
    from addressing.cli.speaking import counted, say

    across, up = solved.shift
    say(f"{solved.calibration.name}: {counted(solved.calibration.marks, 'mark')}")
    say(f"  shift   {_way(across, 'right', 'left')}, {_way(up, 'up', 'down')}")
    say(f"  scale   {solved.scale[0]:.2%} across, {solved.scale[1]:.2%} up and down")
    say(f"  skew    turned {solved.turned:+z.2f}°, corners off by {solved.skew:+z.2f}°")
    misses = ", ".join(f"{mark} {miss:.2f}" for mark, miss in solved.left_over)
    say(f"  left over, mm: {misses}")
    if solved.unsure is not None:
        say(f"  one reading is good to about {solved.unsure:.2f} mm")
    say(f"Kept in {kept}. Plates made from now on are corrected by it.")


def _way(length: float, more: str, less: str) -> str:
    return f"{abs(length):.2f} mm {more if length >= 0 else less}"
