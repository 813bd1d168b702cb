"""The one reader of the reference tables in data/ (tab-separated, each row with its source)."""

import csv
from functools import cache
from importlib.resources import files


@cache
def table(name: str) -> tuple[dict[str, str], ...]:
    """The rows of `data/<name>.tsv`, each a mapping from the column's name; cells are stripped.

    Lines that begin with `#` are remarks. Treat the rows as read-only: they are shared.
    """
    text = (files("addressing") / "data" / f"{name}.tsv").read_text(encoding="utf-8")
    lines = (line for line in text.splitlines() if line and not line.startswith("#"))
    rows = csv.DictReader(lines, delimiter="\t", quoting=csv.QUOTE_NONE)
    return tuple({key: (value or "").strip() for key, value in row.items()} for row in rows)


@cache
def lookup(name: str, key: str, value: str) -> dict[str, str]:
    """A mapping from one column of a table to another."""
    return {row[key]: row[value] for row in table(name)}
