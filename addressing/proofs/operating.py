"""How a set is run on a home device, in the trade's words: what to set, load and choose."""

from collections.abc import Iterator, Sequence

from addressing.proofs.words import kind_name, many, size_words, times
from addressing.records.lays import Lay
from addressing.records.pages import Setting
from addressing.records.pieces import CARDS
from addressing.records.proofs import PlateRun
from addressing.records.shelf import Device
from addressing.units import pt_to_mm

MANUAL = "Where the device's own manual says otherwise, the manual is right."
_EDGES = {
    "left": "the flap on the left",
    "right": "the flap on the right",
    "lead": "the flap first",
    "trail": "the flap last",
}
_SIDES = {
    "left": "against the left guide",
    "centre": "in the middle, both guides close",
    "right": "against the right guide",
}


CARDS_ALONE = (
    "The steps speak of envelopes: for cards leave the envelope lever, and choose the paper's own"
    " kind in the driver."
)


def loading(run: PlateRun, device: Device) -> tuple[str, ...]:
    """How envelopes go in, in the order in which an operator needs it; nothing for sheets alone."""
    if run.sheets and not run.lays:
        return ()
    feed, piece = device.feed, _piece(run)
    load = run.load or device.load
    how = f"{feed.edge} edge first, face {feed.face} (the face is the side that is printed)"
    flap = f"{_EDGES[feed.flap]}, " if piece == "envelope" else ""
    return (
        f"Feed at most {many(load, piece)} at once, {how}, {flap}{_SIDES[feed.side]}.",
        *_backs(run.settings),
        *_coming_out(device, piece),
        *((f"Wait {many(feed.pause, 'minute')} between batches.",) if feed.pause else ()),
    )


def _backs(settings: Sequence[Setting]) -> Iterator[str]:
    if any(setting.kind == "return" and setting.zone.side == "flap" for setting in settings):
        yield "For the return the flap's side is the face: the flap closed, never with wet gum."


def no_envelopes(run: PlateRun) -> bool:
    """True when cards alone are printed."""
    return bool(run.settings) and all(setting.kind in CARDS for setting in run.settings)


def _piece(run: PlateRun) -> str:
    """What goes in one by one."""
    alone = [kind for kind, _ in run.lays]
    return "card" if alone and all(kind in CARDS for kind in alone) else "envelope"


def _coming_out(device: Device, piece: str) -> Iterator[str]:
    if device.feed.exit == "face-up":
        yield (
            f"They come out face up, so each file goes from its last {piece} to its first: the"
            " pile then lies in order, print 1 on top."
        )
    else:
        yield "They come out face down: turned over, the pile lies in order, print 1 on top."


def pages_of(run: PlateRun, country: str) -> tuple[str, ...]:
    """For each kind which page to choose in the driver, and whether its place was measured."""
    settings = {setting.kind: setting for setting in run.settings}
    return tuple(
        f"{kind_name(kind)}, {settings[kind].layout.title}: {_page(lay, country, kind)}"
        f" {_true(lay)}"
        for kind, lay in run.lays
        if kind in settings
    )


def _page(lay: Lay, country: str, kind: str) -> str:
    size, piece = size_words(*lay.page, country), "card" if kind in CARDS else "envelope"
    match lay.way:
        case "envelope":
            return f"choose the {piece}'s own size, {size}; the driver turns it."
        case "turned":
            return f"choose {size}, the {piece} as it goes in; let the driver turn nothing."
        case "sheet":
            where = "" if lay.side == "centre" else f", at the {lay.side}"
            return f"choose {size} and load the {piece} alone, as that sheet would lie{where}."
        case _:
            far = f"{pt_to_mm(lay.lead):.0f} mm from the edge that goes in first"
            return (
                f"choose {size}; fix each {piece} in the middle of such a sheet, {far},"
                " with paper tape that stands the heat."
            )


def _true(lay: Lay) -> str:
    known = lay.calibration
    if known is None:
        return "Its place isn't measured yet: `addressing test-sheet`, then `calibrate`."
    left = pt_to_mm(known.left_over)
    return f"Corrected by {known.name} ({many(known.marks, 'mark')}, {left:.1f} mm left over)."


def inks_of(run: PlateRun, device: Device) -> tuple[str, ...]:
    """How each ink is asked for, and what the driver must leave alone."""
    inks = dict.fromkeys(ink for setting in run.settings for ink in setting.laid)
    said = [_ink(ink.key, ink.channel, device) for ink in inks]
    passes = [
        f"{kind_name(setting.kind)} takes {setting.passes} passes, {_each(setting)}: let the first"
        " dry, then load the pile so that the number in the last column goes in first."
        for setting in run.settings
        if setting.passes > 1
    ]
    return (*dict.fromkeys(said), *passes)


def _each(setting: Setting) -> str:
    if not setting.hits:
        return "an ink each"
    return ", then ".join(f"{ink.key} {times(setting.hits_of(ink))}" for ink in setting.laid)


def _ink(key: str, channel: str | None, device: Device) -> str:
    setting = f"“{device.black_only}”" if device.black_only else "its black-only setting"
    if channel == "grey":
        alone = "the black" if key.casefold() == "black" else f"the black slot, where {key} stands,"
        return f"{key}: the driver makes RGB of all; choose {setting}: then {alone} prints alone."
    if channel is not None and key.casefold() != channel:
        return (
            f"{key} stands in the {channel} slot: the plate asks for that slot and no other."
            " Send it as a PDF, as it is; colour matching and rich black off."
        )
    if channel is not None:
        return f"{key}: the plate asks for the {channel} alone. Send it as a PDF, as it is."
    return f"{key} has no slot here: the device mixes it from its own inks, and may show dots."


def before(device: Device) -> tuple[str, ...]:
    """Levers, exits and settings, then the record's own steps."""
    return (*(each for each, _ in device.set_before), *device.steps)


def afterwards(device: Device) -> tuple[str, ...]:
    """All that was set is set back, the last first, then the record's own steps."""
    return (*(back for _, back in reversed(device.set_before)), *device.after)


def limits(device: Device) -> tuple[str, ...]:
    """What the device's record says of paper."""
    stock, said = device.stock, []
    if stock.heaviest is not None:
        least = f"{stock.lightest:g} to " if stock.lightest is not None else "at most "
        said.append(f"Paper of {least}{stock.heaviest:g} g/m²; heavier only if the manual says so.")
    if stock.thickest is not None:
        said.append(f"Envelopes up to {stock.thickest:g} mm thick: measure at the seams.")
    if stock.never:
        said.append(f"Never: {', '.join(stock.never)} paper.")
    if stock.test_first:
        said.append(f"Test one first: {', '.join(stock.test_first)} paper.")
    if stock.suits:
        said.append(stock.suits)
    return tuple(said)
