"""The door out: a setting drawn page by page, each page made, handed over and forgotten."""

from collections.abc import Iterator, Sequence

from addressing.records.pages import Outlines, Page, SetPiece, Setting, hand_of
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
    if any(hand.helped for hand in hands) or setting.two_inks:
        yield from _mixed_pages(setting, hands)
        return
    shape, other = hands[0].typeface.shape, hands[-1].typeface.shape
    for piece in setting.pieces:
        if piece.why and any(line.tighter for line in piece.lines):
            yield _mixed_page(piece, setting, hands)
            continue
        if shape is other:  # one hand: no time is lost on asking which
            drawn = [(shape(line.text), line.x, line.y, line.size) for line in piece.lines]
        else:
            drawn = [
                ((other if hand_of(line.role) else shape)(line.text), line.x, line.y, line.size)
                for line in piece.lines
            ]
        yield Page(piece.household, tuple(drawn))


def _mixed_pages(setting: Setting, hands: Sequence[Lettering]) -> Iterator[Page]:
    """The pages of a set in which other faces may set words for a hand, or of two inks."""
    for piece in setting.pieces:
        yield _mixed_page(piece, setting, hands)


def _mixed_page(piece: SetPiece, setting: Setting, hands: Sequence[Lettering]) -> Page:
    """A page with words of other faces, of two inks, or with letters closer than the set's."""
    drawn = []
    inks: list[int] = []
    for line in piece.lines:
        own = hand_of(line.role)
        hand = hands[own % len(hands)]
        parts = (hand.closer(line.tighter) if line.tighter else hand).drawn(line.text)
        for words, start, share, *_ in parts:
            x = round(line.x + start * line.size, 3)
            drawn.append((words, x, line.y, line.size * share))
        inks += [own] * len(parts)
    return Page(piece.household, tuple(drawn), tuple(inks) if setting.two_inks else ())
