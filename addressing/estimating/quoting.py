"""The price to the client: fees, changes, rush, tax, deposit. Money is exact (Decimal)."""

from collections.abc import Iterable, Mapping
from decimal import Decimal

from addressing.estimating.prices import paid
from addressing.records.costs import Extras, Part, Quote
from addressing.records.rates import Fees

_NONE = Extras()


def quote(
    fees: Fees,
    digits: int,
    pieces: Mapping[str, int],
    households: int,
    extras: Extras = _NONE,
) -> Quote:
    """What the client pays; `pieces` are the kinds and how many of each are delivered.

    A kind without a fee of its own has the fee for "other"; without that it is `unpriced`.
    The minimum is for the work, before rush and tax.
    """
    minimum = paid(fees.minimum, digits)
    parts = [*_pieces(fees, digits, pieces)]
    if fees.tidying:
        amount = paid(fees.tidying * households, digits)
        homes = "1 household" if households == 1 else f"{households} households"
        parts.append(Part("list", amount, f"{homes} to tidy, {fees.tidying} each"))
    if extras.hours:
        amount = paid(fees.hour * extras.hours, digits)
        parts.append(Part("hours", amount, f"{extras.hours} h on the list, {fees.hour} each"))
    if extras.changes:
        amount = paid(fees.change * extras.changes, digits)
        parts.append(
            Part("changes", amount, f"{extras.changes} after approval, {fees.change} each")
        )
    work = sum((part.amount for part in parts), Decimal(0))
    if work < minimum:
        parts.append(Part("minimum", minimum - work, f"at least {minimum} for a job"))
        work = minimum
    if extras.rush:
        amount = paid(work * fees.rush_percent / 100, digits)
        parts.append(Part("rush", amount, f"{fees.rush_percent} % for a rush"))
        work += amount
    tax = paid(work * fees.tax_percent / 100, digits)
    total = work + tax
    deposit = paid(total * fees.deposit_percent / 100, digits)
    return Quote(tuple(parts), work, tax, total, deposit, tuple(_unpriced(fees, pieces)))


def _unpriced(fees: Fees, pieces: Mapping[str, int]) -> Iterable[str]:
    """The kinds that the fees don't name; none where there is one for "other"."""
    named = {kind for kind, _ in fees.pieces}
    if "other" not in named:
        yield from (kind for kind, number in pieces.items() if number and kind not in named)


def _pieces(fees: Fees, digits: int, pieces: Mapping[str, int]) -> Iterable[Part]:
    each_of = dict(fees.pieces)
    for kind, number in pieces.items():
        each = each_of.get(kind, each_of.get("other", Decimal(0)))
        if each and number:
            yield Part(kind, paid(each * number, digits), f"{number} at {each}")
