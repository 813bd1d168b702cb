"""What the commands answer, as plain data: the contracts that scripts rely on. Unknown is None."""

from typing import TYPE_CHECKING, Any

from addressing.job.counting import count_job, wanted_pieces
from addressing.job.estimating import home_or_shop
from addressing.job.reading import Reading
from addressing.records.costs import Offer, Part, Place, Plan
from addressing.records.findings import Finding
from addressing.records.guests import Address, Cited, Household, Person
from addressing.records.pieces import Piece
from addressing.records.prints import Balance, Print
from addressing.records.questions import Decision

if TYPE_CHECKING:
    from addressing.job.estimating import Estimate
    from addressing.job.plates import Made
    from addressing.job.posted import Posted
    from addressing.job.printing import Reprint

Answer = dict[str, Any]
"""One JSON object."""


def check_answer(reading: Reading) -> Answer:
    """`check --json`: how clean the list is. `rows` = `rows_used` + the rows not used."""
    guests = reading.guest_list
    wanted, held = wanted_pieces(reading)
    return {
        "list": guests.file,
        "rows": guests.rows,
        "rows_used": guests.rows - len(guests.unused),
        "rows_not_used": [
            {"sheet": row.sheet, "row": row.row, "why": row.why} for row in guests.unused
        ],
        "households": len(guests.households),
        "guests": sum(len(household.people) for household in guests.households),
        "pieces": wanted,
        "held": held,
        "households_held": len(reading.held),
        "columns": [
            {
                "sheet": column.sheet,
                "column": column.letters,
                "header": column.header,
                "meaning": column.meaning,
                "how": column.how or None,
            }
            for column in guests.columns
        ],
        "repairs": [
            {"cell": str(repair.where), "was": repair.was, "now": repair.now, "why": repair.why}
            for repair in guests.repairs
        ],
        "decisions": [decision_answer(decision) for decision in reading.decisions],
        "findings": [finding_answer(found) for found in reading.findings],
    }


def decision_answer(decision: Decision) -> Answer:
    """One answer that is worked in, and where it was given."""
    household = decision.ref.partition(":")[0]
    return {
        "question": decision.ref,
        "household": household if household != "list" else None,
        "answer": decision.answer,
        "from": str(decision.where),
    }


def finding_answer(found: Finding) -> Answer:
    """One finding, every field of its own."""
    return {
        "severity": found.severity.value,
        "code": found.code,
        "file": found.where.file,
        "sheet": found.where.sheet,
        "cell": found.where.cell,
        "household": found.household,
        "text": found.text,
        "mend": found.mend,
        "holds": found.holds,
        "also": [str(where) for where in found.also],
    }


def lines_answer(reading: Reading) -> Answer:
    """`lines --json`: the wording of every piece, held households too."""
    by_key: dict[str | None, list[Piece]] = {}
    for piece in reading.pieces:
        by_key.setdefault(piece.household, []).append(piece)
    return {
        "households": [
            _household(reading, household, by_key.get(household.key, []))
            for household in reading.guest_list.households
        ],
        "job_pieces": [_piece(piece, held=False) for piece in by_key.get(None, [])],
    }


def _household(reading: Reading, household: Household, pieces: list[Piece]) -> Answer:
    held = household.key in reading.held
    return {
        "key": household.key,
        "held": held,
        "people": [_person(person) for person in household.people],
        "label": household.label.text if household.label else None,
        "address": _address(household.address),
        "pieces": [_piece(piece, held=held) for piece in pieces],
        "findings": [
            {"severity": found.severity.value, "code": found.code}
            for found in reading.findings_of(household.key)
        ],
    }


def _person(person: Person) -> Answer:
    return {
        "title": person.title,
        "given": person.given,
        "family": person.family,
        "suffix": person.suffix,
        "credentials": list(person.credentials),
        "nickname": person.nickname,
        "age": person.age,
        "kind": person.kind.value,
        "from": [str(cell) for cell in person.cells],
    }


def _address(address: Address | None) -> Answer | None:
    if address is None:
        return None
    fields = ("street", "unit", "recipient_extra", "city", "region", "postcode", "country")
    return {**{name: _text(getattr(address, name)) for name in fields}, "doubt": address.doubt}


def _text(cited: Cited | None) -> str | None:
    return cited.text or None if cited else None


