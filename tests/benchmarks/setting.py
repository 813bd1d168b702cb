"""Envelopes worded and set, against the fastest shaping library: `setting.py [COUNT] [TURNS]`.

The rival is uharfbuzz with nothing around it: the same lines shaped one by one, and written out
in one call, the cheapest way that it has; then the same with what setting needs, the place of each
glyph and the bounds of the line's ink (by HarfBuzz's own extents). Ours is everything from
households to pages: worded by etiquette, measured, fitted, one size chosen, broken where needed,
placed, streamed. In turns in one process, each after a warm-up, nothing remembered from the turn
before but the tables; the processor's time, so that a busy machine tells the same; the medians and
their ratios are printed, and ours in two parts.
"""

import gc
import hashlib
import statistics
import sys
import time
from typing import Any

import uharfbuzz as hb
from envelopes import FONT, HEIGHT, WIDTH
from households import households

from addressing.hands import steadily
from addressing.job.styling import styles_for
from addressing.materials.shelf import open_shelf
from addressing.records.docket import Docket, PieceChoice
from addressing.records.guests import GuestList
from addressing.records.pieces import Piece
from addressing.records.shelf import Box, Face, Ink, Layout, Zone
from addressing.typesetting import fit, opened, stream, typeface
from addressing.wording import word_list

FLAGS = hb.BufferSerializeFlags.NO_GLYPH_NAMES | hb.BufferSerializeFlags.NO_CLUSTERS


def shaped(lines: list[str], *, bounded: bool) -> float:
    """Seconds (of the processor) to shape every line as it comes."""
    known: dict[int, Any] = {}
    began = time.process_time()
    font = hb.Font(hb.Face(hb.Blob(FONT.read_bytes())))
    for text in lines:
        buffer = hb.Buffer()
        buffer.add_str(text)
        buffer.guess_segment_properties()
        hb.shape(font, buffer, {"kern": True})
        if bounded:
            bounds(font, buffer, known)
        else:
            buffer.serialize(font, flags=FLAGS)
    return time.process_time() - began


def bounds(font: Any, buffer: Any, known: dict[int, Any]) -> tuple[list[int], int, int]:  # noqa: ANN401 - no types
    """The places of a line's glyphs, and the left and right of its ink.

    As quick as Python does it: what is asked of the library is asked once, for each glyph.
    """
    pen, places, left, right = 0, [], sys.maxsize, -sys.maxsize
    for info, at in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
        glyph = info.codepoint
        ink = known.get(glyph)
        if ink is None:
            found = font.get_glyph_extents(glyph)
            ink = known[glyph] = found.x_bearing, found.x_bearing + found.width, found.width
        shift, _, advance, _ = at.position
        x, (start, end, width) = pen + shift, ink
        places.append(x)
        if width and x + start < left:
            left = x + start
        if width and x + end > right:
            right = x + end
        pen += advance
    return places, left, right


@steadily()  # as the job does
def ours(listed: GuestList) -> tuple[float, float, tuple[Piece, ...]]:
    """Seconds for the words, seconds from there to the last page, and the pieces."""
    typeface.open_typeface.cache_clear()
    opened.opened.cache_clear()
    opened.alone.cache_clear()
    face = Face("great-vibes", "Great Vibes", FONT, hashlib.sha256(FONT.read_bytes()).hexdigest())
    ink = Ink("White", "White", (0.1, 0.0, 0.0, 0.2), (1.0, 1.0, 1.0))
    zone = Zone("outer", Box(54, 90, 414, 198), "centre", "middle")
    safe = Box(18, 18, WIDTH - 36, HEIGHT - 36)
    layout = Layout("trial", "Trial", WIDTH, HEIGHT, "square", 0, (zone,), safe, (), "made up")
    choice = PieceChoice("outer", "trial", "great-vibes", "White", "deep-green")
    docket = Docket(make=("outer",))
    styles = styles_for(docket, open_shelf(None))
    began = time.process_time()
    pieces = word_list(listed, docket, styles)
    worded = time.process_time()
    setting, findings = fit(pieces, choice, layout, face, ink, 0.0)
    pages, _ = stream(setting)
    made = sum(1 for _ in pages)
    ended = time.process_time()
    held = {found.household for found in findings if found.severity == "stop"}
    if made != len(pieces) - len(held):
        sys.exit(f"{len(pieces) - made} held back")
    return worded - began, ended - worded, pieces


def main(count: int, turns: int) -> None:
    """Print the medians and their ratios."""
    listed = GuestList("Guests.xlsx", "", tuple(households(count)), count)
    _, _, pieces = ours(listed)
    lines = [line.text for piece in pieces for line in piece.wordings[0].lines]
    rival, placed, words, sets = [], [], [], []
    for _ in range(turns):
        gc.collect()
        rival.append(shaped(lines, bounded=False))
        gc.collect()
        placed.append(shaped(lines, bounded=True))
        gc.collect()
        worded, spent, pieces = ours(listed)
        words.append(worded)
        sets.append(spent)
    mine = [one + other for one, other in zip(words, sets, strict=True)]
    own, theirs, bounded = map(statistics.median, (mine, rival, placed))
    ratios = [
        statistics.median(a / b for a, b in zip(mine, them, strict=True))
        for them in (rival, placed)
    ]
    sys.stdout.write(
        f"{count} envelopes, {len(lines)} lines ({len(set(lines))} differ): {own:.3f} s "
        f"({own / count * 1e6:.1f} us each; worded {statistics.median(words):.3f}, "
        f"set {statistics.median(sets):.3f}); shaped by HarfBuzz alone {theirs:.3f} s, "
        f"ratio {ratios[0]:.2f}; with places and ink {bounded:.3f} s, ratio {ratios[1]:.2f}\n"
    )


if __name__ == "__main__":
    count, turns = map(int, sys.argv[1:3]) if len(sys.argv) > 2 else (10_000, 3)
    main(count, turns)
