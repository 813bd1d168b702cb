"""Which numbers of a list a remark speaks of: "strike 12", "no. 7 moved", "5 and 9 are one couple".

The words are the rows of list_numbers.tsv. A number of a street, a date, a time, a table, or of so
many people is none of the list's.
"""

import re
from collections.abc import Container, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cache
from itertools import chain

from addressing.guestlist.domestic.dwellings import suffix_words
from addressing.guestlist.files.mail_lines import Line
from addressing.guestlist.files.spans import spans
from addressing.guestlist.tables.numbered import opening_number
from addressing.tables import table

_ONE = r"\(?#?\s?(?:(?:no?r?s?|number|row)\b\.?\s?#?)?\d{1,4}[a-z]?\)?(?![\w%$]|[.,:]\d|/\d)"
_BETWEEN = (
    r"\s*(?:,\s*(?:(?:and|or)\b|&)?|\b(?:and|or|und|et|y|e|with|plus|through|thru|to)\b|[&+/–-])\s*"
)
_SEVERAL = rf"(?P<list>{_ONE}(?:{_BETWEEN}{_ONE})*)"
_LIST = rf"(?<![\w$£€.,:/–-]){_SEVERAL}"
_NUMBER = re.compile(r"\d{1,4}[a-z]?", re.IGNORECASE)
_RANGE = re.compile(
    r"(?P<from>\d{1,4})\)?\s*(?:-|–|\bthrough\b|\bthru\b)\s*\(?#?(?P<to>\d{1,4})\b", re.IGNORECASE
)
_WIDEST = 30
"""Numbers that "5-9" may mean at most."""
_KEYED = re.compile(r"(?<![\w-])[A-Za-z]{1,3}-?\d{1,4}[a-z]?(?![\w-])")
"""A number with letters ("P06"), which needs no other sign."""
_MONTH = (
    r"(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?"
    r"|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)\.?"
)
_STREET = re.compile(
    r"(?<![\w#])\d+[A-Za-z]?\s+(?:[NSEWnsew]{1,2}\.?\s+)?"
    r"(?:\d+(?:st|nd|rd|th)\b|(?:[A-Z][\w.'’-]*\s+){0,4}[A-Z][\w.'’-]*|[a-z]{3,}\s+[a-z.]{2,})"
)
_NOT_OF_LIST = re.compile(
    rf"\b{_MONTH}\s+\d{{1,2}}\b(?:\s*(?:[-–]|to|and)\s*\d{{1,2}}\b)?|\b\d{{1,2}}\s+(?!(?-i:may)\b){_MONTH}(?!\w)"
    r"|\b\d+(?:st|nd|rd|th)\b|\b\d{1,2}(?::\d\d)?\s*(?:[ap]\.?m\b|o['’]?clock)|\d{1,2}:\d\d"
    r"|[$£€]\s?\d+|\b\d+\s?(?:%|percent)|\b\d{1,2}[/.]\d{1,2}[/.]\d{2,4}",
    re.IGNORECASE,
)


def numbers_in(text: str, known: Container[str]) -> tuple[str, ...]:
    """The numbers of a list that a remark speaks of, in their order, also those nobody has.

    `known` are the list's own. A number with neither mark nor words that act on it is one of the
    list only if somebody has it.

    >>> known = {"5", "7", "9", "12"}
    >>> numbers_in("Strike 12, and 5 and 9 are the same couple", known)
    ('12', '5', '9')
    >>> numbers_in("No. 7 moved to 9 Elm Street; dinner for 12 at 5 o'clock", known)
    ('7',)
    """
    if not any(map(str.isdecimal, text)):
        return ()
    shown = _without_others(text)
    found: dict[int, tuple[str, ...]] = {}
    for match in chain(_marked(shown), _acted(shown), _leading(shown), _speaking(shown)):
        numbers = _of_list(match["list"], known)
        enough = any if match.re is _acts() else all
        if match.re is _marks() or enough(number in known for number in numbers):
            found.setdefault(match.start("list"), numbers)
    for match in _KEYED.finditer(shown):
        if match[0].casefold() in known:
            found.setdefault(match.start(), (match[0].casefold(),))
    ordered = (number for at in sorted(found) for number in found[at])
    return tuple(dict.fromkeys(ordered))


