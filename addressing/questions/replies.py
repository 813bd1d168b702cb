"""An answered letter read back: by its numbers, and by what stands below a quoted question.

A letter bears a mark, and the job's folder keeps what stood in it. So its own lines are known, a
number is a question for certain, and everything else is the client's words: an answer where it is
plain which question it belongs to, else a remark. Nothing is guessed from words alone.
"""

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from addressing.questions.asking import mark_of
from addressing.questions.letter import label_of
from addressing.records.findings import Finding, Severity
from addressing.records.questions import Asked, Decision, Given, Matter, Said
from addressing.where import Where

_MARK = re.compile(r"\bletter ([0-9a-f]{8})\b", re.IGNORECASE)
_QUOTE = re.compile(r"^[\s>|]*")
_HEADING = re.compile(r"Question (\d+)\b")
_TRIMMED = re.compile(r"Question \d+\W*(?:\(.*)?", re.IGNORECASE)
"""A heading of which a mail program or a client left only the front."""
_NUMBERED = re.compile(r"\(?(?P<number>\d+(?:\.\d+)?)\s*(?:[:=)]|\.(?!\d))\s*(?P<words>.*)$")
_MEMBER = re.compile(r"\(?(?P<number>\d+\.\d+)\s+(?P<words>.*)$")
_LETTERED = re.compile(
    r"\(?(?P<number>\d+(?:\.\d+)?)\s*[-–]?\s*(?P<letter>[a-j])[).!]*", re.IGNORECASE
)
"""A number and the letter of an answer: "4 b", "4b"."""
_LETTERS = "abcdefghij"


@dataclass(frozen=True, slots=True)
class Slot:
    """One number of a letter: what it asks, what stands beside it, its answers in order."""

    number: str
    asked: Asked
    label: str = ""
    answers: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Letter:
    """A letter as it was sent."""

    mark: str
    text: str
    slots: tuple[Slot, ...]


@dataclass(slots=True)
class _Reply:
    """What was found so far. `said` are the lines of answers, by number, with their first line."""

    slots: Mapping[str, Slot]
    said: list[tuple[str, int, list[str]]] = field(default_factory=list)
    remarks: list[tuple[int, str]] = field(default_factory=list)
    waiting: list[tuple[int, str]] = field(default_factory=list)
    """Lines below a quoted question: its answer, if the letter goes on behind them."""
    question: str = ""


def slots_of(matters: Sequence[Matter]) -> tuple[Slot, ...]:
    """Every number of a letter with what it asks."""
    slots: list[Slot] = []
    for matter in matters:
        answers = tuple(choice.text for choice in matter.choices)
        if not matter.table:
            question = matter.questions[0]
            asked = Asked(question.ref, mark_of(question.basis))
            slots.append(Slot(str(matter.number), asked, "", answers))
            continue
        if answers:
            slots.append(Slot(str(matter.number), Asked(matter.ref), "", answers))
        for place, question in enumerate(matter.questions, start=1):
            asked = Asked(question.ref, mark_of(question.basis), matter.ref)
            own = tuple(choice.text for choice in question.choices)
            slots.append(Slot(f"{matter.number}.{place}", asked, label_of(question), own))
    return tuple(slots)


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
        bare = _bare(line)
        if not bare:
            continue
        if bare in ours or _TRIMMED.fullmatch(bare) or _is_blank_slot(bare, reply.slots):
            _goes_on(reply, bare)
        elif (answer := _numbered(bare, reply.slots)) is not None:
            _keep_waiting(reply)
            reply.said.append((answer[0], number, [answer[1]]))
        elif not _is_awaited(reply, above, number) and (marked := _marked(bare, reply.slots)):
            _keep_waiting(reply)
            reply.said += [(slot, number, [letter]) for slot, letter in marked]
        elif line.lstrip().startswith(">") and bare in whole:
            _goes_on(reply, bare)  # a line of the letter that a mail program broke anew
            above = 0
            continue
        elif reply.said and above == number - 1 and not reply.waiting:
            reply.said[-1][2].append(bare)
        else:
            reply.waiting.append((number, bare))
            continue
        above = number if bare not in ours else 0
    reply.remarks += reply.waiting
    return _given(reply, lambda line: Where(file, file, f"line {line}"))


def _bare(line: str) -> str:
    return " ".join(_QUOTE.sub("", line).split())


def _is_blank_slot(bare: str, slots: Mapping[str, Slot]) -> bool:
    """A number with nothing behind it but what the letter has there itself."""
    answer = _numbered(bare, slots)
    return answer is not None and not answer[1]


def _numbered(bare: str, slots: Mapping[str, Slot]) -> tuple[str, str] | None:
    """(the number, the words behind it) of a line that begins with a number of the letter."""
    found = _NUMBERED.match(bare) or _MEMBER.match(bare)
    if found is None or found["number"] not in slots:
        return None
    slot = slots[found["number"]]
    words = found["words"].removeprefix(slot.label) if slot.label else found["words"]
    return slot.number, words.strip(" :_")


def _is_awaited(reply: _Reply, above: int, number: int) -> bool:
    """True below a number that stands alone: what follows is its answer, "4B" an apartment."""
    return bool(reply.said) and above == number - 1 and reply.said[-1][2] == [""]


def _marked(bare: str, slots: Mapping[str, Slot]) -> list[tuple[str, str]]:
    """The numbers of a line with the letters that they mark ("4 b", "4b, 5a"), if it has no more.

    Each letter must be that of an answer which the letter proposes there.
    """
    parts = [_LETTERED.fullmatch(part.strip()) for part in re.split(r"[,;]", bare)]
    found = [(part["number"], part["letter"].casefold()) for part in parts if part is not None]
    known = all(
        number in slots and _LETTERS.index(letter) < len(slots[number].answers)
        for number, letter in found
    )
    return found if known and len(found) == len(parts) else []


def _goes_on(reply: _Reply, bare: str) -> None:
    """A line of the letter itself: what stood before it belongs to the question above."""
    slot = reply.slots.get(reply.question)
    if slot is not None and not slot.asked.ref.startswith("all:") and reply.waiting:
        first = reply.waiting[0][0]
        reply.said.append((slot.number, first, [words for _, words in reply.waiting]))
        reply.waiting.clear()
    _keep_waiting(reply)
    heading = _HEADING.match(bare)
    if heading is not None:
        reply.question = heading[1]


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
    return Given(tuple(decisions), blanks, findings, len(reply.slots), said)


def _decision(slot: Slot, words: str, where: Where) -> Decision:
    """A letter alone stands for the answer that it marks."""
    alone = words.strip(" ().").casefold()
    place = _LETTERS.find(alone) if len(alone) == 1 else -1
    answer = slot.answers[place] if 0 <= place < len(slot.answers) else words
    return Decision(slot.asked.ref, answer, where, slot.asked.mark)


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
