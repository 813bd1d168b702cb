"""What stands in the cell of an address and is no part of it: taken out first, and noted.

Remarks behind the ZIP or a dash ("ring twice", a gate code), labels before a colon ("Home:"), and
a second address in the same cell, which is asked about.
"""

import re
from dataclasses import dataclass, replace
from functools import cache

from addressing.guestlist.domestic.dwellings import Segment, ends_street, kind_of
from addressing.guestlist.domestic.seams import open_seams
from addressing.guestlist.domestic.tail import state_at_end
from addressing.guestlist.folding import fold
from addressing.guestlist.homes.calls import take_calls
from addressing.guestlist.homes.spoken import without_relations
from addressing.guestlist.people.news import doubts_address
from addressing.guestlist.written import Trouble, Written, joined
from addressing.records.guests import Cited
from addressing.tables import table

_ZIP = re.compile(r"(?<![\d\-])\d{5}(?:-\d{4})?(?![\d\-])")
_BRACKET = re.compile(r"\s*[(\[]([^()\[\]]*)[)\]]\s*")
_UNIT_LAST = re.compile(
    r"^(?P<rest>(?P<before>.*[\s,.])\d{4,5}(?:-?\d{4})?)(?P<mark>[\s,.]+)(?P<unit>[\w#][^,\n]{0,30})$",
    re.DOTALL,
)
_LONGEST = 1_500
"""Letters from which on a cell is no address, nor two."""
_NAMED = re.compile(r"^[^\d,:]+:\s*(?=\d)")
"""What the list calls one of two addresses ("Florida: 880 ...")."""
_COLON = re.compile(r"^(?P<said>[^\d:,\n][^:,\n]{1,40}):\s*(?=#?\d|p\.? ?o\.? ?box)", re.IGNORECASE)
_PLAIN = re.compile(r"\d+(?: [A-Z][a-z]+)+")
"""A house number and words, as most streets are: none of what is looked for can stand in it."""
_TAG = re.compile(r"^\s*[(\[][^()\[\]\d]*[)\]]\s*(?=[/|;&,\n-]|or\b|and\b)")
"""What a bracket behind an address calls it, before the next one: "(summer) / 88 Quince Street"."""
_TAG_LAST = re.compile(r"\s*[(\[][^()\[\]\d]*[)\]]\s*$")
_EDGES = " \n,;/|&-–—."


@dataclass(frozen=True, slots=True)
class Cleared:
    """The address without what is no part of it; `remarks` are what was taken out."""

    written: Written
    remarks: tuple[str, ...] = ()
    troubles: tuple[Trouble, ...] = ()


def clear(written: Written) -> Cleared:
    """Take remarks, labels and a second address out of the street cells.

    >>> from addressing.records.guests import Cited
    >>> said = Written(lines=(Cited("14 Larkmoor Lane, Litchfield CT 06759 - ring twice"),))
    >>> clear(said).remarks
    ('ring twice',)
    """
    if sum(len(line.text) for line in written.lines) > _LONGEST:
        return Cleared(written)
    remarks: list[str] = []
    written = take_calls(written, remarks)
    written = written.with_lines(without_relations(written.lines, remarks))
    if not written.lines:
        return Cleared(written, tuple(remarks))
    lines: list[Cited] = []
    for line in written.lines:
        if _PLAIN.fullmatch(line.text):
            lines.append(line)
            continue
        text = _without_remark(_units_out_of_brackets(open_seams(line.text)), remarks)
        text = _without_leads(text, remarks)
        lines.append(Cited(unit_to_front(text), line.cells))
    lines = _where_mail_goes(lines, remarks)
    written = written.with_lines(lines)
    several = addresses_in("\n".join(line.text for line in lines))
    if len(several) > 1:
        return _asked(written, several, tuple(remarks))
    lines = [_without_label(line, remarks) for line in lines]
    lines = [Cited(_without_colon(line.text), line.cells) for line in lines]
    written = written.with_lines(lines)
    return Cleared(written, tuple(remarks), _doubts((*remarks, *_in_brackets(written)), written))


