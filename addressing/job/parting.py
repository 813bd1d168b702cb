"""One kind of piece as the plates that a press wants: how they are named, where they are parted."""

from collections.abc import Iterator
from dataclasses import replace

from addressing.job.reading import SetKind
from addressing.records.counts import PieceCount
from addressing.records.pages import Setting
from addressing.records.plates import PlateOrder
from addressing.records.shelf import Press, Shop
from addressing.records.shops import FileRules
from addressing.version import VERSION


def rules_of(press: Press | None) -> FileRules:
    """How files are wanted where a job is printed; at home, as we like them ourselves."""
    return press.files if isinstance(press, Shop) else FileRules()


def orders_for(
    number: int, kind: SetKind, setting: Setting, copies: PieceCount, press: Press | None
) -> Iterator[tuple[PlateOrder, Setting]]:
    """The orders of a kind's plates with what is set on each, in order of print.

    `number` is the first one's in the order of print. Each ink has plates of its own, all with the
    same pages; only a part without anything in an ink has none in it. A shop's rules name the files
    and say how many pages each may have; every part but the last has as many as it may.
    """
    rules, inks = rules_of(press), setting.inks
    pattern = rules.name
    if len(inks) > 1 and "{ink}" not in pattern:
        pattern += "-{ink}"
    pieces = setting.pieces
    most = rules.most_pages or max(len(pieces), 1)
    parts = -(-len(pieces) // most)
    for at, ink in enumerate(inks):
        for part in range(parts):
            share = replace(setting, pieces=pieces[part * most : (part + 1) * most])
            order = PlateOrder(
                name=plate_name(pattern, number + at, kind.kind, ink.spot, (part + 1, parts)),
                kind=kind.kind,
                ink=ink,
                trim=(setting.layout.width, setting.layout.height),
                households=tuple(piece.household for piece in share.pieces),
                copies=copies.needed + copies.overs if kind.static else 1,
                version=VERSION,
                lay=kind.lay,
            )
            if ink in share.inks:
                yield order, share


def plate_name(pattern: str, number: int, piece: str, ink: str, part: tuple[int, int]) -> str:
    """A plate's name by a pattern; what it needs to be told apart is added when it isn't there.

    >>> plate_name("{number}-{piece}-{ink}", 1, "outer", "FP White", (2, 3))
    '01-outer-fp-white-b02'
    >>> plate_name("FP_{piece}_{part}of{parts}", 1, "outer", "FP White", (2, 3))
    'FP_outer_02of03'
    """
    which, parts = part
    told = {"number": f"{number:02d}", "piece": piece, "ink": "-".join(ink.lower().split())}
    told |= {"part": f"{which:02d}", "parts": f"{parts:02d}"}
    name = pattern.format(**told)
    return f"{name}-b{which:02d}" if parts > 1 and "{part}" not in pattern else name
