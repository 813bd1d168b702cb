"""Where a key stands in a TOML file that a person wrote, and what to call it."""

import re
from collections.abc import Sequence

Loc = tuple[int | str, ...]
"""The way to a key: names of tables and keys, and the number of an entry in a list (from 0)."""


def key_name(loc: Loc) -> str:
    """A key as people say it; entries of a list count from 1.

    >>> key_name(("piece", 0, "size"))
    'piece[1].size'
    """
    name = ""
    for part in loc:
        name += f"[{part + 1}]" if isinstance(part, int) else f".{part}" if name else part
    return name or "the file"


HEADER = re.compile(r"^\s*(\[\[?)\s*([^\]]+?)\s*\]")
ASSIGNED = re.compile(r"^(\s*)([^=#\[]+?)\s*=")


def line_of(text: str, loc: Loc) -> tuple[int, str, int, int] | None:
    """Where a key stands: line number, line, offset and width of the key; None when not found."""
    table: Loc = ()
    seen: dict[Loc, int] = {}
    for number, line in enumerate(text.splitlines(), start=1):
        if header := HEADER.match(line):
            table = _table_at(_bare(header[2]), seen, begins=header[1] == "[[")
            if table == loc:
                return number, line, header.start(2), len(header[2])
        elif key := ASSIGNED.match(line):
            full = (*table, *_bare(key[2]))
            if full == loc or (full == loc[: len(full)] and isinstance(loc[-1], int)):
                return number, line, key.start(2), len(key[2])
    return None


def place_of(text: str, loc: Loc) -> tuple[int, str, int, int] | None:
    """The same; of a key within a list written on one line, the list's own key."""
    found = line_of(text, loc)
    inline = found is None and len(loc) > 1 and isinstance(loc[-2], int)
    return line_of(text, loc[:-2]) if inline else found


def _table_at(names: Sequence[str], seen: dict[Loc, int], *, begins: bool) -> Loc:
    """Where a header's table lies; of lists it `begins` an entry or lies within the last one."""
    table: Loc = ()
    for at, name in enumerate(names, start=1):
        table = (*table, name)
        if begins and at == len(names):
            seen[table] = seen.get(table, -1) + 1
        if table in seen:
            table = (*table, seen[table])
    return table


def _bare(name: str) -> tuple[str, ...]:
    parts = re.findall(r'"([^"]*)"|\'([^\']*)\'|([^.\s]+)', name)
    return tuple(first or second or third for first, second, third in parts)
