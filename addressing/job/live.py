"""Whether a job's plates hold live type: all of them, or none."""

from addressing.faults import Exit, Fault
from addressing.job.lettering import asks_live
from addressing.job.reading import Reading
from addressing.where import Where


def is_live(reading: Reading) -> bool:
    """True where the docket asks for live type, or else the shop's or device's record does.

    Raises:
        Fault: a base under the inks would have to be drawn in outlines beside it (exit 3).
    """
    docket, press = reading.docket, reading.press
    if not asks_live(docket, press):
        return False
    for kind in reading.kinds:
        if kind.setting.underbase is not None:
            base = kind.setting.underbase.ink.key
            who = "The docket" if docket.type or press is None else press.title
            raise Fault(
                Exit.INPUT,
                "base-needs-outlines",
                f"{who} asks for live type, and the base in {base} under the {kind.kind} is drawn "
                "in outlines: it would print heavier than the letters on it.",
                'Choose [files] type = "outlines" in the docket, or take out underbase.',
                Where(docket.path or "docket", None, f"docket:piece.{kind.kind}.underbase"),
            )
    return True
