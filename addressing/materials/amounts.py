"""Money in files that a person writes: in quotes, so that it stays exact."""

import re
from typing import Annotated

from pydantic import BeforeValidator

_AMOUNT = re.compile(r"[0-9]{1,9}(\.[0-9]{1,6})?")


def _amount(value: object) -> object:
    if isinstance(value, str) and _AMOUNT.fullmatch(value):
        return value
    raise ValueError('write it in quotes, with a point, no sign and no currency: "12.50".')


Amount = Annotated[str, BeforeValidator(_amount)]
"""Money or a percentage, as it is written: no sign, no blanks or separators."""