def with_numbers(
    told: Sequence[tuple[Line, ...]], raws: Mapping[int, str]
) -> list[tuple[Line, ...]]:
    """The paragraphs of a mail, "12. died in May" with its number before it.

    Numbers from 1 on only count the remarks. `raws` are the lines as typed, by number.
    """
    opened = [opening_number(raws.get(part[0].number, "")) if part else None for part in told]
    counting = [number for number in opened if number is not None]
    if counting == [str(number) for number in range(1, len(counting) + 1)]:
        return list(told)
    return [
        (replace(part[0], text=f"{number}: {part[0].text}"), *part[1:])
        if number and number not in numbers_in(part[0].text, (number,))
        else part
        for part, number in zip(told, opened, strict=True)
    ]


def links(text: str) -> bool:
    """True for a remark that is about all whom it names by number: "one envelope for 5 and 9"."""
    return _linking().search(text) is not None


def sole_number(text: str) -> str | None:
    """The number to which a whole cell refers: "same as #5", "see no. 14", "as 5"; None else.

    >>> sole_number("same as #5"), sole_number("as 5"), sole_number("5 Elm St")
    ('5', '5', None)
    """
    found = _references().fullmatch(text.strip(" .()[]*"))
    return found["number"].casefold() if found is not None else None


def _without_others(text: str) -> str:
    """The text with a mark for each letter of an address, a date, a time, a price."""
    for span in spans(text):
        text = _hidden(text, span.start, span.end)
    for found in _STREET.finditer(text):
        end = _street_end(found)
        if end is not None:
            text = _hidden(text, found.start(), found.start() + end)
    for pattern in (_NOT_OF_LIST, _others()):
        for found in pattern.finditer(text):
            text = _hidden(text, found.start(), found.end())
    return text


def _hidden(text: str, start: int, end: int) -> str:
    return f"{text[:start]}{'¤' * (end - start)}{text[end:]}"


def _street_end(found: re.Match[str]) -> int | None:
    """How far a street goes that ends in a street's word; None for another text."""
    ends = (
        word.end() for word in re.finditer(r"\S+", found[0]) if word.start() and _is_suffix(word[0])
    )
    return max(ends, default=None)


def _is_suffix(word: str) -> bool:
    return word.casefold().strip(".,;") in suffix_words()


def _of_list(text: str, known: Container[str]) -> tuple[str, ...]:
    """The single numbers of "5, 6 & 9" and of "5-9"."""
    numbers = [found[0].casefold() for found in _NUMBER.finditer(text)]
    for found in _RANGE.finditer(text):
        first, last = int(found["from"]), int(found["to"])
        if first < last <= first + _WIDEST:
            between = (str(number) for number in range(first, last + 1))
            numbers += [number for number in between if number in known]
    return tuple(dict.fromkeys(numbers))


def _marked(text: str) -> Iterator[re.Match[str]]:
    """Numbers behind "no.", "row" or "#" that aren't a table's or a house's."""
    for found in _marks().finditer(text):
        behind = text[found.end() :]
        sure = "#" in found["mark"] or found["mark"].endswith(".") or _ends(behind)
        if sure and not _behind("other-behind").match(behind):
            yield found


def _acted(text: str) -> Iterator[re.Match[str]]:
    """Numbers with which something is to be done: "take 12 off", "merge 5 and 9"."""
    for found in _acts().finditer(text):
        said = " ".join(found["act"].casefold().replace("’", "'").split())
        kinds = [kind for kind in ("act", "act-many") if f"{said} …" in _words(kind)]
        tail = _ways_behind().get(said)
        behind = tail.match(text, found.end()) if tail is not None else None
        whole = "act" in kinds or (kinds and _is_several(found)) or found["part"] is not None
        if behind is not None or (whole and _ends(text[found.end() :])):
            yield found


def _leading(text: str) -> Iterator[re.Match[str]]:
    """Numbers of which a clause goes on to speak: "for 3, please write General"."""
    return chain(_leads().finditer(text), _begins().finditer(text))


def _speaking(text: str) -> Iterator[re.Match[str]]:
    """Numbers of whom a clause says something: "12 is dead", "5 and 9 are the same couple"."""
    for found in _says().finditer(text):
        ends = (found.end("list"), found.end())
        counts = any(_behind("count").match(text[end:]) for end in ends)
        if (found["many"] is None or _is_several(found)) and not counts:
            yield found


