"""The comments on a sheet's cells: old notes, and conversations with their replies."""

import re

from addressing.guestlist.files.markup import Attributes, BrokenPartError, follow
from addressing.guestlist.files.package import Package
from addressing.guestlist.files.sheet_strings import Strings, plain

_MOST = 100_000
_THREAD = re.compile(r"\[Threaded comment\].*?\nComment:\s*", re.DOTALL)


def comments(package: Package, sheet: str) -> dict[str, str]:
    """Cell → comment, as it is stored; a conversation's replies are joined by line feeds."""
    related = package.relations(sheet).values()
    notes, threads = _Notes(), _Threads()
    for relation in related:
        if relation.target not in package:
            continue
        if relation.kind == "comments":
            follow(package.blocks(relation.target), notes)
        elif relation.kind == "threadedComment":
            follow(package.blocks(relation.target), threads)
    found = {cell: _THREAD.sub("", text) for cell, text in notes.found.items()}
    return found | {cell: "\n".join(said) for cell, said in threads.found.items()}


class _Notes:
    """Listens to old notes."""

    def __init__(self) -> None:
        self.found: dict[str, str] = {}
        self._cell = ""
        self._words = Strings()

    def start(self, name: str, attributes: Attributes) -> None:
        """A tag opens."""
        if len(self.found) > _MOST:
            message = "more comments than a sheet can have"
            raise BrokenPartError(message)
        if name == "x:comment":
            self._cell = attributes.get("ref", "").replace("$", "").partition(":")[0]
            self._words = Strings()
        self._words.start(name, attributes)

    def end(self, name: str) -> None:
        """A tag closes."""
        self._words.end(name)
        if name == "x:comment" and self._words.texts:
            self.found[self._cell] = plain(self._words.texts[-1])

    def text(self, data: str) -> None:
        """Some of the text."""
        self._words.text(data)


class _Threads:
    """Listens to conversations."""

    def __init__(self) -> None:
        self.found: dict[str, list[str]] = {}
        self._cell = ""
        self._words: list[str] | None = None

    def start(self, name: str, attributes: Attributes) -> None:
        """A tag opens."""
        if name == "tc:threadedComment":
            self._cell = attributes.get("ref", "").replace("$", "")
        elif name == "tc:text":
            self._words = []

    def end(self, name: str) -> None:
        """A tag closes."""
        if name == "tc:text" and self._words is not None:
            self.found.setdefault(self._cell, []).append("".join(self._words))
            self._words = None

    def text(self, data: str) -> None:
        """Some of the text."""
        if self._words is not None:
            self._words.append(data)
