"""What plates and dies cost: by area, ganged on one where the shop says so, none that stands."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import ROUND_UP, Decimal

from addressing.estimating.prices import paid
from addressing.records.costs import Part
from addressing.records.shops import Dies

_TENTH = Decimal("0.1")


@dataclass(frozen=True, slots=True)
class Wanted:
    """A die that a kind of piece takes: its area in cm², all inks together; since when it stands.

    `since` is ISO 8601, None where none is made yet.
    """

    kind: str
    area: float
    since: str | None = None


def die_parts(
    rule: Dies, wanted: Sequence[Wanted], per_cm2: Decimal | None, today: str | None, digits: int
) -> Mapping[str, Part]:
    """What each kind's die costs at a shop, all of one method; None prices none.

    Ganged, they share what is charged by their areas. `today` is the job's own day, None where it
    has none: then what stands is taken to stand still.
    """
    due = [each for each in wanted if not _stands(rule, each, today)]
    areas = {each.kind: Decimal(str(each.area)).quantize(_TENTH, ROUND_UP) for each in wanted}
    least = Decimal(str(rule.least))
    whole = sum((areas[each.kind] for each in due), Decimal(0))
    parts = {}
    for each in wanted:
        own = areas[each.kind]
        if each not in due:
            until = _until(rule, each.since or "")
            told = f"kept standing since {each.since}" + (f", until {until}" if until else "")
            parts[each.kind] = Part("die", paid(Decimal(0), digits), told)
            continue
        others = [other.kind for other in due if other is not each] if rule.ganged else []
        charged = max(whole, least) * own / whole if rule.ganged else max(own, least)
        why = f"{own} cm² for {rule.method}"
        if others:
            why += f", ganged with {' and '.join(others)}: {whole} cm² together"
        if (whole if rule.ganged else own) < least:
            why += f", at least {rule.least:g} cm²"
        if per_cm2 is None:
            why += "; no price for a cm² in your rates: ask the shop"
        else:
            why += f" at {per_cm2} a cm²"
        parts[each.kind] = Part("die", paid(charged * (per_cm2 or 0), digits), why)
    return parts


def _stands(rule: Dies, die: Wanted, today: str | None) -> bool:
    """Whether a die was made and the shop still keeps it."""
    if die.since is None:
        return False
    until = _until(rule, die.since)
    return not (today and until) or today <= until


def _until(rule: Dies, since: str) -> str:
    """Until when a shop keeps a die; "" where nobody said so."""
    if not rule.kept:
        return ""
    made = date.fromisoformat(since)
    years, month = divmod(made.month - 1 + rule.kept, 12)
    return date(made.year + years, month + 1, min(made.day, 28)).isoformat()
