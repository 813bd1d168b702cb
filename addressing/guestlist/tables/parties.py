"""A list of one row a guest, in the client's own shorthand.

Which numbers are one envelope's, which letters say "adult", "kid", "guest", is told by the cells:
headers such as "env" and "kind" tell nobody.
"""

from collections.abc import Collection, Iterator, Mapping, Sequence

from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Row
from addressing.guestlist.people.age_groups import age_group
from addressing.guestlist.people.vocabulary import row_words
from addressing.guestlist.tables.claims import ADDRESSES, Draft
from addressing.guestlist.tables.meanings import Hit, signs
from addressing.guestlist.tables.meanings import fold as fold_header
from addressing.guestlist.tables.numbered import numbers_in

_MOSTLY = 0.9
"""The part of the cells, or of the numbers, that must bear out what a column is taken for."""
_FEWEST = 2
"""Numbers that several rows share, at least."""
_AGES = frozenset({"age", "ages"})
_MAYBE_AGES = (None, "children", "name", "extra")
"""What a header may say over such cells: "A/C" is "in care of" in Portuguese."""
_OF_PEOPLE = frozenset({"given", "family", "name"})


def settle_parties(drafts: Sequence[Draft], rows: Sequence[Row]) -> None:
    """Give such columns their meaning, where their headers say none or what the cells gainsay."""
    if not _OF_PEOPLE & {draft.hit.meaning for draft in drafts if draft.hit}:
        return
    for draft in drafts:
        if draft.how == "docket" or not draft.filled:
            continue
        meaning = draft.hit.meaning if draft.hit else None
        bare = fold_header(draft.header) in signs("number-sign")
        if (
            (meaning is None or (meaning == "ignore" and bare))
            and _one_address_each(draft, drafts, rows)
        ) or (meaning == "outer" and _calls_parties(draft, drafts, rows)):
            draft.take(Hit("household"), "content")
        elif meaning in _MAYBE_AGES and _tells_age(rows, draft.index):
            draft.take(Hit("age_group"), "content")
    if any(draft.hit and draft.hit.meaning == "household" for draft in drafts):
        _settle_ages(drafts, rows)


def _settle_ages(drafts: Sequence[Draft], rows: Sequence[Row]) -> None:
    """Take "Kid? (age)" over numbers for a guest's age: of a party's guests each has a row."""
    for draft in drafts:
        children = draft.hit is not None and draft.hit.meaning == "children"
        asked = not _AGES.isdisjoint(fold_header(draft.header).split())
        if not children or draft.how == "docket" or not asked:
            continue
        cells = [cell for row in rows if (cell := row.cell(draft.index)) and cell.filled]
        if cells and all(cell.text.strip().isdecimal() for cell in cells):
            draft.take(Hit("age"), "content")


def _one_address_each(draft: Draft, drafts: Sequence[Draft], rows: Sequence[Row]) -> bool:
    """True for numbers of which several rows have the same, and those rows no two addresses.

    So are no numbers of tables, which sit families together, and no counts of guests.
    """
    numbers = numbers_in(rows, draft.index)
    placed = [other.index for other in drafts if other.hit and other.hit.meaning in ADDRESSES]
    if not placed:
        return False
    shared = [texts for texts in _addresses(rows, numbers, placed) if len(texts) > 1]
    if len(shared) < _FEWEST:
        return False
    alike = [len({text for text in texts if text}) == 1 for texts in shared]
    return sum(alike) >= _MOSTLY * len(alike)


def _calls_parties(draft: Draft, drafts: Sequence[Draft], rows: Sequence[Row]) -> bool:
    """True for "Envelope" over "Hartleys" and "Dee + Marco", the same on the rows of each of them.

    What should stand on an envelope ("Mr. and Mrs. Colin Hartley") names somebody whole.
    """
    given, family = (_index_of(own, drafts) for own in (("given", "name"), ("family",)))
    if given is None or family is None:
        return False
    guests: dict[str, set[str]] = {}
    whole = 0
    for row in rows:
        cell, first, last = (row.cell(at) for at in (draft.index, given, family))
        if cell is None or not cell.filled or first is None or not first.filled:
            continue
        guests.setdefault(fold(cell.text), set()).add(fold(first.text))
        whole += bool(last and last.filled) and _names_whole(cell.text, last.text if last else "")
    shared = [names for names in guests.values() if len(names) > 1]
    return len(shared) >= _FEWEST and whole < (1 - _MOSTLY) * sum(map(len, guests.values()))


def _index_of(meanings: Collection[str], drafts: Sequence[Draft]) -> int | None:
    held = ((draft.index, draft.hit) for draft in drafts if draft.hit is not None)
    return next((at for at, hit in held if hit.meaning in meanings and hit.ordinal == 1), None)


def _names_whole(text: str, family: str) -> bool:
    """True for a family name with something before it; "Reyes fam" has nothing."""
    said, own = fold(text).split(), fold(family).split()[:1]
    return bool(own) and own[0] in said[1:]


def _addresses(
    rows: Sequence[Row], numbers: Mapping[int, tuple[str, ...]], placed: Sequence[int]
) -> Iterator[list[str]]:
    """For each number what its rows have in the columns of addresses; "" for dittos and blanks."""
    found: dict[str, list[str]] = {}
    for row in rows:
        if len(own := numbers.get(row.number, ())) == 1:
            cells = [cell.text for at in placed if (cell := row.cell(at)) and cell.filled]
            said = [text for text in cells if text.strip("\"'”“〃,. -–—")]
            same = not said or fold(said[0]) in row_words("above")
            found.setdefault(own[0], []).append("" if same else fold(" ".join(said)))
    yield from found.values()


def _tells_age(rows: Sequence[Row], index: int) -> bool:
    """True for cells of letters or words for adults and for children or companions, no names."""
    cells = [cell for row in rows if (cell := row.cell(index)) is not None and cell.filled]
    groups = [age_group(cell.text)[0] for cell in cells]
    known = [group for group in groups if group]
    return len(set(known)) > 1 and "adult" in known and len(known) >= _MOSTLY * len(groups)
