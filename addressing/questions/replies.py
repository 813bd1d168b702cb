"""An answered letter read back: by its numbers, and by what stands below a quoted question.

A letter bears a mark, and the job's folder keeps what stood in it. So its own lines are known, a
number is a question for certain, and everything else is the client's words: an answer where it is
plain which question it belongs to, else a remark. Nothing is guessed from words alone.
"""

import itertools
import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field

from addressing.questions.choosing import ALL_YES, meanings, plain
from addressing.questions.reply_lines import (
    by_name,
    closes,
    closes_bracket,
    is_ages,
    is_of_named,
    numbered,
    without_colon,
)
from addressing.questions.several_numbers import several
from addressing.questions.slots import LETTERS, Letter, Slot
from addressing.records.findings import Finding, Severity
from addressing.records.questions import Decision, Given, Said
from addressing.where import Where

_MARK = re.compile(r"\bletter ([0-9a-f]{8})\b", re.IGNORECASE)
_MARKED = re.compile(r"(?:.*\breply\b\W*)?\W*\bletter ([0-9a-f]{8})\b[\s.,;:)!-]*", re.IGNORECASE)
"""The letter's mark as clients give it, with or without the words before it."""
_LETTER_FIRST = re.compile(
    r"\(?(?:([a-j])[).:,]|([A-J])[),:]|([a-jA-J])\s+[-\u2013\u2014])\s+(.+)", re.DOTALL
)
_LETTER_LAST = re.compile(r"(.+?)(?:[,;:]|\s[-\u2013\u2014])\s*\(?([a-j])\)?[.!]*", re.DOTALL)
"""A letter of the letter before words, and behind them; "A. Penhew" is a name."""
_MARK_LAST = re.compile(r"^(?P<words>.*?)\s*\(?letter ([0-9a-f]{8})\b[\s.,;:)!-]*$", re.IGNORECASE)
"""The mark behind other words: "Hi Jo! letter 69dfd275"."""
_QUOTE = re.compile(r"^[\s>|]*")
_HEADING = re.compile(r"Question (\d+)\b")
_TRIMMED = re.compile(r"Question \d+\W*(?:\(.*)?", re.IGNORECASE)
"""A heading of which a mail program or a client left only the front."""


@dataclass(slots=True)
class _Reply:
    """What was found so far. `said` are the lines of answers, by number, with their first line."""

    slots: Mapping[str, Slot]
    said: list[tuple[str, int, list[str]]] = field(default_factory=list)
    remarks: list[tuple[int, str]] = field(default_factory=list)
    waiting: list[tuple[int, str]] = field(default_factory=list)
    """Lines below a quoted question: its answer, if the letter goes on behind them."""
    question: str = ""
    blank: tuple[str, int] = ("", 0)
    """The number of the letter that stood empty last, with its line; what is below answers it."""


def marks_in(text: str) -> tuple[str, ...]:
    """The marks of the letters that a text answers."""
    return tuple(dict.fromkeys(mark.casefold() for mark in _MARK.findall(text)))


def reply_answers(text: str, letter: Letter, file: str) -> Given:
    """The answers in a reply to a letter; `file` is the name that they are cited by."""
    reply = _Reply({slot.number: slot for slot in letter.slots})
    ours = {_bare(line) for line in letter.text.splitlines()} - {""}
    whole = " ".join(letter.text.split())
    above = 0
    for number, line in enumerate(text.splitlines(), start=1):
        bare = _without_mark(_bare(line), letter.mark)
        if not bare:
            continue
        quoted = line.lstrip().startswith(">") and bare in whole
        if bare in ours or _TRIMMED.fullmatch(bare) or _is_blank_slot(bare, reply.slots):
            _goes_on(reply, bare)
            reply.blank = _blank_of(bare, reply.slots), number
        elif found := _answers_in(reply, bare, above, number, quoted=quoted):
            _keep_waiting(reply)
            reply.said += [(slot, number, [words]) for slot, words in found]
        elif quoted:
            _goes_on(reply, bare)  # a line of the letter that a mail program broke anew
            above = 0
            continue
        elif _goes_on_below(reply, bare, above, number):
            reply.said[-1][2].append(bare)
        else:
            reply.waiting.append((number, bare))
            continue
        above = number if bare not in ours else 0
    _end(reply)
    _say_yes_to_all(reply)
    return _given(reply, lambda line: Where(file, file, f"line {line}"))


def _bare(line: str) -> str:
    return " ".join(_QUOTE.sub("", line).split())


def _without_mark(bare: str, mark: str) -> str:
    """A line without the letter's own mark, which clients leave in as they are asked."""
    found = _MARKED.match(bare)
    if found is not None and found[1].casefold() == mark:
        return bare[found.end() :]
    last = _MARK_LAST.match(bare)
    return last["words"] if last is not None and last[2].casefold() == mark else bare


def _answers_in(
    reply: _Reply, bare: str, above: int, number: int, *, quoted: bool
) -> list[tuple[str, str]]:
    """The numbers that a line answers, each with its words.

    Below a number that stands alone everything but a number with its colon is that one's answer;
    nor is a stretch of the letter one that a mail program quoted.
    """
    if _goes_on_in_brackets(reply, bare, above, number):
        return []
    more = several(bare, reply.slots)
    if more:
        return more
    answer = numbered(bare, reply.slots)
    if answer is not None:
        return [answer]
    if quoted or _is_awaited(reply, above, number):
        return []
    return without_colon(bare, reply.slots) or by_name(bare, reply.slots)


