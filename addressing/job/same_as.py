"""An answered address that is another's: “same as 10” of a letter becomes the address it names."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from addressing.job.asking import Listed, still_open
from addressing.job.meant import named
from addressing.job.rereading import READERS
from addressing.questions.applying import apply
from addressing.questions.asking import questions_for
from addressing.questions.folding import folded
from addressing.questions.kinds import PLACES
from addressing.questions.showing import address_shown
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Household
from addressing.records.questions import Applied, Decision, Given

_SAME = re.compile(
    r"(?:(?:the\s+)?same(?:\s+(?:address|place|house|door|home))?\s+(?:as|with)"
    r"|(?:(?:she|he|they)\s+)?(?:lives?|living|stay(?:s|ing)?)\s+(?:with|at))\s+"
    r"(?:(?:in|for|at)\s+)?(?P<whom>.+?)(?:['\u2019]s?(?:\s+(?:address|place|house|home))?)?[.!]*",
    re.IGNORECASE,
)
_NUMBER = re.compile(r"(?:(?:questions?|q|no|nr|number)\.?\s*|#\s*)?(\d+(?:\.\d+)?)", re.IGNORECASE)


def with_places_named(listed: Listed, given: Given, kept: Sequence[Decision]) -> Given:
    """A reply whose “same as 10” and “same as Ned Vole” are the addresses that they name.

    A number is the letter's. Where nobody, several, or an address that is asked about itself is
    named, the words stay as they are, and are asked again.
    """
    kinds = {q.ref: q.kind for q in questions_for(listed.guest_list, listed.findings)}
    leaning = {
        each: found["whom"]
        for each in given.decisions
        if kinds.get(each.ref) == "address"
        and (found := _SAME.fullmatch(each.answer.strip())) is not None
    }  # fmt: skip
    if not leaning:
        return given
    others = (each for each in given.decisions if each not in leaning)
    applied = apply(listed.guest_list, listed.findings, [*kept, *others], READERS)
    places = {each: _place_of(listed, applied, given, whom) for each, whom in leaning.items()}
    made = tuple(
        replace(each, answer=places[each]) if places.get(each) else each for each in given.decisions
    )
    return replace(given, decisions=made, findings=(*given.findings, *_told(places)))


def _place_of(listed: Listed, applied: Applied, given: Given, whom: str) -> str:
    """The address of whom words name, as it stands by now; "" where that can't be told."""
    number = _NUMBER.fullmatch(whom.strip())
    if number is not None:
        keys = {given.numbers.get(number[1], "").partition(":")[0]}
    else:
        meant = named(listed, applied)(whom.strip()) or _by_given(applied, whom.strip())
        keys = {home.key for home in meant}
    homes = [home for home in applied.guest_list.households if home.key in keys]
    if len(keys) != 1 or len(homes) != 1 or homes[0].address is None:
        return ""
    asked = still_open(listed, applied)
    doubtful = any(each.kind in PLACES and homes[0].key in each.households for each in asked)
    return "" if doubtful else address_shown(homes[0].address)


def _by_given(applied: Applied, name: str) -> tuple[Household, ...]:
    """The households in which somebody has a given name: “Hugo”."""
    return tuple(
        home
        for home in applied.guest_list.households
        if any(folded(person.given or "") == folded(name) for person in home.people)
    )


def _told(places: dict[Decision, str]) -> Iterator[Finding]:
    for decision, place in places.items():
        if place:
            text = f"“{decision.answer}” is taken to be: {place}."
            yield Finding(Severity.NOTE, "answer-remark", decision.where, text, "Nothing to do.")
