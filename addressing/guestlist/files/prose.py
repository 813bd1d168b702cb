"""Households in running text: an address goes to the people who are named before it.

A sentence that says nothing but names, where they live, and an address is read like a line of a
list. Anything else that is read from a sentence is a proposal: the client is asked.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from addressing.guestlist.files.blocks import Slots
from addressing.guestlist.files.families_told import families_told
from addressing.guestlist.files.mail_lines import Line
from addressing.guestlist.files.mentions import Mention
from addressing.guestlist.files.prose_homes import ProseHome, names_of, slots_of_home
from addressing.guestlist.files.prose_people import (
    are_couple,
    called_before,
    group_before,
    named_behind,
    parts_of,
)
from addressing.guestlist.files.prose_plain import denies, leads, quiet, remark
from addressing.guestlist.files.prose_words import asides, masked, prose_pattern, prose_words
from addressing.guestlist.files.spans import Span
from addressing.guestlist.files.wanted import head_of
from addressing.guestlist.folding import fold
from addressing.guestlist.people.news import says_out

_LONGEST_SENTENCE = 1500
"""Letters; a longer one is none, and the patterns take the square of its length."""
_BACK = 2
"""Sentences between the people and an address of theirs at most."""


@dataclass(frozen=True, slots=True)
class _Spoken:
    """The people of whom a sentence spoke last, and which of the paragraph's it is."""

    at: int
    said: Line
    people: list[Mention]


def homes_in(paragraph: Sequence[Line]) -> list[tuple[Line, Slots]]:
    """The households of a paragraph's sentences, each with the sentence that names it."""
    homes: list[ProseHome] = []
    people: _Spoken | None = None
    for at, said in enumerate(map(_unwrapped, paragraph)):
        if len(said.text) > _LONGEST_SENTENCE:
            continue
        found, named = parts_of(said.text)
        named = named or families_told(said.text)
        if _says_out(said.text, found):
            people = None if named else people
            continue
        made = list(_read(said, found, named, at)) or list(_wanted(said, named, at, homes))
        if not made and not found and not named and people is not None:
            made = _wanted_behind(homes, people, (said, at))
        open_one = _is_open(said, found, named) and not any(home.address for home in made)
        if open_one and people is not None:
            _given_to(homes, people, (found[-1], said, at), paragraph[people.at : at])
        elif not made and homes and not named and not found:
            homes[-1].quote.append(said)
        homes += made
        if named:
            group = group_before(masked(said.text), named, len(said.text))
            people = _Spoken(at, said, group)
    homes = homes or list(_of_head(paragraph))
    return [(home.said, slots) for home in homes for slots in slots_of_home(home)]


def _unwrapped(said: Line) -> Line:
    """A sentence without the brackets that stand around all of it."""
    inside = re.fullmatch(r"[(\[]([^()\[\]]*)[)\]]\.?", said.text)
    return replace(said, text=inside[1]) if inside is not None else said


def _says_out(text: str, found: Sequence[Span]) -> bool:
    """True for a sentence that says of somebody that they are out.

    One that tells of a death or a parting and where somebody lives is asked about.
    """
    if not says_out(text):
        return False
    placed = any(span.whole for span in found)
    return not placed or says_out(prose_pattern("parting").sub(" ", text))


def _is_open(said: Line, found: Sequence[Span], named: Sequence[Mention]) -> bool:
    """True for an address before which its sentence names nobody: "He is at …, and Kit Orr …"."""
    if not found or not named:
        return bool(found)
    before = said.text[: found[0].start]
    lone = prose_pattern("lone").search(before) is not None
    return lone and all(each.start > found[0].end for each in named)


def _of_head(paragraph: Sequence[Line]) -> Iterator[ProseHome]:
    """Those with whose names alone a paragraph begins."""
    head = head_of(paragraph)
    if head is not None:
        yield ProseHome(paragraph[0], list(head.people), head.names, quote=list(head.quote))


def _wanted(
    said: Line, named: Sequence[Mention], at: int, homes: Sequence[ProseHome]
) -> Iterator[ProseHome]:
    """Those of a sentence that wants an envelope for them without an address it can be read by.

    Where it says that they live with others of the paragraph, the address is theirs too.
    """
    text = masked(said.text)
    living = prose_pattern("lives-with").search(text)
    host = _host(text[living.end() :], homes) if living is not None else None
    others = set(host.people) if host is not None else set()
    people = [each for each in named if not _is_house(each) and each not in others]
    if people and prose_pattern("wanted").search(text):
        group = group_before(text, people, people[-1].end)
        home = ProseHome(said, group, names_of(group), quote=[said], at=at)
        home.address = host.address if host is not None else ""
        yield home


