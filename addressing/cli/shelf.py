"""`addressing layouts`, `styles`, `devices`, `shops`, `papers`, `inks`: what is on the shelf."""

from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

import click

from addressing.cli.start import listing
from addressing.units import pt_to_mm

if TYPE_CHECKING:
    from addressing.materials.shelf import Shelf
    from addressing.records.shelf import Shop


@click.command()
@listing("layout", "a7")
def layouts(*, beside: Path, as_json: bool) -> None:
    """Show the envelopes on the shelf, a user's own first."""
    shelf = _shelf(beside)
    rows = [shelf.layout(key) for key in shelf.layouts()]
    answer(
        "layouts",
        [
            {
                "key": layout.key,
                "title": layout.title,
                "width_mm": round(pt_to_mm(layout.width), 2),
                "height_mm": round(pt_to_mm(layout.height), 2),
                "pieces": ", ".join(zone.kind for zone in layout.zones),
            }
            for layout in rows
        ],
        as_json=as_json,
    )


@click.command()
@listing("style", "formal")
def styles(*, beside: Path, as_json: bool) -> None:
    """Show the styles of wording on the shelf, a user's own first."""
    shelf = _shelf(beside)
    rows = [shelf.style(key) for key in shelf.styles()]
    answer("styles", [{"key": style.key, "title": style.title} for style in rows], as_json=as_json)


@click.command()
@listing("device", "home-toner")
def devices(*, beside: Path, as_json: bool) -> None:
    """Show the home devices on the shelf, a user's own first."""
    shelf = _shelf(beside)
    rows = [shelf.device(key) for key in shelf.devices()]
    answer(
        "devices",
        [
            {
                "key": d.key,
                "title": d.title,
                "inks": ", ".join(d.inks),
                "load": d.load,
                "suits": d.stock.suits,
            }
            for d in rows
        ],
        as_json=as_json,
    )


@click.command()
@listing("shop", "farrenby-press")
def shops(*, beside: Path, as_json: bool) -> None:
    """Show the print shops on the shelf, a user's own first."""
    shelf = _shelf(beside)
    found = [shelf.shop(key) for key in shelf.shops()]
    rows: list[dict[str, object]] = [
        {"key": s.key, "title": s.title, "inks": ", ".join(name for name, _ in s.inks)}
        for s in found
    ]
    if as_json:
        rows = [row | _terms(shop) for row, shop in zip(rows, found, strict=True)]
    answer("shops", rows, as_json=as_json)


def _terms(shop: "Shop") -> dict[str, object]:
    """A shop's rules: what it prints on what, files, orders, dies, envelopes sent in."""
    files = asdict(shop.files)
    files["bleed_mm"] = round(pt_to_mm(files.pop("bleed")), 3)
    intent = files.pop("intent")
    files["condition"] = intent and intent["identifier"]
    return {
        "prints": [asdict(rule) for rule in shop.prints],
        "files": files,
        "order": asdict(shop.order),
        "dies": [asdict(each) for each in shop.dies],
        "sent_in": asdict(shop.sent_in),
    }


@click.command()
@listing("paper", "ivory")
def papers(*, beside: Path, as_json: bool) -> None:
    """Show the papers on the shelf, a user's own among them."""
    shelf = _shelf(beside)
    rows = [shelf.stock(key) for key in shelf.stocks()]
    answer(
        "papers",
        [{"key": each.key, "title": each.title, "surface": each.surface or ""} for each in rows],
        as_json=as_json,
    )


@click.command()
@listing("ink", "Gold")
def inks(*, beside: Path, as_json: bool) -> None:
    """Show the inks on the shelf, a user's own among them."""
    shelf = _shelf(beside)
    rows = [shelf.ink(key) for key in shelf.inks()]
    answer("inks", [{"key": each.key, "on_plates": each.spot} for each in rows], as_json=as_json)


def _shelf(beside: Path) -> "Shelf":
    from addressing.materials.shelf import open_shelf

    return open_shelf(beside)


def answer(name: str, rows: list[dict[str, object]], *, as_json: bool) -> None:
    """Rows as a table for people, or as one object for programs."""
    from addressing.cli.speaking import say, say_json

    if as_json:
        say_json({name: rows})
        return
    keys = list(dict.fromkeys(key for row in rows for key in row))  # what can't be used says less
    widths = {key: _width(key, keys[at + 1 :], rows) for at, key in enumerate(keys)}
    for row in rows:
        say("  ".join(f"{row.get(key, '')!s:<{width}}" for key, width in widths.items()).rstrip())


def _width(key: str, behind: list[str], rows: list[dict[str, object]]) -> int:
    """How wide a column is: a cell that ends its row, such as a fault, widens none."""
    cells = (row.get(key, "") for row in rows if any(row.get(each) for each in behind))
    return max((len(str(cell)) for cell in cells), default=0)
