"""The child that tries a font (font_trial.py): `python -m addressing.materials.font_child`.

It reads one JSON object from standard input and writes one to standard output: {} when all went
well, else the fault's code, text and mend; or, asked about letters, those that it lacks. When it is
stopped it writes nothing.
"""

import contextlib
import json
import os
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import uharfbuzz as hb
from fontTools.pens.basePen import BasePen
from fontTools.ttLib import TTFont

from addressing.faults import Fault
from addressing.materials.coverage import not_among
from addressing.materials.own_face import damaged, face_facts

MOST_STEPS = 50_000
"""Lines and curves of one letter: the most ornate swash capital has some hundreds."""
MOST_GLYPHS, FOR_EACH = 200, 8
"""A line may become so many letters, and so many more for each of its characters."""


class _Counter(BasePen):  # type: ignore[misc]  # fontTools has no types
    """Counts what is drawn, and gives up when it is too much."""

    steps = 0

    def _count(self) -> None:
        self.steps += 1
        if self.steps > MOST_STEPS:
            raise OverflowError

    def _moveTo(self, _point: object) -> None:  # noqa: N802 - fontTools' name
        self._count()

    def _lineTo(self, _point: object) -> None:  # noqa: N802
        self._count()

    def _curveToOne(self, *_points: object) -> None:  # noqa: N802
        self._count()


def main() -> None:
    """Try one font."""
    asked = json.load(sys.stdin)
    _limit(asked["seconds"], asked["megabytes"])
    path = Path(asked["path"])
    told: dict[str, object] = {}
    try:
        if "letters" in asked:
            told = {"lacks": _lacking(path, asked)}
        else:
            _try(path, asked)
    except Fault as fault:
        told = {"code": fault.code, "text": fault.text, "mend": fault.mend}
    os.write(sys.stdout.fileno(), json.dumps(told).encode())


def _lacking(path: Path, asked: dict[str, Any]) -> list[str]:
    """The letters that a font doesn't map, whatever else is wrong with it."""
    with TTFont(path, fontNumber=asked["index"], lazy=True) as font:
        return list(not_among(font.getBestCmap() or {}, asked["letters"]))


def _limit(seconds: int, megabytes: int) -> None:
    """Let the system end this process when it takes too much; where it can't, its parent does."""
    with contextlib.suppress(ImportError, ValueError, OSError):
        import resource  # noqa: PLC0415 - not on every system

        resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds))
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
        resource.setrlimit(resource.RLIMIT_AS, (megabytes << 20,) * 2)


def _try(path: Path, asked: dict[str, Any]) -> None:
    """All that will be done with the font, in the order in which it will be done."""
    index = asked["index"]
    face_facts(path, index)
    data = path.read_bytes()
    try:
        shaped = _shaped(data, asked)
    except OverflowError as error:
        why = "its features make far more letters of a line than the line has"
        raise damaged(path, why) from error
    try:
        _draw(data, asked, shaped)
    except OverflowError as error:
        raise damaged(path, "a letter of it is made of far too many curves") from error
    except Exception as error:  # a damaged font breaks fontTools in many ways
        raise damaged(path, "its letters can't be drawn") from error


def _shaped(data: bytes, asked: dict[str, Any]) -> Sequence[int]:
    """The numbers of all letters that some lines become."""
    font = hb.Font(hb.Face(hb.Blob(data), asked["index"]))
    if asked.get("axes"):
        font.set_variations(asked["axes"])
    found: set[int] = set()
    for text in asked["texts"]:
        buffer = hb.Buffer()
        buffer.add_str(text)
        buffer.guess_segment_properties()
        hb.shape(font, buffer, asked.get("features") or {})
        glyphs = [info.codepoint for info in buffer.glyph_infos]
        if len(glyphs) > MOST_GLYPHS + FOR_EACH * len(text):
            raise OverflowError
        found.update(glyphs)
    for glyph in found:
        font.get_glyph_extents(glyph)
    return sorted(found)


def _draw(data: bytes, asked: dict[str, Any], shaped: Sequence[int]) -> None:
    """Each letter drawn by both libraries."""
    from io import BytesIO  # noqa: PLC0415 - as little as can be before the limits stand

    font = TTFont(BytesIO(data), fontNumber=asked["index"], lazy=True)
    glyphs = font.getGlyphSet(location=asked.get("axes") or None)
    order = font.getGlyphOrder()
    for glyph in shaped:
        glyphs[order[glyph]].draw(_Counter(glyphs))


if __name__ == "__main__":
    main()
