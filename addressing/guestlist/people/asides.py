"""What stands in the open beside the names of a cell: numbering, markers, maiden names, who it is.

"1. Tobias Wexcombe", "Odile Farrenby DECLINED", "Odile Wexcombe née Farrenby", "Odile Farrenby,
bride's aunt". Numbering goes; the rest is kept as a remark. The words are rows of `name_words.tsv`.
"""

import re
from functools import cache

from addressing.guestlist.folding import fold
from addressing.guestlist.people.names import known_title, take_titles
from addressing.guestlist.people.vocabulary import meanings, words
from addressing.tables import table

_NUMBERING = re.compile(r"^\s*(?:\(?\d{1,3}[.)]|[-–—•·*])\s+(?=\w)")
_PARTED_LETTERS = re.compile(
    r"(?<=[\w,.]\s)(Ph|Ed|Psy|Pharm|M|J)\.\s+D\.?(?=\s*(?:,|;|&|/|$|and\b))"
)
_OWN_MARKS = str.maketrans("⟨⟩\uff08\uff09\uff62\uff63", "()()()")
"""Brackets that mark nicknames and ages further on, and those of full width, are plain ones."""
_GLUED_TITLE = re.compile(r"(?<![\w.'’])([A-Za-z]{2,5}\.)(?=[A-ZÀ-Ý][\w'’])")
_GLUED_AND = re.compile(r"(?<=\w\.)([&+])(?=\w)")
_TAG = re.compile(r"(?<![\w#⟨])#(?=[^\W\d_]{2})[\w-]+")
"""A word that a list is sorted by, "#vendor"."""
_CHECKS = " ✓✔☑√\ufe0f"
"""What a list is ticked off with, before or behind names."""
_SHORT_AND = re.compile(r"(?<=[^\W\d_])\s+['’\u2018]?n['’]?\s+(?=[A-ZÀ-Ý])")
"""The and of "Tobias 'n Odile"."""
_CROSS = re.compile(r"(?<=\w)([†✝])")
_STRAY_POINT = re.compile(r"(?<=\w)\s+\.(?=\s|$|,)")
_REST = r"[^&+/;,\n⟨⟩]*?(?=\s+(?:and|und|et)\b|\s*[&+/;,\n⟨]|\s*$)"
_SEGMENT = re.compile(rf",\s*(?P<words>\S{_REST})")
_GUEST_OF = re.compile(
    rf"(?P<before>^|[&+/;,]|\band\b)(?P<words>\s*(?P<who>[^\W\d_]+)\s+(?:of|for)\s+\w{_REST})"
)
_ROLE = re.compile(r"^\s*(?P<words>[^&+/;:,\n⟨⟩]+):\s+(?=\w)")
"""What a list puts before a name: "BRIDESMAID: Odile Farrenby"."""
_WHOSE = re.compile(
    r"^\s*(?P<words>(?:(?i:oh|and|also),?\s+)*(?:(?i:my|our|his|her|their)|[^\W\d_a-z][\w-]*['’]s)\s+"
    r"(?:[^\W\d_A-Z][\w'’-]*\s+){0,3}?(?P<kin>[^\W\d_A-Z][\w-]*)),?\s+(?=[^\W\d_a-z])"
)
"""Who somebody is to the sender, in small letters before a name: "My old friend Odile Penhew"."""
_APPOSED = re.compile(
    r"(?P<name>\b[A-ZÀ-Ý][\w'’-]+),\s*(?P<words>[a-zà-ÿ][^,&+/;\nA-ZÀ-Ý]*?)\s*(?:,\s*)?(?=&|\+|\band\b|$)"
)
"""What somebody is, in small letters between a name and who is joined to it."""
_JOINED = re.compile(r"^\s*(?:[&+]|and\b)\s*")
_LAST_JOINT = re.compile(r".*(?:[&+/;,\n]|\band\b)", re.DOTALL)
_YEAR = r"(?:[^\W\d_]{3,9}[\s.]+|\d{1,2}/(?:\d{1,2}/)?)?(?:19|20)\d\d"
_POSSESSIVE = re.compile(r"['’]s?$")
_SMALL = frozenset(("of", "the", "in", "a", "my", "our", "his", "her", "and"))
_FROM = frozenset(("from", "of", "at", "to"))
_WITHIN = "'?’?-?"
"""Marks that a word may have between letters (as a set they take six times as long to compile)."""
_FULL = 2
"""Words of a full name: behind fewer, a word after a comma may be a given name."""


