"""All plates of one kind of piece: does every line that was set stand on exactly one of them?

Each plate is proved to hold the lines of its ink and no others (judge.py); so what is left to see
is that every ink has its plates, once, and that the same page is the same envelope on all of them.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from addressing.records.pages import Setting
from addressing.records.plates import PlateOrder
from addressing.records.set_pieces import households_of
from addressing.records.shelf import Ink


def judge_orders(orders: Sequence[PlateOrder], setting: Setting) -> tuple[str, ...]:
    """What is wrong with the plates of a kind taken together, in sentences; nothing when all fits.

    Args:
        orders: of all plates of the kind; those of one ink in the order of their parts.
        setting: all that is to be printed of the kind.
    """
    return tuple(_faults(orders, setting))


def judge_type(orders: Iterable[PlateOrder]) -> tuple[str, ...]:
    """What is wrong with the type of all plates of a job: outlines print heavier than live type."""
    if len({order.live for order in orders}) > 1:
        return ("Some plates of the job have live type and some outlines, which print heavier.",)
    return ()


def _faults(orders: Sequence[PlateOrder], setting: Setting) -> Iterator[str]:
    if len({order.name for order in orders}) != len(orders):
        yield "Two plates have one name."
    orders = [  # of a composite and of shared sheets only what has anything of the kind
        each
        for order in orders
        for each in order.apart
        if not (order.layers or order.sheets) or each.ink in setting.laid
    ]
    if len({(order.kind, order.trim, order.copies, order.lay) for order in orders}) > 1:
        yield "The plates of one piece aren't of one kind, size, number or place on the page."
    households = households_of(setting.pieces)
    first = {household: place for place, household in enumerate(households)}
    parts: dict[Ink, list[range]] = {}
    bases: list[range] = []
    coats: list[range] = []
    for order in orders:
        start = first.get(order.households[0], 0) if order.households else 0
        part = range(start, start + len(order.households))
        if households[part.start : part.stop] != order.households:
            yield f"The plate {order.name} has other households than were set, or in another order."
        under = bases if order.chokes else coats if order.varnish else None
        (parts.setdefault(order.ink, []) if under is None else under).append(part)
    yield from _ink_faults(parts, setting)
    yield from _base_faults(bases, setting)
    yield from _coat_faults(coats, setting)
    if any(_are_askew(one, other) for one in _all(parts) for other in _all(parts)):
        yield "The same page isn't the same envelope on all plates of a piece."


def _ink_faults(parts: Mapping[Ink, Sequence[range]], setting: Setting) -> Iterator[str]:
    """Every line is on one plate of its ink, and on no second."""
    inks = [setting.inks_of((placed,)) for placed in setting.pieces]
    for ink, its in parts.items():
        pages = [page for part in its for page in part]
        alike = households_of(setting.pieces) == (None,)
        if len(set(pages)) != len(pages) and not alike:
            yield f"A page is on two plates in {ink.key}."
        if not any(ink in inks[page] for page in pages if page < len(inks)):
            yield f"A plate is in {ink.key}, and nothing was set in it."
    covered = {ink: {page for part in its for page in part} for ink, its in parts.items()}
    for page, own in enumerate(inks):
        for ink in own:
            if page not in covered.get(ink, ()):
                yield f"Lines in {ink.key} are on no plate."
                return


def _base_faults(bases: Sequence[range], setting: Setting) -> Iterator[str]:
    """A base lies under every piece, once; without an order for it there is none."""
    pages = [page for part in bases for page in part]
    wanted = list(range(len(setting.pieces))) if setting.underbase is not None else []
    if sorted(pages) != wanted:
        yield "The base under the inks isn't under every piece once."


def _coat_faults(coats: Sequence[range], setting: Setting) -> Iterator[str]:
    """A varnish lies over every line that the set wants it over, once."""
    pages = [page for part in coats for page in part]
    coat = setting.varnish
    wanted = {
        number
        for number, placed in enumerate(setting.pieces)
        if coat is not None and any(coat.covers(line.role) for line in placed.lines)
    }
    if len(set(pages)) != len(pages) or not wanted <= set(pages) or (pages and not wanted):
        yield "The varnish isn't over every line that it was ordered for, once."


def _all(parts: Mapping[Ink, Sequence[range]]) -> Iterator[range]:
    return (part for its in parts.values() for part in its)


def _are_askew(one: range, other: range) -> bool:
    """True when two plates share pages and don't share all of them."""
    return one != other and one.start < other.stop and other.start < one.stop
