"""Where else a piece could be printed, for the refusal where a device or shop can't print it."""

from collections.abc import Iterator

from addressing.faults import Fault
from addressing.feeding import check_stock
from addressing.job.lettering import inks_for, underbase_for, varnish_for
from addressing.materials.methods import method_for
from addressing.materials.shelf import Shelf
from addressing.materials.shops import check_prints
from addressing.records.docket import Docket, PieceChoice
from addressing.records.shelf import Device, Press
from addressing.where import Where

OF_INK = ("ink-not-there", "shop-not-on-this")
"""The refusals of an ink: it isn't there, or not on that paper."""


def named(fault: Fault, choice: PieceChoice, docket: Docket, shelf: Shelf) -> Fault:
    """A refusal with the piece that it is about, its ink and paper, and who could print it."""
    if fault.code not in OF_INK:
        return fault
    inks = " and ".join(_inks(choice))
    can = [f'{press.title} ([{what}] name = "{press.key}")' for what, press in _able(choice, shelf)]
    on = f"{inks} on {choice.stock}"
    told = f"{'; '.join(can)}." if can else "no device or shop on the shelf."
    own = fault.mend.partition(" Or ")[0] if fault.code == "shop-not-on-this" else ""
    mend = f"{own} Who prints {on}: {told} Or choose another ink (ink, under [[piece]]).".strip()
    where = Where(docket.path or "docket", None, f"docket:piece.{choice.kind}.ink")
    return Fault(fault.exit, fault.code, f"{choice.kind}, {on}: {fault.text}", mend, where)


def _inks(choice: PieceChoice) -> tuple[str, ...]:
    """Every ink that a piece needs, by its key."""
    address = choice.address.ink if choice.address is not None else None
    coat = choice.varnish_ink if choice.varnish is not None else None
    laid = (choice.ink, address, choice.underbase, coat)
    return tuple(dict.fromkeys(key for key in laid if key is not None))


def _able(choice: PieceChoice, shelf: Shelf) -> Iterator[tuple[str, Press]]:
    """("device" or "shop", the press) of all that can print a piece's inks on its paper."""
    for what, keys, press_of in (
        ("device", shelf.devices(), shelf.device),
        ("shop", shelf.shops(), shelf.shop),
    ):
        for key in keys:
            try:
                press = press_of(key)
                _try(choice, shelf, press)
            except Fault:
                continue  # a record that can't be read prints nothing
            yield what, press


def _try(choice: PieceChoice, shelf: Shelf, press: Press) -> None:
    """Say nothing where a press can print a piece.

    Raises:
        Fault: an ink, the paper or the way of printing is refused.
    """
    stock = shelf.stock(choice.stock)
    inks_for(choice, shelf, press)
    underbase_for(choice, shelf, press)
    varnish_for(choice, shelf, press)
    if isinstance(press, Device):
        check_stock(press, stock)
    for ink in _inks(choice):
        check_prints(press, ink, stock.key, choice.kind)
    method_for(choice, press, shelf.methods())
