"""Households in running text: an address goes to the people who are named before it.

A sentence that says nothing but names, where they live, and an address is read like a line of a
list. Anything else that is read from a sentence is a proposal: the client is asked.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from addressing.guestlist.files.blocks import NAME, NOTES, STREETS, Slots
from addressing.guestlist.files.mail_lines import Line, has_verb
from addressing.guestlist.files.mentions import Mention, mentions
from addressing.guestlist.files.prose_words import (
    asides,
    is_one_of,
    masked,
    prose_pattern,
    prose_words,
)
from addressing.guestlist.files.spans import Span, spans
from addressing.guestlist.files.wanted import head_of
from addressing.guestlist.folding import fold
from addressing.guestlist.people.news import says_out
from addressing.guestlist.people.note_words import denied
from addressing.guestlist.people.vocabulary import words

SENTENCE_SLOT = ("sentence", 1)
"""The sentences that a household was read from, where the client is asked about it."""
CHILDREN = ("children", 1)
_LONGEST_QUOTE = 400
_LONGEST_SENTENCE = 1500
"""Letters; a longer one is none, and the patterns take the square of its length."""
_HEAD = 12
"""Letters by which the beginning of a line is found in its sentence."""
_BACK = 2
"""Sentences between the people and an address of theirs at most."""
_LONGEST_ASIDE = 4
"""Words between commas that only say something of those who are named."""
_LONGEST_LEAD = 6
"""Words."""
_MARKS = re.compile(r"[,;:!.–—]+|\s-+(?=\s|$)|^-+\s")
_DASH = re.compile(r"\s*[-–—]+\s")
_ALONE = re.compile(
    r"(?<![\w'’.])(?P<name>[^\W\d_a-z][\w-]+),?\s+(?P<kin>(?:and\s+)?(?:her|his)\s+[a-z]+)\s+$"
)
_CHILDREN = re.compile(
    r"(?:(?:the|their|with|two|three)\s+)*(?P<word>[A-Za-z]+)[:,]?\s+(?:(?:are|is)\s+)?"
    r"(?P<names>[A-Z]\w+.*)",
    re.IGNORECASE,
)
_NAMED_CHILDREN = re.compile(r"[A-Z]\w+(?:[ ,]*\(?\d{1,2}\)?)?(?:(?:, | and | & )(?=[A-Z]))?")


@dataclass(slots=True)
class _Home:
    """A household on the way. `plain` for one that isn't asked about."""

    said: Line
    people: list[Mention]
    names: str
    address: str = ""
    plain: bool = False
    notes: list[str] = field(default_factory=list)
    quote: list[Line] = field(default_factory=list)
    at: int = 0


def homes_in(paragraph: Sequence[Line]) -> list[tuple[Line, Slots]]:
    """The households of a paragraph's sentences, each with the sentence that names it."""
    homes: list[_Home] = []
    people: tuple[int, Line, list[Mention]] | None = None
    for at, said in enumerate(paragraph):
        if len(said.text) > _LONGEST_SENTENCE:
            continue
        found, named = _parts(said.text)
        if says_out(said.text):
            people = None if named else people
            continue
        made = list(_read(said, found, named, at)) or list(_wanted(said, named, at))
        if not made and not found and not named and people is not None:
            made = _wanted_behind(homes, people, (said, at))
        if not made and found and not named and people is not None and at - people[0] <= _BACK:
            _given_to(homes, people, (found[-1], said, at))
        elif not made and homes and not named and not found:
            homes[-1].quote.append(said)
        homes += made
        if named:
            people = (at, said, _group(masked(said.text), named, len(said.text)))
    homes = homes or list(_of_head(paragraph))
    return [(home.said, slots) for home in homes for slots in _slots(home)]


def _of_head(paragraph: Sequence[Line]) -> Iterator[_Home]:
    """Those with whose names alone a paragraph begins."""
    head = head_of(paragraph)
    if head is not None:
        yield _Home(paragraph[0], list(head.people), head.names, quote=list(head.quote))


