"""`addressing docket`: a commented docket to start from."""

from pathlib import Path

import click


@click.command()
@click.option(
    "--to", "path", metavar="FILE", type=click.Path(path_type=Path), help="Write it there."
)
def docket(path: Path | None) -> None:
    """Write out every choice with its default, to start from."""
    from addressing.cli.speaking import say
    from addressing.faults import Exit, Fault
    from addressing.files import make_folder, write_text
    from addressing.materials.docket_text import docket_text

    text = docket_text()
    if path is None:
        say(text.rstrip("\n"))
        return
    if path.exists():
        raise Fault(
            Exit.WRITE,
            "already-there",
            f"{path} is already there and is left as it is.",
            "Choose another name, or take the old docket away first.",
        )
    make_folder(path.parent)
    write_text(path, text)
    say(f"{path} holds every choice with its default.")
