"""What is the same for all isn't in the ledger: whether it is still as its plate has it."""

from pathlib import Path

from addressing.job.kept_orders import kept_job
from addressing.job.live import is_live
from addressing.job.orders import ORDERS
from addressing.job.parting import to_print
from addressing.job.reading import Reading
from addressing.ledger import difference, fingerprint
from addressing.records.pages import Setting
from addressing.records.pieces import STATIC


def changed_for_all(reading: Reading, folder: Path) -> tuple[tuple[str, str], ...]:
    """(kind, what of it changed) of all that is the same for all and set otherwise than its plate.

    Raises:
        Fault: what the folder keeps of its plates was changed (exit 3).
    """
    if not (folder / ORDERS).is_file():
        return ()
    then = {
        each.order.kind: _print(each.setting, live=each.order.live)
        for each in kept_job(folder, faces=False).orders
        if each.order.kind in STATIC
    }
    live = is_live(reading)
    now = {
        kind.kind: _print(to_print(kind.setting, reading.off_plates), live=live)
        for kind in reading.kinds
        if kind.static
    }
    return tuple(
        (kind, difference(then[kind], now[kind]))
        for kind in now
        if kind in then and then[kind] != now[kind]
    )


def _print(setting: Setting, *, live: bool) -> str:
    """The fingerprint of the one piece that there is."""
    return fingerprint(setting, setting.pieces[0], live=live) if setting.pieces else ""
