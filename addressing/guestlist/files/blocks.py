"""The household of a block of lines: names first, then the address, remarks between or behind."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from addressing.guestlist.domestic.dwellings import Segment, kind_of
from addressing.guestlist.files.below import is_said_below
from addressing.guestlist.files.called_above import called, without_call
from addressing.guestlist.files.children_told import children_of
from addressing.guestlist.files.mail_lines import (
    Line,
    has_title,
    has_verb,
    is_aside,
    is_family,
    is_name,
    is_place,
    is_town,
    labelled,
)
from addressing.guestlist.files.mentions import mentions
from addressing.guestlist.files.name_lines import is_above, without_lead, without_remark
from addressing.guestlist.files.prose_words import masked
from addressing.guestlist.files.spans import spans
from addressing.guestlist.folding import fold
from addressing.guestlist.people.vocabulary import words
from addressing.guestlist.places.countries import country_of_cell

Slot = tuple[str, int]
"""A meaning of a column and its ordinal."""
Slots = dict[Slot, list[Line]]

STREETS = (("address", 1), ("street2", 1), ("street2", 2), ("street2", 3))
NAME: Slot = ("name", 1)
NOTES: Slot = ("notes", 1)
CHILDREN: Slot = ("children", 1)
CALLS: Slot = ("notes", 2)
"""What the writer calls somebody, a cell of its own beside other remarks."""
_JOINERS = ("and ", "& ", "+ ", "und ", "et ", "y ")
_IN_CARE = ("c/o", "attn", "apt", "unit", "care of")
_TOWN_ALONE = re.compile(r"[^\W\d_][^\d]*,?\s+(?:[A-Z]{2}|[A-Z][a-z]+)\.?,?")
_CODE_ALONE = re.compile(r"\d{5}(?:-\d{4})?")
_OF_ANOTHER = re.compile(r"['’]s\s+[a-z]")
"""In "Mr. Orr's friend Kit Penhew": a sentence, where no address stands below."""
_REMARKS = ("no ", "new ", "adults ", "without ", "not ")
_SHOWN = 3
_SENTENCE = 4
"""Words of a remark without brackets at least."""


def parted(lines: Sequence[Line]) -> Iterator[list[Line]]:
    """The lines of each household, where one ends without a blank line.

    Behind a town stands another name then, or a sentence with more below it.
    """
    block: list[Line] = []
    for place, line in enumerate(lines):
        block.append(line)
        if _goes_on(lines[place + 1 : place + 3]):
            continue
        behind = lines[place + 1 : place + 3]
        another = len(behind) > 1 and (
            has_verb(behind[0].text) or (_is_a_name(behind[0]) and not _is_a_name(behind[1]))
        )
        if another and is_town(line.text):
            yield block
            block = []
    if block:
        yield block


def _goes_on(behind: Sequence[Line]) -> bool:
    """True before the rest of an address: a town without its code, or a country by itself."""
    first = behind[0].text if behind else ""
    second = behind[1].text if behind[1:] else ""
    if country_of_cell(first) is not None:
        return not is_place(second)  # "Jordan" above a street is a guest
    return _TOWN_ALONE.fullmatch(first) is not None and _CODE_ALONE.fullmatch(second) is not None


def _is_a_name(line: Line) -> bool:
    return is_name(line.text) and not is_place(line.text) and labelled(line) is None


def slots_of(lines: Sequence[Line]) -> Slots | None:
    """What each line of a household is; None where the lines are no household."""
    slots, plain = _beside(lines)
    plain, calls = without_call(plain)
    plain, said = _without_said(plain)
    names, address = _names_and_address(plain)
    if not names and not any(meaning in ("name", "given", "household") for meaning, _ in slots):
        return None if lines else {}
    placed = [line for line in address if is_place(line.text) and not _tells(line)]
    above = len(address) == 1 and is_above(address[0].text)  # "same as Kit"
    told = bool(placed) or above or len(slots) > 1
    told = told or (len(address) > 1 and country_of_cell(address[-1].text) is not None)
    titled = bool(names) and has_title(names[0].text) and not _OF_ANOTHER.search(names[0].text)
    if not told and not (titled and len(lines) <= _SHOWN):
        return None
    _take_names(slots, names)
    for slot, beside in ((CALLS, calls), (NOTES, said)):
        slots.setdefault(slot, []).extend(beside)
    for place, line in enumerate(address):
        slots.setdefault(STREETS[min(place, len(STREETS) - 1)], []).append(line)
    return {slot: held for slot, held in slots.items() if held}


def _beside(lines: Sequence[Line]) -> tuple[Slots, list[Line]]:
    """What labels, children and remarks of a household say, and its other lines."""
    slots: Slots = {}
    plain: list[Line] = []
    for place, line in enumerate(lines):
        label = labelled(line)
        if label is not None:
            hit, value = label
            slots.setdefault((hit.meaning, hit.ordinal), []).append(Line(line.number, value))
        elif plain and (children := children_of(line.text)):
            slots.setdefault(CHILDREN, []).append(Line(line.number, children))
        elif plain and (
            is_aside(line.text) or is_said_below(lines, place) or _is_remark(lines, place)
        ):
            slots.setdefault(NOTES, []).append(line)
        else:
            plain.append(line)
    return slots, plain


def _without_said(lines: Sequence[Line]) -> tuple[list[Line], list[Line]]:
    """Lines, the first without what leads to its names or is said behind them; and that."""
    if not lines:
        return [], []
    text, lead = without_lead(lines[0].text)
    names, remark = without_remark(text)
    names, call = called(names)
    said = [Line(lines[0].number, part) for part in (call, lead, remark) if part]
    return [replace(lines[0], text=names), *lines[1:]], said


def _is_remark(lines: Sequence[Line], place: int) -> bool:
    """True for a line that speaks: set in by itself, or a sentence without a number."""
    line = lines[place]
    if is_place(line.text) or line.text.casefold().startswith((*_JOINERS, *_IN_CARE)):
        return False
    if line.text[0] in "?*~!" or _is_exclaimed(line.text):
        return True
    behind = lines[place + 1].indent if place + 1 < len(lines) else 0
    alone = line.indent > max(lines[0].indent, behind)
    speaks = len(line.text.split()) >= _SENTENCE and (has_verb(line.text) or line.text[0].islower())
    alone = alone or (is_above(line.text) and has_verb(line.text))  # "same as Kit, he's 22"
    return speaks and (alone or not any(mark.isdecimal() for mark in line.text))


def _is_exclaimed(text: str) -> bool:
    """True for "no kids!!", "new address": short, without a capital, and no part of an address."""
    small = text == text.casefold() and not any(mark.isdecimal() for mark in text)
    led = text.startswith(_REMARKS) or text[-1:] in "!?"
    return small and led and kind_of(text) not in (Segment.UNIT, Segment.EXTRA)


def is_of_another(text: str) -> bool:
    """True for a line that begins with somebody's names and has an address behind them.

    >>> is_of_another("Mrs. Kit Orr, who raised us, 9 Elm St, Bath ME 04530")
    True
    >>> is_of_another("c/o Mrs. Kit Orr, 9 Elm St, Bath ME 04530")
    False
    """
    placed = any(span.whole for span in spans(text))
    return placed and any(each.sure and not each.start for each in mentions(masked(text)))


def _tells(line: Line) -> bool:
    """True for a sentence with a number in it: "4 kids are Kit and Wren" is no address."""
    return has_verb(line.text.rstrip(".!?")) and not any(span.whole for span in spans(line.text))


def _names_and_address(lines: Sequence[Line]) -> tuple[list[Line], list[Line]]:
    """Names come first; the first line that isn't one begins the address."""
    if not lines or not is_name(lines[0].text) or is_place(lines[0].text):
        return [], list(lines)
    if any(span.whole for span in spans(lines[0].text)):  # "Kit Orr - 9 Elm St, Bath ME 04530. And"
        return [], list(lines)
    end = 1
    while end < len(lines) and _names_more(lines[end].text):
        end += 1
    if any(is_of_another(line.text) for line in lines[end:]):
        return [], list(lines)
    first = lines[0]
    if is_family(first.text):  # "the Penhews"
        first = replace(first, text=f"T{first.text[1:]}")
    return [first, *lines[1:end]], list(lines[end:])


def _names_more(text: str) -> bool:
    if joins(text) and not words("guest").isdisjoint(fold(text).split()):
        return True
    return is_name(text) and not is_place(text) and (has_title(text) or joins(text))


def joins(text: str) -> bool:
    """True for a line that goes on with the names of the one before."""
    return text.casefold().startswith(_JOINERS)


def _take_names(slots: Slots, names: Sequence[Line]) -> None:
    """Each line of names is a person's column; one that opens with "and" goes on with the last."""
    ordinal = 0
    for line in names:
        if not joins(line.text) or not ordinal:
            ordinal += 1
        slots.setdefault(("name", ordinal), []).append(line)
