"""The questions as a letter in plain text, to paste into a mail and to be answered in it."""

import textwrap
from collections.abc import Sequence

from addressing.questions.asking import mark_of
from addressing.questions.matters import GROUPS
from addressing.questions.noting import notes_shown
from addressing.questions.showing import place_shown
from addressing.records.questions import Choice, Matter, Question

WIDTH = 72
"""Characters in a line: no mail program breaks it anew, a quoting mark before it included."""
_OPENING = """\
Hello,

thank you for the guest list. Before the envelopes are printed we have {count}. Please write
each answer behind its number and send this back, or fill in the workbook (questions.xlsx),
whichever you like better. “a” or “b” is enough where that says it; your own words are welcome
everywhere.

Please leave this line in your reply: letter {mark}
"""
_CLOSING = """\
What you don't answer stays as your list has it, or waits until we know.

Thank you!
"""
_BY_NAME = frozenset(("title", "companion", "names", "everyone"))
"""Kinds whose words in the list are names."""
_NOTHING = """\
Hello,

thank you for the guest list. We have no questions.
"""


def letter_text(matters: Sequence[Matter]) -> str:
    """The letter; the numbers are those of the workbook. Its mark tells a reply what was asked."""
    if not matters:
        return _NOTHING
    count = "one question" if len(matters) == 1 else f"{len(matters)} questions"
    parts = [_folded(_OPENING.format(count=count, mark=letter_mark(matters)))]
    for group in GROUPS:
        told = [_told(matter) for matter in matters if matter.group == group]
        if told:
            parts += [group.upper(), *told]
    text = "\n".join((*parts, _CLOSING))
    return text.encode("utf-8", "replace").decode()  # half a character can't be sent


def letter_mark(matters: Sequence[Matter]) -> str:
    """The fingerprint of everything that a letter asks."""
    asked = (f"{m.number} {q.ref} {mark_of(q.basis)}" for m in matters for q in m.questions)
    return mark_of("\n".join(asked))


def letter_of(place: int) -> str:
    """How the letter marks a proposed answer.

    >>> letter_of(0), letter_of(2)
    ('a', 'c')
    """
    return "abcdefghij"[place]


def label_of(question: Question) -> str:
    """What stands between the number and the answer in a table: who, and what is in doubt."""
    listed, who = _line(question.listed), _line(question.who)
    if question.kind in _BY_NAME or listed == who:
        return listed
    return f"{who}, {listed}"


def _told(matter: Matter) -> str:
    lines = _heading(matter)
    lines += _wrapped(matter.text)
    if not matter.table:
        lines += _listed(matter.questions[0])
    lines += _offered(matter.choices)
    if matter.choices or not matter.table:
        lines.append(f"  {matter.number}:")
    return "\n".join((*lines, *_members(matter), ""))


def _heading(matter: Matter) -> list[str]:
    if matter.table:
        return [f"Question {matter.number} ({len(matter.questions)} in all)"]
    question = matter.questions[0]
    return _wrapped(f"Question {matter.number}, {question.who} ({place_shown(question.where)})", 0)


def _listed(question: Question) -> list[str]:
    shown = question.listed.split("\n") if question.listed != question.who else []
    return [line for part in (*shown, notes_shown(question)) for line in _wrapped(part, 4)]


def _offered(choices: Sequence[Choice]) -> list[str]:
    return [
        line
        for place, choice in enumerate(choices)
        for line in _wrapped(f"{letter_of(place)}) {choice.text}", 4)
    ]


def _members(matter: Matter) -> list[str]:
    """A line for each row of a table, with the place to answer behind it."""
    if not matter.table:
        return []
    lines, before = ["", *_wrapped(matter.opening)], ""
    for place, question in enumerate(matter.questions, start=1):
        if matter.each:
            lines += _wrapped(question.text, 4)
        said = notes_shown(question)
        if said and said != before:  # apart from the row above, of which it isn't
            lines += ["", *_wrapped(said, 4)]
        before = said
        lines.append(f"  {matter.number}.{place}  {label_of(question)}:")
    return lines


def _wrapped(text: str, indent: int = 2) -> list[str]:
    blank = " " * indent
    return textwrap.wrap(
        _line(text), WIDTH, initial_indent=blank, subsequent_indent=blank, break_long_words=False
    )


def _folded(text: str) -> str:
    parts = text.split("\n\n")
    return "\n\n".join(textwrap.fill(_line(part), WIDTH) for part in parts) + "\n"


def _line(text: str) -> str:
    return " ".join(text.split())
