"""Which alternates swing capitals out, whatever the font calls them."""

from dataclasses import replace

import pytest

from addressing.materials.shelf import open_shelf
from addressing.records.shelf import Face
from addressing.typesetting import swinging


@pytest.mark.parametrize(
    ("key", "tags", "swashes"),
    [
        ("eb-garamond-italic", ("swsh", "ss06", "ss07"), ("swsh", "ss06")),
        ("cormorant-garamond", ("ss01", "ss03", "cv01", "cv02"), ("cv01", "cv02")),
        ("great-vibes", ("ss01", "ss02"), ("ss02",)),
        ("noto-serif", ("smcp", "onum"), ()),
    ],
)
def test_only_features_that_swing_a_capital_out_are_swashes(
    key: str, tags: tuple[str, ...], swashes: tuple[str, ...]
) -> None:
    assert swinging(open_shelf(None).face(key), tags) == swashes


def test_a_feature_counts_as_it_is_chosen(roman: Face) -> None:
    assert swinging(replace(roman, features=(("ss06", 1),)), ("ss06",)) == ("ss06",)
    assert swinging(replace(roman, features=(("ss06", 0),)), ("ss06",)) == ()
    assert swinging(roman, ("ss19",)) == ()
