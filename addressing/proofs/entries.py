"""The households of a proof, each with its number, its pages and what was found."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from addressing.proofs.flow import Block, Pen, text_block
from addressing.proofs.lettering import Cut, Style, shortened, width, wrap
from addressing.proofs.look import ASIDE, CAPTION, GREY, NAME, SECTION
from addressing.proofs.notices import WORD, Notice, by_household, fitted, notices
from addressing.records.pages import Page
from addressing.records.pieces import household_of
from addressing.records.proofs import ProofHousehold, ProofJob, ProofSet

NUMBER = WORD
"""A household's number stands in the column of the severity words below it."""
KIND = Style(Cut.ITALIC, CAPTION.size, CAPTION.leading, GREY)

Shown = tuple[ProofSet, Page]


@dataclass(frozen=True, slots=True)
class Entry:
    """One household on the proof."""

    household: ProofHousehold
    shown: tuple[Shown, ...]
    notices: tuple[Notice, ...]


def entries(job: ProofJob, sets: tuple[ProofSet, ...], *, held: bool, room: float) -> list[Entry]:
    """The held households, or all others, in the order of the list; notices as wide as `room`."""
    pages = _pages_by_household(sets)
    found = by_household(job)
    whys = _whys(job, sets)
    return [
        Entry(
            household,
            tuple(pages.get(household.key, ())),
            (
                *notices(found.get(household.key, ()), room),
                *(fitted(kind, why, room) for kind, why in whys.get(household.key, ())),
            ),
        )
        for household in job.households
        if household.held == held
    ]


def _whys(job: ProofJob, sets: tuple[ProofSet, ...]) -> dict[str, list[tuple[str, str]]]:
    """Of each household the pieces that were fitted otherwise, and why; what a finding says not."""
    said = {finding.text for finding in job.findings}
    whys: dict[str, list[tuple[str, str]]] = {}
    for shown in sets:
        for piece in shown.setting.pieces:
            if piece.household is not None and piece.why and piece.why not in said:
                key = household_of(piece.household)
                whys.setdefault(key, []).append((shown.setting.kind, piece.why))
    return whys


def _pages_by_household(sets: tuple[ProofSet, ...]) -> dict[str, list[Shown]]:
    pages: dict[str, list[Shown]] = {}
    for shown, page in _all_pages(sets):
        if page.household is not None:
            pages.setdefault(household_of(page.household), []).append((shown, page))
    return pages


def _all_pages(sets: tuple[ProofSet, ...]) -> Iterator[Shown]:
    return ((shown, page) for shown in sets for page in shown.pages)


def section(title: str, remark: str, measure: float) -> list[Block]:
    """A heading with a remark under it; both stay with what follows.

    It begins a new sheet unless half of this one is free.
    """

    def draw(pen: Pen, left: float, top: float) -> None:
        pen.words(left, top - SECTION.size, title, SECTION)
        pen.bookmark(title)

    lines = wrap(remark, ASIDE, measure * 0.8)
    return [
        Block(SECTION.leading + 2, draw, keep=True, part=True),
        text_block(lines, ASIDE, keep=True),
        Block(16, lambda _pen, _left, _top: None, keep=True),
    ]


def draw_name(
    pen: Pen, entry: Entry, place: tuple[float, float], rooms: Sequence[float], kind: str
) -> None:
    """The household's number, small and grey, its name, and the kind of piece at the far end.

    Of several `rooms` (pt) the first is taken that the name fits, else the last.
    """
    x, y = place
    pen.words(x, y, str(entry.household.number), CAPTION)
    taken = width(kind, KIND) + 8 if kind else 0
    needed = NUMBER + taken + width(entry.household.name, NAME)
    room = next((each for each in rooms if each >= needed), rooms[-1])
    name = shortened(entry.household.name, NAME, room - NUMBER - taken)
    pen.words(x + NUMBER, y, name, NAME)
    if kind:
        pen.words(x + room, y, kind, KIND, align="right")
