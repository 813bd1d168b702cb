"""What is answered to a sentence beside the list: an address, a street, or names."""

from dataclasses import replace

from addressing.questions.drafts import Draft, set_address
from addressing.questions.families import name_anew
from addressing.questions.understanding import Change, is_placed
from addressing.questions.whereto import place_elsewhere
from addressing.records.questions import Readers

_SEVERAL = "It was asked of several: write it under New names or New address, beside each of them."


def change_told(draft: Draft, change: Change, readers: Readers) -> str | None:
    """Work in what a sentence changes; the reason when it doesn't hold, else None.

    Words with a number are a whole address, or the street where they name no town and the sentence
    names no other.
    """
    if len(change.question.households) > 1:
        return _SEVERAL
    if change.effect == "set":
        of_names = change.value.startswith("names=")
        return (name_anew if of_names else set_address)(draft, change, readers)
    if not is_placed(change.value):
        return name_anew(draft, change, readers)
    address = draft.address
    whole = set_address(draft, _set(change, "lines"), readers)
    if whole is None or "," in change.value or address is None:
        return whole
    there = place_elsewhere(change.question.quoted, change.value, draft.home)
    if there:
        return (
            f"A street alone, and it was said of {there}: the whole address, with its town, please."
        )
    return set_address(draft, _set(change, "street"), readers)


def _set(change: Change, field: str) -> Change:
    return replace(change, effect="set", value=f"{field}={change.value}")
