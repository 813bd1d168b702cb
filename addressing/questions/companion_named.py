"""A companion's name in a sentence: “yes, still together, her name is Kelly Orr”."""

import re
from functools import cache

from addressing.questions.choosing import KIN, LEAD, NAMER, meanings, plain, words_known
from addressing.questions.folding import folded
from addressing.records.questions import Question

_CUTS = re.compile(r"[,;.!\u2013\u2014-]+\s*|\s+and\s+")
_GUEST = re.compile(r"\band guest$", re.IGNORECASE)
_MARRIED = re.compile(r"\b(?:husband|wife|spouse)\b", re.IGNORECASE)
_COMING = re.compile(
    r",?\s+(?:(?:is|will be|are)\s+)?(?:coming|joining|comes|will come)"
    r"(?:\s+(?:along|too|as well|(?:with\s+)?(?:him|her|them)))*[.!]*$"
)
"""What behind a name only says that she comes along."""
_CAPITAL = r"[^\W\d_a-zß-ÿ][\w.'\u2019-]*"
_NAME = re.compile(
    rf"{_CAPITAL}(?:\s+(?:(?:de|der|den|van|von|la|le|di|da|del|ten|ter|bin)\s+)*{_CAPITAL})*"
)
"""A name: words with capitals, and what may stand in small letters between them."""


def companion_in(question: Question, words: str) -> str:
    """The words without what only says that a name follows; as they are where more is said.

    Where it is asked whether somebody may come along, all the names that are proposed go before.
    """
    name = _name_in(question, words)
    if not name or question.kind == "companion":
        return name or words
    proposed = [c.value.partition("=")[2] for c in question.choices if c.effect == "set"]
    with_guest = [names for names in proposed if _GUEST.search(names)]
    joined = "and " if is_married(words) else ", "
    whole = [_GUEST.sub(lambda _: f"{joined}{name}", names) for names in with_guest]
    return whole[0].replace(" ,", ",") if whole else words


def is_married(words: str) -> bool:
    """True where a companion is called husband or wife; a sister is on a line of her own.

    >>> is_married("her husband is Ned Orr"), is_married("his sister Ellen Orr")
    (True, False)
    """
    return _MARRIED.search(words) is not None


def _name_in(question: Question, words: str) -> str:
    """The companion's name, where all other words only say that one comes; else ""."""
    bare = _COMING.sub("", words)
    found = _namer().search(bare)
    if found is not None:
        whose = found["whose"] or found["its"] or ""
        led = [whose, *_CUTS.split(bare[: found.start()])]
        name = found["name"].strip()
        return name if _NAME.fullmatch(name) and all(_leads(question, one) for one in led) else ""
    front, _, last = (part.strip() for part in bare.rpartition(","))
    if front and " " in last and _NAME.fullmatch(last):
        led = _CUTS.split(front)
        again = _name_in(question, front)
        said = again in last.split() or all(_leads(question, one) for one in led)
        return last if said else ""
    return bare if bare != words and " " in bare and _NAME.fullmatch(bare) else ""


def _leads(question: Question, part: str) -> bool:
    """True for "yes", "still together" and "Kit is", which say nothing that the name doesn't."""
    said = plain(part)
    known = words_known().get(said, ())
    if not said or "yes" in meanings(said) or ("", LEAD) in known:
        return True
    names = re.findall(r"\w+", folded(re.sub(r"['\u2019]s$|\s+is$", "", part.strip())))
    return set(names) <= set(re.findall(r"\w+", folded(question.who)))


def _either(means: str) -> str:
    known = [said for said, meant in words_known().items() if ("", means) in meant]
    either = "|".join(sorted(map(re.escape, known), key=len, reverse=True))
    return either.replace("'", "['\u2019]")


@cache
def _namer() -> re.Pattern[str]:
    """Words before a name: "her name is", "bringing", "Kit's sister", "his plus one is"."""
    kin, told = _either(KIN), _either(NAMER)
    whose = r"(?:his|her|their|the|(?P<{}>[\w]+['\u2019]s))"
    return re.compile(
        rf"(?<![\w+])(?i:(?:{told})\s+{whose.format('its')}\s+(?:{kin})"
        rf"|{whose.format('whose')}\s+(?:{kin})(?:\s+is)?|{told})"
        r"\s*:?,?\s+(?P<name>[^\W\d_a-z][^\n,;]*)$"
    )


def without_namer(question: Question, words: str) -> str:
    """Names without what only says that they follow: "the parents are Luca and Gia Vole"."""
    known = [said for said, meant in words_known().items() if (question.kind, NAMER) in meant]
    either = "|".join(sorted(map(re.escape, known), key=len, reverse=True))
    found = re.match(rf"(?i:{either})\s*:?\s+(?=[^\W\d_a-z])", words) if known else None
    return words[found.end() :] if found is not None else words
