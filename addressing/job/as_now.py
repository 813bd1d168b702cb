"""Plates that were made, held against those that the job would make now."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from addressing.job.counting import count_job
from addressing.job.manifest import manifest_of
from addressing.job.parting import job_orders
from addressing.job.printing import wanted_of
from addressing.job.reading import Reading
from addressing.ledger import fingerprint
from addressing.records.pages import Setting
from addressing.records.plates import PlateOrder

Told = tuple[object, ...]
"""What of a plate shows that it is the one that should be made."""


def would_be(order: PlateOrder, setting: Setting) -> Told:
    """A plate that would be made now."""
    pieces = [piece for piece in setting.pieces if piece.household is not None]
    prints = [
        fingerprint(setting, piece, live=order.live) if order.bears_any(setting, piece) else ""
        for piece in pieces
    ]
    keys = [key for key in order.households if key is not None]
    made_of = "live" if order.live else "outlines"
    place = order.lay.calibration if order.lay is not None else None
    corrected = place.name if place is not None else None
    return f"plates/{order.name}.pdf", order.spots, order.copies, keys, prints, made_of, corrected


def was_made(file: Mapping[str, Any]) -> Told:
    """A plate that was made, by its entry in the manifest."""
    told = (file["path"], file["ink"], file["copies"], file["households"], file["prints"])
    return *told, file.get("type") or "outlines", file.get("calibration")


def is_as_now(reading: Reading, folder: Path) -> bool:
    """True when the plates of a job's folder are those that it would make now, and as many wait."""
    content = manifest_of(folder) or {"files": []}
    homes = [home.key for home in reading.guest_list.households]
    waiting = [[key for key in homes if key in keys] for keys in (reading.held, reading.later)]
    if waiting != [content.get("held"), content.get("later")]:
        return False
    then = [was_made(file) for file in content["files"] if file["ink"] is not None]
    return then == [
        would_be(order, share)
        for _, _, orders in job_orders(reading, count_job(reading))
        for order, share in orders
    ]


def is_as_now_but_for_keys(reading: Reading, folder: Path) -> bool:
    """True when a folder's plates bear what they would bear now, under other households' keys."""
    content = manifest_of(folder) or {"files": []}
    then = [was_made(file) for file in content["files"] if file["ink"] is not None]
    now = [
        would_be(order, share)
        for _, _, orders in job_orders(reading, count_job(reading))
        for order, share in orders
    ]
    return [_keyless(each) for each in then] == [_keyless(each) for each in now]


def _keyless(told: Told) -> Told:
    path, ink, copies, _, *rest = told
    return (path, ink, copies, *rest)


def are_among(reading: Reading, folder: Path) -> bool:
    """True when every piece on the plates of a reprint is as it would be made now."""
    now = {(each.kind, each.household): each.print for each in wanted_of(reading)}
    return all(
        now.get((file["kind"], household)) == print_
        for file in (manifest_of(folder) or {"files": []})["files"]
        for household, print_ in zip(file["households"], file["prints"], strict=True)
        if print_
    )
