"""Whether a font lets words be shaped apart, and figures in pairs: what its tables do with them.

Kerning and context may cross a blank, so words shaped alone are not those of the line. But where
no rule that Latin letters can meet reaches beyond the blank, a word is what it is between two
blanks, whatever stands behind them; then a word that recurs needs no second shaping. The rules are
those of all features, wanted or not, of the font cut down to Latin letters (HarfBuzz's subsetter).
House numbers and postcodes hardly recur. Where figures are kerned with their neighbours and nothing
else is done with them, a number is its pairs.

Source: OpenType 1.9, GSUB and GPOS, chapters on lookups and lookup flags.
"""

import io
from collections.abc import Callable, Iterator, Sequence
from typing import Any, Final

import uharfbuzz as hb
from fontTools.ttLib import TTFont

BLANK = 0x20

LETTERS = "À-ÖØ-öø-įı-ňŊ-ž"
"""Latin letters beside ASCII whose capitals and small letters stand among them too."""

APART = f"[!-~’{LETTERS}]+"
"""A word that may be shaped apart where the font allows: only these characters are looked into."""

_CHARACTERS = (*range(0x20, 0x7F), *range(0xC0, 0x180), *range(0x300, 0x370), 0x2019)
"""They, and the marks that a letter may be taken apart into."""

_NOT_OURS = frozenset(("kern", "kerx", "mort", "morx", "Silf"))
"""Tables that shape otherwise than OpenType's; a font that has one is left alone."""

_DROPPED = ("glyf", "loca", "CFF ", "CFF2", "gvar", "HVAR", "VVAR", "MVAR", "STAT", "post", "name")
"""Tables that say nothing about rules."""

_FIGURES = tuple(range(0x30, 0x3A))

_BY_ITSELF = (
    *("abvm", "blwm", "calt", "ccmp", "clig", "curs", "dist", "kern", "liga", "locl", "ltra"),
    *("ltrm", "mark", "mkmk", "rand", "rclt", "rlig", "rvrn"),
)
"""What HarfBuzz applies to words from left to right unasked (hb-ot-shape.cc; fractions need a
slash)."""

_SKIPPED = {1: 2, 2: 4, 3: 8}
"""The flag that makes a lookup skip glyphs of a class (base, ligature, mark)."""


def words_stand_alone(data: bytes, index: int) -> bool:
    """True when Latin words between two blanks are the same whatever stands behind the blanks.

    `data` is a font file, `index` the font's number in it. When in doubt, False.
    """
    font = _cut_down(data, index, _CHARACTERS)
    blank = font.getBestCmap().get(BLANK) if font is not None else None
    if blank is None:
        return False
    definition = font["GDEF"].table.GlyphClassDef if "GDEF" in font else None
    kind = definition.classDefs.get(blank, 0) if definition is not None else 0
    return not any(_reaches_over(lookup, blank, kind) for lookup in _lookups(font))


def figures_stand_in_pairs(data: bytes, index: int, features: Sequence[str]) -> bool:
    """True when a figure among figures and blanks depends on nothing but what stands behind it.

    `features` are the tags that are asked for beside those that HarfBuzz applies by itself.
    """
    font = _cut_down(data, index, (BLANK, *_FIGURES), (*_BY_ITSELF, *features))
    if font is None or not set(_FIGURES) <= font.getBestCmap().keys():
        return False
    return all(
        type(rules).__name__ == "SingleSubst"
        or (type(rules).__name__ == "PairPos" and not rules.ValueFormat2)
        for lookup in _lookups(font)
        for rules in _subtables(lookup)
    )


def _cut_down(
    data: bytes, index: int, characters: Sequence[int], features: Sequence[str] = ()
) -> Any:  # noqa: ANN401 - the library has no types
    """The font with the glyphs and rules that the characters can meet, and no drawings.

    Of all features where none are named. None for a font that is not OpenType's alone.
    """
    opened = hb.Face(hb.Blob(data), index)
    if _NOT_OURS.intersection(opened.table_tags):
        return None
    wanted = hb.SubsetInput()
    wanted.unicode_set.clear()
    wanted.unicode_set.update(characters)
    kept = wanted.sets(hb.SubsetInputSets.LAYOUT_FEATURE_TAG)
    kept.clear()
    kept.update(map(_number, features))
    if not features:
        kept.invert()
    wanted.sets(hb.SubsetInputSets.DROP_TABLE_TAG).update(map(_number, _DROPPED))
    return TTFont(io.BytesIO(bytes(hb.subset(opened, wanted).blob.data)), lazy=True)


def _number(tag: str) -> int:
    return int.from_bytes(tag.encode("latin-1"), "big")


def _lookups(font: Any) -> Iterator[Any]:  # noqa: ANN401
    """Every lookup."""
    for tag in ("GSUB", "GPOS"):
        listed = font[tag].table.LookupList if tag in font else None
        yield from listed.Lookup if listed is not None else ()


def _subtables(lookup: Any) -> list[Any]:  # noqa: ANN401
    return [getattr(one, "ExtSubTable", one) for one in lookup.SubTable]


