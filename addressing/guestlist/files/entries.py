"""A household on one line: "Mr. X, 14 Larkmoor Lane, Litchfield, CT 06759 (his boss)".

Names come first, then the address from the first mark behind which one begins; what is said in
brackets, behind a dash or in a sentence of its own is a note, never a line of the address.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from addressing.guestlist.domestic.boxes import route_pattern
from addressing.guestlist.files.called_above import called
from addressing.guestlist.files.mail_lines import has_verb, is_name, is_place, without_brackets
from addressing.guestlist.files.mentions import mentions
from addressing.guestlist.files.name_lines import is_above, without_lead, without_remark
from addressing.guestlist.files.prose_words import masked, number_word, prose_words
from addressing.guestlist.files.spans import spans
from addressing.guestlist.folding import fold
from addressing.guestlist.people.names import known_title
from addressing.guestlist.people.vocabulary import is_given, may_be_given
from addressing.guestlist.people.vocabulary import words as kind_of_words
from addressing.guestlist.places.countries import country_of_cell

_MARK = re.compile(r"[,;:|\t]\s*|\s[-–—/•·*]+\s+|(?<=[)\]])\s+|(?<=[a-z]{3})\.\s+(?=\d)")
"""What may part names from an address, outside brackets."""
_RUN_ON = re.compile(
    r"\s+(?:at\s+)?(?=\d+[A-Za-z]?\s|(?:p\.? ?o\.? ?box|post office box)\s)", re.IGNORECASE
)
"""What parts them where nothing else does: a number or a box, if the line ends in a code."""
_BEGINS = re.compile(
    r"#?\d+[A-Za-z]?(?:[-/]\d+)?[,\s]+(?:[^\W\d_]|\d+(?:st|nd|rd|th)\b)|c/o\b"
    r"|p\.? ?o\.? ?box\b|post office box\b|[nsew]\d{3,5}\b|unit\s+\d+,?\s+box\b|one\s+[A-Z]|psc\b"
    rf"|(?:rt|rte|route)\.? *\d|{route_pattern()}|(?-i:{number_word()}\s+[A-Z])",
    re.IGNORECASE,
)
_NUMBER_LAST = re.compile(
    r"[^\d,;:–—]*?(?:stra(?:ß|ss)e|str\.|weg|gasse|platz|allee|calle|avenida|rua|rue|via|straat)"
    r"[^\d,;:–—]*\d+ ?[a-z]?\s*(?=[,;])",
    re.IGNORECASE,
)
_CODE = re.compile(
    r"\b\d{5}(?:-\d{4})?\b(?! [a-z]{3,})|\b[A-Z]{1,2}\d[A-Z\d]? ?\d[A-Z]{2}\b"
    r"|\b[A-Z]\d[A-Z] ?\d[A-Z]\d\b"
)
_BEHIND_TOWN = re.compile(r"[.!?](?=\s|$)|\s[-–—]+\s|[(\[]|!")
_BEHIND = re.compile(rf"{_BEHIND_TOWN.pattern}|[,;]?\s+(?=[a-z])|\s*[/|•·;,]\s*(?=\S)|\s+(?=[+&])")
"""Where a note begins behind the code: a sentence, a dash, a bracket, a word in small letters, a
mark that parts it, a plus."""
_COMPANION = re.compile(
    r"(?:\+|plus|and|&)\s*(?:1|one|guest)|(?:with|and|&) (?:a )?guest", re.IGNORECASE
)
_STOP = re.compile(r"[^\W\d_]{4,}\.(?=\s)")
_MORE_NAMES = re.compile(r"(?:^|[-–—,;]\s+)(?:and|&|\+)\s+([^\W\d_a-z][\w.]*)")
_LAST_BRACKETS = re.compile(r"\s*[(\[]([^()\[\]]*)[)\]][\s.,;]*$")
_SAID = re.compile(r"\s+[-–—]+\s+|:\s+")
_PARTS = re.compile(r"[,;|\t]| [–—/•·*]+ ")
_LINES = re.compile(r"\s+(?:/+|--|[–—•·*]|\|)\s+|\t+")
"""What stands for the end of a line in an address."""
_BETWEEN = re.compile(
    r"(?:and|&|\+|und|et|y)\b|(?:jr|sr|ii|iii|iv|md|phd|esq)\b|\w\.\w", re.IGNORECASE
)
"""What goes on with names behind a comma: a joint, a suffix, letters of an order."""
_TWO = 2


@dataclass(frozen=True, slots=True)
class Entry:
    """Names, the address in one line ("" without any), and what else is said."""

    name: str
    address: str
    note: str = ""


def entry_of(text: str) -> Entry | None:
    """The household of a line with names and an address; None for another line.

    >>> entry_of("Ada Penhew (moved) 14 Elm St, Bath ME 04530 - no nuts!!")
    Entry(name='Ada Penhew (moved)', address='14 Elm St, Bath ME 04530', note='no nuts')
    """
    text, lead = without_lead(text)
    for name, rest in _cuts(text):
        names, said = _names(name, lead)
        names, first = (names, "") if _is_led(names) else called(names)
        if not _are_whole(names, said):
            return None
        names, house = _without_house(names)
        names, call = (names, first) if first else called(names)
        said = "; ".join(part for part in (call, said) if part)
        if is_above(rest):
            return Entry(names, rest, said)
        address, note = _without_note(rest)
        if not _is_placed(address) or _has_another(note) or _are_two(address):
            return None
        address = _LINES.sub(", ", address)
        whole = ", ".join(part for part in (house, address) if part)
        names, note = _with_company(names, "; ".join(part for part in (said, note) if part))
        return Entry(names, whole, note)
    return None


def _are_whole(names: str, said: str) -> bool:
    """True for names that nothing of a sentence stands in, and to which a remark adds nobody."""
    spoken = has_verb(without_brackets(names)) or _has_stop(names)
    return is_name(names) and not (spoken or _is_led(names) or _adds_somebody(said))


def _is_led(names: str) -> bool:
    """True for "My florist, Mrs. Odile Penhew": words in small letters before a title."""
    found = next((each for each in mentions(masked(names)) if each.sure), None)
    lead = names[: found.start].split() if found is not None else []
    known = kind_of_words("particle") | kind_of_words("and") | kind_of_words("and-between")
    titled = found is not None and is_titled(found.text.split()[0])
    return titled and any(word.islower() and fold(word) not in known for word in lead)


def _is_placed(address: str) -> bool:
    """True for an address that ends in a place: behind a comma, or with a code."""
    parts = [part.strip() for part in _PARTS.split(address) if part.strip()]
    placed = len(parts) >= _TWO and any(map(is_place, (parts[-1], address, parts[-2])))
    return placed or (bool(parts and _CODE.search(address)) and is_place(address))


def _are_two(address: str) -> bool:
    """True for two addresses with a sentence between them."""
    found = [span for span in spans(address) if span.whole]
    return any(mentions(address[one.end : two.start]) for one, two in pairwise(found))


def _has_another(note: str) -> bool:
    """True for a note with a second address, or with somebody else's."""
    return any(span.whole or mentions(note[: span.start]) for span in spans(note))


