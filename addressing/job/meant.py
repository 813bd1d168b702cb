"""Which household a designer means: by its key, cell, name or a number that was read somewhere.

Or by a place that `check` tells. A number on a slip, or of a plate's page, is looked up on the
plates that lie in the job's folder, those of its reprints too.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path, PurePosixPath
from typing import Any

from addressing.faults import Exit, Fault
from addressing.job.asking import Listed
from addressing.job.printing import REPRINT, plates_with_homes
from addressing.job.which_prints import PRINT
from addressing.questions.corrections import Named, homes_named
from addressing.questions.halves import as_halves, first_half, with_halves
from addressing.records.findings import Finding
from addressing.records.guests import Household
from addressing.records.pieces import household_of
from addressing.records.questions import Applied


def named(listed: Listed, applied: Applied) -> Named:
    """Households by what the list calls them, by what they are called since, and by a place.

    A place is one that `check` tells: a remark about a household stands in no row of its own.
    """
    homes, now = with_halves(listed.guest_list.households, applied), as_halves(applied)
    by_key = {home.key: home for home in homes}

    def meant(name: str) -> tuple[Household, ...]:
        name = first_half(name, applied)
        return homes_named(homes, name, now) or told_at(listed.findings, by_key, name)

    return meant


_ON_PLATES = re.compile(
    r"(?i)(?P<where>prints?|.+\.pdf)\s*:\s*(?P<number>[0-9]{1,9})(?P<what>:.*)?"
)
"""A place in the order of print, or a page of a file; behind it what is meant of the household."""


def by_plates(folder: Path, name: str) -> str:
    """A household's key in place of a number that was read off plates; other names as they are.

    Raises:
        Fault: there is no such place, or it is another household's on other plates (exit 2).
    """
    said = _ON_PLATES.fullmatch(name.strip())
    if said is None:
        return name
    where, number = said["where"].strip(), int(said["number"])
    places = (folder, *sorted(folder.glob(f"{REPRINT}-[0-9]*")))
    found = {
        household_of(key): f"{name_} ({(place / plate['path']).relative_to(folder)})"
        for place in places
        for plate in plates_with_homes(place)
        for key, name_ in _at(plate, place, where, number)
    }
    if len(found) == 1:
        return f"{next(iter(found))}{said['what'] or ''}"
    text = f"No plate in {folder} has anybody at {where}:{number}."
    if found:
        text = f"{where}:{number} is {' and '.join(found.values())}."
    mend = "Give the household's name or key, or its number on the proof: proof:12."
    code = "number-unclear" if found else "number-unknown"
    raise Fault(Exit.OPTIONS, code, text, mend)


def _at(
    plate: Mapping[str, Any], place: Path, where: str, number: int
) -> Iterator[tuple[str, str]]:
    """Whose a plate's print or page of that number is: (key, name)."""
    homes = list(zip(plate["households"], plate["names"], strict=True))
    first, path = 1, PurePosixPath(f"{place.name}/{plate['path']}".casefold())
    if where.casefold().startswith(PRINT) and not where.casefold().endswith(".pdf"):
        first = plate.get("first") or 1
        homes = homes[::-1] if plate.get("reverse") else homes
    elif plate.get("up", 1) != 1 or not path.match(where.casefold()):
        return
    if number >= first:
        yield from homes[number - first :][:1]


def told_at(
    findings: Iterable[Finding], homes: Mapping[str, Household], place: str
) -> tuple[Household, ...]:
    """The households of which something is told at a place."""
    keys = dict.fromkeys(
        found.household for found in findings if found.household and str(found.where) == place
    )
    return tuple(homes[key] for key in keys if key in homes)


def names_of(listed: Listed, applied: Applied) -> Mapping[str, str]:
    """What each household is called by now, by its key; those who are left out as listed."""
    now = (*applied.guest_list.households, *as_halves(applied))
    homes = (*listed.guest_list.households, *applied.halves, *now)
    return {home.key: home.name for home in homes}
