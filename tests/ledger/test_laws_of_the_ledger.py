"""Any order of edits, prints, spoils and reprints: the ledger agrees with a naive recount."""

import tempfile
from pathlib import Path

from hypothesis import example, given, settings
from hypothesis import strategies as st

from addressing.ledger import compare, open_ledger, used_up
from addressing.records.prints import Printing, Wanted

HOUSES = ("h-a", "h-b", "h-c", "h-d")
STEPS = st.lists(
    st.one_of(
        st.tuples(st.just("edit"), st.sampled_from(HOUSES), st.integers(0, 2)),
        st.tuples(st.just("drop"), st.sampled_from(HOUSES), st.just(0)),
        st.tuples(st.just("print"), st.just(""), st.just(0)),
        st.tuples(st.just("reprint"), st.just(""), st.just(0)),
        st.tuples(
            st.sampled_from(["spoiled", "destroyed", "handed over"]),
            st.just(""),
            st.integers(0, 30),
        ),
    ),
    max_size=25,
)


INKS = ("White", "Gold")


def wanted(house: str, version: int, ink: str = "White") -> Wanted:
    return Wanted("outer", ink, house, house, f"{version}.f.p.i")


@settings(max_examples=60, deadline=None)
@given(STEPS)
@example([("print", "", 0), ("spoiled", "", 0), ("reprint", "", 0), ("destroyed", "", 2)])
def test_what_is_due_and_wrong_is_what_a_naive_recount_says(
    steps: list[tuple[str, str, int]],
) -> None:
    people = {"h-a": 0, "h-b": 0}
    stack: list[tuple[str, int, str]] = []  # the recount: (household, version, state) of each sheet
    places: list[tuple[int, int]] = []
    with tempfile.TemporaryDirectory() as folder, open_ledger(Path(folder)) as ledger:
        for step, house, number in steps:
            should = [wanted(each, version) for each, version in people.items()]
            match step:
                case "edit":
                    people[house] = number
                case "drop":
                    people.pop(house, None)
                case "print" | "reprint":
                    due = [each.wanted for each in compare(ledger.prints(), should).due]
                    run = due if step == "reprint" else should
                    if run:
                        made = ledger.add(Printing("p", str(len(stack))), run)
                        places += [(made, page) for page in range(1, len(run) + 1)]
                        stack += [(e.household, int(e.print[0]), "printed") for e in run]
                case state:
                    if not stack:
                        continue
                    at = number % len(stack)
                    ledger.mark(places[at][0], [places[at][1]], state)
                    stack[at] = (*stack[at][:2], state)
        balance = compare(
            ledger.prints(), [wanted(each, version) for each, version in people.items()]
        )
        used = used_up(ledger.prints())
        in_order = [each.wanted.household for each in ledger.prints()]
    kept = [(house, version) for house, version, s in stack if s in {"printed", "handed over"}]
    assert {e.wanted.household for e in balance.due} == {
        house for house, version in people.items() if (house, version) not in kept
    }
    assert sorted(e.wanted.household for e, _ in balance.wrong) == sorted(
        house for house, version in kept if people.get(house) != version
    )
    assert len(balance.good) + len(balance.wrong) == len(kept)
    assert used.get("outer", 0) == len(stack)
    assert in_order == [house for house, _, _ in stack]
    assert {e.wanted.household: e.why for e in balance.due} == {
        e.wanted.household: why(stack, e.wanted.household, people) for e in balance.due
    }


def why(stack: list[tuple[str, int, str]], house: str, people: dict[str, int]) -> str:
    """The recount's reason for a household that is due, by its last sheet."""
    last = next((each for each in reversed(stack) if each[0] == house), None)
    if last is None:
        return "new"
    return last[2] if last[1] == people[house] else "words changed"


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(st.sampled_from(HOUSES[:2]), st.sampled_from(INKS)), max_size=6))
def test_each_ink_of_a_piece_is_due_until_it_is_on_paper(made: list[tuple[str, str]]) -> None:
    should = [wanted(house, 0, ink) for house in HOUSES[:2] for ink in INKS]
    with tempfile.TemporaryDirectory() as folder, open_ledger(Path(folder)) as ledger:
        for number, (house, ink) in enumerate(made):
            ledger.add(Printing("p", str(number)), [wanted(house, 0, ink)])
        balance = compare(ledger.prints(), should)
    assert {(each.wanted.household, each.wanted.ink) for each in balance.due} == {
        (house, ink) for house in HOUSES[:2] for ink in INKS
    } - set(made)
    assert balance.wrong == ()


def test_an_envelope_of_two_inks_is_used_up_once() -> None:
    with tempfile.TemporaryDirectory() as folder, open_ledger(Path(folder)) as ledger:
        for ink in ("White", "Gold"):
            pages = [Wanted("outer", ink, house, house, "1.f.p.i") for house in HOUSES]
            ledger.add(Printing("p", ink), pages)
        assert used_up(ledger.prints()) == {"outer": 4}
