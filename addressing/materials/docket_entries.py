"""What may stand in a docket: its tables and keys, and what each may be."""

import re
from collections import Counter
from typing import Annotated, Literal

from pydantic import Field, field_validator

from addressing.materials.days import Day
from addressing.materials.fallbacks import Fallbacks
from addressing.materials.layouts import Align
from addressing.materials.reading import Entry
from addressing.materials.sheeting import SheetEntry
from addressing.records.docket import USUAL_STAMP, Overs, Post, Wedding
from addressing.records.postage import SuitePiece

PieceKind = Literal[
    "outer", "inner", "return", "reply", "place-card", "escort-card", "reply-number"
]
Name = Annotated[str, Field(min_length=1)]
Side = Annotated[float, Field(ge=10, le=100)]
Points = Annotated[float, Field(gt=0, le=1000)]
FEATURE = re.compile(r"[!-<>-~]{4}(=[0-9]{1,2})?")


class JobEntry(Entry):
    """The job itself."""

    date: Day | None = None
    posting: Day | None = None
    answers: str | None = Field(default=None, min_length=1)


class HostsEntry(Entry):
    """To whom replies go."""

    name: str | None = None
    street: str | None = None
    unit: str | None = None
    city: str | None = None
    region: str | None = None
    postcode: str | None = None
    country: str = "US"

    @field_validator("country")
    @classmethod
    def _code(cls, value: str) -> str:
        if len(value) != len("US") or not (value.isascii() and value.isalpha() and value.isupper()):
            raise ValueError('give the two letters of ISO 3166-1, such as "US" or "CA".')
        return value


class WordingEntry(Entry):
    """How envelopes are worded."""

    style: Name = "formal"
    couple: Literal["traditional", "both-names"] = "traditional"
    outer: Name | None = None
    inner: Name | None = None
    cards: Name | None = None
    order: Literal["rank", "woman", "list"] = "rank"
    apart: Literal["two-lines", "one-line"] = "two-lines"
    junior: Literal["comma", "plain", "spelled"] = "comma"
    honorable: Literal["as-listed", "office", "local"] = "as-listed"
    children: Literal["names", "titles"] = "names"
    master_until: int = Field(default=8, ge=1, le=18)
    guest: Literal["capital", "small"] = "capital"
    military: Literal["rank-first", "name-first"] = "rank-first"
    doctor: Literal["spelled", "short", "physicians"] = "spelled"
    same_title: Literal["each", "together"] = "each"
    untitled: Literal["given", "full"] = "given"
    numbers: Literal["figures", "words"] = "figures"
    flap: Literal["address", "names"] = "address"
    place_card: Literal["name", "table"] = "name"


class PiecesEntry(Entry):
    """Which pieces are made."""

    make: list[PieceKind] = Field(default=["outer", "inner", "return", "reply"], min_length=1)
    wave: list[Name] = Field(default_factory=list)


Capitals = Literal["as-written", "small", "small-as-written", "all"]
Tracking = Annotated[int, Field(ge=-50, le=500)]


class HandEntry(Entry):
    """How lines are lettered."""

    face: Name | None = None
    features: list[str] | None = None
    tracking: Tracking | None = None
    word_space: Annotated[int, Field(ge=-100, le=500)] | None = None
    capitals: Capitals | None = None
    fallback: Fallbacks | None = None

    @field_validator("features")
    @classmethod
    def _tags(cls, value: list[str] | None) -> list[str] | None:
        if any(FEATURE.fullmatch(each) is None for each in value or ()):
            raise ValueError('write tags of four letters, with a value if not 1: "onum=0".')
        tags = [each[:4] for each in value or ()]
        if twice := [tag for tag, times in Counter(tags).items() if times > 1]:
            raise ValueError(f'name each feature once: "{twice[0]}" is there twice.')
        return value


class AddressEntry(HandEntry):
    """The hand of all lines but the names; `size` is a part of the names'."""

    size: Annotated[float, Field(ge=0.2, le=2)] | None = None
    ink: Name | None = None


class PieceEntry(HandEntry):
    """How one kind of piece is set; what is left out is as the kind's default."""

    kind: PieceKind
    layout: Name | None = None
    ink: Name | None = None
    stock: Name | None = None
    size: Points | None = None
    largest: Points | None = None
    smallest: Points | None = None
    align: Align | None = None
    method: Name | None = None
    tighten: Annotated[int, Field(ge=0, le=30)] | None = None
    balance: bool | None = None
    underbase: Name | None = None
    choke_mm: Annotated[float, Field(gt=0, le=1)] | None = None
    hits: dict[Name, Annotated[int, Field(ge=1, le=5)]] | None = None
    varnish: Literal["all", "names", "address"] | None = None
    varnish_ink: Name | None = None
    die_since: Day | None = None
    address: AddressEntry | None = None


