"""How many of each piece: needed, overs, whole packs."""

import math
from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from addressing.records.counts import Blanks, PieceCount, Span
from addressing.records.docket import Overs

COLUMNS = ("kind", "needed", "held", "overs", "pack", "packs", "to_order")


def overs_of(needed: int, overs: Overs) -> int:
    """The extras for so many: the larger of the minimum and the share rounded up, and keepsakes.

    Nothing needed means no extras. The share is worked out in whole fractions of the percentage
    as it is written, so that 15 % of 120 is 18 and never 19.

    >>> overs_of(120, Overs(percent=15.0, minimum=10, pack=50))
    18
    """
    if needed == 0:
        return 0
    share = Fraction(str(overs.percent)) * needed / 100
    return max(overs.minimum, math.ceil(share)) + overs.keepsakes


def expected(more: int, overs: Overs) -> int:
    """How many late ones are reckoned with, of so many `more` that the list leaves open.

    >>> expected(9, Overs(late=50.0))
    5
    """
    return math.ceil(Fraction(str(overs.late)) * more / 100)


def count_piece(kind: str, needed: int, held: int, overs: Overs) -> PieceCount:
    """The count of one kind of piece; `held` is how many of the needed ones wait for an answer.

    Raises:
        ValueError: a number is negative, more are held than needed, or a pack holds nothing.
    """
    if not 0 <= held <= needed:
        message = f"{kind}: {held} held of {needed} needed"
        raise ValueError(message)
    if overs.pack < 1 or overs.minimum < 0 or overs.percent < 0:
        message = f"overs that can't be: {overs}"
        raise ValueError(message)
    extras = overs_of(needed, overs)
    packs = -(-(needed + extras) // overs.pack)
    return PieceCount(
        kind=kind,
        needed=needed,
        held=held,
        overs=extras,
        pack=overs.pack,
        packs=packs,
        to_order=packs * overs.pack,
    )


def ordered_of(count: PieceCount, under: float, least: int = 1, pack: int = 1) -> PieceCount:
    """The count as a shop takes an order for it: nothing where nothing is needed.

    So many more that enough come when `under` per cent are lacking, `least` at least, in whole
    packs of the shop's.

    >>> ordered_of(count_piece("reply", 85, 0, Overs(0, 15, 50)), 10.0).overs
    27
    >>> ordered_of(count_piece("reply", 35, 0, Overs(0, 5, 1)), 10.0, least=50, pack=20).to_order
    60
    """
    if not count.needed:
        return count
    number = math.ceil((count.needed + count.overs) / (1 - Fraction(str(under)) / 100))
    number = -(-max(number, least) // pack) * pack
    packs = -(-number // count.pack)
    overs = number - count.needed
    return replace(count, overs=overs, packs=packs, to_order=packs * count.pack)


def blanks_of(count: PieceCount, *, flap: bool) -> Blanks:
    """What the ordered envelopes become; `flap`: the return address stands on the same ones.

    >>> blanks_of(count_piece("outer", 120, 4, Overs(15, 10, 50)), flap=True)
    Blanks(addressed=120, flap_printed=18, plain=12)
    """
    printed = count.overs if flap else 0
    return Blanks(count.needed, printed, count.to_order - count.needed - printed)


def span_of(count: PieceCount, more: int) -> Span:
    """Between how many the need may end: `more` may be wanted by whom the list doesn't name."""
    high = count.needed + more
    packs = -(-(high + count.overs) // count.pack)
    covered = high <= count.needed + count.overs
    return Span(count.needed - count.held, high, covered, max(0, packs - count.packs))


def count_again(count: PieceCount, due: int, used: int) -> PieceCount:
    """The count of a reprint: `due` envelopes now, out of what `used` ones left of the order.

    No overs are ordered again; packs are ordered only for what the rest doesn't cover.

    >>> again = count_again(count_piece("outer", 120, 0, Overs(15, 10, 50)), 12, 145)
    >>> again.needed, again.overs, again.packs, again.to_order
    (12, 0, 1, 50)
    """
    missing = max(0, due - max(0, count.to_order - used))
    packs = -(-missing // count.pack)
    return PieceCount(count.kind, due, 0, 0, count.pack, packs, packs * count.pack)


def count_pieces(
    wanted: Mapping[str, int],
    held: Mapping[str, int],
    overs: Overs,
    own: Mapping[str, Overs] | None = None,
) -> tuple[PieceCount, ...]:
    """The counts of a job, in the order of `wanted`.

    `wanted` tells how many of each kind are wanted, held ones included; `held` how many of these
    wait (a kind that isn't named there has none). A static piece is wanted once a household's
    outer: the caller gives the number. `own` has the rule of kinds that don't follow `overs`.

    Raises:
        ValueError: as for `count_piece`, or `held` names a kind that isn't wanted.
    """
    strangers = [kind for kind, number in held.items() if number and kind not in wanted]
    if strangers:
        message = f"held, but not wanted: {', '.join(strangers)}"
        raise ValueError(message)
    rules = own or {}
    return tuple(
        count_piece(kind, needed, held.get(kind, 0), rules.get(kind, overs))
        for kind, needed in wanted.items()
    )


def counts_tsv(counts: tuple[PieceCount, ...]) -> str:
    """The counts as tab-separated text: a header row, then a row for each kind.

    The columns are kind, needed, held, overs, pack, packs, to_order.
    """
    rows = [COLUMNS] + [
        tuple(str(getattr(count, column)) for column in COLUMNS) for count in counts
    ]
    return "".join("\t".join(row) + "\n" for row in rows)
