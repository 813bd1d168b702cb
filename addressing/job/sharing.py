"""Kinds of pieces on the same sheets: whether they may share them, and how they lie there."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from addressing.faults import Exit, Fault
from addressing.job.set_kinds import SetKind
from addressing.materials.sheeting import page_of, with_margin
from addressing.plates import plan_sheets
from addressing.records.docket import Docket
from addressing.records.pages import Setting, numbered_alike
from addressing.records.set_pieces import households_of
from addressing.records.sheets import Imposition, SheetChoice
from addressing.records.shelf import Ink, Press
from addressing.typesetting import chokes
from addressing.where import Where


@dataclass(frozen=True, slots=True)
class Sharing:
    """What the kinds on a plate have in common: its name's piece, how many sheets each part has.

    `copies` are of each sheet, where all on it is the same for all.
    """

    piece: str
    sheets: tuple[int, ...]
    copies: int
    laid: tuple[frozenset[Ink], ...] = ()
    """The inks in which anything stands on each part; () for a kind alone: its own."""


def on_sheets(kinds: Sequence[SetKind], docket: Docket, press: Press | None) -> tuple[SetKind, ...]:
    """The kinds with how they lie on their sheets, where the docket lays several cards on one.

    Raises:
        Fault: exit 3: kinds that can't share a sheet; as `plan_sheets` and `page_of`.
    """
    by_kind = {kind.kind: kind for kind in kinds}
    for choice in docket.sheets:
        there = _made(choice, by_kind)
        if there is None:
            continue
        its = [by_kind[kind] for kind in there.kinds]
        _check(there, its)
        sizes = {kind.kind: (kind.setting.layout.width, kind.setting.layout.height) for kind in its}
        plans = plan_sheets(with_margin(there, press), page_of(there, press), sizes)
        shared = there.kinds if len(its) > 1 else ()
        for kind in its:
            by_kind[kind.kind] = replace(kind, sheets=plans[kind.kind], shared=shared)
    return tuple(by_kind[kind.kind] for kind in kinds)


def _made(choice: SheetChoice, kinds: dict[str, SetKind]) -> SheetChoice | None:
    """The choice with the kinds that are made; None where none is.

    Raises:
        Fault: `sheet-kind-missing`: a front without its back, or the other way round (exit 3).
    """
    if not any(kind in kinds for kind in choice.kinds):
        return None
    missing = [kind for kind in choice.kinds if kind not in kinds]
    if choice.behind is not None and missing:
        text = (
            f"{choice.piece} and {choice.behind} are front and back, and {missing[0]} isn't made."
        )
        mend = f'Add "{missing[0]}" to [pieces] make, or leave out behind.'
        raise _fault(choice, "sheet-kind-missing", text, mend)
    beside = tuple(other for other in choice.beside if other.piece in kinds)
    if choice.piece in kinds:
        return replace(choice, beside=beside)
    first, *others = beside
    return replace(
        choice, piece=first.piece, across=first.across, down=None, folds=(), beside=tuple(others)
    )


def _check(choice: SheetChoice, kinds: Sequence[SetKind]) -> None:
    """Whether kinds may share a plate: one stock, one ink, lettered alike.

    Raises:
        Fault: `sheet-kinds-differ` (exit 3).
    """
    first = kinds[0]
    for kind in kinds[1:]:
        setting = kind.setting
        unlike = (
            (_unlike("on", first.stock.title, kind.stock.title), kind.stock.key != first.stock.key),
            (
                _unlike("in", _inked(first.setting), _inked(setting)),
                setting.chosen != first.setting.chosen,
            ),
            (
                _unlike("lettered in", first.setting.lettered, setting.lettered),
                not numbered_alike(setting.hands, first.setting.hands),
            ),
            ("have a base that is drawn in otherwise", chokes(setting) != chokes(first.setting)),
            ("have a varnish over other lines", setting.varnish != first.setting.varnish),
            (
                "differ: the fronts are the same for all, the backs aren't",
                _mixed(choice, first, kind),
            ),
        )
        why = next((said for said, true in unlike if true), None)
        if why is not None:
            raise _fault(
                choice,
                "sheet-kinds-differ",
                f"{first.kind} and {kind.kind} can't share a plate: they {why}.",
                "Give them the same paper, ink and face ([[piece]]), or a [[sheet]] each; the side "
                "with names is the front.",
            )


def _unlike(how: str, one: str, other: str) -> str:
    """Two things that differ; where they are called alike, it is in how they are used."""
    return f"are {how} {one} and {other}" if one != other else f"are not alike {how} {one}"


def _inked(setting: Setting) -> str:
    return " with ".join(ink.key for ink in setting.chosen)


def _mixed(choice: SheetChoice, front: SetKind, back: SetKind) -> bool:
    return choice.behind is not None and front.static and not back.static


def _fault(choice: SheetChoice, code: str, text: str, mend: str) -> Fault:
    return Fault(
        Exit.INPUT, code, text, mend, Where("docket", None, f"docket:sheet.{choice.piece}")
    )


def on_one_sheet(
    kinds: Sequence[SetKind], *, reverse: bool
) -> Iterator[tuple[tuple[str, ...], Imposition]]:
    """For each set of sheets the kinds on it, and how the first of them lies there.

    `reverse` says that the last sheet of a set with names is printed first.
    """
    for its in groups(kinds):
        if its[0].sheets is not None:
            turned = reverse and not all(kind.static for kind in its)
            yield tuple(kind.kind for kind in its), replace(its[0].sheets, reverse=turned)


def backs_of(kinds: Sequence[SetKind]) -> tuple[str, ...]:
    """The kinds that are the other side of a card."""
    return tuple(each.kind for each in kinds if each.sheets is not None and each.sheets.behind)


def groups(kinds: Sequence[SetKind]) -> tuple[tuple[SetKind, ...], ...]:
    """The kinds of a job by the plates that they share, in order of print.

    On a plate those with names come first: a sheet goes by its first card.
    """
    made: dict[tuple[str, ...], tuple[SetKind, ...]] = {}
    by_kind = {kind.kind: kind for kind in kinds}
    for kind in kinds:
        shared = tuple(other for other in kind.shared if other in by_kind) or (kind.kind,)
        its = sorted((by_kind[other] for other in shared), key=lambda its: its.static)
        made.setdefault(shared, tuple(its))
    return tuple(made.values())


def sharing_of(
    members: Sequence[tuple[SetKind, Setting, int, int]],
) -> Sharing | None:
    """What kinds on the same sheets have in common; None for a kind alone.

    Args:
        members: each kind, what is printed of it now, how many pieces a part of it has at most,
            and how many copies are wanted.

    Raises:
        Fault: `sides-unlike`: not every front has its back (exit 3).
    """
    if len(members) == 1:
        return None
    _check_sides(members)
    named = [(kind, setting, most) for kind, setting, most, _ in members if not kind.static]
    parts = max((-(-len(its.pieces) // most) for _, its, most in named), default=1)
    sheets = [0] * parts
    laid = [frozenset(ink for kind, its, *_ in members if kind.static for ink in its.laid)] * parts
    for kind, setting, most in named:
        for part in range(parts):
            own = setting.pieces[part * most : (part + 1) * most]
            sheets[part] = max(sheets[part], kind.sheets.sheets(len(own)) if kind.sheets else 0)
            laid[part] |= set(replace(setting, pieces=own).laid)
    wanted = {kind: -(-many // kind.sheets.each) for kind, _, _, many in members if kind.sheets}
    alike = max((n for kind, n in wanted.items() if kind.static and not _turned(kind)), default=0)
    sheets[-1] += max(0, alike - sum(sheets)) if named else 0
    copies = max(wanted.values(), default=1)
    piece = "-".join(kind.kind for kind, *_ in members)
    return Sharing(piece, tuple(sheets), 1 if named else copies, tuple(laid))


def _turned(kind: SetKind) -> bool:
    """Whether it lies with its other side on one plate: then there are as many as of that."""
    return kind.sheets is not None and bool(kind.sheets.turn)


def _check_sides(members: Sequence[tuple[SetKind, Setting, int, int]]) -> None:
    (front, fronts, *_), (back, backs, *_) = members[:2]
    if front.sheets is None or not front.sheets.turn or back.static:
        return
    one, other = (households_of(its.pieces) for its in (fronts, backs))
    if one != other:
        lacking = next(iter(set(one) ^ set(other)), None)
        raise Fault(
            Exit.INPUT,
            "sides-unlike",
            f"{front.kind} and {back.kind} are front and back, but not every card has both: "
            f"{lacking}.",
            "Choose kinds of which every household has as many, or give each a [[sheet]] of its "
            "own.",
            Where("docket", None, f"docket:sheet.{front.kind}"),
        )