class NamedEntry(Entry):
    """A shop, by its name on the shelf."""

    name: Name


class DeviceEntry(NamedEntry):
    """A device by its name, and how envelopes go through it where that isn't as its record says."""

    way: Literal["envelope", "turned", "sheet", "carrier"] | None = None
    sheet: Name | None = None
    tray: Name = "main"


class PrintEntry(Entry):
    """The order of print."""

    order: Literal["list", "key", "zip"] = "list"
    batch: int | None = Field(default=None, ge=0, le=1000)


class FilesChoice(Entry):
    """How plates are made, where the shop's or device's record isn't to say."""

    type: Literal["outlines", "live"] | None = None


class OversEntry(Entry):
    """Extras."""

    percent: float = Field(default=15.0, ge=0, le=1000)
    minimum: int = Field(default=10, ge=0, le=1_000_000)
    pack: int = Field(default=25, ge=1, le=1_000_000)
    keepsakes: int = Field(default=0, ge=0, le=1_000)
    late_percent: float = Field(default=0.0, ge=0, le=100)
    method: dict[Name, Annotated[float, Field(ge=0, le=1000)]] = Field(default_factory=dict)

    def overs(self) -> Overs:
        """The record."""
        own = tuple(self.method.items())
        late = self.late_percent
        return Overs(self.percent, self.minimum, self.pack, self.keepsakes, own, late)


class PostEntry(Entry):
    """How posted pieces go."""

    stamps: int = Field(default=1, ge=0, le=12)
    machine_readable: bool = False
    envelope_paper: Name | None = None
    reply_stamps: int | None = Field(default=None, ge=0, le=12)
    stamp_mm: list[Side] = Field(default=list(USUAL_STAMP), min_length=2, max_length=2)

    def post(self) -> Post:
        """The record."""
        own = self.model_dump()
        wide, high = own.pop("stamp_mm")
        return Post(stamp=(wide, high), **own)


class WeddingEntry(Entry):
    """What the calendar is counted from."""

    date: Day | None = None
    minutes_per_suite: int = Field(default=6, ge=0, le=600)
    rest: list[Day] = Field(default_factory=list)

    def wedding(self) -> Wedding:
        """The record."""
        return Wedding(self.date, self.minutes_per_suite, tuple(self.rest))


class SuiteEntry(Entry):
    """One thing in the envelope."""

    name: Name
    width_mm: float = Field(default=0.0, ge=0, le=1000)
    height_mm: float = Field(default=0.0, ge=0, le=1000)
    paper: str = ""
    caliper_pt: float = Field(default=0.0, ge=0, le=500)
    count: int = Field(default=1, ge=1, le=100)
    grams: float | None = Field(default=None, ge=0, le=5000)
    stiff: bool = False
    uneven: bool = False
    pack: int = Field(default=1, ge=1, le=100_000)
    liner: bool = False
    layers: int = Field(default=1, ge=1, le=100)
    reply: bool = False
    only: list[Name] = Field(default_factory=list)
    shop: Name | None = None

    def piece(self) -> SuitePiece:
        """The record."""
        return SuitePiece(
            name=self.name,
            width=self.width_mm,
            height=self.height_mm,
            paper=self.paper,
            caliper=self.caliper_pt,
            count=self.count,
            grams=self.grams,
            stiff=self.stiff,
            uneven=self.uneven,
            pack=self.pack,
            liner=self.liner,
            layers=self.layers,
            reply=self.reply,
            only=tuple(self.only),
            shop=self.shop,
        )


class WordsEntry(Entry):
    """Words of the designer's own for one household."""

    household: Name
    outer: list[Name] = Field(default_factory=list)
    inner: list[Name] = Field(default_factory=list)
    sure: bool = False


class DocketFile(Entry):
    """A whole docket."""

    job: JobEntry = Field(default_factory=JobEntry)
    hosts: HostsEntry | None = None
    wording: WordingEntry = Field(default_factory=WordingEntry)
    pieces: PiecesEntry = Field(default_factory=PiecesEntry)
    piece: list[PieceEntry] = Field(default_factory=list)
    device: DeviceEntry | None = None
    shop: NamedEntry | None = None
    print: PrintEntry = Field(default_factory=PrintEntry)
    files: FilesChoice = Field(default_factory=FilesChoice)
    overs: OversEntry = Field(default_factory=OversEntry)
    post: PostEntry = Field(default_factory=PostEntry)
    columns: dict[str, Name] = Field(default_factory=dict)
    wedding: WeddingEntry = Field(default_factory=WeddingEntry)
    suite: list[SuiteEntry] = Field(default_factory=list)
    sheet: list[SheetEntry] = Field(default_factory=list)
    words: list[WordsEntry] = Field(default_factory=list)
    fallback: Fallbacks = Field(default_factory=dict)
