"""What the commands answer, as plain data: the contracts that scripts rely on. Unknown is None."""

from collections.abc import Sequence
from dataclasses import asdict
from math import inf
from typing import TYPE_CHECKING, Any

from addressing.job.counting import (
    blanks_by_kind,
    count_job,
    count_suite,
    replies_abroad,
    sheets_by_kind,
    spans,
    wanted_pieces,
)
from addressing.job.reading import Reading
from addressing.records.costs import Cheaper
from addressing.records.counts import PieceCount
from addressing.records.findings import Finding
from addressing.records.guests import Address, Cited, Household, Person
from addressing.records.pieces import Piece, household_of
from addressing.records.questions import Decision
from addressing.records.rates import Rates
from addressing.tables import lookup

if TYPE_CHECKING:
    from addressing.job.plates import Made

Answer = dict[str, Any]
"""One JSON object."""

Whys = dict[tuple[str, str | None], str]
"""What was done with pieces that don't stand as they are worded, by kind and key."""


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
        "words_open": reading.words_open,
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
        "date": decision.date,
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
        "for": lookup("findings", "code", "for").get(found.code) or None,
        "also": [str(where) for where in found.also],
    }


def lines_answer(reading: Reading) -> Answer:
    """`lines --json`: the wording of every piece, held households too."""
    by_key: dict[str | None, list[Piece]] = {}
    whys = reading.whys()
    for piece in reading.pieces:
        key = piece.household and household_of(piece.household)
        by_key.setdefault(key, []).append(piece)
    return {
        "households": [
            _household(reading, household, by_key.get(household.key, []), whys)
            for household in reading.guest_list.households
        ],
        "job_pieces": [_piece(piece, held=False) for piece in by_key.get(None, [])],
    }


def _household(reading: Reading, household: Household, pieces: list[Piece], whys: Whys) -> Answer:
    held = household.key in reading.held
    return {
        "key": household.key,
        "number": household.number,
        "held": held,
        "people": [_person(person) for person in household.people],
        "label": household.label.text if household.label else None,
        "wave": _text(household.wave),
        "side": _text(household.side),
        "suite": _text(household.suite),
        "later": household.key in reading.later,
        "address": _address(household.address),
        "pieces": [_piece(piece, held=held) for piece in pieces],
        "set_otherwise": {
            piece.kind: why for piece in pieces if (why := whys.get((piece.kind, piece.household)))
        },
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


def tally_answer(
    reading: Reading, cheaper: Sequence[Cheaper] = (), rates: Rates | None = None
) -> Answer:
    """`tally --json`: needed, overs and packs by kind; the suite's pieces without names.

    `cheaper` says of what ordering more costs less, by the `rates`.
    """
    counts = count_job(reading)
    suite = count_suite(reading)
    blanks, open_ends = blanks_by_kind(reading, counts), spans(reading, (*counts, *suite))
    return {
        "pieces": {
            count.kind: {
                **_count(count),
                **(asdict(blanks[count.kind]) if count.kind in blanks else {}),
                "open": asdict(open_ends[count.kind]),
            }
            for count in counts
        },
        "suite": {
            count.kind: {**_count(count), "open": asdict(open_ends[count.kind])} for count in suite
        },
        "sheets": [
            {"kinds": list(kinds), "paper": on.paper, "needed": on.sheets, "with_overs": on.stock}
            for kinds, on in sheets_by_kind(reading, counts).items()
        ],
        "replies_abroad": replies_abroad(reading),
        "cheaper": [_cheaper(each, rates) for each in cheaper if rates is not None],
    }


def _cheaper(found: Cheaper, rates: Rates) -> Answer:
    return {
        **asdict(found),
        "fewer_cost": float(found.fewer_cost),
        "more_cost": float(found.more_cost),
        "currency": rates.currency,
    }


def _count(count: PieceCount) -> Answer:
    return {
        "needed": count.needed,
        "held": count.held,
        "overs": count.overs,
        "packs": count.packs,
        "pack": count.pack,
        "to_order": count.to_order,
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
                "finest_stroke_pt": points_or_null(verdict.stroke),
                "narrowest_gap_pt": points_or_null(verdict.gap),
            }
            for plate, verdict in zip(made.plates, made.verdicts, strict=True)
        ]
        if made
        else [],
        "notes": [finding_answer(note) for note in made.notes] if made else [],
        "gone": list(made.gone) if made else [],
        "held": [h.key for h in reading.guest_list.households if h.key in reading.held],
        "check": check_answer(reading),
    }


def points_or_null(length: float) -> float | None:
    """A length in points for a program; None where nothing was measured."""
    return round(length, 3) if length < inf else None
