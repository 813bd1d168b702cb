"""What the laws draw from: cells of names and addresses, and lists made of them."""

import pytest
from hypothesis import strategies as st
from hypothesis.strategies import SearchStrategy

WORDS = (
    "Mr.", "Mrs.", "Ms.", "Dr.", "The", "Rev.", "Captain", "Drs.", "Tobias", "Odile", "Linnet",
    "Zoë", "Wexcombe", "Farrenby", "O’Farrelly", "van", "der", "de", "la", "St.", "y", "Larkmoor",
    "Jr.", "III", "M.D.", "PhD", "and", "&", "+", "/", ",", ";", "\n", "with", "Guest", "guest",
    "+1", "+2", "Family", "family", "kids", "2", "children", "son", "(7)", "(Toby)", '"Toby"',
    "(declined)", "-", "usher", "plus", "one", "his", "wife", "Inc.", "Choir", "a", "A.", "7",
    "?", "M.", "et", "Mme", "Sr.",
)  # fmt: skip
PLACES = (
    "14", "14A", "1/2", "Larkmoor", "Lane", "Ln", "N.", "West", "Apt", "Apt. 4B", "#3", "Unit",
    "12", "P.O.", "Box", "RR", "2", "c/o", "Odile", "Litchfield", "Salt", "Lake", "City", "CT",
    "Conn.", "UT", "06759", "6759", "06759-1234", "USA", "Canada", "K1A 0B1", "Ottawa", "ON",
    "Leeds", "LS1 4DY", "UK", ",", "\n", "(ring twice)", "Germany", "10115", "Berlin", "St.",
    "Paul", "PSC", "APO", "AE",
)  # fmt: skip


def _cell(words: tuple[str, ...], most: int) -> SearchStrategy[str]:
    made = st.lists(st.sampled_from(words), min_size=1, max_size=most).map(" ".join)
    return made | st.text(max_size=30)


@pytest.fixture(scope="session")
def name_cells() -> SearchStrategy[str]:
    """Cells of names: words of names in any order, and any text at all."""
    return _cell(WORDS, 9)


@pytest.fixture(scope="session")
def address_cells() -> SearchStrategy[str]:
    """Cells of addresses: words of addresses in any order, and any text at all."""
    return _cell(PLACES, 10)
