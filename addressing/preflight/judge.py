"""The door of the room: one plate, one verdict."""

from collections import Counter
from collections.abc import Iterator, Sequence
from math import inf
from pathlib import Path

from addressing.faults import Fault
from addressing.preflight.bench import Bench, Bodies, on_sheets, sharing_faults
from addressing.preflight.choking import chokes_of
from addressing.preflight.container import read_container
from addressing.preflight.faces import Faces
from addressing.preflight.fineness import fineness
from addressing.preflight.forms import form_faults
from addressing.preflight.laying import laid, reach_faults
from addressing.preflight.pages import card_faults
from addressing.preflight.shares import FaultyPage, Share, judge_shares
from addressing.preflight.sheets import card_order_faults
from addressing.preflight.skeleton import read_skeleton
from addressing.preflight.values import Objection
from addressing.records.pages import Setting
from addressing.records.pieces import Piece
from addressing.records.plates import PlateOrder, Verdict
from addressing.records.shelf import Box

Part = tuple[PlateOrder, Setting, Sequence[Piece]]
"""What the judge is given of a kind on a plate."""

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
    try:
        parts = ((order, setting, pieces), *others)
        faults.extend(_judged(path, parts, (counted, fine)))
    except Objection as objection:
        faults.append(str(objection))
    except Fault:
        raise  # not of the plate's making
    except Exception as error:  # noqa: BLE001  # any bytes at all get a verdict
        faults.append(f"The plate couldn't be judged to its end ({type(error).__name__}).")
    if not faults and not (counted["glyphs"] and counted["pages seen as pixels"]):
        faults.append("Nothing on the plate could be judged.")
    return Verdict(order.name, _listed(faults), tuple(counted.items()), *(fine or [(inf, inf)])[0])


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
    opened = [Faces(its, None if order.chokes else order.ink) for _, its, _ in parts]
    faces = max(opened, key=lambda each: each.count)
    chokes = chokes_of(parts[0][1], faces) if order.chokes else ()
    letters = [
        fault
        for glyph, number in skeleton.forms.items()
        for fault in form_faults(file, (number, glyph), faces, chokes)
    ]
    sound = file.sealed and not skew and not letters
    benches = [
        Bench(file, skeleton, own, its, _by_household(own, pieces), its_faces, at, sound)
        for (own, its, pieces), its_faces in zip(parts, opened, strict=True)
    ]
    bench = benches[0]
    if order.sheets is not None:
        for each in benches:
            yield from card_order_faults(each.order, each.setting)
            yield from card_faults(each)
        yield from sharing_faults(benches)
        bench = on_sheets(benches)
        counted["cards"] = sum(len(each.setting.pieces) for each in benches)
    yield from skew
    yield from _order_faults(bench)
    shares = judge_shares(bench, path)
    for share in shares:
        yield from share.file
    counted["pages"] = len(skeleton.pages)
    counted["lines"] = sum(share.lines for share in shares)
    counted["glyphs"] = sum(share.letters for share in shares)
    counted["forms"] = len(skeleton.forms)
    counted["pages seen as pixels"] = sum(share.seen for share in shares)
    yield from _use_faults(bench, shares)
    yield from letters
    yield from _page_faults(bench, shares)
    if not letters and not order.chokes:
        measured = [fineness(its, order.ink, faces, skeleton.forms) for _, its, _ in parts]
        fine.append((min(one for one, _ in measured), min(two for _, two in measured)))


def _by_household(order: PlateOrder, pieces: Sequence[Piece]) -> dict[str | None, Piece]:
    return {piece.household: piece for piece in pieces if piece.kind == order.kind}


