"""ZIP, town and state held against each other: lost zeros restored where proved, else asked."""

import re
from dataclasses import replace

from addressing.guestlist.domestic.dwellings import has_number
from addressing.guestlist.domestic.near_towns import is_initials, is_short, town_meant
from addressing.guestlist.domestic.street_check import check_street
from addressing.guestlist.folding import fold
from addressing.guestlist.places.places import (
    MILITARY_STATES,
    is_refused,
    is_town,
    near_state,
    state_code,
    state_name,
    town_in_zip,
    town_zips,
    zip_in_state,
    zip_state,
    zip_towns,
)
from addressing.guestlist.written import Trouble, Written
from addressing.records.guests import Address, Cited

ZIP_DIGITS = 5
FULL_ZIP_DIGITS = 9
_LETTERS = str.maketrans({"O": "0", "o": "0", "I": "1", "l": "1"})
"""Letters that are typed for a figure."""
_FEW = 4
"""No more ZIP codes than this are offered as mends."""


def check_zip(address: Address, written: Written) -> tuple[Address, tuple[Trouble, ...]]:
    """The address with its ZIP mended where that is proved, and what is missing or disagrees."""
    address, repairs = _restore(address, written)
    address, respelled = _respell_state(address)
    address, filled = _fill_state(address)
    mended = (*repairs, *respelled, *filled)
    found = (*_missing(address), *check_street(address), *_disagreements(address))
    return address, (*mended, *found)


def _restore(address: Address, written: Written) -> tuple[Address, tuple[Trouble, ...]]:
    """Give a ZIP its zeros back where the state proves them; tidy the +4."""
    cited = address.postcode
    if cited is None:
        return address, ()
    now = _tidy(cited.text, written)
    if now is None or not re.fullmatch(r"\d{5}(?:-\d{4})?", now):
        text = f"“{cited.text}” is no ZIP code."
        return address, (Trouble("zip-doubtful", text, f"What is the ZIP{_of(address)}?", cited),)
    if now == cited.text:
        return address, ()
    padded = len(re.sub(r"\D", "", cited.text.translate(_LETTERS))) in (3, 4, 7, 8)
    lettered = cited.text.translate(_LETTERS) != cited.text
    if lettered and not (address.city and town_in_zip(address.city.text, now)):
        text = f"“{cited.text}” holds a letter; is it {now}?"
        return address, (Trouble("zip-doubtful", text, f"What is the ZIP{_of(address)}?", cited),)
    if padded and not _proved(address, now):
        text = f"“{cited.text}” lacks a digit; {now} would lie in {_state_of(now)}."
        return address, (Trouble("zip-doubtful", text, f"What is the ZIP{_of(address)}?", cited),)
    code = "zip-zero-restored" if padded else "zip-tidied"
    text = f"{cited.text} is written {now}" + (", the zero in front was lost." if padded else ".")
    mended = Trouble(code, text, "Nothing to do.", cited, (cited.text, now))
    return replace(address, postcode=Cited(now, cited.cells)), (mended,)


def _tidy(text: str, written: Written) -> str | None:
    """The ZIP with its zeros, as the digits and the cell's number format give it."""
    if written.zip_shown and re.fullmatch(r"\d{5}(?:-\d{4})?", written.zip_shown):
        return written.zip_shown
    digits = re.sub(r"[\s\-–.]", "", text.translate(_LETTERS))
    if not digits.isdigit() or not digits.isascii():
        return None
    if len(digits) <= ZIP_DIGITS:
        return digits.zfill(ZIP_DIGITS) if len(digits) > 2 else None  # noqa: PLR2004 - 005 at least
    if len(digits) in (FULL_ZIP_DIGITS - 2, FULL_ZIP_DIGITS - 1, FULL_ZIP_DIGITS):
        full = digits.zfill(FULL_ZIP_DIGITS)
        return f"{full[:ZIP_DIGITS]}-{full[ZIP_DIGITS:]}"
    return None


def _proved(address: Address, zip_code: str) -> bool:
    """The state, or without one the town, says that the padded ZIP is right."""
    if address.region is not None:
        return zip_in_state(zip_code, address.region.text)
    return address.city is not None and town_in_zip(address.city.text, zip_code)


def _of(address: Address) -> str:
    parts = [cited.text for cited in (address.city, address.region) if cited]
    return f" of {', '.join(parts)}" if parts else ""


def _state_of(zip_code: str) -> str:
    code = zip_state(zip_code)
    return state_name(code) or code if code else "no state"


