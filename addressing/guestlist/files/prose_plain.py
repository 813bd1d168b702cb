"""What may stand around names and an address in a sentence that says nothing else."""

import re

from addressing.guestlist.files.mail_lines import has_verb
from addressing.guestlist.files.prose_words import is_one_of, prose_words
from addressing.guestlist.folding import fold

_LONGEST_ASIDE = 4
"""Words between commas that only say something of those who are named."""
_LONGEST_LEAD = 6
"""Words."""
_MARKS = re.compile(r"[,;:!.–—]+|\s-+(?=\s|$)|^-+\s")
_DASH = re.compile(r"\s*[-–—]+\s")


def quiet(gap: str) -> list[str] | None:
    """The asides between names and address; None where more is said than that they live there."""
    parts = _MARKS.split(gap)
    said = [part.strip() for part in parts if part.strip() and not is_one_of("lives", part)]
    ends = {part.strip() for part in (parts[0], parts[-1])}  # no marks on both sides
    return said if all(part not in ends and _is_aside(part) for part in said) else None


def leads(lead: str) -> bool:
    """True for what may stand before names: nothing, a label, whose or what they are.

    A lone word before a comma may be the family name: "Orr, Mr. and Mrs. Kit".
    """
    said = lead.strip()
    bare = said.rstrip(" ,:;-–—")
    spoken = bare.split()
    if not spoken:
        return True
    small = all(word[:1].islower() for word in spoken[1:])
    if not small or len(spoken) > _LONGEST_LEAD or has_verb(bare) or denies(bare):
        return False
    owned = [word for word in fold(bare).split() if word not in ("and", "oh", "also")][:1]
    whose = not prose_words("of").isdisjoint(owned) or "'s" in bare or "’s" in bare
    return whose or said[-1] in ":-–—" or (said[-1] == "," and len(spoken) > 1)


def remark(tail: str) -> list[str] | None:
    """What is said behind a dash behind an address; None for a sentence that goes on otherwise."""
    if not re.search(r"\w", tail):
        return []
    return [tail.strip(" -–—.")] if _DASH.match(tail) else None


def denies(text: str) -> bool:
    """True where a "no", a "late" or a "photographer" stands in a text: it isn't plain then."""
    return not prose_words("denial").isdisjoint(fold(text).split())


def _is_aside(part: str) -> bool:
    said = part.split()
    plain = all(word[:1].islower() for word in said) and not has_verb(part)
    return plain and len(said) <= _LONGEST_ASIDE and not denies(part)
