"""Words of a sentence that stand in an address: no line of an envelope, and never set unasked.

"on a boat til fall! use his mom's: Mrs. Odile Penhew" above a street is a remark; in place of
one ("moved!! ask Judy") there is no address at all.
"""

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache

from addressing.guestlist.files.mentions import mentions
from addressing.guestlist.folding import fold
from addressing.guestlist.written import Trouble, Written
from addressing.records.guests import Address, Cited
from addressing.tables import table

_CALL = re.compile(r"[!?]|[-=]>|→")
_LABEL = re.compile(r"^(?P<said>[^\d:]*[^\W\d][^\d:]*):\s*(?P<rest>.*)$", re.DOTALL)
_ENGLISH = frozenset(("US", "PR", "VI", "GU", "AS", "MP", "CA", "GB", "IE", "AU", "NZ"))
_PARTED = re.compile(r"(\s*[,\n]\s*)")
_FEWEST = 3
"""Words of a sentence without a call at least."""
_WORD = re.compile(r"[^\W\d_]+")


def is_spoken(line: str, country: str | None = "US") -> bool:
    """True for a line that reads like a remark: a call, a question, a label, a verb in small type.

    Where English isn't written such a word may be of the place ("Mas de can Roig"): it takes two.

    >>> [is_spoken(each) for each in ("moved!! ask Judy", "The House That Jack Built", "c/o: Kit")]
    [True, False, False]
    """
    if fold(line) in _rows("own-mark"):
        return False
    label = _LABEL.match(line)
    if _with_whom().match(line) or _denies(line):
        return True
    if _CALL.search(line) or (label and fold(label["said"]) not in _rows("care-label")):
        return True
    words = [word for word in _WORD.findall(line) if word in _speaking()]
    few = 1 if country is None or country in _ENGLISH else 2
    return len(words) >= few and len(line.split()) >= _FEWEST


def only_spoken(written: Written) -> Cited | None:
    """The words that stand in place of an address: no figure in them, and nothing beside them."""
    others = (written.unit, written.extra, written.city, written.postcode)
    text = " ".join(line.text for line in written.lines)
    if any(others) or re.search(r"\d", text) or not is_spoken(text):
        return None
    return Cited(text, tuple(cell for line in written.lines for cell in line.cells))


def in_place_of(said: Cited) -> Trouble:
    """The question where a remark stands in place of an address."""
    text = f"In place of an address the list says: “{said.text}”."
    return Trouble("address-missing", text, "Where should it go?", said, quoted=said.text)


def without_spoken(address: Address) -> tuple[Address, tuple[Trouble, ...]]:
    """The address without what reads like a remark, and the question about it.

    Whose address it is, named behind a remark and a colon, stays as "c/o".
    """
    country = address.country.text if address.country else None
    street, extra = address.street, address.recipient_extra
    said = [*_spoken(extra, country), *(_spoken(street, country) if _several(street) else ())]
    said += [line for line in _lines(extra) if line not in said and _is_small(line, street)]
    if not said:
        return address, ()
    cells = [part.cells for part in (extra, street) if part is not None]
    quoted = "; ".join(said)
    text = f"“{quoted}” stands in the address and reads like a remark; it isn't set."
    mend = "Is the address right without it?"
    kept = replace(address, recipient_extra=_kept(extra, said), street=_kept(street, said))
    trouble = Trouble("address-doubtful", text, mend, Cited(quoted, cells[0]), quoted=quoted)
    return kept, (replace(trouble, likely=_in_care(said, kept)),)


def _several(part: Cited | None) -> bool:
    """True for a street of several lines: of a lone one nothing would be left."""
    return part is not None and "\n" in part.text


def _spoken(part: Cited | None, country: str | None) -> Iterator[str]:
    return (line for line in _lines(part) if is_spoken(line, country))


def _lines(part: Cited | None) -> list[str]:
    return part.text.split("\n") if part is not None else []


