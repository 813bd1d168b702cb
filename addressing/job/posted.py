"""What the finished envelopes weigh and what the post asks: for each destination and in all."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from addressing.estimating import assemble, postage_for
from addressing.faults import Exit, Fault
from addressing.job.counting import replies_abroad
from addressing.job.reading import Reading, home_of
from addressing.materials.shelf import Shelf
from addressing.records.docket import Docket
from addressing.records.postage import Assembly, Postage, PostRates
from addressing.records.shelf import Layout
from addressing.where import Where


@dataclass(frozen=True, slots=True)
class Posted:
    """`envelopes` has (postage, how many) for each destination; None: no class takes it.

    `reply` is the reply envelope as it comes back, at home's rates; None where none is made.
    """

    assembly: Assembly
    rates: PostRates
    envelopes: tuple[tuple[str, Postage | None, int], ...]
    reply: "Reply | None" = None
    stamps: int = 1
    """Stamps that the docket keeps room for on an outer."""

    @property
    def total(self) -> Decimal:
        """Postage for all that have a price, the replies' stamps too."""
        priced = [(postage, count) for _, postage, count in self.envelopes]
        if self.reply is not None:
            priced.append((self.reply.postage, self.reply.count))
        prices = (postage.price * count for postage, count in priced if postage)
        return sum(prices, Decimal(0))


@dataclass(frozen=True, slots=True)
class Reply:
    """The reply envelope with what comes back in it; `count` of them come from home."""

    assembly: Assembly
    postage: Postage | None
    count: int
    with_card: bool
    """False where the docket marks nothing that comes back: then it was weighed empty."""


def post_job(reading: Reading, shelf: Shelf) -> Posted:
    """Weigh one envelope with the docket's suite in it, and price every household's.

    Raises:
        Fault: the docket doesn't say what is in the envelope, or how a paper weighs (exit 3); the
            postage can't be read.
    """
    docket = reading.docket
    outer = next((kind for kind in reading.kinds if kind.kind == "outer"), None)
    paper = docket.post.envelope_paper
    if outer is None or not docket.suite or not paper:
        raise _unsaid(docket, made=outer is not None)
    rates = shelf.postage()
    layouts = [kind.setting.layout for kind in reading.kinds if kind.kind in ("outer", "inner")]
    reply = [kind.setting.layout for kind in reading.kinds if kind.kind == "reply"]
    try:
        assembly = assemble([(layout, paper) for layout in (*layouts, *reply)], docket.suite)
        back = _reply(reading, rates, [(layout, paper) for layout in reply])
    except ValueError as error:
        raise Fault(
            Exit.INPUT,
            "paper-unknown",
            f"{error}.",
            'Write it as "110 lb cover", "80 lb text" or "300 gsm".',
            Where(docket.path or "docket", None, "docket:suite"),
        ) from error
    counts = _destinations(reading, rates)
    layout = outer.setting.layout
    found = tuple(
        (destination, postage_for(destination, layout, assembly, rates), count)
        for destination, count in counts.items()
    )
    return Posted(assembly, rates, found, back, docket.post.stamps)


def _unsaid(docket: Docket, *, made: bool) -> Fault:
    """What is lacking for an envelope to be weighed: itself, what is in it, or its paper."""
    place = Where(docket.path or "docket", None, "docket:suite")
    if not made:
        text = "No outer is made, so there is nothing to post."
        return Fault(Exit.INPUT, "outer-missing", text, 'Put "outer" into [pieces] make.', place)
    if not docket.suite:
        text = "The docket doesn't say what goes into the envelope."
        mend = "Write one [[suite]] for each thing in it: name, width_mm, height_mm, paper."
        return Fault(Exit.INPUT, "suite-missing", text, mend, place)
    text = "The docket doesn't say of what paper the envelope is."
    mend = 'Write it under [post] as the packet says it: envelope_paper = "80 lb text".'
    return Fault(Exit.INPUT, "envelope-paper-missing", text, mend, place)


def _reply(
    reading: Reading, rates: PostRates, envelopes: Sequence[tuple[Layout, str]]
) -> Reply | None:
    """The reply envelope on its way back; replies from abroad bear no stamp of this country.

    Raises:
        ValueError: a paper isn't written as a weight.
    """
    if not envelopes:
        return None
    back = tuple(piece for piece in reading.docket.suite if piece.reply)
    assembly = assemble(envelopes, back)
    count = len(reading.guest_list.households) - replies_abroad(reading)
    return Reply(assembly, postage_for("home", envelopes[0][0], assembly, rates), count, bool(back))


def _destinations(reading: Reading, rates: PostRates) -> dict[str, int]:
    """How many envelopes go home, to countries with rates of their own, and elsewhere abroad.

    Those handed over go nowhere.
    """
    home, own = home_of(reading.docket), {code for code, _ in rates.countries}
    counts: Counter[str] = Counter()
    for household in reading.guest_list.households:
        country = household.address.country if household.address else None
        if household.by_hand:
            continue
        if country is None or country.text == home:
            counts["home"] += 1
        else:
            counts[country.text if country.text in own else "abroad"] += 1
    order = ("home", *sorted(counts.keys() - {"home", "abroad"}), "abroad")
    return {destination: counts[destination] for destination in order if counts[destination]}
