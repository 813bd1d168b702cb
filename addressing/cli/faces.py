"""`addressing faces`: the faces on the shelf, in words, or drawn on a sheet with a list's names."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from addressing.cli.options import docket_for, docket_option, folder_for, json_option
from addressing.cli.shelf import answer

if TYPE_CHECKING:
    from addressing.records.specimens import Coverage, Specimen


@click.command()
@click.argument("list_path", metavar="[LIST]", required=False, type=click.Path(path_type=Path))
@docket_option
@click.option(
    "--to",
    "sheet",
    metavar="FILE",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Draw them: a PDF, or pictures where the name ends in .png.",
)
@json_option
def faces(
    list_path: Path | None, docket_path: Path | None, sheet: Path | None, *, as_json: bool
) -> None:
    """Show the faces on the shelf; with a LIST, how many of its households each can set.

    Your own faces are looked for in fonts/ beside the docket, else beside the list, else here.
    """
    from addressing.cli.speaking import say, say_json
    from addressing.job.reading import read_job
    from addressing.job.specimens import draw, specimens
    from addressing.materials.shelf import open_shelf

    reading = place = None
    if list_path is not None:
        place = folder_for(list_path, None)
        docket = docket_for(docket_path, place, looks=True)
        reading = read_job(list_path, docket, None, place)
    beside = next((path.parent for path in (docket_path, list_path) if path is not None), Path())
    shown = specimens(open_shelf(beside), reading)
    drawn = (
        draw(sheet, shown, reading.sources if reading else (), place) if sheet is not None else ()
    )
    if as_json:
        drawn_to = {"sheets": [str(path) for path in drawn]} if sheet is not None else {}
        say_json({"faces": [_told(one) for one in shown], **drawn_to})
        return
    answer("faces", [_row(one) for one in shown], as_json=False)
    for path in drawn:
        say(f"Written: {path}")


def _row(one: "Specimen") -> dict[str, object]:
    """A face's row; one that can't be used says why, in one line."""
    row: dict[str, object] = {
        "key": one.key,
        "family": " ".join(one.fault.split()) if one.fault else one.family,
        "licence": one.licence,
        "embedding": one.embedding,
    }
    return row | ({"list": _covered(one.coverage)} if one.coverage is not None else {})


def _covered(coverage: "Coverage") -> str:
    """How much of the list can be set, and the first letters that can't."""
    if not coverage.unset:
        return f"all {coverage.households} households can be set"
    lost = dict.fromkeys(letter for unset in coverage.unset for letter in unset.letters)
    return f"{coverage.able} of {coverage.households}: lacks {' '.join(lost)}"


def _told(one: "Specimen") -> dict[str, object]:
    """A face for programs; unknown is null."""
    usable = not one.fault
    row = _row(one)
    row.pop("list", None)
    row["licence"] = one.licence or None
    if not usable:
        row |= dict.fromkeys(("family", "licence", "embedding"))
    return row | {
        "figures": list(one.figures) if usable else None,
        "features": [{"tag": each.tag, "what": each.what, "on": each.on} for each in one.features]
        if usable
        else None,
        "coverage": _coverage(one.coverage) if one.coverage is not None else None,
        "fault": {"text": one.fault, "mend": one.mend} if one.fault else None,
    }


def _coverage(coverage: "Coverage") -> dict[str, object]:
    return {
        "households": coverage.households,
        "able": coverage.able,
        "unset": [
            {
                "text": unset.text,
                "letters": list(unset.letters),
                "from": [str(cell) for cell in unset.cells],
            }
            for unset in coverage.unset
        ],
    }
