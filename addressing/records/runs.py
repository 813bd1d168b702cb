"""The order in which envelopes are printed: by which rule, in which piles, from which on."""

from dataclasses import dataclass

ORDERS = ("list", "key", "zip")
"""As the list has them; by the households' keys; by country, ZIP and then the list."""


@dataclass(frozen=True, slots=True)
class Standing:
    """What decides a household's place: `abroad` and its postcode, "" where it has none."""

    household: str
    abroad: bool
    postcode: str


@dataclass(frozen=True, slots=True)
class RunOrder:
    """How a job's envelopes are printed; all kinds of pieces go in the same order.

    `order` is one of ORDERS. `load` is how many make a batch, None for no batches. With `reverse`
    each batch is printed from its last to its first, for an exit that turns the stack round.
    `first` is the number, from 1, of the first envelope that is printed. `standings` come as the
    list has the households, whether they wait or not.
    """

    order: str
    load: int | None
    reverse: bool
    first: int
    standings: tuple[Standing, ...]
