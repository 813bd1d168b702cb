"""Generated envelopes for the benchmark: the same for everyone who draws them."""

import random
import site
from collections.abc import Iterator
from pathlib import Path

WIDTH, HEIGHT = 522, 378
SIZE, LEADING = 24, 32

FONT = Path(
    next(
        found
        for folder in site.getsitepackages()
        for found in Path(folder).glob("fontpkg_great_vibes/files/GreatVibes-Regular.ttf")
    )
)

GIVEN = (
    "Tobias",
    "Agnes",
    "Quentin",
    "Ottilie",
    "Jasper",
    "Marigold",
    "Rowan",
    "Beatrix",
    "Ephraim",
    "Linnea",
    "Caspian",
    "Dorothea",
    "Ambrose",
    "Wilhelmina",
    "Leopold",
    "Saskia",
    "Barnaby",
    "Xenia",
    "Percival",
    "Yolanda",
    "Florian",
    "Henrietta",
    "Ignatius",
    "Isolde",
    "Montague",
    "Nerys",
    "Oberon",
    "Petronella",
    "Roderick",
    "Seraphina",
    "Thaddeus",
    "Ursula",
    "Vivian",
    "Winifred",
    "Zachary",
    "Clementine",
    "Godfrey",
    "Hester",
    "Julius",
    "Katarina",
)
BEGINNING = (
    "Wex",
    "Far",
    "Pen",
    "Lark",
    "Rother",
    "Bram",
    "Quill",
    "Fen",
    "Hol",
    "Mer",
    "Ash",
    "Thorn",
    "Gar",
    "Ling",
    "Stan",
    "Bar",
)
ENDING = (
    "combe",
    "renby",
    "hew",
    "moor",
    "ingham",
    "bury",
    "stead",
    "wick",
    "worth",
    "ley",
    "ford",
    "field",
    "haven",
    "croft",
)
STREET = (
    "Larkmoor",
    "Greywhistle",
    "Quay",
    "Orchard",
    "Tannery",
    "Millrace",
    "Foxglove",
    "Harbour",
    "Chapel",
    "Juniper",
)
SORT = (
    "Lane",
    "Street",
    "Avenue",
    "Road",
    "Terrace",
    "Boulevard",
)


def envelopes(count: int) -> Iterator[tuple[str, str, str, str]]:
    """Four lines each. Of 40 000 lines at 10 000 about 25 000 differ: towns and country repeat."""
    dice = random.Random(7)  # noqa: S311 - a list, not a secret
    pick = dice.choice
    for _ in range(count):
        family, town = pick(BEGINNING) + pick(ENDING), pick(BEGINNING) + pick(ENDING)
        yield (
            f"{pick(GIVEN)} and {pick(GIVEN)} {family}",
            f"{dice.randint(1, 2999)} {pick(STREET)} {pick(SORT)}",
            f"{town}, Vermont 05{dice.randint(1, 40):03}",
            "UNITED STATES OF AMERICA",
        )
