"""The part of the proof with every household that will be printed."""

from dataclasses import dataclass

from addressing.proofs.entries import KIND, Entry, Shown, draw_name, entries, section
from addressing.proofs.envelope import Spot, draw_envelope, paint_of, scale_for
from addressing.proofs.flow import Block, Pen, Sheet, gap
from addressing.proofs.look import NAME
from addressing.proofs.notices import Notice, notice_blocks, split_by_height
from addressing.proofs.words import kind_name
from addressing.records.proofs import ProofJob, ProofSet

GUTTER = 18.0
TALLEST = 146.0
"""Most height that an envelope gets, points: three rows a sheet."""
CAPTION_ROOM = 17.0
NOTHING = "no envelope"
BETWEEN = 18.0


@dataclass(frozen=True, slots=True)
class Grid:
    """Two columns, `across` wide; `scale` is the same for every envelope, so sizes compare."""

    across: float
    scale: float
    depth: float


def ready_blocks(job: ProofJob, sets: tuple[ProofSet, ...], sheet: Sheet) -> list[Block]:
    """Each household with its pieces side by side; with one piece each, two households a row."""
    personal = tuple(shown for shown in sets if not shown.static)
    across = (sheet.measure - GUTTER) / 2
    grid = Grid(across, scale_for(personal, across, TALLEST), sheet.depth)
    single = len(personal) < 2  # noqa: PLR2004 - two columns
    room = across if single else sheet.measure
    ready = entries(job, sets, held=False, room=room)
    if not ready:
        return []
    blocks = section(
        "To be printed",
        "Read every line: names, titles, street, town and code. Write changes beside them.",
        sheet.measure,
    )
    step = 2 if single else 1
    for start in range(0, len(ready), step):
        blocks += _row(ready[start : start + step], grid)
    return blocks


def _row(row: list[Entry], grid: Grid) -> list[Block]:
    """One household, or two with a piece each, as a block; notices that don't fit follow it."""
    blocks: list[Block] = []
    late: list[Block] = []
    for number, entry in enumerate(row):
        indent = number * (grid.across + GUTTER)
        pairs = [entry.shown[start : start + 2] for start in range(0, len(entry.shown), 2)]
        pictures = sum(_pair_height(pair, grid) for pair in pairs)
        first, rest = split_by_height(entry.notices, grid.depth - pictures - NAME.leading - 80)
        blocks.append(_entry_block(entry, pairs, first, grid))
        late += notice_blocks(rest, indent=indent)
    return [_side_by_side(blocks, grid.across + GUTTER), *late, gap(BETWEEN)]


def _side_by_side(blocks: list[Block], step: float) -> Block:
    def draw(pen: Pen, left: float, top: float) -> None:
        for number, block in enumerate(blocks):
            block.draw(pen, left + number * step, top)

    return Block(max(block.height for block in blocks), draw)


def _pair_height(pair: tuple[Shown, ...], grid: Grid) -> float:
    tallest = max(shown.setting.layout.height for shown, _ in pair)
    return tallest * grid.scale + CAPTION_ROOM


def _entry_block(
    entry: Entry, pairs: list[tuple[Shown, ...]], first: tuple[Notice, ...], grid: Grid
) -> Block:
    """A household's pieces in rows of two, a caption under each, its notices below."""
    heights = [_pair_height(pair, grid) for pair in pairs]

    def draw(pen: Pen, left: float, top: float) -> None:
        below = top
        for number, (pair, height) in enumerate(zip(pairs, heights, strict=True)):
            below -= height
            _draw_pair(pen, entry if number == 0 else None, pair, (left, below), grid)
        if not pairs:
            draw_name(pen, entry, (left, top - NAME.size), grid.across, NOTHING)
            below -= CAPTION_ROOM
        below -= 3
        for one in first:
            one.draw(pen, left, below)
            below -= one.height

    pictures = sum(heights) or CAPTION_ROOM
    return Block(pictures + 3 + sum(one.height for one in first), draw)


def _draw_pair(
    pen: Pen,
    entry: Entry | None,
    pair: tuple[Shown, ...],
    corner: tuple[float, float],
    grid: Grid,
) -> None:
    """One or two envelopes that stand on a common line, captions under them."""
    left, bottom = corner
    line = bottom + CAPTION_ROOM
    for shown, page in pair:
        layout = shown.setting.layout
        draw_envelope(pen, Spot(left, line, grid.scale), shown, page, paint_of(shown))
        across = layout.width * grid.scale
        kind = kind_name(shown.setting.kind)
        baseline = line - NAME.leading
        if entry is not None:
            draw_name(pen, entry, (left, baseline), across, kind)
            entry = None
        else:
            pen.words(left + across, baseline, kind, KIND, align="right")
        left += grid.across + GUTTER
