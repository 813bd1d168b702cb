"""Names that lie near a name that nobody knows, for the mend of a message."""

import difflib
from collections.abc import Iterable

from addressing.faults import Exit, Fault
from addressing.where import Where

NEAR = 0.65
"""How much of two names is alike, at least, for one to be meant by the other (tried on names of the
shelf: "navi" may be navy, and "dark-blue" none of the papers)."""

_PART = 3
"""Letters that a name has at least to be looked for within longer ones."""


def nearest(name: str, known: Iterable[str], most: int = 3) -> tuple[str, ...]:
    """Up to `most` known names like `name`, best first, or with it in them; capitals don't count.

    >>> nearest("A77", ("a7", "a6", "lee")), nearest("toner", ("home-toner", "home-inkjet"))
    (('a7',), ('home-toner',))
    """
    folded = {each.casefold(): each for each in known}
    asked = name.casefold()
    found = difflib.get_close_matches(asked, folded, n=most, cutoff=NEAR)
    found += [each for each in folded if len(asked) >= _PART and asked in each]
    return tuple(folded[each] for each in list(dict.fromkeys(found))[:most])


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
