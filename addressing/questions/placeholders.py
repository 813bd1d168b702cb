"""The words that a question's text can take from its finding and its household."""

from collections.abc import Collection, Iterable
from dataclasses import replace

from addressing.questions.noted_parts import part_of, speaks_of_one
from addressing.questions.showing import person_shown
from addressing.records.findings import Finding
from addressing.records.guests import Household, Kind, Person
from addressing.where import Where

TOGETHER = "\u2060"
"""Stands for a blank inside a family name; whoever reads names keeps such words together."""

_TWO = 2
Words = dict[str, str]
"""Placeholder → its words; one that isn't known is absent."""


def words_for(finding: Finding, home: Household | None) -> Words:
    """What is known for the texts of `data/answers.tsv`."""
    words = {"quoted": finding.quoted}
    for field, value in finding.likely:
        words.setdefault(f"likely_{field}", value)
    words["other_street"] = "yes" if finding.quoted and "likely_street" in words else ""
    words["in_care"] = "yes" if words.get("likely_lines", "").startswith("c/o ") else ""
    if home is not None:
        words |= _of_home(finding, home)
    return {name: text for name, text in words.items() if text}


def _of_home(finding: Finding, home: Household) -> Words:
    address = home.address
    named = [person for person in home.people if person.kind is Kind.NAMED]
    words = {
        name: cited.text
        for name in ("street", "city", "region", "postcode")
        if address and (cited := getattr(address, name))
    }
    place = address and (address.city or address.region or address.postcode or address.country)
    words["street_alone"] = "yes" if address and address.street and not place else ""
    words["inside"] = "yes" if set(finding.also) & set(home.rows) else ""
    words["crowd"] = "yes" if len(set(finding.also) - set(home.rows)) > 1 else ""
    words["labelled"] = "yes" if home.label else ""
    noted = any(field == "children" for field, _ in finding.likely)
    words["labelled_children"] = words["labelled"] if noted else ""
    words["shared"] = _shared(named)
    words["joined"] = _joined(named, finding.quoted)
    words |= _apart(named, finding.quoted)
    words |= _suffixed(named)
    words["fuller"] = _fuller(named, finding.quoted)
    words["spelled"] = _spelled(named, finding)
    words["accompanied"] = f"{_all(named)} and Guest" if named else ""
    words["with_family"] = f"{_all(named)} and family" if named else ""
    words |= _of_part(finding.quoted, home)
    words["paired"] = _paired(named, finding.quoted)
    return words | _turned(named, finding.where)


def _of_part(quoted: str, home: Household) -> Words:
    """The part of the household that a note speaks of; and whether it can only mean the one."""
    part = part_of(quoted, home)
    alone = "yes" if speaks_of_one(quoted, home) else ""
    return {"alone": alone} if part is None else {"part": part.shown, "part_value": part.value}


def _shared(named: Collection[Person]) -> str:
    """All with the one family name that the household has, if somebody lacks it."""
    families = {person.family for person in named if person.family}
    if len(families) != 1 or all(person.family for person in named):
        return ""
    family = next(iter(families))
    return _all(replace(person, family=family) for person in named)


def _joined(named: Collection[Person], quoted: str) -> str:
    """The two words taken as given names, with the family name of the one beside."""
    twofold = [p for p in named if quoted and f"{p.given} {p.family}" == quoted]
    families = {p.family for p in named if p not in twofold and p.family}
    if len(twofold) != 1 or len(families) != 1:
        return ""
    family = next(iter(families))
    return _all(
        replace(person, given=quoted, family=family) if person in twofold else person
        for person in named
    )


def _fuller(named: Collection[Person], quoted: str) -> str:
    """All, with the fuller name that one of them has beside the own one."""
    meant = [p for p in named if quoted and p.nickname == quoted and p.given]
    if len(meant) != 1:
        return ""
    given = " ".join((quoted, *(meant[0].given or "").split()[1:]))
    full = replace(meant[0], given=given, nickname=None)
    return _all(full if person in meant else person for person in named)


def _spelled(named: Collection[Person], finding: Finding) -> str:
    """All, with the given names in full of which the finding has the short forms."""
    full = [value for field, value in finding.likely if field == "given"]
    known = dict(zip(finding.quoted.split(", "), full, strict=False)) if full else {}
    if not known:
        return ""
    words = ([known.get(word, word) for word in (p.given or "").split()] for p in named)
    return _all(
        replace(person, given=" ".join(given) or None)
        for person, given in zip(named, words, strict=True)
    )


def _apart(named: Collection[Person], quoted: str) -> Words:
    """The names as read, and with a lone word that was lent a family name as one itself."""
    lone = [p for p in named if quoted and f"{p.title} {p.given}" == quoted and p.family]
    if len(lone) != 1:
        return {}
    own = replace(lone[0], given=None, family=f"{TOGETHER}{lone[0].given}")
    apart = (own if person in lone else person for person in named)
    return {"lent": _all(named), "apart": _all(apart)}


def _suffixed(named: Collection[Person]) -> Words:
    """The names with the suffix of the last one given to the first of two, and as they are read."""
    if len(named) != _TWO:
        return {"unsuffixed": _all(named)}
    first, last = named
    if first.suffix or not last.suffix:
        return {}
    moved = (replace(first, suffix=last.suffix), replace(last, suffix=None))
    return {"suffixed": _all(moved), "unsuffixed": _all(named)}


def _paired(named: Collection[Person], quoted: str) -> str:
    """The last two words taken as the family name, for all who bear it ("Mr. and Mrs. Luis …")."""
    twofold = [p for p in named if quoted and p.given and f"{p.given} {p.family}" == quoted]
    given, _, first = (
        (twofold[0].given or "").rpartition(" ") if len(twofold) == 1 else ("", "", "")
    )
    if not given:
        return ""
    old = twofold[0].family
    family = f"{first} {old}".replace(" ", TOGETHER)
    alike = {p: replace(p, family=family) for p in named if p.given is None and p.family == old}
    alike[twofold[0]] = replace(twofold[0], given=given, family=family)
    return _all(alike.get(person, person) for person in named)


def _turned(named: Collection[Person], where: Where) -> Words:
    """The names as read and with given and family name changed, where the cell has one person."""
    meant = [p for p in named if where in p.cells and p.given and p.family]
    if len(meant) != 1:
        return {}
    turned = replace(meant[0], given=meant[0].family, family=meant[0].given)
    return {"straight": _all(meant), "turned": _all([turned])}


def _all(people: Iterable[Person]) -> str:
    return " and ".join(map(person_shown, people))
