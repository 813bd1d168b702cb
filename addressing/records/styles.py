"""A style of wording as data: forms for one person and for two, the first that suits is taken."""

from dataclasses import dataclass, field

from addressing.records.guests import Person

ENVELOPES = ("outer", "inner")

CONDITIONS = {
    "title": "the person bears a title other than a word of kinship",
    "spoken title": "the title may stand before the family name alone (Doctor, not The Honorable)",
    "title before given name": "title and given name go together in speech (Sir Tobias)",
    "title for both": "the list has one title for the two (Señores, MM.), and it may stand so",
    "named by husband": "a wife's title stands before a man's given name (Mrs. Tobias Wexcombe)",
    "kinship": "a word of kinship stands before the name (Aunt)",
    "given name": "the list has a given name, and it is no husband's (Mrs. Tobias Wexcombe)",
    "family name": "the list has a family name",
    "one family": "the two bear one family name",
    "husband and wife": "their titles are a couple's: Mr. and Mrs., Herr and Frau",
    "wife without given name": "the list has no given name for her",
    "full-name title": "the husband's title wants his full name behind it (The Honorable)",
    "one title": "the two bear the same title, and it has a plural",
    "one spoken title": "spoken they are of one title (two Colonels), whose plural is known",
    "plural before names": "their title's plural may stand before given names (Doctors, Misses)",
    "given names": "the list has a given name for both",
    "no given names": "the list has none for either",
    "no titles": "neither bears a title",
    "suffixes": "one of the two bears Jr., III, Esq. or the like behind the name",
    "couple by one name": 'the docket has couple = "traditional"',
    "titles together": 'the docket has same_title = "together"',
    "untitled by given name": 'the docket has untitled = "given"',
}
"""What a form may ask; "not " before one turns it round. The last three are the docket's."""

TITLE_IS = {"title is ": "one", "husband's title is ": "husband"}
"""Conditions that end in a title, canonical or spelled out, and whose title they ask about."""


def is_condition(text: str) -> bool:
    """True for a condition that a form may have.

    >>> is_condition("not husband's title is The Honorable")
    True
    """
    asked = text.removeprefix("not ")
    return asked in CONDITIONS or any(
        asked.startswith(prefix) and asked != prefix for prefix in TITLE_IS
    )


PEOPLE = ("one", "other", "husband", "wife")
"""Whom a form may name: in the order of the line; husband and wife only where it asks for them."""

PARTS = {
    "title": "the title as the style writes it: Doctor, Captain, Mr.",
    "spoken": "the title before a family name alone: Colonel for a Lieutenant Colonel",
    "plural": "the title for two: Doctors",
    "spoken_plural": "the spoken title for two: Colonels for two Lieutenant Colonels",
    "kin": "the word of kinship: Aunt",
    "given": "the given names",
    "family": "the family name",
    "first": "the given names and the suffix",
    "name": "given names, family name, suffix",
    "alone": "the person as this style writes one alone; not in a form for one",
}
"""What a form may say of a person, as in `{one.title} {one.name}`; what is unknown falls away."""


_ON_CARDS = {"guest of": "Guest of", "table": "Table"}


@dataclass(frozen=True, slots=True)
class Form:
    """How a style writes one person or two, when all of `when` holds.

    `on` names the envelopes that it is for. `example` written by the style alone gives `gives` on
    the first of them; the program tries every example of a style before it uses the style.
    """

    people: int
    on: tuple[str, ...]
    when: tuple[str, ...]
    write: str
    example: tuple[Person, ...]
    gives: str
    source: str


@dataclass(frozen=True, slots=True)
class Style:
    """A style of wording.

    `forms` are in the order in which they are tried: the style's `own` first (that many), then
    those of its base. `address` is "spelled" (all in full) or "postal" (Publication 28);
    `capitals` sets every letter as a capital, without points or commas. `titles` tells whether a
    missing title is worth a question; `short_titles` writes Dr. and Capt. (data/short_titles.tsv);
    without `points` titles and suffixes bear none (Mr, Dr, Revd; data/unpointed_titles.tsv).
    """

    key: str
    title: str
    forms: tuple[Form, ...]
    address: str = "spelled"
    own: int = 0
    capitals: bool = False
    titles: bool = True
    short_titles: bool = False
    points: bool = True
    words: tuple[tuple[str, str], ...] = field(default=())

    def word(self, name: str) -> str:
        """One of the style's own words: "and", "guest" ("and Guest"), "guests", "family".

        "guest of" and "table", on cards, needn't be given.
        """
        return {**_ON_CARDS, **dict(self.words)}[name]
