"""How a piece is printed, and what that way of printing can't carry."""

from collections.abc import Collection, Sequence
from pathlib import Path

from pydantic import Field

from addressing.faults import Exit, Fault
from addressing.materials.nearest import did_you_mean
from addressing.materials.reading import Entry, checked_tables, read_toml
from addressing.records.docket import PLACES, Overs, PieceChoice
from addressing.records.methods import Method
from addressing.records.pieces import STATIC
from addressing.records.shelf import Device, Press, Shop
from addressing.where import Where


class MethodFile(Entry):
    """One way of printing."""

    title: str = Field(min_length=1)
    varies: bool
    die: bool
    stroke_pt: float = Field(ge=0, le=10)
    gap_pt: float = Field(ge=0, le=10)
    instead: str = "choose a method that prints each piece for itself"


def read_methods(path: Path) -> tuple[Method, ...]:
    """The ways of printing in a TOML file with one table each, in its order.

    Raises:
        Fault: exit 3, `methods-…`: the file can't be read or says what can't be.
    """
    source = read_toml("methods", path)
    return tuple(
        Method(key, each.title, each.varies, each.die, each.stroke_pt, each.gap_pt, each.instead)
        for key, each in checked_tables(MethodFile, source).items()
    )


def method_for(choice: PieceChoice, press: Press | None, known: Sequence[Method]) -> Method | None:
    """The way in which a kind of piece is printed: the docket's, else the press's; None unsaid.

    Raises:
        Fault: exit 3; there is no such method, the press hasn't got it, or it prints every piece
            alike and these differ (letterpress, hot foil, engraving; common practice, no source).
    """
    key = choice.method or (press.method if press is not None else None)
    if key is None:
        return None
    where = Where("docket", None, f"docket:piece.{choice.kind}.method")
    method = next((each for each in known if each.key == key), None)
    if method is None:
        mend = did_you_mean(key, [each.key for each in known])
        text = f'"{key}" is no method of printing that is known.'
        raise Fault(Exit.INPUT, "method-unknown", text, mend, where)
    differ = choice.kind not in STATIC
    if not method.varies and differ:
        raise Fault(
            Exit.INPUT,
            "method-cannot-vary",
            f"{method.title} prints all pieces alike; each of the {choice.kind} pieces differs.",
            f"For these, {method.instead}.",
            where,
        )
    able = [each.key for each in known if each.varies or not differ]
    _refuse_elsewhere(method, choice, press, where, able)
    return method


def check_overs(overs: Overs, known: Sequence[Method]) -> None:
    """Refuse a percentage for a way of printing that nobody knows.

    Raises:
        Fault: exit 3, `method-unknown`.
    """
    names = (*PLACES, *(each.key for each in known))
    for name, _ in overs.methods:
        if name not in names:
            raise Fault(
                Exit.INPUT,
                "method-unknown",
                f'"{name}" is no method of printing that is known.',
                did_you_mean(name, names),
                Where("docket", None, f"docket:overs.method.{name}"),
            )


def _refuse_elsewhere(
    method: Method, choice: PieceChoice, press: Press | None, where: Where, able: Collection[str]
) -> None:
    """Refuse a method that the device or shop doesn't have; `able` are those that suit the kind."""
    if choice.method is None or press is None:
        return
    has = {press.method}
    if isinstance(press, Shop):
        has |= {die.method for die in press.dies}
    if isinstance(press, Device) or press.method is not None:
        if method.key in has:
            return
        there = sorted(each for each in has if each is not None and each in able)
        offered = f"It has: {', '.join(there)}. Choose one" if there else "Choose another method"
        raise Fault(
            Exit.INPUT,
            "method-not-there",
            f"{press.title} doesn't print by {method.title.lower()}.",
            f"{offered}, or another device or shop for this piece.",
            where,
        )
