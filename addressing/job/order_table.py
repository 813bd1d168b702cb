"""Everything that is ordered, as a table: pieces with names and without, blanks, what is open."""

import csv
import io
from collections.abc import Iterator
from pathlib import Path

from addressing.faults import Exit, Fault
from addressing.files import Together, make_folder
from addressing.job.counting import blanks_by_kind, count_job, count_suite, spans
from addressing.job.reading import Reading
from addressing.questions.tidy import Tidy
from addressing.questions.tidyfile import harmless, workbook_of
from addressing.where import Where

COUNTS = ("needed", "held", "overs", "pack", "packs", "to_order")
BLANKS = ("addressed", "flap_printed", "plain")
OPEN = ("low", "high", "more_packs")
ENDINGS = (".tsv", ".xlsx")


def order_table(reading: Reading) -> Tidy:
    """Every kind and piece of the suite with its counts.

    Of envelopes also what they become; of all between how many the need may end (`low` to `high`,
    with the packs more that the latter asks for).
    """
    return Tidy("Counts", ("kind", *COUNTS, *BLANKS, *OPEN), tuple(_rows(reading)))


def _rows(reading: Reading) -> Iterator[tuple[str, ...]]:
    counts, suite = count_job(reading), count_suite(reading)
    blanks, open_ends = blanks_by_kind(reading, counts), spans(reading, (*counts, *suite))
    for count in (*counts, *suite):
        whole = [str(getattr(count, column)) for column in COUNTS]
        become = _cells(blanks.get(count.kind), BLANKS)
        yield (count.kind, *whole, *become, *_cells(open_ends.get(count.kind), OPEN))


def _cells(record: object, columns: tuple[str, ...]) -> Iterator[str]:
    for column in columns:
        yield "" if record is None else str(getattr(record, column))


def tsv_of(table: Tidy) -> str:
    """A table as tab-separated text; no field can become a formula."""
    stream = io.StringIO()
    writer = csv.writer(stream, delimiter="\t", lineterminator="\n")
    writer.writerow(table.headings)
    writer.writerows([harmless(field) for field in row] for row in table.rows)
    return stream.getvalue()


def write_order_table(reading: Reading, path: Path) -> None:
    """Write the table into a file that ends with .tsv or .xlsx; it names no guest.

    Raises:
        Fault: another ending (exit 2); it can't be written (exit 4).
    """
    ending = path.suffix.lower()
    if ending not in ENDINGS:
        raise Fault(
            Exit.OPTIONS,
            "ending-unknown",
            f"{path.name} is no name for a table.",
            "Let the name end with .tsv or .xlsx.",
            Where(str(path)),
        )
    table = order_table(reading)
    content = workbook_of((table,)) if ending == ".xlsx" else tsv_of(table).encode()
    make_folder(path.parent)
    with Together(reading.sources) as together:
        together.working(path).write_bytes(content)
