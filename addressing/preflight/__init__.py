"""The judge: re-reads a plate with other libraries and proves it right, by allow-list.

In: a file, the order, the setting and the worded pieces. Out: a verdict that counts what was read.
Shares no module with the rooms that set and write; shapes the expected words again itself.
"""

from addressing.preflight.judge import judge_plate
from addressing.preflight.seals import bears_seal
from addressing.preflight.sequence import judge_sequence
from addressing.preflight.together import judge_orders, judge_type

__all__ = ["bears_seal", "judge_orders", "judge_plate", "judge_sequence", "judge_type"]
