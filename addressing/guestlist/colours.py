"""What people call a colour."""

import colorsys

_GREY, _DARK = 0.12, 0.15
_HUES = (
    (15, "red"), (45, "orange"), (70, "yellow"), (165, "green"), (200, "turquoise"),
    (255, "blue"), (290, "purple"), (345, "pink"), (361, "red"),
)  # fmt: skip


def colour_word(rgb: str) -> str:
    """What people call a colour.

    >>> [colour_word(rgb) for rgb in ("FFFF00", "92D050", "D9D9D9", "F4B084")]
    ['yellow', 'green', 'grey', 'orange']
    """
    red, green, blue = (int(rgb[place : place + 2], 16) / 255 for place in (0, 2, 4))
    hue, light, strong = colorsys.rgb_to_hls(red, green, blue)
    if strong < _GREY or light < _DARK:
        return "grey" if light >= _DARK else "black"
    return next(word for limit, word in _HUES if hue * 360 < limit)
