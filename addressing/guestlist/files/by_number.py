"""Which numbers of a list a remark speaks of: "strike 12", "no. 7 moved", "5 and 9 are one couple".

The words are the rows of list_numbers.tsv. A number of a street, a date, a time, a table, or of so
many people is none of the list's.
"""

import re
from collections.abc import Container, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import chain

from addressing.guestlist.domestic.dwellings import suffix_words
from addressing.guestlist.files.figures import in_figures
from addressing.guestlist.files.mail_lines import Line
from addressing.guestlist.files.number_patterns import (
    acting_behind,
    acting_ways,
    beginning_ways,
    behind_number,
    leading_ways,
    linking_ways,
    marked_ways,
    number_ways,
    number_words,
    opening_ways,
    other_ways,
    referring_ways,
    saying_ways,
)
from addressing.guestlist.files.spans import spans
from addressing.guestlist.tables.numbered import opening_number

_CHILDREN_OF = re.compile(
    r"\W*(?P<number>\d{1,3})(?:['’]s)?\s+(?:kids|children|boys|girls|sons|daughters)"
    r"(?:\s+are)?\s*[:=]?\s+(?P<names>[A-Z].*)"
)
_CAPITALS = re.compile(r"\b[A-Z]\w+")
_MONTH = (
    r"(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?"
    r"|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)\.?"
)
_NUMBER = re.compile(r"\d{1,4}[a-z]?", re.IGNORECASE)
_RANGE = re.compile(
    r"(?P<from>\d{1,4})\)?\s*(?:-|–|\bthrough\b|\bthru\b)\s*\(?#?(?P<to>\d{1,4})\b", re.IGNORECASE
)
_FROM_TO = re.compile(r"(?P<from>\d{1,4})\s+to\s+(?:no\.?\s?)?(?P<to>\d{1,4})\b", re.IGNORECASE)
"""A range behind "rows" or "from"; "change 5 to 7" is none."""
_REFERS = frozenset(("as", "with", "of", "to", "see", "not", "except", "besides"))
"""What ends the words before a number to which a remark on another row only refers."""
_OF_SHEET = frozenset(("row", "rows", "line", "lines"))
_ANY = frozenset(map(str, range(1, 10_000)))
_FROM = re.compile(r"\bfrom\s+$", re.IGNORECASE)
_WIDEST = 30
"""Numbers that "5-9" may mean at most."""
_KEYED = re.compile(r"(?<![\w-])[A-Za-z]{1,3}-?\d{1,4}[a-z]?(?![\w-])")
"""A number with letters ("P06"), which needs no other sign."""
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


def numbers_in(text: str, known: Container[str], *, aside: bool = False) -> tuple[str, ...]:
    """The numbers of a list that a remark speaks of, in their order, also those nobody has.

    `known` are the list's own. A number with neither mark nor words that act on it is one of the
    list only if somebody has it. `aside` is for a remark in a cell by itself, where whatever
    number it opens with is the list's unless things are counted: "6 no plus one after all".

    >>> known = {"5", "7", "9", "12"}
    >>> numbers_in("Strike 12, and 5 and 9 are the same couple", known)
    ('12', '5', '9')
    >>> numbers_in("No. 7 moved to 9 Elm Street; dinner for 12 at 5 o'clock", known)
    ('7',)
    >>> numbers_in("5 kids not invited", known), numbers_in("5 kids not invited", known, aside=True)
    ((), ('5',))
    """
    text = in_figures(text, number_ways("mark"))
    if not any(map(str.isdecimal, text)):
        return ()
    shown = _without_others(text)
    found: dict[int, tuple[str, ...]] = {}
    for match, numbers in _said_of(shown, known, aside=aside):
        found.setdefault(match.start("list"), numbers)
    for match in _KEYED.finditer(shown):
        if match[0].casefold() in known:
            found.setdefault(match.start(), (match[0].casefold(),))
    ordered = (number for at in sorted(found) for number in found[at])
    return tuple(dict.fromkeys(ordered))


