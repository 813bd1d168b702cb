"""Several answers on one line: “1: a 2: b”, “1. yes 2. no”, “10.1 Mr 10.2 Mrs”, “2-4: yes”.

A line is cut only at numbers of the letter that rise. A number with a full stop may end an address
("Apt 5. Portland") or tell an age, so that a proposed answer beside it must say what it is, or the
row of numbers; bare numbers are cut only where every part can be nothing but an answer.
"""

import itertools
import re
from collections.abc import Mapping, Sequence

from addressing.questions.reply_lines import Found, is_open_bracket, known_answer
from addressing.questions.slots import Slot

_SEVERAL = re.compile(
    r"(?:(?<=[\s,;])|^)\(?#?(?P<number>\d+(?:\.\d+)?)(?:\s*[:=)]\s*(?=[^\d\s])|\s*[:=]\s+(?=\d))"
)
_DOTTED = re.compile(
    r"(?:(?<=[\s,;])|^)#?(?:(?P<number>\d+)(?:\.(?!\d)\s*|\s*[:=)]\s*)|(?P<member>\d+\.\d+)\.?\s+)"
    r"(?=\S)"
)
_BARE = re.compile(r"\s+(?=\d)")
_ZIP_LAST = re.compile(r"\d{5}[\s.,;]*$")
_NUMBER = r"\d+(?:\.\d+)?"
_SHARED = re.compile(
    rf"(?:[-*\u2022]\s*)?(?:(?:questions?|qs?|nos?|numbers?)\.?\s*)?"
    rf"(?P<numbers>{_NUMBER}(?:(?:\s*(?:,|,?\s*and\s|&|\+|/|\bto\s|[-\u2013])\s*)#?{_NUMBER})+)"
    r"(?:\s*[:=)]\s*|\s+[-\u2013\u2014]\s+|\s+)(?P<words>\S.*)$",
    re.IGNORECASE,
)
_RANGE = re.compile(r"(\d+)\s*(?:[-\u2013]|\bto\b)\s*(\d+)", re.IGNORECASE)


def several(bare: str, slots: Mapping[str, Slot]) -> Found:
    """The answers of a line with more than one number, each rising, all known; [] for none.

    A number in brackets behind words is an age, "Rory (7) and Isla", unless every part of the line
    can only be an answer: "(1) yes (2) no".
    """
    return (
        _with_colons(bare, slots)
        or _with_dots(bare, slots)
        or _with_blanks(bare, slots)
        or _shared(bare, slots)
    )


def _with_colons(bare: str, slots: Mapping[str, Slot]) -> Found:
    cuts = [cut for cut in _SEVERAL.finditer(bare) if not is_open_bracket(bare[: cut.start()])]
    plainly = [cut for cut in cuts if not cut[0].startswith("(") or not cut.start()]
    found = _parted(bare, cuts, slots)
    if len(plainly) < len(cuts) and not all(known_answer(" ".join(e), slots) for e in found):
        return _parted(bare, plainly, slots)
    return found


def _with_dots(bare: str, slots: Mapping[str, Slot]) -> Found:
    """The parts of "1. yes 2. Kit Orr 3. no" and "10.1 Mr 10.2 Mrs"; an unsure number cuts none."""
    every = [cut for cut in _DOTTED.finditer(bare) if _number(cut) in slots]
    kept = every[:1]
    for place, cut in enumerate(every[1:], start=1):
        end = every[place + 1].start() if place + 1 < len(every) else len(bare)
        before, behind = bare[kept[-1].end() : cut.start()], bare[cut.end() : end]
        if _is_cut((_number(kept[-1]), before), (_number(cut), behind), slots):
            kept.append(cut)
    found = _parted(bare, kept, slots)
    return [each for each in found if each[1]]


def _is_cut(before: tuple[str, str], behind: tuple[str, str], slots: Mapping[str, Slot]) -> bool:
    """True for a number that begins an answer: by its words, those before it, or by its place.

    By its place only as the next of the letter, where no figure stands beside it: “Apt 5. Portland,
    ME 04102” is an address, “Ned 8. Kit 9.” are ages.
    """
    known = any(_known(*each, slots) for each in (before, behind))
    if known or "." in behind[0] or _ZIP_LAST.search(before[1]):
        return True
    order = list(slots)
    follows = order.index(behind[0]) == order.index(before[0]) + 1
    words = before[1].strip(" ,;."), behind[1].strip(" ,;.")
    return follows and all(each and not re.search(r"\d", each) for each in words)


def _known(number: str, words: str, slots: Mapping[str, Slot]) -> bool:
    return known_answer(f"{number} {words.strip(' ,;.')}", slots) is not None


def _with_blanks(bare: str, slots: Mapping[str, Slot]) -> Found:
    """The parts of "1 yes 2 no 3 b"."""
    found = [known_answer(part.strip(" ,;"), slots) for part in _BARE.split(bare)]
    made = [each for each in found if each is not None]
    return made if len(made) == len(found) > 1 and _rises([one for one, _ in made]) else []


def _shared(bare: str, slots: Mapping[str, Slot]) -> Found:
    """One proposed answer for some numbers: "2-4: yes", "5 & 6: guest"; names are nobody else's."""
    found = _SHARED.match(bare)
    if found is None:
        return []
    numbers: list[str] = []
    for part in re.split(r"\s*(?:,?\s*\band\b|[,&+/])\s*#?", found["numbers"]):
        ends = _RANGE.fullmatch(part)
        last = range(int(ends[1]), int(ends[2]) + 1) if ends is not None else ()
        numbers += [str(each) for each in last] or [part]
    answers = [known_answer(f"{each} {found['words']}", slots) for each in numbers]
    made = [each for each in answers if each is not None]
    return made if len(made) == len(numbers) > 1 and _rises(numbers) else []


def _parted(bare: str, cuts: Sequence[re.Match[str]], slots: Mapping[str, Slot]) -> Found:
    numbers = [_number(cut) for cut in cuts]
    if not cuts[1:] or cuts[0].start() or not _rises(numbers) or not slots.keys() >= set(numbers):
        return []
    ends = [cut.start() for cut in cuts[1:]] + [len(bare)]
    parts = (bare[cut.end() : end] for cut, end in zip(cuts, ends, strict=True))
    return [(number, part.strip(" ,;")) for number, part in zip(numbers, parts, strict=True)]


def _number(cut: re.Match[str]) -> str:
    return cut["number"] or cut.groupdict()["member"]


def _rises(numbers: Sequence[str]) -> bool:
    return all(_rank(one) < _rank(two) for one, two in itertools.pairwise(numbers))


def _rank(number: str) -> tuple[int, ...]:
    return tuple(map(int, number.split(".")))
