"""The docket written out: every choice with its default and a remark, to start from.

Reading what is written here gives the same docket again (but for its path and fingerprint).
"""

from collections.abc import Sequence
from dataclasses import fields

from addressing.materials.docket_pieces import fallback_text, piece_text
from addressing.materials.docket_rows import WIDTH, Row, row_text, table_text, value_text
from addressing.materials.sheeting import sheet_rows
from addressing.records.docket import (
    Docket,
    Hosts,
    Overs,
    OwnWords,
    PieceChoice,
    Post,
    PrintChoice,
    Wedding,
    WordingChoices,
    default_pieces,
)
from addressing.records.pieces import CARDS, ENVELOPES
from addressing.records.postage import SuitePiece
from addressing.records.sheets import SheetChoice

HEAD = """\
# The choices for one job. A line that begins with # is a remark or a choice not made;
# take the # away to make it. What is left out is as shown here."""


def docket_text(docket: Docket | None = None) -> str:
    """A docket as commented TOML; without one, the defaults.

    A kind of piece that the docket doesn't choose for gets its default when the text is read.
    """
    docket = docket if docket is not None else Docket()
    parts = [
        HEAD,
        _job(docket),
        _hosts(docket.hosts),
        _wording(docket.wording),
        _make(docket),
        *(piece_text(choice) for choice in _shown(docket)),
        _sheets(docket.sheets),
        _press(docket),
        _run(docket.run),
        _files(docket.type),
        fallback_text(docket.fallback),
        _overs(docket.overs),
        _post(docket.post),
        _wedding(docket.wedding),
        _columns(docket.columns),
        _words(docket.words),
        _suite(docket.suite),
    ]
    return "\n\n".join(parts) + "\n"


def _shown(docket: Docket) -> list[PieceChoice]:
    """The choices of every envelope, and of the cards that are made or differ from the defaults."""
    made = (*ENVELOPES, *docket.make)
    return [each for each in docket.pieces if each.kind in made or each not in default_pieces()]


HOST_ROWS = (
    ("name", "as it is to be printed", "Mr. and Mrs. Gideon Wexcombe"),
    ("street", "number and street, or the box", "48 Larkmoor Lane"),
    ("unit", "apartment or suite", "Apartment 2"),
    ("city", "", "Farrenby"),
    ("region", "state or province, two letters in US and CA", "CT"),
    ("postcode", "in quotes, so that a zero in front stays", "06759"),
    ("country", "two letters (ISO 3166-1)", "US"),
)


def _hosts(hosts: Hosts | None) -> str:
    remark = "for the return and the reply, which need them"
    if hosts is None:
        rows = [row_text(key, None, note, example) for key, note, example in HOST_ROWS]
        return "\n".join((f"{'# [hosts]':<{WIDTH}}  # {remark}", *rows))
    values = {each.name: getattr(hosts, each.name) for each in fields(hosts)}
    return table_text(
        "hosts", [(key, values[key], note, example) for key, note, example in HOST_ROWS], remark
    )


def _wording(wording: WordingChoices) -> str:
    couple = "traditional (Mr. and Mrs. Tobias Penhew) or both-names"
    return table_text(
        "wording",
        [
            ("style", wording.style, "a name that `addressing styles` lists", None),
            ("outer", wording.outer, "another style for the outer envelopes", "postal"),
            ("inner", wording.inner, "another style for the inner envelopes", "relaxed"),
            ("cards", wording.cards, "another style for place and escort cards", "relaxed"),
            ("couple", wording.couple, couple, None),
            (
                "order",
                wording.order,
                "rank (who bears one goes first), woman (else she) or list",
                None,
            ),
            ("apart", wording.apart, "two surnames from two cells: two-lines or one-line", None),
            ("junior", wording.junior, "comma (, Jr.), plain ( Jr.) or spelled (, junior)", None),
            (
                "honorable",
                wording.honorable,
                "as-listed, office (Judge: The Honorable) or local (Sheriff, too)",
                None,
            ),
            ("children", wording.children, "names or titles (Miss Linnet Penhew)", None),
            ("master_until", wording.master_until, "a boy's age, with titles", None),
            ("guest", wording.guest, "capital (and Guest) or small (and guest)", None),
            (
                "doctor",
                wording.doctor,
                "spelled (Doctor), short (Dr.) or physicians (Dr. for a Ph.D.)",
                None,
            ),
            (
                "military",
                wording.military,
                "rank-first, or name-first (a junior's rank and service below the name)",
                None,
            ),
            (
                "same_title",
                wording.same_title,
                "each (Mr. X and Mr. Y) or together (Messrs.)",
                None,
            ),
            ("untitled", wording.untitled, "inside, without a title: given name, or full", None),
            ("numbers", wording.numbers, "figures, or words (One Elm Row, Seventh Street)", None),
            ("place_card", wording.place_card, "name, or table (the list's, below the name)", None),
            ("flap", wording.flap, "the return: address alone, or names (the hosts' above)", None),
        ],
    )