def _wanted(said: Line, named: Sequence[Mention], at: int) -> Iterator[_Home]:
    """Those of a sentence that wants an envelope for them without an address it can be read by."""
    people = [each for each in named if not _is_house(each)]
    if people and prose_pattern("wanted").search(masked(said.text)):
        group = _group(masked(said.text), people, people[-1].end)
        yield _Home(said, group, _names(group), quote=[said], at=at)


def _is_house(named: Mention) -> bool:
    """True for the Carriage House that somebody lives in."""
    return fold(named.text.split()[-1]) in prose_words("house")


def _wanted_behind(
    homes: Sequence[_Home], people: tuple[int, Line, list[Mention]], here: tuple[Line, int]
) -> list[_Home]:
    """Those of the sentence just before, where this one wants one for them: "Send his to …"."""
    said, at = here
    known = bool(homes) and homes[-1].at >= people[0]
    if known or at - people[0] > 1 or not prose_pattern("wanted-behind").search(said.text):
        return []
    return [_Home(people[1], people[2], _names(people[2]), quote=[people[1], said], at=people[0])]


def _parts(text: str) -> tuple[list[Span], list[Mention]]:
    """The addresses of a sentence, and the people outside of them; unsure ones only if alone."""
    shown = masked(text)
    found = list(spans(shown))
    for span in found:
        shown = shown[: span.start] + "0" * (span.end - span.start) + shown[span.end :]
    named = mentions(shown)
    sure = [each for each in named if each.sure]
    return found, sure or named


def _read(said: Line, found: Sequence[Span], named: Sequence[Mention], at: int) -> Iterator[_Home]:
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
            group = _group(text, before, span.start)
            home = _Home(said, group, _names(group), span.text, quote=[said], at=at)
            lead, gap = text[last : group[0].start], text[group[-1].end : span.start]
            tail = text[span.end : between[0].start if between else len(text)]
            alone = len(group) == 1 and group[0].sure and (span.whole or not tail.strip(" ."))
            quiet = None if between else _quiet(gap)
            remark = _remark(tail)
            home.plain = alone and _leads(lead) and quiet is not None and remark is not None
            home.notes = [*asides(said.text), *(quiet or ()), *(remark or ())]
            yield home
        last = span.end


def _group(text: str, before: Sequence[Mention], end: int) -> list[Mention]:
    """Those of the people before an address whose it is: the last, and who is joined to them."""
    behind = text[before[-1].end : end]
    if prose_pattern("all").search(behind):
        return [*_by_given(text[: before[0].start]), *before]
    group = [before[-1]]
    for each in reversed(before[:-1]):
        between = text[each.end : group[0].start]
        if not _joins(between):
            break
        group.insert(0, each)
    return [*_by_given(text[: group[0].start]), *group]


def _by_given(before: str) -> Iterator[Mention]:
    """The Kit of "Kit and her husband": a name alone, joined by words for kin to the next."""
    said = _ALONE.search(before)
    if said and is_one_of("kin", said["kin"].removeprefix("and ")):
        name = said["name"]
        if fold(name) not in prose_words("no-name"):
            yield Mention(said.start("name"), said.end("name"), name, sure=False)


def _joins(between: str) -> bool:
    """True for what joins two people: "and", "her husband"; an aside may stand before it."""
    said = fold(between)
    kin = any(said == word or said.endswith(f" {word}") for word in prose_words("kin"))
    plain = not has_verb(between.rstrip(".")) and not _denies(between)
    return kin and (plain or is_one_of("kin", said.removeprefix("and ")))


def _names(group: Sequence[Mention]) -> str:
    return " and ".join(each.text for each in group)


def _quiet(gap: str) -> list[str] | None:
    """The asides between names and address; None where more is said than that they live there."""
    parts = _MARKS.split(gap)
    said = [part.strip() for part in parts if part.strip() and not is_one_of("lives", part)]
    ends = {part.strip() for part in (parts[0], parts[-1])}  # no marks on both sides
    return said if all(part not in ends and _is_aside(part) for part in said) else None


def _is_aside(part: str) -> bool:
    said = part.split()
    plain = all(word[:1].islower() for word in said) and not has_verb(part)
    return plain and len(said) <= _LONGEST_ASIDE and not _denies(part)


