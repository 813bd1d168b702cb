"""Which households of a list a sentence names."""

import re
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, field

from addressing.guestlist.files.mail_lines import is_verb
from addressing.guestlist.folding import fold
from addressing.guestlist.households.named_words import (
    Word,
    is_introduced,
    is_joined,
    is_street,
    refers,
    tells,
    words_of,
)
from addressing.guestlist.people.called import is_form, is_known_form
from addressing.guestlist.people.likeness import near_word
from addressing.guestlist.people.names import known_title
from addressing.guestlist.people.note_words import words_of_kind
from addressing.guestlist.people.vocabulary import is_given, may_be_given, meanings
from addressing.records.guests import Household, Person

Words = tuple[str, ...]
_WORD = re.compile(r"[^\W_][\w'’]*")
_OWNED = re.compile(r"['’]s?$")
_SHORTEST_SLIP = 6
"""Letters of a family name that may be misspelt."""
_SHORTEST = 3
"""Letters of a given name that stands for a guest by itself."""
_BEARERS = 4
"""Households with somebody of a given name, at most, among which it still tells who is meant."""
_NO_OFFICE = ("civil", "kin", "both")
"""Groups of titles by which nobody is spoken of alone: "the captain" is one, "the Mr." isn't."""


@dataclass(slots=True)
class Named:
    """Who can be named: households (by place) by family name and by given name."""

    families: dict[Words, set[int]] = field(default_factory=dict)
    givens: dict[str, set[int]] = field(default_factory=dict)
    titles: dict[tuple[Words, str], set[int]] = field(default_factory=dict)
    titled: dict[tuple[str, str], set[int]] = field(default_factory=dict)
    """By given name and title."""
    suffixed: dict[tuple[str, str], set[int]] = field(default_factory=dict)
    """By given name and suffix: of two Tobiases who is "Tobias Jr."."""
    doubles: dict[Words, set[int]] = field(default_factory=dict)
    """By the first two words of a given name that has several: "Ida Mae"."""
    offices: dict[str, set[int]] = field(default_factory=dict)
    """By a title that stands for its bearer: "the colonel"."""
    longest: int = 1

    @classmethod
    def of(cls, households: Sequence[Household]) -> "Named":
        """The names of a list."""
        named = cls()
        for place, home in enumerate(households):
            for family in _families(home):
                named.families.setdefault(family, set()).add(place)
                named.longest = max(named.longest, len(family))
            for person in home.people:
                bearer = tuple(fold(person.family or "").split()), person.title or ""
                named.titles.setdefault(bearer, set()).add(place)
                named.offices.setdefault(person.title or "", set()).add(place)
                given = tuple(fold(person.given or "").split()[:2])
                named.doubles.setdefault(given, set()).add(place)
                for word in (*given[:1], *_nickname(person)):
                    named.givens.setdefault(word, set()).add(place)
                    named.titled.setdefault((word, person.title or ""), set()).add(place)
                    named.suffixed.setdefault((word, person.suffix or ""), set()).add(place)
        return named

    def of_sentence(self, sentence: str, besides: Collection[str] = ()) -> list[int]:
        """The households that a sentence names, in their order on the list.

        `besides` are the names of those who were read from it: as given names they are nobody's,
        and whose kin they are is no news of them ("Kit's aunt, Mrs. Odile Orr, wants one").
        """
        words = words_of(sentence.replace("&", " and "))
        sure: dict[Words, set[int]] = {}
        taken: set[int] = set()
        for at, size, family in self._families_in(words):
            taken.update(range(at, at + size))
            before = words[at - 1] if at and words[at].touches else None
            given = self.givens.get(before.folded, set()) if before and before.capital else set()
            titled = self._titled(family, before)
            exact = self.families[family] & given or titled
            exact = self._with_suffix(exact, words[at - 1 : at + size + 1]) if at else exact
            exact = exact or self._by_mark(family, before, words[at + size : at + size + 1])
            if exact and before is not None:
                taken.add(at - 1)
            if not exact and self._is_another(family, before):
                continue
            sure.setdefault(family, set()).update(exact)
        found = {home for family, homes in sure.items() for home in homes or self.families[family]}
        theirs = [bool(besides) and (w.owns or w.folded in besides) for w in words]
        taken.update(at for at in range(len(words)) if theirs[at])
        free = (
            at for at in range(len(words)) if not theirs[at] and not (besides and refers(words, at))
        )
        places = [at for at in free if self._is_spoken_of(words, at, taken, found)]
        pairs = self._pairs([words[at] for at in range(len(words)) if not theirs[at]])
        lone = (self._given(words, at) for at in places)
        found |= {home for homes in lone for home in (homes & pairs or homes)}
        found |= {home for at in range(len(words)) for home in self._office(words, at)}
        found = found or pairs
        return sorted(found | (self._misspelt(words) if besides or not found else set()))

    def _is_spoken_of(
        self, words: Sequence[Word], at: int, taken: Collection[int], found: set[int]
    ) -> bool:
        """True for a lone given name that may be a guest's: of nobody else's child or wife.

        Beside households that are named already it is none of their own, and no word of a name.
        """
        if is_introduced(words, at):
            return False
        if not found or is_joined(words, at, taken):
            return True
        before = words[at - 1] if at and words[at].touches else None
        led = before is not None and before.capital and not before.first
        word = words[at]
        own = (given for given, bearers in self.givens.items() if bearers & found)
        told = tells(words, at) or refers(words, at)
        others = at not in taken and word.folded in self.givens and not told
        return others and not (led or word.aside or any(is_form(word.folded, g) for g in own))

    def _office(self, words: Sequence[Word], at: int) -> set[int]:
        """Those of whom "the colonel" speaks: who have that title, where no name stands by it."""
        behind = words[at + 1] if at + 1 < len(words) else None
        named = behind is not None and behind.touches and behind.capital
        if not at or words[at - 1].folded != "the" or named:
            return set()
        title = known_title(words[at].folded)
        if title is None or title.plural or title.group in _NO_OFFICE:
            return set()
        return self.offices.get(title.canonical, set())

    def with_capitals(self, sentence: str) -> str:
        """A sentence that was typed without any, with capitals for names of the list and titles."""
        known = {word for family in self.families for word in family} | set(self.givens)

        def is_name(word: str) -> bool:
            folded = fold(_OWNED.sub("", word))
            forms = (folded, folded.removesuffix("s"), folded.removesuffix("es"))
            return not known.isdisjoint(forms) or known_title(folded) is not None

        return _WORD.sub(lambda m: m[0].capitalize() if is_name(m[0]) else m[0], sentence)

    def _is_another(self, family: Words, before: Word | None) -> bool:
        """True for "Walt Penhew" where several are Penhews, and none of them Walt or Walter."""
        homes = self.families[family]
        if before is None or not before.capital or len(homes) == 1:
            return False
        known = is_given(before.folded) or may_be_given(before.folded)
        own = (given for given, bearers in self.givens.items() if bearers & homes)
        return known and not any(is_form(before.folded, given) for given in own)

    def _with_suffix(self, homes: set[int], said: Sequence[Word]) -> set[int]:
        """Of several of a name the ones whose suffix stands behind it: "Mr. Tobias Orr, Sr."."""
        suffix = meanings("suffix").get(said[-1].folded) if len(homes) > 1 else None
        return homes & self.suffixed.get((said[0].folded, suffix or ""), set()) or homes

    def _by_mark(self, family: Words, before: Word | None, behind: Sequence[Word]) -> set[int]:
        """Of several of a family those of an initial ("P. Penhew"), or of a suffix ("Penhew Jr.").

        Another given name before it is another's.
        """
        homes = self.families[family]
        initial = before.folded if before is not None and before.capital else ""
        if len(initial) == 1:
            givens = (held for given, held in self.givens.items() if given.startswith(initial))
            return homes & {home for held in givens for home in held}
        suffix = meanings("suffix").get(behind[0].folded) if behind and not initial else None
        bearers = (held for (_, own), held in self.suffixed.items() if suffix and own == suffix)
        return homes & {home for held in bearers for home in held}

    def _misspelt(self, words: Sequence[Word]) -> set[int]:
        """Those whose family name is a slip away: behind a given name of theirs, or of one alone.

        "Ambrose Penhwe" is Ambrose Penhew, "the Penhwes" the only family of nearly that name.
        """
        found: set[int] = set()
        for at, word in enumerate(words):
            short = not word.capital or len(word.folded) < _SHORTEST_SLIP
            if short or is_street(words, at + 1):
                continue
            near = self._near(word.folded)
            before = words[at - 1] if at and word.touches else None
            if before is not None and before.capital and before.folded not in _OF_LABELS:
                found |= near & self.givens.get(before.folded, set())
            elif len(near) == 1 and not may_be_given(word.folded):
                found |= near
        return found

    def _near(self, said: str) -> set[int]:
        forms = {said, said.removesuffix("s")}
        return {
            home
            for family, homes in self.families.items()
            if any(near_word(form, family[-1]) for form in forms)
            for home in homes
        }

    def _titled(self, family: Words, before: Word | None) -> set[int]:
        """Of several of a family the ones who have the title that stands before it."""
        title = known_title(before.folded) if before is not None and before.capital else None
        homes = self.titles.get((family, title.canonical), set()) if title is not None else set()
        return homes & self.families[family]

    def _families_in(self, words: Sequence[Word]) -> Iterator[tuple[int, int, Words]]:
        for at, word in enumerate(words):
            for size in range(min(self.longest, len(words) - at), 0, -1):
                run = words[at : at + size]
                if not any(each.capital for each in run) or is_street(words, at + size):
                    continue
                family = self._family(tuple(each.folded for each in run))
                if family is not None and not (word.first and size == 1 and self._verb(words, at)):
                    yield at, size, family
                    break

    def _family(self, said: Words) -> Words | None:
        """The family of some words, or of one that stands for several of it ("the Penhews")."""
        *front, last = said
        forms = (last, last.removesuffix("s"), last.removesuffix("es"))
        return next((f for form in forms if (f := (*front, form)) in self.families), None)

    def _given(self, words: Sequence[Word], at: int) -> set[int]:
        """The households of a lone given name that no more than a few have."""
        word = words[at]
        homes = self.givens.get(word.folded) or self._called(word)
        following = words[at + 1] if at + 1 < len(words) else None
        suffix = meanings("suffix").get(following.folded) if following is not None else None
        if suffix is not None and word.capital:
            return self.suffixed.get((word.folded, suffix), set())
        double = (word.folded, following.folded if following is not None else "")
        another = following is not None and following.capital and following.touches
        if another and double in self.doubles:
            homes, another = self.doubles[double], False
        another = another or self._shares_other_name(words, at)
        before = words[at - 1] if at and word.touches else None
        of_title = before is not None and before.capital and not before.first
        exact = word.folded in self.givens  # "Vi"; a form of a name is longer
        short = not word.capital or len(word.folded) < _SHORTEST - exact
        if not 0 < len(homes) <= _BEARERS or short or another:
            return set()
        if word.first and self._verb(words, at):
            return set()
        title = known_title(before.folded) if of_title and before is not None else None
        own = self.titled.get((word.folded, title.canonical), set()) if title else homes
        return homes & own  # "Sister Mary" has no family name, "Dr. Penn" no given name

    def _shares_other_name(self, words: Sequence[Word], at: int) -> bool:
        """True for the Sal of "Sal and Connie Gallo" where the list has no Gallos."""
        joint, other, family = (*words[at + 1 : at + 4], None, None, None)[:3]
        if joint is None or other is None or family is None or joint.folded != "and":
            return False
        whole = other.capital and family.capital and family.touches and not family.owns
        return whole and self._family((family.folded,)) is None

    def _called(self, word: Word) -> set[int]:
        """Those of whose given names a word is a known form: "Gus" of Augustus, no month."""
        if not word.capital or word.folded in words_of_kind("no-name"):
            return set()
        short = may_be_given(word.folded)
        found = (
            bearers
            for given, bearers in self.givens.items()
            if is_known_form(word.folded, given) or (short and is_form(word.folded, given))
        )
        return {place for bearers in found for place in bearers}

    def _pairs(self, words: Sequence[Word]) -> set[int]:
        """The households that have both of two given names a sentence joins ("Wren and Kit")."""
        found: set[int] = set()
        for one, joint, other in zip(words, words[1:], words[2:], strict=False):
            if joint.folded == "and" and one.capital and other.capital:
                both = self.givens.get(one.folded, set()) & self.givens.get(other.folded, set())
                found |= both
        return found

    @staticmethod
    def _verb(words: Sequence[Word], at: int) -> bool:
        """True for the "Will" or "May" of a question."""
        return is_verb(words[at].folded)


def _nickname(person: Person) -> list[str]:
    return fold(person.nickname or "").split()[:1]


def _families(home: Household) -> Iterator[Words]:
    for person in home.people:
        if person.family and len(person.family) > 1:
            family = tuple(fold(person.family).split())
            if family and known_title(family[0]) is None:  # "Mr. and Mrs. Penhew" read as a name
                yield family
    if home.label is not None:
        words = [word for word in fold(home.label.text).split() if word not in _OF_LABELS]
        if words:
            yield tuple(words)
            yield from ((*words[:-1], words[-1].removesuffix(end)) for end in ("s", "es"))


_OF_LABELS = frozenset(("the", "family", "and", "families"))
