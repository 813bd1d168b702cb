"""The words of a list tried in a user's own fonts, before they are set in them."""

from collections.abc import Iterable, Sequence
from pathlib import Path

from addressing.faults import Fault
from addressing.job.lettering import faces_for
from addressing.materials.faces import FONT_SUFFIXES
from addressing.materials.font_trial import letters_lacking, try_face
from addressing.materials.shelf import Shelf
from addressing.records.docket import Docket
from addressing.records.pieces import Piece, Role
from addressing.records.shelf import Face

LETTERS = 8
"""So many of the letters that a refused font lacks are named."""

REFUSED = frozenset({"face-damaged", "face-restricted"})


def try_own_faces(pieces: Sequence[Piece], docket: Docket, shelf: Shelf) -> None:
    """Have every line set in the user's own faces that may set it, in a process of its own.

    Raises:
        Fault: exit 3; a face can't be used, or these words can't be set in it.
    """
    own = shelf.own_faces()
    if not own:
        return
    texts: dict[Face, dict[str, None]] = {}
    for kind in docket.make:
        choice = docket.piece(kind)
        lines = _lines(piece for piece in pieces if piece.kind == kind)
        if choice is None or not lines:
            continue
        try:
            faces = faces_for(choice, shelf, docket)
        except Fault as fault:
            own_pieces = [piece for piece in pieces if piece.kind == kind]
            raise with_lacking(fault, own_pieces) from fault
        hands = (faces,) if isinstance(faces, Face) else faces
        for face in (*hands, *(other.face for hand in hands for other in hand.fallbacks)):
            if face.key in own:
                texts.setdefault(face, {}).update(lines)
    for face, several in texts.items():
        try_face(face, tuple(several))


def with_lacking(fault: Fault, pieces: Iterable[Piece]) -> Fault:
    """The refusal of a font, with the names that it couldn't set even if it were mended.

    Nobody wants to ask a foundry for a licence, and find then that the font has no “ø”.
    """
    names = [
        line.text for piece in pieces for line in piece.wordings[0].lines if line.role is Role.NAME
    ]
    lost = refused_letters(fault, "".join(dict.fromkeys("".join(names))))
    unset = list(dict.fromkeys(name for name in names if set(lost) & set(name)))
    if not unset:
        return fault
    more = f" and {len(unset) - 1} more of these names" if len(unset) > 1 else ""
    letters = " ".join(lost[:LETTERS]) + (" …" if len(lost) > LETTERS else "")
    besides = f"Besides, it lacks {letters}: “{unset[0]}”{more} couldn't be set in it."
    if len(unset) == len(set(names)):
        besides = f"None of these {len(unset)} names could be set in it: it lacks {letters}."
    text = f"{fault.text} {besides}"
    return Fault(fault.exit, fault.code, text, fault.mend, fault.where)


def refused_letters(fault: Fault, letters: str) -> tuple[str, ...]:
    """Which letters a refused font lacks; () where it can't be read, or no font was refused."""
    path = Path(fault.where.file) if fault.where is not None else Path()
    if fault.code not in REFUSED or path.suffix.casefold() not in FONT_SUFFIXES:
        return ()
    return letters_lacking(path, letters)


def _lines(pieces: Iterable[Piece]) -> dict[str, None]:
    """The lines of all wordings, each once."""
    return dict.fromkeys(
        line.text for piece in pieces for wording in piece.wordings for line in wording.lines
    )
