"""Whether streams are as light as they must be, told of most without packing them again.

How much a stream may weigh is known only by packing what it holds, which takes three times as long
as unpacking it. But the pages of a plate are much alike, and packed with some care they stay well
below: so one is light enough when it is no heavier, for what it holds, than the last that were
weighed might have been. That mark hangs on what pages hold, not on how they are packed.
"""

from collections import deque

from addressing.preflight.container import unpacked, weigh

AT_FIRST, EVERY = 64, 64
"""So many streams are weighed at first, and later one in so many; as many make the mark."""


class Scales:
    """Unpacks streams that are alike, and weighs those that aren't plainly light enough."""

    def __init__(self) -> None:
        """Nothing was weighed yet."""
        self._seen = 0
        self._might: deque[float] = deque(maxlen=AT_FIRST)
        """What those weighed by turn might weigh, as a part of what they hold."""
        self._mark = 0.0
        """The least of that."""

    def unpacked(self, packed: bytes, number: int, length: int) -> bytes:
        """What a stream holds that should be so many bytes long.

        Raises:
            Objection: as for `inflate`.
        """
        plain = unpacked(packed, number, length + 1)
        self._seen += 1
        by_turn = self._seen <= AT_FIRST or self._seen % EVERY == 0
        if by_turn:
            self._might.append(weigh(packed, plain, number) / max(1, len(plain)))
            self._mark = min(self._might)
        elif len(packed) > self._mark * len(plain) or not _in_one_block(packed):
            weigh(packed, plain, number)
        return plain


def _in_one_block(packed: bytes) -> bool:
    """True for deflated data whose first block is the last (RFC 1951, 3.2.3): none is empty."""
    return bool(packed[2] & 1)