@cache
def phrase(*kinds: str) -> re.Pattern[str]:
    """A pattern for the words of some kinds as they stand in a text, in any case.

    >>> bool(phrase("marker").search("Odile Can’t Come")), bool(phrase("asked").search("Dogby"))
    (True, False)
    """
    known = (row["word"] for row in table("name_words") if row["kind"] in kinds)
    ways = sorted((_loose(word) for word in known), key=len, reverse=True)
    return re.compile(rf"(?<![\w⟨'’\-.])(?:{'|'.join(ways)})(?![\w'’-])", re.IGNORECASE)


def _loose(word: str) -> str:
    """A word with or without its apostrophes and hyphens, whatever blanks part its words.

    "<year>" is a year with or without a month before it.
    """
    letters = (
        _YEAR if part == "<year>" else _WITHIN.join(re.escape(letter) for letter in part)
        for part in word.split()
    )
    return r"[\s.-]+".join(letters)  # "R.I.P." too


def tidy(text: str) -> str:
    """The cell without numbering, with the blanks that "Mr.Tobias" and "Jr ." lack or have.

    >>> tidy("2) Mr.&Mrs.Tobias Wexcombe , Jr .")
    'Mr. & Mrs. Tobias Wexcombe , Jr.'
    """
    text = _NUMBERING.sub("", text.translate(_OWN_MARKS).strip(_CHECKS), count=1)
    text = _SHORT_AND.sub(" & ", _CROSS.sub(r" \1 ", text))
    text = _GLUED_AND.sub(r" \1 ", text)
    text = _GLUED_TITLE.sub(lambda found: f"{found[1]} " if _is_title(found) else found[1], text)
    return _PARTED_LETTERS.sub(r"\1.D.", _STRAY_POINT.sub(".", text))


def _is_title(found: re.Match[str]) -> bool:
    title = known_title(found[1])
    return title is not None and not title.also_a_name


def take_asides(text: str, remarks: list[str]) -> str:
    """Take markers, maiden names and asides out of the text; they are added to the remarks."""

    def keep(found: re.Match[str]) -> str:
        if _is_called_so(found):
            return found[0]
        remarks.append(_JOINED.sub("", found[0]).strip(" ,"))
        return " "

    def born(found: re.Match[str]) -> str:
        return keep(found) if _is_maiden(found) else found[0]

    text = _TAG.sub(lambda found: _tag_out(found[0], remarks), text)
    text = _ROLE.sub(lambda found: _role(found, remarks), text)
    text = _WHOSE.sub(lambda found: _whose(found, remarks), text)
    text = _honors().sub(keep, text)
    text = _GUEST_OF.sub(lambda found: _guest_of(found, remarks), text)
    if phrase("maiden", "marker", "address-marker").search(text):
        maiden, *markers = _taken()
        text = maiden.sub(born, text)
        for pattern in markers:
            text = pattern.sub(keep, text)
    text = _APPOSED.sub(lambda found: _apposed(found, remarks), text)
    return _SEGMENT.sub(lambda found: _aside(found, remarks), text)


def _apposed(found: re.Match[str], remarks: list[str]) -> str:
    """Behind one name small letters beside its capital tell who it is: "Kit, flatmate, & Leo"."""
    if not is_aside(found["words"]):
        return found[0]
    remarks.append(found["words"].strip())
    return f"{found['name']} "


def _tag_out(tag: str, remarks: list[str]) -> str:
    """A tag is a remark of its words: "#not-invited" says what "not invited" does.

    >>> said = []
    >>> _tag_out("#not_invited", said), said
    (' ', ['not invited'])
    """
    remarks.append(" ".join(re.split(r"[#_-]+", tag)).strip())
    return " "


