"""The texts of a workbook: whole ones, and ones of which some words are struck through."""

import re
from dataclasses import dataclass

from addressing.guestlist.files.looks import is_on
from addressing.guestlist.files.markup import Attributes, BrokenPartError
from addressing.records.swiftly import swiftly

_ESCAPED = re.compile(r"_x(000[0-9A-F]|001[0-9A-F]|005F)_")


_MOST_TEXTS = 2_000_000
_MOST_RUNS = 10_000


@swiftly
@dataclass(frozen=True, slots=True)
class Run:
    """Some words of a text; `struck` is None where the cell's own font decides."""

    text: str
    struck: bool | None = None


Text = str | tuple[Run, ...]
"""A text in one font, or its runs where they have fonts of their own."""


class Strings:
    """Listens to texts: shared ones (`x:si`), one in its cell (`x:is`), or comments (`x:text`)."""

    def __init__(self) -> None:
        """Nothing is heard yet."""
        self.texts: list[Text] = []
        self._runs: list[Run] = []
        self._struck: bool | None = None
        self._words: list[str] | None = None
        self._phonetic = False

    def start(self, name: str, attributes: Attributes) -> None:
        """A tag opens."""
        if name == "x:t":
            self._words = None if self._phonetic else []
        elif name == "x:r":
            self._struck = None
        elif name == "x:rPr":
            self._struck = False  # a run with a font of its own has its own say
        elif name == "x:strike":
            self._struck = is_on(attributes)
        elif name == "x:rPh":
            self._phonetic = True

    def end(self, name: str) -> None:
        """A tag closes."""
        if name == "x:t" and self._words is not None:
            text = "".join(self._words)
            text = _ESCAPED.sub(_unescape, text) if "_x" in text else text
            self._runs.append(Run(text, self._struck))
            self._words = None
            _within(len(self._runs), _MOST_RUNS)
        elif name == "x:rPh":
            self._phonetic = False
        elif name in ("x:si", "x:is", "x:text"):
            self.texts.append(_joined(self._runs))
            _within(len(self.texts), _MOST_TEXTS)
            self._runs, self._struck = [], None

    def text(self, data: str) -> None:
        """Some of the text."""
        if self._words is not None:
            self._words.append(data)


def _within(count: int, most: int) -> None:
    if count > most:
        message = f"more than {most} texts"
        raise BrokenPartError(message)


def _joined(runs: list[Run]) -> Text:
    if len(runs) == 1 and runs[0].struck is None:
        return runs[0].text
    if any(run.struck is not None for run in runs):
        return tuple(runs)
    return "".join(run.text for run in runs)


def _unescape(match: re.Match[str]) -> str:
    """Control characters are stored as `_x000D_` (ECMA-376 Part 1, 22.9.2.19)."""
    return chr(int(match[1], 16))


def plain(text: Text) -> str:
    """All words of a text, struck or not."""
    return text if isinstance(text, str) else "".join(run.text for run in text)
