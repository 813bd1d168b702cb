"""The forms of a style, tried in order: the first whose conditions hold writes the line."""

import string
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Final

from addressing.records.docket import WordingChoices
from addressing.records.guests import Person
from addressing.records.styles import TITLE_IS, Form, Style
from addressing.wording.couples import (
    go_by_one_name,
    has_a_name_before,
    husband_and_wife,
    likeness,
)
from addressing.wording.persons import (
    CIVIL,
    family,
    full_name,
    given,
    goes_by_given,
    has_words_behind,
    inner_title,
    is_doctor,
    is_for_both,
    is_kin,
    is_named_by_husband,
    is_scholar,
    plural,
    rank,
    short,
    spelled,
    spoken_plural,
    title_of,
    unpointed,
    with_suffix,
)
from addressing.wording.tongues import by_sound, is_of_many_tongues, joints, tongue_word


@dataclass(frozen=True, slots=True)
class Case:
    """What conditions are asked of: one person, or two in the order of the line."""

    one: Person
    other: Person | None
    traditional: bool
    together: bool = False
    by_given: bool = False

    @property
    def both(self) -> tuple[Person, ...]:
        """The people of the case."""
        return (self.one,) if self.other is None else (self.one, self.other)

    @property
    def couple(self) -> tuple[Person | None, Person | None]:
        """(husband, wife), where the titles tell."""
        return (None, None) if self.other is None else husband_and_wife(self.one, self.other)

    @property
    def one_title(self) -> bool:
        """True when both bear one title."""
        return len({title_of(person) for person in self.both}) == 1


def _wants_full_name(case: Case) -> bool:
    husband = case.couple[0]
    return husband is not None and inner_title(husband) is None


def _plural_before_names(case: Case) -> bool:
    """Ranks and doctors, and Misses, who can only be sisters; Messrs. might be father and son."""
    return case.one_title and _of_rank_or_sisters(case)


def _one_spoken_title(case: Case) -> bool:
    if len({inner_title(person) for person in case.both}) > 1:
        return False
    return bool(spoken_plural(case.one)) and _of_rank_or_sisters(case)


def _of_rank_or_sisters(case: Case) -> bool:
    return rank(case.one) < CIVIL or title_of(case.one) == "Miss"


CONDITIONS: Final[dict[str, Callable[[Case], bool]]] = {
    "title": lambda case: title_of(case.one) is not None,
    "spoken title": lambda case: inner_title(case.one) is not None,
    "title before given name": lambda case: goes_by_given(case.one),
    "title for both": lambda case: all(map(is_for_both, case.both)) and case.one_title,
    "named by husband": lambda case: any(map(is_named_by_husband, case.both)),
    "kinship": lambda case: is_kin(case.one),
    "given name": lambda case: bool(case.one.given) and not is_named_by_husband(case.one),
    "family name": lambda case: bool(case.one.family),
    "one family": lambda case: case.other is not None and go_by_one_name(case.one, case.other),
    "husband and wife": lambda case: case.couple[0] is not None,
    "wife without given name": lambda case: case.couple[1] is not None and not case.couple[1].given,
    "full-name title": _wants_full_name,
    "one title": lambda case: case.one_title and bool(plural(case.one)),
    "one spoken title": _one_spoken_title,
    "plural before names": _plural_before_names,
    "given names": lambda case: all(person.given for person in case.both),
    "no given names": lambda case: not any(person.given for person in case.both),
    "no titles": lambda case: not any(title_of(person) for person in case.both),
    "suffixes": lambda case: any(map(has_words_behind, case.both)),
    "couple by one name": lambda case: case.traditional,
    "titles together": lambda case: case.together,
    "untitled by given name": lambda case: case.by_given,
}
"""Each condition of records/styles.py, as a question to the people."""


_Step = tuple[str, int, Callable[[Person], str] | None]
"""Words, then what a person's names say: whose (0, 1), and how; None for nothing."""

KINDS_KEPT = 4096
"""Kinds of people whose form is remembered."""