def _guest_of(found: re.Match[str], remarks: list[str]) -> str:
    """Whose guest it is stays a remark: "Guest of Bram Penhew" is nobody's name."""
    if fold(found["who"]) not in words("guest"):
        return found[0]
    remarks.append(found["words"].strip())
    return f"{found['before']} {found['who']}"


def _role(found: re.Match[str], remarks: list[str]) -> str:
    if not is_aside(found["words"]):
        return found[0]
    remarks.append(found["words"].strip())
    return ""


def _whose(found: re.Match[str], remarks: list[str]) -> str:
    """The words before a name that say whose kin or friend it is are a remark."""
    if fold(found["kin"]) not in words("relation") | words("guest"):
        return found[0]
    remarks.append(found["words"].strip())
    return ""


def _is_called_so(found: re.Match[str]) -> bool:
    """True for the Rip of "Rip Wexcombe": behind no name, and not in capitals as R.I.P. is."""
    word = found[0].strip(" ,:").split(" ")[0]
    if fold(word) not in meanings("marker") or meanings("marker")[fold(word)] != "name":
        return False
    before = take_titles(_LAST_JOINT.sub("", found.string[: found.start()]).split())[1]
    turned = len(before) == 1 and found[0].lstrip().startswith(",")  # "Wexcombe, Rip"
    return word.istitle() and (turned or not before)


def _is_maiden(found: re.Match[str]) -> bool:
    """True behind a name; the Geb of "Mr. Geb Penn" is one itself."""
    before = _LAST_JOINT.sub("", found.string[: found.start()]).split()
    word = found["maiden"]
    small = fold(word) in _small_only() and not word.islower() and not found["point"]
    return bool(take_titles(before)[1]) and not small


@cache
def _small_only() -> frozenset[str]:
    rows = (row for row in table("name_words") if row["kind"] == "maiden")
    return frozenset(fold(row["word"]) for row in rows if row["means"] == "small")


@cache
def _taken() -> tuple[re.Pattern[str], ...]:
    """Maiden names with what follows; markers before a name; markers behind one."""
    maiden, marker = phrase("maiden").pattern, phrase("marker", "address-marker").pattern
    return (
        re.compile(rf"\s*(?P<maiden>{maiden})(?P<point>\.?)\s+\w{_REST}", re.IGNORECASE),
        re.compile(rf"^\s*{marker}[:,]?\s+(?=\w)", re.IGNORECASE),
        re.compile(rf"[,:\s]*{marker}{_REST}", re.IGNORECASE),
    )


@cache
def _honors() -> re.Pattern[str]:
    """What somebody is at the wedding, with what joins it to the name: "and Guest of Honor"."""
    role = phrase("role").pattern
    return re.compile(rf"(?:^|\s*(?:[,&+]|\band\b)?\s+)(?:the\s+)?{role}(?=\s*(?:[,&+]|$|and\b))",
                      re.IGNORECASE)  # fmt: skip


def _aside(found: re.Match[str], remarks: list[str]) -> str:
    """Behind a full name ", bride's aunt" is a remark; ", Odile" is not."""
    before = _LAST_JOINT.sub("", found.string[: found.start()]).split()
    if len(before) < _FULL or not is_aside(found["words"]):
        return found[0]
    remarks.append(found["words"].strip())
    return " "


def is_aside(text: str) -> bool:
    """True for words that say who a guest is and name nobody.

    >>> is_aside("bride's aunt"), is_aside("Table 4"), is_aside("Aunt Odile")
    (True, True, False)
    """
    plain = text.split()
    folded = [fold(word) for word in plain]
    if not any(word in words("relation") for word in folded):
        return False
    if len(folded) > 1 and folded[0] in words("relation") and folded[1] in _FROM:
        return True
    return all(
        word in words("relation") or word in _SMALL or word.isdigit() or _POSSESSIVE.search(raw)
        for raw, word in zip(plain, folded, strict=True)
    )