def _is_small(line: str, street: Cited | None) -> bool:
    """True for "the other one" above a street that has its capitals."""
    words = line.split()
    capitals = street is not None and any(mark.isupper() for mark in street.text)
    return capitals and len(words) >= _FEWEST and line.islower() and line.replace(" ", "").isalpha()


def _kept(part: Cited | None, said: list[str]) -> Cited | None:
    if part is None:
        return None
    lines = (_whose(line) if line in said else line for line in part.text.split("\n"))
    text = "\n".join(line for line in lines if line)
    return replace(part, text=text) if text else None


def _whose(line: str) -> str:
    """The name behind a remark and a colon, if it is one with a title: "his mom's: Mrs. Orr"."""
    label = _LABEL.match(line)
    name = label["rest"].strip() if label else ""
    named = [each.text for each in mentions(name) if each.sure]
    return f"c/o {name}" if named == [name] else ""


def _denies(line: str) -> bool:
    """True for "NOT cousin": who isn't meant."""
    first, _, rest = line.partition(" ")
    return bool(rest) and fold(first) in _rows("denial") and not first.istitle()


def without_relations(lines: tuple[Cited, ...], remarks: list[str]) -> tuple[Cited, ...]:
    """The lines of an address without the parts, above its last, that say who somebody is.

    >>> said: list[str] = []
    >>> [line.text for line in without_relations((Cited("Dad's boss, 14 Elm St"),), said)], said
    (['14 Elm St'], ["Dad's boss"])
    """
    kept: list[Cited] = []
    for place, line in enumerate(lines):
        parts = _PARTED.split(line.text)
        marks = [*parts[1::2], "" if line is lines[-1] else "\n"]
        text = ""
        for part, mark in zip(parts[::2], marks, strict=True):
            if mark and _is_relation(part):
                remarks.append(part)
            else:
                text += part + mark
        text = text if place + 1 == len(lines) else text.removesuffix("\n")
        kept += [line if text == line.text else replace(line, text=text)] if text else []
    return tuple(kept)


def _is_relation(line: str) -> bool:
    words = line.split()
    small = len(words) > 1 and words[-1].islower() and fold(words[-1]) in _rows("relation")
    named = all(word.islower() or re.search(r"['’]s?$", word) for word in words)
    return small and named and not is_spoken(line)


_NAME = re.compile(r"(?<=[a-z/]\s)[A-Z][\w'’.\-]*(?:\s[A-Z][\w'’.\-]*)+$")
"""A name of two words or more at the end of what is said in small letters."""


def _in_care(said: list[str], kept: Address) -> tuple[tuple[str, str], ...]:
    """The whole address in care of whom the one remark names, as an answer that may be right."""
    found = _NAME.search(said[0]) if len(said) == 1 else None
    if found is None or kept.recipient_extra is not None or kept.street is None:
        return ()
    place = " ".join(each.text for each in (kept.region, kept.postcode) if each)
    parts = (each.text for each in (kept.street, kept.unit, kept.city) if each)
    whole = ", ".join((f"c/o {found[0]}", *parts, place)).replace("\n", ", ")
    return (("lines", whole),)


@cache
def _with_whom() -> re.Pattern[str]:
    words = (row["words"] for row in table("address_remarks") if row["kind"] == "lives-with")
    ranked = sorted(words, key=len, reverse=True)
    return re.compile(rf"(?:{'|'.join(map(re.escape, ranked))})\s*(?=[\w])")


@cache
def _rows(kind: str) -> frozenset[str]:
    return frozenset(fold(row["words"]) for row in table("address_remarks") if row["kind"] == kind)


@cache
def _speaking() -> frozenset[str]:
    """The words that make a sentence of a line where they stand in small letters."""
    verbs = {row["word"] for row in table("mail_words") if row["kind"] in ("verb", "pronoun")}
    return _rows("spoken") | verbs
