"""The order of print: by list, key or ZIP, in batches, turned where the exit turns the stack."""

from collections.abc import Sequence

from addressing.records.pages import SetPiece
from addressing.records.pieces import household_of
from addressing.records.runs import RunOrder, Standing


def in_order(pieces: Sequence[SetPiece], run: RunOrder) -> tuple[SetPiece, ...]:
    """The pieces as they are printed, one batch behind the other, from the run's first on.

    A household's cards stay together. What is for no household stays as it is.
    """
    if any(piece.household is None for piece in pieces):
        return tuple(pieces)
    ranks = {each.household: _rank(run.order, place, each) for place, each in _placed(run)}
    ordered = sorted(pieces, key=lambda piece: ranks[household_of(piece.household or "")])
    rest = ordered[run.first - 1 :]
    load = run.load or max(len(rest), 1)
    piles = [rest[start : start + load] for start in range(0, len(rest), load)]
    return tuple(piece for pile in piles for piece in (reversed(pile) if run.reverse else pile))


def _placed(run: RunOrder) -> Sequence[tuple[int, Standing]]:
    return tuple(enumerate(run.standings))


def _rank(order: str, place: int, standing: Standing) -> tuple[object, ...]:
    """What a household is sorted by; those without a postcode (by hand) come last."""
    if order == "key":
        return (standing.household,)
    if order == "zip":
        postcode = standing.postcode.casefold()
        return not postcode, standing.abroad and bool(postcode), postcode, place
    return (place,)
