"""The name lines of a household, outer and inner, in any style.

People whom the list joins stand on one line with "and"; people from two cells or rows on two lines.
With an inner envelope, companions and children stand on the inner only (several etiquette guides).
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from functools import cache
from typing import Final

from addressing.records.docket import WordingChoices
from addressing.records.guests import Household, Kind, Person
from addressing.records.pieces import Line, Role
from addressing.records.styles import Style
from addressing.where import Where, together
from addressing.wording.casing import cased_firm
from addressing.wording.couples import in_order, is_married_pair, share_family, woman_first
from addressing.wording.firm_breaks import firm_breaks
from addressing.wording.forms import KINDS_KEPT, Writer, kinds_of
from addressing.wording.old_forms import rank_below
from addressing.wording.persons import (
    as_honorable,
    child_title,
    family,
    given,
    is_for_both,
    opening_titles,
    title_of,
    with_suffix,
    written_titles,
)
from addressing.wording.tongues import by_sound, joints, tongue_word

_PAIR = 2
_ORDERS: Final[dict[str, Callable[[tuple[Person, ...]], tuple[Person, ...]]]] = {
    "rank": in_order,
    "woman": woman_first,
    "list": lambda people: people,
}
"""Who goes first, by what the docket says."""
_BEHIND_NAMES = frozenset(("Jr", "Sr", "Esq", "Esquire"))
"""What belongs to the name before a comma."""


class NameLines:
    """The name lines of households in one style, on one kind of envelope."""

    def __init__(self, style: Style, envelope: str, choices: WordingChoices) -> None:
        """`envelope` is "outer" or "inner"; the choices are the docket's."""
        self._writer = Writer(style, envelope, choices)
        self._word = style.word
        self._and = style.word("and")
        self._choices = choices
        self._ordered = _ORDERS[choices.order]
        self._in_full = style.titles and not style.short_titles
        self._small = choices.guest == "small"
        self._couples: dict[tuple[object, ...], tuple[bool, bool]] = {}
        self._honored = envelope == "outer" and choices.honorable != "as-listed"
        self._local = choices.honorable == "local"
        self._name_first = envelope == "outer" and choices.military == "name-first"
        self._beside_titles: NameLines | None = None
        if envelope == "inner" and choices.untitled == "given" and style.titles:
            self._beside_titles = NameLines(style, envelope, replace(choices, untitled="full"))

    def of(self, household: Household, *, everybody: bool) -> tuple[Line, ...]:
        """The lines, top first; with `everybody`, companions and children follow the adults.

        Beside somebody with a title nobody stands by the given name alone.
        """
        if self._beside_titles is not None and _some_have_titles(household):
            return self._beside_titles.of(household, everybody=everybody)
        if self._honored:
            people = [as_honorable(person, local=self._local) for person in household.people]
            household = replace(household, people=tuple(people))
        named = _named(household)
        lines = self._adults(household, named)
        plain = household.family is None and len(named) == len(household.people)
        return self._with_others(household, lines) if everybody and not plain else lines

    def of_children(self, household: Household, children: Sequence[Person]) -> tuple[Line, ...]:
        """The lines of these children, below whatever stands for the grown; none without any."""
        return self._children(household, list(children)) if children else ()

    def _adults(self, household: Household, named: list[Person]) -> tuple[Line, ...]:
        if household.label is not None:
            text = cased_firm(household.label.text)
            return (Line(text, Role.NAME, household.label.cells, firm_breaks(text)),)
        if len(named) == _PAIR:
            return self._couple(*named)
        if not named:
            named = [p for p in household.people if p.kind is Kind.CHILD and p.given]
        if len(named) == 1:
            return self._alone(named[0])
        return tuple([line for party in _parties(named) for line in self._party(party)])

    def _alone(self, person: Person, joint: str = "") -> tuple[Line, ...]:
        """One alone; a junior officer in the old form, rank and service below the name.

        Behind somebody else on lines of their own `joint` ("and") begins the line.
        """
        below = self._below(person)
        text = self._writer.one(person) if below is None else self._writer.name(person)
        if joint:
            text = by_sound(f" {joint} {text}", joint).strip()
        name = self._line(text, (person,))
        if below is None:
            return (name,)
        return (name, Line(below, Role.NAME, person.cells, tuple(_behind_commas(below))))

    def _below(self, person: Person) -> str | None:
        """What stands below a junior officer's name in the old form."""
        return rank_below(person) if self._name_first and self._in_full else None

    def _in_old_form(self, people: Sequence[Person]) -> bool:
        """Whether one of two has the rank below the name, so that each needs lines of their own.

        Where the two share a title or a name ("Lieutenant and Mrs. Tobias Wexcombe") the rank
        stands before it in the old form, too.
        """
        if all(self._below(person) is None for person in people):
            return False
        return self._writer.name_each(people[0], people[1])

    def _one_below_the_other(self, people: Sequence[Person]) -> tuple[Line, ...]:
        joint = self._writer.joint(people[0], people[1])
        return (*self._alone(people[0]), *self._alone(people[1], joint))

    def _couple(self, one: Person, other: Person) -> tuple[Line, ...]:
        """Two alone; those from two cells in their order, a line each unless they belong together.

        How that is depends on their kinds only, and is worked out once for them.
        """
        kinds = kinds_of(one, other)
        known = self._couples.get(kinds)
        if known is None:
            if len(self._couples) >= KINDS_KEPT:
                self._couples.clear()
            known = self._couples[kinds] = self._arranged(one, other)
        turned, together = known
        people = (other, one) if turned else (one, other)
        if (together or other.joined) and self._name_first and self._in_old_form(people):
            return self._one_below_the_other(people)
        if together or other.joined:
            text, joint = self._writer.written(kinds_of(*people) if turned else kinds, people)
            return (self._line(text, (one, other) if other.joined else people, joint),)
        return (*self._alone(people[0]), *self._alone(people[1]))

    def _arranged(self, one: Person, other: Person) -> tuple[bool, bool]:
        """Whether the second goes first, and whether both stand on one line."""
        first, second = self._in_order((one, other))
        on_one = self._choices.apart == "one-line" or _are_one_party(first, second)
        return first is not one, on_one

    def _in_order(self, people: tuple[Person, ...]) -> tuple[Person, ...]:
        return self._ordered(people)

    def _party(self, party: tuple[Person, ...]) -> tuple[Line, ...]:
        """One line for one or two people; a couple with others, or several, are parted by line."""
        if len(party) == 1:
            return self._alone(party[0])
        if len(party) == _PAIR:
            return self._pair(party)
        if _are_one_listing(party):
            names = [given(person) or "" for person in party[:-1]]
            names[0] = " ".join(filter(None, (self._writer.for_both(party[0]), names[0])))
            joint = tongue_word("and", party) or self._and
            write = self._writer.name if party[0].title else self._writer.one
            return (self._listing(names, write(party[-1]), party, joint),)
        first = party[:_PAIR]
        if share_family(*first):
            others = [line for p in party[_PAIR:] for line in self._alone(p)]
            return (*self._pair(first), *others)
        return tuple([line for person in party for line in self._alone(person)])

    def _pair(self, party: tuple[Person, ...]) -> tuple[Line, ...]:
        ordered = self._in_order(party)
        if self._name_first and self._in_old_form(ordered):
            return self._one_below_the_other(ordered)
        text, joint = self._writer.joined(*ordered)
        return (self._line(text, party, joint),)

    def _line(self, text: str, people: Sequence[Person], joint: str = "") -> Line:
        breaks = name_breaks(text, joint or self._and)
        return Line(text, Role.NAME, cells_of(people), breaks)

    def _with_others(self, household: Household, lines: tuple[Line, ...]) -> tuple[Line, ...]:
        """Add "and Guest" to the last line, then a line of children or unnamed family."""
        guests = [p for p in household.people if p.kind is Kind.GUEST]
        children = [p for p in household.people if p.kind is Kind.CHILD and p.given]
        if guests and lines:
            lines = self._with_guests(lines, household, guests)
        if children and not _are_adults(household):
            lines = (*lines, *self._children(household, children))
        elif _unnamed_family(household) and household.label is None:
            cells = household.family.cells if household.family else cells_of(household.people)
            lines = (*lines, Line(self._small_words("family", household), Role.NAME, cells))
        return lines

    def _small_words(self, what: str, household: Household) -> str:
        """“and Family” and its like in the language of the titles, else the style's."""
        words = tongue_word(what, _named(household))
        if words is None:
            words = self._word(what)
            return words.lower() if self._small and what.startswith("guest") else words
        return words

    def _with_guests(
        self, lines: tuple[Line, ...], household: Household, guests: list[Person]
    ) -> tuple[Line, ...]:
        """“and Guest” behind the last name, or below a rank that stands under it."""
        words = self._small_words("guests" if len(guests) > 1 else "guest", household)
        *above, line = lines
        if line.text in map(self._below, _named(household)):
            return (*lines, Line(words, Role.NAME, cells_of(guests)))
        text = f"{line.text} {words}"
        cells = together((line.cells, cells_of(guests)))
        joint = tongue_word("and", _named(household)) or self._and
        return (*above, Line(text, line.role, cells, name_breaks(text, joint)))

    def _children(self, household: Household, children: list[Person]) -> tuple[Line, ...]:
        """Given names, oldest first where all ages are known; in full where the family differs.

        With titles, where the docket wants that, each in full on a line.
        """
        if all(child.age is not None for child in children):
            children = sorted(children, key=lambda child: -(child.age or 0))
        parents = {family(p) for p in household.people if p.kind is Kind.NAMED}
        if self._choices.children == "titles":
            shared = next(iter(parents)) if len(parents) == 1 else None
            return tuple(self._titled(child, shared) for child in children)
        names = [
            self._writer.name(child)
            if child.family and parents and family(child) not in parents
            else with_suffix(given(child) or "", child, "plain")  # a comma would part two names
            for child in children
        ]
        joint = tongue_word("and", _named(household)) or self._and
        return (self._listing(names[:-1], names[-1], children, joint),)

    def _titled(self, child: Person, shared: str | None) -> Line:
        """A child in full, behind the title that the list gives; `shared` is the parents' name."""
        full = child if child.family else replace(child, family=shared)
        title = child_title(child, self._choices.master_until)
        text = " ".join(filter(None, (self._writer.titled(title or ""), self._writer.name(full))))
        return self._line(text, (child,))

    def _listing(
        self, names: Sequence[str], last: str, people: Sequence[Person], joint: str
    ) -> Line:
        """As in "Linnet, Corwin and Bram"; a break may fall behind a comma or before "and"."""
        text = by_sound(f"{', '.join(names)} {joint} {last}", joint) if names else last
        return self._line(text, people, joint)


