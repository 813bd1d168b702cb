"""How an ink is named and laid on: one spot colour, or one process channel at full."""

from addressing.plates.numbers import name, number
from addressing.records.shelf import Ink

_CHANNELS = ("cyan", "magenta", "yellow", "black")


def laying_on(ink: Ink) -> bytes:
    """The operators that make all that follows on a page fall in this ink, at full strength."""
    if ink.channel is None:
        return b"/Ink cs 1 scn\n"
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
