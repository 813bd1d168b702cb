"""Of whom a mail speaks by a word of kinship: “Grandma would like …”.

It is the one household that the list calls so, by a title or at the front of a note (“Grandma -
widowed”). Where it calls several so, or the words speak of somebody else's grandma, nobody knows.
"""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from addressing.questions.folding import folded
from addressing.records.findings import Finding
from addressing.records.guests import Household
from addressing.tables import table

_NOTES = frozenset(("remark", "cell-note"))
_OURS = frozenset(("my", "our"))
_NEW = re.compile(r"\badd(?:ed|ing)?\b", re.IGNORECASE)
"""Who is to be added isn't on the list."""


@dataclass(frozen=True, slots=True)
class Kin:
    """Word of kinship → the keys of the households that the list calls so."""

    keys: Mapping[str, frozenset[str]]

    @classmethod
    def of(cls, homes: Sequence[Household], findings: Iterable[Finding]) -> "Kin":
        """The words of a list: those of its names, and of the notes that became findings."""
        said = [(home.key, p.title or "") for home in homes for p in home.people]
        said += [(f.household, f.quoted) for f in findings if f.household and f.code in _NOTES]
        known: dict[str, set[str]] = {}
        for key, words in said:
            for match in _at_front().finditer(words):
                known.setdefault(folded(match["kin"]), set()).add(key)
        return cls({word: frozenset(keys) for word, keys in known.items()})

    def named(self, sentence: str) -> tuple[str, ...]:
        """The households that a sentence means by such words, each called so alone."""
        if _NEW.search(sentence):
            return ()
        found = (self.keys.get(word, frozenset()) for word in _spoken_of(sentence))
        return tuple(dict.fromkeys(key for keys in found if len(keys) == 1 for key in keys))


def _spoken_of(sentence: str) -> Iterator[str]:
    """The words of kinship that stand for somebody: "Grandma", "my aunt", not "her aunt"."""
    for match in _anywhere().finditer(sentence):
        before = folded(match["before"] or "")
        named = before in _OURS or (match["kin"][0].isupper() and not match["whose"])
        if named:
            yield folded(match["kin"])


@cache
def _words() -> str:
    rows = (row for row in table("titles") if row["group"] == "kin")
    forms = {form.strip() for row in rows for form in row["forms"].split("|")}
    return "|".join(sorted(map(re.escape, forms), key=len, reverse=True))


@cache
def _at_front() -> re.Pattern[str]:
    whose = r"(?:(?:my|our|the|[\w.]+['\u2019]s)\s+)?"
    return re.compile(
        rf"(?:^|[,;.(:\u2013\u2014-]\s*){whose}(?P<kin>{_words()})(?![\w'\u2019])", re.IGNORECASE
    )


@cache
def _anywhere() -> re.Pattern[str]:
    whose = r"(?P<whose>(?:his|her|their|your|a|an|[\w.]+['\u2019]s)\s+)"
    return re.compile(
        rf"(?<![\w'\u2019])(?:{whose}|(?P<before>\w+)\s+)?(?P<kin>(?i:{_words()}))(?!\w)"
        r"(?!\s+[^\W\d_a-z])"
    )
