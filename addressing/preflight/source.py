"""A file read piece by piece, so that a large plate takes no more memory than a small one.

It is opened anew for each piece and must be the same file each time: one that was changed,
replaced or taken away while it was judged is told of.
"""

import os
from pathlib import Path

from addressing.preflight.values import Objection

WINDOW = 1 << 18
"""Bytes that are read at once: some hundred pages."""
WINDOWS = 4
"""Pieces that are kept: pages come in a row, letters and table lie apart from them."""


class Source:
    """The bytes of a file; `source[start:stop]` reads them."""

    def __init__(self, path: Path) -> None:
        """Note which file it is.

        Raises:
            Objection: it can't be read.
        """
        self._path = path
        self._windows: dict[int, bytes] = {}
        try:
            self._same = _identity(path.stat())
        except OSError as error:
            raise _unread(error) from error
        self._length = self._same[-1]
        self._start, self._window = 0, b""

    def __len__(self) -> int:
        """How many bytes there are."""
        return self._length

    def __getitem__(self, part: slice) -> bytes:
        """The bytes from `start` up to `stop`, fewer at the end of the file.

        Raises:
            Objection: they can't be read, or the file isn't the one that was opened first.
        """
        start = part.start or 0
        stop = self._length if part.stop is None else min(part.stop, self._length)
        at = start - self._start
        if at >= 0 and stop - self._start <= len(self._window):
            return self._window[at : stop - self._start]
        pieces = []
        while start < stop:
            self._turn_to(start)
            at = start - self._start
            piece = self._window[at : stop - self._start]
            pieces.append(piece)
            start += len(piece)
        return b"".join(pieces)

    def _turn_to(self, place: int) -> None:
        """Have the window at hand in which this place is."""
        start = place - place % WINDOW
        window = self._windows.pop(start, None)
        if window is None:
            window = self._read(start)
        self._windows[start] = window  # the one used last stands last
        if len(self._windows) > WINDOWS:
            self._windows.pop(next(iter(self._windows)))
        self._start, self._window = start, window

    def _read(self, start: int) -> bytes:
        try:
            with self._path.open("rb") as stream:
                if _identity(os.fstat(stream.fileno())) != self._same:
                    raise Objection("The file was changed while it was judged.")
                stream.seek(start)
                window = stream.read(WINDOW)
        except OSError as error:
            raise _unread(error) from error
        if len(window) != min(WINDOW, self._length - start):
            raise Objection("The file was changed while it was judged.")
        return window


def _identity(of: os.stat_result) -> tuple[int, ...]:
    """What tells a file from another and from itself after a change."""
    return of.st_dev, of.st_ino, of.st_mtime_ns, of.st_size


def _unread(error: OSError) -> Objection:
    return Objection(f"The file can't be read: {error.strerror or 'no reason given'}.")
