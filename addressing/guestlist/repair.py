"""Repairs that cannot change what a cell says: spaces, invisible characters, broken encoding.

Letters keep their case and spelling. Every repair is logged beside the cell that it touched.
"""

import re
import unicodedata
from functools import lru_cache

import ftfy
from ftfy.badness import is_bad

from addressing.records.guests import Repair
from addressing.tables import lookup
from addressing.where import Where

SPACES = "white space tidied"
INVISIBLE = "invisible characters removed"
ENCODING = "letters that were decoded wrongly restored"
COMPOSED = "accents joined to their letters"
LOOKALIKE = "look-alike letters of another alphabet replaced"

_CODES = {
    SPACES: "spaces-mended",
    INVISIBLE: "invisible-removed",
    ENCODING: "encoding-mended",
    COMPOSED: "accents-joined",
    LOOKALIKE: "lookalike-mended",
}
_NEW_LINE = re.compile("\r\n?|[\v\f\x85\u2028\u2029]")
_BLANKS = re.compile("[ \t\u00a0\u1680\u2000-\u200a\u202f\u205f\u2800\u3000\u3164\uffa0]+")
_WORD = re.compile(r"[^\W\d_]+")
_JOINERS = "\u200c\u200d"
_PLAIN = re.compile("[ -~\n]*")
_TIDY = re.compile("[!-~]+(?: [!-~]+)*")
"""Printed ASCII with single blanks: nothing to repair, as in nearly every cell."""
_MAX_ROUNDS = 8
_TURNING = re.compile("[\u202b\u202d\u202e\u2067]")
"""Right-to-left embedding, both overrides, right-to-left isolate (Unicode Standard Annex 9, 2)."""
_SETTING_APART = re.compile("[\u202a\u2066\u2068]")
"""Left-to-right embedding and isolate, first strong isolate: they turn nothing in Latin text."""

_MOJIBAKE = ftfy.TextFixerConfig(
    unescape_html=False,
    remove_terminal_escapes=False,
    restore_byte_a0=True,
    replace_lossy_sequences=True,
    decode_inconsistent_utf8=True,
    fix_c1_controls=False,
    fix_latin_ligatures=False,
    fix_character_width=False,
    uncurl_quotes=False,
    fix_line_breaks=False,
    fix_surrogates=False,
    remove_control_chars=False,
    normalization=None,
    explain=False,
)


def repair_text(text: str, where: Where) -> tuple[str, tuple[Repair, ...]]:
    """The text as it was meant, and at most one Repair that says what was changed.

    White space is trimmed and its runs joined; a line break inside the cell stays one line feed.
    `Repair.why` joins the reasons with "; ". Repairing twice changes nothing more.

    >>> repair_text(" Penhew\u00a0 Lane ", Where("list.csv", None, "B2"))[0]
    'Penhew Lane'
    """
    if _TIDY.fullmatch(text):
        return text, ()
    now, reasons = text, list[str]()
    for _ in range(_MAX_ROUNDS):
        before = now
        now = _one_round(now, reasons)
        if now == before:
            break
    if now == text:
        return text, ()
    return now, (Repair(where, text, now, "; ".join(dict.fromkeys(reasons))),)


def is_tidy(text: str) -> bool:
    """True for printed ASCII with single blanks: there is nothing to repair."""
    return _TIDY.fullmatch(text) is not None


def turns(text: str) -> bool:
    """True where invisible marks make letters be seen in another order than they are stored in.

    >>> turns("Tobias \u202ewehneP"), turns("\u202aTobias Penhew\u202c"), turns("דן")
    (True, False, False)
    """
    if text.isascii():
        return False
    if _TURNING.search(text):
        return True
    right = any(unicodedata.bidirectional(char) in {"R", "AL"} for char in text)
    return right and _SETTING_APART.search(text) is not None


def repair_codes(repair: Repair) -> tuple[str, ...]:
    """The finding codes for a repair that was made here, in the order of its reasons.

    >>> repair_codes(Repair(Where("list.csv"), " a", "a", SPACES))
    ('spaces-mended',)
    """
    return tuple(_CODES[why] for why in repair.why.split("; ") if why in _CODES)


def _one_round(text: str, reasons: list[str]) -> str:
    steps = (
        (SPACES, _line_breaks),
        (ENCODING, _decoded_again),
        (INVISIBLE, _visible),
        (SPACES, _tidy_spaces),
        (COMPOSED, _composed),
        (LOOKALIKE, _latin_words),
    )
    plain = _PLAIN.fullmatch(text) is not None
    for why, step in steps:
        if plain and step is not _tidy_spaces:
            continue
        changed = step(text)
        if changed != text:
            reasons.append(why)
            text = changed
    return text


def _line_breaks(text: str) -> str:
    return _NEW_LINE.sub("\n", text)


def _decoded_again(text: str) -> str:
    """Undo one wrong decoding, only where the text can't have been meant as it stands."""
    if not is_bad(text):
        return text
    fixed = ftfy.fix_encoding(text, _MOJIBAKE)
    return text if "\ufffd" in fixed or is_bad(fixed) else fixed


def _visible(text: str) -> str:
    return "".join(char for place, char in enumerate(text) if not _is_invisible(text, place, char))


def _is_invisible(text: str, place: int, char: str) -> bool:
    """Control and format characters say nothing on paper, but joiners shape some scripts."""
    if char in "\n\t" or unicodedata.category(char) not in {"Cc", "Cf"}:
        return False
    if char not in _JOINERS or not 0 < place < len(text) - 1:
        return True
    return not (_needs_joiner(text[place - 1]) and _needs_joiner(text[place + 1]))


def _needs_joiner(char: str) -> bool:
    """Scripts from Arabic to Khmer use joiners inside words (Unicode 16.0, 23.2)."""
    return "\u0600" <= char < "\u1800" and unicodedata.category(char)[0] in "LM"


def _tidy_spaces(text: str) -> str:
    lines = (_BLANKS.sub(" ", line).strip(" ") for line in text.split("\n"))
    return "\n".join(line for line in lines if line)


def _composed(text: str) -> str:
    return unicodedata.normalize("NFC", text)


def _latin_words(text: str) -> str:
    twins = lookup("lookalikes", "character", "latin")
    if not any(char in twins for char in text):
        return text
    plain = {char for char in text if char.isalpha() and char not in twins}
    return _WORD.sub(lambda match: _latin_word(match.group(), plain), text)


def _latin_word(word: str, plain: set[str]) -> str:
    """Replace Cyrillic and Greek letters that stand among Latin ones and look the same.

    At least one Latin letter, of the word or else of the whole text, must be one that the other
    alphabet hasn't got; else the word could be meant either way and stays. `plain` are the text's
    letters without look-alikes.
    """
    twins = lookup("lookalikes", "character", "latin")
    alphabets = {_alphabet(char) for char in word if char in twins}
    rest = [char for char in word if char not in twins]
    if not alphabets or not rest or not all(_alphabet(char) == "LATIN" for char in rest):
        return word
    shared = {latin for char, latin in twins.items() if _alphabet(char) in alphabets}
    others = {_alphabet(char) for char in plain}
    if not set(rest) - shared and (others != {"LATIN"} or not plain - shared):
        return word
    return "".join(twins.get(char, char) for char in word)


@lru_cache(maxsize=2_048)
def _alphabet(char: str) -> str:
    return unicodedata.name(char, "").partition(" ")[0]
