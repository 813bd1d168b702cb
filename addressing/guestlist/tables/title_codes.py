"""Letters of the client's own in a column of titles: what "MM", "W", "D" mean, only they know."""

from collections.abc import Iterable, Iterator, Sequence

from addressing.guestlist.grid import Column, Row
from addressing.guestlist.people.names import known_title
from addressing.guestlist.tables.claims import NAMES, Draft
from addressing.guestlist.tables.meanings import Hit
from addressing.tables import lookup, table

_LONGEST = 3
"""Letters of a code."""
_LEAST = 2
"""Cells of a column that its header doesn't tell."""
_MOSTLY = 0.8
_FRENCH = frozenset(("mme", "mlle", "mmes", "mlles"))
"""Beside these MM is what the French write for several gentlemen."""


def code_of(text: str) -> str:
    """A cell as the table writes a code: small letters, no blanks, no points.

    >>> code_of("M & M."), code_of("MM")
    ('m&m', 'mm')
    """
    return "".join(text.casefold().replace(".", "").split())


def title_codes(columns: Sequence[Column], rows: Sequence[Row]) -> frozenset[str]:
    """The codes that stand in the columns of titles; none where each cell is a title as written.

    A list that has one of nobody's titles ("W") has others too: its M is no Monsieur then.
    """
    places = [column.index for column in columns if column.meaning == "title"]
    found = {code_of(text) for text in _texts(rows, places)}
    if not any(_own().get(code) == "yes" for code in found) or not _FRENCH.isdisjoint(found):
        return frozenset()
    return frozenset(code for code in found if code in _own() or _is_short(code))


def ask_titles(drafts: Sequence[Draft], rows: Sequence[Row]) -> None:
    """A column beside names that holds hardly anything but codes and titles is one of titles."""
    meanings = {draft.hit.meaning for draft in drafts if draft.hit}
    if "title" in meanings or not meanings & NAMES:
        return
    for draft in drafts:
        texts = list(_texts(rows, [draft.index])) if draft.hit is None else []
        told = sum(map(_is_told, texts)) >= len(texts) * _MOSTLY
        if len(texts) >= _LEAST and told and any(map(_is_strong, texts)):
            draft.take(Hit("title"), "content")
            return


def likely_titles(text: str) -> tuple[str, ...]:
    """What a code may mean, the likeliest first; nothing for one that isn't in the table.

    >>> likely_titles("W")
    ('Mrs.', 'Ms.')
    """
    said = lookup("title_codes", "code", "likely").get(code_of(text), "")
    return tuple(said.split("|")) if said else ()


def _texts(rows: Iterable[Row], places: Sequence[int]) -> Iterator[str]:
    cells = (row.cell(at) for row in rows for at in places)
    return (cell.text for cell in cells if cell is not None and cell.filled and cell.text)


def _is_short(code: str) -> bool:
    """True for letters in no table: a title that is known is itself ("Dr", "Rev", "Lt")."""
    return len(code) <= _LONGEST and code.isalpha() and known_title(code.capitalize()) is None


def _is_told(text: str) -> bool:
    return code_of(text) in _own() or known_title(text) is not None


def _is_strong(text: str) -> bool:
    strong = {row["code"] for row in table("title_codes") if row["strong"]}
    return code_of(text) in strong


def _own() -> dict[str, str]:
    return lookup("title_codes", "code", "own")
