"""The cost picture: everything printed at one place, against the number of envelopes."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from addressing.estimating import cheapest_from
from addressing.faults import Exit, Fault
from addressing.files import Together, make_folder
from addressing.job.estimating import Estimate, price_of
from addressing.proofs import cost_pdf, cost_png, cost_svg
from addressing.records.costs import CostLine, CostPicture, Run
from addressing.where import Where

FORMS: dict[str, Callable[[CostPicture], bytes]] = {
    ".svg": cost_svg,
    ".pdf": cost_pdf,
    ".png": cost_png,
}
LEAST = 300
"""The picture shows so many envelopes at least, else half as many again as the job has."""


def picture_of(found: Estimate) -> CostPicture:
    """Every place that can print all kinds, with its whole cost for 1, 2, 3 … envelopes.

    Raises:
        Fault: no place can print all of them (exit 3).
    """
    here = next((run.quantity for run in found.runs if run.kind == "outer"), 0)
    here = here or max((run.quantity for run in found.runs), default=0)
    places = [place for place in found.places if found.in_one_place(place) is not None]
    if not places or not here:
        raise Fault(
            Exit.INPUT,
            "picture-empty",
            "No place of your rates can print all pieces, so there is nothing to compare.",
            "See above why not; `addressing estimate` says it piece by piece.",
        )
    most = max(LEAST, here * 3 // 2)
    plates = [run for run in found.runs if not run.suite]
    lines = []
    for place in places:
        price = found.price_at(place.key)
        costs = tuple(
            sum((price_of(price(_scaled(run, n, here))) for run in plates), place.fixed)
            for n in range(1, most + 1)
        )
        lines.append(CostLine(place.title, costs))
    crossings = cheapest_from([line.costs for line in lines])
    return CostPicture(tuple(lines), crossings, here, found.rates.currency, found.rates.invented)


def write_picture(found: Estimate, path: Path, sources: tuple[Path, ...]) -> CostPicture:
    """Draw the picture into a file (.svg, .pdf, .png).

    Raises:
        Fault: another ending (exit 2); nothing to compare (exit 3); it can't be written (exit 4).
    """
    form = FORMS.get(path.suffix.lower())
    if form is None:
        raise Fault(
            Exit.OPTIONS,
            "ending-unknown",
            f"{path.name} is no picture that can be drawn.",
            "Let the name end with .svg, .png or .pdf.",
            Where(str(path)),
        )
    picture = picture_of(found)
    drawn = form(picture)
    make_folder(path.parent)
    with Together(sources) as files:
        files.working(path, private=False).write_bytes(drawn)
    return picture


def _scaled(run: Run, number: int, here: int) -> Run:
    """A run of a job of `number` envelopes, with as large a share of overs."""
    quantity, stock = (-(-each * number // here) for each in (run.quantity, run.stock))
    on = run.on.scaled(number, here) if run.on is not None else None
    return replace(run, quantity=quantity, stock=stock, inks_laid=run.inks_for(quantity), on=on)
