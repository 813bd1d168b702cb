"""Money has as many digits behind the point as the currency is paid in."""

from decimal import Decimal
from pathlib import Path

import pytest

from addressing.estimating.prices import paid
from addressing.materials.shelf import open_shelf

# A reference of ISO 4217's minor units (geratools.com): "JPY, KRW, VND and UGX use 0, while BHD,
# KWD, JOD and TND use 3"; dollars, euros and pounds 2.
DIGITS = {
    **dict.fromkeys(("JPY", "KRW", "VND", "UGX"), 0),
    **dict.fromkeys(("BHD", "KWD", "JOD", "TND"), 3),
    **dict.fromkeys(("USD", "EUR", "GBP"), 2),
}


@pytest.mark.parametrize(("currency", "digits"), DIGITS.items())
def test_amounts_are_paid_in_the_currency_s_smallest_part(
    tmp_path: Path, currency: str, digits: int
) -> None:
    (tmp_path / "rates.toml").write_text(
        f'currency = "{currency}"\nas_of = "2026-01-15"\n[labour]\nper_hour = "1"\n'
    )
    rates = open_shelf(tmp_path).rates()
    amount = paid(Decimal("12.34567"), rates.digits)
    assert str(amount) == {0: "12", 2: "12.35", 3: "12.346"}[digits]
