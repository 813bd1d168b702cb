"""The list tidied and written out: read, answered, checked, never over a file of the client's."""

from dataclasses import dataclass
from pathlib import Path

from addressing.faults import Exit, Fault
from addressing.files import Together, alone_in, make_folder
from addressing.job.reading import Reading
from addressing.job.written import note_written
from addressing.questions.tidy import Tidy, tidy_tables
from addressing.questions.tidyfile import csv_of, workbook_of
from addressing.where import Where

ENDINGS = (".xlsx", ".csv")


@dataclass(frozen=True, slots=True)
class Tidied:
    """What was written, and where."""

    path: Path
    tables: tuple[Tidy, ...]


def write_tidy(reading: Reading, path: Path, folder: Path) -> Tidied:
    """Write a list as it was read into a workbook (.xlsx) or its guests as text (.csv).

    It is noted in the job's `folder`, so that it goes when the job is cleared.

    Raises:
        Fault: the ending is neither (exit 2), or the file can't be written or is the client's
            list or the docket (exit 4).
    """
    if path.suffix.lower() not in ENDINGS:
        raise Fault(
            Exit.OPTIONS,
            "ending-unknown",
            f"{path.name} is neither a workbook nor CSV.",
            "Let the name end with .xlsx or .csv.",
            Where(str(path)),
        )
    tables = tidy_tables(reading.guest_list, reading.findings)
    data = workbook_of(tables) if path.suffix.lower() == ".xlsx" else csv_of(tables[0])
    make_folder(path.parent)
    make_folder(folder)
    with alone_in(folder), Together(reading.sources) as files:
        files.working(path).write_bytes(data)
        note_written(files, folder, (path,))
    return Tidied(path, tables)
