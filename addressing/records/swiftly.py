"""Frozen records made quickly: those of which a large job has several for every envelope.

A frozen dataclass sets each field through `object.__setattr__`, which looks the name up on the
class anew; that takes ten times as long as a record that isn't frozen. Here a field is set by its
slot itself, found once. Frozen the record stays, and in all else it is the dataclass that it was.
What a second process hands over is the fields and no more, made into a record in the same way: the
dataclass would look up its fields for each one of them (measured: three times as slow).
"""

from dataclasses import MISSING, fields
from typing import Any, TypeVar

Record = TypeVar("Record")


def swiftly(record: type[Record]) -> type[Record]:
    """A frozen dataclass with slots, its records made three times as fast.

    Raises:
        TypeError: it has a field that is made anew for each record, or more to do when it is made.
    """
    own = fields(record)  # type: ignore[arg-type]
    if hasattr(record, "__post_init__") or any(
        not one.init or one.default_factory is not MISSING for one in own
    ):
        raise TypeError(record)
    known: dict[str, Any] = {f"set_{one.name}": vars(record)[one.name].__set__ for one in own}
    known |= {f"default_{one.name}": one.default for one in own}
    given = "".join(
        f", {one.name}" + ("" if one.default is MISSING else f"=default_{one.name}") for one in own
    )
    steps = "".join(f"\n    set_{one.name}(self, {one.name})" for one in own)
    exec(f"def __init__(self{given}):{steps}", known)  # noqa: S102 - as dataclasses itself does
    values = "".join(f"self.{one.name}, " for one in own)
    exec(f"def __reduce__(self):\n    return self.__class__, ({values})", known)  # noqa: S102
    for name in ("__init__", "__reduce__"):
        known[name].__qualname__ = f"{record.__qualname__}.{name}"
        type.__setattr__(record, name, known[name])
    return record
