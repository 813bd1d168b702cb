"""What a PDF/X-4 plate says of itself beside its pages: printing condition, metadata, dates."""

import hashlib
import zlib
from dataclasses import dataclass
from html import escape

from addressing.faults import Exit, Fault
from addressing.plates.drawing import LEVEL
from addressing.plates.numbers import string
from addressing.plates.writer import ObjectWriter
from addressing.records.plates import PlateOrder
from addressing.records.shops import Exchange, Intent
from addressing.where import Where

_METADATA = """\
<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/">
<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about=""
 xmlns:dc="http://purl.org/dc/elements/1.1/"
 xmlns:pdf="http://ns.adobe.com/pdf/1.3/"
 xmlns:pdfxid="http://www.npes.org/pdfx/ns/id/"
 xmlns:xmp="http://ns.adobe.com/xap/1.0/"
 xmlns:xmpMM="http://ns.adobe.com/xap/1.0/mm/">
<dc:format>application/pdf</dc:format>
<dc:title><rdf:Alt><rdf:li xml:lang="x-default">{title}</rdf:li></rdf:Alt></dc:title>
<pdf:Producer>{producer}</pdf:Producer>
<pdf:Trapped>False</pdf:Trapped>
<pdfxid:GTS_PDFXVersion>PDF/X-4</pdfxid:GTS_PDFXVersion>
<xmp:CreateDate>{date}T00:00:00Z</xmp:CreateDate>
<xmp:MetadataDate>{date}T00:00:00Z</xmp:MetadataDate>
<xmp:ModifyDate>{date}T00:00:00Z</xmp:ModifyDate>
<xmpMM:DocumentID>uuid:{identity}</xmpMM:DocumentID>
<xmpMM:RenditionClass>default</xmpMM:RenditionClass>
<xmpMM:VersionID>1</xmpMM:VersionID>
</rdf:Description>
</rdf:RDF>
</x:xmpmeta>
<?xpacket end="r"?>"""
"""The order of properties is the alphabet's, within each namespace; nothing is left for editing."""


@dataclass(frozen=True, slots=True)
class Claims:
    """Entries that a PDF/X-4 plate has more: of the catalogue, and of Info before and after."""

    catalogue: str = ""
    dates: str = ""
    version: str = ""


def claims(writer: ObjectWriter, order: PlateOrder) -> Claims:
    """Write profile, output intent and metadata, and say what catalogue and Info must have.

    Nothing for a plain plate.

    Raises:
        Fault: the profile isn't the one that the shop's record was read with (exit 3).
    """
    exchange = order.exchange
    if exchange is None:
        return Claims()
    intent = exchange.intent
    packed = zlib.compress(_profile(intent), LEVEL)
    profile = writer.put_stream("/N 4 ", packed)
    registry = f"/RegistryName {string(intent.registry)} " if intent.registry else ""
    condition = writer.put(
        "<< /Type /OutputIntent /S /GTS_PDFX"
        f" /OutputConditionIdentifier {string(intent.identifier)} {registry}"
        f"/Info {string(intent.info)} /DestOutputProfile {profile} 0 R >>"
    )
    metadata = writer.put_plain("/Type /Metadata /Subtype /XML ", _metadata(order, exchange))
    day = string(f"D:{exchange.date.replace('-', '')}000000Z")
    return Claims(
        catalogue=f" /Metadata {metadata} 0 R /OutputIntents [{condition} 0 R]",
        dates=f" /CreationDate {day} /ModDate {day}",
        version=" /GTS_PDFXVersion (PDF/X-4)",
    )


def _profile(intent: Intent) -> bytes:
    try:
        data = intent.profile.read_bytes()
    except OSError:
        data = b""
    if hashlib.sha256(data).hexdigest() != intent.sha256:
        raise Fault(
            Exit.INPUT,
            "profile-changed",
            f"The profile {intent.profile.name} isn't there any more as it was read.",
            "Put it back beside the shop's record and run again.",
            Where(str(intent.profile)),
        )
    return data


def _metadata(order: PlateOrder, exchange: Exchange) -> bytes:
    told = "\n".join([order.name, order.version, exchange.date, *map(str, order.households)])
    digest = hashlib.sha256(told.encode()).hexdigest()
    identity = "-".join(
        digest[start:end] for start, end in ((0, 8), (8, 12), (12, 16), (16, 20), (20, 32))
    )
    return _METADATA.format(
        title=escape(order.name, quote=False),
        producer=escape(f"addressing {order.version}", quote=False),
        date=exchange.date,
        identity=identity,
    ).encode()
