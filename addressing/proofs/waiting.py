"""The part of the proof with the households that wait for an answer."""

from itertools import groupby

from addressing.proofs.entries import KIND, NUMBER, Entry, draw_name, entries, section
from addressing.proofs.envelope import GHOST, Spot, draw_envelope, scale_for
from addressing.proofs.flow import Block, Pen, Sheet, gap
from addressing.proofs.lettering import Cut, Style, shortened, wrap
from addressing.proofs.look import FAINT, NAME, SMALL
from addressing.proofs.notices import notice_blocks, split_by_height
from addressing.proofs.words import kind_name, many
from addressing.records.pages import Page
from addressing.records.proofs import ProofJob, ProofSet

ACROSS = 170.0
"""Width of a waiting envelope, points: smaller than the others, its questions matter more."""
TALLEST = 124.0
GUTTER = 20.0
BETWEEN = 16.0
TEXT_HEAD = NAME.leading + 5
LINES = Style(Cut.ROMAN, SMALL.size, SMALL.leading + 1, FAINT)


def waiting_blocks(job: ProofJob, sets: tuple[ProofSet, ...], sheet: Sheet) -> list[Block]:
    """Each household that waits: its envelope faint, and beside it what is to be asked."""
    room = sheet.measure - ACROSS - GUTTER
    held = entries(job, sets, held=True, room=room)
    if not held:
        return []
    remark = (
        f"{many(len(held), 'household')} can't be printed yet and "
        f"{'is' if len(held) == 1 else 'are'} on no plate. "
        "With each answer comes a new proof; what is shown faint is only how the list reads today."
    )
    blocks = section("Waiting for an answer", remark, sheet.measure)
    for entry in held:
        blocks += _entry_blocks(entry, room, sheet.depth)
    return blocks


def _entry_blocks(entry: Entry, room: float, depth: float) -> list[Block]:
    others = _other_pieces(entry, room)
    head = TEXT_HEAD + len(others) * KIND.leading
    first, rest = split_by_height(entry.notices, depth - head - 80)
    scale = scale_for(tuple(shown for shown, _ in entry.shown[:1]), ACROSS, TALLEST)
    picture = _picture_height(entry, scale)

    def draw(pen: Pen, left: float, top: float) -> None:
        _draw_picture(pen, entry, Spot(left, top - picture, scale))
        column = left + ACROSS + GUTTER
        draw_name(pen, entry, (column, top - NAME.size), (room,), "")
        for number, line in enumerate(others):
            y = top - NAME.leading - KIND.size - number * KIND.leading
            pen.words(column + NUMBER, y, line, KIND)
        below = top - head
        for one in first:
            one.draw(pen, column, below)
            below -= one.height

    text = head + sum(one.height for one in first)
    more = notice_blocks(rest, indent=ACROSS + GUTTER)
    return [Block(max(picture, text), draw), *more, gap(BETWEEN)]


def _other_pieces(entry: Entry, room: float) -> tuple[str, ...]:
    """What the pieces that aren't pictured say, in lines that fit beside the picture."""
    said = (
        f"{kind_name(shown.setting.kind)}: {' / '.join(_texts(page))}"
        for shown, page in entry.shown[1:]
    )
    return tuple(line for words in said for line in wrap(words, KIND, room - NUMBER))


def _texts(page: Page) -> list[str]:
    """The lines of a page; parts of one line, in several faces, are one again."""
    parted = groupby(page.lines, lambda part: part[2])
    whole = ("".join(words.text for words, *_ in parts) for _, parts in parted)
    return [text for text in whole if text]  # of a bent line the first letter carries the words


def _picture_height(entry: Entry, scale: float) -> float:
    if entry.shown:
        return entry.shown[0][0].setting.layout.height * scale
    return (len(entry.household.lines) or 1) * LINES.leading


def _draw_picture(pen: Pen, entry: Entry, spot: Spot) -> None:
    """The envelope as it would be; where no set has a page for it, its lines in plain type."""
    if entry.shown:
        shown, page = entry.shown[0]
        draw_envelope(pen, spot, shown, page, GHOST)
        return
    lines = entry.household.lines
    if not lines:
        pen.words(spot.x, spot.y + 2, "nothing to set yet", KIND)
    y = spot.y + (len(lines) - 1) * LINES.leading + 2
    for line in lines:
        pen.words(spot.x, y, shortened(line, LINES, ACROSS), LINES)
        y -= LINES.leading
