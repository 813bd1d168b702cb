"""What is wrong with pages, in sentences: whose, and whose piece one carries instead."""

from collections import Counter
from collections.abc import Iterator, Sequence

from addressing.preflight.bench import Bench, Bodies
from addressing.preflight.shares import FaultyPage, Share


def objects_told(numbers: list[int]) -> str:
    """Objects of the file by their numbers."""
    return f"object{'s' if len(numbers) > 1 else ''} {_some(numbers)}"


def _some(numbers: list[int]) -> str:
    """The first few of many numbers."""
    return ", ".join(map(str, numbers[:8])) + (", …" if len(numbers) > 8 else "")  # noqa: PLR2004


def page_faults(layers: Sequence[Bench], read: Share) -> Iterator[str]:
    """The faults of pages, with whose piece it is where a page carries another's."""
    bench = layers[0]
    faulty = read.faulty
    total = len(bench.skeleton.pages)
    owners: dict[Bodies, str | None] = {}
    if any(page.bodies for page in faulty) or total != len(bench.order.households):
        owners = {
            tuple(body for layer in layers for body in layer.bodies(placed)): placed.household
            for placed in bench.setting.pieces
        }
        yield from _tally_faults(bench, faulty, owners)
    for page in faulty:
        yield from _told(bench, page, owners)
    if more := read.unlisted:
        yield f"{more} more pages are wrong."


def _tally_faults(
    bench: Bench, faulty: Sequence[FaultyPage], owners: dict[Bodies, str | None]
) -> Iterator[str]:
    """Households that are on no page, or on several.

    Of one whose page carries nobody's piece, that page's own sentence tells more (which line, and
    whether letters or places differ).
    """
    households = bench.order.households
    carried: dict[int, str | None] = dict(enumerate(households[: len(bench.skeleton.pages)]))
    for page in faulty:
        if page.bodies is not None:
            carried[page.index] = owners.get(page.bodies, "")
    times = Counter(carried.values())
    for place, household in enumerate(households):
        if not times[household] and carried.get(place) != "":
            yield f"{_whose(household)} is on no page of the plate."
        elif times[household] > 1 and households.index(household) == place:
            places = [index + 1 for index, key in carried.items() if key == household]
            yield f"{_whose(household)} is on {times[household]} pages: {_some(places)}."


def _whose(household: str | None) -> str:
    """How a sentence on a household's piece begins."""
    return "The piece" if household is None else f"Household {household}"


def _told(bench: Bench, page: FaultyPage, owners: dict[Bodies, str | None]) -> Iterator[str]:
    """The sentences for one page."""
    households = bench.order.households
    household = households[page.index] if page.index < len(households) else None
    name = f"Page {page.index + 1}" + (f" ({household})" if household else "")
    owner = owners.get(page.bodies, household) if page.bodies is not None else household
    if owner != household:
        yield f"{name} carries the piece of {owner}."
        return
    for wrong in page.wrong:
        yield f"{name} {wrong.rstrip('.')}."
