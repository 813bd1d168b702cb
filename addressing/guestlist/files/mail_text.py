"""What is gathered from a mail: households, lines not used, what is told, what a heading says."""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from addressing.guestlist.files.blocks import NAME, NOTES, STREETS, Slots
from addressing.guestlist.files.each_own import own_households, says_each
from addressing.guestlist.files.line_ends import goes_on, parted
from addressing.guestlist.files.listed_twice import names_of
from addressing.guestlist.files.mail_lines import GREETING, SENTENCE, Line, has_verb, is_aside
from addressing.guestlist.files.mentions import mentions
from addressing.guestlist.files.place_headings import give_place, place_after
from addressing.guestlist.files.prose import homes_in
from addressing.guestlist.files.prose_words import prose_words
from addressing.guestlist.files.running import is_prose, sentences
from addressing.guestlist.files.small_talk import NOTHING, says_nothing
from addressing.guestlist.files.title_headings import (
    HEADING_SLOT,
    TITLES,
    Titling,
    give_titles,
    titling_after,
    titling_of,
)
from addressing.guestlist.folding import fold

NOT_READ = "no household could be read in it"
HEADING = "a heading"
SIDE = ("side", 1)
SENDER_SLOT = ("sender", 1)
SIGNATURE = "the signature of a mail"
_UNREAD = (NOT_READ, SENTENCE)
_FAMILY = re.compile(r"\b[Tt]he\s+[^\W\d_a-z]")
OWN = (GREETING, "the head of a mail", "the opening of a quoted mail", SIGNATURE)


@dataclass(slots=True)
class Text:
    """What is gathered from a text."""

    households: list[tuple[int, Slots]] = field(default_factory=list)
    unused: list[tuple[Line, str]] = field(default_factory=list)
    lines: int = 0
    told: list[tuple[Line, ...]] = field(default_factory=list)
    """Running text by paragraphs, a line for each sentence."""
    overheard: list[Line] = field(default_factory=list)
    """Headings, and remarks in a household's lines."""
    reigns: list[tuple[int, Line | None]] = field(default_factory=list)
    """From which line on a heading says that what follows is out or in doubt; None: none does."""
    sides: list[Line] = field(default_factory=list)
    """Headings that only say whose guests follow."""
    titling: Titling | None = None
    """The titles that words above give to those who follow."""
    place: Line | None = None
    """The town that a sentence above gives to those who follow."""
    each: tuple[Line, ...] = ()
    """Sentences just above that give each of those below them an envelope."""

    sender: Line | None = None
    """The first line of the sender's own block, where one stands far below the closing."""

    @property
    def used(self) -> int:
        """How many lines belong to households."""
        return sum(
            1 + len(line.more)
            for _, slots in self.households
            for slot, held in slots.items()
            if slot not in (NOTES, SIDE, TITLES, HEADING_SLOT, SENDER_SLOT)
            for line in held
        )

    @property
    def greets(self) -> bool:
        """True for a text with a head, a greeting or a signature: a mail."""
        return any(why in OWN for _, why in self.unused)

    def leave(self, lines: Iterable[Line], why: str) -> None:
        """List lines as not used."""
        self.unused.extend(
            (line, NOTHING if why in _UNREAD and says_nothing(line.text) else why) for line in lines
        )

    def heading_over(self, number: int) -> Line | None:
        """The heading that says that who stands on a line is out."""
        return next((line for at, line in reversed(self.reigns) if at <= number), None)

    def tell(self, lines: Sequence[Line], above: Line | None = None) -> None:
        """Read running text and keep it; what it says under a heading is no longer of that.

        `above` is the household's line just above, with which the text may go on.
        """
        paragraph = tuple(sentences(lines))
        homes = [home for home in homes_in(paragraph) if not self._lists(*home)]
        used = {part.number for said, _ in homes for part in (said, *said.more)}
        self.leave((line for line in _each(lines) if line.number not in used), NOT_READ)
        told = tuple(said for said in paragraph if titling_of(said) is None)
        below = above is not None and told and goes_on(told[0].text)
        each = any(says_each(said.text) for said in told)
        parts = [told] if each or is_prose(lines) else list(parted(told))
        if above is not None and below:
            parts[0] = (above, *parts[0])
        self.told += parts
        self.each = ()
        self.reigns.append((lines[0].number, None))
        for _, slots in homes:
            self.take(slots[NAME][0].number, slots)
        self.titling = titling_after(self.titling, paragraph)
        if not lines[0].opens:
            self.place = place_after(paragraph)
        self.each = told if each else ()

    def _lists(self, said: Line, slots: Slots) -> bool:
        """True for those who are listed already, where no address is given, or they moved to it."""
        own = names_of(slots)
        listed = sum(own <= names_of(home) for _, home in self.households)
        moved = listed == 1 and any(
            f" {word} " in f" {fold(said.text)} " for word in prose_words("moved")
        )
        return moved or (listed > 0 and STREETS[0] not in slots)

    def take(self, number: int, slots: Slots) -> None:
        """A household, with the heading that says that it is out."""
        notes = (line for line in slots.get(NOTES, ()) if has_verb(line.text))
        self.overheard += [line for line in notes if not _is_of_own(line.text)]
        over = self.heading_over(number)
        if over is not None:
            slots.setdefault(NOTES, []).append(over)
        side = next((line for line in reversed(self.sides) if line.number < number), None)
        if side is not None:
            slots[SIDE] = [side]
        if self.sender is not None:
            slots[SENDER_SLOT] = [self.sender]
        if self.titling is not None:
            give_titles(self.titling, slots)
            self.titling = self.titling.after_one()
        if self.place is not None:
            give_place(self.place, slots)
        parts = own_households(self.each, slots)
        self.households += [(part[NAME][0].number, part) for part in parts] or [(number, slots)]
        if parts:
            self.told = [said for said in self.told if said is not self.each]
        self.each = ()


def _is_of_own(text: str) -> bool:
    """True for brackets among a household's lines that name nobody in full: they speak of it."""
    inner = text.strip("()[] ")
    named = any(each.sure for each in mentions(inner)) or _FAMILY.search(inner) is not None
    return is_aside(text) and not named


def _each(lines: Sequence[Line]) -> Iterator[Line]:
    return (part for line in lines for part in (line, *line.more))
