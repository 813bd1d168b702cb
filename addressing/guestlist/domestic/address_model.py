"""A US address as the trained model reads it: the second voice beside the rules.

Its words are those of the row, each with its cell; what it takes for a remark is no part of it.
"""

from collections.abc import Callable
from dataclasses import dataclass

from addressing.guestlist.domestic.address_tagger import FIELDS, Tagged, tag
from addressing.guestlist.domestic.address_tokens import Token
from addressing.guestlist.folding import fold
from addressing.guestlist.places.countries import country_code
from addressing.guestlist.places.places import fold_town, state_code
from addressing.guestlist.written import Written
from addressing.records.guests import Address, Cited
from addressing.where import Where

_FIXED = {"city": "city", "region": "state", "postcode": "zip"}
"""Columns of their own to the model's fields."""


@dataclass(frozen=True, slots=True)
class Voice:
    """A reading and how sure it is: the least probability that a word is in the field it is in.

    `parts` are the words (a floor, a department, a lockbox) that may as well stand in a line of
    their own. They are in the address's unit.
    """

    address: Address
    remarks: tuple[str, ...]
    sure: float
    parts: str = ""


@dataclass(frozen=True, slots=True)
class _Piece:
    """A stretch of the text that was laid: from one cell or line, or a column of its own."""

    start: int
    stop: int
    cells: tuple[Where, ...]
    field: str | None


@dataclass(frozen=True, slots=True)
class _Word:
    """A word with its field, as settled by label and column."""

    token: Token
    label: str
    field: str
    cells: tuple[Where, ...]


def listen(written: Written, tagged: Callable[[str, frozenset[str]], Tagged] = tag) -> Voice | None:
    """The model's reading of an address; None where there is no text for it to read."""
    if not written.lines:
        return None
    text, pieces = _laid(written)
    found = tagged(text, FIELDS if pieces[-1].field else frozenset())
    words, sure = _settled(found, pieces, written)
    of: dict[str, list[list[_Word]]] = {}
    for run in _runs(words):
        of.setdefault(run[0].field, []).append(run)
    parts = [word for word in words if word.field == "part"]
    address = Address(
        street=_lines(of.get("street", [])),
        unit=_joined(_units(words), ", ", written.unit),
        recipient_extra=_joined(of.get("extra", []), "\n", written.extra),
        city=written.city if _one_town(written) else _joined(of.get("city", []), " "),
        region=_state(written.region or _joined(of.get("state", []), " ")),
        postcode=written.postcode or _joined(of.get("zip", []), " "),
        country=written.country,
        unit_word=written.unit_word,
    )
    remarks = tuple(_say(run) for run in of.get("remark", []))
    return Voice(address, remarks, sure, " ".join(word.token.text for word in parts))


def _one_town(written: Written) -> bool:
    return written.city is not None


def _state(cited: Cited | None) -> Cited | None:
    return Cited(state_code(cited.text) or cited.text, cited.cells) if cited else None


def _laid(written: Written) -> tuple[str, tuple[_Piece, ...]]:
    """The street lines, then town, state and ZIP of columns of their own behind a line feed."""
    text = ""
    pieces: list[_Piece] = []
    given = ((getattr(written, name), field) for name, field in _FIXED.items())
    columns = [(cited, field) for cited, field in given if cited is not None]
    for i, (cited, field) in enumerate([*((line, None) for line in written.lines), *columns]):
        if i:
            first = field is None or columns[0][0] is cited
            text += "\n" if first else " " if field == "zip" else ", "
        pieces.append(_Piece(len(text), len(text) + len(cited.text), cited.cells, field))
        text += cited.text
    return text, tuple(pieces)


