"""Lines measured many at once, held against the same lines one by one."""

from collections.abc import Sequence

import pytest

from addressing.materials.shelf import open_shelf
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.shelf import Box
from addressing.typesetting import typeface
from addressing.typesetting.arranging import Arrangement
from addressing.typesetting.lettering import open_hands
from addressing.typesetting.measuring import Gauge, Measure
from addressing.typesetting.patterns import Patterns

SHELF = open_shelf(None)
BLOCKS = (
    ("Mr. and Mrs. Tobias Wexcombe", "14 Larkmoor Lane,", "Farcroft, Vermont 05123"),
    ("“Quill”", "1742", "Ægir Łódź"),
    ("Odile ☃ Farrenby", "2 Foxglove Road"),
    ("דן כהן", "14 Larkmoor Lane,"),
    ("Mr. and Mrs. Tobias Wexcombe",),
)


def piece(texts: Sequence[str]) -> Piece:
    roles = (Role.NAME, Role.STREET, Role.PLACE)
    lines = (Line(text, role) for text, role in zip(texts, roles, strict=False))
    return Piece("outer", "h-a", texts[0], (Wording(tuple(lines)),))


def gauge(*keys: str) -> Gauge:
    hands = map(Measure, open_hands([SHELF.face(key) for key in keys]), (1.0, 0.62))
    return Gauge(tuple(hands), Box(0, 0, 400, 200), Arrangement(0.5, None, 0.0, hanging=",“”"))


@pytest.mark.parametrize("keys", [("great-vibes",), ("great-vibes", "eb-garamond")])
@pytest.mark.parametrize("kept", [typeface.LINES_KEPT, 1], ids=["all lines kept", "one line kept"])
def test_lines_measured_together_are_as_wide_and_as_flawed_as_alone(
    keys: tuple[str, ...], kept: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(typeface, "LINES_KEPT", kept)
    typeface.open_typeface.cache_clear()
    patterns = Patterns(several=len(keys) > 1)
    blocks = [patterns.of(piece(texts)) for texts in BLOCKS]
    together, alone = gauge(*keys), gauge(*keys)
    inks = together.inks_of_all(blocks)
    own = [[alone.ink(*line) for line in zip(texts, of.hands, strict=True)] for texts, of in blocks]
    assert inks == own
    assert {text for text, _ in together.flawed} >= {"Odile ☃ Farrenby"}
    assert (together.flawed, together.reach) == (alone.flawed, alone.reach)
