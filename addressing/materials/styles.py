"""Styles of wording: one TOML file each; a style may stand on another, its base."""

import string
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Literal

from pydantic import Field

from addressing.materials.key_places import Loc
from addressing.materials.nearest import did_you_mean, unknown
from addressing.materials.reading import Entry, Problem, Source, checked, read_toml, wrong
from addressing.records.guests import Person
from addressing.records.styles import CONDITIONS, PARTS, PEOPLE, Form, Style, is_condition
from addressing.where import Where

MOST_BASES = 8
"""Styles that may stand on one another; more is a ring."""


class PersonEntry(Entry):
    """One person of an example."""

    title: str | None = None
    given: str | None = None
    family: str | None = None
    suffix: str | None = None

    def person(self) -> Person:
        """The record."""
        return Person(self.title, self.given, self.family, self.suffix)


class FormEntry(Entry):
    """One form."""

    people: Literal[1, 2]
    on: list[Literal["outer", "inner"]] = Field(min_length=1)
    when: list[str]
    write: str = Field(min_length=1, max_length=200)
    example: list[PersonEntry]
    gives: str = Field(min_length=1)
    source: str = Field(min_length=1)

    def form(self) -> Form:
        """The record."""
        people = tuple(each.person() for each in self.example)
        return Form(
            self.people,
            tuple(self.on),
            tuple(self.when),
            self.write,
            people,
            self.gives,
            self.source,
        )


class WordsEntry(Entry):
    """The style's own words; what is left out is as the base has it."""

    and_: str | None = Field(default=None, alias="and", min_length=1)
    guest: str | None = Field(default=None, min_length=1)
    guests: str | None = Field(default=None, min_length=1)
    family: str | None = Field(default=None, min_length=1)
    guest_of: str | None = Field(default=None, alias="guest of", min_length=1)
    table: str | None = Field(default=None, min_length=1)


class StyleFile(Entry):
    """A whole style."""

    title: str = Field(min_length=1)
    base: str | None = None
    address: Literal["spelled", "postal"] | None = None
    capitals: bool | None = None
    titles: bool | None = None
    short_titles: bool | None = None
    points: bool | None = None
    words: WordsEntry = Field(default_factory=WordsEntry)
    form: list[FormEntry] = Field(default_factory=list)


def read_style(
    key: str, own: Mapping[str, Path], packaged: Mapping[str, Path], depth: int = 0
) -> Style:
    """The style of that key: a user's own before the package's, its base's forms behind its own.

    A user's own may bear the name of a packaged one and have that as its base.

    Raises:
        Fault: exit 3; `style-missing`, `-unreadable`, `-syntax`, `-unknown` (its base) or `-wrong`.
    """
    path = own[key] if key in own else packaged[key]
    source = read_toml("style", path)
    entry = checked(StyleFile, source)
    problems = [each for place, form in enumerate(entry.form) for each in _problems(place, form)]
    if problems:
        raise wrong(source, problems)
    base = None
    if entry.base is not None:
        known = {name: file for name, file in own.items() if file != path}
        below = _base(source, entry.base, known, packaged, depth)
        base = read_style(below, known, packaged, depth + 1)
    return _whole(key, source, entry, base)


def _base(
    source: Source, base: str, own: Mapping[str, Path], packaged: Mapping[str, Path], depth: int
) -> str:
    if base not in own and base not in packaged:
        raise unknown("style", base, {**packaged, **own}, Where(str(source.path), None, "base"))
    if depth == MOST_BASES or {**packaged, **own}[base] == source.path:
        raise wrong(source, [Problem(("base",), "it stands on itself.", "name another base.")])
    return base


def _whole(key: str, source: Source, entry: StyleFile, base: Style | None) -> Style:
    """The style with what it has from its base.

    A style without a base must have a last form for everybody, and every word.
    """
    below = base if base is not None else Style(key, entry.title, ())
    words = entry.words.model_dump(by_alias=True, exclude_none=True)
    style = Style(
        key=key,
        title=entry.title,
        own=len(entry.form),
        forms=(*(each.form() for each in entry.form), *below.forms),
        address=entry.address or below.address,
        capitals=below.capitals if entry.capitals is None else entry.capitals,
        titles=below.titles if entry.titles is None else entry.titles,
        short_titles=below.short_titles if entry.short_titles is None else entry.short_titles,
        points=below.points if entry.points is None else entry.points,
        words=tuple((dict(below.words) | words).items()),
    )
    problems = list(_gaps(style))
    if problems:
        raise wrong(source, problems)
    return style


def _gaps(style: Style) -> Iterator[Problem]:
    mend = 'give it, or stand on another style with base = "formal".'
    for name in ("and", "guest", "guests", "family"):
        if name not in dict(style.words):
            yield Problem(("words", name), "it is missing.", mend)
    for people in (1, 2):
        for envelope in ("outer", "inner"):
            if not any(
                form.people == people and envelope in form.on and not form.when
                for form in style.forms
            ):
                which = f"no form without conditions is for {people} on the {envelope} envelope."
                yield Problem(("form",), which, mend)


def _problems(place: int, form: FormEntry) -> Iterator[Problem]:
    loc = ("form", place)
    for condition in form.when:
        if not is_condition(condition):
            mend = did_you_mean(condition.removeprefix("not "), CONDITIONS)
            yield Problem((*loc, "when"), f'"{condition}" is no condition.', mend)
    if len(form.example) != form.people:
        text = f"the form is for {form.people}, the example has {len(form.example)}."
        yield Problem((*loc, "example"), text, "give as many people as the form is for.")
    try:
        parsed = list(string.Formatter().parse(form.write))
    except ValueError:
        yield Problem((*loc, "write"), "a brace stands alone.", "write {one.title} and the like.")
        return
    said = [name for _, name, _, _ in parsed if name is not None]
    yield from _said_problems((*loc, "write"), said, form)


def _said_problems(loc: Loc, said: list[str], form: FormEntry) -> Iterator[Problem]:
    """What a form would write and can't."""
    known = ("and", *(f"{who}.{part}" for who in PEOPLE for part in PARTS))
    for name in said:
        if name not in known:
            text = f"{{{name}}} is nothing that can be written."
            yield Problem(loc, text, did_you_mean(name, known))
    named = {name.partition(".")[0] for name in said}
    if named & {"husband", "wife"} and "husband and wife" not in form.when:
        text = "husband and wife are known only where the form asks for them."
        yield Problem(loc, text, 'add "husband and wife" to `when`.')
    alone = any(name.endswith(".alone") for name in said)
    if form.people == 1 and (alone or named & {"other", "and"}):
        mend = "name nobody but {one}, and neither {and} nor {one.alone}."
        yield Problem(loc, "the form is for one person.", mend)
