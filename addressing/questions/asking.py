"""Findings become questions: as few as possible, each with what the list says."""

import hashlib
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from addressing.questions.choosing import DROP, LEAVING, PART, WHOLE
from addressing.questions.kinds import NAMES, PLACES, WHO, Asking, asking_for, asking_several
from addressing.questions.noting import notes_in, with_notes
from addressing.questions.placeholders import words_for
from addressing.questions.showing import (
    address_shown,
    household_shown,
    named_shown,
    names_shown,
    person_shown,
    place_shown,
    without_ages,
)
from addressing.questions.title_letters import LETTERS, shown
from addressing.questions.understanding import TOLD
from addressing.records.findings import Finding, Severity
from addressing.records.guests import GuestList, Household, Kind
from addressing.records.questions import ONE, Called, Choice, Question
from addressing.where import Where

_ADDRESS_MEANINGS = frozenset(
    ("address", "house_number", "street", "street2", "po_box", "unit", "extra", "firm",
     "city", "region", "postcode", "place", "country")
)  # fmt: skip
_EACH = frozenset(("title", "companion"))
"""Kinds that are asked for each person."""
_QUOTED = frozenset(("invited", "struck", TOLD))
"""Kinds whose question is another when the list's own words are."""
_BY_WORDS = frozenset(("marker-in-list",))
"""Findings whose question is so too, whatever its kind."""
_SEVERAL = frozenset(("pair", "parts"))
"""Kinds that are about more than one household."""


@dataclass(frozen=True, slots=True)
class _Asked:
    """A finding with the way to ask it."""

    finding: Finding
    asking: Asking

    @property
    def matter(self) -> str:
        """Findings of one household and one matter are asked together."""
        if self.asking.kind in PLACES:
            return "address"
        return "names" if self.asking.kind in NAMES else self.asking.kind


def mark_of(basis: str) -> str:
    """The fingerprint of what a question was about: eight figures of the SHA-256."""
    return hashlib.sha256(basis.encode("utf-8", "surrogatepass")).hexdigest()[:8]


def questions_for(
    guest_list: GuestList,
    findings: Iterable[Finding],
    called: Mapping[str, Called] | None = None,
) -> tuple[Question, ...]:
    """Everything that the client can answer, in the order of the findings.

    Findings of one household and one matter are one question; a pair of households is asked of
    once. Titles and companions are asked for each person. `called` says by which names households
    are asked of since something was decided: a question's ref and basis stay the list's.
    """
    meanings = {
        (column.sheet, column.letters): column.meaning.partition(" ")[0]
        for column in guest_list.columns
    }
    findings = tuple(findings)
    homes = {household.key: household for household in guest_list.households}
    rows = {where: home.key for home in guest_list.households for where in home.rows}
    groups: dict[tuple[object, ...], list[_Asked]] = {}
    for finding in filter(_is_open, findings):
        words = words_for(finding, homes.get(finding.household or ""))
        asking = asking_for(finding, _about(finding, meanings), words)
        if asking is not None:
            asked = _Asked(finding, asking)
            groups.setdefault(_group(asked, rows), []).append(asked)
    names = called or {}
    made = (
        question for group in groups.values() for question in _questions(group, homes, rows, names)
    )
    known = {question.ref: question for question in made}
    return tuple(with_notes(known.values(), notes_in(findings)))


def _is_open(finding: Finding) -> bool:
    return finding.severity is not Severity.NOTE


def _about(finding: Finding, meanings: Mapping[tuple[str | None, str], str]) -> str:
    """What the cell of a finding feeds: "names" or "address"."""
    letters = re.match(r"[A-Z]*", finding.where.cell or "")
    meaning = meanings.get((finding.where.sheet, letters[0] if letters else ""), "")
    return "address" if meaning in _ADDRESS_MEANINGS else "names"