def _settled(
    found: Tagged, pieces: tuple[_Piece, ...], written: Written
) -> tuple[list[_Word], float]:
    """The words of the street lines with their fields, and the least of their probabilities.

    A field that has a column of its own is no answer for a word elsewhere, unless it repeats it.
    """
    fixed = {piece.field for piece in pieces} - {None}
    words: list[_Word] = []
    sure = 1.0
    at = 0
    repeats = _repeats(found, written, pieces)
    for place, (token, label) in enumerate(zip(found.tokens, found.labels, strict=True)):
        while token.start >= pieces[at].stop and at + 1 < len(pieces):
            at += 1
        if pieces[at].field is not None or place in repeats:
            continue
        share = {field: p for field, p in found.shares[place].items() if field not in fixed}
        whole = (sum(share.values()) or 1.0) if fixed else 1.0
        field = label.partition(".")[0]
        if field in fixed:
            field = max(share, key=lambda name: share[name])
        joint = share.get("unit", 0) + share.get("part", 0) if field in ("unit", "part") else 0
        sure = min(sure, max(share[field], joint) / whole)
        if field == "country" and country_code(token.text) not in (None, "US"):
            field = "extra"
        words.append(_Word(token, label, field, pieces[at].cells))
    return words, sure


def _repeats(found: Tagged, written: Written, pieces: tuple[_Piece, ...]) -> frozenset[int]:
    """Words of the street lines that only say again what a column says."""
    stop = max(piece.stop for piece in pieces if piece.field is None)
    said: dict[str, list[int]] = {}
    for place, (token, label) in enumerate(zip(found.tokens, found.labels, strict=True)):
        if token.start < stop:
            said.setdefault(label.partition(".")[0], []).append(place)
    again: set[int] = set()
    for name, field in _FIXED.items():
        column = getattr(written, name)
        words = " ".join(found.tokens[place].text for place in said.get(field, ()))
        if column is not None and words and _same(field, words, column.text):
            again.update(said[field])
    return frozenset(again)


def _same(field: str, one: str, other: str) -> bool:
    if field == "city":
        return fold_town(one) == fold_town(other)
    codes = state_code(one), state_code(other)
    return fold(one) == fold(other) or (field == "state" and codes[0] == codes[1] is not None)


def _runs(words: list[_Word]) -> list[list[_Word]]:
    """Neighbouring words of one field; a line feed parts them."""
    found: list[list[_Word]] = []
    for word in words:
        if found and found[-1][-1].field == word.field and word.token.gap != "\n":
            found[-1].append(word)
        else:
            found.append([word])
    return found


def _units(words: list[_Word]) -> list[list[_Word]]:
    """Units and parts (a floor, a department) in the order that they are written."""
    found: list[list[_Word]] = []
    before = False
    for word in words:
        mine = word.field in ("unit", "part")
        if mine and before and word.token.gap not in ("\n", ","):
            found[-1].append(word)
        elif mine:
            found.append([word])
        before = mine
    return found


def _say(run: list[_Word]) -> str:
    return " ".join(word.token.text for word in run)


def _cells(words: list[_Word]) -> tuple[Where, ...]:
    return tuple(dict.fromkeys(cell for word in words for cell in word.cells))


def _lines(runs: list[list[_Word]]) -> Cited | None:
    """Streets: one line each; a direction behind a comma belongs to the street before it."""
    if not runs:
        return None
    text = ""
    for i, run in enumerate(runs):
        for j, word in enumerate(run):
            new = (i and not j) or (
                word.token.gap == "," and word.label in ("street.number", "street.box")
            )
            text += ("\n" if new else " ") * bool(text) + word.token.text
    return Cited(text, _cells([word for run in runs for word in run]))


def _joined(runs: list[list[_Word]], mark: str, own: Cited | None = None) -> Cited | None:
    """The runs as one text; a column of its own comes first."""
    if not runs:
        return own
    text = mark.join(_marked(run, mark) for run in runs)
    cells = _cells([word for run in runs for word in run])
    if own is not None:
        return Cited(f"{own.text}{mark}{text}", tuple(dict.fromkeys((*own.cells, *cells))))
    return Cited(text, cells)


def _marked(run: list[_Word], mark: str) -> str:
    """The words of a run; where a comma stood between two, so does the mark."""
    text = ""
    for word in run:
        gap = mark if word.token.gap in (",", "-") else " "
        text += gap * bool(text) + word.token.text
    return text
