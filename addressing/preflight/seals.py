"""Sheets that go with plates bear the plates' seal: is it there, as a reader of them sees it?"""

from contextlib import closing
from pathlib import Path

import pypdfium2 as pdfium


def bears_seal(sheets: Path | bytes, seal: str) -> bool:
    """Whether the words of a PDF's sheets have the seal; the last sheet is looked at first.

    Blanks don't count: the seal may be broken over two lines. What can't be read bears none.
    """
    wanted = "".join(seal.split())
    try:
        with closing(pdfium.PdfDocument(sheets)) as document:
            return any(
                wanted in _words(document, number) for number in reversed(range(len(document)))
            )
    except (pdfium.PdfiumError, OSError):
        return False


def _words(document: pdfium.PdfDocument, number: int) -> str:
    with closing(document[number]) as page, closing(page.get_textpage()) as words:
        return "".join(words.get_text_range().split())
