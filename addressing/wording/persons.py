"""One person as etiquette names them: the outer in full, the inner by title and surname."""

from functools import cache

from addressing.records.guests import Person
from addressing.tables import table
from addressing.wording.casing import is_single_case, recase

CIVIL = 90
"""The rank of Mr., Mrs., Ms.: any lower number is a rank, an office or a doctorate."""
_DOCTOR_BY_DEGREE = frozenset(("md", "dds", "dmd", "dvm", "do"))


@cache
def _titles() -> dict[str, dict[str, str]]:
    return {row["canonical"]: row for row in table("titles")}


def title_of(person: Person) -> str | None:
    """The person's title: the list's own, or Dr. where a medical degree stands behind the name."""
    if person.title is not None:
        return None if _group(person.title) == "kin" else person.title
    degrees = {letters.replace(".", "").casefold() for letters in person.credentials}
    return "Dr." if degrees & _DOCTOR_BY_DEGREE else None


def _group(title: str) -> str:
    return _titles().get(title, {}).get("group", "")


def is_kin(person: Person) -> bool:
    """True for Aunt, Uncle: a word for the inner envelope only."""
    return person.title is not None and _group(person.title) == "kin"


def rank(person: Person) -> int:
    """Where the person stands in a couple: lower goes first; civil titles and none are equal."""
    title = title_of(person)
    return min(int(_titles().get(title or "", {}).get("rank", CIVIL)), CIVIL)


def is_military(person: Person) -> bool:
    """True for an officer or soldier."""
    return _group(title_of(person) or "") == "military"


def spelled(person: Person) -> str | None:
    """The title as formal style writes it: Doctor, Captain, Mr."""
    title = title_of(person)
    return _titles().get(title, {}).get("spelled", title) if title else None


def plural(person: Person) -> str:
    """The title for two who share it ("Doctors"), "" where there is none."""
    return _titles().get(title_of(person) or "", {}).get("plural", "")


def inner_title(person: Person) -> str | None:
    """The title before a surname alone; None where only the full name may follow it."""
    title = title_of(person)
    if title is None:
        return None
    spoken = _titles().get(title, {}).get("inner", title)
    return None if spoken == "=" else spoken


def cased(text: str | None) -> str | None:
    """A name typed in one case as names are set; a mixed-case name as it is."""
    return recase(text) if text and is_single_case(text) else text


def family(person: Person) -> str | None:
    """The family name as it is set."""
    name = person.family
    return recase(name, particle_first=True) if name and is_single_case(name) else name


def given(person: Person) -> str | None:
    """The given names as they are set."""
    return cased(person.given)


def with_suffix(name: str, person: Person) -> str:
    """Jr. and Sr. behind a comma (GPO Style Manual 2008, 16.12), numerals without."""
    if person.suffix is None:
        return name
    return (
        f"{name}, {person.suffix}" if person.suffix in ("Jr.", "Sr.") else f"{name} {person.suffix}"
    )


def full_name(person: Person) -> str:
    """Given names, family name, suffix; Esq. only where no title stands before."""
    names = " ".join(part for part in (given(person), family(person)) if part)
    name = with_suffix(names, person)
    esquire = next((c for c in person.credentials if c.casefold().startswith("esq")), None)
    return f"{name}, {esquire}" if esquire and title_of(person) is None else name


def formal(person: Person) -> str:
    """The person alone on a formal outer envelope: "Doctor Odile Farrenby"."""
    return " ".join(part for part in (spelled(person), full_name(person)) if part)


def formal_inner(person: Person) -> str:
    """The person alone on a formal inner envelope: "Doctor Farrenby"."""
    if is_kin(person) and person.given:
        return f"{person.title} {given(person)}"
    spoken = inner_title(person)
    if spoken is None or not person.family:
        return formal(person)
    return f"{spoken} {family(person)}"
