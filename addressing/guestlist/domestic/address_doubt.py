"""Two readings of one US address weighed: which is taken, and how likely a field of it is wrong.

The rules read first, a trained model second. Where the two agree, and by how sure the model is,
`data/address_doubt.tsv` says what share of such readings was wrong in cross-validation on open
labelled addresses, disturbed as guest lists are (`scripts/train_addresses.py` writes the table).
"""

from bisect import bisect_right
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cache

from addressing.guestlist.domestic.address_model import Voice
from addressing.guestlist.domestic.boxes import is_box
from addressing.guestlist.domestic.known_forms import is_known_form, is_unmixed
from addressing.guestlist.domestic.plain import is_plain, is_plain_unit
from addressing.guestlist.folding import fold
from addressing.guestlist.places.places import fold_town, is_town, state_code, town_in_zip
from addressing.guestlist.written import Trouble, Written
from addressing.records.guests import Address, Cited
from addressing.tables import table

_ZIP = 5
_UNNAMED = frozenset(("mr", "mrs", "ms", "dr", "and", "the", "family"))
_NO_TEXT = 0.001
"""The doubt of an address that stands in columns of its own, without a street to be read."""


@dataclass(frozen=True, slots=True)
class Weighed:
    """The reading that is taken, what is asked about it, and the remarks found on the way."""

    address: Address
    troubles: tuple[Trouble, ...]
    remarks: tuple[str, ...] = ()


@cache
def _shares(voice: str, form: str, town: str) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """(least sureness, share wrong) of each band, ascending."""
    wanted = (voice, form, town)
    rows = [r for r in table("address_doubt") if (r["voice"], r["form"], r["town"]) == wanted]
    return tuple(float(r["sure_from"]) for r in rows), tuple(float(r["doubt"]) for r in rows)


@cache
def ask_from() -> float:
    """From this doubt on the client is asked."""
    return next(float(r["doubt"]) for r in table("address_doubt") if r["voice"] == "ask")


def doubt_of(voice: str, form: str = "known", town: str = "known", sure: float = 1.0) -> float:
    """The share of wrong readings among those that were like it and as sure.

    `voice` is "same" where rules and model agree, "box" for a box or route by the rules,
    "plain" for a plain street, else the
    one whose reading it is: "model" or "rules"; `form` is that of `form_of`; `sure` is the model's
    sureness of its own reading: the surer it is, the less is another's to be trusted.
    """
    bands, shares = _shares(voice, form, town)
    if not shares:
        return 1.0  # none of its kind was seen
    return shares[max(bisect_right(bands, sure) - 1, 0)]


def form_of(address: Address, other: Address | None, written: Written) -> str:
    """What a reading's parts are: "known", "odd" or "open"; beside another, "alone" or "open" too.

    "odd" has words that no table knows, none of which hints at a second part (`is_unmixed`).
    Beside another reading "known" is one whose parts have known forms where the other's haven't,
    and "alone" one that lacks nothing where the other lacks a part.
    """
    known = is_known_form(address, written)
    if other is None:
        return "known" if known else "odd" if is_unmixed(address, written) else "open"
    if known and not is_known_form(other, written):
        return "known"
    return "alone" if _lacks(other) and not _lacks(address) else "open"


def _lacks(address: Address) -> bool:
    """True without a street, a town, or both state and ZIP."""
    nowhere = address.region is None and address.postcode is None
    return nowhere or None in (address.street, address.city)


def town_of(address: Address) -> str:
    """Whether the town is "known" or "unknown" in the ZIP (without a ZIP, in the state)."""
    return "known" if town_is_known(address) else "unknown"


def town_is_known(address: Address) -> bool:
    """True when the town is one of the ZIP's, or without a ZIP one of the state's."""
    if address.city is None:
        return False
    if address.postcode is not None:
        return town_in_zip(address.city.text, _digits(address.postcode).zfill(_ZIP))
    return address.region is not None and is_town(address.city.text, address.region.text)


def weigh(
    rules: Address,
    written: Written,
    names: frozenset[str],
    listen: Callable[[Written], Voice | None],
) -> Weighed:
    """The likelier of two readings of an address, with its doubt, and the question if there is one.

    `names` are the folded names of the row's people: a line that only repeats them is left out.
    """
    if is_plain(rules, written):
        return Weighed(replace(rules, doubt=doubt_of("plain")), ())
    voice = listen(written)
    if voice is None:
        return Weighed(replace(rules, doubt=_NO_TEXT), ())
    model = _unit_once(_with_street(_unnamed(voice.address, names), rules), written)
    said = rules_say(rules, model, voice.parts)
    if said is not None:
        form = "known" if said == "box" else form_of(rules, None, written)
        taken = replace(rules, doubt=doubt_of(said, form, town_of(rules), voice.sure))
        return Weighed(taken, _question(taken, None), voice.remarks if said == "same" else ())
    by_model = replace(model, doubt=_doubt("model", model, rules, written, voice.sure))
    by_rules = replace(rules, doubt=_doubt("rules", rules, model, written, voice.sure))
    lost = model.street is None and rules.street is not None
    if by_model.doubt <= by_rules.doubt and not lost:
        return Weighed(by_model, _question(by_model, by_rules), voice.remarks)
    return Weighed(by_rules, _question(by_rules, None if lost else by_model))


