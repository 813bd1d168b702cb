"""Questions become matters: what a list holds many times over is one question with a table."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import cache

from addressing.questions.kinds import choice_of
from addressing.records.questions import Choice, Matter, Question
from addressing.tables import table

ALL = "all"
"""How the ref of a table begins: `all:title-missing:title`."""
GROUPS = ("Who gets an envelope", "Names", "Addresses", "Style", "Your list")
"""The headings, in their order."""

_Key = tuple[str, str]


@cache
def _rows() -> Mapping[_Key, Mapping[str, str]]:
    return {(row["code"], row["kind"]): row for row in table("matters")}


def matters_of(questions: Sequence[Question]) -> tuple[Matter, ...]:
    """The questions as the client meets them, numbered under their headings.

    Each question is in exactly one matter.
    """
    tables: dict[_Key, list[Question]] = {}
    for question in questions:
        tables.setdefault(_key(question), []).append(question)
    made: list[Matter] = []
    for key, alike in tables.items():
        row = _rows().get(key)
        if row is not None and len(alike) >= int(row["least"]):
            made.append(_table(row, alike))
        else:
            made.extend(_alone(question) for question in alike)
    ordered = sorted(made, key=lambda matter: (GROUPS.index(matter.group), bool(matter.table)))
    return tuple(replace(matter, number=number) for number, matter in enumerate(ordered, start=1))


def matter_ref(question: Question) -> str:
    """The ref of the table that a question would stand in, if there were enough of them."""
    return ":".join((ALL, *_key(question)))


def choices_of(ref: str) -> tuple[Choice, ...]:
    """What can be said of all in a table, by its ref; nothing for an unknown one."""
    code, _, kind = ref.partition(":")[2].partition(":")
    row = _rows().get((code, kind))
    return _choices(row["answers"]) if row is not None else ()


def _key(question: Question) -> _Key:
    """Code and kind, where the question is about one thing only; else no table's key."""
    codes = {found.code for found in question.covers}
    return (next(iter(codes)), question.kind) if len(codes) == 1 else ("", question.kind)


def _alone(question: Question) -> Matter:
    return Matter(0, question.group, question.ref, question.text, question.choices, (question,))


def _table(row: Mapping[str, str], alike: Sequence[Question]) -> Matter:
    return Matter(
        number=0,
        group=alike[0].group,
        ref=matter_ref(alike[0]),
        text=row["question"].replace("{count}", str(len(alike))),
        choices=_choices(row["answers"]),
        questions=tuple(alike),
        table=row["table"],
        opening=row["opening"],
        own=row["own"] == "yes",
        each=row["each"] == "yes",
    )


def _choices(answers: str) -> tuple[Choice, ...]:
    return tuple(choice_of(part, {}) for part in answers.split("|") if part)
