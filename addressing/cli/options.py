"""The options that several commands share."""

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass
from functools import wraps
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from addressing.job.reading import Reading
    from addressing.materials.shelf import Shelf
    from addressing.records.guests import Versions

Command = Callable[..., Any]

NO_DOCKET = "none"
"""What --docket says where a job that has a docket is to go without."""


def list_argument(command: Command) -> Command:
    """LIST: the client's file. Whether it can be read is said by the room that reads it."""
    return click.argument("list_path", metavar="LIST", type=click.Path(path_type=Path))(command)


def docket_option(command: Command) -> Command:
    """--docket D."""
    return click.option(
        "--docket",
        "docket_path",
        metavar="DOCKET",
        type=click.Path(path_type=Path),
        help="The job's choices, a TOML file (addressing docket writes one to start from). Left "
        "out: the one by which the job was last read; none: go without.",
    )(command)


def date_option(command: Command) -> Command:
    """--date."""
    return click.option(
        "--date",
        metavar="YYYY-MM-DD",
        callback=_day,
        help="The date printed on proof and job sheet.",
    )(command)


def _day(_context: click.Context, _option: click.Parameter, value: str | None) -> str | None:
    """A day of the calendar in the order of ISO 8601; anything else is a wrong option."""
    try:
        right = value is None or dt.date.fromisoformat(value).isoformat() == value
    except ValueError:
        right = False
    if not right:
        raise click.BadParameter("write it as year, month, day: 2026-05-30.")
    return value


def json_option(command: Command) -> Command:
    """--json."""
    return click.option(
        "--json", "as_json", is_flag=True, help="Answer with one JSON object, for programs."
    )(command)


def earlier_option(command: Command) -> Command:
    """--earlier."""
    return click.option(
        "--earlier",
        is_flag=True,
        help="Go back to an earlier version of the list: without it nothing is made of one.",
    )(command)


def to_option(command: Command) -> Command:
    """--to DIR."""
    return click.option(
        "--to",
        "folder",
        metavar="DIR",
        type=click.Path(path_type=Path),
        help="The job's folder. Default: the list's name and -job, in this folder.",
    )(command)


def folder_for(list_path: Path, folder: Path | None) -> Path:
    """The job's folder: as asked, else beside where the command runs.

    Raises:
        Fault: no place can have such a name: it is too long, for one (exit 4).
    """
    from addressing.files import write_fault

    place = folder or Path(f"{list_path.stem}-job")
    try:
        place.exists()
    except OSError as error:
        raise write_fault(place, error) from error
    return place


def docket_for(docket: Path | None, place: Path, *, looks: bool = False) -> Path | None:
    """The docket as asked, None for none; else the one by which the job's folder was last read.

    It is said when that is taken. Where it isn't there any more, a command that only `looks` goes
    on without, and says so beside its answer.

    Raises:
        Fault: the job in `place` has a docket that isn't there, and nothing is said of it (exit 2);
            or its manifest is damaged, so that nobody knows whether it has one (exit 3).
    """
    from addressing.job.hinting import quoted
    from addressing.job.manifest import docket_gone, docket_kept, docket_lost

    if docket is not None:
        return None if str(docket) == NO_DOCKET else docket
    kept = docket_kept(place)
    if kept is None:
        lost = docket_lost(place)
        if lost is not None and not looks:
            raise lost
        if lost is not None:
            click.echo(f"Read without a docket: {lost.text} {lost.mend}", err=True)
        return None
    for path in (Path(kept), place.parent / kept):
        if path.is_file():
            click.echo(f"Read by this job's docket, {path}.", err=True)
            return path
    if not looks:
        raise docket_gone(place, kept)
    text = f"Read without a docket; that of the job in {place} isn't there: --docket {quoted(kept)}"
    click.echo(text, err=True)
    return None


def docket_known(docket: Path | None, place: Path) -> Path | None:
    """The docket for a next command: as asked, else the one that the job's folder remembers."""
    from addressing.job.manifest import docket_kept

    kept = docket_kept(place)
    return docket or (Path(kept) if kept else None)


