"""What the letters of a face stand for, and the map that tells it in a plate of live type.

A glyph with characters of its own (cmap) stands for the lowest of them, written out from U+FB00 on,
where Unicode has forms of letters; any other for what GSUB
makes it from, the shortest words of all and of those the lowest. The ways are taken up from the
shortest words on, so that each glyph has its own when it is first met.
"""

import heapq
from collections import defaultdict
from collections.abc import Iterable, Iterator
from functools import lru_cache
from io import BytesIO
from typing import Any
from unicodedata import normalize

from fontTools.ttLib import TTFont

BLOCK = 100
"""Rows between a `beginbfchar` and its end, at most."""


@lru_cache(maxsize=16)
def meanings(data: bytes, index: int) -> dict[int, str]:
    """What each glyph of a font stands for; one that stands for nothing isn't there."""
    font = TTFont(BytesIO(data), fontNumber=index, lazy=True)
    lowest: dict[str, int] = {}
    for code, name in (font.getBestCmap() or {}).items():
        lowest[name] = min(lowest.get(name, code), code)
    own = {name: _written_out(chr(code)) for name, code in lowest.items()}
    ways = list(_ways(font["GSUB"].table)) if "GSUB" in font else []
    uses = defaultdict(list)
    for way in ways:
        for name in set(way[0]):
            uses[name].append(way)
    found: dict[str, str] = {}
    waiting = [(len(words), words, name) for name, words in own.items()]
    heapq.heapify(waiting)
    while waiting:
        _, words, name = heapq.heappop(waiting)
        if name in found:
            continue
        found[name] = words
        for taken, made in uses[name]:
            if made not in own and made not in found and all(part in found for part in taken):
                told = "".join(found[part] for part in taken)
                heapq.heappush(waiting, (len(told), told, made))
    numbers = font.getReverseGlyphMap()
    return {numbers[name]: words for name, words in found.items()}


def _written_out(character: str) -> str:
    """A form of a letter as the letters that it stands for: ﬁ as f and i (Unicode, NFKC)."""
    return character if character < "\ufb00" else normalize("NFKC", character)


def _ways(table: Any) -> Iterator[tuple[tuple[str, ...], str]]:  # noqa: ANN401 - no types
    """(glyphs, the first glyph that GSUB may put in their place), over all lookups."""
    lookups = table.LookupList.Lookup if table.LookupList is not None else []
    for part in (one for lookup in lookups for one in lookup.SubTable):
        known = getattr(part, "ExtSubTable", part)
        for first, each in getattr(known, "ligatures", {}).items():
            yield from (((first, *one.Component), one.LigGlyph) for one in each)
        for taken, each in getattr(known, "alternates", {}).items():
            yield from (((taken,), made) for made in each)
        for taken, made in getattr(known, "mapping", {}).items():
            yield from (((taken,), one) for one in ([made] if isinstance(made, str) else made[:1]))
        if hasattr(known, "Substitute"):  # from the end of a line on
            pairs = zip(known.Coverage.glyphs, known.Substitute, strict=True)
            yield from (((taken,), made) for taken, made in pairs)


def map_of(glyphs: Iterable[int], told: dict[int, str]) -> bytes:
    """The map (ToUnicode) that a font with these glyphs must have, letter by letter."""
    rows = [
        b"<%04X> <%b>\n" % (glyph, told[glyph].encode("utf-16-be").hex().upper().encode())
        for glyph in sorted(glyphs)
        if glyph in told
    ]
    lines = [
        b"/CIDInit /ProcSet findresource begin",
        b"12 dict begin",
        b"begincmap",
        b"/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def",
        b"/CMapName /Adobe-Identity-UCS def",
        b"/CMapType 2 def",
        b"1 begincodespacerange",
        b"<0000> <FFFF>",
        b"endcodespacerange",
        b"",
    ]
    map_ = b"\n".join(lines)
    for start in range(0, len(rows), BLOCK):
        block = rows[start : start + BLOCK]
        map_ += b"%d beginbfchar\n%bendbfchar\n" % (len(block), b"".join(block))
    end = [b"endcmap", b"CMapName currentdict /CMap defineresource pop", b"end", b"end", b""]
    return map_ + b"\n".join(end)