def kind_of(person: Person) -> tuple[object, ...]:
    """All of a person that conditions and titles ask for; names only whether they are there."""
    there = (not person.given, not person.family, not person.suffix)
    return (person.title, person.credentials, is_named_by_husband(person), there)


def kinds_of(one: Person, other: Person) -> tuple[object, ...]:
    """The kinds of two people, how much their family names are alike, and all that tells more."""
    alike = likeness(one, other)
    apart = alike and (has_a_name_before(one.given) or has_a_name_before(other.given))
    return kind_of(one), kind_of(other), alike, apart


class Writer:
    """Writes people as a style does on one kind of envelope ("outer" or "inner").

    >>> form = Form(1, ("inner",), (), "{one.title} {one.family}", (), "", "")
    >>> writer = Writer(Style("plain", "", (form,)), "inner", WordingChoices())
    >>> writer.one(Person("Dr.", "Odile", "Farrenby"))
    'Doctor Farrenby'
    """

    def __init__(self, style: Style, envelope: str, choices: WordingChoices) -> None:
        """`choices` are the docket's: how couples, Jr. and doctors are written."""
        self.style = style
        self._envelope, self._choices = envelope, choices
        self._together = choices.same_title == "together"
        self._by_given = choices.untitled == "given"
        self._brief = _BRIEF.get(choices.doctor, _nobody)
        self._forms = tuple(form for form in style.forms if envelope in form.on)
        self._traditional = choices.couple == "traditional"
        self._junior = choices.junior
        self._known: dict[tuple[object, ...], tuple[tuple[_Step, ...], str, bool]] = {}

    def one(self, person: Person) -> str:
        """One person alone."""
        return self.written(kind_of(person), (person,))[0]

    def two(self, one: Person, other: Person) -> str:
        """Two people on one line, in that order."""
        return self.joined(one, other)[0]

    def joined(self, one: Person, other: Person) -> tuple[str, str]:
        """Two people on one line, and the word that joins them."""
        return self.written(kinds_of(one, other), (one, other))

    def name_each(self, one: Person, other: Person) -> bool:
        """Whether the two are written each as if alone, sharing neither title nor family name."""
        docket = self._traditional, self._together, self._by_given
        said = string.Formatter().parse(self._form(Case(one, other, *docket)).write)
        return {"one.alone", "other.alone"} <= {name for _, name, _, _ in said}

    def joint(self, one: Person, other: Person) -> str:
        """The word that joins two people: of their titles' language, else the style's "and"."""
        return tongue_word("and", (one, other)) or self._and

    @cached_property
    def _and(self) -> str:
        """The style's own word; a style for one person needn't have it."""
        return self.style.word("and")

    def name(self, person: Person) -> str:
        """Given names, family name and suffix; Esq. only where no title stands before."""
        return self._less_points(full_name(person, self._junior), person)

    def _first(self, person: Person) -> str:
        """Given names and suffix; an initial before no suffix keeps its point."""
        names = with_suffix(given(person) or "", person, self._junior)
        return self._less_points(names, person) if person.suffix else names

    def for_both(self, person: Person) -> str:
        """The title that the list has once for several, as the style writes it."""
        return self._by_title("plural", person) if self.style.titles else ""

    def written(self, kind: tuple[object, ...], people: tuple[Person, ...]) -> tuple[str, str]:
        """One or two people of a kind, and what joins them; how is worked out once for the kind."""
        known = self._known.get(kind)
        if known is None:
            if len(self._known) >= KINDS_KEPT:
                self._known.clear()
            known = self._known[kind] = self._worked_out(people)
        steps, joint, gives_way = known
        words = [literal + said(people[who]) if said else literal for literal, who, said in steps]
        text = " ".join("".join(words).split())
        return (by_sound(text, joint) if gives_way else text), joint

    def _worked_out(self, people: tuple[Person, ...]) -> tuple[tuple[_Step, ...], str, bool]:
        """The steps, the joining word, and whether it may give way to the sound behind it."""
        other = people[1] if len(people) > 1 else None
        docket = self._traditional, self._together, self._by_given
        case = Case(people[0], other, *docket)
        joint = self.joint(*case.both) if other else ""
        return tuple(self._writer_of(case).steps(case)), joint, len(joints(joint)) > 1

    def _writer_of(self, case: Case) -> "Writer":
        """Beside a title of another language Dr. and Prof. stay: Dr. Wexcombe und Frau Lorne."""
        if case.other is None or not any(map(is_of_many_tongues, case.both)):
            return self
        if tongue_word("and", case.both) is None:
            return self
        writer = Writer(self.style, self._envelope, self._choices)
        writer._brief = is_of_many_tongues
        return writer

    def steps(self, case: Case) -> Iterator[_Step]:
        """The form for a case, what its titles say filled in."""
        form = self._form(case)
        husband, wife = case.couple
        people = {"one": case.one, "other": case.other, "husband": husband, "wife": wife}
        for literal, name, _, _ in string.Formatter().parse(form.write):
            if name == "and":
                joint = self.joint(*case.both) if case.other is not None else ""
                yield literal + joint, 0, None
                continue
            who, _, part = (name or "").partition(".")
            person = people.get(who)
            if person is None:
                yield literal, 0, None
            elif part in BY_TITLE:
                yield literal + self._by_title(part, person), 0, None
            else:
                yield literal, 0 if person is case.one else 1, self._by_name(part)

    def _form(self, case: Case) -> Form:
        return next(
            form
            for form in self._forms
            if form.people == len(case.both) and all(_holds(each, case) for each in form.when)
        )

    def _by_title(self, part: str, person: Person) -> str:
        """A part that the title says, shortened where style or docket want that."""
        said = BY_TITLE[part](person) or ""
        brief = self.style.short_titles or self._brief(person)
        return self.titled(said, brief=brief)

    def titled(self, title: str, *, brief: bool = False) -> str:
        """A title as the style has it: with its points or without, shortened where it is brief."""
        if not self.style.points:
            return unpointed(title, brief=brief)
        return (short(title) or "") if brief else title

    def _less_points(self, name: str, person: Person) -> str:
        """A name whose suffix or Esq. bears no point where the style has none."""
        bare = not self.style.points and has_words_behind(person)
        return name.removesuffix(".") if bare else name

    def _by_name(self, part: str) -> Callable[[Person], str]:
        """How a part that names a person is written."""
        return {
            "alone": self.one,
            "name": self.name,
            "first": self._first,
            "given": lambda person: given(person) or "",
            "family": lambda person: family(person) or "",
        }[part]


