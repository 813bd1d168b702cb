"""A note for each hand whose words come too near each other: which, and what parts them."""

import math
from collections import defaultdict
from collections.abc import Iterator, Sequence

from addressing.job.set_kinds import SetKind
from addressing.materials.faces import DEFAULT_FEATURES
from addressing.records.docket import Docket
from addressing.records.findings import Finding, Severity
from addressing.records.shelf import Face
from addressing.typesetting import Near, near_words
from addressing.where import Where

SHOWN = 4
"""So many pairs of words are named."""

STEP = 10
"""`word_space` is said in whole steps of this many thousandths of an em."""

WIDEST = 250
"""A blank wider by more than this (thousandths of an em) would be a hole: better no swash there."""


def words_near(kinds: Sequence[SetKind], docket: Docket) -> Iterator[Finding]:
    """One note for each face as it is lettered, over all kinds of piece that have it."""
    found: dict[Face, dict[Near, set[str]]] = defaultdict(lambda: defaultdict(set))
    first: dict[Face, str] = {}
    for one in kinds:
        for near, households in near_words(one.setting).items():
            found[near.face][near] |= households
            hand = "" if near.face == one.setting.face else ".address"
            first.setdefault(near.face, f"docket:piece.{one.kind}{hand}.word_space")
    for face, pairs in found.items():
        where = Where(docket.path or "docket", None, first[face])
        yield Finding(Severity.NOTE, "words-near", where, _text(face, pairs), _mend(face, pairs))


def _text(face: Face, pairs: dict[Near, set[str]]) -> str:
    counted: dict[str, set[str]] = defaultdict(set)
    for near, households in pairs.items():
        counted[near.words] |= households
    many = len(set().union(*counted.values()))
    shown = [f"“{words}”" for words in list(counted)[:SHOWN]]
    more = len(counted) - len(shown)
    named = ", ".join(shown) + (f" and {more} more" if more else "")
    where = "for one household" if many == 1 else f"for {many} households"
    return (
        f"In {face.family} the letters of these words swing out so far that they nearly touch or"
        f" cross the next word's: {named} ({where})."
    )


def _mend(face: Face, pairs: dict[Near, set[str]]) -> str:
    """What parts all of them, or as many as can be without a hole, and what else would help."""
    needs = [near.more * 1000 for near in pairs]
    bearable = [need for need in needs if need <= WIDEST]
    ways = []
    if bearable:
        total = face.word_space + math.ceil(max(bearable) / STEP) * STEP
        whom = "them" if len(bearable) == len(needs) else f"{len(bearable)} of these {len(needs)}"
        ways.append(f"set its words further apart (word_space = {total} clears {whom})")
    chosen = [tag for tag, value in face.features if value and tag not in DEFAULT_FEATURES]
    ways.append(f"leave {' and '.join(chosen)} out" if chosen else "choose another face")
    said = ", or ".join(ways)
    return f"{said[0].upper()}{said[1:]}. Nothing needs doing if they please you on the proof."
