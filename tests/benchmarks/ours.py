"""The product's own rooms on the benchmark's envelopes: `python ours.py plates|proof COUNT OUT`."""

import gc
import hashlib
import sys
from pathlib import Path

from envelopes import FONT, HEIGHT, WIDTH, envelopes

from addressing.hands import steadily
from addressing.job.drawing import draw_setting
from addressing.plates import bind_plate
from addressing.records.docket import PieceChoice
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.plates import PlateOrder
from addressing.records.set_pieces import households_of
from addressing.records.shelf import Box, Face, Ink, Layout, Zone
from addressing.typesetting import fit

ROLES = (Role.NAME, Role.STREET, Role.PLACE, Role.COUNTRY)


def pieces(count: int) -> list[Piece]:
    """The envelopes as worded pieces; a name line may break before "and"."""
    made = []
    for number, lines in enumerate(envelopes(count)):
        breaks = (lines[0].index(" and ") + 1,)
        worded = tuple(
            Line(text, role, (), breaks if role is Role.NAME else ())
            for text, role in zip(lines, ROLES, strict=True)
        )
        made.append(Piece("outer", f"h-{number}", lines[0], (Wording(worded),)))
    return made


@steadily()  # as the job does
def main(how: str, count: int, out: Path) -> None:
    """Fit, write, and with "proof" judge; nothing may be held back."""
    face = Face("great-vibes", "Great Vibes", FONT, hashlib.sha256(FONT.read_bytes()).hexdigest())
    ink = Ink("White", "White", (0.1, 0.0, 0.0, 0.2), (1.0, 1.0, 1.0))
    zone = Zone("outer", Box(54, 90, 414, 198), "centre", "middle")
    safe = Box(18, 18, WIDTH - 36, HEIGHT - 36)
    layout = Layout("trial", "Trial", WIDTH, HEIGHT, "square", 0, (zone,), safe, (), "made up")
    choice = PieceChoice("outer", "trial", "great-vibes", "White", "deep-green")
    listed = pieces(count)
    setting, findings = fit(listed, choice, layout, face, ink, 0.0)
    if len(setting.pieces) != count:
        sys.exit(f"held back: {findings[0].text}")
    households = households_of(setting.pieces)
    order = PlateOrder("01-outer-white", "outer", ink, (WIDTH, HEIGHT), households, 1, "0")
    sheaves, outlines = draw_setting(setting, order)
    bind_plate(out, order, sheaves, outlines)
    if how == "proof":
        from addressing.preflight.judge import judge_plate  # noqa: PLC0415 - only when asked

        verdict = judge_plate(out, order, setting, listed)
        if not verdict.proved:
            sys.exit(f"not proved: {verdict.faults[0]}")


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]), Path(sys.argv[3]))
    gc.freeze()  # as the command does
