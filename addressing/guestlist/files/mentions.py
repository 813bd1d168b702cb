"""The people whom a sentence names, each run of names that belong together as written."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from addressing.guestlist.domestic.dwellings import suffix_words
from addressing.guestlist.files.prose_words import prose_words
from addressing.guestlist.folding import fold
from addressing.guestlist.people.names import known_title
from addressing.guestlist.people.vocabulary import is_given, may_be_given, words

_TOKEN = re.compile(r"[^\W\d_][\w'’-]*\.?(?:[A-Z]\.)*|[&+]")
_SUFFIX = re.compile(r",?\s+(?:Jr|Sr|II|III|IV|M\.?D|Ph\.?D|Esq)\b\.?")
_COMPANY = re.compile(
    r"\s+(?:and|&|\+)\s+(?:(?:all|the|their|his|her|of|three|two|both)\s+)*"
    r"(?P<last>[a-zA-Z]+)(?P<name>\s+[A-Z]\w+)?"
)
_LAST_STOP = re.compile(r"(?<=[a-z])\.$")
_OF_COMPANY = re.compile(r"((?:\band|&|\+)\s+)(?:(?:all|the|their|his|her|of)\s+)+(?=[a-z])")
_OWNED = re.compile(r"['’]s$")
_OF_ANOTHER = re.compile(r"\s+(?:[a-z]+,?\s+){1,2}(?=[^\W\d_a-z][a-z])")
"""Behind "Mrs. Penhew's": who is meant is named next ("old friend Kit Orr")."""
_FULL, _LONGEST_WEAK = 2, 3


_FAMILY = re.compile(
    r"\b(?P<label>[Tt]he\s+[^\W\d_a-z][\w'’-]*s)\s*[,:–—-]\s+"
    r"(?P<names>[^\W\d_a-z][\w'’-]*(?:(?:,\s+|\s+(?:and|&)\s+)[^\W\d_a-z][\w'’-]*)+)"
)
"""A family with those of it: "the Penhews, Kit and Odile"."""


@dataclass(frozen=True, slots=True)
class Mention:
    """A run of names from one place of a text to another; `sure` if a title or a given name leads.

    `people` are the names of each who is named in full, where all of them are.
    """

    start: int
    end: int
    text: str
    sure: bool
    people: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Word:
    start: int
    end: int
    text: str

    @property
    def joins(self) -> bool:
        small = self.text in "&+" or self.text.islower()
        return small and fold(self.text) in words("and") | words("and-between")

    @property
    def denies(self) -> bool:
        """True for the NOT of "Ms. Penhew and NOT Orr"; in small letters it is no name anyway."""
        return (
            len(self.text) > 1 and self.text.isupper() and fold(self.text) in prose_words("denial")
        )

    @property
    def titled(self) -> bool:
        title = known_title(self.text)
        return title is not None and self.text[:1].isupper() and not title.also_a_name

    @property
    def name(self) -> bool:
        return self.text[:1].isupper() and not self.titled


def mentions(text: str) -> list[Mention]:
    """The people in a text whose brackets, quotations and addresses are out of sight.

    >>> [each.text for each in mentions("Mrs. Odile Penhew, my old Kit Orr, Jr. and Guest")]
    ['Mrs. Odile Penhew', 'Kit Orr, Jr. and Guest']
    """
    made = [_family(hit) for hit in _FAMILY.finditer(text) if _are_given(hit["names"])]
    shown = text
    for each in made:
        shown = shown[: each.start] + "0" * (each.end - each.start) + shown[each.end :]
    return sorted((*made, *_runs(shown)), key=lambda each: each.start) if made else _runs(text)


def _family(hit: re.Match[str]) -> Mention:
    label = hit["label"]
    return Mention(hit.start(), hit.end(), f"T{label[1:]} ({hit['names']})", sure=True)


def _are_given(names: str) -> bool:
    """True for given names, as far as can be told; "the Penhews, Orrs and Lornes" are three."""
    each = re.split(r",\s+|\s+(?:and|&)\s+", names)
    return any(map(may_be_given, each)) or not any(name.endswith("s") for name in each)


def _runs(text: str) -> list[Mention]:
    found = [_Word(hit.start(), hit.end(), hit[0]) for hit in _TOKEN.finditer(text)]
    made: list[Mention] = []
    place = 0
    while place < len(found):
        end = _run(text, found, place)
        mention = _mention(text, found[place:end]) if end > place else None
        if mention is not None and (not made or mention.start >= made[-1].end):
            made.append(mention)
        place = max(end, place + 1)
    return made


def _run(text: str, found: Sequence[_Word], place: int) -> int:
    """The place behind the last word of a run of names that begins with a word."""
    if not found[place].text[:1].isupper():
        return place
    end = place + 1
    while end < len(found) and not text[found[end - 1].end : found[end].start].strip():
        word, before = found[end], found[end - 1]
        if before.text.endswith(".") and not (before.titled or len(before.text) <= _LONGEST_WEAK):
            break
        following = found[end + 1] if end + 1 < len(found) else None
        capital = following is not None and following.text[:1].isupper() and not following.denies
        small = fold(word.text) in words("particle") or word.joins
        if _OWNED.search(before.text) or not (word.text[:1].isupper() or (small and capital)):
            break
        end += 1
    return end


def _mention(text: str, run: Sequence[_Word]) -> Mention | None:
    """The people of a run without the words before them; None for a run that names nobody."""
    begin = _first(run)
    sure = begin is not None and _is_full(run[begin:])
    if not sure:
        owned = any(_OWNED.search(word.text) for word in run)
        if owned or not _FULL <= len(run) <= _LONGEST_WEAK or not all(map(_may_name, run)):
            return None
    own = run[begin:] if sure else run
    if _OWNED.search(own[-1].text) and _OF_ANOTHER.match(text, own[-1].end):
        return None
    end = _behind(text, own[-1].end)
    said = _OF_COMPANY.sub(r"\1", " ".join(text[own[0].start : end].split()))
    return Mention(own[0].start, end, _OWNED.sub("", _ended(said)), sure, _people(own))


def _ended(names: str) -> str:
    """Names without the point of their sentence; that of "Jr." stays."""
    last = names.rsplit(maxsplit=1)[-1]
    return names if _SUFFIX.fullmatch(f" {last}") else _LAST_STOP.sub("", names)


def _first(run: Sequence[_Word]) -> int | None:
    """The place of the first title or given name, or of the names joined to it from before."""
    begin = next((at for at, word in enumerate(run) if word.titled or _given(word)), None)
    if begin is None or begin <= 1 or not run[begin - 1].joins:
        return begin
    before = run[: begin - 1]
    named = all(_may_name(word) and not _OWNED.search(word.text) for word in before)
    return 0 if named else begin


def _given(word: _Word) -> bool:
    return word.name and (is_given(word.text) or may_be_given(word.text))


def _may_name(word: _Word) -> bool:
    folded = fold(word.text)
    others = (
        prose_words("no-name") | words("children") | words("family") | words("guest") | words("and")
    )
    return word.name and not word.denies and folded not in suffix_words() and folded not in others


def _is_full(run: Sequence[_Word]) -> bool:
    """True where a family name stands: behind a title, or behind a given name."""
    names = [0]
    for word in run:
        if word.joins:
            names.append(0)
        names[-1] += word.name
    return (run[0].titled and sum(names) > 0) or max(names) >= _FULL


def _people(run: Sequence[_Word]) -> tuple[str, ...]:
    """Each person of a run in which everybody has two names, or a title and one."""
    parts: list[list[_Word]] = [[]]
    for word in run:
        if word.joins:
            parts.append([])
        else:
            parts[-1].append(word)
    full = all(len(part) >= _FULL and part[-1].name for part in parts)
    names = (" ".join(word.text for word in part) for part in parts)
    return tuple(_ended(name) for name in names) if full else ()


def _behind(text: str, end: int) -> int:
    """The end of a run with a suffix and with who comes along without a name."""
    suffix = _SUFFIX.match(text, end)
    end = suffix.end() if suffix is not None else end
    while (company := _COMPANY.match(text, end)) is not None:
        last = fold(company["last"])
        known = words("guest") | words("family") | words("children") | prose_words("little")
        child = last in prose_words("little")
        if last not in known or (company["name"] and not child):  # "and his wife Rosa Orr"
            break
        end = company.end() if child else company.end("last")
    return end
