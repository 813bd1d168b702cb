"""Envelopes set, against the fastest shaping library alone: `python setting.py [COUNT] [TURNS]`.

The rival is uharfbuzz with nothing around it: the same lines shaped one by one, and written out
in one call, the cheapest way that it has; then the same with what setting needs, the place of each
glyph and the bounds of the line's ink (by HarfBuzz's own extents). Ours is everything from
worded pieces to pages: measured, fitted, one size chosen, broken where needed, placed, streamed.
In turns in one process, each after a warm-up; the medians and their ratio are printed.
"""

import gc
import hashlib
import statistics
import sys
import time
from typing import Any

import uharfbuzz as hb
from envelopes import FONT, HEIGHT, WIDTH, envelopes
from ours import pieces

from addressing.records.docket import PieceChoice
from addressing.records.pieces import Piece
from addressing.records.shelf import Box, Face, Ink, Layout, Zone
from addressing.typesetting import fit, stream
from addressing.typesetting.typeface import open_typeface

FLAGS = hb.BufferSerializeFlags.NO_GLYPH_NAMES | hb.BufferSerializeFlags.NO_CLUSTERS


def shaped(lines: list[str], *, bounded: bool) -> float:
    """Seconds to shape every line as it comes."""
    known: dict[int, Any] = {}
    began = time.perf_counter()
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
    return time.perf_counter() - began


def bounds(font: Any, buffer: Any, known: dict[int, Any]) -> tuple[list[int], int, int]:  # noqa: ANN401 - no types
    """The places of a line's glyphs, and the left and right of its ink."""
    pen, places, left, right = 0, [], sys.maxsize, -sys.maxsize
    for info, at in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
        glyph = info.codepoint
        if glyph not in known:
            known[glyph] = font.get_glyph_extents(glyph)
        ink, x = known[glyph], pen + at.x_offset
        places.append(x)
        if ink.width:
            left = min(left, x + ink.x_bearing)
            right = max(right, x + ink.x_bearing + ink.width)
        pen += at.x_advance
    return places, left, right


def ours(listed: list[Piece]) -> float:
    """Seconds from worded pieces to the last page; nothing is remembered from before."""
    open_typeface.cache_clear()
    face = Face("great-vibes", "Great Vibes", FONT, hashlib.sha256(FONT.read_bytes()).hexdigest())
    ink = Ink("White", "White", (0.1, 0.0, 0.0, 0.2), (1.0, 1.0, 1.0))
    zone = Zone("outer", Box(54, 90, 414, 198), "centre", "middle")
    safe = Box(18, 18, WIDTH - 36, HEIGHT - 36)
    layout = Layout("trial", "Trial", WIDTH, HEIGHT, "square", 0, (zone,), safe, (), "made up")
    choice = PieceChoice("outer", "trial", "great-vibes", "White", "deep-green")
    began = time.perf_counter()
    setting, _ = fit(listed, choice, layout, face, ink, 0.0)
    pages, _ = stream(setting)
    made = sum(1 for _ in pages)
    spent = time.perf_counter() - began
    if made != len(listed):
        sys.exit(f"{len(listed) - made} held back")
    return spent


def main(count: int, turns: int) -> None:
    """Print the medians and their ratios."""
    lines = [line for four in envelopes(count) for line in four]
    listed = pieces(count)
    rival, placed, own = [], [], []
    for _ in range(turns + 1):
        gc.collect()
        rival.append(shaped(lines, bounded=False))
        gc.collect()
        placed.append(shaped(lines, bounded=True))
        gc.collect()
        own.append(ours(listed))
    theirs, mine = statistics.median(rival[1:]), statistics.median(own[1:])
    bounded = statistics.median(placed[1:])
    sys.stdout.write(
        f"{count} envelopes, {len(lines)} lines ({len(set(lines))} differ): set {mine:.3f} s, "
        f"shaped by HarfBuzz alone {theirs:.3f} s, ratio {mine / theirs:.2f}; "
        f"with places and ink {bounded:.3f} s, ratio {mine / bounded:.2f}\n"
    )


if __name__ == "__main__":
    count, turns = map(int, sys.argv[1:3]) if len(sys.argv) > 2 else (10_000, 3)
    main(count, turns)
