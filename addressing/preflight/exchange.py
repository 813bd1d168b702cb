"""What a PDF/X-4 plate says of itself, worked out again: profile, output intent, metadata, dates.

The requirements are those of ISO 15930-7; tests/references/pdfx4_requirements.tsv lists them one by
one and holds a plate against each by other readers.
"""

import hashlib
from collections.abc import Iterator, Mapping
from uuid import UUID

from addressing.preflight.container import Container
from addressing.preflight.values import Objection, Ref, Value, read_dict, words_of
from addressing.records.plates import PlateOrder
from addressing.records.shops import Exchange

CATALOGUE = ("Metadata", "OutputIntents")
"""Keys that the catalogue of a PDF/X-4 plate has more, at its end."""
INFO = ("Title", "Producer", "CreationDate", "ModDate", "Trapped", "GTS_PDFXVersion")
PROFILE = 1 << 23
"""Bytes that an inflated profile may have; a press's are of half a megabyte to three."""
_INTENT = ("Type", "S", "OutputConditionIdentifier", "RegistryName", "Info", "DestOutputProfile")
_SPACES = {
    "dc": "http://purl.org/dc/elements/1.1/",
    "pdf": "http://ns.adobe.com/pdf/1.3/",
    "pdfxid": "http://www.npes.org/pdfx/ns/id/",
    "xmp": "http://ns.adobe.com/xap/1.0/",
    "xmpMM": "http://ns.adobe.com/xap/1.0/mm/",
}
_ESCAPED = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;"})


def exchange_faults(
    file: Container, catalogue: Mapping[str, Value], info: Mapping[str, Value], order: PlateOrder
) -> Iterator[str]:
    """Everything wrong with what a plate says of itself; nothing for a plain plate.

    Raises:
        Objection: the walk can't go on.
    """
    exchange = order.exchange
    if exchange is None:
        return
    intent, profile, metadata = exchange_objects(file, catalogue)
    yield from _intent_faults(read_dict(file.plain(intent)), exchange)
    yield from _profile_faults(file, profile, exchange)
    keys, told = file.open_stream(metadata)
    if list(keys) != ["Type", "Subtype", "Length"] or keys["Type"] != "Metadata":
        yield "The plate's metadata aren't marked as such, or hold more."
    elif keys["Subtype"] != "XML" or told != metadata_of(order, exchange):
        yield "The plate's metadata aren't those of PDF/X-4 and of this plate."
    day = f"D:{exchange.date.replace('-', '')}000000Z"
    for key in ("CreationDate", "ModDate"):
        if words_of(info.get(key, 0.0)) != day:
            yield f"The plate's information has another date than the job ({key})."
    if words_of(info.get("GTS_PDFXVersion", 0.0)) != "PDF/X-4":
        yield "The plate's information doesn't say that it is PDF/X-4."


def exchange_objects(file: Container, catalogue: Mapping[str, Value]) -> tuple[int, int, int]:
    """The numbers of output intent, profile and metadata.

    Raises:
        Objection: one of them isn't there.
    """
    intents = catalogue.get("OutputIntents")
    metadata = catalogue.get("Metadata")
    if not isinstance(intents, tuple) or len(intents) != 1 or not isinstance(intents[0], Ref):
        raise Objection("The plate must have exactly one output intent.")
    if not isinstance(metadata, Ref):
        raise Objection("The plate has no metadata, which PDF/X-4 asks for.")
    profile = read_dict(file.plain(intents[0].number)).get("DestOutputProfile")
    if not isinstance(profile, Ref):
        raise Objection("The plate's output intent has no profile.")
    return intents[0].number, profile.number, metadata.number


def _intent_faults(found: Mapping[str, Value], exchange: Exchange) -> Iterator[str]:
    """The printing condition: as the shop's record has it."""
    intent = exchange.intent
    wanted = [key for key in _INTENT if key != "RegistryName" or intent.registry]
    if list(found) != wanted:
        yield "The plate's output intent holds more or less than it should."
        return
    if found["Type"] != "OutputIntent" or found["S"] != "GTS_PDFX":
        yield "The plate's output intent isn't one of PDF/X."
    if words_of(found["OutputConditionIdentifier"]) != intent.identifier:
        yield f"The plate's printing condition isn't {intent.identifier}."
    if intent.registry and words_of(found["RegistryName"]) != intent.registry:
        yield "The plate names another registry for its printing condition."
    if words_of(found["Info"]) != intent.info:
        yield "The plate tells its printing condition in other words."


def _profile_faults(file: Container, number: int, exchange: Exchange) -> Iterator[str]:
    """The profile: byte for byte the shop's, and of a press that prints in CMYK."""
    keys, data = file.stream(number, PROFILE)
    if list(keys) != ["N", "Length", "Filter"] or keys["N"] != 4.0:  # noqa: PLR2004 - C, M, Y, K
        yield "The plate's profile isn't marked as one of four inks."
    if hashlib.sha256(data).hexdigest() != exchange.intent.sha256:
        yield "The plate's profile isn't the shop's."
    if (data[12:16], data[16:20], data[36:40]) != (b"prtr", b"CMYK", b"acsp"):
        yield "The plate's profile isn't that of a press which prints in CMYK."


def metadata_of(order: PlateOrder, exchange: Exchange) -> bytes:
    """The metadata that the plate must have, letter by letter (XMP)."""
    moment = f"{exchange.date}T00:00:00Z"
    seed = f"{order.name}\n{order.version}\n{exchange.date}"
    for household in order.households:
        seed += f"\n{household}"
    identity = UUID(bytes=hashlib.sha256(seed.encode()).digest()[:16])
    title = order.name.translate(_ESCAPED)
    properties = {
        "dc:format": "application/pdf",
        "dc:title": f'<rdf:Alt><rdf:li xml:lang="x-default">{title}</rdf:li></rdf:Alt>',
        "pdf:Producer": f"addressing {order.version}".translate(_ESCAPED),
        "pdf:Trapped": "False",
        "pdfxid:GTS_PDFXVersion": "PDF/X-4",
        "xmp:CreateDate": moment,
        "xmp:MetadataDate": moment,
        "xmp:ModifyDate": moment,
        "xmpMM:DocumentID": f"uuid:{identity}",
        "xmpMM:RenditionClass": "default",
        "xmpMM:VersionID": "1",
    }
    spaces = "".join(f'\n xmlns:{prefix}="{uri}"' for prefix, uri in _SPACES.items())
    lines = [
        '<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>',
        '<x:xmpmeta xmlns:x="adobe:ns:meta/">',
        '<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">',
        f'<rdf:Description rdf:about=""{spaces}>',
        *(f"<{name}>{value}</{name}>" for name, value in properties.items()),
        "</rdf:Description>",
        "</rdf:RDF>",
        "</x:xmpmeta>",
        '<?xpacket end="r"?>',
    ]
    return "\n".join(lines).encode()
