"""A set of which pieces are on paper keeps their size, so that what comes later matches them.

One longer line may change the size that suits a set, and with it the place of every word. Of the
size that would be fitted afresh and those on paper that one is taken by which most prints are
right, of equals the fresh one: where nothing on paper could be right any more (another face,
another layout), the set is fitted as if nothing were. A docket's own size goes before all. In a
size that is on paper the set can't give way, so one piece may be set as small as the docket allows.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path

from addressing.guestlist.asking import finding
from addressing.job.set_kinds import SetKind
from addressing.ledger import LEDGER, fingerprint, open_ledger
from addressing.records.docket import PieceChoice
from addressing.records.findings import Finding
from addressing.records.prints import ON_PAPER, Print
from addressing.typesetting.complaints import points
from addressing.where import Where

KindFitted = tuple[SetKind, tuple[Finding, ...]]
"""One kind set, and what was found by it."""

_UNFIT = ("line-too-wide", "block-too-tall")
"""What another size for the whole set is proposed for."""


def prints_in(folder: Path | None) -> tuple[Print, ...]:
    """What of a job somebody may still receive, by its folder's ledger; nothing without one.

    Raises:
        Fault: as `open_ledger`.
    """
    if folder is None or not (folder / LEDGER).exists():
        return ()
    with open_ledger(folder) as ledger:
        return tuple(one for one in ledger.prints() if one.state in ON_PAPER)


def sized_as_printed(
    fit: Callable[[PieceChoice], KindFitted],
    choice: PieceChoice,
    prints: Sequence[Print],
    where: Where,
    *,
    live: bool,
) -> KindFitted:
    """A kind fitted by its choice, or in the size of its prints; `where` is the docket's cell."""
    fresh = fit(choice)
    own = [one for one in prints if one.wanted.kind == choice.kind]
    right = _right(fresh[0], own, live=live)
    taken = fresh
    for size in _sizes(own, choice, fresh[0]):
        other = fit(replace(choice, size=size, kept=True))
        matching = _right(other[0], own, live=live)
        if len(matching) > len(right):
            taken, right = other, matching
    if taken is fresh and right and choice.size is None and _lacks_one(fresh[1]):
        taken = fresh = fit(replace(choice, size=fresh[0].setting.size, kept=True))
    kind, found = taken
    homes = len({one.wanted.household for one in right})
    if homes:
        found = tuple(_with_cost(each, kind, homes) for each in found)
    if taken is not fresh:
        found = (*found, _kept(kind, fresh[0].setting.size, homes, where))
    return kind, found


def _lacks_one(found: Sequence[Finding]) -> bool:
    """True where a piece can't be set in the size of the set."""
    return any(each.code in _UNFIT for each in found)


def _sizes(prints: Sequence[Print], choice: PieceChoice, fresh: SetKind) -> list[float]:
    """The sizes on paper that the docket allows and that aren't the fresh one, the last first."""
    if choice.size is not None:
        return []
    sizes = dict.fromkeys(one.size for one in reversed(prints) if one.size is not None)
    allowed = (size for size in sizes if choice.smallest <= size <= choice.largest)
    return [size for size in allowed if size != fresh.setting.size]


def _right(kind: SetKind, prints: Sequence[Print], *, live: bool) -> list[Print]:
    """The prints that show what would be set now."""
    homes = {one.wanted.household for one in prints}
    now = {
        piece.household: fingerprint(kind.setting, piece, live=live)
        for piece in kind.setting.pieces
        if piece.household in homes
    }
    return [one for one in prints if now.get(one.wanted.household) == one.wanted.print]


def _kept(kind: SetKind, fresh: float, homes: int, where: Where) -> Finding:
    size, afresh = kind.setting.size, points(fresh)
    return finding(
        "size-kept",
        where,
        f"The {kind.kind} set keeps the {points(size)} of the {homes} on paper; fitted afresh it"
        f" would stand at {afresh}.",
        f"Nothing needs doing: later ones match. To print all again at {afresh}, put"
        f" size = {fresh:g} at this piece in the docket; the {homes} are wrong then.",
    )


def _with_cost(found: Finding, kind: SetKind, homes: int) -> Finding:
    """What can't be set, told with what another size for the set would cost."""
    if found.code not in _UNFIT:
        return found
    size = points(kind.setting.size)
    cost = f" {homes} of the set are on paper at {size}: at another size they are printed again."
    return replace(found, mend=found.mend + cost)