def _reaches_over(lookup: Any, blank: str, kind: int) -> bool:  # noqa: ANN401
    """Whether a lookup may see both sides of a blank, skip it, or put something in its place."""
    if kind and lookup.LookupFlag & _SKIPPED.get(kind, 0):
        return True
    return any(_is_over(rules, blank) for rules in _subtables(lookup))


def _is_over(rules: Any, blank: str) -> bool:  # noqa: ANN401 - a subtable
    name = type(rules).__name__
    plain = _PLAIN.get(name)
    if plain is not None:
        return plain(rules, blank)
    return any(_sees_over(*rule) for rule in _contexts(name, rules, blank))


def _in_ligature(rules: Any, blank: str) -> bool:  # noqa: ANN401
    return any(
        first == blank or any(blank in one.Component for one in ligatures)
        for first, ligatures in rules.ligatures.items()
    )


_PLAIN: Final[dict[str, Callable[[Any, str], bool]]] = {
    "SingleSubst": lambda rules, blank: blank in rules.mapping,
    "MultipleSubst": lambda rules, blank: blank in rules.mapping,
    "AlternateSubst": lambda rules, blank: blank in rules.alternates,
    "LigatureSubst": _in_ligature,
    "PairPos": lambda rules, _: bool(rules.ValueFormat2),
    "CursivePos": lambda rules, blank: blank in rules.Coverage.glyphs,
    "SinglePos": lambda _, __: False,
    "MarkBasePos": lambda _, __: False,
    "MarkLigPos": lambda _, __: False,
    "MarkMarkPos": lambda _, __: False,
}
"""Rules without a context. A pair with one value leaves its second glyph to the next pair; marks
look for what stands before them."""


_Rule = tuple[Sequence[bool], int, Sequence[int]]
"""Of each glyph of a context whether it may be the blank; where its middle begins; where in the
middle it acts."""


def _sees_over(may_be: Sequence[bool], start: int, acts: Sequence[int]) -> bool:
    """Whether the blank may stand inside a context, or be what it changes."""
    return any(may_be[1:-1]) or any(may_be[start + at] for at in acts)


def _contexts(name: str, rules: Any, blank: str) -> Iterator[_Rule]:  # noqa: ANN401
    """The rules of a contextual subtable; a kind that isn't known counts as one that sees over."""
    if name == "ReverseChainSingleSubst":
        yield _by_coverage(rules, [rules.Coverage], [0], blank)
        return
    sort = {"ChainContext": "Chain", "Context": ""}.get(
        name.removesuffix("Subst").removesuffix("Pos")
    )
    if sort is None:
        yield (True,), 0, (0,)
        return
    kind = "Subst" if name.endswith("Subst") else "Pos"
    if rules.Format == 3:  # noqa: PLR2004 - the format's number
        middle = rules.InputCoverage if sort else rules.Coverage
        yield _by_coverage(rules, middle, _acts(rules, kind), blank)
        return
    stem = f"{sort}{kind.replace('Subst', 'Sub')}"
    by_class = rules.Format == 2  # noqa: PLR2004
    mid = "Class" if by_class else "Rule"
    groups = getattr(rules, f"{stem}{mid}Set")
    firsts = range(len(groups)) if by_class else rules.Coverage.glyphs
    matches = _by_class(rules, sort, blank) if by_class else (blank,) * 3
    for first, group in zip(firsts, groups, strict=False):
        for rule in getattr(group, f"{stem}{'ClassRule' if by_class else 'Rule'}", None) or ():
            behind = rule.Input if sort or not by_class else rule.Class
            before, after = (rule.Backtrack, rule.LookAhead) if sort else ((), ())
            may_be = (
                *(each == matches[0] for each in reversed(before)),
                *(each == matches[1] for each in (first, *behind)),
                *(each == matches[2] for each in after),
            )
            yield may_be, len(before), _acts(rule, kind)


def _by_coverage(rules: Any, middle: Sequence[Any], acts: Sequence[int], blank: str) -> _Rule:  # noqa: ANN401
    before = getattr(rules, "BacktrackCoverage", ())
    after = getattr(rules, "LookAheadCoverage", ())
    covers = (*reversed(before), *middle, *after)
    return tuple(blank in each.glyphs for each in covers), len(before), acts


def _by_class(rules: Any, sort: str, blank: str) -> tuple[int, int, int]:  # noqa: ANN401
    """The blank's class among those before, in the middle, behind."""
    names = ("BacktrackClassDef", "InputClassDef", "LookAheadClassDef") if sort else ("ClassDef",)
    classes = [getattr(rules, name) for name in names]
    found = [each.classDefs.get(blank, 0) if each is not None else 0 for each in classes]
    return (found[0], found[1], found[2]) if sort else (0, found[0], 0)


def _acts(rule: Any, kind: str) -> list[int]:  # noqa: ANN401
    """Where a rule acts in its middle."""
    return [one.SequenceIndex for one in getattr(rule, f"{kind}LookupRecord") or ()]
