"""How each kind of finding is asked and what can be answered: rows of `data/answers.tsv`."""

import re
from dataclasses import dataclass
from functools import cache

from addressing.records.findings import Finding
from addressing.records.questions import Choice
from addressing.tables import table

SEVERAL = "several"
"""The code of the rows for a question that stands for several findings."""
PLACES = frozenset(("address", "street", "unit", "city", "region", "postcode", "country"))
"""Kinds that are about where: asked together when a household has more than one."""
NAMES = frozenset(("names", "everyone"))
"""Kinds that are about who: asked together too."""


@dataclass(frozen=True, slots=True)
class Asking:
    """One row of the table, with the words that its guess found."""

    kind: str
    group: str
    question: str
    answers: str
    found: dict[str, str]

    def choices(self) -> tuple[Choice, ...]:
        """The proposed answers, in their order."""
        return tuple(choice_of(part, self.found) for part in self.answers.split("|"))


@cache
def _rows() -> dict[str, tuple[dict[str, str], ...]]:
    rows: dict[str, tuple[dict[str, str], ...]] = {}
    for row in table("answers"):
        rows[row["code"]] = (*rows.get(row["code"], ()), row)
    return rows


def asking_for(finding: Finding, about: str) -> Asking | None:
    """The row for a finding whose cell feeds `about`; None when the client isn't asked of it."""
    for row in _rows().get(finding.code, ()):
        if row["about"] not in ("", about) or not re.search(row["when"], finding.text):
            continue
        words = f"{finding.text} {finding.mend}"
        guess = re.search(row["guess"], words) if row["guess"] else None
        if row["guess"] and guess is None:
            continue
        return _asking(row, guess.groupdict() if guess else {})
    return None


def asking_several(about: str) -> Asking:
    """The row for several doubts about one matter: "address", "names" or "everyone"."""
    return _asking(next(row for row in _rows()[SEVERAL] if row["about"] == about), {})


def _asking(row: dict[str, str], found: dict[str, str]) -> Asking:
    return Asking(row["kind"], row["group"], row["question"], row["answers"], found)


def choice_of(part: str, found: dict[str, str]) -> Choice:
    """A proposed answer as the tables write it: "effect: words", or "field=value: words"."""
    effect, _, text = part.partition(": ")
    field, given, value = effect.partition("=")
    if given:
        return Choice(filled(text, found), "set", f"{field}={filled(value, found)}")
    return Choice(filled(text, found), effect)


def filled(text: str, words: dict[str, str]) -> str:
    """A text with its placeholders filled; braces in the words themselves mean nothing.

    >>> filled("Is it {near}?", {"near": "{who}"})
    'Is it {who}?'
    """
    return re.sub(r"\{(\w+)\}", lambda match: words.get(match[1], ""), text)
