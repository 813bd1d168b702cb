"""The few kinds of PDF value that a plate may hold, read strictly and written one way only.

Numbers are floats, names are `str`, strings are `bytes`, arrays tuples, dictionaries dicts, and
`true` is TRUE. Anything else (false, null, comments, a key given twice, nesting beyond need) is
refused, and so is a value that could be written more plainly: blanks and escapes without need can
hide data.
"""

import re
from dataclasses import dataclass
from functools import lru_cache

DEEPEST = 5
"""Levels of nesting that are followed; the grammar needs four (the ink's function)."""

SHORT = 400
"""Bytes of a value that is remembered; lists of pages and letters are longer, and come once."""

QUOTED = 40
"""The most characters of the file that a sentence repeats."""


class Objection(Exception):
    """The judge can't read on: its sentence becomes a fault of the plate."""


@dataclass(frozen=True, slots=True)
class Ref:
    """A reference to another object, by its number."""

    number: int


@dataclass(frozen=True, slots=True)
class Truth:
    """The word `true`; never equal to a number, as Python's own would be to 1."""


TRUE = Truth()


class Hexed(bytes):
    """A string that was written in hexadecimal."""

    __slots__ = ()


Value = float | str | bytes | Ref | Truth | tuple["Value", ...] | dict[str, "Value"]

_TOKEN = re.compile(
    rb"[ \r\n]*(?:"
    rb"(?P<mark><<|>>|\[|\])"
    rb"|/(?P<name>[^\x00-\x20\x7f-\xff()<>\[\]{}/%]*)"
    rb"|(?P<ref>[0-9]{1,10}) 0 R(?![^\s\[\]<>/()])"
    rb"|(?P<true>true)(?![^\s\[\]<>/()])"
    rb"|(?P<number>-?(?:[0-9]{1,10}(?:\.[0-9]{0,10})?|\.[0-9]{1,10}))(?![^\s\[\]<>/()])"
    rb"|\((?P<words>(?:[^()\\]|\\.){0,2000})\)"
    rb"|<(?P<hex>(?:[0-9A-Fa-f]{2}){0,2000})>"
    rb")",
    re.DOTALL,
)
_SPECIAL = re.compile(rb"[^!-~]|[()<>\[\]{}/%#]")
_PLAIN = re.compile(rb"[ -~]*")
_HASHED = re.compile(rb"#([0-9A-Fa-f]{2})")
_ESCAPED = re.compile(rb"\\(?:([0-7]{1,3})|(.))", re.DOTALL)
_ESCAPES = {b"n": b"\n", b"r": b"\r", b"t": b"\t", b"b": b"\b", b"f": b"\f"}


def read_value(text: bytes) -> Value:
    """The one value that `text` holds from its first byte to its last.

    Treat what comes back as read-only: it is shared.

    Raises:
        Objection: there is no such value, or more than one, or it could be written more plainly.
    """
    return _short_value(text) if len(text) <= SHORT else _whole_value(text)


def _whole_value(text: bytes) -> Value:
    value, end = _value(text, 0, 0)
    if text[end:].strip(b" \r\n"):
        raise Objection("An object of the file holds more than its one value.")
    if spelled(value) != text:
        raise Objection("An object of the file isn't written as plainly as it can be.")
    return value


_short_value = lru_cache(maxsize=4096)(_whole_value)


def read_dict(text: bytes) -> dict[str, Value]:
    """As `read_value`, for a dictionary.

    Raises:
        Objection: the text is no dictionary.
    """
    value = read_value(text)
    if not isinstance(value, dict):
        raise Objection("An object of the file isn't of the kind that its place asks for.")
    return value


def _value(text: bytes, start: int, depth: int) -> tuple[Value, int]:
    """One value from `start`, and where it ends."""
    match = _TOKEN.match(text, start)
    if match is None or depth > DEEPEST:
        strange = quoted(text[start : start + QUOTED].decode("latin-1").strip().split(" ")[0])
        raise Objection(f"An object of the file holds something that no plate may hold: {strange}.")
    kind, end = match.lastgroup, match.end()
    if kind == "mark":
        return _nested(text, match["mark"], end, depth)
    return _plain(kind, match), end


def _plain(kind: str | None, match: re.Match[bytes]) -> Value:
    """A value that holds no other."""
    if kind == "name":
        return name_of(match["name"])
    if kind == "ref":
        return Ref(int(match["ref"]))
    if kind == "true":
        return TRUE
    if kind == "number":
        return float(match["number"])
    if kind == "hex":
        return Hexed.fromhex(match["hex"].decode("ascii"))
    return _ESCAPED.sub(_unescaped, match["words"])


