"""What a header means: synonyms in several languages, near spellings, numbered guests."""

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache, lru_cache

from rapidfuzz import fuzz, process

from addressing.faults import Exit, Fault
from addressing.tables import table
from addressing.where import Where

NEAR = 85.0
MARGIN = 8.0
EXACT = 100.0
PINNED = 200.0
SHORTEST_NEAR = 4
"""Headers shorter than this are matched exactly or not at all."""

PERSON_PARTS = frozenset({"name", "title", "given", "middle", "particle", "family", "suffix"})
NUMBERED = PERSON_PARTS | {"children", "guest", "ignore", "notes"}
PLACE_PARTS = frozenset({"city", "region", "postcode", "country"})
ADDRESS_PARTS = PLACE_PARTS | {
    "address",
    "street",
    "street2",
    "house_number",
    "unit",
    "place",
    "po_box",
}
SEASON_PARTS = frozenset(f"season_{part}" for part in ADDRESS_PARTS)
"""The parts of an address that holds for some months only ("Winter City")."""
WORK_PARTS = frozenset(f"work_{part}" for part in ADDRESS_PARTS)
"""The parts of an address at work beside that at home ("Work City")."""
_GUESS = 55.0
_SIGNS = frozenset(
    {
        "qualifier", "person", "name-sign", "total-sign", "count-sign", "heading-sign",
        "mark-sign", "season-sign", "dates-sign", "number-sign", "own-sign",
        "own-heading", "work-sign", "home-sign", "set-sign", "label-sign", "asking-sign",
        "inviting-sign", "invited-sign", "sent-sign",
    }
)  # fmt: skip
_SEASON_DATES = {1: "season_dates", 2: "season_from", 3: "season_until"}

_CAMEL = re.compile(r"(?<=[a-zäöüéèñ])(?=[A-Z])|(?<=[A-Za-z])(?=\d)|(?<=\d)(?=[A-Za-z])")
_WORDS = re.compile(r"[^\w]+|_+")
_ROUND = re.compile(r"\([^()]*\)|\[[^\[\]]*\]")
_PARTS = re.compile(r"[/|;,\n]| or ")
_JOINTS = re.compile(
    r"[/|;,\n&]|\+(?!\s*\d)|\s[-–—]\s|\b(?:and|or|und|oder|et|ou|y|e|en)\b", re.IGNORECASE
)
_MOST_WORDS = 7
_SAID = ("reply", "declined", "notes")
"""Meanings that win over what stands beside them in one header, the strongest first."""
_BESIDE_NOTES = frozenset(
    {"ignore", "elsewhere", "table", "side", "wave", "suite", "age", "age_group"}
)
_BESIDE_REPLIES = _BESIDE_NOTES | {"guest", "children", "invited_count", "adult_count"}
_NUMBER = re.compile(r"\b([1-9])(?: (?:st|nd|rd|th))?\b")


@dataclass(frozen=True, slots=True)
class Hit:
    """A header's meaning; `score` is 100 for an exact synonym, 200 for one from the docket.

    `companion` is True for "Guest First Name" and the like, which is the first person's column
    when it stands alone and the second's beside a plain "First Name".
    """

    meaning: str
    ordinal: int = 1
    rank: int = 1
    score: float = EXACT
    companion: bool = False
    also: str = ""
    """What else the column holds: "RSVP / notes" is a reply, and notes."""


_RSVP_NOTES = Hit("reply", score=NEAR, also="notes")
_MARK_HEADERS = {"+": " plus one ", "invited?": " invited y n "}
"""Headers of which the mark is the meaning."""


@lru_cache(maxsize=16_384)
def fold(text: str) -> str:
    """A header without case, accents and punctuation; signs become words.

    >>> fold("Straße & Nr."), fold("# invited"), fold("guest_2_FirstName"), fold("+1?")
    ('strasse and nr', 'number invited', 'guest 2 first name', 'plus one')
    """
    text = _MARK_HEADERS.get(text.strip().casefold(), text)
    text = text.replace("+1", " plus one ").replace("#", " number ").replace("&", " and ")
    text = _CAMEL.sub(" ", text).replace("ß", "ss").casefold()
    if not text.isascii():
        plain = unicodedata.normalize("NFKD", text)
        text = "".join(char for char in plain if not unicodedata.combining(char))
    return " ".join(_WORDS.sub(" ", text).split())


@cache
def meanings() -> frozenset[str]:
    """Every meaning that a column can have."""
    return (
        frozenset(row["meaning"] for row in table("headers")) - _SIGNS | SEASON_PARTS | WORK_PARTS
    )


