"""What the way of printing may not hold of plates that were judged: strokes, gaps, too few."""

from collections.abc import Iterator, Sequence

from addressing.job.set_kinds import SetKind
from addressing.proofs.words import kind_name
from addressing.records.findings import Finding, Severity
from addressing.records.methods import Method
from addressing.records.plates import PlateFile, Verdict
from addressing.records.shelf import Shop
from addressing.units import pt_to_mm
from addressing.where import Where


def too_few(kinds: Sequence[SetKind], plates: Sequence[PlateFile], shop: Shop) -> Iterator[Finding]:
    """A note for each kind of which the shop is sent fewer than it takes.

    What is the same for all is ordered in the number that it takes.
    """
    for kind in kinds:
        keys = {key for plate in plates if plate.kind == kind.kind for key in plate.households}
        if 0 < len(keys) < shop.order.minimum:
            yield Finding(
                Severity.NOTE,
                "order-small",
                Where("docket", None, f"docket:piece.{kind.kind}"),
                f"{shop.title} takes {shop.order.minimum} of a kind at least; the {kind.kind}"
                f" plates have {len(keys)}.",
                "Ask whether it prints so few, or what it charges for them.",
            )


def too_fine(kind: SetKind, verdict: Verdict) -> Iterator[Finding]:
    """A note where a letter's stroke or gap is finer than the method holds, or than its base."""
    yield from _without_base(kind, verdict)
    method = kind.method
    if method is None:
        return
    where = Where("docket", None, f"docket:piece.{kind.kind}.method")
    for what, found, least in _below(method, verdict):
        text = (
            f"The finest {what} of the {kind.kind} plate is {found:.2f} pt"
            f" ({pt_to_mm(found):.2f} mm); {method.title.lower()} holds {least:g} pt as a rule."
        )
        mend = "Try one first; or choose a heavier face or a larger size."
        yield Finding(Severity.NOTE, "stroke-fine", where, text, mend)


def _below(method: Method, verdict: Verdict) -> Iterator[tuple[str, float, float]]:
    """(what, its breadth, the least that the method holds), points, of what is finer than that."""
    for what, found, least in (
        ("stroke", verdict.stroke, method.stroke),
        ("gap between two strokes", verdict.gap, method.gap),
    ):
        if found < least:
            yield what, found, least


def to_look_at(
    kinds: Sequence[SetKind], plates: Sequence[PlateFile], verdicts: Sequence[Verdict]
) -> tuple[str, ...]:
    """What whoever stands at the device looks at on the first print, each once."""
    known = {kind.kind: kind for kind in kinds}
    told = (
        _to_look_at(known[plate.kind], verdict)
        for plate, verdict in zip(plates, verdicts, strict=True)
    )
    return tuple(dict.fromkeys(text for texts in told for text in texts))


def _to_look_at(kind: SetKind, verdict: Verdict) -> Iterator[str]:
    method, base, name = kind.method, kind.setting.underbase, kind_name(kind.kind)
    for what, found, least in _below(method, verdict) if method is not None else ():
        wrong = "broken or missing" if what == "stroke" else "run together"
        yield (
            f"{name}: the finest {what} is {pt_to_mm(found):.2f} mm, and {pt_to_mm(least):.2f} mm"
            " holds here as a rule. Look at the thinnest places of the first print; where they are"
            f" {wrong}, stop and ask the designer."
        )
    if base is not None and verdict.stroke < 2 * base.choke:
        yield (
            f"{name}: the thinnest strokes have no {base.ink.key} under them. Look at them on the"
            " first print; where the paper shows through, stop and ask the designer."
        )


def _without_base(kind: SetKind, verdict: Verdict) -> Iterator[Finding]:
    """A note where the base under a stroke vanishes, since it is drawn in from both sides."""
    base = kind.setting.underbase
    if base is None or verdict.stroke >= 2 * base.choke:
        return
    text = (
        f"The finest stroke of the {kind.kind} plate is {pt_to_mm(verdict.stroke):.2f} mm;"
        f" {base.ink.key} is drawn in by {pt_to_mm(base.choke):.2g} mm on either side: such strokes"
        " have none under them."
    )
    mend = "Make choke_mm less, or choose a heavier face or a larger size."
    where = Where("docket", None, f"docket:piece.{kind.kind}.choke_mm")
    yield Finding(Severity.NOTE, "base-broken", where, text, mend)
