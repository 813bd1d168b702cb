"""The note on a sheet of corrections says by name whom it adds and whom it speaks of."""

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import replace

from addressing.records.findings import Finding
from addressing.records.guests import Household

READ = "corrections-read"
"""The code of the note."""
_SHOWN = 12
"""Households named in a note at most."""


def with_names(
    notes: Iterable[Finding], households: Sequence[Household], said: Collection[Finding]
) -> Iterator[Finding]:
    """The notes on the file, those on sheets of corrections with the names.

    `said` is what the sheets say of households.
    """
    for note in notes:
        yield _named(note, households, said) if note.code == READ else note


def _named(note: Finding, households: Sequence[Household], said: Collection[Finding]) -> Finding:
    sheet = note.where.sheet
    asked = {each.household for each in said if each.where.sheet == sheet and each.holds}
    others = {each.household for each in said if each.where.sheet == sheet} - asked
    added = [home for home in households if any(row.sheet == sheet for row in home.rows)]
    rest = [home for home in households if home not in added]
    parts = (
        ("Added", [home.name for home in added]),
        ("Asked about", [home.name for home in rest if home.key in asked]),
        ("Nothing follows for", [home.name for home in rest if home.key in others]),
    )
    told = (f"{what}: {_shown(names)}." for what, names in parts if names)
    return replace(note, text=" ".join((note.text, *told)))


def _shown(names: Sequence[str]) -> str:
    more = f" and {len(names) - _SHOWN} more" if len(names) > _SHOWN else ""
    return ", ".join(names[:_SHOWN]) + more
