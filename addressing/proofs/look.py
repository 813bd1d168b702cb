"""How the sheets look: sizes, greys and the few colours, each with one use."""

from addressing.proofs.lettering import Cut, Style

INK = (0.13, 0.13, 0.12)
GREY = (0.45, 0.43, 0.40)
FAINT = (0.68, 0.66, 0.62)
HAIRLINE = (0.84, 0.82, 0.78)

TITLE = Style(Cut.ROMAN, 27, 32, INK)
SUBTITLE = Style(Cut.ITALIC, 11.5, 15, GREY)
SECTION = Style(Cut.ROMAN, 16, 20, INK)
KICKER = Style(Cut.ROMAN, 7.5, 11, GREY, tracking=1.3)
FIGURE = Style(Cut.ROMAN, 25, 28, INK)
BODY = Style(Cut.ROMAN, 10, 13.5, INK)
ASIDE = Style(Cut.ITALIC, 10, 13.5, GREY)
CAPTION = Style(Cut.ROMAN, 8.5, 11, GREY)
NAME = Style(Cut.ROMAN, 9.5, 12, INK)
SMALL = Style(Cut.ROMAN, 8.5, 11, INK)
SMALL_ASIDE = Style(Cut.ITALIC, 8.5, 11, GREY)
FOOT = Style(Cut.ROMAN, 7.5, 10, GREY)

SEVERITY = {
    "stop": Style(Cut.ITALIC, 8.5, 11, (0.64, 0.20, 0.14)),
    "ask": Style(Cut.ITALIC, 8.5, 11, (0.60, 0.38, 0.05)),
    "note": Style(Cut.ITALIC, 8.5, 11, (0.33, 0.42, 0.36)),
    "set": Style(Cut.ITALIC, 8.5, 11, GREY),
}

MARGIN = 58.0
"""From the sheet's sides to type, points."""
HEAD = 54.0
FOOTING = 56.0
