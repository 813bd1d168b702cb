"""What the post asks of posted pieces: what its machines can read.

The rules are rows of data/post_rules.tsv, each with its source. Colours are the ones of proofs, so
contrast is computed and not measured; the post measures with a meter of its own.
"""

from collections.abc import Iterator, Sequence
from functools import cache
from math import degrees

from addressing.faults import Exit, Fault
from addressing.records.docket import Docket
from addressing.records.findings import Finding, Severity
from addressing.records.pages import Setting
from addressing.records.shelf import Ink, Stock
from addressing.tables import table
from addressing.where import Where

POSTED = ("outer", "reply")
"""The kinds that go through the post."""

_INCH = 72.0


def reading_by_machine(
    posted: Sequence[tuple[str, Setting, Stock]], docket: Docket
) -> tuple[Finding, ...]:
    """What keeps machines from reading the posted pieces: one note for the job.

    Raises:
        Fault: the docket wants machine-readable envelopes and they aren't (exit 3).
    """
    reasons = dict.fromkeys(
        f"{kind.capitalize()}: {reason}"
        for kind, setting, stock in posted
        for reason in _reasons(setting, stock)
    )
    if not reasons:
        return ()
    dark = any(_rule("dark.on.light")["what"] in reason for reason in reasons)
    text = f"Machines of the post may not read these envelopes. {'. '.join(reasons)}."
    mend = (
        "Such mail is sorted by hand and may cost more: ask at the counter before buying stamps."
        " A plain label, a darker ink or a smaller size avoids it."
    )
    where = Where(docket.path or "docket", None, "docket:post.machine_readable")
    if docket.post.machine_readable:
        raise Fault(Exit.INPUT, "post-unfit", text, mend, where)
    code = "light-on-dark" if dark else "not-machine-readable"
    return (Finding(Severity.NOTE, code, where, text, mend),)


def _reasons(setting: Setting, stock: Stock) -> Iterator[str]:
    """The rules that a posted set departs from, in words."""
    layout = setting.layout
    length, height = layout.width / _INCH, layout.height / _INCH
    asked = {
        "length.min": length,
        "height.min": height,
        "length.max": length,
        "height.max": height,
        "aspect.min": length / height,
        "aspect.max": length / height,
        "type.min": min((line.size for p in setting.pieces for line in p.lines), default=_INCH),
        "type.max": setting.size,
        "skew.max": _lean(setting),
    }
    inks = setting.inks or (setting.ink,)
    if all(darker(ink, stock) for ink in inks):
        worst = [_contrast(ink, stock) for ink in inks]
        asked |= {key: min(each[key] for each in worst) for key in worst[0]}
    else:
        yield _rule("dark.on.light")["what"]
    for key, value in asked.items():
        limit = float(_rule(key)["value"])
        wrong = value < limit - _SLACK if key.endswith(".min") else value > limit + _SLACK
        if wrong:
            yield f"{_rule(key)['what']}; here it is {value:.3g} {_rule(key)['unit']}".rstrip()


_SLACK = 0.005


def _lean(setting: Setting) -> float:
    """Degrees by which words lean at the most: a turned zone's, or those at the ends of an arc."""
    zone, room = setting.zone, setting.room
    if zone.turn:
        return float(zone.turn)
    if zone.align not in ("arch", "bowl"):
        return 0.0
    middle = room.left + room.width / 2
    furthest = max((middle - line.x for p in setting.pieces for line in p.lines), default=0.0)
    return degrees(furthest / (zone.radius or room.width))


def darker(ink: Ink, stock: Stock) -> bool:
    """True when the ink is darker than the paper."""
    return _luminance(ink.screen) < _luminance(stock.screen)


def _contrast(ink: Ink, stock: Stock) -> dict[str, float]:
    """The least difference of reflectance and the least print contrast, red and green, per cent."""
    pairs = [
        (_reflectance(paper) * 100, _reflectance(print_) * 100)
        for paper, print_ in zip(stock.screen[:2], ink.screen[:2], strict=True)
    ]
    return {
        "reflectance.min": min(paper - print_ for paper, print_ in pairs),
        "contrast.min": min(
            100 * (paper - print_) / paper if paper else 0.0 for paper, print_ in pairs
        ),
    }


def _luminance(screen: tuple[float, float, float]) -> float:
    """Relative luminance of an sRGB colour (IEC 61966-2-1)."""
    red, green, blue = (_reflectance(part) for part in screen)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _reflectance(part: float) -> float:
    """An sRGB channel, 0 to 1, as a share of light (IEC 61966-2-1)."""
    if part <= 0.04045:  # noqa: PLR2004 - where the standard's curve begins
        return part / 12.92
    return float(((part + 0.055) / 1.055) ** 2.4)


@cache
def _rules() -> dict[str, dict[str, str]]:
    return {row["key"]: row for row in table("post_rules")}


def _rule(key: str) -> dict[str, str]:
    return _rules()[key]