def _job(docket: Docket) -> str:
    posting = "chooses between two addresses of a guest"
    answers = "the folder of another job of this list that keeps the client's answers"
    return table_text(
        "job",
        [
            ("date", docket.date, "the only date that is ever printed", "2026-05-30"),
            ("posting", docket.posting, posting, "2026-06-06"),
            ("answers", docket.answers, answers, "guests-home"),
        ],
    )


def _make(docket: Docket) -> str:
    remark = f"any of {', '.join((*ENVELOPES, *CARDS))}"
    waves = "rounds of the list that are printed now; left out: all"
    return table_text(
        "pieces",
        [("make", docket.make, remark, None), ("wave", docket.waves or None, waves, ("A",))],
    )


def _press(docket: Docket) -> str:
    remark = "where it is printed: a device, or a shop, or neither"
    feed = docket.feed
    how: list[Row] = [
        ("way", feed.way, "envelope, turned, sheet or carrier; left out: as it suits", "sheet"),
        ("sheet", feed.sheet, "the page of the driver, when laid on one", "letter"),
        ("tray", feed.tray, "your name for the tray; each is calibrated by itself", None),
    ]
    return "\n\n".join(
        (
            _named("device", docket.device, ("home-toner-white", remark), how),
            _named("shop", docket.shop, ("farrenby-press", remark)),
        )
    )


def _run(run: PrintChoice) -> str:
    batch = "envelopes in a pile; left out: the device's load; 0: one file"
    return table_text(
        "print",
        [
            ("order", run.order, "list, key or zip: of outers and inners alike", None),
            ("batch", run.batch, batch, 10),
        ],
    )


def _files(kind: str | None) -> str:
    note = "outlines or live (fonts embedded, a little lighter); left out: as the shop has it"
    return table_text("files", [("type", kind, note, "outlines")])


def _named(kind: str, name: str | None, shown: tuple[str, str], more: Sequence[Row] = ()) -> str:
    """A device or a shop, in comments where there is none; `shown` are its example and remark."""
    example, remark = shown
    listed = f"a name that `addressing {kind}s` lists"
    text = table_text(kind, [("name", name or example, listed, None), *more], remark)
    if name is not None:
        return text
    return "\n".join(f"# {line.removeprefix('# ')}" for line in text.splitlines())


def _overs(overs: Overs) -> str:
    return table_text(
        "overs",
        [
            ("percent", overs.percent, "extras, of what is needed", None),
            ("minimum", overs.minimum, "extras at least", None),
            ("pack", overs.pack, "envelopes are sold in packs of this many", None),
            ("keepsakes", overs.keepsakes, "of each piece, for the couple and for yourself", None),
            ("late_percent", overs.late, "more, of what the list leaves open", None),
            (
                "method",
                dict(overs.methods) or None,
                "another percent by way of printing",
                {"home": 20.0, "shop": 10.0},
            ),
        ],
    )


