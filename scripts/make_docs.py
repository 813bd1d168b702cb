# ruff: noqa: INP001 - a script, run by its path
"""Write the pages of docs/ that are made from the program itself.

Run it from anywhere: docs/findings.md (every finding, with an example that the program really
gave), docs/commands.md (every command's help) and docs/shelf.md (layouts, faces, inks, papers,
devices, shops), docs/own_files.md (what a user may lay beside the docket, an example each). A test
makes them again and compares.
"""

import sys
import tempfile
import tomllib
from collections.abc import Iterator
from pathlib import Path

from click.testing import CliRunner

from addressing.cli import addressing
from addressing.cli.commands import COMMANDS
from addressing.job.reading import read_job
from addressing.materials.shelf import open_shelf
from addressing.materials.starts import alone
from addressing.records.findings import Finding
from addressing.records.shelf import Layout
from addressing.tables import table
from addressing.units import pt_to_mm

HERE = Path(__file__).resolve().parent
DOCS = HERE.parent / "docs"
HELP_WIDTH = 88
OPENING = """\
What the program may say about a client's list. *holds*: the household waits for the answer; *for*
says whose answer it is, the client's (`addressing questions`) or the designer's. The indented words
are an example, as the program gave them."""
SHELF_OPENING = """\
What a docket may name. A user's own, in folders `layouts/`, `fonts/`, `styles/`, `devices/` and
`shops/` beside the docket, come before these; `addressing layouts --start NAME` (and `styles`,
`devices`, `shops`, `papers`, `inks`) writes one to start from."""
OWN_OPENING = """\
What you may lay beside the docket, or beside the list where there is none. Each example is a whole
file: copy it, and put in your own. A key that is left out is as its remark says, else nothing.

A layout, style of wording, device, shop, paper or ink of your own is written for you, with a remark
on every key, as a copy of one on the shelf; the program reads it as it stands, and you change it:

```text
addressing layouts --start our-a7 --like a7      layouts/our-a7.toml
addressing styles --start house --like formal    styles/house.toml
addressing devices --start studio-toner          devices/studio-toner.toml
addressing shops --start corner-press            shops/corner-press.toml
addressing papers --start moss --like deep-green stocks.toml, a table for each
addressing inks --start Copperplate              inks.toml, a table for each
```

`--beside DIR` writes it beside a docket that lies elsewhere. What is there isn't overwritten."""
OWN_FILES = (
    ("rates.toml", "rates", None, "Your prices: your hour, devices, shops, packs, your fees."),
    ("postage.toml", "postage", None, "Your post's rates."),
    ("stocks.toml", "stocks", None, "Your papers: beside the packaged ones, or in their place."),
    ("shops/farrenby-press.toml", "shops", "farrenby-press", "A shop, named as the file."),
    ("devices/home-toner.toml", "devices", "home-toner", "A device, named as the file."),
)
TABLES = """\
## Tables on cards

A column of the list with a header such as "Table", "Table no." or "Seating" gives each guest their
table: a number, or a name of its own ("Head table"). Where a header says something else, name it
under `[columns]`, as "Sits at" here. An escort card bears its party's table always, a place card
where the docket wants it:

```toml
[pieces]
make = ["place-card"]

[wording]
place_card = "table" # the guest's name, and the table below it; "name" leaves it out

[columns]
"Sits at" = "table"
```

A number gets the word before it (Table 4); where a household's guests sit apart, give each guest a
row. Who has no table in a list that gives them is asked about (`table-missing`)."""
TWO_PLACES = """\
## One job at two places

A docket names one place. Where the outers are printed at home and the reply envelopes at a
shop, write two dockets that differ in `[pieces] make` and in `[device]` or `[shop]`, and give
each a folder of its own:

```text
addressing plates guests.xlsx --docket home.toml --to guests-home
addressing plates guests.xlsx --docket shop.toml --to guests-shop
```

Each folder keeps its own plates and ledger; say to each what was printed and spoiled there.
The client's answers are given once: let the second docket take them from the first job, by

```toml
[job]
answers = "guests-home" # a folder, counted from this docket's own
```

and ask and answer there alone (`addressing questions` and `answer` with `--to guests-home`).
Without that line each folder has answers of its own. A kind that a docket doesn't make is
neither due nor wrong in its ledger, only counted.
What isn't printed ([[suite]]) stands in the docket that makes the outers: postage, stuffing list
and calendar go by it. `postage` weighs what that docket makes; a reply envelope of the other one
goes in as a [[suite]] of its own, by its grams. Put no kind into both: what one place printed of
it is unknown at the other. When the job is over, `addressing clear` takes one folder at a time;
that with the answers goes last."""
SEVERITIES = (
    ("stop", "The household is held back: it is on no plate."),
    ("ask", "The client must say."),
    ("note", "Worth knowing; nothing waits on it."),
)


def examples() -> dict[str, Finding]:
    """One finding of each code, from the demo list and from the small lists beside this script."""
    found: dict[str, Finding] = {}
    demo = HERE.parent / "demo_guests.xlsx"
    for each in read_job(demo, HERE.parent / "demo_docket.toml", None).findings:
        found.setdefault(each.code, each)
    lists = tomllib.loads((HERE / "finding_examples.toml").read_text("utf-8"))
    with tempfile.TemporaryDirectory() as folder:
        for code, content in lists.items():
            path = Path(folder) / "list.csv"
            path.write_text(content["list"], encoding="utf-8")
            docket = Path(folder) / "docket.toml"
            docket.write_text(content.get("docket", ""), encoding="utf-8")
            findings = read_job(path, docket, None).findings
            match = [each for each in findings if each.code == code]
            if not match:
                sys.exit(f"The example for {code} doesn't give it.")
            found[code] = match[0]
    return found


