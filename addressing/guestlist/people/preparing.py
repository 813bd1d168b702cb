"""Tokens of a cell of names made ready: small words that join people, titles put in front.

"Luis y Maria Ruiz" names two, "Luis Ruiz y Vega" one; "Tobias Wexcombe, Dr." has his title behind.
"""

from itertools import pairwise

from addressing.guestlist.folding import fold
from addressing.guestlist.people.names import (
    GLUE,
    combined_title,
    known_title,
    take_endings,
    take_titles,
)
from addressing.guestlist.people.turning import is_ending, joins
from addressing.guestlist.people.vocabulary import (
    Title,
    given_names,
    may_be_given,
    meanings,
    partner_words,
    words,
)

_WHOSE = frozenset(
    ("su", "sus", "sa", "ses", "leurs", "seine", "seiner", "ihre", "ihrem", "ihren", "la", "den")
)
_FULL = 2
"""Words of a full name."""


def joints_between(tokens: list[str]) -> list[str]:
    """The tokens with y, e, en as "and" where they can't stand inside a family name.

    That is beside a title, behind one word where two or more follow ("Luis y Maria Ruiz"), before
    "familia", "hijos" or "ospite", and between whole names, the second with a known given name: not
    "Luis Ruiz y Vega".
    """
    tokens = _with_his(tokens)
    joined = [
        GLUE + token if _is_within(tokens, place) else token for place, token in enumerate(tokens)
    ]
    for place, token in enumerate(tokens):
        if _may_join(token, tokens[place + 1 : place + 2]):
            before = _plain_before(tokens[:place])
            behind = _plain_behind(tokens[place + 1 :])
            titled = bool(take_titles(behind)[0])
            titled = titled or (token.islower() and bool(before) and _is_titles(before))
            alone = _is_one_given(take_titles(before)[1]) and len(behind) > 1
            whole = min(len(before), len(behind)) > 1 and may_be_given(behind[0])
            named = alone or whole or _is_company(behind)
            if before and behind and (titled or (token.islower() and named)):
                joined[place] = "and"
    return joined


def _with_his(tokens: list[str]) -> list[str]:
    """The French "son" of "son épouse" as the word that it is, and no child."""
    told = list(tokens)
    for place, (whose, behind) in enumerate(pairwise(tokens)):
        if whose == "son" and fold(behind) in partner_words():
            told[place] = "sa"
    return told


def _is_company(behind: list[str]) -> bool:
    """True before family, children or a companion by word: "e hijos", "y su esposo Javier"."""
    told = [word for word in behind if fold(word) not in _WHOSE]
    led = words("guest") | words("children") | words("family")
    own = len(told) < len(behind) or fold(told[0]) in words("children") if told else False
    return bool(told) and fold(told[0]) in led and (own or all(fold(w) in led for w in told))


def _may_join(token: str, behind: list[str]) -> bool:
    """True for y, e, en, and for what they become before a sound: "ed" before "Elena"."""
    if fold(token) in words("and-between"):
        return "." not in token
    sound = meanings("and-before").get(token, "")
    return bool(sound and behind) and behind[0].startswith(tuple(sound.split("|")))


def parted_titles(tokens: list[str]) -> list[str]:
    """The tokens with what joins two titles that no one person has: "Mr Mrs Penhew" are two.

    >>> parted_titles(["Mr", "Mrs", "Vega"]), parted_titles(["Dr.", "Mr.", "Vega"])
    (['Mr', 'and', 'Mrs', 'Vega'], ['Dr.', 'Mr.', 'Vega'])
    """
    told = tokens[:1]
    for before, token in pairwise(tokens):
        two = f"{fold(before)} {fold(token)}" in words("two-titles")
        told += ["and", token] if two else [token]
    return told


def paired_titles(tokens: list[str]) -> list[str]:
    """The tokens with a title that only the one beside it tells: "M. et Mme", "Sr. y Sra.".

    So one that what joins the names tells: "Mesdames Odile et Linnet" are French.

    >>> paired_titles(["Sr.", "and", "Sra.", "Vega"])
    ['Señor', 'and', 'Sra.', 'Vega']
    """
    told = list(tokens)
    first = [i for i, token in enumerate(tokens) if not joins(token) and _opens(tokens, i)]
    for one, other in pairwise(first):
        for here, beside in ((one, other), (other, one)):
            pair = f"{fold(tokens[here])} {fold(tokens[beside])}"
            told[here] = meanings("pair-title").get(pair, told[here])
    for place in first:
        joint = next((token for token in tokens[place:] if joins(token)), "")
        said = f"{fold(tokens[place])} {joint.casefold()}"
        told[place] = meanings("joint-title").get(said, told[place])
    return told


