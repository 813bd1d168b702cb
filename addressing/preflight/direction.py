"""The judge's own bidirectional algorithm for one line (UAX #9), by rewriting a string of classes.

Each character becomes one sign: l and r strong, a Arabic, 1 and 2 European and Arabic numbers,
+ , % what stands in numbers, m accents, o all else. Each rule is one substitution.
"""

import re
import unicodedata

_SIGNS = {"L": "l", "R": "r", "AL": "a", "EN": "1", "AN": "2", "ES": "+", "CS": ",", "ET": "%"}
_SIGNS |= {"NSM": "m", "BN": "m", "": "l"}
_OPENING, _CLOSING = "([{", ")]}"


def is_plain(text: str) -> bool:
    """True when all of a line runs from left to right."""
    return text.isascii() or not any(_sign(character) in "ra2" for character in text)


def reads_leftwards(text: str) -> bool:
    """True when the first strong character of a line runs from right to left (rules P2 and P3)."""
    if text.isascii():
        return False
    strong = re.search("[lra]", "".join(map(_sign, text)))
    return strong is not None and strong[0] != "l"


def visual_runs(text: str) -> list[tuple[str, bool]]:
    """Runs as they stand from left to right, each with True if it runs from right to left."""
    signs = "".join(map(_sign, text))
    strong = re.search("[lra]", signs)
    base = "l" if strong is None or strong[0] == "l" else "r"
    signs = _resolved(text, signs, base)
    levels = signs.translate(str.maketrans("lr12", "0122" if base == "l" else "2122"))
    runs = [
        (text[match.start() : match.end()], int(match[0][0]))
        for match in re.finditer(r"(.)\1*", levels)
    ]
    if base == "l":
        return [(words, level == 1) for words, level in _leftwards(runs)]
    runs.reverse()
    return [(words, level == 1) for words, level in runs]


def _leftwards(runs: list[tuple[str, int]]) -> list[tuple[str, int]]:
    """In a line to the right, each stretch that isn't at level 0 is read from its end."""
    ordered: list[tuple[str, int]] = []
    stretch: list[tuple[str, int]] = []
    for run in [*runs, ("", 0)]:
        if run[1]:
            stretch.insert(0, run)
        else:
            ordered += [*stretch, run]
            stretch = []
    return [run for run in ordered if run[0]]


def _sign(character: str) -> str:
    return _SIGNS.get(unicodedata.bidirectional(character), "o")


def _resolved(text: str, signs: str, base: str) -> str:
    """Only l, r, 1 and 2 are left; the line's own direction stands in front while rules work."""
    signs = base + signs
    signs = re.sub("(.)(m+)", lambda found: found[1] * len(found[0]), signs)  # W1
    signs = re.sub("a[^lra]*", lambda found: found[0].replace("1", "2"), signs)  # W2
    signs = signs.replace("a", "r")  # W3
    signs = re.sub("(?<=1)[+,](?=1)", "1", signs)  # W4
    signs = re.sub("(?<=2),(?=2)", "2", signs)
    signs = re.sub("%+(?=1)|(?<=1)%+", lambda found: "1" * len(found[0]), signs)  # W5
    signs = re.sub("[+,%]", "o", signs)  # W6
    signs = re.sub("l[^lr]*", lambda found: found[0].replace("1", "l"), signs)  # W7
    signs = _paired(text, signs, base) + base
    return re.sub("(?<=(.))(o+)(?=(.))", lambda found: _between(found, base), signs)[1:-1]  # N1, N2


def _between(found: re.Match[str], base: str) -> str:
    """Neutrals between two that go the same way go with them; numbers go as r does."""
    left, right = ("l" if sign == "l" else "r" for sign in (found[1], found[3]))
    return (left if left == right else base) * len(found[2])


def _paired(text: str, signs: str, base: str) -> str:
    """Rule N0; signs[0] is the line's own direction."""
    written = list(signs)
    other = "l" if base == "r" else "r"
    for start, end in _brackets(text, signs):
        inside = {"l" if sign == "l" else "r" for sign in written[start + 1 : end] if sign != "o"}
        if base in inside:
            written[start] = written[end] = base
        elif inside:
            before = next(sign for sign in reversed(written[:start]) if sign != "o")
            written[start] = written[end] = other if (before == "l") == (other == "l") else base
    return "".join(written)


def _brackets(text: str, signs: str) -> list[tuple[int, int]]:
    """Pairs of brackets by their places in `signs`, in the order of opening."""
    open_: list[tuple[int, int]] = []
    pairs: list[tuple[int, int]] = []
    for place, character in enumerate(text, start=1):
        if signs[place] != "o":
            continue
        if character in _OPENING:
            open_.append((_OPENING.index(character), place))
        elif character in _CLOSING:
            kinds = [kind for kind, _ in open_]
            wanted = _CLOSING.index(character)
            if wanted in kinds:
                last = len(kinds) - 1 - kinds[::-1].index(wanted)
                pairs.append((open_[last][1], place))
                del open_[last:]
    return sorted(pairs)
