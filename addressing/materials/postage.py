"""The user's postage: `postage.toml` beside the docket, else the packaged invented example."""

from collections.abc import Iterable
from decimal import Decimal
from pathlib import Path

from babel.numbers import is_currency
from pydantic import Field

from addressing.materials.amounts import Amount
from addressing.materials.days import Day
from addressing.materials.reading import Entry, Loc, Problem, checked, read_toml, wrong
from addressing.records.postage import PostClass, PostRates


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

    def named(self) -> Iterable[tuple[str, ClassEntry]]:
        """The classes that are given, in the order in which they are tried."""
        both = (("letter", self.letter), ("large", self.large))
        return tuple((name, each) for name, each in both if each is not None)


class PostageFile(Entry):
    """The whole file."""

    currency: str
    as_of: Day
    home: DestinationEntry
    abroad: DestinationEntry = Field(default_factory=DestinationEntry)


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
    )


def _class(name: str, entry: ClassEntry) -> PostClass:
    steps = tuple((step.oz, Decimal(step.price)) for step in entry.steps)
    return PostClass(name, steps, Decimal(entry.nonmachinable))


def _problems(entry: PostageFile) -> Iterable[Problem]:
    if not is_currency(entry.currency):
        mend = 'give the three letters of ISO 4217, such as "USD".'
        yield Problem(("currency",), f'"{entry.currency}" is no currency.', mend)
    for destination, each in (("home", entry.home), ("abroad", entry.abroad)):
        for name, post_class in each.named():
            weights = [step.oz for step in post_class.steps]
            if weights != sorted(set(weights)):
                loc: Loc = (destination, name, "steps")
                yield Problem(loc, "the steps are out of order.", "let each be heavier.")
