"""Columns on the way to their meaning: what each claims by its header, and who gets it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from itertools import pairwise

from addressing.guestlist.tables.contents import STRONG, holds_homes, leading
from addressing.guestlist.tables.meanings import PERSON_PARTS, PINNED, Hit, fold, meaning_of, signs
from addressing.where import column_letters

NAMES = frozenset({"name", "given", "family", "household"})
ADDRESSES = frozenset(
    {"address", "street", "city", "postcode", "place", "season_address", "season_street"}
)
_PLACES = frozenset({"address", "street", "place", "region", "postcode"})
_STREETS = frozenset({"address", "street"})
_MANY = frozenset(
    {"notes", "ignore", "elsewhere", "extra", "firm", "children", "guest", "reply", "declined"}
)
"""Meanings that several columns may share."""
_COUNTS = ("adult_count", "invited_count")
_SENTENCE = 3
_OF_ENVELOPES = 2
"""The rank of headers that say how names stand on envelopes."""
_TOLD = _PLACES | {"name", "email", "phone"}
"""Kinds of contents that are no sentences, however many words they have."""
_BY_CONTENT = {
    "postcode": "postcode",
    "region": "region",
    "suffix": "suffix",
    "title": "title",
    "address": "address",
    "place": "place",
    "street": "street",
    "name": "name",
    "email": "ignore",
    "phone": "ignore",
    "boolean": None,
}


@dataclass(slots=True)
class Draft:
    """A column on the way to its meaning."""

    index: int
    header: str
    shares: Mapping[str, float]
    words: float = 0.0
    """How many words its cells hold on average."""
    figures: float = 0.0
    """The share of its cells that begin with a figure, unless they count the rows."""
    hit: Hit | None = None
    how: str = ""

    @property
    def filled(self) -> bool:
        """True when the column holds anything below its header."""
        return bool(self.shares)

    def take(self, hit: Hit | None, how: str) -> None:
        """Settle on a meaning, or on none."""
        self.hit, self.how = hit, how if hit is not None else ""


class Holders(dict[tuple[str, int], Draft]):
    """Meaning and ordinal → the column that has it."""


def claim(draft: Draft, pins: Mapping[str, Hit]) -> None:
    """Claim a meaning by the docket's word, else by the header."""
    pinned = pins.get(fold(draft.header or column_letters(draft.index + 1)))
    if pinned is not None:
        draft.take(pinned, "docket")
    elif draft.header:
        draft.take(meaning_of(draft.header), "header")


def settle_kinds(drafts: list[Draft]) -> None:
    """Settle headers whose meaning hangs on the columns beside them.

    An address beside a town's column is a street, but where streets have a column too: there
    some rows hold whole addresses and others parts.
    """
    _settle_marks(drafts)
    found = {draft.hit.meaning for draft in drafts if draft.hit}
    for draft in drafts:
        if draft.hit is None or draft.how == "docket":
            continue
        if draft.hit.meaning == "address" and found & {"city", "postcode", "place"}:
            beside = any(d.filled and d.hit and d.hit.meaning == "street" for d in drafts)
            if draft.shares.get("address", 0.0) < STRONG and not (beside and draft.filled):
                draft.take(replace(draft.hit, meaning="street"), draft.how)
        elif draft.hit.meaning == "season_address" and "season_city" in found:
            draft.take(replace(draft.hit, meaning="season_street"), draft.how)
        elif draft.hit.meaning == "place" and not draft.filled:
            draft.take(None, "")
        elif _names_a_suite(draft):
            draft.take(replace(draft.hit, meaning="suite"), draft.how)
    _settle_numbers(drafts)
    _settle_outers(drafts)
    _settle_names(drafts)


def _settle_marks(drafts: list[Draft]) -> None:
    """Take "Invite?" over yes and no for a column that says who is invited, and no names."""
    for draft in drafts:
        if asks_who_is_invited(draft.header) and _is_of_marks(draft):
            draft.take(Hit("reply"), "header")


def asks_who_is_invited(header: str) -> bool:
    """True for "Invite?", "Inv", "Should we invite": what else they head is told by its cells.

    >>> [asks_who_is_invited(h) for h in ("Inviting?", "Invite to the brunch?", "Invoice")]
    [True, False, False]
    """
    words = set(fold(header).split())
    known = [signs(f"{kind}-sign").keys() for kind in ("inviting", "invited", "asking", "mark")]
    return not words.isdisjoint(known[0]) and words.issubset(frozenset().union(*known))


