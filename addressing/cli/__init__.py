"""The command line: arguments in, job called, answer printed. Faults become words here."""

import atexit
import gc
import io
import json
import sys
from typing import NoReturn

import click

from addressing.cli.commands import COMMANDS
from addressing.cli.speaking import say_fault
from addressing.faults import Exit, Fault
from addressing.files import place_fault
from addressing.version import VERSION


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 88})
@click.version_option(VERSION, prog_name="addressing")
def addressing() -> None:
    """From a client's guest list to addressed envelopes, proved before they are printed.

    Start with `addressing check LIST`, then `addressing plates LIST`.
    """


for command in COMMANDS:
    addressing.add_command(command)


def main(arguments: list[str] | None = None) -> NoReturn:
    """Run the command and leave with its exit code (faults.Exit)."""
    arguments = sys.argv[1:] if arguments is None else arguments
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")  # a terminal may lack a guest's letter
    atexit.register(gc.freeze)  # or Python looks through all of a large list once more as it ends
    sys.exit(_run(arguments))


def _run(arguments: list[str]) -> int:
    try:
        code = addressing.main(args=arguments, prog_name="addressing", standalone_mode=False)
    except click.exceptions.Exit as left:
        return left.exit_code
    except Fault as fault:
        say_fault(fault, as_json="--json" in arguments)
        return int(fault.exit)
    except (Exception, KeyboardInterrupt) as error:  # noqa: BLE001 - the edge of the program
        return int(_told(error, as_json="--json" in arguments))
    return int(code) if isinstance(code, int) else int(Exit.DONE)


def _told(error: BaseException, *, as_json: bool) -> Exit:
    """Say what ended the command, and the exit code for it."""
    if isinstance(error, click.Abort | KeyboardInterrupt):
        click.echo("Stopped. Nothing was left half-written.", err=True)
        return Exit.INTERRUPTED
    if isinstance(error, click.ClickException):
        error.show()
        return Exit.OPTIONS
    if isinstance(error, BrokenPipeError):
        return Exit.DONE
    if isinstance(error, OSError) and error.errno is not None:
        say_fault(place_fault(error), as_json=as_json)
        return Exit.WRITE
    _say_bug(error, as_json=as_json)
    return Exit.INTERNAL


def _say_bug(error: BaseException, *, as_json: bool) -> None:
    """Where it broke, without the message, which may hold a guest's name."""
    trace = error.__traceback__
    places = []
    while trace is not None:
        places.append(f"{trace.tb_frame.f_code.co_filename.rsplit('/', 1)[-1]}:{trace.tb_lineno}")
        trace = trace.tb_next
    fact = json.dumps({"error": type(error).__name__, "at": places[-4:]})
    text = "This is a fault of the program, not of your list. Nothing was changed."
    fault = Fault(Exit.INTERNAL, "program-fault", text, f"Please report: {fact}")
    say_fault(fault, as_json=as_json)
