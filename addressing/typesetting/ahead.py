"""All lines of a large set shaped at once, half of them by a second process.

Only a store is filled that would be filled anyway line by line, so nothing else knows of it.
"""

from collections.abc import Iterable

from addressing.hands import Hand
from addressing.typesetting.typeface import LINES_PACKED, Typeface

WORTH = 3000
"""Lines from which a second process pays (measured: it costs about 10 ms, a line 0.02)."""


OWN = 0.53
"""The part that this process shapes: the other has its answers to hand over as well."""


def shape_ahead(typeface: Typeface, texts: Iterable[str]) -> None:
    """Shape lines that will be measured soon; the typeface keeps them.

    Raises:
        Fault: the second process ended (exit 70).
    """
    fresh = typeface.unknown(texts)[:LINES_PACKED]
    if len(fresh) < WORTH:
        return  # each is shaped when it is asked for
    half = int(len(fresh) * OWN)
    with Hand(lambda: [tuple(typeface.packed(text)) for text in fresh[half:]]) as other:
        for text in fresh[:half]:
            typeface.packed(text)
        typeface.keep(fresh[half:], other.answer())
