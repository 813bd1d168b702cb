"""How the cells of a workbook look: struck, coloured, unseen, and by which number format."""

import colorsys
from dataclasses import dataclass, field
from functools import cache

from addressing.guestlist.files.formats import is_moment
from addressing.guestlist.files.markup import Attributes, BrokenPartError
from addressing.tables import lookup

GENERAL = "General"
_NOTHING_SHOWN = frozenset((";;;", ";;;;"))
_INDEXED = ("000000", "FFFFFF", "FF0000", "00FF00", "0000FF", "FFFF00", "FF00FF", "00FFFF")
"""The first eight colours of the palette, which come again as 8 to 15 (ECMA-376, 18.8.27)."""
_THEME = ("lt1", "dk1", "lt2", "dk2", "accent1", "accent2", "accent3", "accent4", "accent5",
          "accent6", "hlink", "folHlink")  # fmt: skip
"""The order in which a cell counts the theme's colours (from memory; it swaps light and dark)."""
_WHITE, _BLACK = "FFFFFF", "000000"
_RGB = 6
_MOST_STYLES = 65_536


@dataclass(frozen=True, slots=True)
class Look:
    """One look of cells. `fill` and `ink` are colours as RGB, None for none, white and black.

    `unseen` is True where the text has the colour of its cell, or its format shows nothing.
    """

    struck: bool = False
    number_format: str = GENERAL
    moment: bool = False
    fill: str | None = None
    ink: str | None = None
    unseen: bool = False
    rule: str = ""
    """The condition under which the cell takes another look, where its style has one."""

    @property
    def colour(self) -> str | None:
        """What colour sets the cell apart: its fill's, else its letters'."""
        return self.fill or self.ink


PLAIN = Look()


@dataclass(slots=True)
class _Font:
    struck: bool = False
    ink: str | None = None


@dataclass(slots=True)
class Looks:
    """Listens to a workbook's styles; `cells` are the looks in the order of their numbers."""

    theme: tuple[str | None, ...] = ()
    formats: dict[int, str] = field(default_factory=dict)
    fonts: list[_Font] = field(default_factory=list)
    fills: list[str | None] = field(default_factory=list)
    cells: list[Look] = field(default_factory=list)
    group: str = ""

    def start(self, name: str, attributes: Attributes) -> None:
        """A tag opens."""
        if max(len(self.fonts), len(self.fills), len(self.cells), len(self.formats)) > _MOST_STYLES:
            message = "more styles than a workbook can have"
            raise BrokenPartError(message)
        if name in ("x:fonts", "x:fills", "x:cellXfs", "x:dxfs", "x:cellStyleXfs"):
            self.group = name
        elif name == "x:numFmt":
            self.formats[_number(attributes.get("numFmtId"))] = attributes.get("formatCode", "")
        elif self.group == "x:fonts":
            self._font(name, attributes)
        elif self.group == "x:fills":
            self._fill(name, attributes)
        elif self.group == "x:cellXfs" and name == "x:xf":
            self.cells.append(self._look(attributes))

    def end(self, name: str) -> None:
        """A tag closes."""
        if name == self.group:
            self.group = ""

    def text(self, data: str) -> None:
        """Text says nothing here."""

    def _font(self, name: str, attributes: Attributes) -> None:
        if name == "x:font":
            self.fonts.append(_Font())
        elif self.fonts and name == "x:strike":
            self.fonts[-1].struck = is_on(attributes)
        elif self.fonts and name == "x:color":
            self.fonts[-1].ink = self._colour(attributes)

    def _fill(self, name: str, attributes: Attributes) -> None:
        if name == "x:fill":
            self.fills.append(None)
        elif name == "x:patternFill" and self.fills:
            pattern = attributes.get("patternType", "none")
            self.fills[-1] = None if pattern in ("none", "gray125") else ""
        elif name == "x:fgColor" and self.fills and self.fills[-1] == "":
            self.fills[-1] = self._colour(attributes)

    def _colour(self, attributes: Attributes) -> str | None:
        """A colour as RGB; None where it can't be told or is the program's own choice."""
        found: str | None = None
        if "rgb" in attributes:
            found = attributes["rgb"][-_RGB:].upper()
        elif "theme" in attributes:
            place = _number(attributes["theme"])
            found = self.theme[place] if place < len(self.theme) else None
        elif "indexed" in attributes:
            place = _number(attributes["indexed"])
            found = _INDEXED[place % len(_INDEXED)] if place < 2 * len(_INDEXED) else None
        if found is None or len(found) != _RGB or not _is_hex(found):
            return None
        return _tinted(found, attributes.get("tint", "0"))

    def _look(self, attributes: Attributes) -> Look:
        font_at, fill_at = (_number(attributes.get(key)) for key in ("fontId", "fillId"))
        font = self.fonts[font_at] if font_at < len(self.fonts) else _Font()
        fill = (self.fills[fill_at] if fill_at < len(self.fills) else None) or None
        code = number_format(_number(attributes.get("numFmtId")), self.formats)
        ground = fill or _WHITE
        return Look(
            struck=font.struck,
            number_format=code,
            moment=is_moment(code),
            fill=None if ground == _WHITE else fill,
            ink=None if font.ink in (None, _WHITE, _BLACK) else font.ink,
            unseen=(font.ink == ground) or code.strip() in _NOTHING_SHOWN,
        )


