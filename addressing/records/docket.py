"""The job's choices. Every field has a default, so that a list alone is enough."""

from dataclasses import dataclass, field, replace

from addressing.records.pieces import CARDS
from addressing.records.postage import SuitePiece
from addressing.records.sheets import SheetChoice

DEFAULT_MAKE = ("outer", "inner", "return", "reply")


@dataclass(frozen=True, slots=True)
class Hosts:
    """To whom replies go, and what stands on the flap; None or "" means not given."""

    name: str | None = None
    street: str | None = None
    unit: str | None = None
    city: str | None = None
    region: str | None = None
    postcode: str | None = None
    country: str = "US"


@dataclass(frozen=True, slots=True)
class WordingChoices:
    """How envelopes are worded.

    `style` is a style on the shelf ("formal", "relaxed", "postal"); `outer` and `inner` name
    another for that envelope, `cards` for place and escort cards. `couple` is "traditional"
    (Mr. and Mrs. Tobias X) or "both-names".
    `order` is "rank" (who bears rank, office or doctorate goes first, else the list's order),
    "woman" (rank first, else a woman before a man, where titles tell) or "list".
    `apart` says how two of different surnames from two cells stand: "two-lines" or "one-line".
    `junior`: "comma" (, Jr.), "plain" ( Jr.) or "spelled" (, junior).
    `honorable`: "as-listed", "office" where a judge or senator is The Honorable outside, or "local"
    where a sheriff or council member is, too.
    `military`: "rank-first", or "name-first" where a junior officer's or soldier's rank and service
    stand below the name outside (the old form).
    `children`: "names" (one line, given names) or "titles" (Miss Linnet Wexcombe, each on a line);
    a boy is Master until he is `master_until` years old. `guest`: "capital" (and Guest) or "small".
    `doctor`: "spelled" (Doctor), "short" (Dr.), or "physicians" (Dr. for one with a Ph.D.).
    `same_title`: two of one surname and one civil title are named "each" (Mr. Alaric Penhew and
    Mr. Tobias Penhew) or "together" (The Messrs.).
    `untitled`: inside, where nobody has a title, guests stand by "given" name or in "full".
    `numbers`: house number 1 and streets up to 10th in "figures" or "words" (One; Seventh Street).
    `flap`: the return address alone ("address"), or below the hosts' names ("names").
    `place_card`: the guest's name alone ("name"), or their table below it ("table").
    """

    style: str = "formal"
    couple: str = "traditional"
    outer: str | None = None
    inner: str | None = None
    cards: str | None = None
    order: str = "rank"
    apart: str = "two-lines"
    junior: str = "comma"
    honorable: str = "as-listed"
    children: str = "names"
    master_until: int = 8
    guest: str = "capital"
    military: str = "rank-first"
    doctor: str = "spelled"
    same_title: str = "each"
    untitled: str = "given"
    numbers: str = "figures"
    flap: str = "address"
    place_card: str = "name"

    def style_of(self, kind: str) -> str:
        """The name of the style for a kind of piece."""
        own = {"outer": self.outer, "inner": self.inner}.get(kind)
        return own or (self.cards if kind in CARDS else None) or self.style


@dataclass(frozen=True, slots=True)
class OwnWords:
    """Name lines of the designer's own for one household, by its key; () leaves them to the style.

    `sure` says that they differ from the list on purpose.
    """

    household: str
    outer: tuple[str, ...] = ()
    inner: tuple[str, ...] = ()
    sure: bool = False


@dataclass(frozen=True, slots=True)
class FallbackChoice:
    """The face for words of a script (ISO 15924) that another lacks, or "capitals".

    `size` is a part of the line's size; None makes small letters of one height. `tracking` None
    is the line's. The face "as-written" for capitals leaves them to the line's own face.
    """

    script: str
    face: str
    size: float | None = None
    tracking: int | None = None


