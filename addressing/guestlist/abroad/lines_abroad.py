"""The street lines of an address abroad: care of, flat and street told apart, nothing corrected."""

import itertools
from dataclasses import dataclass, replace

from addressing.guestlist.abroad.parts_abroad import (
    Kind,
    Part,
    as_cited,
    cited_lines,
    has_road_word,
    is_unit,
    kind_abroad,
    unit_behind,
    unit_in_front,
)
from addressing.guestlist.written import joined
from addressing.records.guests import Cited
from addressing.tables import lookup

_MOST_LINES = 3
"""A cell of one line makes so many lines at most: an envelope has room for no more."""


@dataclass(frozen=True, slots=True)
class Lines:
    """Who takes it in, the street (lines parted by a line feed), the flat."""

    extra: Cited | None
    street: Cited | None
    unit: Cited | None


def street_lines(parts: tuple[Part, ...], country: str, unit: Cited | None) -> Lines:
    """Sort what is left of the street cells; `unit` is the unit's own column."""
    care = [part for part in parts if kind_abroad(part.text) is Kind.CARE]
    rest = [part for part in parts if kind_abroad(part.text) is not Kind.CARE]
    if unit is None:
        unit, rest = _unit_apart(rest, country)
    lines = cited_lines(rest)
    if len(lines) == 1:
        lines = _fewer(_gathered(rest))
    cited = tuple(as_cited(line) for line in lines)
    return Lines(
        joined(tuple(as_cited([part]) for part in care)) if care else None,
        joined(cited) if cited else None,
        unit,
    )


def _unit_apart(parts: list[Part], country: str) -> tuple[Cited | None, list[Part]]:
    """(unit, the other parts), where the unit stands where the country writes it.

    A flat between a house's name and its street stays where it is.
    """
    place = lookup("place_forms", "country", "unit").get(country)
    if place == "first" and parts:
        return _unit_first(parts)
    street = next(
        (n for n, part in enumerate(parts) if kind_abroad(part.text) is Kind.STREET), None
    )
    if place != "behind" or street is None:
        return None, parts
    if street + 1 < len(parts) and kind_abroad(parts[street + 1].text) is Kind.NUMBER:
        street += 1
    line, unit = unit_behind(parts[street].text)
    units = [replace(parts[street], text=unit)] if unit else []
    end = street + 1
    while end < len(parts) and is_unit(parts[end].text):
        units.append(parts[end])
        end += 1
    if not units:
        return None, parts
    kept = replace(parts[street], text=line)
    return as_cited(units), [*parts[:street], kept, *parts[end:]]


def _unit_first(parts: list[Part]) -> tuple[Cited | None, list[Part]]:
    """A flat at the very front, or behind everything: Flat 3, 14 Larkmoor Road."""
    front = 0
    while front < len(parts) - 1 and is_unit(parts[front].text):
        front += 1
    if front:
        return as_cited(parts[:front]), parts[front:]
    unit, street = unit_in_front(parts[0].text)
    if unit is not None:
        head = parts[0]
        return as_cited([replace(head, text=unit)]), [replace(head, text=street), *parts[1:]]
    if len(parts) > 1 and is_unit(parts[-1].text) and has_road_word(parts[-2].text):
        return as_cited(parts[-1:]), parts[:-1]
    return None, parts


def _gathered(parts: list[Part]) -> list[list[Part]]:
    """Lines of a cell without line breaks: numbers and flats stay with their street."""
    lines: list[list[Part]] = []
    for part in parts:
        kind = kind_abroad(part.text)
        leads = bool(lines) and kind_abroad(lines[-1][-1].text) in (Kind.UNIT, Kind.NUMBER)
        alone = leads and len(lines[-1]) == 1
        if lines and (kind in (Kind.UNIT, Kind.NUMBER) or alone):
            lines[-1].append(part)
        else:
            lines.append([part])
    return lines


def _fewer(lines: list[list[Part]]) -> list[list[Part]]:
    """Join the two shortest neighbours until there are few enough."""
    while len(lines) > _MOST_LINES:
        sizes = [len(as_cited(a + b).text) for a, b in itertools.pairwise(lines)]
        place = sizes.index(min(sizes))
        lines = [*lines[:place], lines[place] + lines[place + 1], *lines[place + 2 :]]
    return lines