def _piece(piece: Piece, *, held: bool) -> Answer:
    """The first wording: what etiquette prefers, before any line is broken to fit."""
    return {
        "kind": piece.kind,
        "held": held,
        "lines": [
            {"text": line.text, "role": line.role.value, "from": [str(cell) for cell in line.cells]}
            for line in piece.wordings[0].lines
        ],
    }


def tally_answer(reading: Reading) -> Answer:
    """`tally --json`: needed, overs and packs by kind."""
    return {
        "pieces": {
            count.kind: {
                "needed": count.needed,
                "held": count.held,
                "overs": count.overs,
                "packs": count.packs,
                "pack": count.pack,
                "to_order": count.to_order,
            }
            for count in count_job(reading)
        }
    }


def made_answer(reading: Reading, made: "Made | None") -> Answer:
    """`plates --json`: what was written and proved; `made` is None when nothing was."""
    return {
        "folder": str(made.folder) if made else None,
        "plates": [
            {
                "path": plate.path,
                "kind": plate.kind,
                "ink": plate.ink,
                "pages": plate.pages,
                "copies": plate.copies,
                "counted": dict(verdict.counted),
            }
            for plate, verdict in zip(made.plates, made.verdicts, strict=True)
        ]
        if made
        else [],
        "held": [h.key for h in reading.guest_list.households if h.key in reading.held],
        "check": check_answer(reading),
    }


def balance_answer(balance: Balance) -> Answer:
    """`ledger --json`: what is on paper and right, what is due, what is wrong by now."""
    return {
        "good": [_print(each) for each in balance.good],
        "due": [
            {
                "kind": due.wanted.kind,
                "ink": due.wanted.ink,
                "household": due.wanted.household,
                "why": due.why,
            }
            for due in balance.due
        ],
        "wrong": [{**_print(each), "why": why} for each, why in balance.wrong],
    }


def _print(one: Print) -> Answer:
    return {
        "run": one.run,
        "page": one.page,
        "kind": one.wanted.kind,
        "ink": one.wanted.ink,
        "household": one.wanted.household,
        "state": one.state,
        "date": one.date,
    }


def reprint_answer(reading: Reading, again: "Reprint") -> Answer:
    """`reprint --json`: the balance, and what was written."""
    return {"ledger": balance_answer(again.balance), **made_answer(reading, again.made)}


def estimate_answer(found: "Estimate") -> Answer:
    """`estimate --json`: each place for everything, the plans, and where the cheaper way changes.

    Money is in `currency`; a route that can't print some piece has no `total`.
    """
    return {
        "currency": found.rates.currency,
        "as_of": found.rates.as_of,
        "invented_rates": found.rates.invented,
        "quantities": {run.kind: run.quantity for run in found.runs},
        "ink_mm2": {run.kind: round(run.ink_area, 1) for run in found.runs},
        "routes": [_route(found, place) for place in found.places],
        "cheapest": _plan(found.cheapest),
        "fastest": _plan(found.fastest),
        "cheaper_from": {
            run.kind: [
                {"quantity": n, "place": place} for n, place in home_or_shop(found, run.kind)
            ]
            for run in found.runs
        },
    }


def _route(found: "Estimate", place: Place) -> Answer:
    offers = [offer for offer in found.offers if offer.place == place.key]
    reasons = [f"{offer.kind}: {offer.why_not}" for offer in offers if offer.why_not]
    plan = found.in_one_place(place)
    return {
        "place": place.key,
        "title": place.title,
        "feasible": plan is not None,
        "why_not": "; ".join(reasons) or None,
        "total": float(plan.total) if plan else None,
        "days": place.days,
        "once": [_part(part) for part in place.parts],
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


def postage_answer(found: "Posted") -> Answer:
    """`postage --json`: one envelope's weight and thickness, and the postage by destination."""
    return {
        "grams": round(found.assembly.grams, 2),
        "ounces": round(found.assembly.ounces, 3),
        "thickness_mm": round(found.assembly.thickness, 2),
        "parts": [{"name": name, "grams": round(g, 2)} for name, g in found.assembly.parts],
        "currency": found.rates.currency,
        "as_of": found.rates.as_of,
        "invented_rates": found.rates.invented,
        "envelopes": [
            {
                "destination": destination,
                "count": count,
                "class": one.post_class if one else None,
                "price": float(one.price) if one else None,
                "nonmachinable": list(one.reasons) if one else None,
                "grams_to_next_price": round(one.room, 2) if one else None,
                "near": one.near if one else None,
            }
            for destination, one, count in found.envelopes
        ],
        "total": float(found.total),
    }
