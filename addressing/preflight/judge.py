"""The door of the room: one plate, one verdict."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import chain
from math import inf
from pathlib import Path

from addressing.faults import Fault
from addressing.preflight.bench import (
    Bench,
    Opened,
    Part,
    by_household,
    on_sheets,
    opened_for,
    sharing_faults,
)
from addressing.preflight.choking import chokes_of
from addressing.preflight.container import Container, read_container
from addressing.preflight.faces import Faces
from addressing.preflight.fineness import fineness
from addressing.preflight.forms import form_faults
from addressing.preflight.heights import height_faults
from addressing.preflight.laying import laid, reach_faults
from addressing.preflight.pages import card_faults
from addressing.preflight.shares import Share, judge_shares
from addressing.preflight.sheets import card_order_faults
from addressing.preflight.skeleton import Skeleton, read_skeleton
from addressing.preflight.telling import objects_told, page_faults
from addressing.preflight.values import Objection
from addressing.records.pages import Setting
from addressing.records.pieces import Piece
from addressing.records.plates import PlateOrder, Verdict
from addressing.records.set_pieces import households_of
from addressing.records.shelf import Box, Ink

LISTED = 20
"""Faults that are told one by one."""


def judge_plate(
    path: Path,
    order: PlateOrder,
    setting: Setting,
    pieces: Sequence[Piece],
    others: Sequence[Part] = (),
) -> Verdict:
    """Prove a plate by its bytes: file, ink, letters, words, places, pixels.

    Args:
        path: the plate, whatever it may hold.
        order: what the plate must be; its households are those that are expected, in page order.
        setting: what stands on each page, in the same order as the order's households.
        pieces: the worded pieces, in any order; matched by household.
        others: the same of each other kind that shares the plate's sheets.

    Returns:
        The verdict: whatever the bytes are, never an error. Faults name the page and the
        household's key, never a guest.

    Raises:
        Fault: the second process ended before its work was done (exit 70).
    """
    faults: list[str] = []
    counted: Counter[str] = Counter()
    fine: list[tuple[float, float]] = []
    parts = ((order, setting, pieces), *others)
    try:
        faults.extend(_judged(path, parts, (counted, fine)))
    except Objection as objection:
        faults.append(str(objection))
        faults.extend(_by_others(path, parts))
    except Fault:
        raise  # not of the plate's making
    except Exception as error:  # noqa: BLE001  # any bytes at all get a verdict
        faults.append(f"The plate couldn't be judged to its end ({type(error).__name__}).")
    if not faults and not (counted["glyphs"] and counted["pages seen as pixels"]):
        faults.append("Nothing on the plate could be judged.")
    return Verdict(order.name, _listed(faults), tuple(counted.items()), *(fine or [(inf, inf)])[0])


def _by_others(path: Path, parts: Sequence[Part]) -> tuple[str, ...]:
    """What another reader sees wrong in a file that isn't built as a plate; none where it can't."""
    from addressing.preflight.resaved import resaved_faults  # noqa: PLC0415 - as in shares

    try:
        return tuple(resaved_faults(path, parts))
    except Exception:  # noqa: BLE001  # any bytes at all get a verdict, and this one has its fault
        return ()


def _listed(faults: list[str]) -> tuple[str, ...]:
    """The first faults, each once, and how many more there are."""
    once = list(dict.fromkeys(faults))
    if len(once) <= LISTED:
        return tuple(once)
    return (*once[:LISTED], f"And {len(once) - LISTED} more.")


def _judged(
    path: Path, parts: Sequence[Part], seen: tuple[Counter[str], list[tuple[float, float]]]
) -> Iterator[str]:
    """All faults, the farthest-reaching first; `seen` takes what was counted and measured."""
    counted, fine = seen
    order = parts[0][0]
    at = laid(order)
    file = read_container(path, sum(len(each.households) for each, *_ in parts))
    skeleton, skew = read_skeleton(file, order)
    opened = [opened_for(parts, number) for number in range(len(order.apart))]
    sound = file.sealed and not skew
    drawn = {bool(its[0][0].chokes): its for its in opened}  # inks have their letters in common
    layers = []
    for ink, opening in zip(opened, skeleton.openings, strict=True):
        benches = [
            Bench(file, skeleton, opening, own, its, by_household(own, pieces), faces, at, sound)
            for own, its, pieces, faces in ink
        ]
        if order.sheets is not None:
            for each in benches:
                yield from card_order_faults(each.order, each.setting)
                # By faces of its own: those of the pages tell on which sheet a letter stands first.
                faces = Faces(each.setting, each.order, beside=bool(order.layers))
                yield from card_faults(replace(each, faces=faces))
            yield from sharing_faults(benches)
            counted["cards"] = sum(len(each.setting.pieces) for each in benches)
        layers.append(on_sheets(benches))
        yield from _order_faults(layers[-1], beside=bool(order.layers))
    bench = layers[0]
    read, letters, (measured, heights) = judge_shares(
        layers,
        path,
        lambda: [fault for its in drawn.values() for fault in _letter_faults(file, skeleton, its)],
        lambda letters: (
            [] if letters else list(_fineness(skeleton, opened)),
            [
                fault
                for _, its, _, faces in opened[0]
                for fault in height_faults(its, faces, cards=order.sheets is not None)
            ],
        ),
    )
    yield from heights
    yield from skew
    yield from _layering_faults(order, [its for _, its, _ in parts])
    yield from read.file
    counted["pages"] = len(skeleton.pages)
    counted["lines"] = read.lines
    counted["glyphs"] = read.letters
    counted["forms"] = len(skeleton.forms)
    counted["pages seen as pixels"] = read.seen
    if len(layers) > 1:
        counted["inks"] = len(layers)
    yield from letters
    yield from page_faults(layers, read)
    yield from _use_faults(bench, read)  # what is idle follows from the others as a rule
    fine.extend(measured)


def _letter_faults(file: Container, skeleton: Skeleton, opened: Opened) -> Iterator[str]:
    """What is wrong with the drawings of the letters of one ink."""
    order, setting = opened[0][:2]
    faces = max((each for *_, each in opened), key=lambda each: each.count)
    if skeleton.fonts:
        from addressing.preflight.embedded import font_faults  # noqa: PLC0415 - as in plates

        for font in skeleton.fonts:
            yield from font_faults(file, font, faces)
        return
    chokes = chokes_of(setting, faces) if order.chokes else ()
    for glyph, number in skeleton.forms.items():
        if faces.has(glyph):
            yield from form_faults(file, (number, glyph), faces, chokes)


def _fineness(skeleton: Skeleton, opened: Sequence[Opened]) -> Iterator[tuple[float, float]]:
    """The finest stroke and gap over all inks but a base, once."""
    measured = [
        fineness(its, order, faces, filter(faces.has, skeleton.forms))
        for ink in opened
        for order, its, _, faces in ink
        if not order.chokes
    ]
    if measured:
        yield min(one for one, _ in measured), min(two for _, two in measured)


def _layering_faults(order: PlateOrder, settings: Sequence[Setting]) -> Iterator[str]:
    """Whether a composite has all that is laid down, once, in the order of print."""
    if not order.layers:
        return
    for setting in settings:
        if set(order.inks) != set(setting.chosen):
            yield "The composite's inks aren't those that were chosen."
        elif order.inks != setting.chosen:
            yield "The composite's inks aren't in the order in which they are laid down."


def _inks_there(order: PlateOrder, setting: Setting, *, beside: bool) -> tuple[Ink, ...]:
    """The inks that a plate of that sort may be in: a base, a varnish, or an ink of lines.

    `beside` other inks in a composite an ink may have no line of the plate's pieces.
    """
    base = (setting.underbase.ink,) if setting.underbase is not None else ()
    coat = (setting.varnish.ink,) if setting.varnish is not None else ()
    if order.chokes:
        return base
    if order.varnish:
        return coat
    chosen = tuple(ink for ink in setting.chosen if ink not in (*base, *coat))
    return chosen if beside else setting.inks


def _order_faults(bench: Bench, *, beside: bool) -> Iterator[str]:
    """What was ordered against what was set: households, size, room."""
    order, setting = bench.order, bench.setting
    found, wanted = len(bench.skeleton.pages), len(order.households)
    if found != wanted:
        yield f"The plate has {found} pages; {wanted} were ordered."
    if order.kind != setting.kind or order.ink not in _inks_there(order, setting, beside=beside):
        yield f"The plate was ordered for another piece or ink than was set: {order.kind}."
    if households_of(setting.pieces) != order.households:
        yield "The households of the order aren't those that were set, in the same order."
    for household, times in Counter(order.households).items():
        if times == 1 or bench.parts:  # of cards on sheets each was counted
            continue
        if household is None:
            yield "The order has a page that is for no household more than once."
        else:
            yield f"The order has household {household} {times} times."
    if not Box(0.0, 0.0, *order.trim).holds(setting.room):
        yield "The room for ink reaches beyond the page."
    yield from reach_faults(order, bench.at, setting.room)


def _use_faults(bench: Bench, read: Share) -> Iterator[str]:
    """Every object has one use; every letter that was asked for is there, and no other."""
    skeleton = bench.skeleton
    used = bytearray(bench.file.count + 1)  # one byte an object: a plate may have many
    twice = set()
    tree = ((skeleton.top,), skeleton.branches, skeleton.pages)
    for number in chain(skeleton.shared, *tree, read.contents):
        if 0 < number < len(used):
            if used[number]:
                twice.add(number)
            used[number] = 1
    idle = [number for number, times in enumerate(used) if number and not times]
    if idle:
        yield f"Something in the file belongs to no page: {objects_told(idle)}."
    if twice:
        yield f"Something in the file is used twice: {objects_told(sorted(twice))}."
    asked = read.first.keys()
    if unasked := sorted(skeleton.forms.keys() - asked):
        yield f"The plate holds letters that no line uses ({len(unasked)} of them)."
    if lacking := sorted(asked - skeleton.forms.keys()):
        yield f"The plate lacks letters that its lines use ({len(lacking)} of them)."
