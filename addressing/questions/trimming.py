"""An answer in own words without what adds nothing to it: “Apt 5, all good otherwise! :)”."""

import re
from functools import cache

from addressing.questions.choosing import BESIDE, HEDGE, plain, without_smiles, words_known
from addressing.questions.folding import folded
from addressing.tables import table

_LAST = re.compile(r"(?:\s*[,;.!\n]|\s+[-\u2013\u2014(])[\s!.]*(?P<last>[^,;.!\n()]+)[\s.!)]*$")
_IT_IS = re.compile(r"^(?:it|that)(?:['\u2019]s|\s+is)\s+(?=\S)", re.IGNORECASE)
_POSTCODE = "postcode"
_IS = re.compile(
    r"(?:she|he|they|it|that)(?:['\u2019](?:s|re)|\s+is|\s+are)\s+(?:(?:a|an)\s+)?(?P<title>.+)",
    re.IGNORECASE,
)


def without_trimmings(words: str) -> str:
    """An answer without thanks, faces and “all good otherwise” behind it.

    >>> without_trimmings("Apt 5, all good otherwise! :)"), without_trimmings("Kit Penhew, Jr.")
    ('Apt 5', 'Kit Penhew, Jr.')
    """
    words = without_smiles(words.strip())
    found = _LAST.search(words)
    while found is not None and ("", BESIDE) in words_known().get(plain(found["last"]), ()):
        words = words[: found.start()].rstrip()
        found = _LAST.search(words)
    return words


def place_in(words: str, kind: str) -> str:
    """An answer about an address without “it's”; a ZIP code without “I think”: it is weighed.

    >>> place_in("it's Apt 2B", "address"), place_in("14850 I think", "postcode")
    ('Apt 2B', '14850')
    """
    words = _IT_IS.sub("", words)
    if kind != _POSTCODE:
        return words
    found = re.search(r"(?<!\w)\d{5}(?:-\d{4})?(?!\w)", words)
    rest = plain(words.replace(found[0], " ").strip(" ,;.?!-()")) if found is not None else ""
    return found[0] if found is not None and ("", HEDGE) in words_known().get(rest, ()) else words


def title_in(words: str) -> str:
    """A title without “she's a” before it; other words as they are.

    >>> title_in("she's a doctor"), title_in("he's Mr."), title_in("she's away")
    ('doctor', 'Mr.', "she's away")
    """
    found = _IS.fullmatch(words.strip())
    known = found is not None and folded(found["title"]).strip(" .") in _titles()
    return found["title"] if found is not None and known else words


@cache
def _titles() -> frozenset[str]:
    forms = (form for row in table("titles") for form in row["forms"].split("|"))
    return frozenset(folded(form).strip(" .") for form in forms)
