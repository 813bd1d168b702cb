"""What can't be set as it is, and what was set otherwise: the findings of typesetting."""

import unicodedata
from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import NamedTuple

from fontTools.unicodedata import script_name

from addressing.records.findings import Finding, Severity
from addressing.records.pages import hand_of
from addressing.records.pieces import Line, Piece, Role, household_of
from addressing.records.shelf import CAPITALS, Face
from addressing.typesetting.measuring import Gauge, Part
from addressing.typesetting.taking import worded
from addressing.units import pt_to_mm
from addressing.where import Where

SHOWN = 3
"""So many of the letters that a face lacks for a line are named."""


def cells_of(piece: Piece, line: Line | None = None) -> tuple[Where, tuple[Where, ...]]:
    """The first cell of a line, and its others; of the piece's first cited line if it has none."""
    lines = [*([line] if line is not None else []), *piece.wordings[0].lines]
    cells = next((one.cells for one in lines if one.cells), (Where(piece.name),))
    return cells[0], cells[1:]


def points(size: float) -> str:
    """A size as a designer writes it.

    >>> points(24.0), points(21.25)
    ('24 pt', '21.25 pt')
    """
    return f"{size:.2f}".rstrip("0").rstrip(".") + " pt"


def millimetres(length: float) -> str:
    """A length in points, said in millimetres."""
    return f"{pt_to_mm(length):.1f}".removesuffix(".0") + " mm"


def glyph_missing(piece: Piece, line: Line, lost: Sequence[str], face: Face) -> Finding:
    """A line holds characters that this face would print as nothing."""
    more = [f"{len(lost) - SHOWN} more"] if len(lost) > SHOWN else []
    *first, last = [*map(_named, lost[:SHOWN]), *more]
    names = f"{', '.join(first)} and {last}" if first else last
    where, also = cells_of(piece, line)
    return Finding(
        Severity.STOP,
        "glyph-missing",
        where,
        f"{face.family} has no {names} for “{line.text}” ({piece.name}).",
        "Choose a face that has it, or name one that steps in for such words ([fallback] in the"
        " docket), or ask the client for another spelling; delete a character that can't be seen.",
        _whose(piece),
        also=also,
        quoted=_word(line, lost),
    )


def _named(character: str) -> str:
    """A character with its name in Unicode, by which one is found that can't be seen."""
    name = unicodedata.name(character, f"U+{ord(character):04X}")
    return f"“{character}” ({name})" if character.isprintable() else name


def _word(line: Line, lost: Sequence[str]) -> str:
    """The first word of a line that holds one of some characters."""
    return next((word for word in line.text.split() if set(lost) & set(word)), line.text)


class Helped(NamedTuple):
    """Words of a line that another face sets for a hand's own."""

    source: int
    hand: int
    script: str
    words: str
    own: Face
    other: Face
    share: float = 1.0
    """Its size as a part of the line's."""


def in_other_faces(piece: Piece, wording: int, helped: Sequence[Helped]) -> Iterator[Finding]:
    """What of a piece is set in another face than the set; nothing when all is in the set's."""
    helped = [one for one in helped if one.own.family != one.other.family]
    if not helped:
        return
    said = []
    for _, group in groupby(helped, lambda one: (one.script, one.own, one.other)):
        several = list(group)
        words = " and ".join(dict.fromkeys(f"“{one.words}”" for one in several))
        first = several[0]
        verb = "is" if len({one.words for one in several}) == 1 else "are"
        size = f" at {first.share:.0%} of the line's size".replace("%", " %")
        beside = size if first.share != 1 else ""
        said.append(f"{words} {verb} set in {first.other.family}{beside}: {_lack(first)}.")
    where, also = cells_of(piece, piece.wordings[wording].lines[helped[0].source])
    yield Finding(
        Severity.NOTE,
        "face-stepped-in",
        where,
        " ".join(said),
        "Nothing needs doing if you like how it looks on the proof; else name another face, or a"
        " size, under [fallback] in the docket.",
        _whose(piece),
        also=also,
        quoted=helped[0].words,
    )


def _lack(helped: Helped) -> str:
    """Why another face sets some words."""
    if helped.script == CAPITALS:
        return f"words all in capitals read badly in {helped.own.family}"
    if helped.script in _OF_MANY:
        return f"{helped.own.family} lacks a letter of it"
    return f"{helped.own.family} has no {script_name(helped.script)}"


_OF_MANY = frozenset({"Latn", "Zyyy"})
"""Scripts of which every face has something: Latin, and what belongs to no script."""


def nothing_to_set(piece: Piece) -> Finding:
    """The preferred wording of a piece holds no words."""
    where, also = cells_of(piece)
    return Finding(
        Severity.STOP,
        "name-missing",
        where,
        f"There is nothing to print on the {piece.kind} piece of {piece.name}.",
        "Put a name in the list.",
        _whose(piece),
        also=also,
    )


