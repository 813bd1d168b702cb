"""How many of each kind a job needs: those of the households, static pieces one each outer."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import astuple

from addressing.estimating import blanks_of, count_again, count_pieces, span_of
from addressing.job.reading import Reading
from addressing.records.counts import Blanks, PieceCount, Span
from addressing.records.docket import Overs
from addressing.records.guests import Kind
from addressing.records.pieces import ENVELOPES, STATIC, household_of


def count_job(reading: Reading) -> tuple[PieceCount, ...]:
    """The counts of every kind that is made, held households counted too."""
    wanted, held = wanted_pieces(reading)
    rules = {kind: _rule(reading, kind) for kind in wanted}
    return count_pieces(wanted, held, reading.docket.overs, rules)


def wanted_pieces(reading: Reading) -> tuple[dict[str, int], dict[str, int]]:
    """(kind → wanted, kind → held of them)."""
    households = len(reading.guest_list.households)
    made = Counter(piece.kind for piece in reading.pieces)
    keys = reading.held
    waiting = Counter(p.kind for p in reading.pieces if household_of(p.household or "") in keys)
    kinds = [kind for kind in reading.docket.make if made[kind]]
    wanted = {kind: households if kind in STATIC else made[kind] for kind in kinds}
    of_hosts = households if reading.hosts_wait else 0
    held = {kind: of_hosts if kind in STATIC else waiting[kind] for kind in kinds}
    return wanted, held


def count_suite(reading: Reading) -> tuple[PieceCount, ...]:
    """What bears no name: the docket's suite, and stamps for outers and reply envelopes.

    Stamps have no overs; neither is sold in the envelopes' packs.
    """
    docket, households = reading.docket, len(reading.guest_list.households)
    held = sum(home.key in reading.held for home in reading.guest_list.households)
    things: dict[str, int] = {}
    for piece in docket.suite:
        things[piece.name] = things.get(piece.name, 0) + piece.count
    single = Overs(docket.overs.percent, docket.overs.minimum, 1, docket.overs.keepsakes)
    stamps = {"stamp, outer": docket.post.stamps, "stamp, reply": int("reply" in docket.make)}
    if "outer" not in docket.make:
        stamps = {}
    bare = Overs(0.0, 0, 1)
    rules = {**dict.fromkeys(things, single), **dict.fromkeys(stamps, bare)}
    each = {**things, **{name: number for name, number in stamps.items() if number}}
    return count_pieces(
        {name: number * households for name, number in each.items()},
        {name: number * held for name, number in each.items()},
        single,
        rules,
    )


def blanks_by_kind(reading: Reading, counts: tuple[PieceCount, ...]) -> dict[str, Blanks]:
    """What the ordered outers and inners become; the flap is the outer's where it lies on it."""
    layouts = {kind.kind: kind.setting.layout.key for kind in reading.kinds}
    on_outer = "return" in layouts and layouts["return"] == layouts.get("outer")
    return {
        count.kind: blanks_of(count, flap=on_outer and count.kind == "outer")
        for count in counts
        if count.kind in ENVELOPES and count.kind not in STATIC
    }


def told_blanks(reading: Reading, counts: tuple[PieceCount, ...]) -> tuple[str, ...]:
    """The same in sentences for the job sheet; a reprint, which orders no overs, has none."""
    whole = tuple(count for count in counts if count.overs)
    return tuple(
        f"{kind.capitalize()}: {each.addressed} addressed"
        + (f", {each.flap_printed} with the flap printed and no address" * bool(each.flap_printed))
        + f", {each.plain} plain, out of the {sum(astuple(each))} to order."
        for kind, each in blanks_by_kind(reading, whole).items()
    )


def spans(reading: Reading, counts: tuple[PieceCount, ...]) -> dict[str, Span]:
    """Between how many each kind of envelope may end, by what the list leaves open."""
    unnamed = sum(
        person.kind is Kind.GUEST and not (person.given or person.family)
        for home in reading.guest_list.households
        for person in home.people
    )
    return {c.kind: span_of(c, unnamed) for c in counts if c.kind in ENVELOPES}


def count_reprint(
    reading: Reading, due: Mapping[str, int], used: Mapping[str, int]
) -> tuple[PieceCount, ...]:
    """A reprint's own counts: `due` of each kind, `used` of the job's order already."""
    return tuple(
        count_again(count, due[count.kind], used.get(count.kind, 0))
        for count in count_job(reading)
        if due.get(count.kind)
    )


def _rule(reading: Reading, kind: str) -> Overs:
    """The overs of a kind by its way of printing, else by where the job is printed."""
    docket = reading.docket
    method = next((k.method.key for k in reading.kinds if k.kind == kind and k.method), None)
    place = "home" if docket.device else "shop" if docket.shop else None
    return docket.overs.by((method, place))
