"""Inks and papers: TOML with one table each, keyed by the name that a docket uses."""

import re
from pathlib import Path
from typing import Annotated, Literal

from pydantic import AfterValidator, Field

from addressing.materials.reading import Entry, Problem, checked_tables, read_toml, wrong
from addressing.records.shelf import SURFACES, Ink, Stock

SPOT = re.compile(r"[A-Za-z0-9][A-Za-z0-9 -]*")
RESERVED = ("all", "none")
"""Names with a meaning of their own in PDF (ISO 32000-1, 8.6.6.4): no ink may bear them."""

PROCESS = ("cyan", "magenta", "yellow", "black")
"""Colorants that a device has by itself: a Separation of such a name is no spot ink."""


def spot_name(name: str) -> str:
    """The name, when it may name a Separation.

    Only ASCII letters, digits, spaces and hyphens: other characters are written or read
    differently by programs on the way (measured).

    Raises:
        ValueError: it may not; the text says what may.
    """
    if not SPOT.fullmatch(name) or name != name.strip():
        raise ValueError("use only the letters A to Z, digits, spaces and hyphens.")
    if name.casefold() in RESERVED:
        raise ValueError(f'"{name}" means something else in a PDF; choose another name.')
    return name


def _screen(value: str) -> str:
    if not re.fullmatch(r"#[0-9A-Fa-f]{6}", value):
        raise ValueError('give a colour such as "#1F3B2D".')
    return value


def screen_colour(value: str) -> tuple[float, float, float]:
    """The sRGB colour (0 to 1) of "#RRGGBB".

    >>> screen_colour("#FF0033")
    (1.0, 0.0, 0.2)
    """
    red, green, blue = (int(value[at : at + 2], 16) / 255 for at in (1, 3, 5))
    return red, green, blue


def _surface(value: str) -> str:
    if value not in SURFACES:
        raise ValueError(f"write one of {', '.join(SURFACES)}.")
    return value


Surface = Annotated[str, AfterValidator(_surface)]
SpotName = Annotated[str, AfterValidator(spot_name)]
Screen = Annotated[str, AfterValidator(_screen)]
Share = Annotated[float, Field(ge=0, le=1)]


class InkEntry(Entry):
    """One ink. `spot` is by default the table's own name; `alternate` is C, M, Y, K."""

    spot: SpotName | None = None
    alternate: list[Share] = Field(min_length=4, max_length=4)
    screen: Screen
    channel: Literal["cyan", "magenta", "yellow", "black"] | None = None
    coat: bool = False


class StockEntry(Entry):
    """One paper."""

    title: str = Field(min_length=1)
    screen: Screen
    surface: Surface | None = None


def read_inks(path: Path) -> tuple[Ink, ...]:
    """The inks in a TOML file, in its order.

    Raises:
        Fault: exit 3, `ink-…`: the file can't be read or an ink can't be right.
    """
    source = read_toml("ink", path)
    inks, problems = [], []
    for key, entry in checked_tables(InkEntry, source).items():
        problems.extend(_ink_problems(key, entry))
        cyan, magenta, yellow, black = entry.alternate
        inks.append(
            Ink(
                key,
                entry.spot or key,
                (cyan, magenta, yellow, black),
                screen_colour(entry.screen),
                entry.channel,
                entry.coat,
            )
        )
    if problems:
        raise wrong(source, problems)
    return tuple(inks)


def _ink_problems(key: str, entry: InkEntry) -> list[Problem]:
    problems = []
    if not any(entry.alternate):
        mend = "give a light colour that shows in a preview, such as [0.25, 0.05, 0.0, 0.0]."
        problems.append(Problem((key, "alternate"), "it can't be seen.", mend))
    spot = entry.spot or key
    try:
        spot_name(spot)
    except ValueError as error:
        problems.append(Problem((key,), f'"{spot}" can\'t name a spot ink.', str(error)))
    if spot.casefold() in PROCESS and entry.channel != spot.casefold():
        mend = f'add channel = "{spot.casefold()}", or choose another name.'
        problems.append(Problem((key,), f'"{spot}" is a process ink.', mend))
    return problems


def read_stocks(path: Path) -> tuple[Stock, ...]:
    """The papers in a TOML file, in its order.

    Raises:
        Fault: exit 3, `stock-…`: the file can't be read or a paper can't be right.
    """
    source = read_toml("stock", path)
    return tuple(
        Stock(key, entry.title, screen_colour(entry.screen), entry.surface)
        for key, entry in checked_tables(StockEntry, source).items()
    )
