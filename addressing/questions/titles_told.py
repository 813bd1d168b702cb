"""Titles that a reply gives in sentences at a table: “Dave is Mr. and Ruth is Mrs., no others”.

They are taken only where every word of the answer is understood; else all of it stays open.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cache

from addressing.questions.choosing import BESIDE, OPENER, plain, words_known
from addressing.questions.folding import folded
from addressing.questions.spreading import KEPT, is_for_all
from addressing.records.questions import Asked, Decision, Given, Question
from addressing.tables import table

_TITLE = "title"
_NAME = r"[^\W\d_a-zß-ÿ][\w'\u2019-]*"
_REST = re.compile(
    r"(?:and\s+)?(?:all\s+|for\s+)*(?:the\s+)?(?:others?|rest|remaining"
    r"|everyone else|everybody else)"
    r"(?:\s+(?:have|has|get|gets|need|needs|stay|are|is))?"
    r"\s+(?:no titles?|none|nothing|without(?:\s+titles?)?|as they are)",
    re.IGNORECASE,
)
_BETWEEN = re.compile(r"[\s,;.!&\u2013\u2014-]+|\band\b", re.IGNORECASE)


def with_titles_told(given: Given, asked: Sequence[Question]) -> Given:
    """A reply whose sentences at a table of titles are an answer for each whom they name."""
    known = {question.ref: question for question in asked}
    made: list[Decision] = []
    for decision in given.decisions:
        title = given.numbers and is_for_all(decision.ref) and decision.ref.endswith(f":{_TITLE}")
        told = list(_told(decision, given, known)) if title else []
        made += told or [decision]
    return replace(given, decisions=tuple(made))


def _told(decision: Decision, given: Given, known: Mapping[str, Question]) -> Iterator[Decision]:
    rows = [asked for asked in given.blanks if asked.matter == decision.ref and asked.ref in known]
    said: dict[str, str] = {}
    rest, words = False, decision.answer
    for found in _clauses().finditer(decision.answer):
        row = _named(found["who"], rows, known)
        if row is None or row.ref in said:
            return
        said[row.ref] = found["title"]
        words = words.replace(found[0], " ", 1)
    if said and (more := _REST.search(words)) is not None:
        rest, words = True, words.replace(more[0], " ", 1)
    if not said or not _is_nothing(words):
        return
    for row in rows:
        if row.ref in said or rest:
            title = said.get(row.ref, KEPT)
            yield Decision(row.ref, title, decision.where, row.mark)


def _named(who: str, rows: Sequence[Asked], known: Mapping[str, Question]) -> Asked | None:
    """The row of whom some words name in full, or by a given name that one row alone has."""
    names = {row: folded(known[row.ref].listed).split() for row in rows}
    said = folded(who).split()
    full = [row for row, words in names.items() if words == said]
    first = [row for row, words in names.items() if words[:1] == said]
    found = full or first
    return found[0] if len(found) == 1 else None


def _is_nothing(words: str) -> bool:
    """True for what is left between clauses: "yes", "and", thanks."""
    left = plain(" ".join(_BETWEEN.sub(" ", words).split()))
    nothing = {("", OPENER), ("", BESIDE)}
    return not left or bool(words_known().get(left, frozenset()) & nothing)


@cache
def _clauses() -> re.Pattern[str]:
    """A name and its title: "Dave Kowalski is Mr.", "Ruth: Mrs", "Kit is a doctor"."""
    forms = (form.strip() for row in table("titles") for form in row["forms"].split("|"))
    either = "|".join(sorted({re.escape(f.rstrip(".")) for f in forms if f}, key=len, reverse=True))
    return re.compile(
        rf"(?P<who>{_NAME}(?:\s+{_NAME})*)(?:\s+(?:is|are)|['\u2019]s|\s*[:=]|\s+[-\u2013\u2014])\s*"
        rf"(?:an?\s+)?(?P<title>(?i:{either})(?:\.|(?!\w)))"
    )
