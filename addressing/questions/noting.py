"""What the list says beside somebody stands beside each question about them: it may answer it."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from addressing.records.findings import Finding
from addressing.records.questions import Question

_NOTES = frozenset(("remark", "cell-note"))
"""The codes of remarks that nobody asks about."""
_LONGEST = 300
"""Letters of a note that are shown."""


def notes_in(findings: Iterable[Finding]) -> Mapping[str, tuple[str, ...]]:
    """The list's own remarks by the households' keys, each once."""
    notes: dict[str, dict[str, None]] = {}
    for found in findings:
        if found.code in _NOTES and found.household is not None and found.quoted:
            notes.setdefault(found.household, {})[" ".join(found.quoted.split())] = None
    return {key: tuple(said) for key, said in notes.items()}


def with_notes(
    questions: Iterable[Question], notes: Mapping[str, tuple[str, ...]]
) -> Iterator[Question]:
    """The questions with what the list says of their households, save what they quote already."""
    for question in questions:
        said = (note for key in question.households for note in notes.get(key, ()))
        shown = " ".join(f"{question.text} {question.listed}".split())
        new = tuple(dict.fromkeys(note for note in said if note not in shown))
        yield replace(question, notes=new) if new else question


def notes_shown(question: Question) -> str:
    """A question's notes in one line, as the client reads them; "" without any.

    >>> from addressing.where import Where
    >>> q = Question("", "", "", "", "", "", "", Where("a.csv"), (), (), notes=("ask her mom",))
    >>> notes_shown(q)
    'Your note: “ask her mom”'
    """
    if not question.notes:
        return ""
    word = "Your note" if len(question.notes) == 1 else "Your notes"
    shown = (n if len(n) <= _LONGEST else f"{n[:_LONGEST].rstrip()}…" for n in question.notes)
    return f"{word}: " + "; ".join(f"“{note}”" for note in shown)
