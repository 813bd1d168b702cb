"""What the shelf can do for words that a face lacks letters of, said in the findings."""

from collections.abc import Iterable
from dataclasses import replace

from addressing.faults import Fault
from addressing.materials.coverage import lacking
from addressing.materials.shelf import Shelf
from addressing.records.findings import Finding

FOUR = 4
"""Faces that are named; more would be a list and no advice."""


def with_help(findings: Iterable[Finding], shelf: Shelf) -> tuple[Finding, ...]:
    """The findings of a job's sets, each lost letter with the faces that have it.

    A household whose inner envelope has words in another face as its outer has is told once.
    """
    told: dict[str | None, list[str]] = {}
    kept = []
    for found in findings:
        if found.code == "glyph-missing":
            kept.append(replace(found, mend=_mend(found, shelf)))
        elif found.code == "face-stepped-in":
            before = told.setdefault(found.household, [])
            if not any(_says(other, found) for other in before):
                kept.append(found)
                before.append(found.text)
        else:
            kept.append(found)
    return tuple(kept)


def _says(before: str, found: Finding) -> bool:
    """True when a sentence told what another tells, of as many words or more."""
    return found.quoted in before and found.text.partition("” ")[2] in before


def _mend(found: Finding, shelf: Shelf) -> str:
    """Which faces on the shelf have all letters of the words that can't be set."""
    able = [key for key in shelf.faces() if _can_set(shelf, key, found.quoted)]
    if not able:
        return (
            f"No face on the shelf can set “{found.quoted}”: put a font that can into the folder"
            " fonts beside the docket and name it under [fallback] in the docket, or ask the"
            " client for another spelling; delete a character that can't be seen."
        )
    named = ", ".join(able[:FOUR]) + (" and others" if len(able) > FOUR else "")
    return (
        f"“{found.quoted}” can be set in {named}: name one under [fallback] in the docket, choose"
        " it for all, or ask the client for another spelling."
    )


def _can_set(shelf: Shelf, key: str, words: str) -> bool:
    try:
        return not lacking(shelf.face(key), words)
    except Fault:  # a font that can't be used helps nobody
        return False