def _order_faults(bench: Bench) -> Iterator[str]:
    """What was ordered against what was set: households, size, room."""
    order, setting = bench.order, bench.setting
    found, wanted = len(bench.skeleton.pages), len(order.households)
    if found != wanted:
        yield f"The plate has {found} pages; {wanted} were ordered."
    base = (setting.underbase.ink,) if setting.underbase is not None else ()
    if order.kind != setting.kind or order.ink not in (base if order.chokes else setting.inks):
        yield f"The plate was ordered for another piece or ink than was set: {order.kind}."
    if tuple(placed.household for placed in setting.pieces) != order.households:
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


def _use_faults(bench: Bench, shares: Sequence[Share]) -> Iterator[str]:
    """Every object has one use; every letter that was asked for is there, and no other."""
    skeleton = bench.skeleton
    uses = Counter(skeleton.used)
    for share in shares:
        uses.update(share.contents)
    idle = [n for n in range(1, bench.file.count + 1) if n not in uses]
    if idle:
        yield f"Something in the file belongs to no page: {_objects(idle)}."
    if twice := sorted(number for number, times in uses.items() if times > 1 and number):
        yield f"Something in the file is used twice: {_objects(twice)}."
    asked = frozenset().union(*(share.used for share in shares))
    if unasked := sorted(skeleton.forms.keys() - asked):
        yield f"The plate holds letters that no line uses: {_some(unasked)}."
    if lacking := sorted(asked - skeleton.forms.keys()):
        yield f"The plate lacks letters that its lines use: {_some(lacking)}."


def _objects(numbers: list[int]) -> str:
    """Objects of the file by their numbers."""
    return f"object{'s' if len(numbers) > 1 else ''} {_some(numbers)}"


def _some(numbers: list[int]) -> str:
    """The first few of many numbers."""
    return ", ".join(map(str, numbers[:8])) + (", …" if len(numbers) > 8 else "")  # noqa: PLR2004


def _page_faults(bench: Bench, shares: Sequence[Share]) -> Iterator[str]:
    """The faults of pages, with whose piece it is where a page carries another's."""
    faulty = [page for share in shares for page in share.faulty]
    total = len(bench.skeleton.pages)
    owners: dict[Bodies, str | None] = {}
    if any(page.bodies for page in faulty) or total != len(bench.order.households):
        owners = {bench.bodies(placed): placed.household for placed in bench.setting.pieces}
        yield from _tally_faults(bench, faulty, owners)
    for page in faulty:
        yield from _told(bench, page, owners)
    if more := sum(share.unlisted for share in shares):
        yield f"{more} more pages are wrong."


def _tally_faults(
    bench: Bench, faulty: list[FaultyPage], owners: dict[Bodies, str | None]
) -> Iterator[str]:
    """Households that are on no page, or on several.

    Of one whose page carries nobody's piece, that page's own sentence tells more (which line, and
    whether letters or places differ).
    """
    households = bench.order.households
    carried: dict[int, str | None] = dict(enumerate(households[: len(bench.skeleton.pages)]))
    for page in faulty:
        if page.bodies is not None:
            carried[page.index] = owners.get(page.bodies, "")
    times = Counter(carried.values())
    for place, household in enumerate(households):
        if not times[household] and carried.get(place) != "":
            yield f"{_whose(household)} is on no page of the plate."
        elif times[household] > 1 and households.index(household) == place:
            places = [index + 1 for index, key in carried.items() if key == household]
            yield f"{_whose(household)} is on {times[household]} pages: {_some(places)}."


def _whose(household: str | None) -> str:
    """How a sentence on a household's piece begins."""
    return "The piece" if household is None else f"Household {household}"


def _told(bench: Bench, page: FaultyPage, owners: dict[Bodies, str | None]) -> Iterator[str]:
    """The sentences for one page."""
    households = bench.order.households
    household = households[page.index] if page.index < len(households) else None
    name = f"Page {page.index + 1}" + (f" ({household})" if household else "")
    owner = owners.get(page.bodies, household) if page.bodies is not None else household
    if owner != household:
        yield f"{name} carries the piece of {owner}."
        return
    for wrong in page.wrong:
        yield f"{name} {wrong.rstrip('.')}."
