"""The faces of a set: who letters which line, and whose letter a number of the plate is."""

from addressing.preflight.hands import HandLines
from addressing.preflight.letters import Letter, Letters, face_data
from addressing.preflight.lines import DrawnLine, Lines
from addressing.preflight.values import Objection
from addressing.records.pages import FACE, SetLine, Setting, faces_of, hand_of
from addressing.records.shelf import Face


class Faces:
    """Every face of a set, opened by the judge itself."""

    def __init__(self, setting: Setting) -> None:
        """Open the faces.

        Raises:
            Objection: a face can't be read, or was changed.
        """
        faces = faces_of(setting.hands)
        self._letters = tuple(Letters(face, face_data(face)) for face in faces)
        numbers = {face.drawing: number for number, face in enumerate(faces)}
        self._lines: dict[Face, Lines] = {}

        def lines(face: Face) -> Lines:
            if face not in self._lines:
                number = numbers[face.drawing]
                self._lines[face] = Lines(face, self._letters[number], number * FACE)
            return self._lines[face]

        hands = [
            HandLines(face, lines(face), [(each, lines(each.face)) for each in face.fallbacks])
            for face in setting.hands
        ]
        self._first, self._last = hands[0], hands[-1]

    @property
    def used(self) -> frozenset[int]:
        """Every glyph with ink that was asked for so far, as a plate numbers it."""
        return frozenset().union(*(lines.used for lines in self._lines.values()))

    def line(self, line: SetLine) -> DrawnLine:
        """What a plate must draw for a line, by the hand that letters its role."""
        if self._last is self._first or not hand_of(line.role):
            return self._first.line(line.text)
        return self._last.line(line.text)

    def letter(self, number: int) -> Letter:
        """The letter that a plate's number means.

        Raises:
            Objection: there is no such face, or it has no such letter.
        """
        return self._of(number).letter(number % FACE)

    def variable(self, number: int) -> bool:
        """Whether that letter's face stands at a place on axes."""
        return self._of(number).variable

    def _of(self, number: int) -> Letters:
        if not 0 <= number // FACE < len(self._letters):
            raise Objection(
                f"The plate holds letter {number}, of a face that the set doesn't have."
            )
        return self._letters[number // FACE]
