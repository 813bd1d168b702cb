"""The faces of a set: who letters which line, and whose letter a number of the plate is."""

from collections.abc import Callable
from dataclasses import replace

from addressing.preflight.hands import HandLines
from addressing.preflight.letters import Letter, Letters, face_data
from addressing.preflight.lines import DrawnLine, Lines
from addressing.preflight.spelling import LIVE, OUTLINED
from addressing.preflight.values import Objection
from addressing.records.pages import FACE, Setting, faces_of, hand_of
from addressing.records.pieces import Role
from addressing.records.plates import BASE, PlateOrder
from addressing.records.set_lines import SetLine
from addressing.records.shelf import Face


class Faces:
    """Every face of a set, opened by the judge itself."""

    def __init__(self, setting: Setting, order: PlateOrder, *, beside: bool = False) -> None:
        """Open the faces; of the lines on the plate of one ink the letters are noted.

        `beside` is whether a base shares its file with inks: then its letters have numbers of their
        own.

        Raises:
            Objection: a face can't be read, or was changed.
        """
        faces = faces_of(setting.hands)
        self._letters = tuple(Letters(face, face_data(face)) for face in faces)
        self.faces = faces
        self.spelling = LIVE if order.live else OUTLINED
        numbers = {face.drawing: number for number, face in enumerate(faces)}
        self._above = above = BASE if beside and order.chokes else 0
        self._lines: dict[tuple[bool, Face], Lines] = {}

        def lines(noted: bool, face: Face) -> Lines:  # noqa: FBT001 - half of a key
            if (noted, face) not in self._lines:
                number = numbers[face.drawing]
                first = above + number * FACE
                opened = Lines(face, self._letters[number], first, self.spelling)
                self._lines[noted, face] = opened
            return self._lines[noted, face]

        hands = {}
        for role, face in ((Role.NAME, setting.hands[0]), (Role.STREET, setting.hands[-1])):
            noted = order.bears(setting, role)
            if (noted, face) not in hands:
                others = [(each, lines(noted, each.face)) for each in face.fallbacks]
                hands[noted, face] = HandLines(face, lines(noted, face), others)
        self._first, *_, self._last = *hands.values(), *hands.values()
        self._setting, self._order, self._numbers = setting, order, numbers
        self._opened = lines
        self._closer: dict[tuple[int, int], HandLines] = {}

    @property
    def count(self) -> int:
        """How many faces there are."""
        return len(self._letters)

    @property
    def used(self) -> frozenset[int]:
        """Every glyph that was asked for so far in the plate's ink, as a plate numbers it."""
        return frozenset().union(
            *(lines.used for (noted, _), lines in self._lines.items() if noted)
        )

    @property
    def known(self) -> int:
        """How many those are, each counted once for each hand that asked for it."""
        return sum([lines.known for (noted, _), lines in self._lines.items() if noted])

    def line(self, line: SetLine) -> DrawnLine:
        """What a plate must draw for a line, by the hand that letters its role."""
        if line.tighter:
            return self._tightened(line)
        if self._last is self._first or not hand_of(line.role):
            return self._first.line(line.text)
        return self._last.line(line.text)

    def by_role(self) -> dict[Role, Callable[[str], DrawnLine]]:
        """The same for words by their role, where letters stand no closer than the hand's."""
        return {role: (self._last if hand_of(role) else self._first).line for role in Role}

    def _tightened(self, line: SetLine) -> DrawnLine:
        """A line whose letters stand closer than its hand's."""
        second = hand_of(line.role) if self._last is not self._first else 0
        known = self._closer.get((second, line.tighter))
        if known is None:
            face = self._setting.hands[second % len(self._setting.hands)]
            noted = self._order.bears(self._setting, line.role)
            near = replace(face, tracking=face.tracking - line.tighter)
            others = [(each, self._opened(noted, each.face)) for each in face.fallbacks]
            known = HandLines(near, self._opened(noted, near), others)
            self._closer[second, line.tighter] = known
        return known.line(line.text)

    def has(self, number: int) -> bool:
        """True for the number of a letter of its own: not that of a base beside, or of its inks."""
        return (number >= BASE) == bool(self._above)

    def letter(self, number: int) -> Letter:
        """The letter that a plate's number means.

        Raises:
            Objection: there is no such face, or it has no such letter.
        """
        return self._of(number).letter((number - self._above) % FACE)

    def stands_for(self, number: int, marks: str) -> bool:
        """True for a number that means one of these characters, as the face draws it unasked."""
        return (number - self._above) % FACE in self._of(number).glyphs_of(marks)

    def face_of(self, number: int) -> int:
        """Which face of the set a plate's number means."""
        return (number - self._above) // FACE

    def opened(self, face: int) -> Letters:
        """All letters of a face, by its number in the set."""
        return self._letters[face]

    def units_of(self, face: int) -> int:
        """How many units make an em of a face, by its number in the set."""
        return self._letters[face].units_per_em

    def as_drawn(self, number: int, letter: Letter) -> None:
        """Take a letter of a base with what it covers there, once that was judged.

        Lines are placed by the whole letter's bounds, in the base as in the ink upon it.
        """
        self._of(number).known((number - self._above) % FACE, letter)

    def units_per_em(self, number: int) -> int:
        """How many units of that letter's font make an em."""
        return self._of(number).units_per_em

    def variable(self, number: int) -> bool:
        """Whether that letter's face stands at a place on axes."""
        return self._of(number).variable

    def _of(self, number: int) -> Letters:
        face = self.face_of(number)
        if not 0 <= face < len(self._letters):
            raise Objection(
                f"The plate holds letter {number}, of a face that the set doesn't have."
            )
        return self._letters[face]
