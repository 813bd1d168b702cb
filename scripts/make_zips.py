# ruff: noqa: INP001 - a script, run by its path
"""Write addressing/data/zip_towns.tsv from the package zipcodes: every ZIP, its state, its towns.

    python scripts/make_zips.py

The package keeps its data packed, and unpacks it whole at the first question (one second of every
command, measured); the table is read in a twentieth of that. A test holds the two equal.
"""

from pathlib import Path

import zipcodes

PLACE = Path(__file__).resolve().parents[1] / "addressing" / "data" / "zip_towns.tsv"
REMARKS = """\
# ZIP codes with state and towns, the main one first; then those that the post doesn't accept.
# Source: package zipcodes 3.0.0 (MIT; data in part GeoNames, CC BY 4.0), by scripts/make_zips.py.
"""


def main() -> None:
    """Write the table, in the order of the codes."""
    PLACE.write_text(made(), encoding="utf-8")


def made() -> str:
    """The table as text: remarks, names of columns, and a line for every code."""
    lines = {row["zip_code"]: _line(row) for row in zipcodes.list_all()}
    body = "\n".join(lines[code] for code in sorted(lines))
    return f"{REMARKS}zip\tstate\ttowns\trefused\n{body}\n"


def _line(row: dict[str, object]) -> str:
    refused = row["unacceptable_cities"]
    towns = (row["city"], *row["acceptable_cities"])
    return "\t".join((row["zip_code"], row["state"], "|".join(towns), "|".join(refused)))


if __name__ == "__main__":
    main()
