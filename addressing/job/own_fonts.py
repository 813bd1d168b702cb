"""The words of a list tried in a user's own fonts, before they are set in them."""

from collections.abc import Iterable, Sequence

from addressing.job.lettering import faces_for
from addressing.materials.font_trial import try_face
from addressing.materials.shelf import Shelf
from addressing.records.docket import Docket
from addressing.records.pieces import Piece
from addressing.records.shelf import Face


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
        faces = faces_for(choice, shelf, docket)
        hands = (faces,) if isinstance(faces, Face) else faces
        for face in (*hands, *(other.face for hand in hands for other in hand.fallbacks)):
            if face.key in own:
                texts.setdefault(face, {}).update(lines)
    for face, several in texts.items():
        try_face(face, tuple(several))


def _lines(pieces: Iterable[Piece]) -> dict[str, None]:
    """The lines of all wordings, each once."""
    return dict.fromkeys(
        line.text for piece in pieces for wording in piece.wordings for line in wording.lines
    )
