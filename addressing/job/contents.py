"""What of the suite goes into whose envelope, and which shop prints it."""

import re
from collections import Counter
from collections.abc import Iterator

from addressing.faults import Exit, Fault
from addressing.guestlist.folding import fold
from addressing.records.docket import Docket
from addressing.records.guests import GuestList, Household
from addressing.records.postage import SuitePiece
from addressing.where import Where

HOME, ABROAD = "home", "abroad"
"""Words of `only` that every list has, beside its own suites and rounds."""

_PARTS = re.compile(r"[,;+&/]")
"""What parts several suites in one cell: "Welcome dinner + brunch" (common practice)."""


def contents_of(docket: Docket, home: Household) -> tuple[SuitePiece, ...]:
    """The pieces of the suite that a household gets, in the docket's order."""
    return tuple(piece for piece in docket.suite if _gets(docket, home, piece))


def is_abroad(docket: Docket, home: Household) -> bool:
    """True where it lives in another country than the hosts."""
    country = home.address.country if home.address else None
    return country is not None and country.text != home_of(docket)


def home_of(docket: Docket) -> str:
    """The sender's country (alpha-2): the hosts', else the United States."""
    return docket.hosts.country if docket.hosts else "US"


def check_only(guest_list: GuestList, docket: Docket) -> None:
    """See that each piece of the suite is for somebody whom the list can tell.

    Raises:
        Fault: the list has no such suite or round (exit 3).
    """
    named = Counter(name for home in guest_list.households for name in _named(home))
    known = {HOME, ABROAD, *map(fold, named)}
    for number, piece in enumerate(docket.suite, start=1):
        for name in piece.only:
            if fold(name) not in known:
                key = f"docket:suite[{number}].only"
                raise _unknown(name, piece, named, Where(docket.path or "docket", None, key))


def _gets(docket: Docket, home: Household, piece: SuitePiece) -> bool:
    where = ABROAD if is_abroad(docket, home) else HOME
    whose = {where, *map(fold, _named(home))}
    return not piece.only or any(fold(name) in whose for name in piece.only)


def _named(home: Household) -> Iterator[str]:
    """The suites and the round that the list gives a household: whole cells, and their parts."""
    for cell in (home.suite, home.wave):
        if cell is not None:
            yield from dict.fromkeys((cell.text, *map(str.strip, _PARTS.split(cell.text))))


def _unknown(name: str, piece: SuitePiece, named: Counter[str], where: Where) -> Fault:
    has = ", ".join(f'"{each}"' for each in sorted(named)) or "neither suites nor rounds"
    return Fault(
        Exit.INPUT,
        "suite-unknown",
        f'The docket has {piece.name} for "{name}" alone; the list has {has}.',
        'Write it as the list has it, or "home" or "abroad"; left out, it is for everybody.',
        where,
    )
