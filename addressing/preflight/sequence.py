"""The order of print of a whole job, proved from its orders: by rule, in batches, kind beside kind.

That each plate carries the pages of its order is proved from its bytes (judge.py); here the orders
of all plates are held against the rule, worked out again pair by pair.
"""

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations, pairwise

from addressing.records.pieces import household_of
from addressing.records.plates import PlateOrder
from addressing.records.runs import RunOrder, Standing


def judge_sequence(kinds: Mapping[str, Sequence[PlateOrder]], run: RunOrder) -> tuple[str, ...]:
    """What is wrong with the order of print, in sentences; nothing when all is as it should be.

    Args:
        kinds: each kind of addressed piece with the orders of its plates, in order of print.
        run: the rule.
    """
    return tuple(_faults(kinds, run))


def _faults(kinds: Mapping[str, Sequence[PlateOrder]], run: RunOrder) -> Iterator[str]:
    known = {each.household: (place, each) for place, each in enumerate(run.standings)}
    sequences: dict[str, list[str]] = {}
    for kind, orders in kinds.items():
        numbered: dict[int, str] = {}
        for order in orders:
            yield from _batch_faults(order, run)
            yield from _numbered(order, numbered)
        if sorted(numbered) != list(range(run.first, run.first + len(numbered))):
            yield f"The {kind} pieces aren't numbered one after the other from {run.first}."
        yield from _size_faults(kind, orders, run)
        pages = [numbered[number] for number in sorted(numbered)]
        sequences[kind] = list(dict.fromkeys(household_of(page) for page in pages))
        yield from _rule_faults(kind, pages, known, run.order)
    yield from _match_faults(sequences)


def _batch_faults(order: PlateOrder, run: RunOrder) -> Iterator[str]:
    """One plate: turned as it should be, begun where a batch begins, and no larger than a load."""
    turned = order.reverse if order.sheets is None else order.sheets.reverse and not order.reverse
    if turned != run.reverse:
        yield f"The plate {order.name} is turned round where it shouldn't be, or isn't."
    load = _load(order, run)
    if load is None:
        return
    if len(order.households) > load:
        yield f"The plate {order.name} has more pages than the {run.load} of a batch."
    if (order.first - run.first) % load:
        yield f"The plate {order.name} doesn't begin where a batch begins."


def _load(order: PlateOrder, run: RunOrder) -> int | None:
    """How many pieces make a batch: of cards on sheets, those of so many sheets."""
    if run.load is None or order.sheets is None:
        return run.load
    return run.load * order.sheets.across * order.sheets.down


def _numbered(order: PlateOrder, numbered: dict[int, str]) -> Iterator[str]:
    """Give the pages their numbers; the same number is the same envelope in every ink."""
    pages = order.households[::-1] if order.reverse else order.households
    for number, household in enumerate(pages, start=order.first):
        if household is None:
            yield f"The plate {order.name} has a page for nobody."
        elif numbered.setdefault(number, household) != household:
            yield f"Number {number} is another envelope on the plate {order.name}."


def _size_faults(kind: str, orders: Sequence[PlateOrder], run: RunOrder) -> Iterator[str]:
    """All batches but the last are full."""
    last = max((order.first for order in orders), default=0)
    for order in orders:
        if run.load and order.first != last and len(order.households) != _load(order, run):
            yield f"The plate {order.name} of the {kind} pieces isn't a whole batch."


def _rule_faults(
    kind: str, pages: Sequence[str], known: Mapping[str, tuple[int, Standing]], rule: str
) -> Iterator[str]:
    """Each page may stand before the next, and nobody stands twice."""
    if len(set(pages)) != len(pages):
        yield f"A {kind} piece is printed twice."
    if strange := [page for page in pages if household_of(page) not in known]:
        yield f"The {kind} pieces have a household that isn't on the list: {strange[0]}."
        return
    for number, (one, other) in enumerate(pairwise(pages), start=1):
        if not _may_precede(known[household_of(one)], known[household_of(other)], rule):
            yield f"The {kind} pieces aren't in their order: the pages {number} and {number + 1}."
            return


def _may_precede(one: tuple[int, Standing], other: tuple[int, Standing], rule: str) -> bool:
    """True when the rule lets the first stand before the second, or they are one household's."""
    (place, standing), (next_place, next_standing) = one, other
    if place == next_place:
        return True
    if rule == "key":
        return standing.household < next_standing.household
    if rule == "zip" and (standing.postcode or next_standing.postcode):
        if not (standing.postcode and next_standing.postcode):
            return bool(standing.postcode)
        if standing.abroad != next_standing.abroad:
            return next_standing.abroad
        mine, theirs = standing.postcode.casefold(), next_standing.postcode.casefold()
        if mine != theirs:
            return mine < theirs
    return place < next_place


def _match_faults(sequences: Mapping[str, Sequence[str]]) -> Iterator[str]:
    """Any two kinds have the households that they share in the same order."""
    for (kind, mine), (other, theirs) in combinations(sequences.items(), 2):
        shared = set(mine) & set(theirs)
        if [key for key in mine if key in shared] != [key for key in theirs if key in shared]:
            yield f"The {kind} pieces and the {other} pieces don't match, pile by pile."