def _is_of_marks(draft: Draft) -> bool:
    """True for a column of yes and no whose header says nothing else, or that it holds names."""
    if draft.hit is not None and (draft.how == "docket" or draft.hit.meaning != "name"):
        return False
    return draft.shares.get("mark", 0.0) >= STRONG


def _names_a_suite(draft: Draft) -> bool:
    """True for "Suite" over words only: which invitation is meant, not which door."""
    return fold(draft.header) == "suite" and draft.shares.get("word", 0.0) >= STRONG


def _settle_numbers(drafts: list[Draft]) -> None:
    """Take a bare "No." just beside a column of streets for the house number, if they have none.

    What stands behind the street is its own; before it, the numbers may also be the list's.
    """
    if any(draft.hit and draft.hit.meaning == "house_number" for draft in drafts):
        return
    for street, number in (*pairwise(drafts), *((b, a) for a, b in pairwise(drafts))):
        is_street = street.hit is not None and street.hit.meaning == "street"
        bare = fold(number.header) in signs("number-sign") and number.how != "docket"
        sure = number.filled and (number.index > street.index or number.figures >= STRONG)
        if is_street and bare and sure and street.shares.get("street", 0.0) < STRONG:
            number.take(Hit("house_number"), "header")
            return


def _settle_names(drafts: list[Draft]) -> None:
    """Settle "Guest", "Family" and "Name", which mean another thing beside other names."""
    beside = {d.hit.meaning for d in drafts if d.hit and d.hit.ordinal == 1}
    if any(_is_guest_of_names(draft) for draft in drafts):
        beside.add("full names")
    for draft in drafts:
        hit = draft.hit
        if hit is None or hit.ordinal > 1 or draft.how == "docket":
            continue
        meaning = _name_beside(draft, hit.meaning, beside)
        if meaning != hit.meaning:
            draft.take(replace(hit, meaning=meaning), draft.how)


def _settle_outers(drafts: list[Draft]) -> None:
    """Take "Name on envelope" beside other names for how the outer envelope names the same people.

    Alone it is the list's names; so is "Outer envelope words".
    """
    named = [d for d in drafts if d.filled and d.hit and d.hit.meaning in NAMES - {"household"}]
    usual = [d for d in named if not _is_of_envelopes(d)]
    for draft in drafts:
        if draft.hit is None or draft.how == "docket":
            continue
        if draft.hit.meaning == "outer" and not usual:
            draft.take(replace(draft.hit, meaning="name"), draft.how)
        elif usual and draft in named and draft not in usual and draft.hit.ordinal == 1:
            draft.take(replace(draft.hit, meaning="outer", rank=1), draft.how)


def _is_of_envelopes(draft: Draft) -> bool:
    """True for a header of names that speaks of the envelope or the addressee."""
    hit = draft.hit
    return hit is not None and hit.meaning == "name" and hit.rank == _OF_ENVELOPES


def _is_guest_of_names(draft: Draft) -> bool:
    """True for "Guest" over whole names: who is invited, not whether somebody comes along."""
    guest = draft.hit is not None and draft.hit.meaning == "guest"
    return guest and fold(draft.header) == "guest" and draft.shares.get("name", 0.0) >= STRONG


def _name_beside(draft: Draft, meaning: str, beside: set[str]) -> str:
    """What a name's header means, given the meanings of the columns beside it."""
    full_names = draft.shares.get("name", 0.0) >= STRONG
    numbers = draft.shares.get("number", 0.0) + draft.shares.get("postcode", 0.0) >= STRONG
    bare = fold(draft.header)
    if _is_guest_of_names(draft) and not beside & (NAMES - {"household"}):
        return "name"
    if meaning == "guest" and bare == "guest" and not beside & NAMES:
        return "name"
    if meaning == "household" and not beside & (NAMES - {"household"}) and not numbers:
        return meaning if "full names" in beside else "name"
    if meaning in _COUNTS and full_names and not beside & NAMES:
        return "name"
    if meaning in ("family", "given") and not beside & (NAMES - {meaning, "household"}):
        return "name" if full_names else meaning
    surname = bare == "name" and "given" in beside and "family" not in beside
    return "family" if meaning == "name" and surname and not full_names else meaning