def _some_have_titles(household: Household) -> bool:
    """Whether some of a household bear titles and others none."""
    return len({title_of(person) is None for person in _named(household)}) > 1


def _named(household: Household) -> list[Person]:
    named = Kind.NAMED  # asked for once: an enumeration's member takes ten times as long as a name
    return [person for person in household.people if person.kind is named]


def _parties(people: Sequence[Person]) -> list[tuple[Person, ...]]:
    """Runs of people whom the list joins, or who belong together by title or by name."""
    parties: list[list[Person]] = []
    for person in people:
        if parties and _belong_together(parties[-1][-1], person):
            parties[-1].append(person)
        else:
            parties.append([person])
    return [tuple(party) for party in parties]


def _belong_together(one: Person, other: Person) -> bool:
    """Joined in the list, or one party by title or name."""
    return other.joined or _are_one_party(one, other)


def _are_one_party(one: Person, other: Person) -> bool:
    """Husband and wife by title, or two of one family and no titles.

    The last are one household's "Tobias and Odile Wexcombe", each on a row (common practice, no
    source); with titles they might be brother and sister, who stand on two lines.
    """
    if is_married_pair(one, other):
        return True
    plain = all(p.given and not (title_of(p) or p.suffix) for p in (one, other))
    return plain and share_family(one, other)


