"""Choices of a docket that don't go together."""

from collections import Counter

from addressing.materials.docket_entries import DocketFile
from addressing.materials.reading import Problem
from addressing.materials.sheeting import sheet_problems
from addressing.records.docket import PieceChoice


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
    return problems
