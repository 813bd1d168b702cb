"""The style of each kind of piece, from the shelf; every form tried on its example first."""

from collections.abc import Mapping

from addressing.faults import Exit, Fault
from addressing.materials.shelf import Shelf
from addressing.records.docket import Docket
from addressing.records.findings import Finding
from addressing.records.guests import GuestList
from addressing.records.styles import Style
from addressing.where import Where
from addressing.wording import ask_capitals, ask_first_names, failing


def styles_for(docket: Docket, shelf: Shelf) -> dict[str, Style]:
    """The style of every kind of piece that the docket may make.

    Raises:
        Fault: exit 3; a style is unknown or wrong, or an example doesn't come out as it says.
    """
    kinds = dict.fromkeys((*docket.make, "outer", "inner"))
    return {kind: _proved(kind, docket, shelf) for kind in kinds}


def asks_titles(styles: Mapping[str, Style], docket: Docket) -> bool:
    """True when a piece of the job bears titles, so that a missing one is worth a question."""
    return any(styles[kind].titles for kind in docket.make if kind in ("outer", "inner"))


def asks_places(docket: Docket) -> bool:
    """False where nothing is made that goes to guests by post: cards for tables need no address."""
    return not {"outer", "inner", "reply-number"}.isdisjoint(docket.make)


def ask_names(
    guest_list: GuestList, styles: Mapping[str, Style], docket: Docket
) -> tuple[Finding, ...]:
    """What wording asks of names: capitals, and first names where a style goes by them alone."""
    relaxed = any(not styles[kind].titles for kind in docket.make if kind in ("outer", "inner"))
    return (*ask_capitals(guest_list), *(ask_first_names(guest_list) if relaxed else ()))


def _proved(kind: str, docket: Docket, shelf: Shelf) -> Style:
    key = "inner" if kind == "inner" and docket.wording.inner else "style"
    key = "outer" if kind == "outer" and docket.wording.outer else key
    where = Where(docket.path or "docket", None, f"docket:wording.{key}")
    style = shelf.style(docket.wording.style_of(kind), where)
    wrong = failing(style)
    if wrong:
        form, text = wrong[0]
        raise Fault(
            Exit.INPUT,
            "style-wrong",
            f'The style {style.key} writes "{text}" where its example says "{form.gives}".',
            f'Mend the form that writes "{form.write}", or its example.',
            Where(f"{style.key}.toml", None, f"form[{style.forms.index(form) + 1}]"),
        )
    return style
