"""What `ledger` and `reprint` answer, as plain data."""

from dataclasses import asdict

from addressing.job.answers import Answer, made_answer
from addressing.job.printing import Reprint
from addressing.job.reading import Reading
from addressing.records.prints import Balance, Print


def balance_answer(balance: Balance) -> Answer:
    """What is on paper and right, what is due, what is wrong by now: most of `ledger --json`."""
    return {
        "good": [_print(each) for each in balance.good],
        "due": [
            {
                "kind": due.wanted.kind,
                "ink": due.wanted.ink,
                "household": due.wanted.household,
                "why": due.why,
            }
            for due in balance.due
        ],
        "wrong": [{**_print(each), "why": why} for each, why in balance.wrong],
        "moved": [_print(each) for each in balance.moved],
        "strange": balance.is_strange,
        "others": dict(balance.others),
        "same_for_all": dict(balance.for_all),
        "copies": {
            each.kind: {"spoiled": each.spoiled, "left": each.left, "lacking": each.lacking}
            for each in balance.copies
        },
    }


def _print(one: Print) -> Answer:
    return {
        "run": one.run,
        "page": one.page,
        "kind": one.wanted.kind,
        "ink": one.wanted.ink,
        "household": one.wanted.household,
        "state": one.state,
        "date": one.date,
    }


def reprint_answer(reading: Reading, again: Reprint) -> Answer:
    """`reprint --json`: the balance, and what was written."""
    return {
        "ledger": balance_answer(again.balance),
        "blanks_left": dict(again.left),
        "replaces": [asdict(each) for each in again.replaces],
        **made_answer(reading, again.made),
    }
