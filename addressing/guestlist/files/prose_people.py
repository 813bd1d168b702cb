"""Whose an address in a sentence is: who is named before it, joined to them, or behind it."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cache
from itertools import pairwise

from addressing.guestlist.domestic.dwellings import suffix_words
from addressing.guestlist.files.mail_lines import has_verb
from addressing.guestlist.files.mentions import Mention, mentions
from addressing.guestlist.files.prose_plain import denies
from addressing.guestlist.files.prose_words import is_one_of, masked, prose_pattern, prose_words
from addressing.guestlist.files.spans import Span, spans
from addressing.guestlist.folding import fold
from addressing.guestlist.people.names import known_title
from addressing.guestlist.people.vocabulary import partner_words, row_words, words

_NAME = r"[^\W\d_a-z][\w-]+"
_ALONE = re.compile(
    rf"(?<![\w'’.])(?P<name>{_NAME}),?\s+(?P<kin>(?:and\s+)?(?:her|his)\s+[a-z]+)\s+$"
)
_ALONE_BEHIND = re.compile(
    rf"\s*,?\s+(?P<kin>(?:and\s+|with\s+)?(?:her|his)\s+[a-z]+),?\s+(?P<name>{_NAME})(?!['’]|\s+[A-Z])"
)
_CALLED = re.compile(r"(?<![\w'’.])(?P<called>[^\W\d_a-z][\w'’-]*(?:\s+[^\W\d_a-z][\w'’-]*)?)\s+\(")
_CALLED_LAST = re.compile(
    rf"(?<![\w'’.])(?P<names>[Tt]he\s+(?P<family>{_NAME}s)|(?P<one>{_NAME})"
    rf"(?:,?\s+(?P<kin>(?:(?:and|&|with)\s+)?(?:her|his)\s+[a-z]+)(?:,?\s+(?P<last>{_NAME}))?"
    rf"|\s+(?:and|&|\+)\s+(?P<other>{_NAME}))?)\s*$"
)
"""The names with which a text ends that nobody's family name stands by."""
_OF_KIN = re.compile(r"((?:\band|&)\s+)(?:her|his)\s+[a-z]+,?\s+(?=[A-Z])")


def parts_of(text: str) -> tuple[list[Span], list[Mention]]:
    """The addresses of a sentence, and the people outside of them; unsure ones only if alone.

    Whoever words for kin join to somebody is sure too: "Kit Penhew and his wife Mei-Lin Orr", and
    so is whom they lead: "their son Teddy Orr".
    """
    shown = masked(text)
    found = list(spans(shown))
    for span in found:
        shown = shown[: span.start] + "0" * (span.end - span.start) + shown[span.end :]
    named = _with_full_names(text, shown, mentions(shown))
    sure: list[Mention] = []
    for each in named:
        joined = bool(sure) and _is_kin(shown[sure[-1].end : each.start])
        if each.sure or joined or _is_led(shown[: each.start]):
            sure.append(replace(each, sure=True))
    return found, _with_lone(found, sure, named) if sure else named


def are_couple(text: str, group: Sequence[Mention]) -> bool:
    """True for one run of names, and for whole names that words for kin join."""
    pairs = pairwise(group)
    joined = all(_is_kin(text[one.end : other.start]) for one, other in pairs)
    return len(group) == 1 or (joined and all(each.people for each in group))


def _is_kin(between: str) -> bool:
    said = fold(between).removeprefix("and ")
    return said != "and" and is_one_of("kin", said)


def _with_lone(
    found: Sequence[Span], sure: Sequence[Mention], named: Sequence[Mention]
) -> list[Mention]:
    """Sure people, and of several addresses those before one before which nobody sure stands."""
    made = list(sure)
    last = 0
    for span in found if sum(span.whole for span in found) > 1 else ():
        before = [each for each in named if last <= each.start < span.start]
        if before and not any(each in sure for each in before):
            made.append(before[-1])
        last = span.end
    return sorted(made, key=lambda each: each.start)


def _is_led(before: str) -> bool:
    """True behind "their son", "my boss", "her old friend"."""
    said = fold(before).split()[-3:] if before.endswith(" ") and before[-2:-1].isalpha() else []
    known = words("children") | row_words("relative") | partner_words()
    return len(said) > 1 and said[-1] in known and not prose_words("of").isdisjoint(said[:-1])


