"""One person: title, names and suffix as they are written."""

from dataclasses import replace
from functools import cache, lru_cache

from addressing.records.guests import Person
from addressing.tables import lookup, table
from addressing.wording.casing import NAMES_KEPT, cased, is_single_case, recase

CIVIL = 90
"""The rank of Mr., Mrs., Ms.: any lower number is a rank, an office or a doctorate."""
GROWN = 18
"""Years from which on a boy is Mr. (several etiquette guides)."""
_JUNIOR = {"Jr.": "junior", "Sr.": "senior"}


@cache
def _titles() -> dict[str, dict[str, str]]:
    return {row["canonical"]: row for row in table("titles")}


@cache
def opening_titles() -> tuple[str, ...]:
    """Titles that may stand on a line of their own above the name, the longest first.

    The Honorable, The Reverend and their like, in full and short (several etiquette guides).
    """
    spelled_out = {row["spelled"] for row in _titles().values()}
    openings = {title for title in spelled_out if title.startswith("The ")}
    openings |= {short(title) or title for title in openings} | set(map(unpointed, openings))
    return tuple(sorted(openings, key=len, reverse=True))


@cache
def written_titles() -> frozenset[str]:
    """Every title as a line may have it: as listed, in full, spoken, short."""
    columns = ("canonical", "spelled", "inner")
    full = {row[each].lstrip("+=") for row in _titles().values() for each in columns} - {""}
    less = {unpointed(title, brief=brief) for title in full for brief in (False, True)}
    return frozenset(full | less | {short(title) or title for title in full})


def title_of(person: Person) -> str | None:
    """The person's title: the list's own, or Dr. where a medical degree stands behind the name."""
    if person.title is not None:
        dropped = person.title in _of_group("kin") and person.given  # else it is all there is
        return None if dropped else person.title
    if not person.credentials:
        return None
    return "Dr." if "medicine" in _doctorates(person) else None


def _doctorates(person: Person) -> set[str]:
    """What the doctorates behind a name are of: "medicine", "learning"."""
    known = lookup("doctorates", "letters", "kind")
    letters = (each.replace(".", "").casefold() for each in person.credentials)
    return {known[each] for each in letters if each in known}


@cache
def _of_group(group: str) -> frozenset[str]:
    return frozenset(title for title, row in _titles().items() if row["group"] == group)


@cache
def _ranks() -> dict[str, int]:
    """Only those above the civil titles."""
    ranks = {title: int(row["rank"]) for title, row in _titles().items()}
    return {title: rank for title, rank in ranks.items() if rank < CIVIL}


def is_kin(person: Person) -> bool:
    """True for Aunt, Uncle: a word for the inner envelope only."""
    return person.title in _of_group("kin")


def rank(person: Person) -> int:
    """Where the person stands in a couple: lower goes first; civil titles and none are equal."""
    return _ranks().get(title_of(person) or "", CIVIL)


def is_for_both(person: Person) -> bool:
    """True for a title that the list has once for several (Señores), and that may stand so."""
    return person.title in _of_group("both") and bool(plural(person))


def is_military(person: Person) -> bool:
    """True for an officer or soldier."""
    return title_of(person) in _of_group("military")


def spelled(person: Person) -> str | None:
    """The title as formal style writes it: Doctor, Captain, Mr.; None where it is for several."""
    title = title_of(person)
    return (_titles().get(title, {}).get("spelled", title) or None) if title else None


def plural(person: Person) -> str:
    """The title for two who share it ("Doctors"), "" where there is none."""
    return _titles().get(title_of(person) or "", {}).get("plural", "")


def inner_title(person: Person) -> str | None:
    """The title before a surname alone; None where only the full name may follow it."""
    title = title_of(person)
    if title is None:
        return None
    spoken = _titles().get(title, {}).get("inner", title)
    return None if spoken in ("=", "") else spoken.removeprefix("+")


def spoken_plural(person: Person) -> str:
    """The title before a surname alone for two who share it ("Colonels"), "" where none."""
    title = inner_title(person)
    return _spoken_plurals().get(title, "") if title else ""


@cache
def _spoken_plurals() -> dict[str, str]:
    alone = (row for row in _titles().values() if row["group"] != "both")
    return {row["spelled"]: row["plural"] for row in alone}


def goes_by_given(person: Person) -> bool:
    """True where title and given name go together in speech: Sir Tobias, Lady Annabel."""
    return bool(person.given) and _titles().get(title_of(person) or "", {}).get(
        "inner", ""
    ).startswith("+")


