"""The questions as a letter in plain text, to paste into a mail."""

from collections.abc import Sequence
from itertools import groupby

from addressing.questions.sheets import numbered
from addressing.records.questions import Question

_OPENING = """\
Hello,

thank you for the guest list. Before the envelopes are printed we have {count}. You can answer in
the workbook (questions.xlsx) or write back under the numbers.
"""
_CLOSING = """\
What you don't answer stays as your list has it, or waits until we know.

Thank you!
"""
_HEADINGS = {
    "Questions": "Questions",
    "Titles": "Titles: Mr., Mrs., Ms., Dr. or another? Without one the name stands alone.",
    "Companions": "Companions: do you know their names? Else the envelope says “and Guest”.",
    "Spelling": "Spelling: these names are typed in one case. How are they written?",
}
_NOTHING = """\
Hello,

thank you for the guest list. We have no questions.
"""


def letter_text(questions: Sequence[Question]) -> str:
    """The letter; the numbers are those of the workbook."""
    if not questions:
        return _NOTHING
    count = "one question" if len(questions) == 1 else f"{len(questions)} questions"
    parts = [_OPENING.format(count=count)]
    for sheet, group in groupby(numbered(questions), key=lambda pair: pair[1].sheet):
        heading = _HEADINGS[sheet]
        parts.append(f"{heading}\n{'-' * len(heading)}\n")
        parts += [_told(number, question) for number, question in group]
        parts.append("")
    return "\n".join((*parts, _CLOSING))


def _told(number: int, question: Question) -> str:
    if question.sheet in ("Titles", "Companions", "Spelling"):
        return f"{number:>3}. {_line(question.listed)}: ______"
    listed = "\n".join(f"     {line}" for line in question.listed.split("\n"))
    choices = " / ".join(choice.text for choice in question.choices)
    offered = f"     ({choices})\n" if choices else ""
    who = f"     {_line(question.who)}, {question.where}"
    return f"{number:>3}. {_line(question.text)}\n{who}\n{listed}\n{offered}"


def _line(text: str) -> str:
    return " ".join(text.split())
