"""Money in files that a person writes: in quotes, so that it stays exact."""

import re
from collections.abc import Callable
from decimal import Decimal
from typing import Annotated

from pydantic import BeforeValidator

_AMOUNT = re.compile(r"[0-9]{1,9}(\.[0-9]{1,6})?")


def _amount(value: object) -> object:
    if isinstance(value, str) and _AMOUNT.fullmatch(value):
        return value
    raise ValueError('write it in quotes, with a point, no sign and no currency: "12.50".')


def _percent(most: int) -> Callable[[object], object]:
    """What checks a percentage of `most` at most."""

    def check(value: object) -> object:
        if isinstance(value, str) and _AMOUNT.fullmatch(value) and Decimal(value) <= most:
            return value
        raise ValueError(f'write the number alone, in quotes, up to {most}: "12.5".')

    return check


Percent = Annotated[str, BeforeValidator(_percent(1000))]
"""A surcharge or a share that may be more than the whole."""

Share = Annotated[str, BeforeValidator(_percent(100))]
"""A share of a whole."""

Less = Annotated[str, BeforeValidator(_percent(99))]
"""What may be lacking of a whole, of which something is left."""

Amount = Annotated[str, BeforeValidator(_amount)]
"""Money, as it is written: no sign, no blanks or separators."""
