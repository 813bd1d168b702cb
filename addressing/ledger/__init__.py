"""What is on paper already: each print by household and piece, with a fingerprint of what it shows.

In: plates that were printed, pages that were spoiled. Out: what is still good, what is due, what is
wrong by now. One SQLite file beside the job; it never makes a plate and never reads a list.
"""

from addressing.ledger.book import LEDGER, Ledger, open_ledger
from addressing.ledger.comparing import GONE, compare, difference, used_up
from addressing.ledger.fingerprint import fingerprint

__all__ = [
    "GONE",
    "LEDGER",
    "Ledger",
    "compare",
    "difference",
    "fingerprint",
    "open_ledger",
    "used_up",
]
