"""Households as a list gives them, and the lines of their envelopes."""

import csv
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path

import pytest

from addressing.guestlist import read_list
from addressing.job.styling import styles_for
from addressing.materials.shelf import open_shelf
from addressing.records.docket import Docket, WordingChoices
from addressing.records.pieces import Line
from addressing.wording import word_list

Lines = dict[str, tuple[Line, ...]]


@pytest.fixture
def worded(tmp_path: Path) -> Callable[..., Lines]:
    """The first wording of each piece of a list of one row: kind to lines."""

    def word(
        header: Sequence[str],
        row: Sequence[str],
        choices: WordingChoices = WordingChoices(),  # noqa: B008 - frozen
        make: tuple[str, ...] = ("outer", "inner"),
        docket: Docket = Docket(),  # noqa: B008 - frozen
    ) -> Lines:
        path = tmp_path / "list.csv"
        with path.open("w", encoding="utf-8", newline="") as stream:
            csv.writer(stream, lineterminator="\n").writerows([header, row])
        guest_list, _ = read_list(path, {})
        chosen = replace(docket, wording=choices, make=make)
        pieces = word_list(guest_list, chosen, styles_for(chosen, open_shelf(None)))
        assert len(guest_list.households) == 1
        return {piece.kind: piece.wordings[0].lines for piece in pieces}

    return word
