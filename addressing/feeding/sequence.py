"""The order of print: by list, key or ZIP, in batches, turned where the exit turns the stack."""

from collections.abc import Sequence

from addressing.records.pieces import household_of
from addressing.records.runs import RunOrder, Standing
from addressing.records.set_lines import SetPiece
from addressing.records.set_pieces import households_of, picked


def in_order(pieces: Sequence[SetPiece], run: RunOrder) -> Sequence[SetPiece]:
    """The pieces as they are printed, one batch behind the other, from the run's first on.

    A household's cards stay together. What is for no household stays as it is.
    """
    keys = households_of(pieces)
    if None in keys:
        return pieces
    ranks = {each.household: _rank(run.order, place, each) for place, each in _placed(run)}
    ordered = sorted(range(len(keys)), key=lambda place: ranks[household_of(keys[place] or "")])
    rest = ordered[run.first - 1 :]
    load = run.load or max(len(rest), 1)
    piles = [rest[start : start + load] for start in range(0, len(rest), load)]
    places = (place for pile in piles for place in (reversed(pile) if run.reverse else pile))
    return picked(pieces, places)


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
