"""What is missing or disagrees in an address abroad: no change, only findings (Trouble)."""

from babel import Locale

from addressing.guestlist.abroad.parts_abroad import is_native
from addressing.guestlist.places.postcodes import is_never, tidy, with_zeros
from addressing.guestlist.places.sub_areas import areas_of, lies_in, rules_of, sub_area
from addressing.guestlist.written import Trouble
from addressing.records.guests import Address, Cited

_OF_CODE = "What is the right postcode?"


def country_name(country: str) -> str:
    """The country's name in English."""
    return str(Locale("en").territories.get(country, country))


def mended_code(code: Cited, region: Cited | None, country: str) -> tuple[Cited, Trouble | None]:
    """A postcode as its country writes it, with a note where it was changed.

    Zeros that a spreadsheet took come back only where the region proves them.
    """
    neat = tidy(code.text, country)
    if neat is not None:
        if neat == code.text:
            return code, None
        text = f"“{code.text}” is written {neat} in {country_name(country)}."
        mend = "Nothing to do."
        return Cited(neat, code.cells), Trouble(
            "zip-tidied", text, mend, code, repair=(code.text, neat)
        )
    full = with_zeros(code.text, country)
    area = sub_area(region.text, country) if region else None
    if full is not None and area is not None and lies_in(full, area):
        text = f"“{code.text}” has lost a zero: {full} lies in {area.name}."
        trouble = Trouble("zip-zero-restored", text, "Nothing to do.", code, (code.text, full))
        return Cited(full, code.cells), trouble
    return code, None


def troubles_abroad(address: Address, country: str) -> tuple[Trouble, ...]:
    """What the client must say about an address abroad."""
    where = address.street or address.city or address.postcode
    found = [*_gaps(address, where), *_code(address, country, where)]
    return tuple(found)


def _gaps(address: Address, where: Cited | None) -> list[Trouble]:
    native = address.street is not None and is_native(address.street.text)
    parts = (("street", address.street or address.unit), ("town", native or address.city))
    gaps = [name for name, part in parts if not part]
    if not gaps:
        return []
    text = f"The address has no {' and no '.join(gaps)}."
    return [Trouble("address-incomplete", text, "What is the whole address?", where)]


def _code(address: Address, country: str, where: Cited | None) -> list[Trouble]:
    rules = rules_of(country)
    code = address.postcode
    if code is None:
        if "Z" not in rules.get("require", ""):
            return []
        return [
            Trouble("zip-missing", "The address has no postcode.", "What is the postcode?", where)
        ]
    if not rules.get("zip"):
        return []
    name = country_name(country)
    if tidy(code.text, country) is None:
        text = f"“{code.text}” doesn't have the form of a postcode of {name}."
        full = with_zeros(code.text, country)
        mend = (
            f"Is {full} meant?"
            if full
            else f"Is it right so? One of {name} looks like {_example(country)}."
        )
        return [Trouble("postcode-doubtful", text, mend, code)]
    if is_never(code.text, country):
        text = f"No place in {name} has the postcode “{code.text}”."
        return [Trouble("postcode-doubtful", text, _OF_CODE, code)]
    return _against_region(address, code, country)


def _example(country: str) -> str:
    return rules_of(country).get("zipex", "").split(",")[0]


def _against_region(address: Address, code: Cited, country: str) -> list[Trouble]:
    """The code against the region; without one, against a town that is named as a region."""
    says = address.region or address.city
    area = sub_area(says.text, country) if says else None
    if says is None or area is None or lies_in(code.text, area) is not False:
        return []
    lies = areas_of(code.text, country)
    if not lies:
        text = f"{code.text} isn't a postcode of {area.name}."
        return [Trouble("postcode-doubtful", text, _OF_CODE, code)]
    if address.region is None:
        return []
    names = " or ".join(each.name for each in lies[:3])
    text = f"{code.text} lies in {names}; the row says {area.name}."
    mend = f"Which is right: {code.text} ({names}), or {area.name}?"
    likely = tuple(("region", each.name) for each in lies[:3])
    return [Trouble("zip-not-in-state", text, mend, code, likely=likely)]
