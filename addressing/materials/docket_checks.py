"""Choices of a docket that don't go together."""

from collections import Counter
from collections.abc import Iterator

from addressing.materials.docket_entries import DocketFile
from addressing.materials.reading import Problem
from addressing.materials.sheeting import sheet_problems
from addressing.records.docket import PieceChoice
from addressing.records.pieces import CARDS, ENVELOPES

_TAKEN = frozenset((*ENVELOPES, *CARDS))


def docket_problems(entry: DocketFile, pieces: tuple[PieceChoice, ...]) -> list[Problem]:
    """What can't be although each choice by itself may be.

    `pieces` are the choices after the defaults were put in; each problem has the key it stands at.
    """
    problems = []
    if entry.device is not None and entry.shop is not None:
        mend = "leave one out: a job is printed on a device or at a shop."
        problems.append(Problem(("shop",), "there is a [device] too.", mend))
    for kind, times in Counter(entry.pieces.make).items():
        if times > 1:
            mend = "name each piece once."
            problems.append(Problem(("pieces", "make"), f'"{kind}" is there twice.', mend))
    problems += sheet_problems(entry.sheet, [choice.kind for choice in pieces])
    kinds = [each.kind for each in entry.piece]
    for at, kind in enumerate(kinds):
        if kind in kinds[:at]:
            mend = "put both into one [[piece]]."
            problems.append(Problem(("piece", at, "kind"), f'"{kind}" is there twice.', mend))
    for choice in pieces:
        if choice.smallest > choice.largest and choice.kind in kinds:
            key = ("piece", kinds.index(choice.kind))
            text = f"smallest ({choice.smallest:g}) is more than largest ({choice.largest:g})."
            problems.append(Problem(key, text, "change one of them."))
    return [*problems, *_suite_problems(entry)]


def _suite_problems(entry: DocketFile) -> Iterator[Problem]:
    """Names of the suite that mean something else, or twice the same: all is counted by name."""
    before: set[tuple[str, frozenset[str]]] = set()
    for at, piece in enumerate(entry.suite):
        key, name = ("suite", at, "name"), piece.name.casefold()
        if name in _TAKEN or name.startswith("stamp, "):
            text = f'"{piece.name}" is the name of a piece with its own plates or count.'
            yield Problem(key, text, 'call it otherwise: "reply card", "inner card".')
        whose = (name, frozenset(map(str.casefold, piece.only)))
        if whose in before:
            mend = "write count = 2 where there are two, or give it another name."
            yield Problem(key, f'"{piece.name}" is there twice for the same guests.', mend)
        before.add(whose)
