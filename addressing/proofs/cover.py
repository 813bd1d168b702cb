"""The first sheet of the proof: whose job, how many, static pieces, remarks on the list."""

from collections import Counter

from addressing.proofs.entries import KIND
from addressing.proofs.envelope import Spot, draw_envelope, draw_flap, paint_of, scale_for
from addressing.proofs.flow import Block, Pen, Sheet, gap, text_block
from addressing.proofs.lettering import wrap
from addressing.proofs.look import BODY, CAPTION, FIGURE, KICKER, NAME, SECTION, SUBTITLE, TITLE
from addressing.proofs.notices import by_household, notice_blocks, notices
from addressing.proofs.words import kind_name, long_date, many, mark, size_words
from addressing.records.counts import PieceCount
from addressing.records.pieces import CARDS, household_of
from addressing.records.proofs import ProofJob, ProofSet

GUTTER = 18.0
TALLEST = 176.0
CAPTION_ROOM = 30.0


def cover_blocks(job: ProofJob, sets: tuple[ProofSet, ...], sheet: Sheet) -> list[Block]:
    """What the job is, in numbers and two pictures, and what concerns the list as a whole."""
    blocks = [*title_blocks(job, "Proof for approval", sheet), _figures(job, sets, sheet), gap(26)]
    blocks += static_blocks(job, sets, sheet)
    whole = notices(by_household(job)[None], sheet.measure)
    if whole:
        blocks += [_heading("About the list"), *notice_blocks(whole)]
    return blocks


def static_blocks(job: ProofJob, sets: tuple[ProofSet, ...], sheet: Sheet) -> list[Block]:
    """The pieces that are the same for all, under a heading; none without any."""
    statics = tuple(shown for shown in sets if shown.static)
    if not statics:
        return []
    return [_heading("The same for everyone"), _statics(job, statics, sheet), gap(20)]


def title_blocks(job: ProofJob, what: str, sheet: Sheet) -> list[Block]:
    """The sheet's title: what it is, for whom, from which list, on which date."""
    lines = wrap(job.title or job.list_name, TITLE, sheet.measure)
    day = long_date(job.date, job.country) if job.date else None
    parts = [part for part in (day, job.list_name, f"no. {mark(job)}") if part]
    under = wrap("   ·   ".join(parts), SUBTITLE, sheet.measure)
    return [
        text_block((what.upper(),), KICKER),
        gap(4),
        text_block(lines, TITLE),
        text_block(under, SUBTITLE),
        gap(12),
        Block(22, lambda pen, left, top: pen.rule(left, top, sheet.measure)),
    ]


def _heading(words: str) -> Block:
    def draw(pen: Pen, left: float, top: float) -> None:
        pen.words(left, top - SECTION.size, words, SECTION)

    return Block(SECTION.leading + 8, draw, keep=True)


def _figures(job: ProofJob, sets: tuple[ProofSet, ...], sheet: Sheet) -> Block:
    """The numbers: households to print, envelopes and cards to read, households that wait."""
    held = {household.key for household in job.households if household.held}
    read = Counter(
        "cards" if shown.setting.kind in CARDS else "envelopes"
        for shown in sets
        for page in shown.pages
        if page.household is not None and household_of(page.household) not in held
    )
    if not any(shown.setting.kind in CARDS for shown in sets):
        read.setdefault("envelopes", 0)
    figures = (
        (len(job.households) - len(held), "households to be printed"),
        *((read[what], f"{what} to read") for what in ("envelopes", "cards") if what in read),
        (len(held), "households waiting for an answer"),
    )

    def draw(pen: Pen, left: float, top: float) -> None:
        for place, (number, words) in enumerate(figures):
            x = left + place * sheet.measure / len(figures)
            pen.words(x, top - FIGURE.size, f"{number:,}", FIGURE)
            pen.words(x, top - FIGURE.leading - BODY.size, words, CAPTION)

    return Block(FIGURE.leading + BODY.leading, draw)


def _statics(job: ProofJob, statics: tuple[ProofSet, ...], sheet: Sheet) -> Block:
    """Each static piece once, two a row, with its quantity; a return address with its flap."""
    across = (sheet.measure - GUTTER) / 2
    scale = scale_for(statics, across, TALLEST)
    rows = [statics[start : start + 2] for start in range(0, len(statics), 2)]
    heights = [
        max(shown.setting.layout.height for shown in row) * scale + CAPTION_ROOM for row in rows
    ]

    def draw(pen: Pen, left: float, top: float) -> None:
        for row, height in zip(rows, heights, strict=True):
            top -= height
            for place, shown in enumerate(row):
                spot = Spot(left + place * (across + GUTTER), top + CAPTION_ROOM, scale)
                _draw_static(pen, job, shown, spot)

    return Block(sum(heights), draw)


def _draw_static(pen: Pen, job: ProofJob, shown: ProofSet, spot: Spot) -> None:
    paint = paint_of(shown)
    draw_envelope(pen, spot, shown, shown.pages[0], paint)
    if shown.setting.zone.kind == "return" and shown.setting.zone.side == "flap":
        draw_flap(pen, spot, shown.setting.layout, paint)
    layout = shown.setting.layout
    across = layout.width * spot.scale
    pen.words(spot.x, spot.y - NAME.leading, kind_name(shown.setting.kind), NAME)
    count = next((one for one in job.counts if one.kind == shown.setting.kind), None)
    quantity = _quantity(count)
    pen.words(spot.x + across, spot.y - NAME.leading, quantity, KIND, align="right")
    pen.words(
        spot.x,
        spot.y - 2 * NAME.leading,
        size_words(layout.width, layout.height, job.country),
        CAPTION,
    )


def _quantity(count: PieceCount | None) -> str:
    """How many of a static piece are needed, and how many are extras."""
    if count is None:
        return ""
    return f"{many(count.needed, 'piece')} and {count.overs:,} extra"
