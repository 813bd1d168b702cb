"""The plates and dies of a job at each shop, priced."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from addressing.estimating import Wanted, die_parts, ink_box
from addressing.faults import Fault
from addressing.job.reading import Reading
from addressing.job.set_kinds import SetKind
from addressing.materials.methods import method_for
from addressing.materials.shelf import Shelf
from addressing.records.costs import Part, Run
from addressing.records.rates import Rates
from addressing.records.shelf import Shop
from addressing.records.shops import Dies
from addressing.typesetting import stream
from addressing.units import pt_to_mm


def with_dies(runs: Iterable[Run], reading: Reading, shelf: Shelf, rates: Rates) -> tuple[Run, ...]:
    """The runs with what their dies cost at each shop of the rates."""
    found: dict[str, list[tuple[str, Part]]] = {}
    for each in rates.shops:
        shop = shelf.shop(each.place)
        prices = dict(each.dies)
        rules = {rule.method: rule for rule in shop.dies}
        for method in dict.fromkeys((*rules, *prices)):
            wanted = list(_wanted(method, shop, reading, shelf))
            rule = rules.get(method, Dies(method))
            today = reading.docket.date
            parts = die_parts(rule, wanted, prices.get(method), today, rates.digits)
            for kind, part in parts.items():
                found.setdefault(kind, []).append((each.place, part))
    return tuple(
        replace(
            run,
            dies=tuple(part for kind in (run.kind, *run.shared) for part in found.get(kind, ())),
        )
        for run in runs
    )


def _wanted(method: str, shop: Shop, reading: Reading, shelf: Shelf) -> Iterator[Wanted]:
    """The dies that a shop must make by a method, kind by kind."""
    for kind in reading.kinds:
        choice = reading.docket.piece(kind.kind)
        if choice is None or not kind.static:
            continue
        try:
            its = method_for(choice, shop, shelf.methods())
        except Fault:
            continue  # it isn't printed there
        if its is not None and its.key == method and its.die and (area := _area(kind)):
            yield Wanted(kind.kind, area, choice.die_since)


def _area(kind: SetKind) -> float:
    """The rectangle around a kind's ink in cm², once for each ink."""
    page = next(iter(stream(kind.setting)[0]), None)
    if page is None:
        return 0.0
    wide, high = map(pt_to_mm, ink_box(page))
    return wide * high / 100 * max(len(kind.setting.laid), 1)