def _say_yes_to_all(reply: _Reply) -> None:
    """Let “yes to all” answer whatever has a proposed yes and no answer of its own."""
    said = [each for each in reply.remarks if ALL_YES in meanings(each[1])]
    if not said:
        return
    line = said[0][0]
    reply.remarks = [each for each in reply.remarks if each not in said]
    answered = {number for number, _, _ in reply.said}
    for slot in reply.slots.values():
        yes = [answer for answer in slot.answers if plain(answer).startswith("yes")]
        single = slot.number not in answered and not slot.asked.ref.startswith("all:")
        if single and len(yes) == 1:
            reply.said.append((slot.number, line, list(yes)))


def _is_blank_slot(bare: str, slots: Mapping[str, Slot]) -> bool:
    """A number with nothing behind it but what the letter has there itself."""
    answer = numbered(bare, slots)
    return answer is not None and not answer[1]


def _blank_of(bare: str, slots: Mapping[str, Slot]) -> str:
    answer = numbered(bare, slots)
    return answer[0] if answer is not None and not answer[1] else ""


def _end(reply: _Reply) -> None:
    """The letter doesn't go on: lines right below its last number answer it, up to a closing."""
    number, line = reply.blank
    words = list(itertools.takewhile(lambda each: not closes(each[1]), reply.waiting))
    if number and words and words[0][0] == line + 1:
        below = [each for at, each in enumerate(words) if each[0] == line + 1 + at]
        reply.said.append((number, below[0][0], [text for _, text in below]))
        reply.waiting = reply.waiting[len(below) :]
    reply.remarks += reply.waiting


def _is_awaited(reply: _Reply, above: int, number: int) -> bool:
    """True below a number that stands alone: what follows is its answer, "4B" an apartment."""
    return bool(reply.said) and above == number - 1 and reply.said[-1][2] == [""]


def _goes_on_below(reply: _Reply, bare: str, above: int, number: int) -> bool:
    """True for a line right below an answer that may belong to it: it names nobody else."""
    below = bool(reply.said) and above == number - 1 and not reply.waiting
    whole = ALL_YES in meanings(bare)
    return below and not (whole or closes(bare) or is_of_named(bare, reply.slots))


def _goes_on_in_brackets(reply: _Reply, bare: str, above: int, number: int) -> bool:
    """True where a child's age begins a line right below an answer that a mail program broke."""
    below = bool(reply.said) and above == number - 1
    return below and (is_ages(bare) or closes_bracket(reply.said[-1][2][-1], bare))


def _goes_on(reply: _Reply, bare: str) -> None:
    """A line of the letter itself: what stood before it belongs to the question above."""
    slot = _slot_below(reply)
    if slot is not None and reply.waiting:
        first = reply.waiting[0][0]
        reply.said.append((slot.number, first, [words for _, words in reply.waiting]))
        reply.waiting.clear()
    _keep_waiting(reply)
    heading = _HEADING.match(bare)
    if heading is not None:
        reply.question = heading[1]


def _slot_below(reply: _Reply) -> Slot | None:
    """What waiting words answer: the number right above them, else the question, if it is one."""
    number, line = reply.blank
    if number and reply.waiting and reply.waiting[0][0] == line + 1:
        return reply.slots[number]
    slot = reply.slots.get(reply.question)
    return None if slot is None or slot.asked.ref.startswith("all:") else slot


def _keep_waiting(reply: _Reply) -> None:
    """Words that belong to no question are a remark."""
    reply.remarks += reply.waiting
    reply.waiting.clear()


def _given(reply: _Reply, where: Callable[[int], Where]) -> Given:
    decisions = [
        _decision(reply.slots[number], "\n".join(words), where(line))
        for number, line, words in reply.said
    ]
    answered = {number for number, _, _ in reply.said}
    blanks = tuple(
        slot.asked
        for slot in reply.slots.values()
        if slot.number not in answered and slot.asked.matter
    )
    remarks = tuple(_together(reply.remarks))
    findings = tuple(_remark(" ".join(words), where(line)) for line, words in remarks)
    said = tuple(Said("\n".join(words), where(line)) for line, words in remarks)
    numbers = {number: slot.asked.ref for number, slot in reply.slots.items()}
    return Given(tuple(decisions), blanks, findings, len(reply.slots), said, numbers)


def _decision(slot: Slot, words: str, where: Where) -> Decision:
    """A letter stands for the answer that it marks; words beside it go on the next line."""
    front, _, below = words.partition("\n")
    alone = front.strip(" ().!").casefold()
    letter, rest = (alone, below) if len(alone) == 1 else _letter_and_words(words)
    place = LETTERS.find(letter) if letter else -1
    answer = words
    for_all = bool(rest) and slot.asked.ref.startswith("all:")  # whom else it means is in the words
    if 0 <= place < len(slot.answers) and not for_all:
        answer = slot.answers[place]
        if rest and plain(rest) not in plain(answer):
            answer = f"{answer}\n{rest}"
    return Decision(slot.asked.ref, answer, where, slot.asked.mark)


def _letter_and_words(words: str) -> tuple[str, str]:
    first = _LETTER_FIRST.fullmatch(words)
    if first is not None:
        return (first[1] or first[2] or first[3]).casefold(), first[4].strip()
    last = _LETTER_LAST.fullmatch(words)
    return (last[2], last[1].strip()) if last is not None else ("", "")


def _together(remarks: Iterable[tuple[int, str]]) -> Iterable[tuple[int, list[str]]]:
    """Lines that follow each other are one remark."""
    joined: list[tuple[int, list[str]]] = []
    for line, words in sorted(remarks):
        if joined and joined[-1][0] + len(joined[-1][1]) == line:
            joined[-1][1].append(words)
        else:
            joined.append((line, [words]))
    return joined


def _remark(words: str, where: Where) -> Finding:
    text = f"The client adds: “{words}”."
    return Finding(Severity.NOTE, "answer-remark", where, text, "Worth reading.")
