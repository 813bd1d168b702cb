"""What a division of lines costs, summed over all lines of a piece; weights in a table."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from addressing.records.pieces import Line
from addressing.tables import table

Neighbours = tuple[tuple[int, float], ...]
"""The lines above, at most two, lowest last: of which worded line each is, and how wide (em)."""


@dataclass(frozen=True, slots=True)
class _Rule:
    """A row of the table: its weight, where it begins, whom it is about."""

    weight: float
    limit: float
    words: frozenset[str]


@cache
def _rules() -> dict[str, _Rule]:
    """The rules by their keys."""
    return {
        row["key"]: _Rule(
            float(row["demerits"]), float(row["limit"] or 0), frozenset(row["words"].split())
        )
        for row in table("line_demerits")
    }


def of_wording(number: int) -> float:
    """What a wording costs that is the `number`th from 0."""
    return number * _rules()["wording"].weight


def of_breaks(line: Line, offsets: Sequence[int], parts: Sequence[str]) -> float:
    """What it costs to break a line at these offsets into these parts, whatever their widths."""
    if not offsets:
        return 0.0
    rules = _rules()
    cost = len(offsets) * rules["break"].weight
    cost += sum(rules["later"].weight for offset in offsets if offset != line.breaks[0])
    for part in parts:
        letters = sum(map(str.isalpha, part))
        if " " not in part and letters <= rules["lonely"].limit:
            cost += rules["lonely"].weight
    joining = rules["joining"]
    ends = (part.rpartition(" ")[2].casefold() for part in parts[:-1])
    return cost + sum(joining.weight for end in ends if end in joining.words)


def of_shape(above: Neighbours, below: tuple[int, float], *, widening: bool) -> float:
    """What it costs that a line stands under those above.

    Parts of one line should be of like width, the upper one rather the wider (with `widening`, the
    lower one), and no line much narrower than both its neighbours.
    """
    if not above:
        return 0.0
    rules = _rules()
    source, width = below
    cost = 0.0
    if above[-1][0] == source:
        gain = _share(width, above[-1][1])
        swells = gain < 0 if widening else gain > 0
        cost += gain * gain * (rules["uneven"].weight + (rules["swell"].weight if swells else 0.0))
    if len(above) > 1:
        narrower = min(above[0][1], width)
        share = _share(narrower, above[1][1])
        if share > rules["waist"].limit:
            cost += share * share * rules["waist"].weight
    return cost


def full() -> float:
    """The share of the room's width from which on a line may be too heavy."""
    return _rules()["full"].limit


def is_heavy(width: float, others: Sequence[float], room: float) -> bool:
    """True where a line takes up most of the room and dwarfs all others; lengths are in one unit.

    The fuller the room, the sooner: of two lines over one street the wider is broken first. A line
    alone dwarfs nothing: of it ask `airy`.
    """
    widest, rules = max(others, default=0.0), _rules()
    heavy, brim, most = rules["heavy"].limit, rules["brim"].limit, full()
    filled = min(width / room, 1.0)
    if widest <= 0 or filled <= most:
        return False
    return widest * (heavy - (heavy - brim) * (filled - most) / (1 - most)) < width


def airy() -> float:
    """The share of the room's width up to which a line may take it that stands alone."""
    return _rules()["alone"].limit


def _share(one: float, other: float) -> float:
    """How much wider one is than the other, as a share of the wider; below 0 it is narrower."""
    wider = max(one, other)
    return (one - other) / wider if wider > 0 else 0.0
