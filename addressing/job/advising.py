"""Where to print, in three sentences: the plan, what else there is, what if a place is closed."""

from collections.abc import Iterator, Sequence

from addressing.job.estimating import Estimate
from addressing.records.costs import Backup, Place, Plan


def advice(found: Estimate) -> tuple[str, ...]:
    """Exactly three sentences; none where some piece can be printed nowhere."""
    plan = found.cheapest
    if plan is None or found.fastest is None:
        return ()
    money = found.rates.currency
    days = f", {_days(plan.days)} until all is printed" if plan.days else ""
    first = (
        f"Print {told(plan)}: {plan.total} {money} in all, each place with its set-up, its shipping"
        f" and your own time{days}."
    )
    return first, _instead(found, plan), _reserve(found)


def _instead(found: Estimate, plan: Plan) -> str:
    """What speaks for the plan: the faster one, or the next best."""
    money, fastest = found.rates.currency, found.fastest
    if fastest is not None and fastest.days < plan.days:
        sooner, more = _days(plan.days - fastest.days), fastest.total - plan.total
        return f"{sooner} sooner is {told(fastest)}, for {more} {money} more."
    others = [each.plan for each in found.backups if each.plan and not each.stranded]
    others += [p for place in found.places if (p := found.whole_at(place)) and p != plan]
    if not others:
        return "Nothing is faster, and there is no other way with the places of your rates."
    best = min(others, key=lambda other: (other.total, other.days))
    later = f" and takes {_days(best.days)}" if best.days > plan.days else ""
    more = best.total - plan.total
    costs = f"costs {more} {money} more" if more else "costs as much"
    return f"Nothing is faster; the next best, {told(best)}, {costs}{later}."


def _reserve(found: Estimate) -> str:
    text = "; ".join(_if_closed(found, each) for each in found.backups)
    return f"{text[:1].upper()}{text[1:]}."


def _if_closed(found: Estimate, backup: Backup) -> str:
    title = next(place.title for place in found.places if place.key == backup.closed)
    if backup.plan is None:
        return f"if {title} is closed, {_stranded(backup)}"
    total = f"for {backup.plan.total} {found.rates.currency}"
    if not backup.stranded:
        return f"if {title} is closed, print {told(backup.plan)} {total}"
    rest = told(backup.plan).removeprefix("everything ")
    return f"if {title} is closed, {_stranded(backup)}, and the rest is printed {rest} {total}"


def _stranded(backup: Backup) -> str:
    """What has no other place."""
    has = "have" if len(backup.stranded) > 1 else "has"
    return f"{_joined(backup.stranded)} {has} no other place"


def backups(found: Estimate) -> Iterator[tuple[str, Place, Place | None]]:
    """Each kind of the cheapest plan, its place, and the one that prints it when that is closed."""
    places = {place.key: place for place in found.places}
    other = {each.closed: each.plan for each in found.backups}
    for offer in found.cheapest.offers if found.cheapest else ():
        plan = other[offer.place]
        instead = (each.place for each in plan.offers if each.kind == offer.kind) if plan else ()
        key = next(iter(instead), None)
        yield offer.kind, places[offer.place], places[key] if key else None


def trials(found: Estimate) -> tuple[str, ...]:
    """What was never on paper so: "White on deep-green a7 at …", with the pieces."""
    titles = {place.key: place.title for place in found.places}
    kinds: dict[tuple[str, str, str, str], list[str]] = {}
    for each in found.untried:
        asked = (each.ink, each.stock, each.layout, each.place)
        kinds.setdefault(asked, []).append(each.kind)
    return tuple(
        f"{ink} on {stock} {layout} at {titles[place]} ({_joined(which)})"
        for (ink, stock, layout, place), which in kinds.items()
    )


def told(plan: Plan) -> str:
    """Which pieces at which place, in words: "outer and reply at …; inner at …"."""
    if len(plan.places) == 1:
        return f"everything at {plan.places[0].title}"
    return "; ".join(
        f"{_joined([o.kind for o in plan.offers if o.place == place.key])} at {place.title}"
        for place in plan.places
    )


def _joined(words: Sequence[str]) -> str:
    *first, last = words
    return f"{', '.join(first)} and {last}" if first else last


def _days(number: int) -> str:
    return "1 day" if number == 1 else f"{number} days"
