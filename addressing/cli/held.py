"""Who is held back, told by name, and how they come free."""

from typing import TYPE_CHECKING

from addressing.cli.speaking import heading, say
from addressing.job.hinting import command_line, quoted
from addressing.questions.said import OF_WORDS
from addressing.records.findings import Severity
from addressing.tables import lookup

if TYPE_CHECKING:
    from addressing.cli.options import Job
    from addressing.job.reading import Reading


def say_held(job: "Job", reading: "Reading") -> None:
    """Each household that waits, what for, and the commands that free it; nothing without any."""
    from addressing.cli.speaking import counted

    if reading.hosts_wait:
        say("\nThe hosts' own address is in doubt: return and reply wait until it is mended.")
    if not reading.held:
        return
    heading(f"Held back, on no plate: {counted(len(reading.held), 'household')}")
    for home in reading.guest_list.households:
        if home.key in reading.held:
            whys = [found for found in reading.findings_of(home.key) if found.holds]
            told = " ".join(dict.fromkeys(f"{found.text} {found.mend}".strip() for found in whys))
            say(f"  {home.name} ({whys[0].where if whys else home.rows[0]}): {told}")
    say_freeing(job, reading)


def say_freeing(job: "Job", reading: "Reading") -> None:
    """The commands that free the households that wait."""
    homes = {home.key: home for home in reading.guest_list.households}
    waits = [each for each in reading.findings if each.holds and each.household in homes]
    if not waits:
        return
    whose = lookup("findings", "code", "for")
    asked = [each for each in waits if whose.get(each.code) == "client"]
    first = (asked or waits)[0]
    rows = homes[first.household or ""].rows
    files = {row.file for row in rows}
    # What holds may stand in an answer; --set takes a place of the list.
    place = first.where if first.where.file in files else rows[0]
    options = {"docket": job.asked, "folder": job.folder}
    ask = command_line("questions", job.list_path, **options)
    own = command_line("answer", job.list_path, **options)
    heading("To free who is held back")
    if asked:
        say(f"  Ask the client: {ask}")
    say(
        f"  {'Or say' if asked else 'Say'} it yourself: {own} --set {quoted(str(place))} WHAT WORDS"
    )
    say("  (`addressing answer --help` lists what WHAT may be.)")
    may_stand = OF_WORDS | {"correction-stale", "remark-gone"}
    stands = next(
        (e for e in waits if e.severity is Severity.ASK and (e in asked or e.code in may_stand)),
        None,
    )
    if stands is not None:
        at = quoted(f"{stands.where}:{stands.code}")
        say(f"  Where it stands as it is: {own} --settled {at}")
