"""The words that name cells are read by: titles, suffixes, credentials, particles, guest words."""

from dataclasses import dataclass
from functools import cache

from addressing.guestlist.folding import fold
from addressing.tables import table

LONGEST_TITLE = 3
"""Words in the longest title ("The Right Reverend")."""


@dataclass(frozen=True, slots=True)
class Title:
    """A title as the table knows it; `plural` is said once of several ("Doctors", "MM.")."""

    canonical: str
    group: str
    also_a_name: bool
    plural: bool = False


@cache
def titles() -> dict[str, Title]:
    """Every written form to its title: folded, but as it is where the table has a capital in it."""
    known: dict[str, Title] = {}
    for row in table("titles"):
        both = row["group"] == "both"
        title = Title(row["canonical"], row["group"], row["also_a_name"] == "yes", both)
        for form in row["forms"].split("|"):
            known[fold(form) if form.islower() else form] = title
        for form in _plurals(row):
            known.setdefault(
                form, Title(title.canonical, title.group, also_a_name=False, plural=True)
            )
    return known


def _plurals(row: dict[str, str]) -> list[str]:
    """The folded plural forms: the table's own, with and without The, and "Drs."."""
    if not row["plural"]:
        return []
    plural = fold(row["plural"])
    short = [f"{form}s" for form in row["forms"].split("|") if len(form) <= _SHORT]
    keep = [form for form in short if form not in ("mrs", "mrss", "mss", "misss", "ms")]
    return [plural, f"the {plural}", *keep, *(f"the {form}" for form in keep)]


@cache
def mens_names() -> frozenset[str]:
    """Given names, folded, that are seldom a woman's (`mens_names.tsv`)."""
    return frozenset(name for row in table("mens_names") for name in row["names"].split())


@cache
def row_words(kind: str) -> frozenset[str]:
    """The words of one kind in `row_words.tsv`."""
    return frozenset(row["word"] for row in table("row_words") if row["kind"] == kind)


@cache
def front_only() -> frozenset[str]:
    """Markers that can be said of things too, so that they count only where a clause opens."""
    return frozenset(
        row["word"]
        for row in table("name_words")
        if (row["kind"], row["means"]) == ("marker", "front")
    )


@cache
def words(kind: str) -> frozenset[str]:
    """The folded words of one kind in `name_words.tsv`."""
    found = (row["word"] for row in table("name_words") if row["kind"] == kind)
    return frozenset(fold(word) if word.isalnum() else word for word in found)


@cache
def partner_words() -> frozenset[str]:
    """The folded words for a husband or wife: a person, who has a name, and no companion."""
    rows = (row for row in table("name_words") if row["kind"] == "guest")
    return frozenset(fold(row["word"]) for row in rows if row["means"] == "partner")


@cache
def given_names(kind: str) -> frozenset[str]:
    """The folded given names of one kind in `given_names.tsv`: double, perhaps, single, both."""
    return frozenset(fold(row["name"]) for row in table("given_names") if row["kind"] == kind)


def is_given(word: str) -> bool:
    """True for a given name that is seldom a family name."""
    return fold(word) in given_names("single")


def may_be_given(word: str) -> bool:
    """True for a known given name, though it may be a family name too."""
    return is_given(word) or fold(word) in given_names("both") or fold(word) in _iberian_givens()


@cache
def _iberian_givens() -> frozenset[str]:
    rows = (row for row in table("family_names") if row["kind"] == "iberian-given")
    return frozenset(fold(row["name"]) for row in rows)


@cache
def meanings(kind: str) -> dict[str, str]:
    """The folded words of a kind that has a meaning: a suffix as it is printed, a number's value.

    >>> meanings("suffix")["junior"], meanings("number")["three"]
    ('Jr.', '3')
    """
    rows = (row for row in table("name_words") if row["kind"] == kind and row["means"])
    return {fold(row["word"]): row["means"] for row in rows}


_SHORT = 4
"""Letters of an abbreviated title that may take an s ("Drs.")."""
