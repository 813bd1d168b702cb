"""Every command, in the order of the work."""

from addressing.cli.answer import answer
from addressing.cli.calendar import calendar
from addressing.cli.calibrate import calibrate
from addressing.cli.check import check
from addressing.cli.clear import clear
from addressing.cli.compare import compare
from addressing.cli.docket import docket
from addressing.cli.estimate import estimate
from addressing.cli.faces import faces
from addressing.cli.lines import lines
from addressing.cli.package import package
from addressing.cli.plates import plates
from addressing.cli.postage import postage
from addressing.cli.preflight import preflight
from addressing.cli.printed import destroyed, handed_over, ledger, printed, spoiled
from addressing.cli.proof import proof
from addressing.cli.questions import questions
from addressing.cli.quote import quote
from addressing.cli.reprint import reprint
from addressing.cli.shelf import devices, inks, layouts, papers, shops, styles
from addressing.cli.stuffing import stuffing
from addressing.cli.tally import tally
from addressing.cli.tidy import tidy
from addressing.cli.trial_sheets import test_sheet

COMMANDS = (
    plates,
    check,
    questions,
    answer,
    tidy,
    compare,
    lines,
    proof,
    tally,
    stuffing,
    estimate,
    quote,
    postage,
    calendar,
    preflight,
    package,
    test_sheet,
    calibrate,
    printed,
    spoiled,
    destroyed,
    handed_over,
    ledger,
    reprint,
    clear,
    docket,
    faces,
    layouts,
    styles,
    devices,
    shops,
    papers,
    inks,
)
