"""Envelopes at the very edges of the post's published sizes."""

import csv
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from addressing.estimating import postage_for
from addressing.materials.shelf import open_shelf
from addressing.records.postage import Assembly, PostClass, PostRates
from addressing.units import mm_to_pt

LINES = Path(__file__).with_name("postal_sizes.tsv").read_text("utf-8").splitlines()
ROWS = tuple(csv.DictReader((line for line in LINES if not line.startswith("#")), delimiter="\t"))
A7 = open_shelf(None).layout("a7")
STEPS = ((13.0, Decimal(1)),)
RATES = PostRates(
    "USD",
    "2026-01-15",
    (PostClass("letter", STEPS, Decimal("0.50")), PostClass("large", STEPS)),
    (),
)


@pytest.mark.parametrize(
    "row", ROWS, ids=lambda row: f"{row['length']} by {row['height']} by {row['thickness']} in"
)
def test_an_envelope_at_the_edge_of_a_rule_is_classed_as_the_manual_says(
    row: dict[str, str],
) -> None:
    length, height, thickness = (float(row[side]) for side in ("length", "height", "thickness"))
    inch = mm_to_pt(25.4)
    layout = replace(A7, width=length * inch, height=height * inch)
    mail = Assembly(10.0, thickness * 25.4, (), stiff=False, uneven=False)
    found = postage_for("home", layout, mail, RATES)
    assert (found.post_class if found else "none") == row["class"]
    surcharge = found is not None and found.price == Decimal("1.50")
    assert surcharge == (row["nonmachinable"] == "yes")
