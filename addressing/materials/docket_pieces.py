"""How pieces are set, written out as a docket: a [[piece]] each, and the faces that step in."""

from collections.abc import Sequence

from addressing.materials.docket_rows import WIDTH, Row, row_text, table_text
from addressing.records.docket import AddressChoice, FallbackChoice, PieceChoice

_METHODS = "toner, digital, letterpress …; left out: as the device or shop prints"


def piece_text(choice: PieceChoice) -> str:
    """One kind of piece, as a [[piece]]."""
    rows: list[Row] = [
        ("kind", choice.kind, "one of those in make: a [[piece]] each", None),
        ("layout", choice.layout, "a name that `addressing layouts` lists", None),
        ("face", choice.face, "a name that `addressing faces` lists", None),
        ("ink", choice.ink, "White, Gold, Black …; a shop has its own", None),
        ("stock", choice.stock, "the paper on proofs: deep-green, ivory, kraft …", None),
        ("size", choice.size, "points; left out: the largest that suits all, or as printed", 20.0),
        ("largest", choice.largest, "points, when the size is found", None),
        ("smallest", choice.smallest, "points; what needs less is held back", None),
        (
            "tighten",
            choice.tighten,
            "closer letters where it helps, 1/1000 em",
            None,
        ),
        ("balance", choice.balance, "false: a long name line stays whole where it fits", None),
        (
            "align",
            choice.align,
            "centre, left, right, block, block-right, stepped, columns, arch, bowl",
            "left",
        ),
        ("method", choice.method, _METHODS, "digital"),
        ("underbase", choice.underbase, "an ink printed first, under the other: White", "White"),
        ("choke_mm", choice.choke, "how far that base is drawn in", None),
        ("hits", dict(choice.hits) or None, "passes of an ink: two of white on dark", {"White": 2}),
        ("varnish", choice.varnish, "a clear coat over names, address or all", "names"),
        ("varnish_ink", choice.varnish_ink, "what a shop has for it", None),
        ("die_since", choice.die_since, "the day a die was made that stands still", "2026-01-15"),
        *_hand_rows(choice),
    ]
    address = f"\n\n{_address(choice)}" if choice.address or choice.kind == "outer" else ""
    return table_text("piece", rows).replace("[piece]", "[[piece]]", 1) + address


def _hand_rows(hand: PieceChoice | AddressChoice) -> list[Row]:
    """How the lines of a hand are lettered."""
    capitals = "as-written, small (small capitals), small-as-written or all"
    return [
        ("features", *_features(hand.features)),
        ("tracking", hand.tracking, "between letters, thousandths of an em: 40", None),
        ("word_space", hand.word_space, "more between words, thousandths of an em", 60),
        ("capitals", hand.capitals, capitals, None),
        *_own_fallbacks(hand.fallback),
    ]


def _own_fallbacks(chosen: Sequence[FallbackChoice]) -> list[Row]:
    """A hand's own faces that step in; nothing where it has none."""
    return [(f"fallback.{each.script}", _stepping_in(each), "", None) for each in chosen]


def _stepping_in(each: FallbackChoice) -> dict[str, object]:
    size = {} if each.size is None else {"size": each.size}
    tracking = {} if each.tracking is None else {"tracking": each.tracking}
    return {"face": each.face, **size, **tracking}


def fallback_text(chosen: Sequence[FallbackChoice]) -> str:
    """The faces that step in for words of a script."""
    remark = "a face for words with letters that the chosen one lacks"
    if not chosen:
        scripts = "by script: Greek, Cyrillic, Hebrew, Arabic, Han …"
        capitals = "words all in capitals: a face, or as-written"
        crowded = "words that their swash runs into the one before: as-written leaves it"
        rows = (
            ("Greek", None, scripts, "noto-serif"),
            ("capitals", None, capitals, "as-written"),
            ("crowded", None, crowded, "as-written"),
        )
        head = f"{'# [fallback]':<{WIDTH}}  # {remark}"
        return "\n".join((head, *(row_text(*row) for row in rows)))
    own: list[Row] = [(each.script, _stepping_in(each), "", None) for each in chosen]
    return table_text("fallback", own, remark)


def _address(choice: PieceChoice) -> str:
    """The second hand of a piece, as a comment where there is none."""
    address = choice.address
    shown = address or AddressChoice(capitals="small", tracking=40)
    text = table_text(
        "piece.address",
        [
            ("face", shown.face, "left out: the names' face", "eb-garamond"),
            ("size", shown.size, "as a part of the names' size", None),
            ("ink", shown.ink, "left out: the names' ink; else a plate of its own", "Gold"),
            *_hand_rows(shown),
        ],
        "all lines but the names, where they are in another hand",
    )
    if address is not None:
        return text
    return "\n".join(f"# {line.removeprefix('# ')}" for line in text.splitlines())


def _features(features: tuple[tuple[str, int], ...]) -> tuple[object, str, object]:
    """Value, remark and example of a row of features; those at 1 are written by their tag."""
    written = tuple(tag if value == 1 else f"{tag}={value}" for tag, value in features)
    remark = "swashes, figures …: `addressing faces --json` lists each face's"
    return written or None, remark, ("swsh", "ss01", "onum=0")