def _host(behind: str, homes: Sequence[ProseHome]) -> ProseHome | None:
    """The household of "lives with them" or "lives with Kit": the last, or the one so named."""
    first = fold(behind.split(maxsplit=1)[0]) if behind.split() else ""
    known = [home for home in homes if home.address]
    if first not in prose_words("those"):
        known = [home for home in known if first in fold(home.names).split()]
        return known[0] if len(known) == 1 else None
    return known[-1] if known else None


def _is_house(named: Mention) -> bool:
    """True for the Carriage House that somebody lives in."""
    return fold(named.text.split()[-1]) in prose_words("house")


def _wanted_behind(
    homes: Sequence[ProseHome], people: _Spoken, here: tuple[Line, int]
) -> list[ProseHome]:
    """Those of the sentence just before, where this one wants one for them: "Send his to …"."""
    said, at = here
    known = bool(homes) and homes[-1].at >= people.at
    if known or at - people.at > 1 or not prose_pattern("wanted-behind").search(said.text):
        return []
    group = people.people
    return [ProseHome(people.said, group, names_of(group), quote=[people.said, said], at=people.at)]


def _read(
    said: Line, found: Sequence[Span], named: Sequence[Mention], at: int
) -> Iterator[ProseHome]:
    """The households of one sentence; of two addresses of the same people the last holds."""
    text = masked(said.text)
    last = 0
    for place, span in enumerate(found):
        before = [each for each in named if last <= each.start < span.start]
        following = found[place + 1].start if place + 1 < len(found) else len(text)
        between = [each for each in named if span.end <= each.start < following]
        if place + 1 < len(found) and not between:
            continue
        if before:
            yield _of_names(said, before, (last, span, between), at)
        else:
            others = named_behind(text, between, span.end)
            if not others and span.whole and not denies(text[last : span.start]):
                others = called_before(text[last : span.start])
            if others:
                quote = [said]
                yield ProseHome(said, others, names_of(others), span.text, quote=quote, at=at)
        last = span.end


def _of_names(
    said: Line,
    before: Sequence[Mention],
    there: tuple[int, Span, Sequence[Mention]],
    at: int,
) -> ProseHome:
    """The household of the people before an address; plain where nothing else is said."""
    text = masked(said.text)
    last, span, between = there
    group = group_before(text, before, span.start)
    home = ProseHome(said, group, names_of(group), span.text, quote=[said], at=at)
    lead, gap = text[last : group[0].start], text[group[-1].end : span.start]
    tail = text[span.end : between[0].start if between else len(text)]
    sure = all(each.sure for each in group) and are_couple(text, group)
    alone = sure and (span.whole or not tail.strip(" ."))
    said_quietly = None if between else quiet(gap)
    behind = remark(tail)
    within = asides(said.text[span.start : span.end])
    home.plain = alone and leads(lead) and said_quietly is not None and behind is not None
    home.plain = home.plain and not any("?" in each for each in within)  # "77 (or 79?) Elm Lane"
    aside = (each for each in asides(said.text) if each not in home.names)
    home.notes = [*aside, *(said_quietly or ()), *(behind or ())]
    return home


def _given_to(
    homes: list[ProseHome], people: _Spoken, there: tuple[Span, Line, int], between: Sequence[Line]
) -> None:
    """An address in a sentence without names is of the people before, if it goes on with them.

    One that stands alone is theirs however far they are.
    """
    span, said, at = there
    open_one = homes[-1] if homes and homes[-1].at == people.at else None
    sole = not re.search(r"\w", said.text[: span.start] + said.text[span.end :])
    lone = sole or prose_pattern("lone").search(said.text) is not None
    if at - people.at > _BACK and not sole:
        return
    if open_one is not None and not open_one.address:
        open_one.address = span.text
        open_one.quote.append(said)
    elif open_one is None and lone:
        home = ProseHome(people.said, people.people, names_of(people.people), span.text, at=at)
        home.quote = [*between, said]
        homes.append(home)
    elif open_one is not None:
        open_one.quote.append(said)
