"""The door of the room: households and hosts become pieces with ranked wordings."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from addressing.records.docket import Docket, Hosts
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Address, Cited, GuestList, Household
from addressing.records.pieces import CARDS, STATIC, Line, Piece, Role, Wording
from addressing.records.styles import Style
from addressing.where import Where
from addressing.wording.address_lines import address_lines
from addressing.wording.cards import cards_of
from addressing.wording.casing import (
    cased_firm,
    hides_letters,
    is_single_case,
    is_unsure,
    recase,
)
from addressing.wording.name_lines import NameLines, name_breaks
from addressing.wording.own_words import left_below, own_lines
from addressing.wording.streets import postal_text

Styles = Mapping[str, Style]
"""The style of each kind of piece."""


def word_list(guest_list: GuestList, docket: Docket, styles: Styles) -> tuple[Piece, ...]:
    """The pieces of every household, held ones too, kind by kind in the list's order.

    Names typed in one case are set as names are (`ask_capitals` asks about them).
    """
    kinds = [kind for kind in docket.make if kind not in STATIC]
    households = guest_list.households
    return tuple(
        piece for kind in kinds for piece in _pieces(kind, households, docket, styles[kind])
    )


def ask_capitals(guest_list: GuestList) -> tuple[Finding, ...]:
    """What is asked or told of each household whose names are typed in one case, in order."""
    return tuple(found for household in guest_list.households for found in _recased(household))


def word_hosts(docket: Docket, styles: Styles) -> tuple[tuple[Piece, ...], tuple[Finding, ...]]:
    """The static pieces; without hosts there are none, and a note says so."""
    kinds = [kind for kind in docket.make if kind in STATIC]
    if not kinds:
        return (), ()
    hosts = docket.hosts
    if hosts is None or not hosts.street:
        note = Finding(
            Severity.NOTE,
            "hosts-missing",
            Where(docket.path or "docket", None, "docket:hosts"),
            f"The docket names no hosts, so {' and '.join(kinds)} aren't made.",
            "Write the hosts' name and address into the docket under [hosts].",
        )
        return (), (note,)
    named = {"reply"} | ({"return"} if docket.wording.flap == "names" else set())
    in_words = docket.wording.numbers == "words"
    pieces = [
        _static(kind, hosts, styles[kind], named=kind in named, in_words=in_words) for kind in kinds
    ]
    return tuple(pieces), ()


def _pieces(
    kind: str, households: Sequence[Household], docket: Docket, style: Style
) -> Iterator[Piece]:
    """One envelope for each household, an inner with everybody and no address; or its cards.

    All names are worded first, then all addresses: that takes less time than household by household
    (measured: a fifth and more), since the processor does the same for longer.
    """
    if kind in CARDS:
        for household in households:
            yield from cards_of(kind, household, docket, style)
        return
    names = _all_names(kind, households, docket, style)
    called = [_called(household) for household in households]
    for household, lines, name in zip(households, names, called, strict=True):
        bare = kind == "inner"
        wordings = (Wording(lines),) if bare else _with_address(lines, household, docket, style)
        yield Piece(kind, household.key, name, wordings)


def _all_names(
    kind: str, households: Sequence[Household], docket: Docket, style: Style
) -> list[tuple[Line, ...]]:
    """The name lines of every household: its own words, else as etiquette has them."""
    inner = kind == "inner"
    writer = NameLines(style, "inner" if inner else "outer", docket.wording)
    everybody = inner or "inner" not in docket.make
    names = []
    for household in households:
        own = own_lines(household, docket, kind)
        lines = own if own is not None else writer.of(household, everybody=everybody)
        if inner:
            lines = (*lines, *writer.of_children(household, left_below(household, docket)))
        names.append(lines)
    if style.capitals:
        return [tuple(map(_postal_name, lines)) for lines in names]
    return names


def _called(household: Household) -> str:
    """What the piece is known by on slips and sheets: as it is set, not in the list's capitals."""
    if household.label is not None:
        return cased_firm(household.label.text)
    name = household.name  # hardly two are called the same: none is worth remembering
    return recase(name) if is_single_case(name) else name


def _postal_name(line: Line) -> Line:
    """A line in capitals; it breaks where it broke, whatever points and commas fell away."""
    text = postal_text(line.text)
    before = [postal_text(line.text[:place].rstrip()) for place in line.breaks]
    breaks = tuple(len(part) + 1 for part in before if text.startswith(f"{part} "))
    return replace(line, text=text, breaks=breaks)


def _with_address(
    names: tuple[Line, ...], household: Household, docket: Docket, style: Style
) -> tuple[Wording, ...]:
    if household.address is None:
        return (Wording(names),)
    home = docket.hosts.country if docket.hosts else "US"
    postal, in_words = style.address == "postal", docket.wording.numbers == "words"
    inline, apart = address_lines(household.address, home, postal=postal, in_words=in_words)
    first = Wording((*names, *inline))
    if apart is None:
        return (first,)
    return (first, Wording((*names, *apart), "the unit stands on a line of its own"))


def _static(kind: str, hosts: Hosts, style: Style, *, named: bool, in_words: bool) -> Piece:
    """By custom the return bears no names (handbook of forms of address); the reply does."""
    address = Address(
        street=_cited("street", hosts.street),
        unit=_cited("unit", hosts.unit),
        city=_cited("city", hosts.city),
        region=_cited("region", hosts.region),
        postcode=_cited("postcode", hosts.postcode),
        country=_cited("country", hosts.country),
    )
    postal = style.address == "postal"
    inline, apart = address_lines(address, hosts.country, postal=postal, in_words=in_words)
    names: tuple[Line, ...] = ()
    if named and hosts.name:
        text = postal_text(hosts.name) if style.capitals else hosts.name
        names = (Line(text, Role.NAME, _cell("name"), name_breaks(text)),)
    wordings = [Wording((*names, *inline))]
    if apart is not None:
        wordings.append(Wording((*names, *apart), "the unit stands on a line of its own"))
    return Piece(kind, None, hosts.name or "the hosts", tuple(wordings))


def _cell(key: str) -> tuple[Where, ...]:
    return (Where("docket", None, f"docket:hosts.{key}"),)


def _cited(key: str, text: str | None) -> Cited | None:
    return Cited(text, _cell(key)) if text else None


def _recased(household: Household) -> tuple[Finding, ...]:
    """One question for a household whose names in one case hide their capitals; else a note."""
    names = [
        (name, person.cells)
        for person in household.people
        for name in (person.given, person.family)
        if name
    ]
    firms = [(household.label.text, household.label.cells)] if household.label else []
    texts = [each for each in (*names, *firms) if is_single_case(each[0])]
    if not texts:
        return ()
    small = [each for each in texts if each[0].islower()]
    odd = small if len(small) < len(names) else []  # the "little" of "little Linnet" is no name
    odd += [each for each in firms if hides_letters(each[0])]
    unsure = [each for each in texts if each in odd or is_unsure(each[0])]
    shown = ", ".join(dict.fromkeys(text for text, _ in unsure or texts))
    where = (unsure or texts)[0][1] or household.rows
    said = f"Typed in one case ({shown}); set with capitals as names have them."
    if unsure:
        mend = "How are the names written?"
        return (Finding(Severity.ASK, "capitals-recased", where[0], said, mend, household.key),)
    mend = "Nothing to do."
    return (Finding(Severity.NOTE, "capitals-set", where[0], said, mend, household.key),)