def _where_mail_goes(lines: list[Cited], remarks: list[str]) -> list[Cited]:
    """Of a street and, on a line of its own, "Mail: PO Box 12" the box alone: the list says so."""
    parts = [Cited(text, line.cells) for line in lines for text in line.text.split("\n")]
    marked = [at for at, part in enumerate(parts) if _mail_label().match(part.text)]
    if len(marked) != 1 or len(parts) == 1:
        return lines
    (at,) = marked
    there = Cited(_mail_label().sub("", parts[at].text), parts[at].cells)
    before = [part for part in parts[:at] if _BRACKET.sub("", part.text).strip()]
    if not _has_street(there.text) or not any(_has_street(part.text) for part in before):
        return lines
    remarks.append(f"of two, the one behind “{parts[at].text.split(':')[0].strip()}:” is used")
    return [there, *parts[at + 1 :]]


@cache
def _mail_label() -> re.Pattern[str]:
    return re.compile(rf"^(?:the\s+)?{_words('mail-label')}\s*:\s*", re.IGNORECASE)


def addresses_in(text: str) -> tuple[str, ...]:
    """The addresses of a cell that holds several whole ones, each with its state and ZIP.

    >>> addresses_in("Old: 14 Larkmoor Lane, Litchfield CT 06759 New: 9 Quince St, Durant MS 39063")
    ('14 Larkmoor Lane, Litchfield CT 06759', '9 Quince St, Durant MS 39063')
    """
    ends = [
        found.end()
        for found in _ZIP.finditer(text)
        if state_at_end(text[: found.start()].rstrip(" ,.\n")) is not None
    ]
    if len(ends) < 2:  # noqa: PLR2004 - two addresses
        return ()
    starts = [0, *ends[:-1]]
    parts = [text[start:end] for start, end in zip(starts, [*ends[:-1], len(text)], strict=True)]
    bare = (_TAG_LAST.sub("", _TAG.sub("", part)).strip(_EDGES) for part in parts)
    parts = [_label().sub("", part).strip(_EDGES) for part in bare]
    parts = [
        re.sub(r"^(?:or|and)\b", "", part, flags=re.IGNORECASE).strip(_EDGES) for part in parts
    ]
    return tuple(parts) if all(_has_street(part) for part in parts) else ()


def unit_to_front(text: str) -> str:
    """A unit behind the ZIP goes to the front, where a unit may stand.

    >>> unit_to_front("14 Larkmoor Lane, Boston, MA 02116, 4B")
    '4B, 14 Larkmoor Lane, Boston, MA 02116'
    """
    found = _UNIT_LAST.match(text)
    if found is None or state_at_end(found["before"].rstrip(" ,.")) is None:
        return text
    kind = kind_of(found["unit"])
    bare = kind is Segment.BARE_UNIT and "," in found["mark"]
    return f"{found['unit']}, {found['rest']}" if kind is Segment.UNIT or bare else text


def _has_street(text: str) -> bool:
    first = re.split(r"[\n,;]", text)
    return any(kind_of(part) in (Segment.STREET, Segment.BOX) for part in first) or any(
        ends_street(part[place.start() :]) for part in first for place in re.finditer(r"\b\d", part)
    )


def _asked(written: Written, several: tuple[str, ...], remarks: tuple[str, ...]) -> Cleared:
    """The first of several addresses; the others are remarks, and the client is asked."""
    whole = joined(written.lines)
    trouble = Trouble(
        "address-doubtful",
        f"Two addresses stand together: {' / '.join(several)}.".replace("\n", ", "),
        "To which of them should the envelope go?",
        whole,
        likely=tuple(("lines", _NAMED.sub("", each.replace("\n", ", "))) for each in several),
    )
    first = replace(written, lines=(Cited(_NAMED.sub("", several[0]), whole.cells),))
    return Cleared(first, (*remarks, *several[1:]), (trouble,))


@cache
def _words(*kinds: str) -> str:
    """One of the words of these kinds, the longest first."""
    words = {row["words"] for row in table("address_remarks") if row["kind"] in kinds}
    ranked = sorted(words, key=len, reverse=True)
    return "(?:" + "|".join(re.escape(word).replace(r"\ ", r"\s+") for word in ranked) + ")"