def _nested(text: bytes, mark: bytes, start: int, depth: int) -> tuple[Value, int]:
    """An array or a dictionary whose opening mark was just read."""
    close = {b"<<": b">>", b"[": b"]"}.get(mark)
    if close is None:
        raise Objection("An object of the file closes what it never opened.")
    items: list[Value] = []
    while True:
        match = _TOKEN.match(text, start)
        if match is not None and match["mark"] == close:
            break
        item, start = _value(text, start, depth + 1)
        items.append(item)
    if mark == b"[":
        return tuple(items), match.end()
    return _paired(items), match.end()


def _paired(items: list[Value]) -> dict[str, Value]:
    """Keys and values; a key that is given twice would be read differently by different readers."""
    paired: dict[str, Value] = {}
    for key, value in zip(items[::2], items[1::2], strict=False):
        if not isinstance(key, str) or key in paired:
            raise Objection("A dictionary of the file has a key twice, or one that is no name.")
        paired[key] = value
    if len(items) % 2:
        raise Objection("A dictionary of the file has a key without a value.")
    return paired


def name_of(raw: bytes) -> str:
    """A name as people read it: `#20` is a blank, the bytes are UTF-8 (ISO 32000-1, 7.3.5).

    Raises:
        Objection: the bytes are no UTF-8.
    """
    try:
        return _HASHED.sub(lambda found: bytes.fromhex(found[1].decode("ascii")), raw).decode()
    except UnicodeDecodeError as error:
        raise Objection("A name in the file can't be read (it isn't UTF-8).") from error


def words_of(raw: Value) -> str | None:
    """A text string as people read it: plain ASCII in brackets, or UTF-16 in hexadecimal.

    None for anything else, and for hexadecimal where plain ASCII would do.
    """
    try:
        if isinstance(raw, Hexed):
            words = raw.decode("utf-16") if raw.startswith(b"\xfe\xff") else ""
            return None if words.isascii() and words.isprintable() else words
        return raw.decode("ascii") if isinstance(raw, bytes) else None
    except UnicodeDecodeError:
        return None


def spelled(value: Value) -> bytes:
    r"""The one way in which a plate writes a value: the judge's own, to hold bytes against.

    >>> spelled({"Type": "A b", "Count": 12.0, "C1": (0.25, -0.0, Ref(3)), "T": b"(a)"})
    b'<< /Type /A#20b /Count 12 /C1 [0.25 0 3 0 R] /T (\\(a\\)) >>'
    """
    match value:
        case float():
            number = f"{value:.3f}".rstrip("0").rstrip(".").encode("ascii")
            return b"0" if number == b"-0" else number
        case str():
            return b"/" + _SPECIAL.sub(lambda found: b"#%02X" % ord(found[0]), value.encode())
        case Ref() | Truth():
            return b"true" if isinstance(value, Truth) else b"%d 0 R" % value.number
        case tuple():
            return b"[%b]" % b" ".join(map(spelled, value))
        case dict():
            pairs = (part for pair in value.items() for part in map(spelled, pair))
            return b"<< %b >>" % b" ".join(pairs)
        case _:
            return _string(value)


def _string(value: bytes) -> bytes:
    """In brackets what is plain ASCII and was so; else in hexadecimal."""
    if isinstance(value, Hexed) or _PLAIN.fullmatch(value) is None:
        return b"<%b>" % value.hex().upper().encode("ascii")
    return b"(%b)" % re.sub(rb"[\\()]", rb"\\\g<0>", value)


def quoted(words: str) -> str:
    r"""Words of the file for a sentence: in quotes, cut at 40 characters, nothing unprintable.

    >>> quoted("White\n"), len(quoted("x" * 99))
    ('“White\\n”', 42)
    """
    plain = "".join(c if c.isprintable() else ascii(c)[1:-1] for c in words)
    return f"“{plain if len(plain) <= QUOTED else plain[: QUOTED - 1] + '…'}”"


def _unescaped(found: re.Match[bytes]) -> bytes:
    """What a backslash in a literal string stands for (ISO 32000-1, table 3)."""
    octal, single = found.groups()
    if octal is not None:
        return bytes([int(octal, 8) & 0xFF])
    return _ESCAPES.get(single, b"" if single in b"\r\n" else single)
