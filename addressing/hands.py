"""A second pair of hands: work done in a process forked off, beside the caller's own.

A fork sees all that its parent has read, so nothing is handed over but the answer. Where a fork
isn't safe (other threads are alive) or isn't to be had, the same work is done here instead, when
its answer is asked for: the answer is the same, only later.
"""

import contextlib
import gc
import os
import pickle
import signal
import threading
from collections.abc import Callable, Iterator
from types import TracebackType
from typing import IO, Generic, Self, TypeVar

from addressing.faults import Exit, Fault
from addressing.interrupt import uninterrupted

Answer = TypeVar("Answer")

SEVERAL = hasattr(os, "fork") and (os.cpu_count() or 1) > 1
"""Whether this machine can do two things at once; set it to False to have all work done here."""


class Hand(Generic[Answer]):
    """Work begun in a second process. Use as a context: on leaving, the process is gone.

    The answer must be something that pickle takes.
    """

    def __init__(self, work: Callable[[], Answer], *, worth: bool = True) -> None:
        """`worth` tells whether the work is large enough for a process of its own."""
        self._work = work
        self._worth = worth
        self._process = 0
        self._pipe = -1
        self._life = -1

    def __enter__(self) -> Self:
        """Begin, if there is a hand free."""
        if self._worth and SEVERAL and threading.active_count() == 1:
            try:
                with uninterrupted():  # in the callbacks behind a fork Python would drop it
                    self._fork()
            except BaseException:
                self._stop()
                raise
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Stop what is still at work, whatever happened; nothing is left behind."""
        self._stop()

    def _stop(self) -> None:
        if self._process:
            with contextlib.suppress(ProcessLookupError):
                os.kill(self._process, signal.SIGKILL)
            self._wait()

    def answer(self) -> Answer:
        """The answer; what the work raised is raised here.

        Raises:
            Fault: the process ended without an answer (exit 70).
        """
        if not self._process:
            return self._work()
        with os.fdopen(self._pipe, "rb", closefd=False) as stream:
            told = stream.read()
        ended = self._wait()
        if not told or ended:
            raise _ended(ended)
        done, answer = pickle.loads(told)  # noqa: S301 - from our own process
        if not done:
            raise answer
        return answer  # type: ignore[no-any-return]

    def _fork(self) -> None:
        self._pipe, answer = os.pipe()
        life, self._life = os.pipe()
        gc.freeze()  # or the first collection would copy every page of memory
        self._process = os.fork()
        if self._process:
            os.close(answer)
            os.close(life)
            gc.unfreeze()
            return
        # From here on in the second process: it never returns, and cleans up nothing of the first.
        code = 1
        try:
            gc.disable()
            os.close(self._pipe)
            os.close(self._life)
            threading.Thread(target=_end_with, args=(life,), daemon=True).start()
            with os.fdopen(answer, "wb") as stream:
                self._tell(stream)
            code = 0
        finally:
            os._exit(code)

    def _tell(self, stream: IO[bytes]) -> None:
        """In the second process: do the work, and hand its answer over."""
        stream.write(_told(self._work))

    def _wait(self) -> int:
        """Let the process go; how it ended (0 well, below 0 by a signal)."""
        _, status = os.waitpid(self._process, 0)
        os.close(self._pipe)
        os.close(self._life)
        self._process = 0
        return os.waitstatus_to_exitcode(status)


class HandInParts(Hand[Iterator[Answer]]):
    """Work whose answer comes in parts, each handed over when it is done.

    Neither process holds more of them than the pipe between them.
    """

    def parts(self) -> Iterator[Answer]:
        """The parts in order; what the work raised is raised here.

        Raises:
            Fault: the process ended before its last part (exit 70).
        """
        if not self._process:
            yield from self._work()
            return
        with os.fdopen(self._pipe, "rb", closefd=False) as stream:
            while (part := self._next(stream)) is not None:
                yield part[0]
        if ended := self._wait():
            raise _ended(ended)

    def _next(self, stream: IO[bytes]) -> tuple[Answer] | None:
        """The next part; None behind the last one."""
        try:
            done, part = pickle.load(stream)  # noqa: S301 - from our own process
        except (EOFError, pickle.UnpicklingError):
            raise _ended(self._wait()) from None
        if not done:
            raise part
        return part  # type: ignore[no-any-return]

    def _tell(self, stream: IO[bytes]) -> None:
        try:
            for part in self._work():
                pickle.dump((True, (part,)), stream, pickle.HIGHEST_PROTOCOL)
                stream.flush()
            pickle.dump((True, None), stream, pickle.HIGHEST_PROTOCOL)
        except Exception as error:  # noqa: BLE001 - it is raised again in the other process
            pickle.dump((False, error), stream, pickle.HIGHEST_PROTOCOL)


def _end_with(life: int) -> None:
    """End when the first process does, however that came: then the pipe that it holds is closed."""
    os.read(life, 1)
    os._exit(1)


def _told(work: Callable[[], object]) -> bytes:
    """The answer of some work, or what it raised, for the other process."""
    try:
        return pickle.dumps((True, work()), pickle.HIGHEST_PROTOCOL)
    except Exception as error:  # noqa: BLE001 - it is raised again in the other process
        return pickle.dumps((False, error), pickle.HIGHEST_PROTOCOL)


def _ended(how: int) -> Fault:
    why = f"signal {-how}" if how < 0 else f"code {how}"
    return Fault(
        Exit.INTERNAL,
        "second-process-ended",
        f"The second of the program's two processes ended before its work was done ({why}).",
        "Nothing was changed. Close other programs if memory is short, and run again.",
    )


@contextlib.contextmanager
def steadily() -> Iterator[None]:
    """Work without the search for cycles of unused records.

    Our records have none, and looking through all of a large list again and again takes a tenth
    of the time (measured).
    """
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()
