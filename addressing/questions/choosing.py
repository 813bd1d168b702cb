"""Which of the proposed answers words stand for, by the table of what clients write instead."""

import re
import unicodedata
from collections.abc import Sequence
from functools import cache

from addressing.records.questions import BETWEEN, FAMILY, GUEST, ONE, Choice
from addressing.records.questions import CHILD as YOUNG
from addressing.tables import table

_SHORTEST = 3
"""So many letters of a proposed answer, if they fit one only, stand for it."""
DROP, WHOLE, PART = "drop", "whole", "part"
"""Effects: a household is left out; it is, by these words only; part of it is, the others stay."""
LEAVING = frozenset((DROP, WHOLE))
_PLAINLY = len("leave out the whole")
"""So many letters of "Leave out the whole household" say that no part of it is meant."""
OPEN, PROSE, CHILD, OPENER, REFER = "open", "prose", "child", "opener", "refer"
"""In the table of words: no answer yet; a word of sentences, not of names; a word for a child; one
that only opens an answer ("yes, Kit Penhew"); one that opens words about another answer ("see")."""
SOLE = "sole"
"""In the table: a word beside names that leaves out everybody else ("only Kit Penhew")."""
FINE, ONE_OF_TWO, BESIDE, HEDGE = "fine", "one", "beside", "hedge"
"""In the table: the proposed yes, else what is right as it stands; one household, and not which of
two; words beside an answer that add nothing to it; words that take it back by half ("I think")."""
KIDS, KIDS_LISTED = "kids", "kids-listed"
"""In the table: behind names, stand for the children whom the list names; the second says so."""
NAMER, KIN, LEAD, ACCOMPANIED = "namer", "kin", "lead", "accompanied"
"""In the table: words before a companion's name; those that are so behind "his" or "her"; words
before these that add nothing to the name; the proposed names with a guest."""
ALL_YES = "all-yes"
"""In the table: the proposed yes to every question that has one."""
NO_MEANING = frozenset(
    (PROSE, CHILD, OPENER, REFER, SOLE, BESIDE, HEDGE, KIDS, KIDS_LISTED, NAMER, KIN, LEAD)
)


def says_nothing_yet(words: str) -> bool:
    """True for "not sure", "will check" and the like: the client hasn't answered."""
    return OPEN in meanings(words)


def leaves_out(words: str, whom: str) -> bool:
    """True for names with a word beside them that leaves others out (`GUEST`, `YOUNG`, `FAMILY`).

    >>> leaves_out("Theo and Ida Marsh, no kids", YOUNG), leaves_out("Theo and Ida Marsh", YOUNG)
    (True, False)
    """
    return any(PART in meanings(part, f"no-{whom}") for part in re.split(r"[,;()\n]", words))


def chosen(choices: tuple[Choice, ...], words: str, kind: str = "") -> Choice | None:
    """The proposed answer that was taken: word for word, by its beginning, or in other words.

    A bare yes or no is the answer that begins so. What fits two of them fits none.
    """
    said = plain(words)
    exact = [choice for choice in choices if plain(choice.text) == said]
    if exact:
        return exact[0]
    begun = [choice for choice in choices if _begins(choice, said)]
    if len(begun) == 1:
        return begun[0]
    named = [choice for choice in choices if _names_part(choice, said)]
    if len(named) == 1:
        return named[0]
    meant = meanings(words, kind)
    if DROP in meant and not any(choice.effect in LEAVING for choice in choices):
        meant |= {PART}
    fitting = [choice for choice in choices if _means(choice, meant)]
    if FINE in meant:
        fitting = _fine(choices)
    fitting = fitting or _by_number(choices, said)
    return fitting[0] if len(fitting) == 1 else None


def _fine(choices: Sequence[Choice]) -> list[Choice]:
    """What "fine" says: the proposed yes, else the answer that calls the list right."""
    yes = [choice for choice in choices if plain(choice.text).startswith("yes")]
    return yes or [c for c in choices if c.effect == "keep" and _RIGHT.search(c.text)]


def _by_number(choices: Sequence[Choice], said: str) -> list[Choice]:
    """What "yes, 79" says: the one proposal with that number in it."""
    found = _YES_NUMBER.fullmatch(said)
    if found is None:
        return []
    number = re.compile(rf"(?<![\w-]){re.escape(found[1])}(?![\w-])")
    return [c for c in choices if c.effect == "set" and number.search(plain(c.text))]


