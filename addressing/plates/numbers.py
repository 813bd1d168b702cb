"""Numbers and names as PDF writes them (ISO 32000-1, 7.3.3 to 7.3.5)."""

_DELIMITERS = frozenset(b"()<>[]{}/%#")
_PRINTABLE = range(0x21, 0x7F)


def number(value: float, decimals: int = 3) -> str:
    """A number without exponent and without idle zeros.

    >>> number(522.0), number(0.01086426, 8), number(-0.0001), number(1 / 3)
    ('522', '0.01086426', '0', '0.333')
    """
    written = f"{value:.{decimals}f}"
    if "." in written:
        written = written.rstrip("0").rstrip(".")
    return "0" if written == "-0" else written


def numbers(values: tuple[float, ...]) -> str:
    """Numbers parted by a blank."""
    return " ".join(number(value) for value in values)


def name(text: str) -> str:
    """A name object; what may not stand in one as it is becomes #xx of its UTF-8 bytes.

    >>> name("White"), name("White Ink (2) #1")
    ('/White', '/White#20Ink#20#282#29#20#231')
    """
    return "/" + "".join(
        chr(byte) if byte in _PRINTABLE and byte not in _DELIMITERS else f"#{byte:02X}"
        for byte in text.encode()
    )


def string(text: str) -> str:
    r"""A text string: in brackets when it is plain ASCII, else UTF-16 in hexadecimal.

    >>> string("01-outer-white"), string("a(b)"), string("é")
    ('(01-outer-white)', '(a\\(b\\))', '<FEFF00E9>')
    """
    if text.isascii() and text.isprintable():
        escaped = text.replace("\\", "\\\\").replace("(", "\\(").replace(")", "\\)")
        return f"({escaped})"
    return f"<{(chr(0xFEFF) + text).encode('utf-16-be').hex().upper()}>"
