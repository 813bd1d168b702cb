"""The lines of a set piece against the wording that it was set from, letter for letter."""

from collections.abc import Iterator

from addressing.records.pieces import Line, Piece
from addressing.records.set_lines import SetLine, SetPiece


def is_verbatim(piece: Piece, placed: SetPiece) -> bool:
    """True when every line stands as it was worded, unbroken: then `word_faults` has none."""
    if not 0 <= placed.wording < len(piece.wordings):
        return False
    worded = piece.wordings[placed.wording].lines
    if len(worded) != len(placed.lines):
        return False
    for number, (line, part) in enumerate(zip(worded, placed.lines, strict=True)):
        if part.source != number or part.text != line.text or part.role is not line.role:
            return False
    return True


def word_faults(piece: Piece, placed: SetPiece) -> Iterator[str]:
    """What is missing, added, changed, broken where it may not break, or out of order."""
    if not 0 <= placed.wording < len(piece.wordings):
        yield "is set from a wording that it doesn't have"
        return
    worded = piece.wordings[placed.wording].lines
    if [line.source for line in placed.lines] == list(range(len(worded))):
        groups: list[tuple[SetLine, ...]] = [(line,) for line in placed.lines]
    else:
        groups = [tuple(p for p in placed.lines if p.source == n) for n in range(len(worded))]
        if [line for group in groups for line in group] != list(placed.lines):
            yield "has its lines in another order than they were worded"
            return
    for number, (line, parts) in enumerate(zip(worded, groups, strict=True), start=1):
        if not _is_whole(line, parts):
            yield f"doesn't carry line {number} of its wording letter for letter"


def _is_whole(line: Line, parts: tuple[SetLine, ...]) -> bool:
    """True when the parts are the line, parted only where it may break."""
    if any(part.role is not line.role for part in parts):
        return False
    if len(parts) == 1:
        return parts[0].text == line.text
    at = 0
    for number, part in enumerate(parts):
        if number:
            at += 1
            if at not in line.breaks or line.text[at - 1] != " ":
                return False
        if not part.text or not line.text.startswith(part.text, at):
            return False
        at += len(part.text)
    return bool(parts) and at == len(line.text)
