"""How a piece is printed, and what that way of printing can't carry."""

from functools import cache

from addressing.faults import Exit, Fault
from addressing.materials.nearest import did_you_mean
from addressing.records.docket import PieceChoice
from addressing.records.methods import Method
from addressing.records.pieces import STATIC
from addressing.records.shelf import Device, Press, Shop
from addressing.tables import table
from addressing.where import Where


@cache
def methods() -> dict[str, Method]:
    """Every way of printing that is known, by its key (data/methods.tsv)."""
    return {
        row["key"]: Method(
            row["key"],
            row["title"],
            row["varies"] == "yes",
            row["die"] == "yes",
            float(row["stroke_pt"]),
            float(row["gap_pt"]),
            row["instead"],
        )
        for row in table("methods")
    }


def method_for(choice: PieceChoice, press: Press | None) -> Method | None:
    """The way in which a kind of piece is printed: the docket's, else the press's; None unsaid.

    Raises:
        Fault: exit 3; there is no such method, the press hasn't got it, or it prints every piece
            alike and these differ (letterpress, hot foil, engraving; common practice, no source).
    """
    key = choice.method or (press.method if press is not None else None)
    if key is None:
        return None
    where = Where("docket", None, f"docket:piece.{choice.kind}.method")
    method = methods().get(key)
    if method is None:
        mend = did_you_mean(key, tuple(methods()))
        text = f"“{key}” is no method of printing that is known."
        raise Fault(Exit.INPUT, "method-unknown", text, mend, where)
    _refuse_elsewhere(method, choice, press, where)
    if not method.varies and choice.kind not in STATIC and choice.method is not None:
        raise Fault(
            Exit.INPUT,
            "method-cannot-vary",
            f"{method.title} prints all pieces alike; each of the {choice.kind} pieces differs.",
            f"For these, {method.instead}.",
            where,
        )
    return method


def _refuse_elsewhere(
    method: Method, choice: PieceChoice, press: Press | None, where: Where
) -> None:
    """Refuse a method that the device or shop doesn't have."""
    if choice.method is None or press is None:
        return
    has = {press.method}
    if isinstance(press, Shop):
        has |= {die.method for die in press.dies}
    if isinstance(press, Device) or press.method is not None:
        if method.key in has:
            return
        raise Fault(
            Exit.INPUT,
            "method-not-there",
            f"{press.title} doesn't print by {method.title.lower()}.",
            f"It has: {', '.join(sorted(each for each in has if each))}. Choose one, or another"
            " device or shop for this piece.",
            where,
        )
