"""The postal class of an assembled envelope, by the published sizes, and its price."""

from collections.abc import Iterator
from functools import cache

from addressing.estimating.weighing import MM_PER_INCH
from addressing.records.postage import GRAMS_PER_OUNCE, Assembly, Postage, PostClass, PostRates
from addressing.records.shelf import Layout
from addressing.tables import lookup
from addressing.units import pt_to_mm

NEAR = 0.05
"""Within this share of a step a scale may read the next (kitchen scales; common practice)."""


def postage_for(
    destination: str, layout: Layout, assembly: Assembly, rates: PostRates
) -> Postage | None:
    """The cheapest class that takes it; None when none does (then it is a parcel).

    `destination` is "home" or "abroad". Sizes are of the closed envelope.
    """
    classes = rates.home if destination == "home" else rates.abroad
    for each in classes:
        if _takes(each.name, layout, assembly):
            step = next((s for s in each.steps if assembly.ounces <= s[0]), None)
            if step is not None:
                return _priced(destination, each, step[0], layout, assembly)
    return None


def _priced(
    destination: str, each: PostClass, limit: float, layout: Layout, assembly: Assembly
) -> Postage:
    reasons = tuple(nonmachinable(layout, assembly)) if each.name == "letter" else ()
    price = dict(each.steps)[limit] + (each.nonmachinable if reasons else 0)
    room = (limit - assembly.ounces) * GRAMS_PER_OUNCE
    near = room < NEAR * limit * GRAMS_PER_OUNCE
    return Postage(destination, each.name, price, reasons, room, near)


def nonmachinable(layout: Layout, assembly: Assembly) -> Iterator[str]:
    """Why a letter is dearer (USPS DMM 101, 1.2): its shape, or what is in it."""
    ratio = layout.width / layout.height
    if ratio < _limit("aspect.min") or ratio > _limit("aspect.max"):
        yield f"length divided by height is {ratio:.2f}, not between 1.3 and 2.5"
    if assembly.stiff:
        yield "it doesn't bend easily"
    if assembly.uneven:
        yield "its thickness is uneven"


def _takes(name: str, layout: Layout, assembly: Assembly) -> bool:
    length, height = sorted((pt_to_mm(layout.width), pt_to_mm(layout.height)), reverse=True)
    inches = (length / MM_PER_INCH, height / MM_PER_INCH, assembly.thickness / MM_PER_INCH)
    if name == "large" and (assembly.stiff or assembly.uneven):
        return False  # large ones must bend and be evenly thick (USPS DMM 101, 2.1c and e)
    most = tuple(_limit(f"{prefix(name)}{side}.max") for side in ("length", "height", "thickness"))
    return all(value <= limit + _SLACK for value, limit in zip(inches, most, strict=True))


_SLACK = 1e-6


def prefix(name: str) -> str:
    """The beginning of a class's rules in data/post_rules.tsv."""
    return "" if name == "letter" else f"{name}."


@cache
def _limits() -> dict[str, str]:
    return lookup("post_rules", "key", "value")


def _limit(key: str) -> float:
    return float(_limits()[key])
