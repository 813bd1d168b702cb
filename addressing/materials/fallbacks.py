"""The faces that step in, as a docket names them: one for a script."""

from typing import Annotated

from pydantic import AfterValidator, Field, model_validator

from addressing.materials.reading import Entry
from addressing.records.docket import FallbackChoice
from addressing.records.shelf import CAPITALS, CROWDED


class FallbackEntry(Entry):
    """A face that steps in; in a docket its name alone will do."""

    face: Annotated[str, Field(min_length=1)]
    size: Annotated[float, Field(ge=0.2, le=3)] | None = None
    tracking: Annotated[int, Field(ge=-50, le=500)] | None = None

    @model_validator(mode="before")
    @classmethod
    def _name(cls, value: object) -> object:
        return {"face": value} if isinstance(value, str) else value


def script_code(value: str) -> str:
    """A script by its English name or its four letters, as four letters (ISO 15924).

    Or what else another face sets: words in capitals, those crowded by a swash.

    Raises:
        ValueError: there is no such script.

    >>> script_code("Greek"), script_code("cyrl"), script_code("old italic")
    ('Grek', 'Cyrl', 'Ital')
    """
    from fontTools import unicodedata  # noqa: PLC0415 - only where a docket names one

    if value.strip().casefold() in {CAPITALS, CROWDED}:
        return value.strip().casefold()
    name = value.strip().replace(" ", "_")
    code = unicodedata.script_code(name, default=None) or name.title()
    if unicodedata.script_name(code, default=None) is None:
        raise ValueError("name a script: Greek, Cyrillic, Hebrew, Han …; or capitals, or crowded.")
    return str(code)


Fallbacks = dict[Annotated[str, AfterValidator(script_code)], FallbackEntry]


def fallback_choices(entries: Fallbacks) -> tuple[FallbackChoice, ...]:
    """The records of a docket's [fallback]."""
    return tuple(
        FallbackChoice(script, each.face, each.size, each.tracking)
        for script, each in entries.items()
    )
