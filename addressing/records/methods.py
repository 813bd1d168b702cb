"""Ways of printing: what each can carry."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Method:
    """A way of printing. `varies` is False where one plate or die prints all of a run.

    `stroke` and `gap` are the finest line and the narrowest space that hold as a rule, in points.
    `instead` says what to do where names differ.
    """

    key: str
    title: str
    varies: bool
    die: bool
    stroke: float
    gap: float
    instead: str = ""
