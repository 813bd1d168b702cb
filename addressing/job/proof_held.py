"""A proof held against its plates: does it show each piece as it is on them, and nothing else?

Another reader says what the proof draws, the setting what it should: letters, places, sizes,
outlines. What stands beside the envelopes (captions, notes, counts) isn't held.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from math import isclose
from pathlib import Path

from addressing.job.hinting import listed
from addressing.job.stuffing_held import is_read_back, plain
from addressing.preflight import Drawn, Envelope, Unread, read_proof, words_of
from addressing.proofs.envelope import RIM
from addressing.records.kept import KeptJob, KeptOrder
from addressing.records.pages import Page, Segment, Setting
from addressing.records.pieces import Role
from addressing.records.set_pieces import SetPieces
from addressing.typesetting import stream

_NEAR = 1e-4
"""So far a place may be off, in widths of the envelope: a proof writes four decimals."""
_LIKE = 1e-3
"""The part by which a size may be off: a proof writes six decimals, of which four are noughts."""
_UNIT = 0.01
"""Font units by which a point of an outline may be off."""
_STEP = re.compile(r"-?[0-9]*\.?[0-9]+|[^ \n]+")

Key = tuple[str, tuple[tuple[str, ...], ...]]
"""A kind, and the letters of each line: what a piece is known by on a proof."""


def proof_faults(sheets: Path | bytes, kept: KeptJob, *, alone: bool) -> Iterator[str]:
    """What a proof shows otherwise than the plates, in sentences.

    `alone` where it may show nothing but what is on the plates; else also who waits, or comes
    later.
    """
    try:
        shown = read_proof(sheets)
    except Unread:
        yield "It can't be read as a proof."
        return
    yield from shown.strange
    left: dict[Key, list[Envelope]] = {}
    for envelope in shown.envelopes:
        if envelope.lines and not envelope.waits:
            left.setdefault(_key_shown(envelope), []).append(envelope)
    missing: list[str] = []
    used: dict[str, tuple[Segment, ...]] = {}
    for setting in _settings(kept.orders):
        missing += _missing(setting, left, used)
    if missing:
        yield f"It doesn't show as they are on the plates: {listed(missing)}."
    extra = [each.sheet for its in left.values() for each in its]
    later = kept.origin is not None and kept.origin.later
    if extra and (alone or not later):
        where = listed(list(map(str, sorted(set(extra)))))
        yield f"It shows what is on no plate, on sheet {where}."
    if any(not _same_outline(shown.outlines.get(name), used[name]) for name in used):
        yield "It draws letters of another shape than the plates."
    yield from _unsaid(sheets, kept)


def _unsaid(sheets: Path | bytes, kept: KeptJob) -> Iterator[str]:
    """The lines of the plates that a reader of the sheets' words doesn't find there."""
    told = plain(words_of(sheets if isinstance(sheets, bytes) else sheets.read_bytes()))
    lines = dict.fromkeys(
        line.text
        for each in kept.orders
        for piece in each.setting.pieces
        for line in piece.lines
        if is_read_back(line.text)
    )
    if unsaid := [f"“{text}”" for text in lines if plain(text) not in told]:
        yield f"Behind its letters stand other words, as they are copied: not {listed(unsaid)}."


def _missing(
    setting: Setting, left: dict[Key, list[Envelope]], used: dict[str, tuple[Segment, ...]]
) -> Iterator[str]:
    """Take from what is `left` the pieces of a set; whose aren't there, and the letters used."""
    pages, outlines = stream(setting)
    for piece, page in zip(setting.pieces, pages, strict=True):
        lines = _lines(page, setting, outlines.glyphs, used)
        key = (setting.kind, tuple(tuple(name for name, *_ in each.letters) for each in lines))
        found = next((e for e in left.get(key, ()) if _same(e.lines, lines)), None)
        if found is not None:
            left[key].remove(found)
        elif lines:
            yield f"the {setting.kind} of {piece.name}" if piece.household else setting.kind


def _lines(
    page: Page,
    setting: Setting,
    glyphs: Mapping[int, tuple[Segment, ...]],
    used: dict[str, tuple[Segment, ...]],
) -> list[Drawn]:
    """A page's lines as a proof draws them; a varnish as its rim, before the line itself."""
    wide, varnish = setting.layout.width, setting.varnish
    inks = page.inks or (0,) * len(page.lines)
    turns = page.turns or ((1.0, 0.0),) * len(page.lines)
    over = [varnish is not None and varnish.covers(role) for role in (Role.NAME, Role.STREET)]
    drawn = []
    for (line, x, y, size), ink, (cos, sin) in zip(page.lines, inks, turns, strict=True):
        letters = []
        for glyph, across, up in line.placed():
            if outline := glyphs[glyph]:
                name = f"{setting.kind}-{glyph}"
                used[name] = outline
                letters.append((name, float(across), float(up)))
        em = size / line.em / wide
        asides = (RIM * size, 0.0) if over[ink] else (0.0,)
        drawn += [
            Drawn(tuple(letters), ((x + off) / wide, (y - off) / wide), (em * cos, em * sin))
            for off in asides
            if letters
        ]
    return drawn


def _settings(orders: Sequence[KeptOrder]) -> Iterator[Setting]:
    """All that was set of each kind, once, however many inks and batches its plates have."""
    kinds: dict[str, dict[int, Setting]] = {}
    for each in orders:
        kinds.setdefault(each.order.kind, {}).setdefault(each.order.first, each.setting)
    for parts in kinds.values():
        whole = [piece for first in sorted(parts) for piece in parts[first].pieces]
        yield replace(next(iter(parts.values())), pieces=SetPieces(whole))


def _key_shown(envelope: Envelope) -> Key:
    names = tuple(tuple(name for name, *_ in line.letters) for line in envelope.lines)
    return names[0][0].rpartition("-")[0], names


def _same(shown: Sequence[Drawn], lines: Sequence[Drawn]) -> bool:
    """Whether letters, places and sizes are those of the plate; the key has the letters' names."""
    return all(
        one.letters == other.letters
        and all(abs(a - b) < _NEAR for a, b in zip(one.place, other.place, strict=True))
        and all(abs(a - b) < _LIKE * size for a, b in zip(one.em, other.em, strict=True))
        for one, other in zip(shown, lines, strict=True)
        for size in (max(map(abs, other.em)),)
    )


def _same_outline(drawn: str | None, outline: Sequence[Segment]) -> bool:
    """Whether a form's content is an outline, step by step, within what the proof writes."""
    steps = _STEP.findall(drawn or "")
    wanted: list[str | float] = [1, 0, 0, 1, 0, 0, "cm", "n"]
    for operator, numbers in outline:
        wanted += numbers
        wanted.append(operator)
    wanted.append("f")
    return len(steps) == len(wanted) and all(
        said == each
        if isinstance(each, str)
        else said[-1].isdigit() and isclose(float(said), each, rel_tol=0.0, abs_tol=_UNIT)
        for said, each in zip(steps, wanted, strict=True)
    )