def _group(asked: _Asked, rows: Mapping[Where, str]) -> tuple[object, ...]:
    finding, kind = asked.finding, asked.asking.kind
    if finding.household is None:
        return (finding.code, finding.where, finding.text)
    if kind in _SEVERAL:
        return (kind, frozenset(_keys((asked,), rows)))
    if kind == "struck":
        return (finding.household, kind, finding.where)
    if kind == TOLD:
        return (kind, finding.where, finding.quoted)
    if kind == LETTERS:
        return (kind, finding.quoted.casefold())
    return (finding.household, asked.matter)


def _questions(
    group: Sequence[_Asked],
    homes: Mapping[str, Household],
    rows: Mapping[Where, str],
    called: Mapping[str, Called],
) -> Iterable[Question]:
    first = group[0].finding
    if first.household is None or group[0].asking.kind == LETTERS:
        return [_of_letters(group, homes) if first.household else _of_list(group[0])]
    home = homes.get(first.household)
    if home is None:
        return []
    if group[0].asking.kind in _SEVERAL:
        keys = _keys(group, rows)
        several = tuple(homes[key] for key in keys)
        return [_of_several(group, several, called)] if len(keys) > 1 else []
    if group[0].asking.kind == TOLD and len(group) > 1:
        named = [asked.finding.household for asked in group]
        several = tuple(homes[key] for key in named if key and key in homes)
        return [_of_several(group, several, called)]
    if group[0].asking.kind in _EACH:
        return _of_people(group, home, called.get(home.key))
    return [_of_home(group, home, called.get(home.key))]


def _keys(group: Sequence[_Asked], rows: Mapping[Where, str]) -> list[str]:
    places = [where for asked in group for where in (asked.finding.where, *asked.finding.also)]
    own = [asked.finding.household for asked in group if asked.finding.household]
    return list(dict.fromkeys((*own, *(rows[where] for where in places if where in rows))))


def _of_list(asked: _Asked) -> Question:
    finding = asked.finding
    ref = f"list:{finding.code}:{mark_of(f'{finding.where}{finding.text}')}"
    return _question(ref, (asked,), "Your list", finding.text, ())


def _of_letters(group: Sequence[_Asked], homes: Mapping[str, Household]) -> Question:
    """One question for all who have the same letters, whoever they are in the next list."""
    keys = dict.fromkeys(asked.finding.household for asked in group)
    meant = tuple(homes[key] for key in keys if key is not None and key in homes)
    code = group[0].finding.quoted.casefold()
    ref = f"list:{group[0].finding.code}:{mark_of(code)}"
    who = shown(meant)
    return _question(ref, group, who, who, meant, basis=code)


def _of_several(
    group: Sequence[_Asked], homes: tuple[Household, ...], called: Mapping[str, Called]
) -> Question:
    shown = [called[home.key].home if home.key in called else home for home in homes]
    ordered = sorted(homes, key=lambda home: home.key)
    listed = "\n".join(
        f"{_ordinal(place)}: {_home_shown(home)} ({place_shown(home.rows[0])})"
        for place, home in enumerate(shown)
    )
    said = [group[0].finding.quoted] if group[0].asking.kind == TOLD else []
    mark = mark_of(" ".join((*(home.key for home in ordered), *said)))
    ref = f"{homes[0].key}:{group[0].finding.code}:{mark}"
    who = " / ".join(dict.fromkeys(map(household_shown, shown)))
    basis = "\n".join((*map(_home_shown, homes), *said))
    return _question(ref, group, who, listed, homes, basis=basis)


def _ordinal(place: int) -> str:
    return ("First", "Second", "Third")[place] if place < 3 else f"{place + 1}th"  # noqa: PLR2004


def _home_shown(home: Household) -> str:
    return ", ".join(part for part in (names_shown(home), address_shown(home.address)) if part)