@cache
def _behind_zip() -> re.Pattern[str]:
    words = _words("remark", "behind")
    return re.compile(
        rf"^(?P<kept>(?P<place>.*[\s,.])\d{{5}}(?:-\d{{4}})?)[\s,;.*]*(?:[-–—:]+\s*)?(?P<said>{words}\b.*)$",
        re.IGNORECASE | re.DOTALL,
    )


@cache
def _behind_dash() -> re.Pattern[str]:
    return re.compile(
        rf"^(?P<kept>.*?\S)\s+[-–—]+\s+(?P<said>{_words('remark')}\b[^,;\n]*)(?P<more>(?:[,;\n].*)?)$",
        re.IGNORECASE | re.DOTALL,
    )


@cache
def _label() -> re.Pattern[str]:
    return re.compile(
        rf"(?:(?:^|(?<=[\s;,/]))(?:the\s+)?{_words('label')}(?:\s+(?:address|addr)\b\.?)?"
        r"|(?:^|(?<=\n))(?-i:[A-Z])(?=\s*:\s*\d))\s*[:=]\s*",
        re.IGNORECASE,
    )


def _without_remark(text: str, remarks: list[str]) -> str:
    found = _behind_zip().match(text)
    if found and state_at_end(found["place"].rstrip(" ,.\n")) is not None:
        remarks.append(found["said"].strip(_EDGES))
        return found["kept"]
    found = _behind_dash().match(text)
    if found:
        remarks.append(found["said"].strip(_EDGES))
        return found["kept"] + found["more"]
    return text


def _without_leads(text: str, remarks: list[str]) -> str:
    """The name of a house without the "at" or "now at" before it.

    >>> _without_leads("now at the Larkmoor Manor, 14 Quince Street", [])
    'The Larkmoor Manor, 14 Quince Street'
    """

    def named(found: re.Match[str]) -> str:
        remarks.append(found["lead"])
        return f"{found['article'].title()}{found['name']}"

    return _lead().sub(named, text)


@cache
def _lead() -> re.Pattern[str]:
    """Before a name of two words or more; what is alone in a text has no street behind it."""
    return re.compile(
        rf"(?P<lead>(?:^|(?<=\n)|(?<=, )){_words('lead')})\s+(?P<article>(?:the\s+)?)"
        r"(?P<name>[A-Z][\w'’.\-]*\s+[A-Z#\d(])"
    )


def _without_label(line: Cited, remarks: list[str]) -> Cited:
    found = _label().match(line.text)
    if found is None or found.end() == len(line.text):
        return line
    remarks.append(found[0].strip(" :="))
    return Cited(line.text[found.end() :], line.cells)


def _without_colon(text: str) -> str:
    """A line's beginning with a colon: a unit, a firm or a building parted so, or a mere label.

    >>> _without_colon("Apt 4B: 14 Larkmoor Lane"), _without_colon("The Elms: 14 Larkmoor Lane")
    ('Apt 4B, 14 Larkmoor Lane', 'The Elms, 14 Larkmoor Lane')
    """
    found = _COLON.match(text)
    return f"{found['said'].strip()}, {text[found.end() :]}" if found else text


def _units_out_of_brackets(text: str) -> str:
    """A unit in brackets is a part of the address: "14 Larkmoor Lane (Apt 4B)"."""

    def opened(found: re.Match[str]) -> str:
        return f", {found[1]}, " if kind_of(found[1]) is Segment.UNIT else found[0]

    return re.sub(r",\s*,", ",", _BRACKET.sub(opened, text)).strip(" ,")


def _in_brackets(written: Written) -> tuple[str, ...]:
    return tuple(said for line in written.lines for said in _BRACKET.findall(line.text))


def _doubts(remarks: tuple[str, ...], written: Written) -> tuple[Trouble, ...]:
    """A remark that holds an address, or a time until which this one holds, is asked about."""
    for said in remarks:
        folded = fold(said)
        elsewhere = re.search(rf"\b{_words('elsewhere')}\b", folded) is not None
        second = _has_street(
            re.sub(r"^(?:or|and|also)\b", "", said, flags=re.IGNORECASE).strip(_EDGES)
        )
        if (elsewhere or second) and not doubts_address(said):
            text = f"The list says: “{said}”."
            mend = "Is the address in the list the right one?"
            return (Trouble("address-doubtful", text, mend, written.lines[0]),)
    return ()