def findings_page() -> str:
    """docs/findings.md."""
    shown = examples()
    parts = [
        "# Findings",
        OPENING,
    ]
    for severity, meaning in SEVERITIES:
        parts.append(f"## {severity}\n\n{meaning}")
        parts += [
            _finding(row, shown.get(row["code"]))
            for row in table("findings")
            if row["severity"] == severity
        ]
    return "\n\n".join(parts) + "\n"


def _finding(row: dict[str, str], example: Finding | None) -> str:
    holds = " · holds" if row["holds"] == "yes" else ""
    asks = f" · for the {row['for']}" if row["for"] else ""
    title = row["title"] if row["title"].endswith("?") else f"{row['title']}."
    text = f"### `{row['code']}`{holds}{asks}\n\n**{title}** {row['why']}"
    if example is not None:
        mend = f" {example.mend}" if row["severity"] != "note" else ""
        text += f"\n\n> {example.where}: {example.text}{mend}"
    return text


def commands_page() -> str:
    """docs/commands.md."""
    parts = ["# Commands", _help()]
    for command in COMMANDS:
        parts += [f"## {command.name}", _help(str(command.name))]
    return "\n\n".join(parts) + "\n"


def _help(*command: str) -> str:
    told = CliRunner().invoke(
        addressing, [*command, "--help"], prog_name="addressing", terminal_width=HELP_WIDTH
    )
    return f"```text\n{told.output.rstrip()}\n```"


def shelf_page() -> str:
    """docs/shelf.md."""
    shelf = open_shelf(None)
    parts = [
        "# The shelf",
        SHELF_OPENING,
        _section("Layouts", ("name", "title", "mm", "pieces"), map(_layout, _layouts())),
        _section(
            "Faces",
            ("name", "family", "licence"),
            ((f.key, f.family, f.licence) for f in map(shelf.face, shelf.faces())),
        ),
        _section(
            "Styles of wording",
            ("name", "title"),
            ((style.key, style.title) for style in map(shelf.style, shelf.styles())),
        ),
        _section(
            "Inks",
            ("name", "on the plate", "screen"),
            ((ink.key, ink.spot, _screen(ink.screen)) for ink in map(shelf.ink, shelf.inks())),
        ),
        _section(
            "Papers",
            ("name", "title", "screen"),
            ((s.key, s.title, _screen(s.screen)) for s in map(shelf.stock, shelf.stocks())),
        ),
        _section(
            "Devices",
            ("name", "title", "inks", "envelopes at once", "what for"),
            (
                (d.key, d.title, ", ".join(d.inks), str(d.load), d.stock.suits)
                for d in map(shelf.device, shelf.devices())
            ),
        ),
        _section(
            "Shops",
            ("name", "title", "inks"),
            (
                (s.key, s.title, ", ".join(f"{key} as “{name}”" for key, name in s.inks))
                for s in map(shelf.shop, shelf.shops())
            ),
        ),
    ]
    return "\n\n".join(parts) + "\n"


def own_files_page() -> str:
    """docs/own_files.md."""
    parts = ["# Files of your own", OWN_OPENING]
    for name, source, key, what in OWN_FILES:
        parts.append(f"## `{name}`\n\n{what}\n\n```toml\n{_example(source, key)}\n```")
    return "\n\n".join((*parts, TABLES, TWO_PLACES)) + "\n"


def _example(source: str, key: str | None) -> str:
    """A packaged file; of one that holds several tables its remarks and one table, as a file."""
    path = HERE.parent / "addressing" / "data" / f"{source}.toml"
    return path.read_text(encoding="utf-8").rstrip() if key is None else alone(path, key)


def _layouts() -> Iterator[Layout]:
    shelf = open_shelf(None)
    return map(shelf.layout, shelf.layouts())


def _layout(layout: Layout) -> tuple[str, ...]:
    size = " × ".join(f"{pt_to_mm(side):.6g}" for side in (layout.width, layout.height))
    return layout.key, layout.title, size, ", ".join(zone.kind for zone in layout.zones)


def _screen(colour: tuple[float, float, float]) -> str:
    return "#" + "".join(f"{round(part * 255):02X}" for part in colour)


def _section(title: str, heads: tuple[str, ...], rows: Iterator[tuple[str, ...]]) -> str:
    lines = [heads, tuple("---" for _ in heads), *((f"`{row[0]}`", *row[1:]) for row in rows)]
    body = "\n".join(f"| {' | '.join(cells)} |" for cells in lines)
    return f"## {title}\n\n{body}"


PAGES = {
    "findings.md": findings_page,
    "commands.md": commands_page,
    "shelf.md": shelf_page,
    "own_files.md": own_files_page,
}


def main() -> int:
    """Write the pages."""
    DOCS.mkdir(exist_ok=True)
    for name, page in PAGES.items():
        (DOCS / name).write_text(page(), encoding="utf-8", newline="\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
