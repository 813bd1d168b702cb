"""The same household on rows of its own twice: used once, and nothing lost that only one row says.

Equal to the letter, or with the same names and door in other spellings ("17 cedarbrook ln" and "17
Cedarbrook Lane"), as a form has it that somebody sent in again. Of two spellings the one with
capitals is used, else the first; a unit, a title or an age more is no spelling, and is asked about.
"""

from dataclasses import dataclass, field

from addressing.guestlist.asking import finding
from addressing.guestlist.folding import fold
from addressing.guestlist.homes.doors import door, lives_at
from addressing.guestlist.households.duplicates import letters
from addressing.records.findings import Finding
from addressing.records.guests import Cited, Household, Kind, Repair, UnusedRow
from addressing.where import Where


@dataclass(slots=True)
class Merged:
    """Households with the findings of each, the rows left out as equal, what was mended in all."""

    households: list[Household] = field(default_factory=list)
    findings: list[tuple[Finding, ...]] = field(default_factory=list)
    unused: list[UnusedRow] = field(default_factory=list)
    repairs: list[Repair] = field(default_factory=list)
    known: dict[int, int] = field(default_factory=dict)
    """Where a household stands, by the hashes of its letters and of its names and door: of a long
    list the values themselves would fill the memory."""

    def add(self, household: Household, findings: tuple[Finding, ...]) -> None:
        """One household more, or one that is there already."""
        own, alike = letters(household), same_names_and_door(household)
        place = self._place_of(hash(own), hash(alike) if alike else None)
        twin = self.households[place] if place is not None else None
        if place is None or twin is None:
            self._note(own, alike)
            self.households.append(household)
            self.findings.append(findings)
        elif letters(twin) == own:
            self._leave_out(household, findings, place, "the same to the letter as")
        elif same_names_and_door(twin) == alike:
            self._once_respelled(household, findings, place)
        else:
            self.households.append(household)
            self.findings.append(findings)

    def _place_of(self, *keys: int | None) -> int | None:
        return next((self.known[key] for key in keys if key in self.known), None)

    def _note(self, *keys: tuple[object, ...]) -> None:
        for key in filter(None, keys):
            self.known.setdefault(hash(key), len(self.households))

    def _once_respelled(
        self, household: Household, findings: tuple[Finding, ...], place: int
    ) -> None:
        """Of two spellings the first stays, unless it alone is typed in one case."""
        twin, before = self.households[place], self.findings[place]
        if _in_one_case(twin) and not _in_one_case(household):
            self.households[place], self.findings[place] = household, findings
            household, findings = twin, before
        self._leave_out(household, findings, place, "the same names and address as")

    def _leave_out(
        self, household: Household, findings: tuple[Finding, ...], place: int, why: str
    ) -> None:
        first = self.households[place].rows[0]
        for where in household.rows:
            self.unused.append(UnusedRow(where.sheet, where.row or 0, f"{why} {first}"))
        known = {(each.code, each.text) for each in self.findings[place]}
        beside = (
            each
            for each in _said_beside(household, findings)
            if (each.code, each.text) not in known
        )
        noted = finding(
            "duplicate-merged", household.rows[0], f"Equal to {first}; used once.", "Nothing to do."
        )
        self.findings[place] = (*self.findings[place], *beside, noted)


def same_names_and_door(household: Household) -> tuple[object, ...]:
    """Names in small letters, in any order, and the door; () without a door, or without names."""
    here = door(household.address)
    named = [p for p in household.people if p.given and p.family]
    if not here or not named or household.by_hand:
        return ()
    people = sorted(
        (
            *(_in_small(part or "") for part in (p.title, p.given, p.family, p.suffix)),
            str(p.age or ""),
            p.kind.value,
        )
        for p in household.people
    )
    address = household.address
    towns = (address.city, address.region) if address else ()
    label = _in_small(household.label.text) if household.label else ""
    family = _in_small(household.family.text) if household.family else ""
    return (tuple(people), label, family, lives_at(address), *map(_folded, towns))


def _in_small(text: str) -> str:
    """A name in small letters; accents and apostrophes are the client's own spelling, and stay."""
    return " ".join(text.casefold().split()).replace("’", "'")


def _folded(cited: Cited | None) -> str:
    return fold(cited.text) if cited is not None else ""


def _in_one_case(household: Household) -> bool:
    """True where the names are all in small letters, or all in capitals."""
    names = " ".join(
        part
        for p in household.people
        if p.kind is not Kind.GUEST
        for part in (p.given, p.family)
        if part
    )
    return names in (names.lower(), names.upper())


def _said_beside(household: Household, findings: tuple[Finding, ...]) -> list[Finding]:
    """What a row says besides its names and its address: its notes, remarks, replies."""
    own = _cells(household)
    return [each for each in findings if each.code == "remark" or each.where not in own]


def _cells(household: Household) -> set[Where]:
    address = household.address
    parts = (
        (address.street, address.unit, address.city, address.region, address.postcode,
         address.country, address.recipient_extra)
        if address
        else ()
    )  # fmt: skip
    placed = {cell for part in parts if part is not None for cell in part.cells}
    return placed | {cell for p in household.people for cell in p.cells} | set(household.rows)
