"""Pages judged in one process or two; a share is what was read of some of them."""

from array import array
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TypeVar

from addressing.hands import Hand
from addressing.preflight.bench import Bench, Bodies
from addressing.preflight.excerpt import AT_ONCE
from addressing.preflight.glance import Glance
from addressing.preflight.pages import judge_page

PAGES_WORTH, PIXELS_WORTH = 20, 5
"""So many pages to read, or to see as pixels, are worth a second process, which costs as much as
the pixels of two or three pages (measured)."""
WHOLE, BATCH = AT_ONCE, AT_ONCE // 2
"""A plate of so many pages is judged whole, a larger one in batches (of whole branches), each with
a new second process. Of the records that two processes share, the system copies whatever one of
them touches: so a batch's only."""
FIRST, BESIDE = 0.44, 1200
"""The part of a batch that falls to the first process, which opens it by pikepdf as well; and how
many pages fewer of the last batch, since it judges the letters, measures their strokes and loads
the other readers (measured)."""
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
    """What was read of some pages."""

    contents: Sequence[int]
    lines: int
    letters: int
    first: dict[int, int]
    """Every letter that was asked for, and the page (index) on which it stands first; -1 where that
    was found before any page was read."""
    faulty: tuple[FaultyPage, ...]
    unlisted: int = 0
    """Faulty pages beyond those listed."""
    file: tuple[str, ...] = ()
    """Faults of the file as a whole."""
    seen: int = 0
    """How many pages were seen as pixels."""


def judge_share(layers: Sequence[Bench], indices: Sequence[int]) -> Share:
    """Judge some pages by all but their pixels.

    `layers` are the benches of the plate's inks, in order.
    """
    contents = array("Q")
    faulty: list[FaultyPage] = []
    lines = letters = unlisted = known = 0
    glance = Glance(layers[0]) if len(layers) == 1 else None
    first = dict.fromkeys(_used(layers), -1)
    for index in indices:
        reading = glance.page(index) if glance is not None else None
        if reading is None:
            reading = judge_page(layers, index)
            if glance is not None and not reading.wrong:
                glance.learn(index)
        contents.append(reading.contents)
        lines += reading.lines
        letters += reading.letters
        if known != (known := sum([layer.known for layer in layers])):
            first = dict.fromkeys(_used(layers), index) | first
        if reading.wrong and len(faulty) < NOTED:
            faulty.append(FaultyPage(index, reading.wrong, reading.bodies))
        elif reading.wrong:
            unlisted += 1
    return Share(contents, lines, letters, first, tuple(faulty), unlisted)


def _used(layers: Sequence[Bench]) -> frozenset[int]:
    """Every letter that was asked for so far."""
    return frozenset().union(*(layer.used for layer in layers))


def judge_shares(
    layers: Sequence[Bench],
    path: Path,
    judge_letters: Callable[[], list[str]],
    beside: Callable[[list[str]], Answer],
) -> tuple[Share, list[str], Answer]:
    """Open the plate by pikepdf and judge all pages, part of a large plate in a second process.

    Pixels are looked at only if all pages are right by structure. `judge_letters` and `beside` are
    done here while the second process is at work: the one first, for other readers don't open a
    plate whose letters are wrong, the other last, given the letters' faults. Both their answers
    are handed back.

    Raises:
        Fault: the second process ended without an answer (exit 70).
    """
    pages = len(layers[0].skeleton.pages)
    letters: list[str] | None = None
    sound = layers[0].sound
    done: list[Answer] = []
    shares: list[Share] = []
    size = pages if pages <= WHOLE else BATCH
    for start in range(0, pages, size):
        batch = range(start, min(start + size, pages))
        last = batch.stop == pages
        part = max(0, int(len(batch) * FIRST) - (BESIDE if last else 0))
        with _hand(judge_share, layers, batch[part:], PAGES_WORTH) as other:
            if letters is None:
                letters = judge_letters()
                sound = sound and not letters
            own = judge_share(layers, batch[:part])
            shares.append(replace(own, file=_reopened(layers, path, batch) if sound else ()))
            if last:  # it may ask for lines, and no page may have its letters met before it
                done.append(beside(letters))
            shares.append(other.answer())
    read = _together(shares)
    seen = _seen(layers, read) if sound and not read.faulty else read
    return seen, letters or [], done[0]


def _reopened(layers: Sequence[Bench], path: Path, batch: range) -> tuple[str, ...]:
    """What pikepdf sees wrong with these pages and the file.

    It is loaded, and pdfium with it, when both processes are at work already.
    """
    from addressing.preflight import pixels, reopening  # noqa: F401, PLC0415

    file, skeleton = layers[0].file, layers[0].skeleton
    return tuple(reopening.reopening_faults(path, file, skeleton, batch))


def _hand(
    judge: Callable[[Sequence[Bench], Sequence[int]], Answer],
    layers: Sequence[Bench],
    indices: Sequence[int],
    worth: int,
) -> Hand[Answer]:
    """Have some pages judged beside; where they are fewer, when their answer is asked for."""
    return Hand(lambda: judge(layers, indices), worth=len(indices) >= worth)


def _together(shares: Sequence[Share]) -> Share:
    """Shares that follow one another, as one."""
    contents, first = array("Q"), dict[int, int]()
    for share in shares:
        contents.extend(share.contents)
        first = share.first | first  # a later page counts for a letter that was on none before
    return Share(
        contents,
        sum(share.lines for share in shares),
        sum(share.letters for share in shares),
        first,
        tuple(page for share in shares for page in share.faulty),
        sum(share.unlisted for share in shares),
        tuple(dict.fromkeys(fault for share in shares for fault in share.file)),
    )


def _seen(layers: Sequence[Bench], read: Share) -> Share:
    """The same with what pdfium sees wrong with some pages."""
    from addressing.preflight.pixels import sample  # noqa: PLC0415 - as in _reopened

    looked = sorted({*sample(len(read.contents)), *read.first.values()} - {-1})
    half = len(looked) // 2
    with _hand(_faulty, layers, looked[half:], PIXELS_WORTH) as other:
        faulty = (*_faulty(layers, looked[:half]), *other.answer())
    return replace(read, faulty=faulty, seen=len(looked))


def _faulty(layers: Sequence[Bench], indices: Sequence[int]) -> list[FaultyPage]:
    from addressing.preflight.pixels import pixel_faults  # noqa: PLC0415 - as in _reopened

    return [FaultyPage(index, (fault,)) for index, fault in pixel_faults(layers, indices)]