def _columns(columns: tuple[tuple[str, str], ...]) -> str:
    remark = "what a column of the list means, where its header doesn't tell"
    if not columns:
        return f"{'[columns]':<{WIDTH}}  # {remark}\n" + row_text(
            '"Invitees"',
            None,
            "or household, given, family, street, city, postcode, ignore …",
            "name",
        )
    return table_text(
        "columns", [(value_text(header), what, "", None) for header, what in columns], remark
    )


def _post(post: Post) -> str:
    readable = "true stops the job where machines can't read the envelopes"
    return table_text(
        "post",
        [
            ("stamps", post.stamps, "on each outer: their room stays free", None),
            ("reply_stamps", post.reply_stamps, "on each reply; left out: one", 2),
            ("stamp_mm", post.stamp, "how wide and high one is", None),
            ("machine_readable", post.machine_readable, readable, None),
            ("envelope_paper", post.envelope_paper, "for the weight", "80 lb text"),
        ],
    )


def _wedding(wedding: Wedding) -> str:
    rest = "days when nobody works or posts; US holidays are known"
    return table_text(
        "wedding",
        [
            ("date", wedding.date, "the calendar is counted back from it", "2026-09-19"),
            ("minutes_per_suite", wedding.minutes_per_suite, "to fill, seal and stamp one", None),
            ("rest", wedding.rest or None, rest, ("2026-07-06",)),
        ],
    )


def _words(words: Sequence[OwnWords]) -> str:
    remark = "name lines of your own for one household; `addressing lines` tells its key"
    example = OwnWords(
        "h-abcdefgh", ("Tobias Wexcombe", "and Odile Farrenby"), ("Tobias and Odile",)
    )
    if not words:
        text = _own(example, remark)
        return "\n".join(f"# {line}" for line in text.splitlines())
    return "\n\n".join(_own(each, "") for each in words)


def _own(words: OwnWords, remark: str) -> str:
    rows: list[Row] = [
        ("household", words.household, remark, None),
        ("outer", words.outer, "", None),
        ("inner", words.inner, "", None),
        ("sure", words.sure, "true when they differ from the list on purpose", None),
    ]
    return table_text("words", rows).replace("[words]", "[[words]]", 1)


def _sheets(sheets: Sequence[SheetChoice]) -> str:
    def shown(choice: SheetChoice) -> str:
        return table_text("sheet", sheet_rows(choice)).replace("[sheet]", "[[sheet]]", 1)

    if sheets:
        return "\n\n".join(map(shown, sheets))
    return "\n".join(f"# {line}" for line in shown(SheetChoice("place-card")).splitlines())


def _suite(suite: Sequence[SuitePiece]) -> str:
    example = SuitePiece("invitation", 127.0, 177.8, "120 lb cover")
    shown = [_thing(each) for each in suite or (example,)]
    text = "\n\n".join(shown)
    if suite:
        return text
    return "\n".join(f"# {line}" for line in text.splitlines())


def _thing(piece: SuitePiece) -> str:
    rows: list[Row] = [
        ("name", piece.name, "one thing in the envelope, for weight and postage", None),
        ("width_mm", piece.width, "unfolded", None),
        ("height_mm", piece.height, "", None),
        ("paper", piece.paper, "120 lb cover, 80 lb text, 300 gsm, 16 pt, 2 ply", None),
        ("caliper_pt", piece.caliper, "thousandths of an inch, 0 when unknown", None),
        ("count", piece.count, "", None),
        ("grams", piece.grams, "weighed instead, for a seal or a ribbon", 2.5),
        ("stiff", piece.stiff, "true when it doesn't bend easily", None),
        ("uneven", piece.uneven, "true when it makes a lump", None),
        ("pack", piece.pack, "it is bought in packs of this many", None),
        ("liner", piece.liner, "true: without a size it is cut to the outer", None),
        ("layers", piece.layers, "sheets thick when folded: 2 for a folded card", None),
        ("reply", piece.reply, "true when it comes back in the reply envelope", None),
        ("only", piece.only or None, "for these suites or rounds of the list alone", ("abroad",)),
        ("shop", piece.shop, "the shop that prints it, where not the job's", "farrenby-press"),
    ]
    return table_text("suite", rows).replace("[suite]", "[[suite]]", 1)
