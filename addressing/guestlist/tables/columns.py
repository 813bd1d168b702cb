"""Decides what each column of a table means: by the docket, its header, or its cells."""

from collections.abc import Iterable, Mapping, Sequence

from addressing.guestlist.grid import Column, Grid, Row
from addressing.guestlist.tables.by_cells import settle_by_cells
from addressing.guestlist.tables.claims import (
    Draft,
    ask_contents,
    ask_neighbours,
    ask_sentences,
    claim,
    settle_claims,
    settle_kinds,
)
from addressing.guestlist.tables.contents import figures, leading, votes, words_a_cell
from addressing.guestlist.tables.meanings import Hit
from addressing.guestlist.tables.numbered import settle_counts
from addressing.guestlist.tables.parties import settle_parties
from addressing.guestlist.tables.title_codes import ask_titles
from addressing.records.findings import Finding, Severity
from addressing.where import Where, column_letters

_CLASHES = {
    "postcode": {"street", "address", "name", "email", "region"},
    "region": {"street", "address", "postcode", "email"},
    "city": {"street", "address", "postcode", "email"},
    "street": {"postcode", "region", "email", "place"},
    "name": {"street", "address", "postcode", "region", "email"},
    "given": {"street", "address", "postcode", "email"},
    "family": {"street", "address", "postcode", "email"},
    "address": {"postcode", "region", "email"},
}
_PEOPLE_OR_PLACES = frozenset({"name", "street", "address", "place"})
_WORTH_TELLING = frozenset(
    {"name", "title", "suffix", "street", "address", "place", "postcode", "region", "word"}
)


def read_columns(
    grid: Grid,
    header_row: int,
    headers: Sequence[str],
    rows: Sequence[Row],
    pins: Mapping[str, Hit],
) -> tuple[tuple[Column, ...], tuple[Finding, ...]]:
    """The columns of a table that have a header or cells, and what is doubtful about them.

    `headers` has one text for each column from A; `header_row` is 0 where there is none.
    """
    width = max([len(headers), *(len(row.cells) for row in rows)], default=0)
    drafts = [
        Draft(
            index,
            headers[index] if index < len(headers) else "",
            votes(rows, index),
            words_a_cell(rows, index),
            figures(rows, index),
        )
        for index in range(width)
    ]
    drafts = [draft for draft in drafts if draft.header or draft.filled]
    for draft in drafts:
        claim(draft, pins)
    settle_by_cells(drafts, rows)
    settle_kinds(drafts)
    settle_counts(drafts, rows)
    settle_parties(drafts, rows)
    losers = settle_claims(drafts)
    ask_contents(drafts, losers)
    ask_titles(drafts, rows)
    if not header_row:
        ask_neighbours(drafts)
    ask_sentences(drafts, losers)
    columns = tuple(_column(grid, draft) for draft in drafts)
    return columns, tuple(_findings(grid, header_row, drafts, losers))


def _column(grid: Grid, draft: Draft) -> Column:
    return Column(
        draft.index,
        grid.letters_of(draft.index),
        draft.header,
        draft.hit.meaning if draft.hit else None,
        draft.how,
        draft.index in grid.hidden_columns,
        draft.hit.ordinal if draft.hit else 1,
        draft.hit.also if draft.hit else "",
    )


def _findings(
    grid: Grid, header_row: int, drafts: list[Draft], losers: list[tuple[Draft, Draft]]
) -> Iterable[Finding]:
    lost = {id(loser) for loser, _ in losers}
    unknown = [
        d
        for d in drafts
        if d.hit is None and id(d) not in lost and _WORTH_TELLING & d.shares.keys()
    ]
    if unknown:
        yield _unknown(grid, header_row, unknown)
    for loser, winner in losers:
        if loser.filled:
            yield _twice(grid, header_row, loser, winner)
    for draft in drafts:
        clash = _clash(draft)
        if clash and not (clash == "place" and any(map(_holds_towns, drafts))):
            yield _disagrees(grid, header_row, draft, clash)


def _clash(draft: Draft) -> str | None:
    """What a column plainly holds although its header says another thing."""
    if draft.hit is None or draft.how != "header":
        return None
    kind = leading(draft.shares)
    return kind if kind in _CLASHES.get(draft.hit.meaning, set()) else None


def _holds_towns(draft: Draft) -> bool:
    """True for a column of towns that says so: "1301 Broadway" beside it is no town."""
    towns = draft.hit is not None and draft.hit.meaning in ("city", "place")
    return towns and draft.filled


def _where(grid: Grid, header_row: int, draft: Draft) -> Where:
    return Where(grid.file, grid.sheet, f"{grid.letters_of(draft.index)}{max(header_row, 1)}")


def _call(draft: Draft) -> str:
    letters = column_letters(draft.index + 1)
    return f"“{draft.header}” ({letters})" if draft.header else f"column {letters}"


def _unknown(grid: Grid, header_row: int, drafts: list[Draft]) -> Finding:
    places = [_where(grid, header_row, draft) for draft in drafts]
    names = ", ".join(_call(draft) for draft in drafts)
    telling = any(leading(draft.shares) in _PEOPLE_OR_PLACES for draft in drafts)
    return Finding(
        Severity.ASK if telling else Severity.NOTE,
        "column-unknown",
        places[0],
        f"Not used, because their headers say nothing that is known: {names}.",
        "If one matters, name it in the docket under [columns]; else leave it.",
        also=tuple(places[1:]),
    )


def _twice(grid: Grid, header_row: int, loser: Draft, winner: Draft) -> Finding:
    return Finding(
        Severity.ASK,
        "column-doubtful",
        _where(grid, header_row, loser),
        f"{_call(winner)} and {_call(loser)} seem to hold the same thing; the first is used.",
        "If the other one is right, name both in the docket under [columns].",
        also=(_where(grid, header_row, winner),),
        quoted=loser.header or f"column {column_letters(loser.index + 1)}",
    )


def _disagrees(grid: Grid, header_row: int, draft: Draft, kind: str) -> Finding:
    holds = {
        "street": "streets",
        "address": "whole addresses",
        "postcode": "ZIP codes",
        "region": "states",
        "name": "names",
        "email": "e-mail addresses",
        "place": "towns with their ZIP",
    }
    return Finding(
        Severity.ASK,
        "column-doubtful",
        _where(grid, header_row, draft),
        f"{_call(draft)} holds mostly {holds[kind]}, which its header doesn't say.",
        "If the columns are shifted, mend the header; or name the column in the docket.",
        quoted=draft.header or f"column {column_letters(draft.index + 1)}",
    )