def _is_several(found: re.Match[str]) -> bool:
    return len(_NUMBER.findall(found["list"])) > 1


def _ends(behind: str) -> bool:
    """True where no thing follows that would make a number a count: "strike 12 chairs"."""
    return re.match(r"\s*(?:$|[^\w\s¤]|¤)", behind) is not None or bool(
        _behind("goes-on").match(behind)
    )


@cache
def _words(kind: str) -> frozenset[str]:
    return frozenset(row["word"] for row in table("list_numbers") if row["kind"] == kind)


@cache
def _ways(*kinds: str) -> str:
    """A pattern for the words of some kinds, longer ones first."""
    longest = sorted((word for kind in kinds for word in _words(kind)), key=len, reverse=True)
    return "|".join(_loose(word) for word in longest)


def _loose(word: str) -> str:
    return re.escape(word).replace(r"\ ", r"\s+").replace("'", "['’]")


@cache
def _behind(kind: str) -> re.Pattern[str]:
    return re.compile(rf"\s*(?:{_ways(kind)})(?!\w)", re.IGNORECASE)


@cache
def _marks() -> re.Pattern[str]:
    return re.compile(
        rf"(?P<mark>(?<!\w)(?:{_ways('mark')})\.?\s*#?|#)\s*{_SEVERAL}", re.IGNORECASE
    )


@cache
def _others() -> re.Pattern[str]:
    """A number of a table or of a house, with what says so."""
    mark = rf"(?:(?:{_ways('mark')})\.?\s*#?|#)"
    return re.compile(rf"(?<!\w)(?:{_ways('other')})\.?\s*{mark}?\s*{_SEVERAL}", re.IGNORECASE)


@cache
def _acts() -> re.Pattern[str]:
    fronts = {word.partition(" …")[0] for kind in ("act", "act-many") for word in _words(kind)}
    longest = "|".join(_loose(word) for word in sorted(fronts, key=len, reverse=True))
    part = rf"(?P<part>(?:{_ways('part')})s?\s+(?:{_ways('part-of')}))"
    return re.compile(rf"(?<!\w)(?P<act>(?:{longest})|{part})\s+(?:the\s+)?{_LIST}", re.IGNORECASE)


@cache
def _ways_behind() -> dict[str, re.Pattern[str]]:
    """What stands behind the number in words with it between them: "take … off"."""
    found: dict[str, list[str]] = {}
    for word in _words("act"):
        front, _, behind = word.partition(" … ")
        if behind:
            found.setdefault(front, []).append(_loose(behind))
    return {
        front: re.compile(rf"\s+(?:{'|'.join(behind)})(?!\w)", re.IGNORECASE)
        for front, behind in found.items()
    }


@cache
def _leads() -> re.Pattern[str]:
    behind = _ways("lead-behind")
    return re.compile(
        rf"{_opening()}(?:{_ways('lead')})\s+{_LIST}\s*(?:{behind})(?!\w)", re.IGNORECASE
    )


@cache
def _says() -> re.Pattern[str]:
    return re.compile(
        rf"{_opening()}(?:the\s+)?{_LIST}"
        rf"(?:\s*(?:{_ways('says')})(?!\w)|(?P<many>\s+(?:{_ways('says-many')})(?!\w)))",
        re.IGNORECASE,
    )


@cache
def _linking() -> re.Pattern[str]:
    return re.compile(rf"(?<!\w)(?:{_ways('links')})(?!\w)", re.IGNORECASE)


@cache
def _begins() -> re.Pattern[str]:
    return re.compile(rf"^\W*{_SEVERAL}\s*(?:{_ways('says-first')})(?=\s)", re.IGNORECASE)


@cache
def _references() -> re.Pattern[str]:
    ways = _ways("reference")
    mark = rf"(?:(?:{_ways('mark')})\.?\s*#?|#)"
    return re.compile(
        rf"(?:(?:{ways})\s+(?:the\s+)?(?:{mark}\s*)?|{mark}\s*)(?P<number>\d{{1,4}}[a-z]?)",
        re.IGNORECASE,
    )


def _opening() -> str:
    """Where a clause opens."""
    return rf"(?:^\W*|[.;:,!?()–—\n\"“]\s*|(?<!\w)(?:{_ways('opens')})\s+)"