@cache
def signs(kind: str) -> dict[str, int]:
    """The folded words of one kind of sign in the table, with their ordinal."""
    return {
        fold(word): int(row["ordinal"])
        for row in table("headers")
        if row["meaning"] == kind
        for word in row["synonyms"].split(" | ")
    }


@cache
def _synonyms() -> dict[str, Hit]:
    return {
        fold(word): Hit(row["meaning"], int(row["ordinal"]), int(row["rank"]))
        for row in table("headers")
        if row["meaning"] not in _SIGNS
        for word in row["synonyms"].split(" | ")
    }


@cache
def _vocabulary() -> frozenset[str]:
    """Every word of the table: a header with another word can't be one of its headers."""
    said = (row["synonyms"] for row in table("headers"))
    words = (word for synonyms in said for word in fold(synonyms.replace(" | ", " ")).split())
    return frozenset((*words, "of", "or", "s", "st", "nd", "rd", "th"))


@lru_cache(maxsize=16_384)
def exact_meaning(header: str) -> Hit | None:
    """The meaning of a header that the table knows, whole or in its parts; None else.

    >>> exact_meaning("Guest 2 First Name"), exact_meaning("Apt/Suite").meaning
    (Hit(meaning='given', ordinal=2, rank=1, score=100.0, companion=False, also=''), 'unit')
    """
    folded = fold(header)
    if not folded:
        return None
    outside = fold(_ROUND.sub(" ", header))
    if not _vocabulary().issuperset(word for word in outside.split() if not word.isdecimal()):
        return None
    for text in dict.fromkeys((folded, outside)):
        for read in (_synonyms().get, _numbered, _of_person, _unqualified, _of_season, _of_work):
            hit = read(text)
            if hit is not None:
                return hit
    return _of_parts(header)


@lru_cache(maxsize=16_384)
def meaning_of(header: str) -> Hit | None:
    """The meaning of a header, near spellings included; None where two meanings are as near."""
    hit = exact_meaning(header) or _asked(header) or _joined(header)
    if hit is not None:
        return hit
    folded = fold(_ROUND.sub(" ", header))
    if len(folded) < SHORTEST_NEAR:
        return None
    near = process.extract(
        folded,
        _synonyms().keys(),
        scorer=fuzz.token_sort_ratio,
        score_cutoff=NEAR - MARGIN,
        limit=None,
    )
    best: dict[tuple[str, int], Hit] = {}
    for word, score, _ in near:
        found = _synonyms()[word]
        best.setdefault((found.meaning, found.ordinal), replace(found, score=score))
    ranked = sorted(best.values(), key=lambda found: -found.score)
    if not ranked or ranked[0].score < NEAR:
        return None
    clear = len(ranked) == 1 or ranked[0].score - ranked[1].score >= MARGIN
    return ranked[0] if clear else None


def _numbered(text: str) -> Hit | None:
    """Read the number: "guest 1" is a name, "first name 2" the second person's given name."""
    match = _NUMBER.search(text)
    if match is None:
        return None
    ordinal = int(match[1])
    rest = " ".join((text[: match.start()] + " " + text[match.end() :]).split())
    if rest in signs("person"):
        return Hit("name", ordinal)
    hit = _synonyms().get(rest) or _of_person(rest)
    if hit is None or hit.meaning not in NUMBERED:
        return None
    return replace(hit, ordinal=ordinal, companion=False)


def _of_person(text: str) -> Hit | None:
    """Take the words for a person off: "spouse first name", "first name of guest"."""
    for words in sorted(signs("person"), key=len, reverse=True):
        for rest in _without(text, words):
            hit = _synonyms().get(rest)
            ordinal = signs("person")[words]
            if hit is not None and hit.meaning in PERSON_PARTS:
                return Hit(hit.meaning, ordinal, companion=ordinal == 1 and words == "guest")
            if hit is not None and hit.meaning in ADDRESS_PARTS and ordinal == 1:
                return hit
    return None


def _without(text: str, words: str) -> tuple[str, ...]:
    if text.startswith(f"{words} "):
        return (text.removeprefix(f"{words} ").removeprefix("s "),)
    if text.endswith(f" {words}"):
        return (text.removesuffix(f" {words}").removesuffix(" of"),)
    return ()


