"""How many of each kind a job needs: those of the households, static pieces one each outer."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from addressing.estimating import (
    blanks_of,
    count_again,
    count_pieces,
    expected,
    ordered_of,
    span_of,
)
from addressing.job.contents import contents_of, is_abroad
from addressing.job.reading import Reading
from addressing.job.set_kinds import SetKind
from addressing.job.sharing import backs_of
from addressing.records.costs import OnSheets
from addressing.records.counts import Blanks, PieceCount, Span
from addressing.records.docket import Docket, Overs
from addressing.records.guests import Household, Kind
from addressing.records.pieces import ENVELOPES, STATIC, household_of
from addressing.records.postage import SuitePiece
from addressing.records.shelf import Shop


def count_job(reading: Reading, *, terms: bool = True) -> tuple[PieceCount, ...]:
    """The counts of every kind that is made, held households counted too.

    With `terms` what is the same for all is counted as the shop that the docket names takes an
    order for it: that enough come, its least, its packs; what it prints on envelopes that are sent
    in comes on each of them.
    """
    wanted, held = wanted_pieces(reading)
    rules = {kind: _rule(reading, kind) for kind in wanted}
    counts = count_pieces(wanted, held, reading.docket.overs, rules)
    shop = reading.press if terms and isinstance(reading.press, Shop) else None
    return _by_the_sheet(reading, tuple(_ordered(reading, count, shop) for count in counts))


def _ordered(reading: Reading, count: PieceCount, shop: Shop | None) -> PieceCount:
    """The count as it is ordered: nothing of what is printed on the outers."""
    if count.kind in on_outers(reading):
        return replace(count, packs=0, to_order=0)
    return _as_shop_takes(count, shop) if shop and count.kind in STATIC else count


def _as_shop_takes(count: PieceCount, shop: Shop) -> PieceCount:
    order = shop.order
    return ordered_of(count, order.under, order.minimum, order.pack)


def _by_the_sheet(reading: Reading, counts: tuple[PieceCount, ...]) -> tuple[PieceCount, ...]:
    """The counts with what lies on sheets ordered by the sheet: its packs are sheets.

    Of the backs of cards nothing is ordered: the fronts are.
    """
    found, backs = {count.kind: count for count in counts}, backs_of(reading.kinds)
    each = {kind.kind: kind.sheets.each for kind in reading.kinds if kind.sheets}
    for kinds, on in sheets_by_kind(reading, counts).items():
        for kind in kinds:
            up = each[kind]
            packs = 0 if kind in backs else on.stock
            found[kind] = replace(found[kind], pack=up, packs=packs, to_order=packs * up)
    return tuple(found.values())


def on_outers(reading: Reading) -> tuple[str, ...]:
    """The return, where it is printed on the outers' own flaps."""
    layouts = {kind.kind: kind.setting.layout.key for kind in reading.kinds}
    same = "return" in layouts and layouts["return"] == layouts.get("outer")
    return ("return",) if same else ()


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


def count_suite(reading: Reading, *, terms: bool = True) -> tuple[PieceCount, ...]:
    """What bears no name: the docket's suite, and stamps for outers and reply envelopes.

    Suite pieces have the job's overs and packs of their own, stamps neither. What is given by
    hand wants no stamp on the outer, a reply from abroad none of this country's. With `terms` as
    each piece's shop takes an order for it.
    """
    homes, overs = reading.guest_list.households, reading.docket.overs
    rules: dict[str, Overs] = {}
    wanted: Counter[str] = Counter()
    held: Counter[str] = Counter()

    def add(name: str, number: int, whose: Iterable[Household], rule: Overs) -> None:
        rules.setdefault(name, rule)
        wanted[name] += 0
        for home in whose:
            wanted[name] += number
            held[name] += number * (home.key in reading.held)

    for piece in reading.docket.suite:
        late = expected(open_of(reading, piece).envelopes, overs)
        own = replace(overs, pack=piece.pack, methods=(), keepsakes=overs.keepsakes + late)
        whose = (home for home in homes if piece in contents_of(reading.docket, home))
        add(piece.name, piece.count, whose, own)
    bare = Overs(0.0, 0, 1)
    post = reading.docket.post
    if (stamps := post.stamps_on("outer")) and "outer" in reading.docket.make:
        add("stamp, outer", stamps, (home for home in homes if not home.by_hand), bare)
    if (stamps := post.stamps_on("reply")) and "reply" in reading.docket.make:
        at_home = (home for home in homes if not is_abroad(reading.docket, home))
        add("stamp, reply", stamps, at_home, bare)
    shops = dict(printers_of(reading)) if terms else {}
    return tuple(
        _as_shop_takes(count, shops[count.kind]) if count.kind in shops else count
        for count in count_pieces(wanted, held, overs, rules)
    )