def _denies(text: str) -> bool:
    return not prose_words("denial").isdisjoint(fold(text).split())


def _leads(lead: str) -> bool:
    """True for what may stand before names: nothing, a label, whose or what they are.

    A lone word before a comma may be the family name: "Orr, Mr. and Mrs. Kit".
    """
    said = lead.strip()
    bare = said.rstrip(" ,:;-–—")
    spoken = bare.split()
    if not spoken:
        return True
    small = all(word[:1].islower() for word in spoken[1:])
    if not small or len(spoken) > _LONGEST_LEAD or has_verb(bare) or _denies(bare):
        return False
    owned = [word for word in fold(bare).split() if word not in ("and", "oh", "also")][:1]
    whose = not prose_words("of").isdisjoint(owned) or "'s" in bare or "’s" in bare
    return whose or said[-1] in ":-–—" or (said[-1] == "," and len(spoken) > 1)


def _remark(tail: str) -> list[str] | None:
    """What is said behind a dash behind an address; None for a sentence that goes on otherwise."""
    if not re.search(r"\w", tail):
        return []
    return [tail.strip(" -–—.")] if _DASH.match(tail) else None


def _given_to(
    homes: list[_Home], people: tuple[int, Line, list[Mention]], there: tuple[Span, Line, int]
) -> None:
    """An address in a sentence without names is of the people before, if it goes on with them."""
    span, said, at = there
    open_one = homes[-1] if homes and homes[-1].at == people[0] else None
    lone = prose_pattern("lone").search(said.text) is not None
    if open_one is not None and not open_one.address:
        open_one.address = span.text
        open_one.quote.append(said)
    elif open_one is None and lone:
        home = _Home(people[1], people[2], _names(people[2]), span.text, at=at)
        home.quote = [people[1], said]
        homes.append(home)
    elif open_one is not None:
        open_one.quote.append(said)


def _slots(home: _Home) -> Iterator[Slots]:
    """The cells of a household, of two where the text says that they want one each."""
    behind = home.quote[1:]
    children = next((names for said in behind if (names := _children(said.text))), "")
    quote = " ".join(said.text for said in home.quote)[:_LONGEST_QUOTE]
    changed = children or denied("apart", quote) is False or denied("company", quote) is False
    home.plain = home.plain and not changed
    for names in _apart(home, quote):
        slots: Slots = {NAME: [Line(_line_of(home.said, names), names)]}
        if home.address:
            slots[STREETS[0]] = [Line(_line_of(home.said, home.address), home.address)]
        if children:
            slots[CHILDREN] = [Line(home.said.number, children)]
        if home.plain and home.notes:
            slots[NOTES] = [Line(home.said.number, "; ".join(home.notes))]
        if not home.plain:
            slots[SENTENCE_SLOT] = [Line(home.said.number, quote)]
        yield slots


def _apart(home: _Home, quote: str) -> Sequence[str]:
    """The names for each envelope."""
    each = [name for mention in home.people for name in mention.people]
    whole = all(mention.people for mention in home.people)
    if not home.plain and whole and len(each) > 1 and denied("apart", quote) is False:
        return each
    if not home.plain and len(each) == 1 and denied("company", quote) is False:
        return (f"{home.names} and Guest",)
    return (home.names,)


def _children(sentence: str) -> str:
    """The names in "Children Amos 19, Ruth 17"; "" for another sentence."""
    found = _CHILDREN.match(sentence)
    if found is None or fold(found["word"]) not in words("children"):
        return ""
    end = 0
    while (name := _NAMED_CHILDREN.match(found["names"], end)) is not None:
        end = name.end()
    return found["names"][:end].removesuffix(" and ").strip(" ,.")


def _line_of(said: Line, text: str) -> int:
    """The number of the line of a sentence on which some text of it begins."""
    at = max(said.text.find(text), said.text.find(text.split(maxsplit=1)[0]))
    begun = ((said.text.find(part.text[:_HEAD]), part.number) for part in said.more)
    return max((number for begin, number in begun if 0 <= begin <= at), default=said.number)
