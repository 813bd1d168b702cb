"""A designer's own corrections given a second time, as when a command was cut short."""

from addressing.questions.corrections import BY_HAND, as_before
from addressing.records.questions import Decision
from addressing.where import Where


def by_hand(number: int, kind: str, words: str) -> Decision:
    return Decision(f"h-abc:correct:{kind}", words, Where(BY_HAND, BY_HAND, str(number)))


NAMES, STREET = by_hand(1, "names", "Kit Penhew"), by_hand(2, "street", "9 Mill Row")


def test_what_only_repeats_the_last_corrections_keeps_their_places() -> None:
    again = (by_hand(3, "names", "Kit Penhew"), by_hand(4, "street", "9 Mill Row"))
    assert as_before((STREET, NAMES), again) == (NAMES, STREET)
    assert as_before((STREET, NAMES), again[1:]) == (STREET,)


def test_an_older_one_given_again_is_the_latest_now() -> None:
    again = (by_hand(3, "names", "Kit Penhew"),)
    assert as_before((NAMES, STREET), again) == again


def test_other_words_are_another_correction() -> None:
    new = (by_hand(3, "street", "9 Mill Lane"),)
    assert as_before((NAMES, STREET), new) == new
    assert as_before((), new) == new
    assert as_before((NAMES,), ()) == ()
