"""Ctrl-C put off for the few moments in which it would leave something behind."""

import contextlib
import signal
import threading
from collections.abc import Iterator
from types import FrameType  # noqa: TC003 - one line is plainer than a guard


@contextlib.contextmanager
def uninterrupted() -> Iterator[None]:
    """Put Ctrl-C off until the work inside is done; then it comes, if it came.

    Python hands signals to the main thread alone; in another there is nothing to put off.
    """
    before = signal.getsignal(signal.SIGINT)
    if threading.current_thread() is not threading.main_thread() or not callable(before):
        yield
        return
    came: list[tuple[int, FrameType | None]] = []
    signal.signal(signal.SIGINT, lambda number, frame: came.append((number, frame)))
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
        if came:
            before(*came[0])
