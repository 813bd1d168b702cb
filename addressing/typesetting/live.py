"""The faces of a set as a plate embeds them: whether they may be, their widths, their words."""

import io
import re
from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import Any
from unicodedata import normalize

from fontTools.ttLib import TTFont

from addressing.faults import Exit, Fault
from addressing.records.live import LiveFace
from addressing.records.pages import Setting, faces_of
from addressing.records.shelf import Face
from addressing.typesetting.fontfile import read_font
from addressing.typesetting.opened import FACES_OPEN
from addressing.typesetting.typeface import open_typeface
from addressing.where import Where

RESTRICTED, WHOLE_ONLY, BITMAPS_ONLY = 0x0002, 0x0100, 0x0200
"""OpenType 1.9, OS/2, fsType: no embedding, no subsetting, no outlines."""
LOOSER = 0x000C
"""The same: editable, preview and print; beside `restricted` these count (versions 0 to 2)."""
FORMS = 0xFB00
"""From here on Unicode has forms of letters that stand elsewhere."""
_NAME = re.compile(r"[^A-Za-z0-9-]")
LONGEST = 63
"""Letters of a PostScript name (OpenType 1.9, name, 6)."""

_Rule = tuple[tuple[str, ...], str]
"""Glyphs that GSUB takes, and the first one that it puts in their place."""


def live_faces(setting: Setting) -> tuple[LiveFace, ...]:
    """The faces of a set in the order of their numbers, ready to be embedded.

    Raises:
        Fault: a face may not be embedded as a subset (exit 3); its file can't be used (exit 3).
    """
    return tuple(map(_live, faces_of(setting.hands)))


@lru_cache(FACES_OPEN)
def _live(face: Face) -> LiveFace:
    font = TTFont(io.BytesIO(read_font(face)), fontNumber=face.index, lazy=True)
    _permitted(face, font["OS/2"].fsType if "OS/2" in font else 0)
    typeface = open_typeface(face)
    return LiveFace(
        name=_name(font) or _NAME.sub("", face.family) or "Type",
        units=typeface.units_per_em,
        cubic="glyf" not in font,
        advances=_Advances(typeface.font, len(typeface.outlines)),
        texts=_texts(font),
    )


def _permitted(face: Face, permission: int) -> None:
    """Say nothing where the font's own flag allows a subset of it in a file."""
    closed = permission & RESTRICTED and not permission & LOOSER
    if not (closed or permission & (WHOLE_ONLY | BITMAPS_ONLY)):
        return
    whole = not closed and not permission & BITMAPS_ONLY
    said = "only whole, never in part" if whole else "not at all"
    raise Fault(
        Exit.INPUT,
        "type-not-embeddable",
        f"{face.family} says of itself that it may be embedded {said}; live type embeds a part.",
        'Ask for outlines ([files] type = "outlines" in the docket), which embed nothing, '
        "or choose another face.",
        Where(str(face.path)),
    )


def _name(font: Any) -> str:  # noqa: ANN401 - fontTools has no types
    told = font["name"].getDebugName(6) if "name" in font else None
    return _NAME.sub("", told or "")[:LONGEST]


class _Advances(Mapping[int, int]):
    """The width of each glyph, at the face's place on its axes."""

    def __init__(self, font: Any, count: int) -> None:  # noqa: ANN401 - the library has no types
        self._font = font
        self._count = count

    def __getitem__(self, glyph: int) -> int:
        return int(self._font.get_glyph_h_advance(glyph))

    def __iter__(self) -> Iterator[int]:
        return iter(range(self._count))

    def __len__(self) -> int:
        return self._count


def _texts(font: Any) -> dict[int, str]:  # noqa: ANN401 - fontTools has no types
    """What each glyph stands for: its character, the lowest; or what GSUB makes it from.

    Of several ways the shortest words count, of those the lowest. Forms of letters that have a
    number of their own in Unicode, such as ﬁ, are written out.
    """
    mapped: dict[str, str] = {}
    for code, name in sorted((font.getBestCmap() or {}).items(), reverse=True):
        mapped[name] = normalize("NFKC", chr(code)) if code >= FORMS else chr(code)
    told = dict(mapped)
    rules = tuple(_rules(font["GSUB"].table)) if "GSUB" in font else ()
    changed = True
    while changed:
        changed = False
        for taken, made in rules:
            if made in mapped or not all(name in told for name in taken):
                continue
            words = "".join(told[name] for name in taken)
            if made not in told or (len(words), words) < (len(told[made]), told[made]):
                told[made] = words
                changed = True
    return {font.getGlyphID(name): words for name, words in told.items()}


def _rules(table: Any) -> Iterator[_Rule]:  # noqa: ANN401 - fontTools has no types
    """All that GSUB may put in the place of something else, in whatever context."""
    for lookup in table.LookupList.Lookup if table.LookupList is not None else ():
        for each in lookup.SubTable:
            part = each.ExtSubTable if each.LookupType == 7 else each  # noqa: PLR2004 - extension
            yield from _RULES.get(part.LookupType, _none)(part)


def _none(_: Any) -> Iterator[_Rule]:  # noqa: ANN401
    yield from ()


def _single(part: Any) -> Iterator[_Rule]:  # noqa: ANN401
    yield from (((taken,), made) for taken, made in part.mapping.items())


def _several(part: Any) -> Iterator[_Rule]:  # noqa: ANN401
    yield from (((taken,), made[0]) for taken, made in part.mapping.items() if made)


def _chosen(part: Any) -> Iterator[_Rule]:  # noqa: ANN401
    yield from (((taken,), made) for taken, all_of in part.alternates.items() for made in all_of)


def _joined(part: Any) -> Iterator[_Rule]:  # noqa: ANN401
    for first, ligatures in part.ligatures.items():
        yield from (((first, *each.Component), each.LigGlyph) for each in ligatures)


def _backwards(part: Any) -> Iterator[_Rule]:  # noqa: ANN401
    yield from (
        ((taken,), made) for taken, made in zip(part.Coverage.glyphs, part.Substitute, strict=True)
    )


_RULES = {1: _single, 2: _several, 3: _chosen, 4: _joined, 8: _backwards}
"""Kinds of lookups (OpenType 1.9, GSUB); those of context only say where others are used."""