@dataclass(frozen=True, slots=True)
class AddressChoice:
    """How all lines but the names are lettered, where that is another hand.

    `face` None is the names' face, `ink` None their ink. `size` is a part of the names' size.
    `capitals` is "as-written", "small" (small letters, and words all in capitals, as small
    capitals), "small-as-written" (small letters alone) or "all"; `tracking` is in thousandths of an
    em.
    """

    face: str | None = None
    size: float = 0.62
    features: tuple[tuple[str, int], ...] = ()
    tracking: int = 0
    capitals: str = "as-written"
    fallback: tuple[FallbackChoice, ...] = ()
    ink: str | None = None
    word_space: int | None = None
    """Space more between words, thousandths of an em; None is the face's own."""


@dataclass(frozen=True, slots=True)
class PieceChoice:
    """How one kind of piece is set. `size` (pt) None fits the largest that suits the whole set.

    `smallest` is the least size that is allowed at all, in points. `features` are OpenType tags
    and values, laid over the face's own; `fallback` is laid over the docket's. With `address`,
    face, features, tracking and capitals are those of the names, and `size` too; without, of all
    lines.
    """

    kind: str
    layout: str
    face: str
    ink: str
    stock: str
    size: float | None = None
    largest: float = 26.0
    smallest: float = 9.0
    align: str | None = None
    features: tuple[tuple[str, int], ...] = ()
    tracking: int = 0
    capitals: str = "as-written"
    fallback: tuple[FallbackChoice, ...] = ()
    address: AddressChoice | None = None
    method: str | None = None
    """How it is printed ("letterpress"); None: as the device or shop prints."""
    tighten: int = 10
    """How much closer (thousandths of an em) letters may stand in a line that else wouldn't fit: so
    little that nobody sees it (common practice, no source)."""
    balance: bool = True
    """Whether a line of names that fits, but dwarfs the lines below it, is broken all the same."""
    underbase: str | None = None
    """The ink that lies under all others, white as a rule; None: none."""
    choke: float = 0.1
    """How far the base is drawn in, in mm, at the set's size."""
    hits: tuple[tuple[str, int], ...] = ()
    """(ink, how often it is laid down on this stock): white on dark paper often takes two passes
    (common practice, no source). Inks that aren't named are laid down as the press's record says,
    else once."""
    varnish: str | None = None
    """Over which lines a varnish lies: one of OVER (records/pages.py); None: none."""
    varnish_ink: str = "Spot Varnish"
    die_since: str | None = None
    """The day (ISO 8601) since when the shop keeps its die standing; None: none is made yet."""
    word_space: int | None = None
    """Space more between words, thousandths of an em; None is the face's own."""
    kept: bool = False
    """True where `size` is that of prints: one piece may then be set as small as `smallest`."""


