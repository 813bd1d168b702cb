"""Decisions as text: `decisions.toml` beside the job, and answers that a designer writes by hand.

[[answer]]
question = "h-abcdefgh:zip-missing"     # as questions.xlsx and `questions --json` name it
answer = "06759"

[[answer]]                              # a correction that nobody asked for
household = "h-abcdefgh"
change = "street"
answer = "14 Larkmoor Lane"

[[said]]                                # what the client wrote and nothing could be made of
words = "please add Greta Vole"
"""

import json
from collections.abc import Iterable, Mapping
from typing import Annotated

from pydantic import Field

from addressing.materials.reading import Entry, Problem, Source, checked, wrong
from addressing.questions.corrections import CORRECT, CORRECTABLE
from addressing.records.questions import Choice, Decision, Earlier, Said
from addressing.where import Where

_OPENING = """\
# What was decided about this list, by household. Written by `addressing answer`; it may be mended
# by hand. A question that is taken away here is asked again; [[said]] is what the client wrote and
# nothing could be made of, open until `by` says what settled it; [[earlier]] was answered before
# what `by` names, so that an old file that is read again is known.
"""


class AnswerEntry(Entry):
    """One answer: to a question, or a correction of a household."""

    answer: str
    question: str | None = None
    household: str | None = None
    change: str | None = None
    mark: str = ""
    sure: bool = False
    file: str | None = None
    sheet: str | None = None
    cell: str | None = None
    date: str | None = None
    about: str = ""
    kind: str = ""
    offered: str = ""
    effect: str = ""
    value: str = ""
    among: Annotated[list[str], Field(default_factory=list)]
    listed: Annotated[list[str], Field(default_factory=list)]


class SaidEntry(Entry):
    """Words of the client that are no answer, open until `by` says what settled them."""

    words: str
    file: str
    sheet: str | None = None
    cell: str | None = None
    question: str = ""
    household: str | None = None
    date: str | None = None
    by: str = ""
    against: str = ""


class EarlierEntry(AnswerEntry):
    """An answer that was read before; `by` says what replaced it."""

    by: str


class AnswersEntry(Entry):
    """The whole file."""

    answer: Annotated[list[AnswerEntry], Field(default_factory=list)]
    said: Annotated[list[SaidEntry], Field(default_factory=list)]
    earlier: Annotated[list[EarlierEntry], Field(default_factory=list)]


def decisions_of(source: Source) -> tuple[Decision, ...]:
    """The answers in a TOML file.

    Raises:
        Fault: exit 3, `<kind>-wrong`, with everything that is wrong in it.
    """
    entries = checked(AnswersEntry, source).answer
    problems = [
        Problem(("answer", place), *told)
        for place, entry in enumerate(entries)
        if (told := _wrong(entry))
    ]
    if problems:
        raise wrong(source, problems)
    name = source.path.name
    return tuple(_decision(name, place, entry) for place, entry in enumerate(entries, start=1))


def words_of(source: Source) -> tuple[Said, ...]:
    """The client's words in a TOML file that are no answers.

    Raises:
        Fault: exit 3, `<kind>-wrong`.
    """
    return tuple(
        Said(
            each.words, Where(each.file, each.sheet, each.cell), each.question, each.household,
            each.date, each.by, each.against,
        )
        for each in checked(AnswersEntry, source).said
    )  # fmt: skip


def earlier_of(source: Source) -> tuple[Earlier, ...]:
    """The answers in a TOML file that were read and are replaced.

    Raises:
        Fault: exit 3, `<kind>-wrong`.
    """
    name = source.path.name
    entries = checked(AnswersEntry, source).earlier
    return tuple(Earlier(_decision(name, n, each), each.by) for n, each in enumerate(entries, 1))


def _wrong(entry: AnswerEntry) -> tuple[str, str] | None:
    if (entry.question is None) == (entry.household is None):
        return "it names no question and no household, or both.", "give one of the two."
    if entry.question is None and entry.change not in CORRECTABLE:
        return "what changes isn't said.", f"give change as one of {', '.join(CORRECTABLE)}."
    return None


def _decision(name: str, place: int, entry: AnswerEntry) -> Decision:
    ref = entry.question or f"{entry.household}:{CORRECT}:{entry.change}"
    file = entry.file or name
    cell = entry.cell or (f"answer[{place}]" if entry.file is None else None)
    where = Where(file, entry.sheet or file, cell)
    taken = Choice(entry.offered, entry.effect, entry.value) if entry.effect else None
    return Decision(
        ref, entry.answer, where, entry.mark, entry.sure, entry.date, entry.about, entry.kind,
        taken, tuple(entry.among), tuple(entry.listed),
    )  # fmt: skip


def decisions_text(
    decisions: Iterable[Decision], words: Iterable[Said] = (), earlier: Iterable[Earlier] = ()
) -> str:
    """The decisions as TOML, in the order of their questions; behind them the words left open.

    Last come the answers that are replaced. Reading the text gives the same of each again.
    """
    ordered = sorted(decisions, key=lambda each: (each.ref, each.where))
    tables = [f"\n[[answer]]\n{_table(each)}" for each in ordered]
    tables += [f"\n[[said]]\n{_words_table(each)}" for each in words]
    tables += [
        f"\n[[earlier]]\n{_table(each.decision)}{_lines({'by': each.by})}" for each in earlier
    ]
    return _OPENING + "".join(tables)


def _table(decision: Decision) -> str:
    where = decision.where
    values = {
        "question": decision.ref,
        "answer": decision.answer,
        "mark": decision.mark,
        "file": where.file,
        "sheet": where.sheet,
        "cell": where.cell,
        "date": decision.date,
        "about": decision.about or None,
        "kind": decision.kind or None,
    }
    if decision.taken is not None:
        taken = decision.taken
        values |= {"offered": taken.text, "effect": taken.effect, "value": taken.value or None}
    several = _several("among", decision.among) + _several("listed", decision.listed)
    return _lines(values) + several + ("sure = true\n" if decision.sure else "")


def _several(name: str, words: Iterable[str]) -> str:
    told = ", ".join(map(_string, words))
    return f"{name} = [{told}]\n" if told else ""


def _words_table(said: Said) -> str:
    where = said.where
    return _lines({
        "words": said.words,
        "file": where.file,
        "sheet": where.sheet,
        "cell": where.cell,
        "question": said.ref or None,
        "household": said.household,
        "date": said.date,
        "by": said.by or None,
        "against": said.against or None,
    })  # fmt: skip


def _lines(values: Mapping[str, str | None]) -> str:
    known = {key: value for key, value in values.items() if value is not None}
    return "".join(f"{key} = {_string(value)}\n" for key, value in known.items())


def _string(text: str) -> str:
    """A TOML basic string; JSON's escapes are TOML's, but for DEL."""
    clean = text.encode("utf-8", "replace").decode("utf-8")
    return json.dumps(clean, ensure_ascii=False).replace("\x7f", "\\u007f")


def together(before: Iterable[Decision], after: Iterable[Decision]) -> tuple[Decision, ...]:
    """Answering again replaces, question by question; what isn't answered again stays."""
    new = tuple(after)
    refs = {decision.ref for decision in new}
    return (*(decision for decision in before if decision.ref not in refs), *new)
