"""What a docket says of cards that share a sheet: read, checked, and written out."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from addressing.faults import Exit, Fault
from addressing.materials.devices import known_sheets
from addressing.materials.nearest import did_you_mean
from addressing.materials.reading import Entry, Problem
from addressing.records.sheets import LEAST, Beside, SheetChoice
from addressing.records.shelf import Device, Press
from addressing.units import mm_to_pt, pt_to_mm
from addressing.where import Where

_SLACK = 0.05

Name = Annotated[str, Field(min_length=1)]
Fold = Annotated[float, Field(gt=0, le=1000)]


def _as_tables(value: object) -> object:
    """A kind's name alone, or a list of names, as what it stands for."""
    listed = [value] if isinstance(value, str | dict) else value
    if not isinstance(listed, list):
        return value
    return [{"piece": each} if isinstance(each, str) else each for each in listed]


class BesideEntry(Entry):
    """Another kind on the same sheets."""

    piece: Name
    across: int | None = Field(default=None, ge=1, le=100)
    down: int = Field(default=1, ge=1, le=100)


class SheetEntry(Entry):
    """One kind of piece on sheets, alone or with others."""

    piece: Name
    on: Name = "letter"
    turned: bool = False
    across: int | None = Field(default=None, ge=1, le=100)
    down: int | None = Field(default=None, ge=1, le=100)
    gutter_mm: float = Field(default=0.0, ge=0, le=100)
    margin_mm: float | None = Field(default=None, ge=LEAST, le=200)
    order: Literal["cut-and-stack", "rows"] = "cut-and-stack"
    folds_mm: list[Fold] = Field(default_factory=list, max_length=8)
    back: bool = False
    beside: Annotated[list[BesideEntry], BeforeValidator(_as_tables)] = Field(
        default_factory=list, max_length=8
    )
    behind: Name | None = None
    turn: Literal["work-and-turn", "work-and-tumble"] = "work-and-turn"

    @property
    def kinds(self) -> list[tuple[tuple[str | int, ...], str]]:
        """(where it says so, which) of each kind on the sheets."""
        told: list[tuple[tuple[str | int, ...], str]] = [(("piece",), self.piece)]
        told += [(("beside", at, "piece"), each.piece) for at, each in enumerate(self.beside)]
        return [*told, *([(("behind",), self.behind)] if self.behind is not None else [])]


def sheet_choices(entries: Sequence[SheetEntry]) -> tuple[SheetChoice, ...]:
    """The records."""
    return tuple(
        SheetChoice(
            piece=each.piece,
            on=each.on,
            turned=each.turned,
            across=each.across,
            down=each.down,
            gutter=each.gutter_mm,
            margin=each.margin_mm,
            order=each.order,
            folds=tuple(each.folds_mm),
            back=each.back,
            beside=tuple(Beside(own.piece, own.across, own.down) for own in each.beside),
            behind=each.behind,
            turn=each.turn,
        )
        for each in entries
    )


def sheet_problems(entries: Sequence[SheetEntry], kinds: Sequence[str]) -> Iterator[Problem]:
    """Pieces and sheets that nobody knows, pieces that are there twice, sides that can't be."""
    twice = Counter(kind for each in entries for _, kind in each.kinds)
    for at, each in enumerate(entries):
        for place, kind in each.kinds:
            if kind not in kinds:
                yield Problem(
                    ("sheet", at, *place), f'"{kind}" is no piece.', did_you_mean(kind, kinds)
                )
            if twice[kind] > 1:
                mend = "put it into one [[sheet]], once."
                yield Problem(("sheet", at, *place), f'"{kind}" is there twice.', mend)
        if each.on not in known_sheets():
            text = f'there is no sheet "{each.on}".'
            yield Problem(("sheet", at, "on"), text, did_you_mean(each.on, known_sheets()))
        if each.behind is not None and (each.beside or each.back):
            text = "cards with backs on the same plate have the sheet to themselves."
            yield Problem(("sheet", at, "behind"), text, "leave out beside and back.")
        if each.behind is None and each.turn != SheetEntry.model_fields["turn"].default:
            text = "it says how sheets with backs are turned over, and these have none."
            mend = 'name the kind on the backs, behind = "…", or leave out turn.'
            yield Problem(("sheet", at, "turn"), text, mend)


def sheet_rows(choice: SheetChoice) -> list[tuple[str, object, str, object]]:
    """A choice as rows of a docket: key, value, remark, example."""
    sheets = ", ".join(known_sheets())
    return [
        ("piece", choice.piece, "cards of this kind share a sheet, with marks to cut by", None),
        ("on", choice.on, f"one of {sheets}", None),
        ("turned", choice.turned, "true lays the sheet on its side", None),
        ("across", choice.across, "left out: as many as there is room for", 2),
        ("down", choice.down, "", 4),
        ("gutter_mm", choice.gutter, "between two cards; 0: one cut parts both", None),
        ("margin_mm", choice.margin, "around all cards; left out: the least that works", 15.0),
        ("order", choice.order, "cut-and-stack (piles in order) or rows", None),
        ("folds_mm", choice.folds, "from a card's lower edge: [50.8] for a tent card", None),
        ("back", choice.back, "true mirrors the columns, for the second side", None),
        ("beside", tuple(map(_row, choice.beside)), "other kinds below, of one stock and ink",
         (_row(Beside("reply-number")),)),
        ("behind", choice.behind, "the kind on their backs; one plate prints both sides", "reply"),
        ("turn", choice.turn, "work-and-turn or work-and-tumble (over head to foot)", None),
    ]  # fmt: skip


def _row(beside: Beside) -> dict[str, object]:
    across = {} if beside.across is None else {"across": beside.across}
    return {"piece": beside.piece, **across, "down": beside.down}


def with_margin(choice: SheetChoice, press: Press | None) -> SheetChoice:
    """The choice with a margin: its own, else what marks need, or the press's edge if wider."""
    if choice.margin is not None or press is None:
        return choice
    own = press.edges if isinstance(press, Device) else None
    edges = (own.lead, own.trail, own.left, own.right) if own is not None else (press.margin,)
    return replace(choice, margin=max(LEAST, pt_to_mm(max(edges))))


def page_of(choice: SheetChoice, press: Press | None) -> tuple[float, float]:
    """Width and height of a choice's sheet, upright, in points.

    Raises:
        Fault: exit 3, `sheet-not-fed`: the device doesn't take it, or can't print so near its edge.
    """
    sheet, choice = known_sheets()[choice.on], with_margin(choice, press)
    if isinstance(press, Device):
        fits = all(
            side <= most + _SLACK
            for side, most in zip(sorted(sheet.page), sorted(press.largest), strict=True)
        )
        if not fits or mm_to_pt(choice.around) + _SLACK < press.margin:
            raise Fault(
                Exit.INPUT,
                "sheet-not-fed",
                f"{press.title} can't print {choice.piece} on {sheet.title} with a margin of "
                f"{choice.around:g} mm: it takes {_size(press.largest)} and leaves "
                f"{pt_to_mm(press.margin):.3g} mm free.",
                "Choose a smaller sheet or a wider margin, or print at a shop.",
                Where("docket", None, f"docket:sheet.{choice.piece}"),
            )
    return sheet.page


def _size(size: tuple[float, float]) -> str:
    return " × ".join(f"{pt_to_mm(side):.5g}" for side in size) + " mm"
