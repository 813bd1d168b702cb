"""TOML that a person wrote: read, checked, and everything that is wrong with it told at once."""

import math
import re
import tomllib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, TypeVar, get_args

from pydantic import BaseModel, ConfigDict, ValidationError

from addressing.faults import Exit, Fault
from addressing.materials.key_places import Loc, key_name, place_of
from addressing.materials.nearest import did_you_mean
from addressing.where import Where

LARGEST = 1 << 20
"""Bytes. Nobody writes a megabyte of choices by hand."""


class Entry(BaseModel):
    """What every table in our TOML keeps to: no conversion, no unknown key, no NaN."""

    model_config = ConfigDict(strict=True, extra="forbid", frozen=True, allow_inf_nan=False)


Model = TypeVar("Model", bound=Entry)


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that is wrong with a file: at which key, what, and how to mend it."""

    loc: Loc
    text: str
    mend: str


@dataclass(frozen=True, slots=True)
class Source:
    """A TOML file as it was read. `kind` begins the codes of its faults ("layout", "docket")."""

    kind: str
    path: Path
    text: str
    data: Mapping[str, Any]


def read_toml(kind: str, path: Path) -> Source:
    """Read a TOML file as UTF-8.

    Raises:
        Fault: exit 3; `<kind>-missing`, `<kind>-unreadable` or `<kind>-syntax` (with its line).
    """
    text = _text(kind, path)
    try:
        return Source(kind, path, text, tomllib.loads(text))
    except tomllib.TOMLDecodeError as error:
        raise _syntax_fault(kind, path, text, str(error)) from error
    except RecursionError as error:
        raise _syntax_fault(kind, path, text, "brackets are nested too deeply") from error


def _text(kind: str, path: Path) -> str:
    where = Where(str(path))
    try:
        if path.stat().st_size > LARGEST:
            raise Fault(
                Exit.INPUT,
                f"{kind}-unreadable",
                f"{path.name} is larger than 1 MB, too large for a {kind}.",
                "Check that this is the right file.",
                where,
            )
        return path.read_text(encoding="utf-8-sig")
    except FileNotFoundError as error:
        raise Fault(
            Exit.INPUT, f"{kind}-missing", f"{path} isn't there.", "Check its name.", where
        ) from error
    except OSError as error:
        reason = error.strerror or str(error)
        raise Fault(
            Exit.INPUT,
            f"{kind}-unreadable",
            f"{path} can't be read: {reason}.",
            "Check that it is a file that you may open.",
            where,
        ) from error
    except UnicodeDecodeError as error:
        raise Fault(
            Exit.INPUT,
            f"{kind}-unreadable",
            f"{path.name} isn't text in UTF-8.",
            "Save it as plain text in UTF-8.",
            where,
        ) from error


CURLY = frozenset("\u201c\u201d\u201e\u2018\u2019")
"""Quotes that word processors make of straight ones; TOML knows none of them."""


def _syntax_fault(kind: str, path: Path, text: str, message: str) -> Fault:
    found = re.search(r"\(at line (\d+), column (\d+)\)", message)
    reason = re.sub(r"\s*\(at .*\)$", "", message)
    shown, place, at = "", "", ""
    if found:
        line, column = int(found[1]), int(found[2])
        place = f", line {line}"
        rows = text.splitlines()
        row = rows[line - 1] if line <= len(rows) else ""
        at = row[column - 1 : column]
        shown = f"\n    {row}\n    {' ' * (column - 1)}^"
    mend = 'Write each choice as key = value, with words in "quotes".'
    if at and at in CURLY:
        reason, mend = "curly quotes", 'Write straight ones: key = "value".'
    return Fault(
        Exit.INPUT,
        f"{kind}-syntax",
        f"{path.name}{place}: {reason}.{shown}",
        mend,
        Where(str(path)),
    )


def checked(model: type[Model], source: Source) -> Model:
    """What the file says, as `model`.

    Raises:
        Fault: exit 3, `<kind>-wrong`: every problem of the file, each with its key and mend.
    """
    entry, problems = _validated(model, source.data, ())
    if entry is None:
        raise wrong(source, problems)
    return entry


def checked_tables(model: type[Model], source: Source) -> dict[str, Model]:
    """What a file of equal tables says: the table's name to its entry.

    Raises:
        Fault: exit 3, `<kind>-wrong`, as `checked`.
    """
    entries: dict[str, Model] = {}
    problems: list[Problem] = []
    for name, table in source.data.items():
        entry, wrongs = _validated(model, table, (name,))
        problems.extend(wrongs)
        if entry is not None:
            entries[name] = entry
    if problems:
        raise wrong(source, problems)
    return entries


def _validated(
    model: type[Model], data: object, prefix: Loc
) -> tuple[Model | None, tuple[Problem, ...]]:
    try:
        return model.model_validate(data), ()
    except ValidationError as error:
        errors = error.errors(include_url=False)
        return None, tuple(_problem(model, each, prefix) for each in errors)


def wrong(source: Source, problems: Sequence[Problem]) -> Fault:
    """The Fault that tells all problems of a file in its order, each key underlined."""
    ordered = sorted(problems, key=lambda each: _line_number(source, each))
    count = "one thing" if len(ordered) == 1 else f"{len(ordered)} things"
    told = "\n".join(f"  {_told(source, each)}" for each in ordered)
    mends = " ".join(f"{key_name(each.loc)}: {each.mend}" for each in ordered)
    prefix = "docket:" if source.kind == "docket" else ""
    return Fault(
        Exit.INPUT,
        f"{source.kind}-wrong",
        f"{source.path.name} has {count} to mend:\n{told}",
        mends,
        Where(str(source.path), None, f"{prefix}{key_name(ordered[0].loc)}"),
    )


def _line_number(source: Source, problem: Problem) -> float:
    """Where a problem stands in the file; what is missing stands nowhere and comes last."""
    found = place_of(source.text, problem.loc)
    return found[0] if found is not None else math.inf


def _told(source: Source, problem: Problem) -> str:
    found = place_of(source.text, problem.loc)
    if found is None:
        return f"{key_name(problem.loc)}: {problem.text}"
    number, line, start, width = found
    mark = " " * start + "^" * width
    name = f"{key_name(problem.loc)} (line {number})"
    return f"{name}: {problem.text}\n      {line}\n      {mark}"


NEEDED = {
    "float_type": "a number, such as 6.35",
    "int_type": "a whole number",
    "int_from_float": "a whole number",
    "string_type": 'words in "quotes"',
    "bool_type": "true or false",
    "list_type": "a list in [ ]",
    "model_type": "a table of its own",
    "model_attributes_type": "a table of its own",
    "dict_type": "a table of its own",
    "finite_number": "a finite number",
}


BOUNDS = ("ge", "gt", "le", "lt", "min_length", "max_length")
"""Where pydantic says what a limit is."""

LIMITS = {
    "greater_than_equal": "give {} or more.",
    "greater_than": "give more than {}.",
    "less_than_equal": "give {} or less.",
    "less_than": "give less than {}.",
    "string_too_short": "write something, or leave the key out.",
    "too_short": "give at least {}.",
    "too_long": "give {} at most.",
}


def _problem(model: type[Entry], error: Mapping[str, Any], prefix: Loc) -> Problem:
    """One pydantic error in our words."""
    loc: Loc = tuple(part for part in (*prefix, *error["loc"]) if part != "[key]")
    kind: str = error["type"]
    context: Mapping[str, Any] = error.get("ctx", {})
    if kind == "missing":
        return Problem(loc, "it is missing.", "add it.")
    if kind == "extra_forbidden":
        known = known_keys(model, tuple(error["loc"])[:-1])
        return Problem(loc, "this key is unknown.", did_you_mean(str(loc[-1]), known))
    if kind == "literal_error":
        choices = str(context.get("expected", "")).replace("'", '"')
        return Problem(loc, f"{_shown(error['input'])} isn't a choice.", f"it may be {choices}.")
    if kind in NEEDED:
        mend = f"give {NEEDED[kind]}."
        if kind == "list_type" and isinstance(error["input"], dict):
            name = ".".join(str(part) for part in loc if not isinstance(part, int))
            mend = f"there may be several: write [[{name}]], once for each."
        return Problem(loc, f"{_shown(error['input'])} won't do.", mend)
    if kind == "value_error":
        return Problem(loc, f"{_shown(error['input'])} won't do.", str(context["error"]))
    bound = next((f"{context[key]:g}" for key in BOUNDS if key in context), "")
    mend = LIMITS.get(kind, "write it as the packaged example does.").format(bound)
    return Problem(loc, f"{_shown(error['input'])} won't do.", mend)


def _shown(value: object) -> str:
    """A value as it would stand in the file, shortened."""
    if isinstance(value, str):
        return f'"{value[:40]}…"' if len(value) > 40 else f'"{value}"'  # noqa: PLR2004 - to fit a line
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, int | float):
        return repr(value)
    return "what stands there"


def known_keys(model: type[Entry], loc: Loc) -> tuple[str, ...]:
    """The keys that the table at `loc` may have."""
    current: type[Entry] | None = model
    for part in loc:
        if isinstance(part, int) or current is None:
            continue
        field = next((f for n, f in current.model_fields.items() if part in (n, f.alias)), None)
        current = _entry_in(field.annotation) if field is not None else current
    if current is None:
        return ()
    return tuple(field.alias or name for name, field in current.model_fields.items())


def _entry_in(annotation: object) -> type[Entry] | None:
    """The table's model inside `list[X]`, `dict[str, X]` or `X | None`."""
    if isinstance(annotation, type) and issubclass(annotation, Entry):
        return annotation
    inner: Iterable[type[Entry] | None] = (_entry_in(each) for each in get_args(annotation))
    return next((each for each in inner if each is not None), None)