def _doubt(voice: str, one: Address, other: Address, written: Written, sure: float) -> float:
    return doubt_of(voice, form_of(one, other, written), town_of(one), sure)


def rules_say(rules: Address, model: Address, parts: str) -> str | None:
    """Why the rules' reading stands: "box", "same", or None where it is to be weighed.

    A box or a route is written in so few ways that the tables know them all; the model has seen few
    of some.
    """
    lines = _text(rules.street).split("\n")
    if all(is_box(line) for line in lines) and town_is_known(rules):
        return "box"
    return "same" if agree(rules, _unit_out(model, rules), parts) else None


def _unit_out(model: Address, rules: Address) -> Address:
    """A designator that the tables know parts the unit from the street where the model doesn't."""
    unit = rules.unit
    if model.unit is not None or unit is None or unit.text.startswith("#"):
        return model
    if not is_plain_unit(unit):
        return model
    whole = _letters(_text(rules.street)) + _letters(unit.text)
    same = _letters(_text(model.street)) == whole
    return replace(model, street=rules.street, unit=unit) if same else model


def _with_street(model: Address, rules: Address) -> Address:
    """A house by its name alone is a street for the rules and a line above it for the model."""
    extra = model.recipient_extra
    if extra is None or model.street is not None or rules.recipient_extra is not None:
        return model
    named = _letters(extra.text) == _letters(_text(rules.street))
    return replace(model, street=extra, recipient_extra=None) if named else model


def _unit_once(model: Address, written: Written) -> Address:
    """A unit that stands in a column of its own and in the street's cell is one."""
    if written.unit is None or model.unit is None:
        return model
    own = fold(written.unit.text)
    parts = model.unit.text.split(", ")
    rest = [part for part in parts[1:] if fold(part) != own]
    once = ", ".join((parts[0], *rest)) if fold(parts[0]) == own else model.unit.text
    return replace(model, unit=Cited(once, model.unit.cells))


def _unnamed(address: Address, names: frozenset[str]) -> Address:
    """Without the lines above the street that only say again who lives there."""
    extra = address.recipient_extra
    if extra is None or not names:
        return address
    lines = [line for line in extra.text.split("\n") if not repeats_name(line, names)]
    return replace(address, recipient_extra=Cited("\n".join(lines), extra.cells) if lines else None)


def repeats_name(text: str, names: frozenset[str]) -> bool:
    """True when a line of the address only says again who lives there."""
    words = [word for word in fold(text).split() if word not in _UNNAMED]
    return bool(words) and bool(names) and all(word in names for word in words)


def agree(rules: Address, model: Address, parts: str) -> bool:
    """True when two readings put the same words into the same fields.

    `parts` (floors, departments, lockboxes) may stand with the street, the unit or above.
    """
    return (
        fold_town(_text(rules.city)) == fold_town(_text(model.city))
        and (_code(rules) == _code(model) or not _code(model))
        and _digits(rules.postcode) == _digits(model.postcode)
        and _same_lines(rules, model, _letters(parts))
    )


def _same_lines(rules: Address, model: Address, parts: str) -> bool:
    street, unit, extra = (
        _letters(_text(cited)) for cited in (model.street, model.unit, model.recipient_extra)
    )
    ours = (
        _letters(_text(rules.street)),
        sorted(_letters(_text(rules.unit))),
        sorted(_letters(_text(rules.recipient_extra))),
    )
    if ours == (street, sorted(unit), sorted(extra)):
        return True
    rest = unit.replace(parts, "", 1)
    others = ((street, rest, extra + parts), (street + parts, rest, extra))
    return bool(parts) and any(
        ours == (one, sorted(two), sorted(three)) for one, two, three in others
    )


def _text(cited: Cited | None) -> str:
    return cited.text if cited else ""


def _letters(text: str) -> str:
    return "".join(fold(text).split())


def _code(address: Address) -> str:
    region = _text(address.region)
    return state_code(region) or _letters(region)


def _digits(cited: Cited | None) -> str:
    return "".join(mark for mark in _text(cited) if mark.isdigit())


_SAID = (
    ("line above", "recipient_extra"),
    ("street", "street"),
    ("unit", "unit"),
    ("town", "city"),
    ("state", "region"),
    ("ZIP", "postcode"),
)


def _question(taken: Address, other: Address | None) -> tuple[Trouble, ...]:
    """The question about a doubtful reading; the second reading is named where there is one."""
    if taken.doubt < ask_from():
        return ()
    read = ", ".join(
        f"{name} “{_text(getattr(taken, field))}”".replace("\n", " / ")
        for name, field in _SAID
        if getattr(taken, field)
    )
    text, mend = f"Read as {read}.", "Is it right so? Else write the address line by line."
    if other is not None:
        apart = ", ".join(
            f"{name} “{_text(getattr(other, field)) or '–'}”".replace("\n", " / ")
            for name, field in _SAID
            if _letters(_text(getattr(other, field))) != _letters(_text(getattr(taken, field)))
        )
        text = f"{text} It can be read otherwise: {apart}."
        mend = "Which is right? Else write the address line by line."
    return (Trouble("address-doubtful", text, mend, taken.street or taken.city),)
