"""Prints: what is on paper, what should be, and the difference."""

from dataclasses import dataclass

PARTS = ("words", "face", "size and place", "ink and layout", "kind of type")
"""What a fingerprint is made of, in order; its parts are parted by points. The last one is there
for live type alone, which prints lighter than outlines."""

PLACED = "size and place"
"""The part that says nothing of what the envelope says."""

STATES = ("printed", "handed over", "spoiled", "destroyed")
"""What became of a print: on the pile, given to the client or the post, ruined, or taken out."""

ON_PAPER = ("printed", "handed over")
"""The states in which somebody may still receive it."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """A piece as it should be on paper; `print` is its fingerprint."""

    kind: str
    ink: str
    household: str
    name: str
    print: str


@dataclass(frozen=True, slots=True)
class Printing:
    """One run: a plate (by path and SHA-256) that was printed on a day (ISO 8601, None unsaid).

    `press` is the device or shop, `stock` the paper, `layout` the envelope or card, by their keys,
    `size` the set's (pt); None where nobody said. `opens` and `closes` are the places, in the order
    of print, of what is on the file's first and last page: turned where it goes from the last of
    its pile to the first; None where a page bears several cards, or an older ledger doesn't say.
    """

    plate: str
    sha256: str
    date: str | None = None
    press: str | None = None
    stock: str | None = None
    layout: str | None = None
    size: float | None = None
    opens: int | None = None
    closes: int | None = None


Tried = frozenset[tuple[str | None, str, str | None, str | None]]
"""What was on paper before: (device or shop, ink by its name on the plate, paper, layout)."""


@dataclass(frozen=True, slots=True)
class Print:
    """A piece that is on paper.

    `page` is its place in the order of print, from 1, as a person counts the stack: within the
    plate that was printed in `run`, or, where the job is printed in batches, on through all of
    them, as the slips do. It is no page of a file. `size` is that
    of its set (pt), None where an older ledger doesn't say.
    """

    run: int
    page: int
    wanted: Wanted
    state: str
    date: str | None
    size: float | None = None


@dataclass(frozen=True, slots=True)
class LedgerNoted:
    """What is kept of a folder's ledger elsewhere: how many prints, its state by each change."""

    prints: int = 0
    history: tuple[str, ...] = ()


NOTHING_NOTED = LedgerNoted()
"""Of a ledger that was never changed."""
NEW = "new"
"""Why something is due that no print was ever made of."""


@dataclass(frozen=True, slots=True)
class Due:
    """A piece that isn't on paper as it should be, and why."""

    wanted: Wanted
    why: str


@dataclass(frozen=True, slots=True)
class Copies:
    """What is the same for all, by its copies: how many were printed, spoiled, are needed."""

    kind: str
    printed: int
    spoiled: int
    needed: int

    @property
    def left(self) -> int:
        """How many are good."""
        return max(0, self.printed - self.spoiled)

    @property
    def lacking(self) -> int:
        """How many more must be printed."""
        return max(0, self.needed - self.left)


@dataclass(frozen=True, slots=True)
class Balance:
    """The ledger held against a job: what is good, what is due, which prints are wrong by now."""

    good: tuple[Print, ...]
    due: tuple[Due, ...]
    wrong: tuple[tuple[Print, str], ...]
    """Prints to be destroyed, each with the reason; most tell of a guest (`TELLS`)."""
    others: tuple[tuple[str, int], ...] = ()
    """(kind, prints) of what is on paper and the docket doesn't make: neither right nor wrong."""
    for_all: tuple[tuple[str, str], ...] = ()
    """(kind, what changed since its plate was made) of what is the same for all, which isn't
    counted."""
    copies: tuple[Copies, ...] = ()
    """What is the same for all and had copies spoiled."""
    moved: tuple[Print, ...] = ()
    """Prints with the right words in the right face and ink that would only be set in another size
    or place now, and of which no new one is on paper: due, and yet not wrong."""

    @property
    def is_strange(self) -> bool:
        """True when nothing on paper is of a piece, ink and household that the job prints.

        Then the inks of all of them were changed, or the ledger is another job's.
        """
        return bool(self.wrong) and not self.good and all(due.why == NEW for due in self.due)
