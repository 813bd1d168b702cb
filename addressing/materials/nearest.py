"""Names that lie near a name that nobody knows, for the mend of a message."""

import difflib
from collections.abc import Iterable

from addressing.faults import Exit, Fault
from addressing.where import Where


def nearest(name: str, known: Iterable[str], most: int = 3) -> tuple[str, ...]:
    """Up to `most` known names like `name`, best first; capitals don't count.

    >>> nearest("A77", ("a7", "a6", "lee"))
    ('a7',)
    """
    folded = {each.casefold(): each for each in known}
    found = difflib.get_close_matches(name.casefold(), folded, n=most, cutoff=0.5)
    return tuple(folded[each] for each in found)


def did_you_mean(name: str, known: Iterable[str]) -> str:
    """A sentence that offers the nearest names, or all of them when none is near."""
    names = tuple(known)
    near = nearest(name, names)
    if near:
        return f"Did you mean {any_of(near)}?"
    return f"Known here: {', '.join(names)}." if names else "There is none here yet."


def any_of(words: Iterable[str]) -> str:
    """Words joined for a sentence.

    >>> any_of(("a6", "a7", "lee"))
    'a6, a7 or lee'
    """
    *head, last = words
    return f"{', '.join(head)} or {last}" if head else last


def unknown(kind: str, name: str, known: Iterable[str], where: Where | None = None) -> Fault:
    """The Fault for a name that isn't on the shelf: `<kind>-unknown`, exit 3."""
    return Fault(
        Exit.INPUT,
        f"{kind}-unknown",
        f'There is no {kind} named "{name}" on the shelf.',
        did_you_mean(name, known),
        where,
    )
