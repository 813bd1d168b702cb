"""Sheets that go with plates bear the plates' seal: is it there, as a reader of them sees it?"""

import re
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pypdfium2 as pdfium

BETWEEN = 40
"""So many letters may stand between: the proof's number, and that this is the seal."""


def bears_seal(sheets: Path | bytes, seal: str, said: str) -> bool:
    """Whether the words of a PDF's sheets have the seal; the last sheet is looked at first.

    `said` is what such a sheet says before it: another kind of sheet with the same seal isn't it.
    Blanks don't count: the seal may be broken over two lines. What can't be read bears none.
    """
    import pypdfium2 as pdfium  # noqa: PLC0415 - a plate's judge loads it later, beside other work

    before, after = ("".join(words.split()) for words in (said, seal))
    wanted = re.compile(f"{re.escape(before)}[^A-Z]{{0,{BETWEEN}}}{re.escape(after)}")
    try:
        with closing(pdfium.PdfDocument(sheets)) as document:
            return any(
                wanted.search(_words(document, number)) for number in reversed(range(len(document)))
            )
    except (pdfium.PdfiumError, OSError):
        return False


def _words(document: "pdfium.PdfDocument", number: int) -> str:
    with closing(document[number]) as page, closing(page.get_textpage()) as words:
        return "".join(words.get_text_range().split())
