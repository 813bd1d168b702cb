"""The list as it was read: people, addresses, households, and what was repaired on the way."""

from dataclasses import dataclass
from enum import StrEnum

from addressing.records.swiftly import swiftly
from addressing.where import Where


@swiftly
@dataclass(frozen=True, slots=True)
class Cited:
    """Words, and the cells that they were read from."""

    text: str
    cells: tuple[Where, ...] = ()


class Kind(StrEnum):
    """How a person is invited."""

    NAMED = "named"
    GUEST = "guest"
    """A companion whose name the list doesn't give ("and Guest", "+1")."""
    CHILD = "child"


@swiftly
@dataclass(frozen=True, slots=True)
class Person:
    """One invited person; what the list doesn't say is None.

    `title` is in the table's canonical form ("Mr.", "Captain", "The Reverend"), an unknown one as
    listed. One name alone is `given`. A guest without a name has every name None.
    """

    title: str | None = None
    given: str | None = None
    family: str | None = None
    suffix: str | None = None
    credentials: tuple[str, ...] = ()
    nickname: str | None = None
    age: int | None = None
    kind: Kind = Kind.NAMED
    cells: tuple[Where, ...] = ()
    joined: bool = False
    """True when the list joins this person to the one before ("… and …" in one cell), or has the
    two as partners of one family name in columns of their own."""
    table: Cited | None = None
    """The table at which they sit, as listed ("4", "Head table")."""


@swiftly
@dataclass(frozen=True, slots=True)
class Address:
    """Where the envelope goes, as read: repaired, never styled.

    `street` holds number, directions, name and suffix as written, or the box or rural route;
    several lines are parted by a line feed; no unit. `region` is the code in US, CA and AU, else
    as written. `country` is ISO 3166-1 alpha-2. `doubt` is the probability that a field is wrong.
    """

    street: Cited | None = None
    unit: Cited | None = None
    recipient_extra: Cited | None = None
    city: Cited | None = None
    region: Cited | None = None
    postcode: Cited | None = None
    country: Cited | None = None
    doubt: float = 0.0
    unit_word: str | None = None
    """What the header calls a unit that stands in its cell without a designator ("Apartment")."""


@swiftly
@dataclass(frozen=True, slots=True)
class Household:
    """Those who get one set of envelopes.

    `label` is the name of a household that names nobody, as listed: "The Wexcombe Family", a
    company. `family` is what the list says of unnamed family ("and family").
    """

    key: str
    people: tuple[Person, ...]
    label: Cited | None = None
    family: Cited | None = None
    address: Address | None = None
    by_hand: bool = False
    rows: tuple[Where, ...] = ()
    """The first cell of each row that it was gathered from."""
    wave: Cited | None = None
    """The round of invitations that the list gives it ("B")."""
    side: Cited | None = None
    """Whose guests they are, as listed."""
    suite: Cited | None = None
    """Which set of pieces the list gives them."""
    inner: Cited | None = None
    """The lines that the list itself has for the inner envelope, parted by line breaks."""
    counted: Cited | None = None
    """How many the list says are invited, where one row is the household; any words."""
    other_address: Address | None = None
    """A second address of the list, which doesn't hold on the day of posting."""
    number: int = 0
    """What stands on its reply card, from 1; in a job's folder it stays the household's own."""

    @property
    def is_one(self) -> bool:
        """True for one person, without family or companion."""
        return len(self.people) == 1 and self.label is None and self.family is None

    @property
    def name(self) -> str:
        """What to call the household in a message or on a proof."""
        if self.label is not None:
            return self.label.text
        for person in self.people:
            if person.given or person.family:
                parts = (person.given or person.title, person.family, person.suffix)
                return " ".join([part for part in parts if part])
        return "(no name)"


@swiftly
@dataclass(frozen=True, slots=True)
class Repair:
    """A change that cannot alter meaning, made on the way and logged."""

    where: Where
    was: str
    now: str
    why: str


@dataclass(frozen=True, slots=True)
class UnusedRow:
    """A row that was read and not used, and why."""

    sheet: str | None
    row: int
    why: str


@dataclass(frozen=True, slots=True)
class ColumnReading:
    """What a column was taken to mean; `how` is "header", "content" or "docket"."""

    sheet: str | None
    letters: str
    header: str
    meaning: str
    how: str


@dataclass(frozen=True, slots=True)
class GuestList:
    """The whole list. `rows` counts the non-empty rows below the headers of all tables read."""

    file: str
    sha256: str
    households: tuple[Household, ...]
    rows: int
    unused: tuple[UnusedRow, ...] = ()
    columns: tuple[ColumnReading, ...] = ()
    repairs: tuple[Repair, ...] = ()


@dataclass(frozen=True, slots=True)
class KnownPerson:
    """Somebody of a household as last read: words folded for comparing, "" for what isn't said."""

    title: str
    given: str
    family: str
    suffix: str
    kind: Kind


@dataclass(frozen=True, slots=True)
class KnownHousehold:
    """A household as last read, folded enough to recognise it in the next version of the list.

    `street`, `unit` and `area` (postcode, else town) are the parts of its door; `letters` is a
    fingerprint of all its words, `name` what to call it, `number` that of its reply card. `gone`
    says that the last version didn't have it: its key is never given to another.
    """

    key: str
    people: tuple[KnownPerson, ...]
    label: str
    street: str
    unit: str
    area: str
    letters: str
    name: str
    gone: bool = False
    number: int = 0
    perhaps: tuple[str, str] | None = None
    """The key of one who has gone and may be this one, and why that isn't certain."""


@dataclass(frozen=True, slots=True)
class ListVersion:
    """A version of a job's list: its file's name and digest, and a fingerprint of what was read.

    Saved again by a spreadsheet, the same list is another file and reads the same.
    """

    file: str
    sha256: str
    letters: str

    def is_as(self, other: "ListVersion") -> bool:
        """True for the same list, whatever its file is called."""
        return self.sha256 == other.sha256 or self.letters == other.letters


@dataclass(frozen=True, slots=True)
class Versions:
    """The versions of a list that a job was made from, the one now read last.

    `later` is the version that came after it where it is an earlier one, else None.
    """

    read: tuple[ListVersion, ...] = ()
    later: ListVersion | None = None