def mixed_direction(piece: Piece, line: Line) -> Finding:
    """A line holds a mark that turns its direction."""
    where, also = cells_of(piece, line)
    return Finding(
        Severity.ASK,
        "mixed-direction",
        where,
        f"“{line.text}” holds an invisible mark that turns the direction of its words"
        f" ({piece.name}).",
        "Delete the mark: words of both directions are set in their right order without it.",
        _whose(piece),
        holds=True,
        also=also,
    )


def reason(piece: Piece, gauge: Gauge, size: float) -> tuple[Line, str]:
    """Why the preferred wording does not stand whole at a size: the line to blame, and a clause."""
    lines = piece.wordings[0].lines
    parts = worded(piece, 0, gauge)
    limits = [gauge.width_limit(part, number) for number, part in enumerate(parts)]
    number = limits.index(min(limits))
    text, source, hand = parts[number]
    left, _, right, _ = gauge.ink(text, hand)
    indent = number * gauge.arrangement.indent * size
    room = gauge.arrangement.column(gauge.room) - indent
    width = (right - left) * size
    own = size * gauge.hands[hand].ratio
    if width > room:
        behind = f" behind {millimetres(indent)} of indent" if indent else ""
        return lines[source], (
            f"“{text}” is {millimetres(width)} wide at {points(own)}, the room is"
            f" {millimetres(room)}{behind}"
        )
    return lines[source], (
        f"{len(parts)} lines are too tall at {points(size)} for a room of"
        f" {millimetres(gauge.room.height)}"
    )


def heavy(broken: Sequence[str], parts: Sequence[Part], gauge: Gauge, size: float) -> str:
    """Why a line of names is broken although it fits: a sentence with both widths.

    Of a line that stands alone the other width is the room's.
    """
    widths = {}
    for text, _, hand in parts:
        left, _, right, _ = gauge.ink(text, hand)
        widths[text] = (right - left) * size
    wide = max((widths.get(text, 0.0) for text in broken), default=0.0)
    rest = max((width for text, width in widths.items() if text not in broken), default=0.0)
    beside = f"the widest line below it {millimetres(rest)}"
    if not rest:
        beside = f"the room {millimetres(gauge.arrangement.column(gauge.room))}"
    return f"Line broken for balance: “{broken[0]}” is {millimetres(wide)} wide, {beside}."


def stepped(piece: Piece, line: Line, why: str, *, seen: bool = False) -> Finding:
    """One piece is set smaller than the set; `why` is the sentence that says it.

    `seen` where it is so much smaller that the eye sees it.
    """
    where, also = cells_of(piece, line)
    mend = "Nothing needs doing; a shorter line would bring it to the size of the rest."
    if seen:
        mend = (
            "It will be seen beside the others: look at the proof. A shorter line, or one broken in"
            " words of your own ([[words]] in the docket), brings it nearer to them."
        )
    return Finding(
        Severity.NOTE,
        "size-stepped",
        where,
        why,
        mend,
        _whose(piece),
        also=also,
    )


def too_large(
    piece: Piece, gauge: Gauge, size: float, helps: float | None, alone: float | None
) -> Finding:
    """Nothing permitted fits.

    `helps` is the size for the whole set that would, `alone` that for this piece, if there is one.
    """
    line, clause = reason(piece, gauge, size)
    where, also = cells_of(piece, line)
    wide = " wide at " in clause
    helping = [f"set the whole set at {points(helps)} (size in the docket)"] if helps else []
    if alone:
        helping.append(f"let this one be set at {points(alone)} (smallest in the docket)")
    helping += _ways_out(piece, line, gauge, size) if wide else ["choose a higher layout"]
    advice = "; or ".join([*helping, "choose a narrower face"])
    return Finding(
        Severity.STOP,
        "line-too-wide" if wide else "block-too-tall",
        where,
        f"{clause[0].upper()}{clause[1:]}, and no permitted line break, closer letters or smaller"
        " size fits.",
        f"{advice[0].upper()}{advice[1:]}.",
        _whose(piece),
        also=also,
    )


def _ways_out(piece: Piece, line: Line, gauge: Gauge, size: float) -> list[str]:
    """What would bring a line into the room, with numbers: a break, short forms, a wider layout."""
    hand = hand_of(line.role) if gauge.several else 0
    left, _, right, _ = gauge.ink(line.text, hand)
    width = (right - left) * size
    ways = []
    if line.role is Role.NAME:
        blanks = [at for at, letter in enumerate(line.text) if letter == " "]
        middle = len(line.text) / 2
        at = min(blanks, key=lambda blank: (abs(blank - middle), blank), default=None)
        if at is not None and piece.household is not None:
            begin = line.text[at + 1 :].split(" ")[0]
            ways.append(f"break it before “{begin}” in words of your own ([[words]] in the docket)")
        else:
            ways.append("shorten the line")
    else:
        ways.append('abbreviate it (style = "postal" in the docket)')
    return [*ways, f"choose a layout whose zone is {millimetres(width)} wide"]


def _whose(piece: Piece) -> str | None:
    return household_of(piece.household) if piece.household is not None else None