def opens_with(text: str, known: Container[str]) -> tuple[str, ...]:
    """The numbers with which a remark in a cell by itself opens, so that it is about those rows.

    >>> known = {"5", "7"}
    >>> opens_with("5 guest = Alex Orr", known), opens_with("please remove 7", known)
    (('5',), ('7',))
    >>> opens_with("same address as 5", known), opens_with("sits with 7", known)
    ((), ())
    """
    shown = _without_others(in_figures(text, number_ways("mark")))
    for match, numbers in _said_of(shown, known, aside=True):
        before = " ".join(re.findall(r"\w+", shown[: match.start()])).casefold()
        act = (
            match["act"].casefold().split() if match.re is acting_ways() and match["act"] else [""]
        )
        if (not before or before in number_words("opens")) and act[-1] not in _REFERS:
            return numbers
    return ()


def rows_in(text: str) -> tuple[str, ...]:
    """The rows of a sheet that a remark in a cell by itself names: "row 7", "lines 3-5".

    >>> rows_in("rows 3-5 are out"), rows_in("number 7 is out")
    (('3', '5', '4'), ())
    """
    shown = _without_others(in_figures(text, number_ways("mark")))
    marked = (
        m for m in _marked(shown, aside=True) if m["mark"].strip(" .#").casefold() in _OF_SHEET
    )
    return tuple(dict.fromkeys(each for m in marked for each in _of_list(m, _ANY)))


def with_numbers(
    told: Sequence[tuple[Line, ...]], raws: Mapping[int, str]
) -> list[tuple[Line, ...]]:
    """The paragraphs of a mail, "12. died in May" with its number before it.

    Numbers that go on from 1 only count the remarks. `raws` are the lines as typed, by number.
    """
    opened = [opening_number(raws.get(part[0].number, "")) if part else None for part in told]
    counting = [number for number in opened if number is not None]
    if counting == [str(number) for number in range(1, len(counting) + 1)]:
        return list(told)
    lines = _counting_lines(raws)
    opened = [
        None if part and part[0].number in lines else number
        for part, number in zip(told, opened, strict=True)
    ]
    return [
        (replace(part[0], text=f"{number}: {part[0].text}"), *part[1:])
        if number and number not in numbers_in(part[0].text, (number,))
        else part
        for part, number in zip(told, opened, strict=True)
    ]


def _counting_lines(raws: Mapping[int, str]) -> frozenset[int]:
    """The lines of which each has the number behind the one above, from 1 on."""
    found: set[int] = set()
    last = 0
    for line in sorted(raws):
        number = opening_number(raws[line])
        if number is not None and number.isdecimal():
            last = int(number) if int(number) in (1, last + 1) else -1
            found.update((line,) if last > 0 else ())
    return frozenset(found)


def names_children_of(text: str) -> bool:
    """True for "4 kids are Kit and Wren": as many as the number says would be only counted.

    >>> names_children_of("4 kids are Kit and Wren"), names_children_of("2 kids are Kit and Wren")
    (True, False)
    """
    found = _CHILDREN_OF.match(text)
    return found is not None and len(_CAPITALS.findall(found["names"])) != int(found["number"])


def links(text: str) -> bool:
    """True for a remark that is about all whom it names by number: "one envelope for 5 and 9"."""
    return linking_ways().search(text) is not None


def sole_number(text: str) -> str | None:
    """The number to which a whole cell refers: "same as #5", "see no. 14", "as 5"; None else.

    >>> sole_number("same as #5"), sole_number("as 5"), sole_number("5 Elm St")
    ('5', '5', None)
    """
    found = referring_ways().fullmatch(text.strip(" .()[]*"))
    return found["number"].casefold() if found is not None else None


def _said_of(
    text: str, known: Container[str], *, aside: bool
) -> Iterator[tuple[re.Match[str], tuple[str, ...]]]:
    """Each place where numbers of the list are spoken of, and the numbers."""
    ways = (_marked(text, aside=aside), _acted(text), _leading(text), _speaking(text))
    for match in chain(*ways, _opened(text) if aside else ()):
        numbers = _of_list(match, known)
        enough = any if match.re is acting_ways() else all
        if match.re is marked_ways() or enough(number in known for number in numbers):
            yield match, numbers


