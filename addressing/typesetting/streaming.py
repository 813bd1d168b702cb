"""The door out: a setting drawn page by page, each page made, handed over and forgotten."""

from collections.abc import Iterator, Sequence

from addressing.records.pages import Outlines, Page, Setting, hand_of
from addressing.typesetting.lettering import Lettering, open_hands, outlines_of


def stream(setting: Setting) -> tuple[Iterator[Page], Outlines]:
    """The pages of a setting, in the order of its pieces, and the glyphs that they draw.

    Nothing is kept but shaped lines (a bounded number) and outlines, each drawn when it is first
    asked for; so memory does not grow with the pages.

    Raises:
        Fault: the font file can't be used (exit 3).
    """
    hands = open_hands(setting.hands)
    return _pages(setting, hands), Outlines(outlines_of(hands))


def _pages(setting: Setting, hands: Sequence[Lettering]) -> Iterator[Page]:
    if any(hand.helped for hand in hands):
        yield from _mixed_pages(setting, hands)
        return
    shape, other = hands[0].typeface.shape, hands[-1].typeface.shape
    for piece in setting.pieces:
        if shape is other:  # one hand: no time is lost on asking which
            drawn = [(shape(line.text), line.x, line.y, line.size) for line in piece.lines]
        else:
            drawn = [
                ((other if hand_of(line.role) else shape)(line.text), line.x, line.y, line.size)
                for line in piece.lines
            ]
        yield Page(piece.household, tuple(drawn))


def _mixed_pages(setting: Setting, hands: Sequence[Lettering]) -> Iterator[Page]:
    """The pages of a set in which other faces may set words for a hand."""
    for piece in setting.pieces:
        drawn = tuple(
            (part.words, round(line.x + part.start * line.size, 3), line.y, line.size * part.share)
            for line in piece.lines
            for part in hands[hand_of(line.role) % len(hands)].drawn(line.text)
        )
        yield Page(piece.household, drawn)
