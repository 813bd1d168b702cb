"""What people call a colour."""

import colorsys

_GREY, _DARK = 0.12, 0.15
_PALE = 0.7
"""From this lightness on a red is pink to some (common practice, no source)."""
_NEAR = 6
"""Degrees of hue within which people name either colour (common practice, no source)."""
_HUES = (
    (15, "red"), (45, "orange"), (70, "yellow"), (165, "green"), (200, "turquoise"),
    (255, "blue"), (290, "purple"), (345, "pink"), (361, "red"),
)  # fmt: skip


def colour_word(rgb: str) -> str:
    """What people call a colour.

    >>> [colour_word(rgb) for rgb in ("FFFF00", "92D050", "D9D9D9", "F4B084")]
    ['yellow', 'green', 'grey', 'orange']
    """
    hue, light, strong = _parts(rgb)
    if strong < _GREY or light < _DARK:
        return "grey" if light >= _DARK else "black"
    return _hue_word(hue)


def colour_words(rgb: str) -> frozenset[str]:
    """All that people may call a colour: one word, or two where it lies between.

    >>> [sorted(colour_words(rgb)) for rgb in ("FFFF00", "FFC000", "FFC7CE", "D9D9D9")]
    [['yellow'], ['orange', 'yellow'], ['pink', 'red'], ['grey']]
    """
    plain = colour_word(rgb)
    hue, light, _ = _parts(rgb)
    if plain in ("grey", "black"):
        return frozenset((plain,))
    pale = {"pink"} if plain == "red" and light >= _PALE else set()
    return frozenset({plain, *pale, _hue_word(hue - _NEAR), _hue_word(hue + _NEAR)})


def _parts(rgb: str) -> tuple[float, float, float]:
    """Hue in degrees, lightness and saturation from 0 to 1."""
    red, green, blue = (int(rgb[place : place + 2], 16) / 255 for place in (0, 2, 4))
    hue, light, strong = colorsys.rgb_to_hls(red, green, blue)
    return hue * 360, light, strong


def _hue_word(hue: float) -> str:
    return next(word for limit, word in _HUES if hue % 360 < limit)
