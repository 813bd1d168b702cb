"""Ways in which a row of its own names a companion, children by number, or somebody's pronouns.

"Priya's plus one", "+1 of Priya" and "Raman, Guest of Priya" are a companion, "Kids (2)" are two
children, "they/them" behind a name is no name. Each is put in the plain words that are read
elsewhere ("Priya's guest", "Guest of Priya", "2 kids", a bracket).
"""

import re
from functools import cache

from addressing.guestlist.people.vocabulary import row_words, words

_PLUS_ONE = r"(?:\+\s*1|plus[\s-]*(?:one|1)|additional\s+guest)"
_THEIRS = re.compile(rf"^\s*(?P<whose>[^\W\d_][\w .'’-]*['’]s?)\s+{_PLUS_ONE}\s*$", re.IGNORECASE)
_OF_WHOM = re.compile(
    rf"^\s*{_PLUS_ONE}\s*(?:\b(?:of|for)\s+(?P<of>[^\W\d_][\w .'’-]*)"
    r"|\(\s*(?:(?:of|for)\s+)?(?P<in>[^\W\d_][\w .'’-]*)\s*\))\s*$",
    re.IGNORECASE,
)


def respelled(text: str, *, family_first: bool | None) -> str:
    """The cell in the plain words for the same; any other cell as it is.

    >>> respelled("Priya's plus one", family_first=False), respelled("Kids (2)", family_first=False)
    ("Priya's guest", '2 kids')
    >>> respelled("+1 (Priya)", family_first=False), respelled("Plus Onefield", family_first=False)
    ('Guest of Priya', 'Plus Onefield')
    """
    if family_first:
        text = _turned().sub(r"\g<guest>", text)
        text = _turned_child().sub("1 child", text)
    text = _pronouns().sub(r" (\g<said>)", text)
    text = _THEIRS.sub(r"\g<whose> guest", text)
    text = _OF_WHOM.sub(lambda found: f"Guest of {found['of'] or found['in']}", text)
    return _one().sub("1 child", _counted().sub(r"\g<number> kids", text))


@cache
def _counted() -> re.Pattern[str]:
    """A word for children and how many they are: "Kids (2)", "children x 3", "Child - 1"."""
    known = "|".join(sorted(words("children") | {"child", "kid"}, key=len, reverse=True))
    return re.compile(
        rf"^\s*(?:the\s+)?(?:(?-i:[^\W\d_a-z])[\w'’-]*\s+)?(?:{known})\s*(?:[(\[x:–-]\s*)+(?P<number>\d)\s*[)\]]?\s*$",
        re.IGNORECASE,
    )


@cache
def _one() -> re.Pattern[str]:
    """A row's word for one child without a name: "Child", "Infant", "Kid #2"."""
    return re.compile(rf"^\s*(?:{_either('row-child')})(?:\s*#?\s*\d)?\s*$", re.IGNORECASE)


@cache
def _turned_child() -> re.Pattern[str]:
    """Where the column writes family names first, a child without a name: "Raman, Baby"."""
    child = _either("row-child")
    return re.compile(rf"^\s*[^\W\d_][\w .'’-]*,\s*(?:{child})\s*$", re.IGNORECASE)


@cache
def _pronouns() -> re.Pattern[str]:
    """What somebody goes by, behind the name: "they/them"."""
    one = f"(?:{_either('goes-by')})"
    return re.compile(rf"(?<=\w)[\s,–-]+(?P<said>{one}(?:\s*/\s*{one}){{1,2}})\s*$", re.IGNORECASE)


def _either(kind: str) -> str:
    """The words of a kind of the table, for a pattern."""
    return "|".join(sorted(map(re.escape, row_words(kind)), key=len, reverse=True))


@cache
def _turned() -> re.Pattern[str]:
    """Where the column writes family names first: "Raman, Guest of Priya", "Raman, +1"."""
    known = "|".join(sorted(words("guest"), key=len, reverse=True))
    one = (
        rf"(?:{known})(?:\s+(?:of|for)\s+\w.*)?|[\w .'’-]+['’]s?\s+(?:{known})|{_PLUS_ONE}(?:\W.*)?"
    )
    return re.compile(rf"^\s*[^\W\d_][\w .'’-]*,\s*(?P<guest>{one})\s*$", re.IGNORECASE)
