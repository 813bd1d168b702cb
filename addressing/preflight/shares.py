"""Pages judged in one process or two; a share is what one of them found out."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TypeVar

from addressing.hands import Hand
from addressing.preflight.bench import Bench, Bodies
from addressing.preflight.glance import Glance
from addressing.preflight.pages import judge_page
from addressing.preflight.pixels import pixel_faults, sample
from addressing.preflight.reopening import reopening_faults

SPLIT_ABOVE = 20
"""Plates of more pages are judged by two processes: a second one costs as much as the pixels of
two or three pages (measured)."""
FIRST = 0.45
"""The part of a large plate that falls to the first process, which opens it by pikepdf as well and
measures the strokes of its letters."""
NOTED = 2000
"""Faulty pages that are kept in a share; the rest is counted."""

Answer = TypeVar("Answer")


@dataclass(frozen=True, slots=True)
class FaultyPage:
    """A page (index from 0), its faults, and what it draws if that isn't what it should carry."""

    index: int
    wrong: tuple[str, ...]
    bodies: Bodies | None = None


@dataclass(frozen=True, slots=True)
class Share:
    """What was read of a range of pages."""

    contents: tuple[int, ...]
    lines: int
    letters: int
    seen: int
    used: frozenset[int]
    faulty: tuple[FaultyPage, ...]
    unlisted: int = 0
    """Faulty pages beyond those listed."""
    file: tuple[str, ...] = ()
    """Faults of the file as a whole."""


def judge_share(layers: Sequence[Bench], indices: Sequence[int]) -> Share:
    """Judge some pages; their pixels only if all of them are right by structure.

    `layers` are the benches of the plate's inks, in order.
    """
    bench = layers[0]
    contents: list[int] = []
    faulty: list[FaultyPage] = []
    lines = letters = unlisted = known = 0
    spaced = frozenset(sample(len(bench.skeleton.pages)))
    look = set(spaced)
    glance = Glance(bench) if len(layers) == 1 else None
    for index in indices:
        reading = glance.page(index) if glance is not None else None
        if reading is None:
            reading = judge_page(layers, index)
            if glance is not None and not reading.wrong:
                glance.learn(index)
        contents.append(reading.contents)
        lines += reading.lines
        letters += reading.letters
        if known != (known := sum(layer.known for layer in layers)):
            look.add(index)  # a letter stands here that stood on no page before
        if reading.wrong and len(faulty) < NOTED:
            faulty.append(FaultyPage(index, reading.wrong, reading.bodies))
        elif reading.wrong:
            unlisted += 1
    looked = [n for n in indices if n in look] if bench.sound and not faulty else []
    # Those of new letters hang on how the pages are shared out, so they aren't told.
    seen = len(spaced.intersection(looked))
    faulty.extend(FaultyPage(index, (fault,)) for index, fault in pixel_faults(layers, looked))
    used = frozenset().union(*(layer.used for layer in layers))
    return Share(tuple(contents), lines, letters, seen, used, tuple(faulty), unlisted)


def judge_shares(
    layers: Sequence[Bench], path: Path, beside: Callable[[], Answer]
) -> tuple[list[Share], Answer]:
    """Open the plate by pikepdf and judge all pages, part of a large plate in a second process.

    `beside` is done here while that is at work; its answer is handed back.

    Raises:
        Fault: the second process ended without an answer (exit 70).
    """
    pages = len(layers[0].skeleton.pages)
    if pages <= SPLIT_ABOVE:
        return [_first(layers, path, range(pages))], beside()
    part = int(pages * FIRST)
    with Hand(lambda: judge_share(layers, range(part, pages))) as other:
        first, done = _first(layers, path, range(part)), beside()
        return [first, other.answer()], done


def _first(layers: Sequence[Bench], path: Path, indices: range) -> Share:
    """The first share, and what pikepdf sees."""
    bench = layers[0]
    file = tuple(reopening_faults(path, bench.file, bench.skeleton)) if bench.sound else ()
    return replace(judge_share(layers, indices), file=file)
