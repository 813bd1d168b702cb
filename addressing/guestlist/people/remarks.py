"""What stands in brackets, quotes or behind a dash in a cell of names: taken out and understood.

A nickname, an age, a companion or children go on as words of the name; all else is a remark.
"""

import re
from dataclasses import dataclass
from functools import lru_cache

from addressing.guestlist.folding import fold
from addressing.guestlist.people.asides import is_aside, phrase, take_asides, tidy
from addressing.guestlist.people.names import take_titles
from addressing.guestlist.people.news import is_marker
from addressing.guestlist.people.vocabulary import Title, titles, words

NICKNAME = "⟨{}⟩"
AGE = "⟨#{}⟩"
CREDENTIAL = "⟨%{}⟩"
TITLE = "⟨={}⟩"
MINOR = "minor"
"""In place of an age: not yet of age."""

_BRACKETS = re.compile(r"\s*[(\[{]([^()\[\]{}]*)[)\]}]")
_QUOTES = re.compile("(?<=\\s)[\"“”„«\u2018'](\\w[^\"“”„«»\u2018’']{0,19})[\"“”»’'](?=[\\s,]|$)")
_GUILLEMETS = re.compile(r"(?<=\s)(?:«\s*([^«»]{1,20}?)\s*»|»([^«»]{1,20})«)(?=[\s,]|$)")
_DASH = re.compile(r"\s+[-–—]{1,2}\s+")
_AGE = re.compile(
    r"^(?:aged?|age:)?\s*(\d{1,2})\s*(?:yrs?|years?|y\.?o\.?|years? old)?\.?$", re.IGNORECASE
)
_ENDS = r"(?=\s*(?:,|;|&|and\b|\+|/(?!\d)|$|\n))"
"""What may follow an age in the open."""
_YEARS = r"(?:\s*(?:yrs?|years?|y/?o)\b\.?(?:\s*old\b)?)?"
_BARE_AGE = re.compile(rf"(?<=[A-Za-zÀ-ÿ])(?:,?\s+aged?\b)?\s+(\d{{1,2}}){_YEARS}{_ENDS}")
_DASHED_AGE = re.compile(rf"\s*[-–—:]\s*(?:aged?\s+)?(\d{{1,2}}){_YEARS}{_ENDS}")
_COMMA_AGE = re.compile(rf"(?<=[A-Za-zÀ-ÿ]),\s*(1?\d){_YEARS}(?=\s*(?:;|&|and\b|\+|/(?!\d)|$|\n))")
_YOUNG = re.compile(r"\s+[-–—]{1,2}\s+(?P<said>[^\W\d_]+)\s*$")
"""A word behind a dash at the end: "Linnet Wexcombe - toddler"."""
_MONTHS = r"\d{1,2}\s*(?:mos?|mths?|months?|wks?|weeks?)\b\.?(?:\s*old)?"
_BARE_MONTHS = re.compile(rf"(?<=[A-Za-zÀ-ÿ]),?\s+{_MONTHS}{_ENDS}", re.IGNORECASE)
_UNDER_AGE = re.compile(rf"(?:under|u)[\s-]*(?:age|1[2-8])|(?:a\s+)?minor|{_MONTHS}", re.IGNORECASE)
_NICKNAME = re.compile(r"^[A-ZÀ-Ý][\w'’.-]*$")
_CHILDREN_IN_BRACKETS = re.compile(
    r"\b((?i:sons?|daughters?|kids?|children|kiddos))\s*\(\s*([A-ZÀ-Ý][^()]*[^()\s])\s*\)"
)
_FAMILY_OF = re.compile(
    r"\b(family|fam\.?)\s+(?=(?:of|x)\s*\d{1,2}\b)([ofx]+\s*\d{1,2})\b", re.IGNORECASE
)
_ONE_AGED = r"[A-ZÀ-Ý][\w'’-]*(?:\s*[,:–-])?\s+\d{1,2}"
_NAMED_AND_AGED = re.compile(rf"^{_ONE_AGED}(?:\s*(?:,|;|/|&|and)\s*{_ONE_AGED})*$")
_BEFORE_AGE = re.compile(r"\s*[,:–-]\s+(?=\d)")
_INVITED_BY_NAME = re.compile(
    r"^(?i:(?:\+|&|and|plus|w/|with)\s*|(?:guest|date|partner|plus[ -]one)\s*[:–-]\s*)"
    r"(?=(?:(?:baby|son|daughter|kids|children|wife|husband)\s+)?[A-ZÀ-Ý])"
)
_BETWEEN_PEOPLE = re.compile(r"[,;&+/\n]|\b(?:and|und|et|y|e)\b", re.IGNORECASE)
_NAMED = ("Tobias", "Wexcombe")
_FULL = 2
"""Words of a full name."""
_LETTER = 1
_CAPITALS = r"[A-ZÀ-Ý][\w'’.-]*(?:\s+[A-ZÀ-Ý][\w'’.-]*)+"
_CALLED_BY_KIN = re.compile(
    r"(?P<kin>[A-ZÀ-Ý][\w-]+)(?:\s+(?P<called>[A-ZÀ-Ý][\w'’-]*))?"
    rf"\s*\((?P<full>{_CAPITALS})\)"
)
_SAID_TO_BE = re.compile(rf"(?:,\s*|\s+[-–—]+\s+)(?P<said>[^,()]+?)\s+(?P<full>{_CAPITALS})\s*$")
"""The full name that words behind a comma or a dash tell: "Aunt Peg - she is Mrs. Doyle"."""
_COMPANION_NAMED = re.compile(
    r"\s*(?:\+\s*1|(?i:(?:\b(?:and|plus)|&)\s+"
    r"(?:guest|one|partner|date|wife|husband|girlfriend|boyfriend)))\s*"
    r"[:(]\s*([A-ZÀ-Ý][\w'’-]+\s+[A-ZÀ-Ý][\w'’-]+)\s*\)?\s*$"
)
"""The companion whom a bracket names: "Tobias Penhew +1 (Wren Lorne)"."""
_MARK = re.compile("⟨[#%=]?([^⟩]*)⟩")
_GIVEN_BEHIND_COMMA = re.compile(r"\w\s+\w.*,\s*(?:(?:&|and)\s+)?[A-ZÀ-Ý][\w'’-]+\s*$")
_LAST_ALONE = re.compile(r"(?:[&+/]|\band)\s*[^\W\d_]+$")
_ALSO_INVITED = re.compile(r"^(?:\+|&|and\b|plus\b|w/|with\b)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Cleared:
    """A cell's words without its remarks; nicknames and ages are marked in `text`."""

    text: str
    remarks: tuple[str, ...]


@lru_cache(maxsize=4096)  # names recur, in a list and in what is asked of it
def clear_remarks(text: str) -> Cleared:
    """Take the remarks out of a cell of names.

    >>> clear_remarks("Tobias (Toby) Wexcombe - usher").remarks
    ('usher',)
    """
    remarks: list[str] = []
    text = _COMPANION_NAMED.sub(r" and \1", _with_formal_name(text, remarks))
    text = _FAMILY_OF.sub(r"\1 (\2)", _CHILDREN_IN_BRACKETS.sub(r"\1 \2", tidy(text)))
    text = _BRACKETS.sub(lambda found: _bracket(found, remarks), text)
    text = _GUILLEMETS.sub(lambda found: NICKNAME.format(found[1] or found[2]), text)
    text = _QUOTES.sub(lambda found: NICKNAME.format(found[1].strip()), text)
    text = _YOUNG.sub(
        lambda found: AGE.format(MINOR) if _says_child(found, found["said"]) else found[0], text
    )
    text = _BARE_MONTHS.sub(AGE.format(MINOR), text)
    text = _DASHED_AGE.sub(lambda found: AGE.format(found[1]), text)
    text = _COMMA_AGE.sub(_aged, text)
    text = _BARE_AGE.sub(lambda found: AGE.format(found[1]), text)
    text = take_asides(_after_dash(text, remarks), remarks)
    plain = tuple(_MARK.sub(r" \1", remark) for remark in remarks)
    return Cleared(" ".join(part for part in text.split(" ") if part), plain)


def _with_formal_name(text: str, remarks: list[str]) -> str:
    """Kin calls her "Aunt Peg (Mrs. Margaret Doyle)", and the bracket has her name in full.

    >>> said = []
    >>> _with_formal_name("Aunt Peg (Mrs. Margaret Doyle)", said), said
    ('Mrs. Margaret Doyle (Peg)', ['Aunt'])
    """

    def formal(found: re.Match[str]) -> str:
        title = titles().get(fold(found["kin"]))
        named = take_titles(found["full"].split())[1]
        known = title is not None and title.group == "kin"
        if not known or len(named) != _FULL or is_aside(found["full"]):
            return found[0]
        remarks.append(found["kin"])
        return f"{found['full']} ({found['called']})" if found["called"] else found["full"]

    return _CALLED_BY_KIN.sub(formal, _SAID_TO_BE.sub(_in_brackets, text))


def _in_brackets(found: re.Match[str]) -> str:
    """Aunt Peg (Mrs. Margaret Doyle) for "Aunt Peg - she is Mrs. Margaret Doyle"."""
    told = phrase("said-to-be").fullmatch(found["said"]) is not None
    titled = take_titles(found["full"].split())[0]
    return f" ({found['full']})" if told and titled else found[0]


def _aged(found: re.Match[str]) -> str:
    """The age behind a name and a comma ("Rosie Marsh, 6"); nobody is nought."""
    return AGE.format(found[1]) if int(found[1]) else found[0]


def _bracket(found: re.Match[str], remarks: list[str]) -> str:
    """What a bracket means: an age, more guests, letters, a nickname; else it is a remark."""
    inside = _without_role(found[1].strip(), remarks)
    behind = found.start() > 0
    if fold(inside) in titles() and _only_titles(found.string[: found.start()]):
        remarks.append(inside)  # "Chaplain (Maj.) Amos": one title goes before a name, the first
        return " "
    meant = _as_age_or_guests(found, inside) or (behind and _as_part_of_name(inside))
    if meant:
        return meant
    if inside:
        remarks.append(inside)
    return " "


def _only_titles(before: str) -> bool:
    """True for what stands before a bracket and has no name yet: "Mr. Hal Tarn and Chaplain"."""
    words_of_one = _BETWEEN_PEOPLE.split(before)[-1].split()
    return bool(words_of_one) and take_titles([*words_of_one, *_NAMED])[1] == [*_NAMED]


def _without_role(inside: str, remarks: list[str]) -> str:
    """The age of "(flower girl, 6)": who she is, beside it, is a remark."""
    parts = [part.strip() for part in inside.split(",")]
    ages = [part for part in parts if _AGE.match(part)]
    others = [part for part in parts if part not in ages]
    if len(ages) != 1 or not others or not all(map(is_aside, others)):
        return inside
    remarks.extend(others)
    return ages[0]


def _as_age_or_guests(found: re.Match[str], inside: str) -> str | None:
    """The words that go on for an age, companions, children, or somebody invited by name."""
    age = _AGE.match(inside)
    if age:
        return AGE.format(age[1])
    if (_UNDER_AGE.fullmatch(inside) and found.start() > 0) or _says_child(found, inside):
        return AGE.format(MINOR)
    if _invites(inside) and not _is_said(found):
        return f" {inside}" if _ALSO_INVITED.match(inside) else f" and {inside}"
    invited = _INVITED_BY_NAME.match(inside)
    if invited and found.start() > 0 and not is_marker(inside) and not _speaks(inside):
        return f" and {inside[invited.end() :]}"
    return None


def _speaks(inside: str) -> bool:
    """True for "and Femi if they are still together": a sentence behind the name, no name.

    >>> _speaks("and Femi if they are still together"), _speaks("and son Femi and baby Ada")
    (True, False)
    """
    small = re.search(r"[A-ZÀ-Ý][\w'’-]*((?:\s+[^\W\d_A-ZÀ-Ý][\w'’-]*){3,})", inside)
    return small is not None


def _says_child(found: re.Match[str], said: str) -> bool:
    """True for "(toddler)" or "- child" behind one name; behind two it may be a third.

    Behind a given name that a comma parts from the others it is of that one: "…, Linnet (baby)".
    """
    before = found.string[: found.start()]
    named = bool(before.strip()) and not _BETWEEN_PEOPLE.search(before.replace(",", " ", 1))
    named = named or _GIVEN_BEHIND_COMMA.search(before) is not None
    return named and fold(said) in words("child-group") and len(said) > _LETTER


def _as_part_of_name(inside: str) -> str | None:
    """The words that go on for a title, letters, a suffix, aged children or a nickname."""
    if _NAMED_AND_AGED.match(inside):
        return ", " + re.sub("[;/]", ",", _BEFORE_AGE.sub(" ", inside))
    title = titles().get(fold(inside))
    if title is not None:
        return _as_title(inside, title)
    if fold(inside) in words("credential"):
        return f" {CREDENTIAL.format(inside)}"
    if fold(inside) in words("suffix"):
        return f", {inside}"
    bare = inside.strip("\"“”„«»'\u2018’ ")
    if fold(bare) in words("guest") or phrase("asked", "asked-aside").search(bare):
        return None
    nickname = _NICKNAME.match(bare) and not is_marker(bare)
    return f" {NICKNAME.format(bare)}" if nickname else None


def _as_title(inside: str, title: Title) -> str | None:
    """A title in brackets goes before the name; "(Gran)" says who she is, no word of her name."""
    if title.group == "kin":
        return None
    return f" {inside}" if title.plural else f" {TITLE.format(inside)}"


def _is_said(found: re.Match[str]) -> bool:
    """True for the bracket of "and Date (TBD)": the companion stands before it already."""
    if fold(found[1]) in words("guest") and _LAST_ALONE.search(found.string[: found.start()]):
        return True  # "+ Nell (guest)" says who she is
    before = found.string[: found.start()].split()[-1:]
    return bool(before) and fold(before[0]) in words("guest") and not re.search(r"\d", found[1])


def _is_shout(part: str) -> bool:
    """True for "VIP!", "NO KIDS": capitals only, or a call, is no name behind a dash."""
    said = part.split()
    nobody = words("children") | words("guest") | words("relation") | words("nameless")
    spoken = len(said) == 1 or not nobody.isdisjoint(map(fold, said))
    return part.rstrip().endswith("!") or (part.isupper() and spoken)


def _invites(inside: str) -> bool:
    """True for "+1", "and guest", "2 kids": people who are asked too."""
    folded = [word for word in re.split(r"[^0-9a-z]+", fold(inside)) if word]
    if re.fullmatch(r"\+\s*\d{1,2}", inside):
        return True
    known = words("guest") | words("children") | words("family") | {"and", "plus", "one", "s"}
    return bool(folded) and all(word in known or word.isdigit() for word in folded)


def _after_dash(text: str, remarks: list[str]) -> str:
    """A remark behind a dash begins with a small letter, or is a marker; else it is left alone."""
    head, *rest = _DASH.split(text)
    kept = head
    for part in rest:
        if part[:1].islower() or is_marker(part) or _is_shout(part) or is_aside(part):
            remarks.append(part.strip())
        else:
            kept = f"{kept} - {part}"
    return kept
