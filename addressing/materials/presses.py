"""Where a job is printed: which ink a device or a shop has for it, how often it lays it down."""

from collections.abc import Iterable
from dataclasses import replace
from typing import Annotated

from pydantic import Field

from addressing.faults import Exit, Fault
from addressing.materials.inks import PROCESS
from addressing.materials.reading import Entry
from addressing.records.shelf import Ink, Press, Shop
from addressing.records.shops import Hits

Words = Annotated[str, Field(min_length=1)]


class HitsEntry(Entry):
    """How often inks are laid down on papers; a key that is left out means any."""

    passes: int = Field(ge=1, le=5)
    inks: list[Words] = Field(default_factory=list)
    stocks: list[Words] = Field(default_factory=list)


def hits_of(entries: Iterable[HitsEntry]) -> tuple[Hits, ...]:
    """The rules on passes as a record keeps them, in its order."""
    return tuple(Hits(each.passes, tuple(each.inks), tuple(each.stocks)) for each in entries)


def passes_of(press: Press | None, ink: str, stock: str) -> int:
    """How often a device or shop lays an ink down on a paper (by their keys), by its record.

    The first of its rules that fits counts; without any it is once.
    """
    rules = press.hits if press is not None else ()
    return next((rule.passes for rule in rules if rule.holds(ink, stock)), 1)


def ink_for(press: Press | None, ink: Ink) -> Ink:
    """The ink as this device or shop lays it down.

    A device with a slot for it gives it that slot's channel, or grey where that is the black one
    behind a driver of RGB; a shop gives it its own spot name (a process colour's name gives that
    channel instead). Without a press it stays as it is.

    Raises:
        Fault: exit 3, `ink-not-there`: the device or shop doesn't have it.
    """
    if press is None:
        return ink
    if isinstance(press, Shop):
        names = dict(press.inks)
        if ink.key not in names:
            raise _not_there(press, ink, names)
        spot = names[ink.key]
        channel = spot.casefold() if spot.casefold() in PROCESS else None
        return replace(ink, spot=spot, channel=channel)
    if ink.key not in press.inks:
        raise _not_there(press, ink, press.inks)
    channel = dict(press.slots).get(ink.key, ink.channel)
    return replace(ink, channel="grey" if channel == "black" and press.takes == "rgb" else channel)


def _not_there(press: Press, ink: Ink, there: Iterable[str]) -> Fault:
    names = ", ".join(there)
    has = f"It has: {names}." if names else "Its record names no ink."
    return Fault(
        Exit.INPUT,
        "ink-not-there",
        f"{press.title} can't lay down {ink.key}. {has}",
        "Choose one of these inks, or another device or shop.",
    )
