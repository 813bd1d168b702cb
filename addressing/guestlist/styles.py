"""A workbook's look, made plain: for workbooks that a reader refuses for what a list needn't have.

Fonts (for their strikes), number formats and the cells' choice among them are kept, and cells,
merges, hidden rows, notes. Fills, borders, named styles, rules for input, filters, pivot tables,
drawings and named ranges, in which exports go wrong, are dropped. The client's file isn't touched.
"""

import io
import re
import zipfile
from xml.etree.ElementTree import Element, ParseError, SubElement, tostring

from defusedxml.ElementTree import DefusedXMLParser, fromstring

_PART = "xl/styles.xml"
_SPACE = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_STYLE_USED = re.compile(rb'\bs(?:tyle)?="(\d{1,6})"')
_MAX_STYLES = 65_536
_NEEDLESS = (
    b"dataValidations conditionalFormatting extLst autoFilter sheetViews pageSetup pageMargins "
    b"printOptions headerFooter customSheetViews rowBreaks colBreaks scenarios sheetProtection "
    b"tableParts drawing definedNames pivotCaches externalReferences calcPr workbookProtection"
).split()
_NEEDLESS_PART = re.compile(
    b"|".join(rb"<%s\b[^>]*/>|<%s\b.*?</%s>" % (name, name, name) for name in _NEEDLESS), re.DOTALL
)
_NEEDLESS_LINK = re.compile(
    rb'<Relationship\b[^>]*Type="[^"]*/(?:pivotTable|pivotCacheDefinition|drawing|table|'
    rb'externalLink|image|chart)"[^>]*?(?:/>|></Relationship>)'
)


def without_odd_styles(data: bytes) -> tuple[bytes, bool]:
    """A copy of the workbook with plain styles; True when strikes and formats could be kept.

    Raises:
        zipfile.BadZipFile, KeyError and the like: for a file that isn't a whole zip.
    """
    target = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as source, zipfile.ZipFile(target, "w") as copy:
        most = max((_most_used(source, name) for name in source.namelist()), default=0)
        styles, kept = _plain_styles(source, min(most, _MAX_STYLES) + 1)
        for entry in source.infolist():
            if entry.filename != _PART:
                copy.writestr(entry.filename, _needed(entry.filename, source.read(entry)))
        copy.writestr(_PART, styles)
    return target.getvalue(), kept


class _Silent:
    """A listener that builds nothing: the parser alone tells whether a part is whole."""


def _needed(name: str, part: bytes) -> bytes:
    """A part without what a list needn't have."""
    if name.endswith(".rels"):
        return _NEEDLESS_LINK.sub(b"", part)
    if name.endswith(".xml") and ("sheet" in name.lower() or name == "xl/workbook.xml"):
        # Whatever opens must close, or the search for its end would run through the part each time.
        parser = DefusedXMLParser(target=_Silent(), forbid_dtd=True)
        parser.feed(part)
        parser.close()
        return _NEEDLESS_PART.sub(b"", part)
    return part


def _most_used(source: zipfile.ZipFile, name: str) -> int:
    """The highest style number that a sheet asks for."""
    if not name.endswith(".xml") or "sheet" not in name.lower():
        return 0
    return max((int(number) for number in _STYLE_USED.findall(source.read(name))), default=0)


def _plain_styles(source: zipfile.ZipFile, needed: int) -> tuple[bytes, bool]:
    try:
        odd = fromstring(source.read(_PART), forbid_dtd=True)
    except (KeyError, ParseError, ValueError):
        odd = Element("styleSheet")
    sheet = Element("styleSheet", {"xmlns": _SPACE})
    strikes = [_is_struck(font) for font in _children(odd, "fonts")]
    choices = [_choice(xf, len(strikes)) for xf in _children(odd, "cellXfs")]
    _add_formats(sheet, odd)
    fonts = SubElement(sheet, "fonts")
    for struck in strikes or [False]:
        font = SubElement(fonts, "font")
        if struck:
            SubElement(font, "strike")
    SubElement(SubElement(SubElement(sheet, "fills"), "fill"), "patternFill")
    SubElement(SubElement(sheet, "borders"), "border")
    SubElement(SubElement(sheet, "cellStyleXfs"), "xf")
    chosen = SubElement(sheet, "cellXfs")
    for font_number, format_number in (choices + [(0, 0)] * needed)[: max(needed, len(choices))]:
        SubElement(chosen, "xf", {"fontId": str(font_number), "numFmtId": str(format_number)})
    named = SubElement(sheet, "cellStyles")
    SubElement(named, "cellStyle", {"name": "Normal", "xfId": "0", "builtinId": "0"})
    return tostring(sheet, encoding="utf-8", xml_declaration=True), bool(choices)


def _children(root: Element, name: str) -> list[Element]:
    group = next((child for child in root if _local(child) == name), None)
    return [] if group is None else list(group)


def _local(element: Element) -> str:
    return str(element.tag).rpartition("}")[2]


def _is_struck(font: Element) -> bool:
    strike = next((child for child in font if _local(child) == "strike"), None)
    return strike is not None and strike.get("val", "1") not in {"0", "false"}


def _choice(xf: Element, fonts: int) -> tuple[int, int]:
    font, number = (_number(xf.get(key, "0")) for key in ("fontId", "numFmtId"))
    return (font if font < fonts else 0), number


def _number(text: str) -> int:
    return int(text) if text.isdecimal() and len(text) <= 6 else 0  # noqa: PLR2004 - digits


def _add_formats(sheet: Element, odd: Element) -> None:
    formats = SubElement(sheet, "numFmts")
    for number_format in _children(odd, "numFmts"):
        number, code = number_format.get("numFmtId", ""), number_format.get("formatCode")
        if number.isdecimal() and code:
            SubElement(formats, "numFmt", {"numFmtId": number, "formatCode": code})
