"""The next command, written out so that it can be copied as it stands; names, some of them told."""

import re
import shlex
from collections.abc import Sequence
from pathlib import Path

_PLAIN = re.compile(r"[\w@%+=:,./\\-]+")

_TOLD = 4
"""Pages and names that are told one by one."""


def command_line(
    command: str, *words: str | Path, docket: Path | None = None, folder: Path | None = None
) -> str:
    """A command with its words, and the docket and the job's folder where they are given.

    A name with a blank stands in quotation marks that every shell knows.

    >>> command_line("plates", "anna v2.xlsx", docket=Path("anna.toml"))
    'addressing plates "anna v2.xlsx" --docket anna.toml'
    """
    parts = ["addressing", command, *(quoted(str(word)) for word in words)]
    for option, path in (("--docket", docket), ("--to", folder)):
        if path is not None:
            parts += [option, quoted(str(path))]
    return " ".join(parts)


def quoted(word: str) -> str:
    """A word as a shell reads it as one."""
    if _PLAIN.fullmatch(word):
        return word
    return shlex.quote(word) if set(word) & set('"$`!\\') else f'"{word}"'


def listed(words: Sequence[str], most: int = _TOLD) -> str:
    """The first few of several words, with commas and an "and".

    >>> listed(["outer", "inner", "return"]), listed(["1", "2", "3"], 2)
    ('outer, inner and return', '1, 2 and 1 more')
    """
    if len(words) > most:
        return f"{', '.join(words[:most])} and {len(words) - most} more"
    return " and ".join([*([", ".join(words[:-1])] if words[1:] else []), *words[-1:]])


def all_of(words: Sequence[str]) -> str:
    """All of several words, with commas and an "and"."""
    return listed(words, len(words))