Size = tuple[float, float]
"""Width and height in mm."""
USUAL_STAMP: Size = (22.0, 25.0)
"""A stamp as most are (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Post:
    """How posted pieces go: the stamps on each outer, and whether machines must read them."""

    stamps: int = 1
    machine_readable: bool = False
    envelope_paper: str | None = None
    """The paper of the envelopes, as people write it: "80 lb text"."""
    reply_stamps: int | None = None
    """The stamps on each reply envelope; None: one, where outers have any."""
    stamp: Size = USUAL_STAMP
    """How wide and high one is, in mm, with its teeth."""

    def stamps_on(self, kind: str) -> int:
        """How many stamps a kind of piece bears."""
        if kind != "reply":
            return self.stamps
        return min(self.stamps, 1) if self.reply_stamps is None else self.reply_stamps


@dataclass(frozen=True, slots=True)
class FeedChoice:
    """How envelopes go through the device; what is None is as the device's record says.

    `way` is one of WAYS (records/lays.py), `sheet` the page that they are laid on, `tray` the
    user's own name for a tray.
    """

    way: str | None = None
    sheet: str | None = None
    tray: str = "main"


@dataclass(frozen=True, slots=True)
class PrintChoice:
    """The order of print: `order` is one of ORDERS (records/runs.py).

    `batch` is how many envelopes make a pile: None leaves it to the device's load, 0 makes none.
    """

    order: str = "list"
    batch: int | None = None


@dataclass(frozen=True, slots=True)
class Wedding:
    """The day that everything is counted back from, and how long one suite takes to fill.

    On days of `rest` nobody works or posts, as on public holidays.
    """

    date: str | None = None
    minutes_per_suite: int = 6
    rest: tuple[str, ...] = ()


PLACES = ("home", "shop")
"""Where a job is printed, for its overs."""


@dataclass(frozen=True, slots=True)
class Overs:
    """Extras: the larger of `minimum` and `percent` of what is needed, then whole packs.

    `keepsakes` come on top, and `late` per cent of what the list leaves open. `methods` are (way of
    printing, "home" or "shop"; its own percentage).
    """

    percent: float = 15.0
    minimum: int = 10
    pack: int = 25
    keepsakes: int = 0
    methods: tuple[tuple[str, float], ...] = ()
    late: float = 0.0

    def by(self, ways: tuple[str | None, ...]) -> "Overs":
        """The rule for what is printed so: the first of `ways` that has its own percentage."""
        own = dict(self.methods)
        percent = next((own[way] for way in ways if way in own), self.percent)
        return replace(self, percent=percent, methods=())


def default_pieces() -> tuple[PieceChoice, ...]:
    """White on deep green, the inner in an inner envelope, the reply in its own small one.

    Cards are flat, in black on ivory; the reply card's number is small.
    """
    green = "deep-green"
    return (
        PieceChoice("outer", "a7", "cormorant-garamond", "White", green),
        PieceChoice("inner", "a7-inner", "cormorant-garamond", "White", green),
        PieceChoice(
            "return", "a7", "cormorant-garamond", "White", green, largest=13.0, smallest=7.0
        ),
        PieceChoice(
            "reply", "a1", "cormorant-garamond", "White", green, largest=16.0, smallest=8.0
        ),
        PieceChoice("place-card", "place-card", "cormorant-garamond", "Black", "ivory"),
        PieceChoice("escort-card", "place-card", "cormorant-garamond", "Black", "ivory"),
        PieceChoice(
            "reply-number", "reply-card", "eb-garamond", "Black", "ivory", largest=9.0, smallest=6.0
        ),
    )


@dataclass(frozen=True, slots=True)
class Docket:
    """Everything that was chosen for a job. `date` is ISO 8601 and the only date ever printed.

    `posting` is the day on which it goes to the post (ISO 8601): it chooses between two addresses.
    `waves` are the rounds of invitations that are printed now; none chosen means all.
    """

    date: str | None = None
    posting: str | None = None
    answers: str | None = None
    """The folder of another job of the same list, counted from the docket's, that keeps the
    client's answers; None keeps them here."""
    waves: tuple[str, ...] = ()
    hosts: Hosts | None = None
    wording: WordingChoices = WordingChoices()
    make: tuple[str, ...] = DEFAULT_MAKE
    pieces: tuple[PieceChoice, ...] = field(default_factory=default_pieces)
    device: str | None = None
    shop: str | None = None
    feed: FeedChoice = FeedChoice()
    run: PrintChoice = PrintChoice()
    overs: Overs = Overs()
    post: Post = Post()
    wedding: Wedding = Wedding()
    columns: tuple[tuple[str, str], ...] = ()
    words: tuple[OwnWords, ...] = ()
    sheets: tuple[SheetChoice, ...] = ()
    """Kinds of which several share a sheet."""
    suite: tuple[SuitePiece, ...] = ()
    """What goes into the envelope beside the other envelopes."""
    fallback: tuple[FallbackChoice, ...] = ()
    """The faces that step in on every piece."""
    type: str | None = None
    """How letters stand on plates, one of TYPES (records/live.py); None leaves it to the shop's or
    device's record."""
    path: str | None = None
    sha256: str | None = None

    def sheet(self, kind: str) -> SheetChoice | None:
        """How a kind of piece shares sheets; None when each has a page of its own."""
        return next((choice for choice in self.sheets if kind in choice.kinds), None)

    def piece(self, kind: str) -> PieceChoice | None:
        """The choice for a kind of piece."""
        return next((choice for choice in self.pieces if choice.kind == kind), None)
