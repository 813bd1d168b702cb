"""What the counts say in sentences: terms of shops, what envelopes become, what is open."""

from collections.abc import Iterator
from dataclasses import astuple

from addressing.estimating import ordered_of
from addressing.job.counting import (
    blanks_by_kind,
    count_job,
    count_suite,
    on_outers,
    printers_of,
    spans,
)
from addressing.job.reading import Reading
from addressing.records.counts import PieceCount, Span
from addressing.records.pieces import ENVELOPES, STATIC
from addressing.records.shelf import Shop


def told_terms(reading: Reading) -> tuple[str, ...]:
    """What is ordered more by a shop's terms, in sentences: one for each shop and term."""
    made = [kind.kind for kind in reading.kinds if kind.kind in STATIC]
    printed = [(kind, reading.press) for kind in made if kind not in on_outers(reading)]
    counts = (*count_job(reading, terms=False), *count_suite(reading, terms=False))
    bare = {count.kind: count.needed + count.overs for count in counts if count.needed}
    names: dict[str, list[str]] = {}
    for name, shop in (*printed, *printers_of(reading)):
        for why in _whys_of(shop, bare[name]) if isinstance(shop, Shop) and name in bare else ():
            names.setdefault(why, []).append(name)
    return tuple(f"In the overs of {', '.join(its)}: {why}." for why, its in names.items())


def told_flaps(reading: Reading) -> Iterator[str]:
    """Where this docket prints the flaps of the outers and another one the outers."""
    made = {kind.kind: kind.setting.layout.key for kind in reading.kinds}
    outer = reading.docket.piece("outer")
    if "outer" not in made and outer is not None and made.get("return") == outer.layout:
        yield (
            "The return goes onto the flaps of the outers: where another docket makes those,"
            " it orders the envelopes."
        )


def _whys_of(shop: Shop, number: int) -> Iterator[str]:
    """Why a shop is ordered more than so many."""
    order = shop.order
    coming = ordered_of(PieceCount("", number, 0, 0, 1, number, number), order.under).to_order
    if order.under:
        yield f"the {order.under:g} % that {shop.title} may deliver less"
    if coming < order.minimum:
        yield f"what lacks to the {order.minimum} that {shop.title} takes at least"
    if max(coming, order.minimum) % order.pack:
        yield f"what fills the packs of {order.pack} that {shop.title} prints"


def told_blanks(reading: Reading, counts: tuple[PieceCount, ...]) -> tuple[str, ...]:
    """The same in sentences for the job sheet; a reprint, which orders no overs, has none."""
    whole = counts if counts == count_job(reading) else ()
    told = told_open(spans(reading, whole).get("outer"))
    return tuple(
        f"{kind.capitalize()}: {each.addressed} addressed"
        + (f", {each.flap_printed} with the return address and no guest" * bool(each.flap_printed))
        + f", {each.plain} plain, out of the {sum(astuple(each))} to order."
        for kind, each in blanks_by_kind(reading, whole).items()
    ) + ((told,) if told else ())


def told_spans(reading: Reading, counts: tuple[PieceCount, ...]) -> tuple[str, ...]:
    """The spans of cards and suite, which come in numbers of their own, in words."""
    found = spans(reading, counts)
    return tuple(
        f"{kind} {span.low} to {span.high}" + ("" if span.covered else " (more than the overs)")
        for kind, span in found.items()
        if kind not in ENVELOPES and span.low != span.high
    )


def told_open(span: Span | None) -> str | None:
    """What the list leaves open, in a sentence; None where it leaves nothing."""
    if span is None or span.low == span.high:
        return None
    enough = "the overs will do" if span.covered else "the overs won't do for all"
    if span.more_packs:
        packs = "1 pack" if span.more_packs == 1 else f"{span.more_packs} packs"
        enough += f"; {packs} more would keep as many overs"
    return (
        f"The list leaves open: between {span.low} outers (nobody who is held back) and {span.high}"
        f" (unnamed guests and families with envelopes of their own); {enough}."
    )
