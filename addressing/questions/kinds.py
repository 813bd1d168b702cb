"""How each kind of finding is asked and what can be answered: rows of `data/answers.tsv`."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cache

from addressing.questions.placeholders import Words
from addressing.records.findings import Finding
from addressing.records.questions import BETWEEN, Choice
from addressing.tables import table

SEVERAL = "several"
"""The code of the rows for a question that stands for several findings."""
PLACES = frozenset(("address", "street", "unit", "city", "region", "postcode", "country"))
"""Kinds that are about where: asked together when a household has more than one."""
NAMES = frozenset(("names", "everyone"))
"""Kinds that are about who: asked together too."""
MOST = 4
"""So many answers are proposed at most where several findings are asked together."""
WHO = "{who}"
"""Stands in a proposed answer until it is known how the household is called."""
_PLACEHOLDER = re.compile(r"\{(\w+)\}")


@dataclass(frozen=True, slots=True)
class Asking:
    """One way to ask: what is in doubt, the question, and the proposed answers in their order."""

    kind: str
    group: str
    doubt: str
    ask: str
    choices: tuple[Choice, ...]

    def text(self, words: Words) -> str:
        """The whole question, filled."""
        return filled(f"{self.doubt} {self.ask}".strip(), words)


@cache
def _rows() -> dict[str, tuple[dict[str, str], ...]]:
    rows: dict[str, tuple[dict[str, str], ...]] = {}
    for row in table("answers"):
        rows[row["code"]] = (*rows.get(row["code"], ()), row)
    return rows


def asking_for(finding: Finding, about: str, words: Words) -> Asking | None:
    """The row for a finding whose cell feeds `about`; None when the client isn't asked of it.

    `words` are the placeholders that are known; {who} and {person} are filled later.
    """
    for row in _rows().get(finding.code, ()):
        if row["about"] in ("", about) and (not row["needs"] or row["needs"] in words):
            return _asking(row, words, finding.likely)
    return None


def kept_as_it_stands(code: str) -> frozenset[str]:
    """The proposed answers to a finding's questions that leave the list as it is.

    Where one names somebody, only what stands before the name.
    """
    parts = (part for row in _rows().get(code, ()) for part in row["answers"].split("|"))
    kept = (part.partition(": ")[2] for part in parts if part.startswith(("keep: ", "part=")))
    return frozenset(text.partition("{")[0] for text in kept)


def is_of_place(code: str) -> bool:
    """True when all that a finding asks is where a household lives.

    >>> is_of_place("zip-missing"), is_of_place("row-struck")
    (True, False)
    """
    rows = _rows().get(code, ())
    return bool(rows) and all(row["kind"] in PLACES for row in rows)


def asking_several(about: str, doubts: Iterable[Asking]) -> Asking:
    """Several doubts about one matter as one question: "address", "names" or "everyone".

    Each doubt is told; what each proposes is proposed, "as it stands" once and last.
    """
    row = next(row for row in _rows()[SEVERAL] if row["about"] == about)
    base = _asking(row, {}, ())
    doubts = tuple(doubts)
    proposed = [choice for each in doubts for choice in each.choices if choice.effect != "keep"]
    proposed = _one_part(proposed)
    proposed.sort(key=lambda choice: choice.effect in ("drop", "whole"))
    choices = (*dict.fromkeys(proposed[: MOST - 1]), *base.choices)
    told = " ".join(dict.fromkeys(each.doubt for each in doubts))
    return Asking(base.kind, doubts[0].group, told, base.ask, choices)


def _one_part(choices: list[Choice]) -> list[Choice]:
    """Lou and the plus-one of two notes are left out by one answer, in the first one's words."""
    parts = [choice for choice in choices if choice.effect == "part"]
    if len(parts) <= 1:
        return choices
    who = BETWEEN.join(dict.fromkeys(one for part in parts for one in part.value.split(BETWEEN)))
    others = [choice for choice in choices if choice.effect != "part"]
    return [replace(parts[0], value=who), *others]


def _asking(row: Mapping[str, str], words: Words, likely: Iterable[tuple[str, str]]) -> Asking:
    known = {name: text for name, text in words.items() if name not in ("who", "person")}
    who = known | {"who": WHO}
    choices = [
        choice
        for part in row["answers"].split("|")
        for choice in _choices(part, who, tuple(likely))
    ]
    doubt, ask = (_partly(row[name], known) for name in ("doubt", "ask"))
    return Asking(row["kind"], row["group"], doubt, ask, tuple(choices))


def _choices(part: str, words: Words, likely: Iterable[tuple[str, str]]) -> Iterable[Choice]:
    """The answers that a part of the table proposes: one, one for each likely value, or none."""
    if "{likely}" in part:
        field = part.partition("=")[0]
        told = [words | {"likely": value} for name, value in likely if name == field]
    else:
        told = [words]
    for known in told:
        if all(name in known for name in _PLACEHOLDER.findall(part)):
            yield choice_of(part, known)


def choice_of(part: str, words: Words) -> Choice:
    """A proposed answer as the tables write it: "effect: words", or "field=value: words"."""
    effect, _, text = part.partition(": ")
    field, given, value = effect.partition("=")
    if field == "part":
        return Choice(filled(text, words), field, filled(value, words))
    if given:
        return Choice(filled(text, words), "set", f"{field}={filled(value, words)}")
    return Choice(filled(text, words), effect)


def filled(text: str, words: Words) -> str:
    """A text with its placeholders filled; braces in the words themselves mean nothing.

    >>> filled("Is it {near}?", {"near": "{who}"})
    'Is it {who}?'
    """
    return _PLACEHOLDER.sub(lambda match: words.get(match[1], ""), text)


def _partly(text: str, words: Words) -> str:
    """A text with the placeholders filled that are known; braces in the words are taken out."""
    plain = {name: said.replace("{", "(").replace("}", ")") for name, said in words.items()}
    return _PLACEHOLDER.sub(lambda match: plain.get(match[1], match[0]), text)
