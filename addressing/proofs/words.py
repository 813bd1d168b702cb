"""How things are called on the sheets: dates, kinds, numbers, the proof's own mark."""

import hashlib
from datetime import date

from babel.dates import format_date

from addressing.records.proofs import ProofJob
from addressing.records.shelf import Layout
from addressing.units import pt_to_mm

MARK_LENGTH = 12
"""Hexadecimal digits of the proof's mark: 48 bits."""


def mark(job: ProofJob) -> str:
    """The proof's mark: it changes when a byte of the list or of the docket changes.

    In groups of four digits, as people read it out.
    """
    both = f"{job.list_sha256}\n{job.docket_sha256 or ''}\n"
    digest = hashlib.sha256(both.encode()).hexdigest()[:MARK_LENGTH]
    return " ".join(digest[start : start + 4] for start in range(0, MARK_LENGTH, 4))


def long_date(text: str, country: str) -> str:
    """An ISO 8601 date as a letter would write it; anything else as it stands.

    >>> long_date("2025-03-10", "US"), long_date("2025-03-10", "GB"), long_date("in May", "US")
    ('March 10, 2025', '10 March 2025', 'in May')
    """
    try:
        day = date.fromisoformat(text)
    except ValueError:
        return text
    return format_date(day, "long", locale="en_US" if country == "US" else "en_GB")


def kind_name(kind: str) -> str:
    """A kind of piece, to begin a line with.

    >>> kind_name("place-card")
    'Place card'
    """
    return kind.replace("-", " ").capitalize()


def many(number: int, one: str, more: str | None = None) -> str:
    """A number with its noun.

    >>> many(1, "household"), many(0, "copy", "copies")
    ('1 household', '0 copies')
    """
    return f"{number:,} {one if number == 1 else more or one + 's'}"


def size_of(layout: Layout) -> str:
    """The envelope's size in inches and millimetres."""
    sides = (layout.width, layout.height)
    inches = " × ".join(f"{side / 72:.2f}".rstrip("0").rstrip(".") for side in sides)
    mm = " × ".join(f"{pt_to_mm(side):.1f}".removesuffix(".0") for side in sides)
    return f"{inches} in. ({mm} mm)"
