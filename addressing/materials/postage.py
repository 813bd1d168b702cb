"""The user's postage: `postage.toml` beside the docket, else the packaged invented example."""

import re
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path

from babel import Locale
from babel.numbers import is_currency
from pydantic import Field

from addressing.materials.amounts import Amount
from addressing.materials.days import Day
from addressing.materials.key_places import Loc
from addressing.materials.reading import Entry, Problem, checked, read_toml, wrong
from addressing.records.postage import PostClass, PostRates

_NO_COUNTRIES = frozenset({"EU", "EZ", "QO", "UN", "XA", "XB", "ZZ"})
"""Codes of two letters that the CLDR has a name for and that are no countries."""


class StepEntry(Entry):
    """A price up to a weight."""

    oz: float = Field(gt=0, le=2000)
    price: Amount


class ClassEntry(Entry):
    """A class of mail."""

    steps: list[StepEntry] = Field(min_length=1)
    nonmachinable: Amount = "0"


class DestinationEntry(Entry):
    """The classes to one destination, the cheaper first."""

    letter: ClassEntry | None = None
    large: ClassEntry | None = None

    def named(self) -> Iterator[tuple[str, ClassEntry]]:
        """The classes that are given, in the order in which they are tried."""
        both = (("letter", self.letter), ("large", self.large))
        yield from ((name, each) for name, each in both if each is not None)


class PostageFile(Entry):
    """The whole file."""

    currency: str
    as_of: Day
    home: DestinationEntry
    abroad: DestinationEntry = Field(default_factory=DestinationEntry)
    country: dict[str, DestinationEntry] = Field(default_factory=dict)
    stamps: list[Amount] = Field(default_factory=list)

    def destinations(self) -> Iterator[tuple[Loc, DestinationEntry]]:
        """Every destination with its place in the file."""
        yield ("home",), self.home
        yield ("abroad",), self.abroad
        for code, each in self.country.items():
            yield ("country", code), each


def read_postage(path: Path, *, invented: bool = False) -> PostRates:
    """The postage in a TOML file.

    Raises:
        Fault: exit 3, `postage-…`: it can't be read, the currency is unknown, steps don't rise.
    """
    source = read_toml("postage", path)
    entry = checked(PostageFile, source)
    problems = list(_problems(entry))
    if problems:
        raise wrong(source, problems)
    return PostRates(
        currency=entry.currency,
        as_of=entry.as_of,
        home=tuple(_class(*each) for each in entry.home.named()),
        abroad=tuple(_class(*each) for each in entry.abroad.named()),
        invented=invented,
        countries=tuple(
            (code, tuple(_class(*named) for named in each.named()))
            for code, each in entry.country.items()
        ),
        stamps=tuple(sorted(map(Decimal, entry.stamps), reverse=True)),
    )


def _class(name: str, entry: ClassEntry) -> PostClass:
    steps = tuple((step.oz, Decimal(step.price)) for step in entry.steps)
    return PostClass(name, steps, Decimal(entry.nonmachinable))


def _problems(entry: PostageFile) -> Iterator[Problem]:
    if not (re.fullmatch("[A-Z]{3}", entry.currency) and is_currency(entry.currency)):
        mend = 'give the three letters of ISO 4217, such as "USD".'
        yield Problem(("currency",), f'"{entry.currency}" is no currency.', mend)
    yield from _codes(entry)
    for loc, each in entry.destinations():
        for name, post_class in each.named():
            weights = [step.oz for step in post_class.steps]
            if weights != sorted(set(weights)):
                mend = "let each be heavier."
                yield Problem((*loc, name, "steps"), "the steps are out of order.", mend)


def _codes(entry: PostageFile) -> Iterator[Problem]:
    """Countries that there aren't, stamps that are worth nothing."""
    known = Locale("en").territories.keys() - _NO_COUNTRIES
    for code in entry.country:
        if not (re.fullmatch("[A-Z]{2}", code) and code in known):
            mend = 'give the two letters of ISO 3166-1, such as "CA".'
            yield Problem(("country", code), f'"{code}" is no country.', mend)
    for at, stamp in enumerate(entry.stamps):
        if not Decimal(stamp):
            yield Problem(("stamps", at), "a stamp is worth something.", "take it out.")
