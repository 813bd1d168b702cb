"""Sheets that go with plates bear the plates' seal: is it there, as a reader of them sees it?"""

import hashlib
import re
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING

from addressing.records.proofs import BLANK_SEAL

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


def words_of(sheets: bytes) -> str:
    """All words of a PDF's sheets without blanks, as a reader of them sees it; "" of no PDF."""
    import pypdfium2 as pdfium  # noqa: PLC0415 - as above

    try:
        with closing(pdfium.PdfDocument(sheets)) as document:
            return "".join(_words(document, number) for number in range(len(document)))
    except pdfium.PdfiumError:
        return ""


def blank_digest(sheets: bytes, seal: str) -> str:
    """The SHA-256 of sheets with a blank seal in place of theirs; "" where it isn't drawn once."""
    drawn, blank = (f"({each}) Tj".encode("ascii") for each in (seal, BLANK_SEAL))
    if sheets.count(drawn) != 1:
        return ""
    return hashlib.sha256(sheets.replace(drawn, blank)).hexdigest()


def _words(document: "pdfium.PdfDocument", number: int) -> str:
    with closing(document[number]) as page, closing(page.get_textpage()) as words:
        return "".join(words.get_text_range().split())
