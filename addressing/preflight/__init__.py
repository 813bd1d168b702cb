"""The judge: re-reads a plate with other libraries and proves it right, by allow-list.

In: a file, the order, the setting and the worded pieces. Out: a verdict that counts what was read.
Shares no module with the rooms that set and write; shapes the expected words again itself.
"""

from addressing.preflight.judge import judge_plate
from addressing.preflight.proofed import Drawn, Envelope, Unread, read_proof
from addressing.preflight.seals import bears_seal, blank_digest, words_of
from addressing.preflight.sequence import judge_sequence
from addressing.preflight.together import judge_orders, judge_type

__all__ = [
    "Drawn",
    "Envelope",
    "Unread",
    "bears_seal",
    "blank_digest",
    "judge_orders",
    "judge_plate",
    "judge_sequence",
    "judge_type",
    "read_proof",
    "words_of",
]
