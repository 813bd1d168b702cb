"""A row of a docket that is written out: key, value, remark, under each other as TOML."""

import json
import re
from collections.abc import Sequence

Row = tuple[str, object, str, object]
"""A key, its value, a remark, and the example that stands in a comment when the value is None."""

_BARE = re.compile(r"[A-Za-z0-9_-]+")

WIDTH = 46
"""Where remarks begin, so that they stand under each other."""


def value_text(value: object) -> str:
    """A value as TOML. JSON's strings are TOML's, but for DEL, which TOML wants escaped."""
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007F")
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, tuple):
        return f"[{', '.join(value_text(each) for each in value)}]"
    if isinstance(value, dict):
        rows = (f"{_key(key)} = {value_text(each)}" for key, each in value.items())
        return f"{{ {', '.join(rows)} }}"
    return repr(value)


def _key(key: str) -> str:
    """A key as TOML: bare where it may be."""
    return key if _BARE.fullmatch(key) else value_text(key)


def row_text(key: str, value: object, remark: str, example: object = None) -> str:
    """A key, its value and a remark; as a comment with the example when the value is None."""
    line = f"# {key} = {value_text(example)}" if value is None else f"{key} = {value_text(value)}"
    return f"{line:<{WIDTH}}  # {remark}" if remark else line


def table_text(name: str, rows: Sequence[Row], remark: str = "") -> str:
    """A table's head, with a remark on it, and its rows."""
    head = f"[{name}]" if not remark else f"{f'[{name}]':<{WIDTH}}  # {remark}"
    return "\n".join((head, *(row_text(*row) for row in rows)))
