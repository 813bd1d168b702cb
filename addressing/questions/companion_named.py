"""A companion's name in a sentence: “yes, still together, her name is Kelly Orr”."""

import re
from functools import cache

from addressing.questions.choosing import LEAD, NAMER, meanings, plain, words_known
from addressing.records.questions import Question

_CUTS = re.compile(r"[,;.!\u2013\u2014-]+\s*|\s+and\s+")
_GUEST = re.compile(r"\band guest$", re.IGNORECASE)


def companion_in(question: Question, words: str) -> str:
    """The words without what only says that a name follows; as they are where more is said.

    Where it is asked whether somebody may come along, all the names that are proposed go before.
    """
    found = _namer().search(words)
    lead = _CUTS.split(words[: found.start()]) if found is not None else ()
    if found is None or not all(map(_leads, lead)):
        return words
    name = found["name"].strip()
    if question.kind == "companion":
        return name
    proposed = [c.value.partition("=")[2] for c in question.choices if c.effect == "set"]
    with_guest = [names for names in proposed if _GUEST.search(names)]
    return _GUEST.sub(lambda _: f"and {name}", with_guest[0]) if with_guest else words


def _leads(part: str) -> bool:
    """True for "yes" and "still together", which say nothing that the name doesn't."""
    said = plain(part)
    return not said or "yes" in meanings(said) or ("", LEAD) in words_known().get(said, ())


@cache
def _namer() -> re.Pattern[str]:
    known = [said for said, meant in words_known().items() if ("", NAMER) in meant]
    either = "|".join(sorted(map(re.escape, known), key=len, reverse=True))
    either = either.replace("'", "['\u2019]")
    return re.compile(rf"(?<!\w)(?i:{either})\s*:?\s+(?P<name>[^\W\d_a-z][^\n]*)$")