def _begins(choice: Choice, said: str) -> bool:
    """Cut short ("One household, use the f"), or only what comes behind "Yes," or "No,".

    A household that is left out may be called otherwise by now.
    """
    text = plain(choice.text)
    behind = re.sub(r"^(?:yes|no), ", "", text)
    if choice.effect == WHOLE:
        front = text.partition(":")[0]
        return said.startswith(front) or (len(said) >= _PLAINLY and front.startswith(said))
    return len(said) >= _SHORTEST and (text.startswith(said) or behind == said)


def _names_part(choice: Choice, said: str) -> bool:
    """True for "leave Lou out", "not Lou", "no plus one", where a note speaks of Lou, or of one."""
    if choice.effect != PART:
        return False
    meant = choice.value.split(BETWEEN)
    if any(PART in meanings(said, f"no-{each}") for each in meant):
        return True
    names = [plain(each) for each in meant if each not in (GUEST, YOUNG, FAMILY)]
    rest = [word for word in said.split() if word not in names and word != "and"]
    named = all(name in said.split() for name in names)
    return bool(names) and named and PART in meanings(" ".join(rest), "no-name")


def _means(choice: Choice, meant: frozenset[str]) -> bool:
    first = plain(choice.text).split()[0].strip(",")
    if first in ("yes", "no") and first in meant:
        return True
    if choice.effect == DROP and choice.value == ONE and ONE in meant:
        return True
    if ACCOMPANIED in meant and choice.effect == "set":
        return plain(choice.value).endswith(" and guest")
    return choice.effect in meant or (choice.effect == "keep" and "guest" in meant)


@cache
def words_known() -> dict[str, frozenset[tuple[str, str]]]:
    """Folded words → (kind of question, what they mean for it); kind "" is any."""
    found: dict[str, set[tuple[str, str]]] = {}
    for row in table("answer_words"):
        for words in row["words"].split(" | "):
            meant = {(kind, row["means"]) for kind in row["kind"].split("|")}
            found.setdefault(plain(words) or words, set()).update(meant)
    return {words: frozenset(meanings) for words, meanings in found.items()}


def meanings(words: str, kind: str = "") -> frozenset[str]:
    """What a whole answer means by the table; nothing for a name or an address."""
    said = plain(words) or words.strip()
    without = re.sub(r"^(?:please|pls)\s+|[,\s]+(?:please|pls|thanks|thank you)$", "", said)
    bare = _IT_IS.sub("", without)
    known = words_known()
    found = known.get(said) or known.get(without) or known.get(bare) or frozenset()
    return frozenset(meant for for_kind, meant in found if for_kind in ("", kind)) - NO_MEANING


def is_known(words: str) -> bool:
    """True for words that mean something at some question, and so are nobody's name: "no kids"."""
    known = words_known().get(plain(words)) or frozenset()
    return any(meant not in NO_MEANING for _, meant in known)


def without_smiles(words: str) -> str:
    """Words without the faces behind them.

    >>> without_smiles("Kit Penhew :)"), without_smiles("Kit (5)")
    ('Kit Penhew', 'Kit (5)')
    """
    return _SMILES.sub("", words)


def plain(text: str) -> str:
    """For comparing answers: one case, single blanks, no full stop, one kind of quotes."""
    text = _SMILES.sub("", unicodedata.normalize("NFKC", text).translate(_QUOTES))
    return " ".join(text.casefold().split()).strip(" .!'\"")


_IT_IS = re.compile(
    r"(?:she|he|they|it|that|this|these|those|both|all|everyone|everybody|everything)"
    r"(?:'s|'re| is| are)(?: all| both)? "
)
"""What is said before the word that counts: "she's invited", "both are fine"."""
_RIGHT = re.compile(r"\b(?:fine|right|complete|as listed|as (?:it|they) stands?)\b")
_YES_NUMBER = re.compile(r"(?:yes|yep|yeah|ja|oui|s[ií]),? (?:it's |that's |is )?#?(\d[\w-]*)")
_SMILES = re.compile(
    r"(?:\s+[:;=]-?[)(DP]+|\s*[\U0001f300-\U0001faff\u2600-\u27bf\ufe0f\u200d]+)+\s*$"
)
"""Faces behind words, typed or drawn."""
_QUOTES = str.maketrans({"“": '"', "”": '"', "’": "'", "\u2018": "'"})