def split_line(text: str) -> tuple[str, str] | None:
    """Name and address of a line that says nothing else; None for another line."""
    entry = entry_of(text)
    return (entry.name, entry.address) if entry and not entry.note else None


def bare_entry(text: str) -> Entry | None:
    """Names with a remark and no address, as they stand among other entries; None else.

    >>> bare_entry("Theo & Jess Penhew - they moved")
    Entry(name='Theo & Jess Penhew', address='', note='they moved')
    """
    names, said = _names(*without_lead(text))
    if any(span.whole for span in spans(text)):
        return None
    people = [word for word in names.split() if word[:1].isupper()]
    known = len(people) >= _TWO and is_name(names) and not has_verb(without_brackets(names))
    return Entry(names, "", said) if known and (said or is_somebody(names)) else None


def is_titled(names: str) -> bool:
    """True where a title stands in names: "and" alone is none."""
    titles = (known_title(word) for word in names.split())
    return any(title is not None and not title.also_a_name for title in titles)


def begins_entry(text: str) -> bool:
    """True for a line that has names and the beginning of an address, or breaks off before it."""
    cuts = _cuts(without_lead(text)[0])
    return any(is_name(name) and not has_verb(without_brackets(name)) for name, _ in cuts)


def is_somebody(names: str) -> bool:
    """True for names of people by a title or a given name: no club, no town."""
    first = names.partition(" ")[0]
    return is_titled(names) or is_given(first) or may_be_given(first)


def _cuts(text: str) -> Iterator[tuple[str, str]]:
    """What stands before and behind the first mark behind which an address begins."""
    run_on = [mark for mark in _RUN_ON.finditer(text) if _are_names(text[: mark.start()])]
    for mark in (*_MARK.finditer(text), *(run_on if _CODE.search(text) else ())):
        before, rest = text[: mark.start()], text[mark.end() :]
        if before.count("(") > before.count(")") or before.count("[") > before.count("]"):
            continue
        begins = _BEGINS.match(rest) or _NUMBER_LAST.match(rest) or _has_building(rest)
        if begins or is_above(rest):
            yield before.strip(" ,;:"), rest
            return


def _has_building(rest: str) -> bool:
    """True for "The Parsonage, Bangor, Maine 04401": a building, a town and a code, no street."""
    house, comma, place = rest.partition(",")
    last = house.split()[-1:]
    own = bool(last) and fold(last[0]) in prose_words("sole-house")
    own = own and not any(mark.isdecimal() for mark in house)
    return bool(comma) and own and re.search(r"\d", place) is not None and is_place(rest)


