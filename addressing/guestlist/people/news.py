"""What a note says of the guests themselves: that someone is out, or that they have moved.

A note speaks of much else with the same words ("table moved", "gift (duplicate)", "declined the
hotel", "her dad passed away"). The words that tell the two apart are rows of `row_words.tsv`.
"""

import calendar
import re
from functools import cache

from addressing.guestlist.folding import fold
from addressing.guestlist.people.asides import phrase
from addressing.guestlist.people.vocabulary import front_only, row_words, words

_CLAUSE = re.compile(
    r"(?<!\bd)\.|[,;:!?()\[\]\n|]|(?<!\d)/|\s[-–—]+\s|\b(?:but|and|so|because)\b", re.IGNORECASE
)
_LABELLED = re.compile(
    r"(?:^|(?<=[.;\n|,]))\s*(?P<label>[^\W\d_]+(?:\s[^\W\d_]+)?)\s*[:=][^.;\n|]*",
)
_WORD = re.compile(r"\w+")
_NEAR = 2
"""Words before a marker among which a "not" or an "if" is of it."""
_OBJECT = 3
"""Words behind a marker among which stands what was declined."""
_POSSESSED = 3
"""Words before a marker within which "her dad" stands."""
_MORE = 3
"""Words beside a couple's end ("in May") of which as many tell something more."""


def doubts_address(note: str) -> bool:
    """True when a note says that the address isn't the right one (yet).

    >>> doubts_address("moved in May"), doubts_address("moved to table 4")
    (True, False)
    >>> doubts_address("we moved! this is the new address")
    False
    """
    if says_it_is_here(note):
        return False
    if _until().match(note.strip()):
        return True
    return any(_clause_doubts(clause) for clause in clauses(_of_guests(note)))


@cache
def _until() -> re.Pattern[str]:
    """A note that begins with the time until which an address holds: "here through mid-June"."""
    ways = "|".join(map(re.escape, sorted(row_words("address-until"), key=len, reverse=True)))
    named = (*calendar.month_name[1:], *calendar.month_abbr[1:], "Sept", *_SEASONS)
    months = "|".join(sorted(named, key=len, reverse=True))
    return re.compile(
        rf"^(?:(?:here|there|only|good|valid|just)\s+){{0,2}}(?:{ways})\s+"
        rf"(?:(?:in|early|late|mid|the|end|of)[\s-]+)*(?:{months})\b",
        re.IGNORECASE,
    )


_SEASONS = ("spring", "summer", "fall", "autumn", "winter", "graduation")


def says_it_is_here(note: str) -> bool:
    """True where a note says that the address beside it is the new one."""
    said = " ".join(_WORD.findall(fold(note)))
    return any(f" {words} " in f" {said} " for words in row_words("address-here"))


def _clause_doubts(clause: str) -> bool:
    clause = _parted(clause)
    for found in phrase("address-marker").finditer(clause):
        behind = fold(clause[found.end() :]).split()
        said = {*fold(clause[: found.start()]).split(), *behind}
        here = bool(behind) and behind[0] in row_words("not-away")
        if not here and row_words("thing").isdisjoint(said):
            return True
    return False


def clauses(note: str) -> list[str]:
    """The clauses of a note, by its marks and its small words."""
    return _CLAUSE.split(note)


def says_out(note: str, *, of_thing: bool = False) -> bool:
    """True when a note says of the guests themselves that someone is out, in whatever place.

    A clause that speaks of children, of a thing or of another occasion, of a relative, or says
    "not yet", doesn't; nor does a word that can be said of a thing ("remove"), unless it opens
    the clause. `of_thing` says that the note stands under a header such as "Gift": there such a
    word never counts.

    >>> says_out("So sorry, we can't make it!"), says_out("Kids not invited")
    (True, False)
    >>> says_out("her husband passed away"), says_out("her dad passed away")
    (True, False)
    """
    return any(_clause_says_out(clause, of_thing=of_thing) for clause in clauses(_of_guests(note)))


def _of_guests(note: str) -> str:
    """The note without what stands behind "Gift:" or "Table:"."""
    return _LABELLED.sub(lambda found: "" if is_of_things(found["label"]) else found[0], note)


def is_of_things(header: str) -> bool:
    """True for a header or label that speaks of a thing or another occasion: "Thank-you gift".

    >>> is_of_things("Gift received"), is_of_things("Ceremony")
    (True, False)
    """
    return not (row_words("thing") | row_words("occasion")).isdisjoint(fold(header).split())


def _clause_says_out(clause: str, *, of_thing: bool) -> bool:
    clause = re.sub(r"[-_]+", " ", clause)
    for found in phrase("marker").finditer(clause):
        before = fold(clause[: found.start()]).split()
        if fold(found[0]) in front_only():
            opens = row_words("before-marker").issuperset(before) and not of_thing
            if opens and not _of_thing(clause, found):
                return True
        elif (row_words("not-of-guest") | row_words("thing")).isdisjoint(before) and (
            row_words("not-yet").isdisjoint(before[-_NEAR:])
            and not _of_relative(clause[: found.start()])
            and not _of_thing(clause, found)
        ):
            return True
    return False


def _of_thing(clause: str, found: re.Match[str]) -> bool:
    """True for the marker of "declined the hotel block"."""
    behind = fold(clause[found.end() :]).split()[:_OBJECT]
    return not row_words("thing").isdisjoint(behind)


@cache
def _relatives() -> re.Pattern[str]:
    ways = "|".join(sorted(map(re.escape, row_words("relative")), key=len, reverse=True))
    owner = r"(?:\b(?:her|his|their|my|our)|['’]s)"
    return re.compile(rf"{owner}\s+(?:[\w-]+\s+)?(?:{ways})((?:\s+\w+)*)\s*$", re.IGNORECASE)


def _of_relative(before: str) -> bool:
    """True before the marker of "her dad passed away": no guest of this household is meant."""
    found = _relatives().search(before)
    return found is not None and len(found[1].split()) < _POSSESSED


def is_marker(remark: str) -> bool:
    """True when a remark says that someone may be out: declined, deceased, divorced, "dec."."""
    alone = fold(remark.strip()) in words("marker-alone")
    return alone or phrase("marker").search(_parted(remark)) is not None


def is_of_parting(remark: str) -> bool:
    """True when a remark tells of a couple's end, as "divorced" does, and of nothing else.

    >>> is_of_parting("divorced in May"), is_of_parting("divorced, now Ms. Farrenby")
    (True, False)
    """
    said = _parted(remark)
    rest = phrase("parted").sub(" ", said)
    alone = len(list(filter(str.strip, clauses(said)))) == 1 and len(rest.split()) < _MORE
    return rest != said and alone and not is_marker(rest)


def is_bare_marker(text: str) -> bool:
    """True for a cell that says nothing else: "Declined", "not attending"."""
    found = phrase("marker").search(_parted(text))
    return found is not None and fold(found[0]) == fold(_parted(text))


def _parted(remark: str) -> str:
    """A remark's words as a marker is looked for: no hyphens, no stops ("RSVP-declined.")."""
    return re.sub(r"[-–—_.]+", " ", remark)
