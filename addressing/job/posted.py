"""What the finished envelopes weigh and what the post asks: for each destination and in all."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from addressing.estimating import assemble, grams_per_m2, postage_for
from addressing.faults import Exit, Fault
from addressing.job.contents import contents_of, is_abroad
from addressing.job.counting import replies_abroad
from addressing.job.reading import Reading
from addressing.materials.shelf import Shelf
from addressing.records.docket import Docket
from addressing.records.postage import Assembly, Postage, PostRates, SuitePiece
from addressing.records.shelf import Layout
from addressing.where import Where


@dataclass(frozen=True, slots=True)
class Sent:
    """So many envelopes with the same in them to the same destination; None: no class takes it."""

    destination: str
    contents: tuple[str, ...]
    assembly: Assembly
    postage: Postage | None
    count: int


@dataclass(frozen=True, slots=True)
class Posted:
    """What is posted, by destination and contents.

    `reply` is the reply envelope as it comes back, at home's rates; None where none is made.
    """

    rates: PostRates
    envelopes: tuple[Sent, ...]
    reply: "Reply | None" = None
    stamps: int = 1
    """Stamps that the docket keeps room for on an outer."""

    @property
    def by_contents(self) -> tuple[Sent, ...]:
        """One envelope of each contents, with how many have it; the commonest first."""
        found: dict[tuple[str, ...], Sent] = {}
        for sent in self.envelopes:
            count = sent.count + (found[sent.contents].count if sent.contents in found else 0)
            found[sent.contents] = replace(sent, count=count)
        return tuple(sorted(found.values(), key=lambda sent: -sent.count))

    @property
    def total(self) -> Decimal:
        """Postage for all that have a price, the replies' stamps too."""
        priced = [(sent.postage, sent.count) for sent in self.envelopes]
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
    """Weigh each envelope with its part of the docket's suite in it, and price them all.

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
    papers = [(layout, paper) for layout in (*layouts, *reply)]
    _check_papers(docket)
    assemblies = {its: assemble(papers, its) for its in _contents(reading)}
    back = _reply(reading, rates, [(layout, paper) for layout in reply])
    layout = outer.setting.layout
    found = tuple(
        Sent(
            destination,
            tuple(piece.name for piece in its),
            assemblies[its],
            postage_for(destination, layout, assemblies[its], rates),
            count,
        )
        for (destination, its), count in _sent(reading, rates).items()
    )
    return Posted(rates, found, back, docket.post.stamps)


def _contents(reading: Reading) -> set[tuple[SuitePiece, ...]]:
    """All that goes into one envelope or another."""
    return {contents_of(reading.docket, home) for home in reading.guest_list.households}


def _check_papers(docket: Docket) -> None:
    """See that every paper of the docket can be weighed.

    Raises:
        Fault: one isn't written as a weight (exit 3).
    """
    papers = [("post.envelope_paper", docket.post.envelope_paper or "")]
    papers += [
        (f"suite[{number}].paper", piece.paper)
        for number, piece in enumerate(docket.suite, start=1)
        if piece.grams is None
    ]
    for key, paper in papers:
        try:
            grams_per_m2(paper)
        except ValueError as error:
            raise Fault(
                Exit.INPUT,
                "paper-unknown",
                f"{error}." if paper else "A piece of the suite has neither paper nor grams.",
                'Write it as "110 lb cover", "80 lb text" or "300 gsm", as its packet does.',
                Where(docket.path or "docket", None, f"docket:{key}"),
            ) from error


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
    """The reply envelope on its way back; replies from abroad bear no stamp of this country."""
    if not envelopes:
        return None
    back = tuple(piece for piece in reading.docket.suite if piece.reply)
    assembly = assemble(envelopes, back)
    count = len(reading.guest_list.households) - replies_abroad(reading)
    return Reply(assembly, postage_for("home", envelopes[0][0], assembly, rates), count, bool(back))


def _sent(reading: Reading, rates: PostRates) -> dict[tuple[str, tuple[SuitePiece, ...]], int]:
    """How many envelopes go where, with what in them.

    Home first, then countries with rates of their own, then elsewhere abroad. Those handed over go
    nowhere.
    """
    docket, own = reading.docket, {code for code, _ in rates.countries}
    counts: Counter[tuple[str, tuple[SuitePiece, ...]]] = Counter()
    for household in reading.guest_list.households:
        if household.by_hand:
            continue
        destination = "home"
        if is_abroad(docket, household) and (address := household.address) and address.country:
            code = address.country.text
            destination = code if code in own else "abroad"
        counts[destination, contents_of(docket, household)] += 1
    order = {"home": 0, "abroad": 2}
    return dict(sorted(counts.items(), key=lambda row: (order.get(row[0][0], 1), row[0][0])))