def number_format(number: int, own: dict[int, str]) -> str:
    """The code of a number format, the workbook's own or one that is known by number only."""
    return own.get(number) or _known_formats().get(number, GENERAL)


@cache
def _known_formats() -> dict[int, str]:
    return {int(key): code for key, code in lookup("number_formats", "number", "code").items()}


def is_on(attributes: Attributes) -> bool:
    """Whether a mark such as `<strike/>` or `<strike val="0"/>` is set."""
    return attributes.get("val", "1") not in ("0", "false", "off")


def _number(text: str | None) -> int:
    return int(text) if text and text.isdecimal() and len(text) <= _RGB else 0


def _is_hex(text: str) -> bool:
    return all(mark in "0123456789ABCDEF" for mark in text)


def _tinted(rgb: str, tint: str) -> str:
    """A colour made lighter or darker (ECMA-376 Part 1, 18.3.1.15)."""
    try:
        by = max(-1.0, min(1.0, float(tint)))
    except ValueError:
        by = 0.0
    if not by:
        return rgb
    red, green, blue = (int(rgb[place : place + 2], 16) / 255 for place in (0, 2, 4))
    hue, light, strong = colorsys.rgb_to_hls(red, green, blue)
    light = light * (1 + by) if by < 0 else light * (1 - by) + by
    parts = colorsys.hls_to_rgb(hue, light, strong)
    return "".join(f"{round(part * 255):02X}" for part in parts)


class Theme:
    """Listens to a workbook's theme; `colours` are in the order in which cells count them."""

    def __init__(self) -> None:
        """Nothing is known yet."""
        self._found: dict[str, str] = {}
        self._within = ""

    @property
    def colours(self) -> tuple[str | None, ...]:
        """The theme's colours as RGB."""
        return tuple(self._found.get(name) for name in _THEME)

    def start(self, name: str, attributes: Attributes) -> None:
        """A tag opens."""
        local = name.removeprefix("a:")
        if local in _THEME and not self._found.get(local):
            self._within = local
        elif self._within and name in ("a:srgbClr", "a:sysClr"):
            value = attributes.get("lastClr") or attributes.get("val", "")
            self._found.setdefault(self._within, value.upper())

    def end(self, name: str) -> None:
        """A tag closes."""
        if name.removeprefix("a:") == self._within:
            self._within = ""

    def text(self, data: str) -> None:
        """Text says nothing here."""
