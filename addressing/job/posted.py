"""What the finished envelopes weigh and what the post asks: for each destination and in all."""

from collections import Counter
from dataclasses import dataclass
from decimal import Decimal

from addressing.estimating import assemble, postage_for
from addressing.faults import Exit, Fault
from addressing.job.reading import Reading
from addressing.materials.shelf import Shelf
from addressing.records.postage import Assembly, Postage, PostRates
from addressing.where import Where


@dataclass(frozen=True, slots=True)
class Posted:
    """`envelopes` has (postage, how many) for each destination; None: no class takes it."""

    assembly: Assembly
    rates: PostRates
    envelopes: tuple[tuple[str, Postage | None, int], ...]

    @property
    def total(self) -> Decimal:
        """Postage for all that have a price."""
        prices = (postage.price * count for _, postage, count in self.envelopes if postage)
        return sum(prices, Decimal(0))


def post_job(reading: Reading, shelf: Shelf) -> Posted:
    """Weigh one envelope with the docket's suite in it, and price every household's.

    Raises:
        Fault: the docket doesn't say what is in the envelope, or how a paper weighs (exit 3); the
            postage can't be read.
    """
    docket = reading.docket
    outer = next((kind for kind in reading.kinds if kind.kind == "outer"), None)
    if outer is None or not docket.suite or not docket.post.envelope_paper:
        raise Fault(
            Exit.INPUT,
            "suite-missing",
            "The docket doesn't say what goes into the envelope.",
            "Give [post] envelope_paper, and one [[suite]] for each thing in it.",
            Where(docket.path or "docket", None, "docket:suite"),
        )
    layouts = [kind.setting.layout for kind in reading.kinds if kind.kind in ("outer", "inner")]
    reply = [kind.setting.layout for kind in reading.kinds if kind.kind == "reply"]
    try:
        envelopes = [(layout, docket.post.envelope_paper) for layout in (*layouts, *reply)]
        assembly = assemble(envelopes, docket.suite)
    except ValueError as error:
        raise Fault(
            Exit.INPUT,
            "paper-unknown",
            f"{error}.",
            'Write it as "110 lb cover", "80 lb text" or "300 gsm".',
            Where(docket.path or "docket", None, "docket:suite"),
        ) from error
    rates = shelf.postage()
    counts = _destinations(reading)
    layout = outer.setting.layout
    found = tuple(
        (destination, postage_for(destination, layout, assembly, rates), count)
        for destination, count in counts.items()
    )
    return Posted(assembly, rates, found)


def _destinations(reading: Reading) -> Counter[str]:
    """How many envelopes go home and abroad; those handed over go nowhere."""
    home = reading.docket.hosts.country if reading.docket.hosts else "US"
    counts: Counter[str] = Counter()
    for household in reading.guest_list.households:
        country = household.address.country if household.address else None
        if not household.by_hand:
            counts["home" if country is None or country.text == home else "abroad"] += 1
    return counts