def _of_people(
    group: Sequence[_Asked], home: Household, called: Called | None
) -> Iterable[Question]:
    """One for each person that lacks a title, or for each companion without a name."""
    finding = group[0].finding
    who = household_shown(called.home if called else home)
    meant = dict.fromkeys(place for asked in group for place in asked.finding.people)
    for place in meant:
        person = home.people[place]
        now = (called.people[place] if called else None) or person
        basis, listed = (
            person_shown(each) if person.kind is Kind.NAMED else f"Guest of {whose}"
            for each, whose in ((person, household_shown(home)), (now, who))
        )
        ref = f"{home.key}:{finding.code}:{place + 1}"
        yield _question(ref, group, who, listed, (home,), basis=basis, person=place)


def _of_home(group: Sequence[_Asked], home: Household, called: Called | None) -> Question:
    asking = _together(group)
    now = called.home if called else home
    listed = _matter_shown(asking, home)
    # Of an address the list's own words are shown, for they are what is in doubt.
    told = listed if asking.kind in PLACES else _matter_shown(asking, now)
    quoted = sorted({asked.finding.quoted for asked in group})
    ref = f"{home.key}:{group[0].finding.code}"
    if asking.kind in ("struck", TOLD):
        ref = f"{ref}:{mark_of(quoted[0])}"
    merged = tuple(_Asked(asked.finding, asking) for asked in group)
    shown = told or ("(no address)" if asking.kind in PLACES else "(no name)")
    by_words = asking.kind in _QUOTED or any(asked.finding.code in _BY_WORDS for asked in group)
    basis = "\n".join((listed, *quoted)) if by_words else listed
    return _question(ref, merged, household_shown(now), shown, (home,), basis=basis)


def _matter_shown(asking: Asking, home: Household) -> str:
    """What of a household a question is about, "" where the list has nothing."""
    if asking.kind in PLACES:
        return address_shown(home.address)
    if asking.kind == TOLD:
        return _home_shown(home)
    return named_shown(home) if asking.kind == "names" else names_shown(home)


def _together(group: Sequence[_Asked]) -> Asking:
    """The question for all of a group: its own when all ask the same, else the one for several."""
    askings = [asked.asking for asked in group]
    kinds = {asking.kind for asking in askings}
    if len(set(askings)) == 1 or not kinds & (PLACES | NAMES):
        return askings[0]
    if kinds & PLACES:
        return asking_several("address", askings)
    return asking_several("everyone" if "everyone" in kinds else "names", askings)


def _question(  # noqa: PLR0913 - one record, put together at one place
    ref: str,
    group: Sequence[_Asked],
    who: str,
    listed: str,
    homes: tuple[Household, ...],
    *,
    basis: str | None = None,
    person: int | None = None,
) -> Question:
    finding, asking = group[0].finding, group[0].asking
    quoted = next((said for asked in group if (said := asked.finding.quoted)), "")
    return Question(
        ref=ref,
        kind=asking.kind,
        group=asking.group,
        who=who,
        text=asking.text({"who": who, "person": listed}),
        listed=listed,
        basis=without_ages(listed if basis is None else basis),
        where=finding.where,
        choices=_allowed(asking.choices, group, who, homes),
        covers=tuple(asked.finding for asked in group),
        households=tuple(home.key for home in homes),
        person=person,
        quoted=quoted,
    )


def _allowed(
    choices: tuple[Choice, ...], group: Sequence[_Asked], who: str, homes: tuple[Household, ...]
) -> tuple[Choice, ...]:
    """The proposed answers, by names. A stop can't be answered with "as it stands".

    Of several households all go, or none, by these words only.
    """
    stops = any(asked.finding.severity is Severity.STOP for asked in group)
    allowed = (each for each in choices if not (stops and each.effect in ("keep", PART)))
    shown = tuple(replace(each, text=each.text.replace(WHO, who)) for each in allowed)
    if len(homes) > 1 and group[0].asking.kind == TOLD:
        none = Choice(f"Leave out all of these: {who}", WHOLE)
        return tuple(none if each.effect in LEAVING else each for each in shown)
    if len(homes) == 1 and homes[0].is_one:
        return tuple(replace(c, value=ONE) if c.effect == DROP else c for c in shown)
    return shown