def _unqualified(text: str) -> Hit | None:
    """Take words off that say nothing of the meaning: "home city", "mailing zip code"."""
    for word in signs("qualifier"):
        for rest in _without(text, word):
            hit = _synonyms().get(rest) or _unqualified(rest)
            if hit is not None and hit.meaning in ADDRESS_PARTS:
                return hit
    return None


def _of_season(text: str) -> Hit | None:
    """Take the season off: "winter street", "summer address until"; the ordinal is the season's."""
    for word, ordinal in signs("season-sign").items():
        for rest in _without(text, word):
            dates = signs("dates-sign").get(rest.removeprefix("address "))
            if dates is not None:
                return Hit(_SEASON_DATES[dates], ordinal)
            hit = _synonyms().get(rest) or _unqualified(rest)
            if hit is not None and hit.meaning in ADDRESS_PARTS:
                return replace(hit, meaning=f"season_{hit.meaning}", ordinal=ordinal)
    return None


def _of_work(text: str) -> Hit | None:
    """Take the work off: "work street", "office city", "zip code of business"."""
    for word in signs("work-sign"):
        for rest in _without(text, word):
            hit = _synonyms().get(rest) or _unqualified(rest)
            if hit is not None and hit.meaning in ADDRESS_PARTS:
                return replace(hit, meaning=f"work_{hit.meaning}")
    return None


def _of_parts(header: str) -> Hit | None:
    """Both sides of a slash mean the same, or are parts of one place line."""
    parts = [fold(part) for part in _PARTS.split(_ROUND.sub(" ", header))]
    hits = [_synonyms().get(part) for part in parts if part]
    known = [hit for hit in hits if hit is not None]
    if len(hits) < 2 or len(known) < len(hits):  # noqa: PLR2004 - two sides
        return None
    found = {hit.meaning for hit in known}
    if len(found) == 1:
        return known[0]
    return Hit("place") if found <= PLACE_PARTS else None


def _asked(header: str) -> Hit | None:
    """A form asks for what it wants: "Are you bringing kids? Names + ages"."""
    words = fold(header).split()
    rest = [word for word in words if word not in signs("asking-sign")]
    return exact_meaning(" ".join(rest)) if len(rest) < len(words) else None


def _meanings_of(parts: list[str]) -> set[str | None]:
    return {hit.meaning if (hit := exact_meaning(part)) else None for part in parts}


def _joined(header: str) -> Hit | None:
    """Of "RSVP / notes" the part that says who is invited; of "E-mail & notes" the notes.

    A part that nothing is known of says nothing against it; one of names or places does.
    """
    outside = _ROUND.sub(" ", header)
    parts = [part for part in _JOINTS.split(outside) if fold(part)]
    if len(outside.split()) > _MOST_WORDS:
        return None
    if len(parts) < 2:  # noqa: PLR2004 - two sides
        return _RSVP_NOTES if _meanings_of(outside.split()) == {"reply", "notes"} else None
    found = _meanings_of(parts)
    known = None not in found
    found.discard(None)
    if known and found <= {"ignore", "elsewhere", "table"}:
        return Hit("ignore")
    said = next((meaning for meaning in _SAID if meaning in found), None)
    beside = _BESIDE_NOTES if said == "notes" else _BESIDE_REPLIES
    if said is None or not found - set(_SAID) <= beside:
        return None
    return Hit(said, score=NEAR, also="notes" if "notes" in found - {said} else "")


def read_pins(pinned: Mapping[str, str], file: str) -> dict[str, Hit]:
    """The docket's columns: folded header → meaning. "partner_given" is the second's "given".

    Raises:
        Fault: exit 3, `column-meaning-unknown`.
    """
    return {fold(header): _pin(header, meaning, file) for header, meaning in pinned.items()}


def _pin(header: str, meaning: str, file: str) -> Hit:
    words = meaning.strip().casefold().replace("-", "_").replace(" ", "_")
    part = words.removeprefix("partner_")
    if part in PERSON_PARTS:
        return Hit(part, 2 if part != words else 1, score=PINNED)
    if words in meanings():
        return Hit(words, score=PINNED)
    known = sorted(meanings() | {f"partner_{name}" for name in PERSON_PARTS})
    near = process.extract(words, known, scorer=fuzz.ratio, limit=1, score_cutoff=_GUESS)
    guess = f"Did you mean “{near[0][0]}”? " if near else ""
    raise Fault(
        Exit.INPUT,
        "column-meaning-unknown",
        f"The docket says that the column “{header}” means “{meaning}”, which is no meaning.",
        f"{guess}Choose one of: {', '.join(known)}.",
        Where(file, None, f"docket:columns.{header}"),
    )
