"""`addressing preflight`: plates judged again, as when they were made."""

import re
from math import inf
from pathlib import Path
from typing import TYPE_CHECKING

import click

from addressing.cli.options import json_option
from addressing.faults import Exit

if TYPE_CHECKING:
    from collections.abc import Sequence

    from addressing.job.judgement import Judged, JudgedFile, JudgedRecord, JudgedRun
    from addressing.records.plates import Verdict

_PAGE = re.compile(r"Page ([0-9]+)(?: \((h-[a-z0-9-]+)\))?")


@click.command()
@click.argument(
    "paths", metavar="FILE...", nargs=-1, required=True, type=click.Path(path_type=Path)
)
@click.option(
    "--job",
    metavar="DIR",
    type=click.Path(path_type=Path),
    help="The job whose plates they are, where they lie elsewhere now.",
)
@json_option
def preflight(paths: tuple[Path, ...], job: Path | None, *, as_json: bool) -> int:
    """Judge plates again, against the orders and the manifest of their job.

    FILE may be a job's folder: then all of its plates are judged, their order of print, and whether
    all else in it is as it was made, and so are the reprints in it that aren't noted as printed. It
    may be a package for a shop, or with --job a folder into which plates were copied.
    """
    from addressing.cli.speaking import say_json
    from addressing.job.judging import judge_again

    judged = judge_again(paths, job)
    if as_json:
        told = {
            "plates": list(map(_answer, judged.plates)),
            "orders": list(map(_run_answer, judged.runs)),
            "manifests": list(map(_record_answer, judged.records)),
            "files": list(map(_file_answer, judged.files)),
        }
        say_json(told)
    else:
        for each in judged.plates:
            _say(each)
        for run in judged.runs:
            _say_run(run)
        for record in judged.records:
            _say_record(record)
        _say_files(judged.files)
    return int(Exit.DONE if judged.proved else Exit.PREFLIGHT)


def _answer(judged: "Judged") -> dict[str, object]:
    from addressing.job.answers import points_or_null

    verdict = judged.verdict
    return {
        "path": str(judged.path),
        "folder": str(judged.folder),
        "plate": verdict.plate,
        "proved": verdict.proved,
        "faults": [_fault(text) for text in verdict.faults],
        "told": list(judged.told),
        "counted": dict(verdict.counted),
        "finest_stroke_pt": points_or_null(verdict.stroke),
        "narrowest_gap_pt": points_or_null(verdict.gap),
        "bytes": judged.path.stat().st_size if judged.path.is_file() else None,
    }


def _fault(text: str) -> dict[str, object]:
    """A fault, with the page and the household that it speaks of; null for the whole file."""
    match = _PAGE.match(text)
    return {
        "page": int(match[1]) if match else None,
        "household": match[2] if match else None,
        "text": text,
    }


def _say(judged: "Judged") -> None:
    from addressing.cli.speaking import counted, say

    verdict = judged.verdict
    seen = dict(verdict.counted)
    read = ", ".join(
        counted(seen.get(many, 0), one)
        for one, many in (("page", "pages"), ("line", "lines"), ("letter", "glyphs"))
    )
    if verdict.proved:
        pictures = counted(seen["pages seen as pixels"], "page")
        say(f"{judged.path}: proved. {read} re-read; {pictures} seen as pictures.{_fine(verdict)}")
        return
    click.secho(f"{judged.path}: not to be printed.", fg="red")
    for text in judged.told:
        say(f"  {text}")
    if not any("Make the plates again" in text for text in judged.told):
        say("  Make the plates again: addressing plates.")


_RULES = {"list": "as the list has them", "key": "by the households' keys", "zip": "by ZIP"}


def _run_answer(judged: "JudgedRun") -> dict[str, object]:
    """The order of print of a job; `judged` is false where an older version kept none."""
    run = judged.run
    return {
        "folder": str(judged.folder),
        "judged": run is not None,
        "proved": judged.proved,
        "faults": list(judged.faults),
        "order": run and run.order,
        "batch": run and run.load,
        "reverse": run and run.reverse,
        "first": run and run.first,
        "kinds": {
            kind: {"pieces": pieces, "batches": batches} for kind, pieces, batches in judged.kinds
        },
    }


def _say_run(judged: "JudgedRun") -> None:
    from addressing.cli.speaking import counted, say

    run = judged.run
    if run is None:
        say(f"{judged.folder}: order of print not judged, an older version kept none.")
        return
    if judged.faults:
        click.secho(f"{judged.folder}: not in order, not to be printed.", fg="red")
        for text in judged.faults:
            say(f"  {text}")
        return
    if not judged.kinds:
        return
    told = [f"from number {run.first}"] if run.first > 1 else []
    for kind, pieces, batches in judged.kinds:
        piles = f" in {counted(batches, 'batch', 'batches')}" if batches > 1 else ""
        told.append(f"{pieces} {kind}{piles}")
    told += ["all kinds match"] if len(judged.kinds) > 1 else []
    told += ["last page first, for the exit that turns the stack round"] if run.reverse else []
    say(f"{judged.folder}: order of print proved, {_RULES[run.order]}: {'; '.join(told)}.")


def _record_answer(record: "JudgedRecord") -> dict[str, object]:
    return {
        "folder": str(record.folder),
        "proved": not record.faults,
        "faults": list(record.faults),
        "notes": list(record.notes),
        "seal": record.seal or None,
    }


def _file_answer(file: "JudgedFile") -> dict[str, object]:
    return {
        "path": str(file.path),
        "folder": str(file.folder),
        "kind": file.kind,
        "there": not file.gone,
        "unchanged": not file.gone and not file.faults,
        "faults": list(file.faults),
        "notes": list(file.notes),
    }


def _say_record(record: "JudgedRecord") -> None:
    from addressing.cli.speaking import say

    if record.faults:
        path = record.folder / "manifest.json"
        click.secho(f"{path}: changed since the plates were made.", fg="red")
        for text in record.faults:
            say(f"  {text}")
        say("  The ledger and a reprint would go by it. Make the plates again: addressing plates.")
    elif record.seal:
        say(f"{record.folder}: seal {record.seal}; the proof that was signed must bear the same.")
    for text in record.notes:
        say(f"note  {text}")


def _say_files(files: "Sequence[JudgedFile]") -> None:
    """The other files: what is wrong with each, and which are as they were made."""
    from addressing.cli.speaking import say

    right: dict[Path, list[str]] = {}
    for file in files:
        if file.faults:
            click.secho(
                f"{file.path}: {'missing' if file.gone else 'not as it was made'}.", fg="red"
            )
            for text in file.faults:
                say(f"  {text}")
        elif not file.gone:
            right.setdefault(file.path.parent, []).append(file.path.name)
    for place, names in right.items():
        say(f"{place}: as they were made: {', '.join(names)}.")
    for file in files:
        gone = ("It isn't there any more.",) if file.gone and not file.faults else ()
        for text in (*gone, *file.notes):
            say(f"note  {file.path}: {text}")


def _fine(verdict: "Verdict") -> str:
    """The finest stroke, for whoever chooses how to print it."""
    return f" Finest stroke: {verdict.stroke:.2f} pt." if verdict.stroke < inf else ""
