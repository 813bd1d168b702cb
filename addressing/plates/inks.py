"""How an ink is named and laid on: one spot colour, or one process channel at full.

Of several on a page each is laid over the others and knocks nothing out (ISO 32000-1, 8.6.7). With
overprint mode 1 that holds for a process channel too: its noughts take nothing away.
"""

from addressing.plates.numbers import name, number
from addressing.records.plates import PlateOrder
from addressing.records.shelf import Ink

_CHANNELS = ("cyan", "magenta", "yellow", "black")


OVERPRINT = " /ExtGState << /Over << /Type /ExtGState /OP true /op true /OPM 1 >> >>"
"""The entry of a page's resources by which its inks overprint."""


def inks_named(order: PlateOrder) -> tuple[tuple[str, Ink], ...]:
    """The plate's inks with the names of their colour spaces: Ink, or of a composite Ink1, Ink2."""
    if not order.layers:
        return (("Ink", order.ink),)
    return tuple((f"Ink{number}", ink) for number, ink in enumerate(order.inks, start=1))


def openings(order: PlateOrder) -> tuple[bytes, ...]:
    """How a page's lines begin in each ink; overprinting is said once, first of all."""
    first, *others = (_laying_on(name, ink) for name, ink in inks_named(order))
    return (b"/Over gs\n" + first if order.overprints else first, *others)


def _laying_on(name: str, ink: Ink) -> bytes:
    """The operators that make all that follows on a page fall in this ink, at full strength."""
    if ink.channel is None:
        return f"/{name} cs 1 scn\n".encode("ascii")
    if ink.channel == "grey":
        return b"0 g\n"
    values = " ".join("1" if channel == ink.channel else "0" for channel in _CHANNELS)
    return f"{values} k\n".encode("ascii")


def separation(ink: Ink) -> str:
    """The colour space of a spot ink (ISO 32000-1, 8.6.6.4) with its alternate in DeviceCMYK."""
    alternate = " ".join(number(part) for part in ink.alternate)
    return (
        f"[/Separation {name(ink.spot)} /DeviceCMYK << /FunctionType 2 /Domain [0 1]"
        f" /C0 [0 0 0 0] /C1 [{alternate}] /N 1 >>]"
    )
