"""What the job sheet says of this job's papers on its device."""

from addressing.estimating import grams_per_m2
from addressing.feeding import check_stock
from addressing.job.reading import Reading
from addressing.records.shelf import Device

VARNISH = (
    "Varnish lies over {over}: never send the {kind} pieces through a fuser afterwards (a laser"
    " printer or copier): it may melt. Let it cure before stacking; it won't take a pen or a stamp"
    " cancel well."
)
"""Common practice, no source."""
_OVER = {"all": "every line", "names": "the names", "address": "the address"}


def varnish_notes(reading: Reading) -> tuple[str, ...]:
    """A caution for each kind of piece that is varnished."""
    return tuple(
        VARNISH.format(over=_OVER[varnish.over], kind=kind.kind)
        for kind in reading.kinds
        if (varnish := kind.setting.varnish) is not None
    )


def device_notes(reading: Reading) -> tuple[str, ...]:
    """Papers that must be tried first, or whose weight the device's record doesn't allow."""
    press = reading.press
    if not isinstance(press, Device):
        return ()
    stocks = dict.fromkeys(kind.stock for kind in reading.kinds)
    said = [note for stock in stocks if (note := check_stock(press, stock)) is not None]
    return (*said, *_weight_note(press, reading.docket.post.envelope_paper))


def _weight_note(device: Device, paper: str | None) -> tuple[str, ...]:
    """A caution where the docket's paper is heavier or lighter than the device's record."""
    if paper is None:
        return ()
    try:
        weight = grams_per_m2(paper)
    except ValueError:
        return ()
    limits = device.stock
    if limits.heaviest is not None and weight > limits.heaviest:
        return (f"{paper} is {weight:.0f} g/m², above {limits.heaviest:g}: see the manual first.",)
    if limits.lightest is not None and weight < limits.lightest:
        return (f"{paper} is {weight:.0f} g/m², below {limits.lightest:g}: it may wrinkle.",)
    return ()
