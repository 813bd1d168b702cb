"""What a remark on a household may make of its envelope, proposed to the client as answers.

Nothing of it is set unasked: the client's answer takes one of these, or says it otherwise.
"""

import re
from collections.abc import Iterator, Sequence

from addressing.guestlist.domestic.dwellings import suffix_words
from addressing.guestlist.files.spans import Span, spans
from addressing.guestlist.folding import fold
from addressing.guestlist.households.corrected import corrected_street, corrected_unit
from addressing.guestlist.rows.noted import likely_names
from addressing.guestlist.rows.noted_units import unit_told
from addressing.guestlist.rows.surviving import survivors
from addressing.guestlist.tables.meanings import exact_meaning
from addressing.records.guests import Household, Kind
from addressing.tables import table

_STREET = re.compile(r"(?<![\w#])\d+[A-Za-z]?(?: [A-Z]\w{0,2}\.| [A-Z][\w'’-]*){1,5}")
_CODE = re.compile(r"(?<![\w-])\d{5}(?:-\d{4})?(?![\w-])")
_WORD = re.compile(r"[^\W\d_]+")

Proposals = tuple[tuple[str, str], ...]
"""(field of the household, the value that a remark gives it)."""


def proposals(said: str, home: Household) -> Proposals:
    """The names, or the parts of the address, that a remark on one household gives.

    A whole address is proposed whole: its street alone would stand above the old town.
    """
    names = survivors(said, home) or (likely_names(said, home),)
    found = [("names", each) for each in names if each]
    if not _is_of_a_child(said, home):  # Lucy's own flat isn't her parents'
        found += _places(said, home)
    return tuple(dict.fromkeys(found))


def _is_of_a_child(said: str, home: Household) -> bool:
    words = set(map(fold, _WORD.findall(said)))
    return any(
        p.kind is Kind.CHILD and not words.isdisjoint(fold(p.given or "").split())
        for p in home.people
    )


def _places(said: str, home: Household) -> Iterator[tuple[str, str]]:
    """Where a sentence may say that a household lives: an address, or what differs in its own.

    A street with another town behind it and no code is neither.
    """
    found = list(spans(said))
    yield from (("lines", span.text) for span in found if span.whole and not _is_known(span, home))
    if any(span.whole for span in found):
        return
    streets = dict.fromkeys((*_streets(said, found, home), *corrected_street(said, home)))
    yield from (("street", street) for street in streets if fold(street) != _street_of(home))
    units = tuple(corrected_unit(said, home)) or (unit_told(said, home.address),)
    yield from (("unit", unit) for unit in units if unit)
    yield from (("postcode", code) for code in _codes(said, home))


def _street_of(home: Household) -> str:
    return fold(home.address.street.text) if home.address and home.address.street else ""


def _is_known(span: Span, home: Household) -> bool:
    """True for the address that the household has, as far as its street and code tell."""
    code = home.address.postcode.text if home.address and home.address.postcode else ""
    return bool(code) and code in span.text and _street_of(home) in fold(span.text)


def _streets(said: str, found: Sequence[Span], home: Household) -> Iterator[str]:
    """The streets of a sentence, save those in another town."""
    for match in _STREET.finditer(said):
        street = match[0].rstrip(".")
        span = next((each for each in found if each.text.startswith(street)), None)
        here = span is None or _is_in_town(_beside(span.text, street), home)
        if here and fold(street).split()[-1] in suffix_words():
            yield street


def _beside(span: str, street: str) -> str:
    """What stands behind a street in its sentence: "Elm St. Bath" goes on, "Elm Lane. Same" not."""
    behind = span.removeprefix(street)
    whole = fold(street).split()[-1] in {fold(row["primary_name"]) for row in table("suffixes")}
    return "" if whole and behind.startswith(".") else behind


def _is_in_town(behind: str, home: Household) -> bool:
    """True where nothing stands behind a street, or the household's own town and state."""
    address = home.address
    own = (address.city, address.region, address.unit) if address else ()
    words = {word for each in own if each for word in fold(each.text).split()}
    return set(re.findall(r"\w+", fold(behind))) <= words


def _codes(said: str, home: Household) -> Iterator[str]:
    """The one code that a sentence about the ZIP gives in place of the household's."""
    known = home.address.postcode.text if home.address and home.address.postcode else ""
    of_code = any(_is_of_code(word) for word in _WORD.findall(said))
    codes = {code for code in _CODE.findall(said) if code != known}
    if of_code and len(codes) == 1:
        yield codes.pop()


def _is_of_code(word: str) -> bool:
    hit = exact_meaning(word)
    return hit is not None and hit.meaning == "postcode"
