"""What the manifest says of plates: it all follows from their orders and from what was set.

One place works it out, for the writer and for whoever holds a manifest against the orders later;
so nothing that follows is believed because it stands in a manifest.
"""

from collections.abc import Iterable, Sequence

from addressing.job.manifest import NotPlate
from addressing.job.reading import Reading
from addressing.job.tickets import SENT_IN, SHOP_PROOF, TICKET
from addressing.ledger import fingerprint
from addressing.records.kept import KeptOrder, Origin
from addressing.records.pages import Setting
from addressing.records.plates import PlateFile, PlateOrder
from addressing.units import pt_to_mm

SEALED = ("proof.pdf", "job-sheet.pdf")
"""The sheets that bear the seal of the plates that they were made with."""


def entry_of(order: PlateOrder, setting: Setting, sha256: str) -> PlateFile:
    """A plate as the manifest names it; `setting` holds what is on it, in page order."""
    told = [
        (
            piece.name,
            fingerprint(setting, piece, live=order.live) if order.bears_any(setting, piece) else "",
        )
        for piece in setting.pieces
        if piece.household is not None
    ]
    size = order.sheets.sheet if order.sheets is not None else order.trim
    return PlateFile(
        path=f"plates/{order.name}.pdf",
        sha256=sha256,
        kind=order.kind,
        ink=order.spots,
        pages=order.pages,
        copies=order.copies,
        width_mm=round(pt_to_mm(size[0]), 3),
        height_mm=round(pt_to_mm(size[1]), 3),
        households=tuple(key for key in order.households if key is not None),
        names=tuple(name for name, _ in told),
        prints=tuple(print_ for _, print_ in told),
        way=order.lay.way if order.lay else None,
        calibration=_calibrated(order),
        first=order.first,
        reverse=order.reverse,
        up=order.sheets.up if order.sheets is not None else 1,
        press=order.press,
        stock=order.stock,
        layout=setting.layout.key,
        type="live" if order.live else "outlines",
        hits=sum(map(setting.hits_of, order.inks)),
    )


def _calibrated(order: PlateOrder) -> str | None:
    lay = order.lay
    return lay.calibration.name if lay is not None and lay.calibration is not None else None


def entries_of(kept: Iterable[KeptOrder], digests: dict[str, str]) -> tuple[PlateFile, ...]:
    """The entries of all plates in the order in which the manifest has them: kind by kind.

    `digests` are the plates' fingerprints by their paths; "" for one that isn't known.
    """
    kinds: dict[str, list[PlateFile]] = {}
    for each in kept:
        entry = entry_of(each.order, each.setting, digests.get(f"plates/{each.order.name}.pdf", ""))
        kinds.setdefault(entry.kind, []).append(entry)
    return tuple(entry for its in kinds.values() for entry in its)


def origin_of(reading: Reading, plates: Sequence[PlateFile], beside: Sequence[NotPlate]) -> Origin:
    """Of what list, docket and answers the plates are made, who waits, and their fingerprints.

    `beside` are the files made with them, and the sheets that a shop will get; those that will bear
    their seal have a blank one still.
    """
    unsealed = (*SEALED, TICKET, SENT_IN, SHOP_PROOF)
    households = reading.guest_list.households
    return Origin(
        list=reading.guest_list.file,
        list_sha256=reading.guest_list.sha256,
        docket_sha256=reading.docket.sha256,
        decisions_sha256=reading.decisions_sha256,
        held=tuple(home.key for home in households if home.key in reading.held),
        later=tuple(home.key for home in households if home.key in reading.later),
        plates=tuple({plate.path: plate.sha256 for plate in plates}.items()),
        files=tuple((each.path, each.sha256) for each in beside if each.path not in unsealed),
        sealed=SEALED,
        sheets=tuple((each.path, each.sha256) for each in beside if each.path in unsealed),
        date=reading.docket.date,
    )
