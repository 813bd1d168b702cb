"""How things are called on the sheets: dates, kinds, numbers, the proof's own mark."""

import hashlib
from datetime import date

from babel.dates import format_date

from addressing.records.pages import Varnish
from addressing.records.proofs import SEAL, ProofJob
from addressing.units import PT_PER_INCH, pt_to_mm

MARK_LENGTH = 12
"""Hexadecimal digits of the proof's mark: 48 bits."""
LETTER_COUNTRIES = frozenset({"US", "CA"})
"""Where US Letter and inches are the custom."""
EIGHTHS = ("", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞")


VARNISHED = {"all": "every line", "names": "the names", "address": "the address"}


def varnished(varnish: Varnish) -> str:
    """What is varnished: "Spot Varnish over the names"."""
    return f"{varnish.ink.key} over {VARNISHED[varnish.over]}"


def mark(job: ProofJob) -> str:
    """The proof's mark: it changes when a byte of the list or of the docket changes.

    In groups of four digits, as people read it out.
    """
    both = f"{job.list_sha256}\n{job.docket_sha256 or ''}\n"
    digest = hashlib.sha256(both.encode()).hexdigest()[:MARK_LENGTH]
    return " ".join(digest[start : start + 4] for start in range(0, MARK_LENGTH, 4))


def foot(job: ProofJob) -> str:
    """The foot of each sheet of a proof: its number, the seal of its plates, a word of caution."""
    seal = () if job.seal is None else (f"seal of the plates {SEAL}",)
    parts = (f"Proof no. {mark(job)}", *seal, "names and home addresses: for this job only")
    return "   ·   ".join(parts)


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


def size_words(width: float, height: float, country: str) -> str:
    """A size, given in points: inches and millimetres where inches are the custom, else mm."""
    sides = (width, height)
    mm = " × ".join(f"{pt_to_mm(side):.2f}".rstrip("0").rstrip(".") for side in sides) + " mm"
    if country not in LETTER_COUNTRIES:
        return mm
    return " × ".join(inches(side) for side in sides) + f" in. ({mm})"


def inches(points: float) -> str:
    """A length in inches, as rulers divide them where it falls on an eighth.

    >>> inches(369.0), inches(36.0), inches(360.0), inches(100.0)
    ('5⅛', '½', '5', '1.39')
    """
    eighths = points / PT_PER_INCH * 8
    if abs(eighths - round(eighths)) > 0.02:  # noqa: PLR2004 - 0.0025 in: no ruler shows it
        return f"{points / PT_PER_INCH:.2f}"
    whole, rest = divmod(round(eighths), 8)
    return (str(whole) if whole or not rest else "") + EIGHTHS[rest]


def times(number: int) -> str:
    """How often, in words.

    >>> times(1), times(2), times(3)
    ('once', 'twice', '3 times')
    """
    return {1: "once", 2: "twice"}.get(number, f"{number} times")
