"""Running text of a mail: lines that a mailer broke are joined, and cut into sentences."""

import re
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import accumulate, pairwise

from addressing.guestlist.domestic.designators import unit_in_front
from addressing.guestlist.domestic.dwellings import suffix_words
from addressing.guestlist.files.children_told import children_of
from addressing.guestlist.files.entries import begins_entry, entry_of
from addressing.guestlist.files.line_ends import ends_itself
from addressing.guestlist.files.mail_lines import (
    Line,
    after_postscript,
    is_place,
    labelled,
    opens_or_closes,
)
from addressing.guestlist.folding import fold
from addressing.guestlist.people.names import known_title

_END = re.compile(
    r"(?<!\b[A-Z])(?<!\bMr)(?<!\bMrs)(?<!\bMs)(?<!\bDr)(?<!\bSt)(?<!\bRev)(?<!\bHon)(?<!\bProf)"
    r"(?<!\bJr)(?<!\bSr)(?<!\bCo)(?<!\bMt)(?<!\bFt)[.!?]+[\"”')]*\s+(?=[\"“'(*]*[^\W\d_])"
)
"""Between two sentences; not behind a title, an initial, a short form before a place's name."""
_INSIDE = re.compile(r"(?<=[^\s.!?]\s)\([^()]*\)|\b[A-Z][a-z]{2,4}\.(?=\s+[a-z])")
"""Brackets inside a sentence, and a short form in it ("Cambridge, Mass. or so")."""
_BEFORE_NUMBER = re.compile(r"(?<![\w.])[a-z]{3,}[.!?]+\s+(?=\d+[A-Za-z]?,?\s+[^\W\d_a-z])")
"""Between a sentence and one that begins with a house's number."""
_NARROW = 60
"""Letters; mailers break lines at more, mostly at 72 to 78 (RFC 5322, 2.1.1)."""
_LONGEST_TITLE = 9
"""Letters of a shortened title at most."""
_WIDE = 55
"""Letters of a line of a paragraph at least, save its last."""
_BROKEN = 3
"""Times that an entry is broken at most."""
_CODE_ALONE = re.compile(r"(?:[A-Z]{2}[ ,]+)?\d{5}(?:-\d{4})?|[A-Z]{1,2}\d[A-Z\d]? ?\d[A-Z]{2}")
_LAST_CODE = re.compile(r"\b(?:[A-Z]{2}[ ,]+|[A-Z][a-z]+ )\d{5}(?:-\d{4})?\s*$")
"""A state and a ZIP code, which end an address."""


def is_prose(block: Sequence[Line]) -> bool:
    """True for a paragraph: sentences that a mailer broke, or several in one line.

    A line of a list ends where its household does: with a code, a stop or a remark, and the next
    begins with a name.
    """
    listed = sum(entry_of(line.text) is not None for line in block)
    if any(line.opens for line in block) or listed * 2 > len(block) > 1:
        return False
    if len(block) == 1:
        said = list(sentences(block))
        return len(said) > 1 and entry_of(said[0].text) is None
    whole = joined(block)
    if len(whole) < len(block) and all(entry_of(line.text) for line in whole):
        return False
    wide = all(len(line.text) >= _WIDE for line in block[:-1])
    broken = (_breaks(line, following) for line, following in pairwise(block))
    return wide and any(broken)


def _breaks(line: Line, following: Line) -> bool:
    """True where a line goes on in the next one, and no entry begins there."""
    if line.text.endswith(":"):
        return is_place(following.text)
    ended = re.search(r"[.!?:)\d]$", line.text) is not None
    return following.text[:1].islower() or (not ended and entry_of(following.text) is None)


def joined(block: Sequence[Line]) -> list[Line]:
    """The lines of a block, an entry that was broken over two of them in one line."""
    lines: list[Line] = []
    for line in block:
        few = bool(lines) and len(lines[-1].more) < _BROKEN
        if few and not line.opens and _goes_on(lines[-1], line):
            first = lines[-1]
            joint = " – " if children_of(line.text) else " "
            text = f"{first.text}{joint}{line.text}"
            lines[-1] = replace(first, text=text, more=(*first.more, line))
        else:
            lines.append(line)
    return lines


def _goes_on(line: Line, following: Line) -> bool:
    """True where a line breaks off: inside brackets, before its code, or before its town."""
    text = line.text
    if children_of(following.text):
        return labelled(line) is None and entry_of(text) is not None
    if text.count("(") > text.count(")"):
        return ")" in following.text
    if entry_of(following.text) is not None:
        return False
    if _CODE_ALONE.fullmatch(following.text):
        return begins_entry(text) and re.search(r"\d{5}(?:-\d{4})?\s*$", text) is None
    begun = begins_entry(text) and entry_of(text) is None
    ends = text.endswith((",", "-", "–")) or is_place(following.text)
    return begun and ends and entry_of(f"{text} {following.text}") is not None


def sentences(lines: Sequence[Line]) -> Iterator[Line]:
    """The sentences of a paragraph, each as a line that knows the lines it goes over.

    Greetings, closings and "PS" are none.
    """
    parts = [part for whole in lines for part in (whole, *whole.more)]
    own = [part.text.removesuffix(_tail(part)).strip() for part in parts]
    text = " ".join(own)
    starts = [0, *accumulate(len(words) + 1 for words in own[:-1])]
    begin = 0
    shown = _INSIDE.sub(lambda found: "_" * len(found[0]), text)
    stops = (match for match in _END.finditer(shown) if not _is_inside(shown, match))
    ends = {match.end() for match in (*stops, *_BEFORE_NUMBER.finditer(shown))}
    ends |= set(_short(starts, own, text))
    for end in sorted((*ends, len(text))):
        said = text[begin:end].strip()
        said = after_postscript(said)
        first, *others = parts[bisect_right(starts, begin) - 1 : bisect_left(starts, end)] or parts
        if said and not opens_or_closes(said):
            yield Line(first.number, said, more=tuple(others))
        begin = end


def _is_inside(text: str, stop: re.Match[str]) -> bool:
    """True for the points of "Capt. Orr" and of "Dunmore Ave. Apt 6"."""
    return _behind_title(text, stop) or _before_unit(text, stop)


def _before_unit(text: str, stop: re.Match[str]) -> bool:
    """True where a street's short suffix ends and a unit with its number follows."""
    before = text[: stop.start()].split()[-1:]
    short = stop[0].startswith(". ") and bool(before) and fold(before[0]) in suffix_words()
    return short and unit_in_front().match(text[stop.end() :]) is not None


def _behind_title(text: str, stop: re.Match[str]) -> bool:
    """True for the point of "Capt. Orr"."""
    before = text[max(stop.start() - _LONGEST_TITLE, 0) : stop.start()].split()
    title = known_title(before[-1]) if before and before[-1][:1].isupper() else None
    return stop[0].startswith(". ") and title is not None and not title.also_a_name


def _short(starts: Sequence[int], own: Sequence[str], text: str) -> Iterator[int]:
    """Where a line ends that no mailer broke: too short or with a code, a capital is next.

    Before small letters it must end by itself.
    """
    for place, (at, following) in enumerate(pairwise(starts)):
        placed = _LAST_CODE.search(text[at:following]) is not None
        ends = following - at < _NARROW or placed
        capital = text[following : following + 1].isupper()
        if ends and (capital or ends_itself(own, place, placed=placed)):
            yield following


def _tail(line: Line) -> str:
    return "".join(f" {more.text}" for more in line.more)