def settle_claims(drafts: list[Draft]) -> list[tuple[Draft, Draft]]:
    """Give each meaning to the column with the better claim; pairs of loser and winner."""
    losers: list[tuple[Draft, Draft]] = []
    holders = Holders()
    behind: dict[str, int] = {}
    for draft in sorted(drafts, key=_claim_strength):
        if draft.hit is None or draft.hit.meaning in _MANY:
            continue
        key = (draft.hit.meaning, draft.hit.ordinal)
        if key not in holders:
            holders[key] = draft
        elif (free := _next_ordinal(draft, holders, behind)) is not None:
            draft.take(replace(draft.hit, ordinal=free), draft.how)
            holders[draft.hit.meaning, free] = draft
        else:
            losers.append((draft, holders[key]))
            draft.take(None, "")
    return losers


def _claim_strength(draft: Draft) -> tuple[float, bool, bool, int, int]:
    hit = draft.hit
    if hit is None:
        return (0.0, False, False, 0, draft.index)
    pinned = hit.score >= PINNED
    return (-hit.score, not draft.filled and not pinned, hit.companion, -hit.rank, draft.index)


def _next_ordinal(draft: Draft, holders: Holders, behind: dict[str, int]) -> int | None:
    """A second "First Name" is the second person's, in the order of the columns.

    `behind` keeps the ordinal last given for a meaning, so that no column counts from one again.
    """
    hit = draft.hit
    if hit is None or hit.meaning not in PERSON_PARTS or draft.how == "docket":
        return None
    first = holders[hit.meaning, hit.ordinal]
    if not hit.companion and fold(first.header) != fold(draft.header):
        return None
    ordinal = max(hit.ordinal, behind.get(hit.meaning, 0))
    while (hit.meaning, ordinal) in holders:
        ordinal += 1
    behind[hit.meaning] = ordinal
    return ordinal


def ask_contents(drafts: list[Draft], losers: Iterable[tuple[Draft, Draft]]) -> None:
    """Columns that their headers leave open are read by what they hold, if that is still free."""
    taken = {d.hit.meaning for d in drafts if d.hit and d.hit.ordinal == 1}
    lost = {id(loser) for loser, _ in losers}
    open_ones = [d for d in drafts if d.hit is None and d.filled and id(d) not in lost]
    for draft in open_ones:
        kind = leading(draft.shares) or ("address" if holds_homes(draft.shares) else None)
        meaning = _BY_CONTENT.get(kind) if kind else None
        if meaning == "street" and _goes_on(draft, drafts) and "street2" not in taken:
            draft.take(Hit("street2"), "content")
            taken.add("street2")
        elif meaning is not None and _is_free(meaning, taken):
            draft.take(Hit(meaning), "content")
            taken.add(meaning)


def _goes_on(draft: Draft, drafts: list[Draft]) -> bool:
    """True for a column right behind the streets."""
    before = next((d for d in drafts if d.index == draft.index - 1), None)
    return before is not None and before.hit is not None and before.hit.meaning in _STREETS


def _is_free(meaning: str, taken: set[str]) -> bool:
    """True when no other column says this already, in one piece or in parts."""
    rivals = {"name": NAMES, "address": {"street"}, "place": {"city"}}
    return meaning in _MANY or not taken & {meaning, *rivals.get(meaning, ())}


def ask_sentences(drafts: list[Draft], losers: Iterable[tuple[Draft, Draft]]) -> None:
    """Columns of sentences under headers that say nothing known are notes, where names are told."""
    if not {draft.hit.meaning for draft in drafts if draft.hit} & NAMES:
        return
    lost = {id(loser) for loser, _ in losers}
    for draft in drafts:
        open_one = draft.hit is None and id(draft) not in lost
        if open_one and draft.words >= _SENTENCE and leading(draft.shares) not in _TOLD:
            draft.take(Hit("notes"), "content")


def ask_neighbours(drafts: list[Draft]) -> None:
    """Without headers: single words before the address are names, one before the state a town."""
    by_meaning = {d.hit.meaning: place for place, d in enumerate(drafts) if d.hit}
    place = by_meaning.get("region", by_meaning.get("postcode", 0))
    if place and drafts[place - 1].hit is None and drafts[place - 1].filled:
        drafts[place - 1].take(Hit("city"), "content")
    first = min((by_meaning[m] for m in by_meaning if m in _PLACES), default=len(drafts))
    words = [d for d in drafts[:first] if d.hit is None and leading(d.shares) == "word"]
    if "name" not in by_meaning and words:
        parts = ("given", "family") if len(words) > 1 else ("name",)
        for draft, part in zip(words, parts, strict=False):
            draft.take(Hit(part), "content")
