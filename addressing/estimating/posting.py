"""The postal class of an assembled envelope, by the published sizes, and its price."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from decimal import Decimal
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

    `destination` is "home", a country (ISO 3166-1) or "abroad". Sizes are of the closed envelope.
    """
    for each in rates.classes(destination):
        if _takes(each.name, layout, assembly):
            step = next((s for s in each.steps if assembly.ounces <= s[0]), None)
            if step is not None:
                found = _priced(destination, each, step[0], layout, assembly)
                return replace(found, stamps=stamps_for(found.price, rates.stamps))
    return None


def _priced(
    destination: str, each: PostClass, limit: float, layout: Layout, assembly: Assembly
) -> Postage:
    reasons = tuple(nonmachinable(layout, assembly)) if each.name == "letter" else ()
    price = dict(each.steps)[limit] + (each.nonmachinable if reasons else 0)
    room = (limit - assembly.ounces) * GRAMS_PER_OUNCE
    near = room < NEAR * limit * GRAMS_PER_OUNCE
    return Postage(destination, each.name, price, reasons, room, near)


FEW_STAMPS, MOST_STAMPS = 4, 12
"""Stamps that look well on an envelope (common practice, no source), and that have room at all."""


def stamps_for(price: Decimal, values: Sequence[Decimal]) -> tuple[Decimal, ...]:
    """The stamps that pay a price, the dearest first.

    Up to four that pay as little too much as can be, and of these the fewest; where four can't pay
    it, as few as do. () where no values are known, or no dozen of them pays it.

    >>> stamps_for(Decimal("1.10"), (Decimal("0.80"), Decimal("0.30"), Decimal("0.10")))
    (Decimal('0.80'), Decimal('0.30'))
    """
    reached: dict[Decimal, tuple[Decimal, ...]] = {Decimal(0): ()}
    paying: dict[Decimal, tuple[Decimal, ...]] = {}
    for number in range(1, MOST_STAMPS + 1):
        grown: dict[Decimal, tuple[Decimal, ...]] = {}
        for paid, stamps in reached.items():
            for value in values:
                into = paying if paid + value >= price else grown
                into.setdefault(paid + value, (*stamps, value))
        reached = grown
        if paying and number >= FEW_STAMPS:
            break
    least = min(paying, default=None)
    return () if least is None else tuple(sorted(paying[least], reverse=True))


def nonmachinable(layout: Layout, assembly: Assembly) -> Iterator[str]:
    """Why a letter is dearer (USPS DMM 101, 1.2): its shape, or what is in it.

    That an address along the shorter side makes it so is from memory.
    """
    ratio = layout.width / layout.height
    if ratio < 1:
        yield "the address stands along the shorter side"
    elif ratio < _limit("aspect.min") or ratio > _limit("aspect.max"):
        yield f"length divided by height is {ratio:.2f}, not between 1.3 and 2.5"
    if assembly.stiff:
        yield "it doesn't bend easily"
    if assembly.uneven:
        yield "its thickness is uneven"
    length, height = (pt_to_mm(side) / MM_PER_INCH for side in (layout.width, layout.height))
    large = length > _limit("thin.length") + _SLACK or height > _limit("thin.height") + _SLACK
    if large and assembly.thickness / MM_PER_INCH < _limit("thin.thickness"):
        yield "it is thinner than 0.009 in"


def _takes(name: str, layout: Layout, assembly: Assembly) -> bool:
    length, height = sorted((pt_to_mm(layout.width), pt_to_mm(layout.height)), reverse=True)
    inches = (length / MM_PER_INCH, height / MM_PER_INCH, assembly.thickness / MM_PER_INCH)
    if name == "large" and (assembly.stiff or assembly.uneven):
        return False  # large ones must bend and be evenly thick (USPS DMM 101, 2.1c and e)
    if inches[0] < _limit("length.min") - _SLACK or inches[1] < _limit("height.min") - _SLACK:
        return False  # smaller than any letter (USPS DMM 101, 1.1a)
    if inches[2] < _limit("thickness.min") - _SLACK:
        return False  # thinner than any (the same)
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