def _opens(tokens: list[str], place: int) -> bool:
    return place == 0 or joins(tokens[place - 1])


def _is_within(tokens: list[str], place: int) -> bool:
    """True for the und of "Otto von und zu Larkmoor": between particles nothing is joined."""
    around = (tokens[place - 1 : place], tokens[place + 1 : place + 2])
    particles = all(word and fold(word[0]) in words("particle") for word in around)
    return particles and tokens[place].isalpha() and joins(tokens[place])


def _is_one_given(names: list[str]) -> bool:
    """One given name, or two that are known to stand together ("Ana María")."""
    return len(names) == 1 or fold(" ".join(names)) in given_names("double")


def _is_titles(tokens: list[str]) -> bool:
    titles, rest = take_titles(tokens)
    return bool(titles) and not rest


def _plain_before(tokens: list[str]) -> list[str]:
    """The words since the last joint."""
    start = max((i + 1 for i, token in enumerate(tokens) if joins(token)), default=0)
    return [token for token in tokens[start:] if not token.startswith("⟨")]


def _plain_behind(tokens: list[str]) -> list[str]:
    """The words up to the next joint."""
    end = next((i for i, token in enumerate(tokens) if joins(token)), len(tokens))
    return [token for token in tokens[:end] if not token.startswith("⟨")]


def titles_first(tokens: list[str]) -> list[str]:
    """The tokens with titles that stand behind a name put before it: "Tobias Wexcombe, Dr."."""
    parts = _segments(tokens)
    moved: list[tuple[list[str], list[str]]] = []
    for place, (joint, part) in enumerate(parts):
        titles, rest = take_titles(list(part))
        behind = parts[place + 1] if place + 1 < len(parts) else ([], [])
        alone = bool(titles) and not rest and joint == [","] and behind[0] in ([], [","])
        alone = alone and not is_ending(part)  # ", Sr." is Senior
        before, names = take_titles(list(moved[-1][1])) if alone else ((), [])
        if alone and len(names) > 1 and all(_go_together(before, title) for title in titles):
            front = moved[-1][1][: len(moved[-1][1]) - len(names)]
            moved[-1] = (moved[-1][0], [*front, *part, *names])
        elif not titles and _ends_in_title(part) and not take_titles(list(behind[1]))[0]:
            moved.append((joint, [part[-1], *part[:-1]]))
        else:
            moved.append((joint, part))
    return [token for joint, part in moved for token in (*joint, *part)]


def with_titles_beside(
    found: tuple[Title | str, ...], rest: list[str], marks: list[str]
) -> tuple[tuple[Title | str, ...], list[str]]:
    """Titles and names, with the titles that brackets or a small word behind the names tell.

    One that doesn't go with those in front stays a word of the name, which is asked about.

    >>> found, rest = take_titles(["Hon.", "Odile", "Penhew", "judge"])
    >>> found, rest = with_titles_beside(found, rest, [])
    >>> [title.canonical for title in found if isinstance(title, Title)], rest
    (['The Honorable', 'Judge'], ['Odile', 'Penhew'])
    """
    beside = [mark[2:-1] for mark in marks if mark.startswith("⟨=")]
    for words_of_it in beside:
        title = known_title(words_of_it)
        if title is not None and _go_together(found, title):
            found = (*found, title)
        else:
            rest = [*rest, *words_of_it.split()]
    last = known_title(rest[-1]) if len(rest) > _FULL and rest[-1].islower() else None
    if found and last is not None and _go_together(found, last):
        return (*found, last), rest[:-1]
    return found, rest


def _go_together(found: tuple[Title | str, ...], title: Title | str) -> bool:
    """True for a title alone, and for "The Honorable" and "Judge", which are one."""
    return not found or known_title(combined_title((*found, title)) or "") is not None


def _ends_in_title(part: list[str]) -> bool:
    """True for "Tobias Wexcombe Mr": an abbreviated title that is no name and no suffix."""
    last = part[-1] if len(part) > 1 else ""
    title = known_title(last) if last else None
    if title is None or title.also_a_name or take_endings(list(part), after_comma=False)[0] != part:
        return False
    return last.endswith(".") or title.canonical.endswith(".")


def _segments(tokens: list[str]) -> list[tuple[list[str], list[str]]]:
    """(joint, words) between any two joints, commas too."""
    parts: list[tuple[list[str], list[str]]] = [([], [])]
    for word in tokens:
        if joins(word):
            parts.append(([word], []))
        else:
            parts[-1][1].append(word)
    return parts
