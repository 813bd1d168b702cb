"""What `estimate`, `postage` and `calendar` answer, as plain data. Money is in `currency`."""

from collections.abc import Sequence
from dataclasses import asdict
from decimal import Decimal

from addressing.job.advising import advice, backups
from addressing.job.answers import Answer
from addressing.job.estimating import Estimate, cheaper_from
from addressing.job.posted import Posted, Reply
from addressing.records.calendar import Day
from addressing.records.costs import Offer, Part, Place, Plan, Quote
from addressing.records.postage import Assembly, Postage
from addressing.records.rates import Rates


def estimate_answer(found: Estimate) -> Answer:
    """`estimate --json`: each place for all plates, the suite, the plans, where the cheapest is.

    Money is in `currency`; a route that can't print some piece has no `total`. `bought` is on top
    of every plan.
    """
    suite = {run.kind for run in found.runs if run.suite}
    return {
        "currency": found.rates.currency,
        "as_of": found.rates.as_of,
        "invented_rates": found.rates.invented,
        "rush": found.rush,
        "quantities": {run.kind: run.quantity for run in found.runs},
        "ink_mm2": {run.kind: round(run.ink_area, 1) for run in found.runs},
        "inks_mm2": {
            run.kind: {ink: round(area, 1) for ink, area in run.inks_laid} for run in found.runs
        },
        "routes": [_route(found, place) for place in found.places],
        "suite": [_offer(o) for o in found.offers if o.kind in suite],
        "bought": [_part(part) for part in found.bought],
        "unpriced": list(found.unpriced),
        "paper_unpriced": list(found.no_paper),
        "cheapest": _plan(found.cheapest),
        "fastest": _plan(found.fastest),
        "if_closed": {
            each.closed: None if each.stranded else _plan(each.plan) for each in found.backups
        },
        "backups": [
            {"kind": kind, "place": first.key, "backup": other.key if other else None}
            for kind, first, other in backups(found)
        ],
        "advice": list(advice(found)),
        "not_yet_printed": [asdict(each) for each in found.untried],
        "cheaper_from": {
            run.kind: [
                {"quantity": n, "place": place} for n, place in cheaper_from(found, run.kind)
            ]
            for run in found.runs
        },
    }


def _route(found: Estimate, place: Place) -> Answer:
    offers = found.plates_at(place)
    reasons = [f"{offer.kind}: {offer.why_not}" for offer in offers if offer.why_not]
    plan = found.in_one_place(place)
    return {
        "place": place.key,
        "title": place.title,
        "feasible": plan is not None,
        "why_not": "; ".join(reasons) or None,
        "total": float(plan.total) if plan else None,
        "days": plan.days if plan else place.days,
        "once": [_part(part) for part in place.parts] if found.prints_any(place) else [],
        "pieces": [_offer(offer) for offer in offers],
    }


def _offer(offer: Offer) -> Answer:
    return {
        "kind": offer.kind,
        "place": offer.place,
        "feasible": offer.feasible,
        "why_not": offer.why_not,
        "total": float(offer.total) if offer.feasible else None,
        "minutes": offer.minutes,
        "parts": [_part(part) for part in offer.parts],
    }


def _part(part: Part) -> Answer:
    return {"name": part.name, "amount": float(part.amount), "why": part.why}


def _plan(plan: Plan | None) -> Answer | None:
    if plan is None:
        return None
    return {
        "total": float(plan.total),
        "days": plan.days,
        "pieces": {offer.kind: offer.place for offer in plan.offers},
        "places": [place.key for place in plan.places],
    }


def postage_answer(found: Posted) -> Answer:
    """`postage --json`: the commonest envelope's weight, then each destination and contents."""
    commonest = found.by_contents[0].assembly if found.envelopes else None
    return {
        **(_assembly(commonest) if commonest else {}),
        "currency": found.rates.currency,
        "as_of": found.rates.as_of,
        "invented_rates": found.rates.invented,
        "envelopes": [
            {
                "destination": sent.destination,
                "count": sent.count,
                "contents": list(sent.contents),
                "grams": round(sent.assembly.grams, 2),
                **_postage(sent.postage),
            }
            for sent in found.envelopes
        ],
        "reply": None if found.reply is None else _reply(found.reply),
        "total": float(found.total),
    }


def _assembly(one: Assembly) -> Answer:
    return {
        "grams": round(one.grams, 2),
        "ounces": round(one.ounces, 3),
        "thickness_mm": round(one.thickness, 2),
        "parts": [{"name": name, "grams": round(g, 2)} for name, g in one.parts],
    }


def _postage(one: Postage | None) -> Answer:
    return {
        "class": one.post_class if one else None,
        "price": float(one.price) if one else None,
        "stamps": [float(stamp) for stamp in one.stamps] if one else None,
        "nonmachinable": list(one.reasons) if one else None,
        "grams_to_next_price": round(one.room, 2) if one else None,
        "near": one.near if one else None,
    }


def _reply(reply: Reply) -> Answer:
    return {
        "count": reply.count,
        "grams": round(reply.assembly.grams, 2),
        "with_card": reply.with_card,
        **_postage(reply.postage),
    }


def calendar_answer(days: Sequence[Day]) -> Answer:
    """`calendar --json`: by when each step must be done, earliest first."""
    return {
        "days": [
            {"date": day.date.isoformat(), "what": day.what, "why": day.why, "late": day.late}
            for day in days
        ]
    }


def quote_answer(rates: Rates, asked: Quote, margin: Decimal | None) -> Answer:
    """`quote --json`: the price to the client; `margin` is null unless it was asked for."""
    return {
        "currency": rates.currency,
        "as_of": rates.as_of,
        "invented_rates": rates.invented,
        "parts": [_part(part) for part in asked.parts],
        "net": float(asked.net),
        "tax": float(asked.tax),
        "total": float(asked.total),
        "deposit": float(asked.deposit),
        "unpriced": list(asked.unpriced),
        "margin": None if margin is None else float(margin),
    }