def _respell_state(address: Address) -> tuple[Address, tuple[Trouble, ...]]:
    """A misspelt state is mended where it is nearly the state's name and the ZIP has the town."""
    region, postcode, city = address.region, address.postcode, address.city
    if region is None or postcode is None or city is None or state_code(region.text) is not None:
        return address, ()
    code = near_state(region.text, postcode.text)
    if code is None or not town_in_zip(city.text, postcode.text):
        return address, ()
    text = f"The state is written “{region.text}”; {postcode.text} {city.text} lies in {code}."
    mended = replace(address, region=Cited(code, region.cells))
    return mended, (Trouble("state-from-zip", text, "Nothing to do.", region, (region.text, code)),)


def _fill_state(address: Address) -> tuple[Address, tuple[Trouble, ...]]:
    """A state that isn't written is taken from the ZIP where the ZIP has the town."""
    if address.region is not None or address.postcode is None or address.city is None:
        return address, ()
    state = zip_state(address.postcode.text)
    if state is None or not town_in_zip(address.city.text, address.postcode.text):
        return address, ()
    if address.street is not None and fold(address.street.text).split()[-1:] == [fold(state)]:
        text = f"“{address.street.text}”: {state} may be the state, or a part of the street."
        mend = "How does the street read?"
        return address, (Trouble("address-doubtful", text, mend, address.street),)
    text = f"The state isn't written; {address.postcode.text} {address.city.text} lies in {state}."
    filled = replace(address, region=Cited(state, address.postcode.cells))
    return filled, (
        Trouble("state-from-zip", text, "Nothing to do.", address.postcode, ("", state)),
    )


def _missing(address: Address) -> tuple[Trouble, ...]:
    """Parts without which no envelope arrives."""
    troubles: list[Trouble] = []
    where = address.street or address.city or address.postcode
    gaps = [
        name
        for name, cited in (
            ("street", address.street),
            ("town", address.city),
            ("state", address.region),
        )
        if cited is None
    ]
    if gaps:
        text = f"The address has no {' and no '.join(gaps)}."
        mend, likely = _mend_gap(address, gaps)
        troubles.append(Trouble("address-incomplete", text, mend, where, likely=likely))
    elif address.street is not None and not has_number(address.street.text):
        text = f"“{address.street.text}” has no house number."
        mend = "Is the address complete without one?"
        troubles.append(Trouble("address-incomplete", text, mend, address.street))
    if address.postcode is None and address.street is not None:
        troubles.append(_zip_missing(address, where))
    return tuple(troubles)


def _mend_gap(address: Address, gaps: list[str]) -> tuple[str, tuple[tuple[str, str], ...]]:
    """What to ask, and what the missing part may be."""
    towns = zip_towns(address.postcode.text) if address.postcode else ()
    if gaps == ["town"] and towns and address.postcode:
        mend = f"Is the town {towns[0]}, which {address.postcode.text} serves?"
        return mend, (("city", towns[0]),)
    return "What is the whole address?", ()


def _zip_missing(address: Address, where: Cited | None) -> Trouble:
    codes: tuple[str, ...] = ()
    if address.city is not None and address.region is not None:
        codes = town_zips(address.city.text, address.region.text)
    mend = f"What is the ZIP{_of(address)}?"
    if 0 < len(codes) <= _FEW:
        mend = f"Is it {' or '.join(codes)}?"
    elif codes:
        mend = f"What is the ZIP{_of(address)} ({codes[0]} to {codes[-1]})?"
    likely = tuple(("postcode", code) for code in codes) if len(codes) <= _FEW else ()
    return Trouble("zip-missing", "The address has no ZIP code.", mend, where, likely=likely)


def _disagreements(address: Address) -> tuple[Trouble, ...]:
    region, postcode, city = address.region, address.postcode, address.city
    if region is None or postcode is None or not re.fullmatch(r"\d{5}(?:-\d{4})?", postcode.text):
        return ()
    if state_code(region.text) is None:
        text = f"“{region.text}” is no state of the United States."
        return (Trouble("address-doubtful", text, "Which state or country is meant?", region),)
    if not zip_in_state(postcode.text, region.text):
        return (_not_in_state(address, region, postcode),)
    if city is None or region.text in MILITARY_STATES:
        return ()
    if town_in_zip(city.text, postcode.text):
        return _preferred(city, postcode)
    return (_not_in_town(city, region, postcode),)


def _preferred(city: Cited, postcode: Cited) -> tuple[Trouble, ...]:
    """A shortened town is asked about; a name that the post refuses for the ZIP is worth a note."""
    main = zip_towns(postcode.text)[0]
    if is_short(city.text, main):
        text = f"{city.text} is short for {main}, which {postcode.text} serves."
        mend = f"Shall the envelope say {main}?"
        return (Trouble("town-misspelt", text, mend, city, likely=(("city", main),)),)
    if not is_refused(city.text, postcode.text):
        return ()
    text = f"The post calls {postcode.text} {main} and doesn't take {city.text} for it."
    return (Trouble("town-not-preferred", text, f"{main} would be surer.", city),)