def _nobody(_: Person) -> bool:
    return False


_BRIEF: Final = {"short": is_doctor, "physicians": is_scholar}
"""Whose title is short, by what the docket says of doctors."""


BY_TITLE: Final[dict[str, Callable[[Person], str | None]]] = {
    "title": spelled,
    "spoken": inner_title,
    "plural": plural,
    "spoken_plural": spoken_plural,
    "kin": lambda person: person.title,
}
"""The parts of a person that a title says."""


def _holds(condition: str, case: Case) -> bool:
    asked = condition.removeprefix("not ")
    return _true(asked, case) is (asked == condition)


def _true(asked: str, case: Case) -> bool:
    if asked in CONDITIONS:
        return CONDITIONS[asked](case)
    prefix, who = next(each for each in TITLE_IS.items() if asked.startswith(each[0]))
    person = case.one if who == "one" else case.couple[0]
    wanted = asked.removeprefix(prefix)
    return person is not None and wanted in (title_of(person), spelled(person))


def choices_of(form: Form) -> WordingChoices:
    """The docket's choices under which a form is taken."""
    return WordingChoices(
        couple="both-names" if "not couple by one name" in form.when else "traditional",
        same_title="together" if "titles together" in form.when else "each",
    )


def failing(style: Style) -> tuple[tuple[Form, str], ...]:
    """The style's own forms whose example doesn't come out as they say, and what comes out."""
    wrong = []
    for form in style.forms[: style.own]:
        writer = Writer(style, form.on[0], choices_of(form))
        people = form.example
        text = writer.one(people[0]) if form.people == 1 else writer.two(people[0], people[1])
        if text != form.gives:
            wrong.append((form, text))
    return tuple(wrong)
