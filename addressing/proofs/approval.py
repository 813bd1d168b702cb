"""The last sheet of the proof: what is approved, three boxes, a place to sign."""

from addressing.proofs.flow import Block, Pen, Sheet, gap, text_block
from addressing.proofs.lettering import wrap
from addressing.proofs.look import ASIDE, BODY, CAPTION, FAINT, HAIRLINE, SECTION, SMALL
from addressing.proofs.words import kind_name, many, mark, varnished
from addressing.records.pieces import household_of
from addressing.records.proofs import SEAL, ProofJob, ProofSet

STATEMENT = (
    "Names and addresses are printed as you approved them. Read every line. "
    "Changes after approval are made at extra cost."
)
"""The trade's custom: who approves a proof answers for what stands on it."""

CHOICES = (
    "Approved as shown",
    "Approved with the changes that are written on these sheets",
    "Please change what is written here and send a new proof",
)
LINES = ("Name", "Signature", "Date")
BOX = 11.0
_WORDS_AT = 190.0
"""Where a row's words begin, in points from its left."""


def approval_blocks(job: ProofJob, sets: tuple[ProofSet, ...], sheet: Sheet) -> list[Block]:
    """The sheet to sign; it tells how many of what, and what it doesn't cover."""

    def heading(pen: Pen, left: float, top: float) -> None:
        pen.words(left, top - SECTION.size, "Approval", SECTION)
        pen.bookmark("Approval")

    measure = sheet.measure * 0.8
    return [
        Block(SECTION.leading + 8, heading, fresh=True),
        text_block(wrap(STATEMENT, BODY, measure), BODY),
        gap(22),
        _counts(job, sets, sheet),
        gap(10),
        text_block(wrap(_covers(job), ASIDE, measure), ASIDE),
        gap(26),
        *(_box(words) for words in CHOICES),
        gap(30),
        *(_line(words, sheet) for words in LINES),
        gap(14),
        text_block(wrap(_mark_words(job), SMALL, measure), SMALL),
    ]


def _covers(job: ProofJob) -> str:
    """Which households the signature doesn't cover."""
    if job.others is not None:
        beside = many(job.others, "other household")
        are = "is" if job.others == 1 else "are"
        return f"This proof covers what is printed again; {beside} of the list {are} not on it."
    held = [str(one.number) for one in job.households if one.held]
    if not held:
        return "No household waits for an answer: this proof covers the whole list."
    return (
        f"Waiting for an answer and not covered: {many(len(held), 'household')}, "
        f"no. {', '.join(held)}. A new proof will show them."
    )


def _mark_words(job: ProofJob) -> str:
    return (
        f"Proof no. {mark(job)}. The number is worked out from the list and all that was chosen: "
        "when either is changed, a new proof has another number, and this approval no longer holds."
        f"{_seal_words(job)}"
    )


def _seal_words(job: ProofJob) -> str:
    """What ties a signed proof to the plates."""
    if job.seal is None:
        return ""
    return f" Seal of the plates that were made with it, and of no others: {SEAL}"


def _counts(job: ProofJob, sets: tuple[ProofSet, ...], sheet: Sheet) -> Block:
    """One row for each kind: what is shown here, to be printed."""
    held = {household.key for household in job.households if household.held}
    ready = sum(not household.held for household in job.households)
    rows: list[tuple[str, str, tuple[str, ...]]] = [("Households", f"{ready:,}", ("",))]
    room = sheet.measure - _WORDS_AT
    for shown in sets:
        setting = shown.setting
        number = sum(household_of(page.household or "") not in held for page in shown.pages)
        pieces = "one for all" if shown.static else f"{number:,}"
        inks = " and ".join(ink.key for ink in setting.inks) or setting.ink.key
        if setting.underbase is not None:
            inks += f" over {setting.underbase.ink.key}"
        if setting.varnish is not None:
            inks += f", {varnished(setting.varnish)},"
        words = f"{inks} on {shown.stock.title.lower()}, {setting.lettered}"
        rows.append((kind_name(setting.kind), pieces, tuple(wrap(words, ASIDE, room))))
    leading = BODY.leading + 5

    def draw(pen: Pen, left: float, top: float) -> None:
        pen.rule(left, top, sheet.measure)
        for kind, pieces, words in rows:
            pen.words(left, top - leading + 5, kind, BODY)
            pen.words(left + 160, top - leading + 5, pieces, BODY, align="right")
            for place, line in enumerate(words):
                down = leading - 5 + place * ASIDE.leading
                pen.words(left + _WORDS_AT, top - down, line, ASIDE)
            top -= leading + (len(words) - 1) * ASIDE.leading
            pen.rule(left, top, sheet.measure)

    more = sum(len(words) - 1 for _, _, words in rows)
    return Block(len(rows) * leading + more * ASIDE.leading, draw)


def _box(words: str) -> Block:
    def draw(pen: Pen, left: float, top: float) -> None:
        pen.canvas.setLineWidth(0.7)
        pen.canvas.setStrokeColorRGB(*FAINT)
        pen.canvas.rect(left, top - BOX, BOX, BOX, fill=0)
        pen.words(left + 24, top - BODY.size + 1, words, BODY)

    return Block(24, draw)


def _line(words: str, sheet: Sheet) -> Block:
    def draw(pen: Pen, left: float, top: float) -> None:
        pen.rule(left, top - 20, sheet.measure * 0.6, HAIRLINE)
        pen.words(left, top - 31, words, CAPTION)

    return Block(50, draw)