def printers_of(reading: Reading) -> tuple[tuple[str, Shop], ...]:
    """(piece of the suite, its shop): the one that it names, else the job's for what is of paper.

    A liner is bought ready or cut, not printed.
    """
    own, press = dict(reading.printers), reading.press
    usual = press if isinstance(press, Shop) else None
    found = (
        (piece.name, own.get(piece.name) or (usual if piece.paper and not piece.liner else None))
        for piece in reading.docket.suite
    )
    return tuple((name, shop) for name, shop in found if shop is not None)


def replies_abroad(reading: Reading) -> int:
    """How many replies come from abroad, where this country's stamps aren't valid."""
    if "reply" not in reading.docket.make:
        return 0
    return sum(is_abroad(reading.docket, home) for home in reading.guest_list.households)


def blanks_by_kind(reading: Reading, counts: tuple[PieceCount, ...]) -> dict[str, Blanks]:
    """What the ordered outers and inners become; the flap is the outer's where it lies on it."""
    on_outer = bool(on_outers(reading))
    return {
        count.kind: blanks_of(count, flap=on_outer and count.kind == "outer")
        for count in counts
        if count.kind in ENVELOPES and count.kind not in STATIC
    }


@dataclass(frozen=True, slots=True)
class Open:
    """What the list leaves open: so many more envelopes, so many more place cards at most."""

    envelopes: int
    seats: int


def open_of(reading: Reading, piece: SuitePiece | None = None) -> Open:
    """Unnamed guests and families may want envelopes of their own.

    Of a `piece` of the suite only those count who get it.

    A companion has a place card already; an unnamed child and somebody of each family haven't.
    Children whom the list counts ("and two children") are no family that may grow.
    """
    homes = [
        home
        for home in reading.guest_list.households
        if piece is None or piece in contents_of(reading.docket, home)
    ]
    nobody = Counter(
        (home.key, person.kind)
        for home in homes
        for person in home.people
        if not (person.given or person.family)
    )
    keys = {home.key for home in homes}
    found = {
        each.household
        for each in reading.findings
        if each.code == "family-unnamed" and each.household in keys
    }
    families = sum(not nobody[key or "", Kind.CHILD] for key in found)
    guests, children = (
        sum(number for (_, kind), number in nobody.items() if kind is which)
        for which in (Kind.GUEST, Kind.CHILD)
    )
    return Open(guests + families, children + families)


def spans(reading: Reading, counts: tuple[PieceCount, ...]) -> dict[str, Span]:
    """Between how many each kind and each piece of the suite may end, by what the list leaves open.

    A suite piece of which several go into an envelope is wanted so often more. What is the same
    for all is never held back, and yet not needed for whom is.
    """
    left, post = open_of(reading), reading.docket.post
    waits = len(reading.held & {home.key for home in reading.guest_list.households})
    more = {
        piece.name: piece.count * open_of(reading, piece).envelopes
        for piece in reading.docket.suite
    }
    more |= {"stamp, outer": post.stamps * left.envelopes, "place-card": left.seats}
    found = {count.kind: span_of(count, more.get(count.kind, left.envelopes)) for count in counts}
    needed = {count.kind: count.needed for count in counts}
    static = {
        kind: replace(found[kind], low=needed[kind] - waits) for kind in found.keys() & STATIC
    }
    bare = {
        kind: replace(static[kind], more_packs=0) for kind in on_outers(reading) if kind in static
    }
    return {**found, **static, **bare}


def on_sheets_of(
    kinds: Sequence[SetKind], counts: Mapping[str, PieceCount], docket: Docket
) -> OnSheets | None:
    """How many sheets the kinds that share them need, and with their overs; None without sheets."""
    choice = docket.sheet(kinds[0].kind)
    plans = [(kind.sheets, counts[kind.kind], kind.static) for kind in kinds if kind.sheets]
    if choice is None or not plans:
        return None
    return OnSheets(
        sheets=max(on.sheets(one.needed + one.overs * static) for on, one, static in plans),
        stock=max(on.sheets(one.needed + one.overs) for on, one, _ in plans),
        paper=f"{kinds[0].stock.key} {choice.on}",
        sides=2 if plans[0][0].turn else 1,
    )


def sheets_by_kind(
    reading: Reading, counts: tuple[PieceCount, ...]
) -> dict[tuple[str, ...], OnSheets]:
    """The sheets of all kinds that lie on some, by the kinds that share them."""
    kinds = {kind.kind: kind for kind in reading.kinds}
    by_kind = {count.kind: count for count in counts}
    groups = dict.fromkeys(
        tuple(other for other in kind.shared if other in kinds) or (kind.kind,)
        for kind in reading.kinds
        if kind.sheets
    )
    found = {
        its: on_sheets_of([kinds[one] for one in its], by_kind, reading.docket) for its in groups
    }
    return {its: on for its, on in found.items() if on is not None}


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
    left = open_of(reading)
    late = expected(left.seats if kind == "place-card" else left.envelopes, docket.overs)
    rule = docket.overs.by((method, place))
    return replace(rule, keepsakes=rule.keepsakes + late)