def _are_names(text: str) -> bool:
    """True for words with capitals and what joins them, not for "Send it to Odile"."""
    known = kind_of_words("and") | kind_of_words("children") | kind_of_words("family")
    known |= kind_of_words("particle") | kind_of_words("guest")
    words = without_brackets(text).split()
    return all(fold(word) in known for word in words if word.islower())


def _adds_somebody(said: str) -> bool:
    """True for a remark that goes on with the names: "his boss - and Mrs. Penhew"."""
    return any(is_titled(found[1]) for found in _MORE_NAMES.finditer(said))


def _has_stop(names: str) -> bool:
    """True for "Bath, England. Mr. Penhew": a sentence ends in it."""
    return any(known_title(found[0]) is None for found in _STOP.finditer(names))


def _names(text: str, lead: str = "") -> tuple[str, str]:
    """Names, and what is said of them, a lead among it."""
    names, behind = _before_dash(text)
    names, remark = without_remark(names)
    return names, "; ".join(part for part in (lead, remark, behind) if part)


def _before_dash(text: str) -> tuple[str, str]:
    """Names, and what is said behind a dash or colon, where that is no name itself."""
    if called(text)[1]:  # "aunt carol - mrs carol orr"
        return text.strip(), ""
    for mark in _SAID.finditer(text):
        said = text[mark.end() :].strip()
        lead = fold(text[: mark.start()]).split()
        of_them = lead[:1] and lead[0] in prose_words("of")
        if of_them and prose_words("denial").isdisjoint(lead) and is_titled(said.split(" ")[0]):
            return said, text[: mark.start()].strip(" ,;")  # "My brother - Mr. Penhew"
        if _tells_who(text[: mark.start()]) and is_name(said) and len(said.split()) >= _TWO:
            return said, text[: mark.start()].strip(" ,;")
        if not said[:1].isupper() or has_verb(said):
            return text[: mark.start()].strip(" ,;"), said
    return text.strip(), ""


def _tells_who(lead: str) -> bool:
    """True for "Kit Orr's parents", before a colon or dash behind which they are named."""
    said = lead.replace("’", "'").split()
    kin = kind_of_words("relation") | kind_of_words("kin") | kind_of_words("nameless")
    return len(said) >= _TWO and said[-2].endswith(("'s", "s'")) and fold(said[-1]) in kin


def _without_house(names: str) -> tuple[str, str]:
    """Names without the house that stands between them and the street ("…, Larkmoor House")."""
    before, mark, last = names.rpartition(",")
    last = last.strip()
    people = len(before.split()) >= _TWO
    house = last[:1].isupper() and len(last.split()) >= _TWO and "(" not in last and ")" not in last
    if not mark or not people or not house or _BETWEEN.match(last):
        return names, ""
    return (names, "") if is_somebody(last) else (before.strip(), last)


def _without_note(rest: str) -> tuple[str, str]:
    """An address without what is said behind it."""
    notes: list[str] = []
    codes = list(_CODE.finditer(rest))
    if codes:
        end = codes[-1].end()
        first = re.match(r"\s+[^\W\d_]{3,}", rest[end:]) is not None  # "75006 Paris"
        told = (_BEHIND_TOWN if first else _BEHIND).search(rest, end)
        if told is not None and _tells(rest[told.start() :]):
            notes.insert(0, rest[told.start() :].strip(" .,;:!-–—/|•·"))
            rest = rest[: told.start()]
    else:
        dash = re.search(r"\s[-–—]+\s+(?=[^\d]*$)", rest)
        if dash is not None:
            notes.insert(0, rest[dash.end() :].strip())
            rest = rest[: dash.start()]
    while (found := _LAST_BRACKETS.search(rest)) is not None:
        notes.insert(0, found[1].strip())
        rest = rest[: found.start()]
    return rest.strip(" ,;"), "; ".join(_bare(note) for note in notes if note)


def _tells(behind: str) -> bool:
    """True for words behind a code that are no country."""
    said = behind.strip(" .,;:/|•·")
    return re.search(r"[^\W_]", said) is not None and country_of_cell(said) is None


def _with_company(names: str, note: str) -> tuple[str, str]:
    """Names with the companion whom a note alone gives them: "+1"; and the rest of the note."""
    notes = note.split("; ") if note else []
    found = next((part for part in notes if _COMPANION.fullmatch(part.strip(" .!"))), None)
    if found is None:
        return names, note
    return f"{names} and guest", "; ".join(part for part in notes if part != found)


def _bare(note: str) -> str:
    """A note without the brackets that it stands in."""
    inner = re.fullmatch(r"[(\[]([^()\[\]]*)[)\]]?", note)
    return inner[1] if inner else note