@dataclass(frozen=True, slots=True)
class Job:
    """The job that a command is about: its list, docket and folder."""

    list_path: Path
    docket: Path | None
    place: Path
    """Its folder."""
    asked: Path | None
    """What was said of the docket, for a hint that says it again."""
    folder: Path | None
    """What was said of the folder, likewise."""
    earlier: bool | None = None
    """Whether an earlier version of the list is meant; None where that does no harm."""

    def read(self, date: str | None = None) -> "Reading":
        """The list read, worded and set; `date` as `date_option` gives it.

        Raises:
            Fault: the list or the docket can't be read; the list is an earlier version (exit 2).
        """
        from addressing.job.reading import read_job

        reading = read_job(self.list_path, self.docket, date, self.place)
        self.refuse_earlier(reading.versions)
        return reading

    def refuse_earlier(self, versions: "Versions") -> None:
        """Nothing is made of an earlier version of the list unless that is said.

        Raises:
            Fault: it is one (exit 2).
        """
        from addressing.job.remembering import refuse_earlier

        if self.earlier is not None:
            refuse_earlier(versions, meant=self.earlier)

    def shelf(self) -> "Shelf":
        """What the user keeps beside the docket, else beside the list."""
        from addressing.materials.shelf import open_shelf

        return open_shelf((self.docket or self.list_path).parent)


def same_docket_option(command: Command) -> Command:
    """--docket D, for a command that reads none: it may only be the job's own."""

    @wraps(command)
    def of_that_job(
        *, list_path: Path, docket_path: Path | None, folder: Path | None, **rest: object
    ) -> object:
        from addressing.job.manifest import refuse_other_docket

        if docket_path is not None and str(docket_path) != NO_DOCKET:
            refuse_other_docket(folder_for(list_path, folder), docket_path)
        return command(list_path=list_path, folder=folder, **rest)

    return click.option(
        "--docket",
        "docket_path",
        metavar="DOCKET",
        type=click.Path(path_type=Path),
        help="Not needed: the plates say what they are. Another job's is refused.",
    )(of_that_job)


def job_options(*, looks: bool = False) -> Callable[[Command], Command]:
    """LIST, --docket and --to: one `Job`, the command's first argument.

    A command that only `looks` goes on without a docket that is gone (`docket_for`), and reads any
    version of the list.
    """

    def with_job(command: Command) -> Command:
        @wraps(command)
        def of_job(
            *,
            list_path: Path,
            docket_path: Path | None,
            folder: Path | None,
            earlier: bool | None = None,
            **rest: object,
        ) -> object:
            place = folder_for(list_path, folder)
            docket = docket_for(docket_path, place, looks=looks)
            return command(Job(list_path, docket, place, docket_path, folder, earlier), **rest)

        options = list_argument(docket_option(to_option(of_job)))
        return options if looks else earlier_option(options)

    return with_job


@dataclass(frozen=True, slots=True)
class Through:
    """Which layout goes through which device, and how; None is as the docket has it."""

    layout: str
    docket: Path | None
    device: str | None
    way: str | None
    tray: str | None

    @property
    def folder(self) -> Path:
        """Where what belongs to the docket lies."""
        return self.docket.parent if self.docket is not None else Path()


def device_options(command: Command) -> Command:
    """LAYOUT, and which device, way and tray it goes through: one `Through`, the first argument."""
    from addressing.records.lays import WAYS

    @wraps(command)
    def through(
        *,
        layout: str,
        docket_path: Path | None,
        device: str | None,
        way: str | None,
        tray: str | None,
        **rest: object,
    ) -> object:
        return command(Through(layout, docket_path, device, way, tray), **rest)

    options = (
        click.argument("layout", metavar="LAYOUT"),
        docket_option,
        click.option("--device", metavar="NAME", help="The device; default: the docket's."),
        click.option("--way", type=click.Choice(WAYS), help="How the envelope is laid."),
        click.option("--tray", metavar="NAME", help="Your name for the tray. Default: main."),
    )
    wrapped: Command = through
    for option in reversed(options):
        wrapped = option(wrapped)
    return wrapped
