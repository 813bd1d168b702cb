# ruff: noqa: INP001 - a script, run by its path
"""Draws the pictures of docs/looks.md and writes that page, from looks.toml and looks_list.csv.

Run it from the top of the checkout with the project's Python. Each picture is the proof's own
drawing of what goes onto the plate, on the paper's colour, at 72 dots an inch.
"""

import tempfile
import tomllib
from pathlib import Path
from typing import Any

import pypdfium2
from reportlab.pdfgen.canvas import Canvas

from addressing.job.proofs import proof_sets
from addressing.job.reading import Reading, read_job
from addressing.materials.docket_rows import value_text
from addressing.proofs.envelope import Spot, draw_envelope, draw_flap, paint_of
from addressing.proofs.flow import Pen
from addressing.records.pages import Page
from addressing.records.proofs import ProofSet

TOP = Path(__file__).resolve().parent.parent
HOSTS = {
    "name": "Mr. and Mrs. Gideon Wexcombe",
    "street": "48 Larkmoor Lane",
    "city": "Litchfield",
    "region": "CT",
    "postcode": "06759",
}


def docket_of(look: dict[str, Any]) -> str:
    """The docket of one picture, as TOML."""

    def table(name: str, rows: dict[str, Any]) -> str:
        return "\n".join([name, *(f"{key} = {value_text(each)}" for key, each in rows.items())])

    kind = look["piece"]["kind"]
    parts = [table("[hosts]", HOSTS)]
    parts.append(table("[pieces]", {"make": tuple(dict.fromkeys(("outer", kind)))}))
    parts += [table("[fallback]", look["fallback"])] if "fallback" in look else []
    parts.append(table("[[piece]]", look["piece"]))
    parts += [table("[piece.address]", look["address"])] if "address" in look else []
    return "\n\n".join(parts) + "\n"


def chosen(look: dict[str, Any], reading: Reading) -> tuple[ProofSet, Page]:
    """The set of a picture's kind, and the page of the household whose name holds the words."""
    kind = look["piece"]["kind"]
    shown = next(each for each in proof_sets(reading) if each.setting.kind == kind)
    wanted = look.get("of", "")
    names = [piece.name for piece in shown.setting.pieces]
    at = next(number for number, name in enumerate(names) if wanted in name)
    return shown, shown.pages[at]


def draw(look: dict[str, Any], folder: Path) -> None:
    """Write docs/looks/NAME.png."""
    docket = folder / "docket.toml"
    docket.write_text(docket_of(look), encoding="utf-8")
    shown, page = chosen(look, read_job(TOP / "scripts" / "looks_list.csv", docket, None))
    layout = shown.setting.layout
    canvas = Canvas(str(folder / "look.pdf"), pagesize=(layout.width + 12, layout.height + 12))
    pen, spot, paint = Pen(canvas), Spot(6, 6, 1.0), paint_of(shown)
    draw_envelope(pen, spot, shown, page, paint)
    if shown.setting.kind == "return":
        draw_flap(pen, spot, layout, paint)
    canvas.save()
    pdf = pypdfium2.PdfDocument(folder / "look.pdf")
    picture = pdf[0].render(scale=1.4).to_pil().quantize(64)
    picture.save(TOP / "docs" / "looks" / f"{look['name']}.png", optimize=True)
    pdf.close()


def main() -> None:
    """Write docs/looks.md and its pictures."""
    said = tomllib.loads((TOP / "scripts" / "looks.toml").read_text(encoding="utf-8"))
    (TOP / "docs" / "looks").mkdir(exist_ok=True)
    parts = [said["before"]]
    with tempfile.TemporaryDirectory() as folder:
        for look in said["look"]:
            draw(look, Path(folder))
            parts.append(f"**{look['says']}**\n\n![{look['name']}](looks/{look['name']}.png)\n")
    parts.append(said["after"])
    (TOP / "docs" / "looks.md").write_text("\n".join(parts), encoding="utf-8")


if __name__ == "__main__":
    main()