def _not_in_state(address: Address, region: Cited, postcode: Cited) -> Trouble:
    place = zip_towns(postcode.text)
    lies = f"{place[0]}, {_state_of(postcode.text)}" if place else _state_of(postcode.text)
    text = f"{postcode.text} lies in {lies}; the row says {state_name(region.text)}."
    codes = town_zips(address.city.text, region.text) if address.city else ()
    offered = (
        f", or {_offered(postcode.text, codes)} for {address.city.text}"
        if codes and address.city
        else ""
    )
    mend = f"Which is right: {postcode.text} ({lies}){offered}?"
    state = (("region", _state_of(postcode.text)),) if zip_state(postcode.text) else ()
    likely = (*state, *_codes(postcode.text, codes))
    return Trouble("zip-not-in-state", text, mend, postcode, likely=likely)


def _offered(zip_code: str, codes: tuple[str, ...]) -> str:
    """The town's ZIPs that a slip of a finger turns into the one written, else all of them."""
    return " or ".join(code for _, code in _codes(zip_code, codes)) or _range(codes)


def _codes(zip_code: str, codes: tuple[str, ...]) -> tuple[tuple[str, str], ...]:
    """The town's ZIPs that may be meant: those one slip away, else all where they are few."""
    slips = [code for code in codes if _is_slip(zip_code[:ZIP_DIGITS], code)]
    likely = next((few for few in (slips, codes) if 0 < len(few) <= _FEW), ())
    return tuple(("postcode", code) for code in likely)


def _is_slip(typed: str, meant: str) -> bool:
    """True when one figure differs, or two neighbours have changed places.

    >>> _is_slip("06795", "06759"), _is_slip("06758", "06759"), _is_slip("06777", "06759")
    (True, True, False)
    """
    differ = [place for place in range(ZIP_DIGITS) if typed[place] != meant[place]]
    if len(differ) == 2:  # noqa: PLR2004 - two neighbours
        one, other = differ
        return other - one == 1 and typed[one] == meant[other] and typed[other] == meant[one]
    return len(differ) == 1


def _range(codes: tuple[str, ...]) -> str:
    return codes[0] if len(codes) == 1 else f"{codes[0]} to {codes[-1]}"


def _unknown_zip(city: Cited, region: Cited, postcode: Cited) -> Trouble:
    """A ZIP that no town has, beside a town that has others: a figure is wrong, or it is new."""
    codes = town_zips(city.text, region.text)
    text = f"The open ZIP data has no {postcode.text}; {city.text} has {_range(codes)}."
    meant = _codes(postcode.text, codes)
    mend = (
        f"Is it {_offered(postcode.text, codes)}?" if meant else f"What is the ZIP of {city.text}?"
    )
    return Trouble("zip-doubtful", text, mend, postcode, likely=meant)


def _not_in_town(city: Cited, region: Cited, postcode: Cited) -> Trouble:
    """A town that the ZIP doesn't serve: a question, unless its name only adds to the ZIP's own."""
    towns = zip_towns(postcode.text)
    near = next((town for town in towns if is_initials(city.text, town)), "")
    if not is_town(city.text, region.text):
        near = town_meant(city.text, towns)
    if near:
        text = f"{city.text}, {region.text} {postcode.text}: the ZIP serves {near}."
        return Trouble("town-misspelt", text, f"Is {near} meant?", city, likely=(("city", near),))
    if is_town(city.text, region.text) and not towns:
        return _unknown_zip(city, region, postcode)
    if not is_town(city.text, region.text):
        text = f"{city.text}, {region.text} {postcode.text}: the town isn't in the open ZIP data."
        return Trouble("town-not-listed", text, "Worth a second look; nothing waits on it.", city)
    codes = town_zips(city.text, region.text)
    text = f"{postcode.text} serves {towns[0]}, not {city.text} ({_range(codes)})."
    main = fold(towns[0]).split()
    if fold(city.text).split()[: len(main)] == main:
        return Trouble("town-near-zip", text, "Worth a second look; nothing waits on it.", city)
    meant = _codes(postcode.text, codes)
    mend = (
        f"Is the ZIP {_offered(postcode.text, codes)}, or the town {towns[0]}?"
        if meant
        else "Which is right, the ZIP or the town?"
    )
    likely = (("city", towns[0]), *meant)
    return Trouble("zip-not-in-town", text, mend, postcode, likely=likely)