def _without_others(text: str) -> str:
    """The text with a mark for each letter of an address, a date, a time, a price."""
    for span in spans(text):
        text = _hidden(text, span.start, span.end)
    for found in _STREET.finditer(text):
        end = _street_end(found)
        if end is not None:
            text = _hidden(text, found.start(), found.start() + end)
    for pattern in (_NOT_OF_LIST, other_ways()):
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


def _of_list(match: re.Match[str], known: Container[str]) -> tuple[str, ...]:
    """The single numbers of "5, 6 & 9", of "5-9", of "rows 5 to 9"."""
    text = match["list"]
    numbers = [found[0].casefold() for found in _NUMBER.finditer(text)]
    several = match.re is marked_ways() or _FROM.search(match.string[: match.start("list")])
    ranges = (_RANGE, _FROM_TO) if several else (_RANGE,)
    for found in (found for pattern in ranges for found in pattern.finditer(text)):
        first, last = int(found["from"]), int(found["to"])
        if first < last <= first + _WIDEST:
            between = (str(number) for number in range(first, last + 1))
            numbers += [number for number in between if number in known]
    return tuple(dict.fromkeys(numbers))


def _marked(text: str, *, aside: bool) -> Iterator[re.Match[str]]:
    """Numbers behind "no.", "row" or "#" that aren't a table's or a house's."""
    for found in marked_ways().finditer(text):
        behind = text[found.end() :]
        sure = "#" in found["mark"] or found["mark"].endswith(".") or _ends(behind)
        sure = sure or (aside and not _counts_things(found, behind))
        if sure and not behind_number("other-behind").match(behind):
            yield found


def _acted(text: str) -> Iterator[re.Match[str]]:
    """Numbers with which something is to be done: "take 12 off", "merge 5 and 9"."""
    for found in acting_ways().finditer(text):
        said = " ".join(found["act"].casefold().replace("’", "'").split())
        kinds = [kind for kind in ("act", "act-many") if f"{said} …" in number_words(kind)]
        tail = acting_behind().get(said)
        behind = tail.match(text, found.end()) if tail is not None else None
        whole = "act" in kinds or (kinds and _is_several(found)) or found["part"] is not None
        if behind is not None or (whole and _ends(text[found.end() :])):
            yield found


def _leading(text: str) -> Iterator[re.Match[str]]:
    """Numbers of which a clause goes on to speak: "for 3, please write General"."""
    return chain(leading_ways().finditer(text), beginning_ways().finditer(text))


def _speaking(text: str) -> Iterator[re.Match[str]]:
    """Numbers of whom a clause says something: "12 is dead", "5 and 9 are the same couple"."""
    for found in saying_ways().finditer(text):
        ends = (found.end("list"), found.end())
        counts = any(behind_number("count").match(text[end:]) for end in ends)
        if (found["many"] is None or _is_several(found)) and not counts:
            yield found


def _opened(text: str) -> Iterator[re.Match[str]]:
    """Numbers with which a remark opens that stands by itself, save of things counted."""
    for found in opening_ways().finditer(text):
        behind = text[found.end() :]
        words = re.findall(r"[^\W\d_]\S*|=", behind)
        if not all(word[:1].isupper() for word in words) and not _counts_things(found, behind):
            yield found  # "12 Maple" and "7 Oaks Farm" are places


def _counts_things(found: re.Match[str], behind: str) -> bool:
    """True for "3 chairs", "3 kids."; of "3 kids not invited" the number is a guest's."""
    kinds = ("counted",) if _is_several(found) else ("counted", "count")
    children = re.match(r"\s*(?:kids|children)\b", behind)
    if children is not None:
        return re.match(r"\W*$", behind[children.end() :]) is not None
    return any(behind_number(kind).match(behind) for kind in kinds)


def _is_several(found: re.Match[str]) -> bool:
    return len(_NUMBER.findall(found["list"])) > 1


def _ends(behind: str) -> bool:
    """True where no thing follows that would make a number a count: "strike 12 chairs"."""
    return re.match(r"\s*(?:$|[^\w\s¤]|¤)", behind) is not None or bool(
        behind_number("goes-on").match(behind)
    )
