"""A problem that stops the program: raised anywhere, turned into words and a number at the edge.

A problem with the client's list is no Fault but a Finding (records/findings.py).
"""

from enum import IntEnum

from addressing.where import Where


class Exit(IntEnum):
    """What the command's exit code means (the contract with scripts)."""

    DONE = 0
    HELD = 1
    """Done, but some households were held back."""
    OPTIONS = 2
    INPUT = 3
    """List, docket, layout or face is missing, unreadable, empty, or names something unknown."""
    WRITE = 4
    PREFLIGHT = 5
    """A plate failed its proof: nothing got its final name."""
    INTERNAL = 70
    INTERRUPTED = 130


class Fault(Exception):
    """What stopped the work, where, and how to mend it: four separate fields.

    The sentence is put together only where it is shown.
    """

    def __init__(
        self, exit_code: Exit, code: str, text: str, mend: str, where: Where | None = None
    ) -> None:
        """`code` is a stable word for programs; `text` and `mend` are whole sentences."""
        super().__init__(text)
        self.exit = exit_code
        self.code = code
        self.text = text
        self.mend = mend
        self.where = where

    def __reduce__(self) -> tuple[type["Fault"], tuple[object, ...]]:
        """Faults cross from a worker process to the main one."""
        return (Fault, (self.exit, self.code, self.text, self.mend, self.where))