def is_named_by_husband(person: Person) -> bool:
    """True for "Mrs. Tobias Wexcombe": a wife's title before a man's given name, or his III."""
    if not person.given or title_of(person) not in _wives():
        return False
    return bool(person.suffix) or _is_mans(person.given)


@lru_cache(NAMES_KEPT)
def _is_mans(given: str) -> bool:
    """True where given names begin with a man's."""
    return given.split(maxsplit=1)[0].casefold() in _men()


@cache
def _wives() -> frozenset[str]:
    return frozenset(row["wife"] for row in table("couples"))


@cache
def _men() -> frozenset[str]:
    return frozenset(name for row in table("mens_names") for name in row["names"].split())


def short(title: str | None) -> str | None:
    """A title with its words shortened (data/short_titles.tsv).

    >>> short("Lieutenant Colonel"), short("Miss"), short(None)
    ('Lt. Col.', 'Miss', None)
    """
    return title and " ".join(_short_words().get(word, word) for word in title.split())


@cache
def _short_words() -> dict[str, str]:
    return {row["word"]: row["short"] for row in table("short_titles")}


def unpointed(title: str, *, brief: bool = False) -> str:
    """A title without points as British usage has it (data/unpointed_titles.tsv), or `brief`.

    Words of other languages keep theirs.

    >>> unpointed("The Right Reverend"), unpointed("Lieutenant Colonel", brief=True)
    ('The Rt Revd', 'Lt Col')
    >>> unpointed("Mr."), unpointed("Herr Dr.")
    ('Mr', 'Herr Dr.')
    """
    words = _unpointed_words()
    short_words = _short_words() if brief else {}
    return " ".join(
        words.get(word) or short_words.get(word, "").rstrip(".") or word for word in title.split()
    )


@cache
def _unpointed_words() -> dict[str, str]:
    return lookup("unpointed_titles", "word", "plain")


def is_doctor(person: Person) -> bool:
    """True where the title is Doctor."""
    return title_of(person) in _of_group("doctor")


def is_scholar(person: Person) -> bool:
    """True for a Doctor by letters of learning (Ph.D.), and of no medicine."""
    return is_doctor(person) and _doctorates(person) == {"learning"}


def family(person: Person) -> str | None:
    """The family name as it is set."""
    return _family(person.family)


@lru_cache(NAMES_KEPT)
def _family(name: str | None) -> str | None:
    return recase(name, particle_first=True) if name and is_single_case(name) else name


def given(person: Person) -> str | None:
    """The given names as they are set."""
    return cased(person.given)


def as_honorable(person: Person, *, local: bool = False) -> Person:
    """A judge, senator or other honored office (data/honored_offices.tsv) as The Honorable.

    With `local` also a sheriff, a member of a council and their like.
    """
    place = lookup("honored_offices", "title", "place").get(title_of(person) or "")
    if place is None or (place and not local):
        return person
    return replace(person, title="The Honorable")


def child_title(child: Person, master_until: int) -> str | None:
    """A child's title by the list: Miss; Master until an age, then none, Mr. from 18.

    Several etiquette guides; where Master ends they differ (6, 8, 12 or 13).
    """
    title = spelled(child)
    if title != "Master" or child.age is None or child.age < master_until:
        return title
    return "Mr." if child.age >= GROWN else None


def with_suffix(name: str, person: Person, junior: str = "comma") -> str:
    """A name with its suffix; numerals without a comma.

    `junior` says how Jr. and Sr. stand: "comma" (GPO Style Manual 2008, 16.12), "plain" (no comma;
    The Chicago Manual of Style, from memory) or "spelled" (", junior"; common practice, no source).
    """
    if person.suffix is None:
        return name
    spelt = _JUNIOR.get(person.suffix)
    if spelt is None or junior == "plain":
        return f"{name} {person.suffix}"
    return f"{name}, {spelt if junior == 'spelled' else person.suffix}"


def has_words_behind(person: Person) -> bool:
    """True where a suffix or Esq. stands behind the full name."""
    return bool(person.suffix or _esquire(person))


def _esquire(person: Person) -> str | None:
    """Esq. as listed, where no title stands before."""
    if not person.credentials or title_of(person) is not None:
        return None
    return next((c for c in person.credentials if c.casefold().startswith("esq")), None)


def full_name(person: Person, junior: str = "comma") -> str:
    """Given names, family name, suffix; Esq. only where no title stands before."""
    first, last = cased(person.given), _family(person.family)
    names = f"{first} {last}" if first and last else first or last or ""
    name = with_suffix(names, person, junior)
    esquire = _esquire(person) if person.credentials else None
    return f"{name}, {esquire}" if esquire else name