def _with_full_names(text: str, shown: str, named: Sequence[Mention]) -> list[Mention]:
    """People, those with their full name in brackets by it: "Cousin Dot (Miss Dorothy Kimball)"."""
    made = list(named)
    for called in _CALLED.finditer(text):
        inside = text[called.end() :].partition(")")[0]
        full = mentions(inside)
        whole = len(full) == 1 and full[0].sure and full[0].end - full[0].start == len(inside)
        start, end = called.start(), called.end() + len(inside) + 1
        over = [each for each in made if each.start < called.end() and start < each.end]
        if whole and shown[start] != "0" and all(_lacks_family(each) for each in over):
            start = min((start, *(each.start for each in over)))
            made = [each for each in made if each not in over]
            made.append(Mention(start, end, full[0].text, sure=True, people=full[0].people))
    return sorted(made, key=lambda each: each.start)


def _lacks_family(named: Mention) -> bool:
    """True for "Cousin Dot", whom only a title for kin makes somebody."""
    title = known_title(named.text.split()[0])
    return title is not None and title.group == "kin"


def group_before(text: str, before: Sequence[Mention], end: int) -> list[Mention]:
    """Those of the people before an address whose it is: the last, and who is joined to them."""
    behind = text[before[-1].end : end]
    if prose_pattern("all").search(behind):
        return [*_by_given(text[: before[0].start]), *before]
    group = [before[-1], *_by_kin(text, before[-1].end, end)]
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


def _by_kin(text: str, start: int, end: int) -> Iterator[Mention]:
    """The Odile of "Kit Penhew and his wife Odile"."""
    said = _ALONE_BEHIND.match(text, start, end)
    if said and is_one_of("kin", said["kin"].removeprefix("and ").removeprefix("with ")):
        yield Mention(said.start("name"), said.end("name"), said["name"], sure=False)


def _joins(between: str) -> bool:
    """True for what joins two people: "and", "her husband"; an aside may stand before it."""
    said = fold(between)
    kin = any(said == word or said.endswith(f" {word}") for word in prose_words("kin"))
    plain = not has_verb(between.rstrip(".")) and not denies(between)
    return kin and (plain or is_one_of("kin", said.removeprefix("and ")))


def named_behind(text: str, behind: Sequence[Mention], end: int) -> list[Mention]:
    """Those behind an address of whom the sentence says that it is theirs, or how they are written.

    "…, and he is Mr. Kit Orr, Jr. on the envelope", "… for Kit Orr": the first, and who is joined.
    """
    sure = [each for each in behind if each.sure]
    if not sure or denies(text[end : sure[0].start]):
        return []
    linked = fold(text[end : sure[0].start])
    told = any(linked.endswith(word) for word in prose_words("is-theirs"))
    if not told and not prose_pattern("outside").match(text[sure[0].end :].lstrip(" ,")):
        return []
    group = [sure[0]]
    for each in sure[1:]:
        if not _joins(text[group[-1].end : each.start]):
            break
        group.append(each)
    return group


def called_before(text: str) -> list[Mention]:
    """A family, or given names alone, that a text says live there: "Bea and her boyfriend are at".

    >>> [each.text for each in called_before("Then young Bea and her boyfriend are at")]
    ['Bea and her boyfriend']
    >>> called_before("Our church is at"), called_before("The Carriage House is at")
    ([], [])
    """
    lived = _lived().search(text)
    found = _CALLED_LAST.search(text, 0, lived.start()) if lived is not None else None
    if found is None or _is_thing(found["last"] or found["one"] or found["family"]):
        return []
    family = found["family"]
    kin = found["kin"]
    if kin and not is_one_of("kin", kin) and not is_one_of("kin", kin.removeprefix("and ")):
        return []
    names = " ".join(found["names"].split())
    names = f"The {family}" if family else _OF_KIN.sub(r"\1", names)
    return [Mention(found.start("names"), found.end("names"), names, sure=False)]


def _is_thing(name: str) -> bool:
    folded = fold(name)
    known = prose_words("no-name") | prose_words("house") | prose_words("lone")
    return folded in known or folded in suffix_words() or known_title(name) is not None


@cache
def _lived() -> re.Pattern[str]:
    ways = sorted(prose_words("lives"), key=len, reverse=True)
    return re.compile(rf",?\s+(?:who\s+)?(?:{'|'.join(map(re.escape, ways))})\s*$", re.IGNORECASE)