def _are_one_listing(party: tuple[Person, ...]) -> bool:
    """Several of one family without titles, or with one for all ("Tobias, Odile and Linnet")."""
    one_family = all(share_family(party[0], person) for person in party[1:])
    one_title = len({person.title for person in party}) == 1
    said_once = party[0].title is None or is_for_both(party[0])
    return one_family and one_title and said_once and all(p.given and not p.suffix for p in party)


def cells_of(people: Sequence[Person]) -> tuple[Where, ...]:
    """The cells of several people, each once, in order."""
    return together([person.cells for person in people])


def name_breaks(text: str, and_word: str = "and") -> tuple[int, ...]:
    """Where a line of names may break: before "and", last first; behind The Honorable and its like.

    A title is never parted from a name but there ("and" begins the new line: etiquette guides).
    """
    joining = _joining(and_word)
    ands = [place + 1 for word in joining if word in text for place in _places(text, word)]
    if not ands and ", " not in text and not text.startswith("The "):
        return ()  # most lines
    inside = [place for place in ands if not _joins_titles(text, place)]
    return (*reversed(inside), *_behind_commas(text), *_behind_title(text, and_word))


def _behind_commas(text: str) -> Iterator[int]:
    """The places behind commas, save before what belongs to a name."""
    for place in _places(text, ", "):
        if text[place + 2 :].partition(" ")[0].rstrip(".,") not in _BEHIND_NAMES:
            yield place + 2


@cache
def _joining(and_word: str) -> tuple[str, ...]:
    """A joining word between blanks, and what it may become before a sound."""
    return tuple(f" {word} " for word in joints(and_word))


def _places(text: str, part: str) -> list[int]:
    """Where a part begins in a text, overlapping or not."""
    places: list[int] = []
    at = text.find(part)
    while at >= 0:
        places.append(at)
        at = text.find(part, at + 1)
    return places


def _behind_title(text: str, and_word: str) -> tuple[int, ...]:
    if not text.startswith("The "):
        return ()
    title = next((each for each in opening_titles() if text.startswith(f"{each} ")), None)
    if title is None or text[len(title) + 1 :].startswith(f"{and_word} "):
        return ()
    return (len(title) + 1,)


def _joins_titles(text: str, place: int) -> bool:
    """True for the "and" of "Mr. and Mrs. Tobias Wexcombe": one name follows for both titles."""
    before = text[:place].strip()
    return before in written_titles() or all(w in written_titles() for w in before.split())


def _are_adults(household: Household) -> bool:
    """Children who stand alone are written as the adults of their envelope."""
    return household.label is None and all(p.kind is not Kind.NAMED for p in household.people)


def _unnamed_family(household: Household) -> bool:
    unnamed = any(p.kind is Kind.CHILD and not p.given for p in household.people)
    return household.family is not None or unnamed
