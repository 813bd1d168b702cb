"""The same envelopes drawn by general libraries, to measure against; no part of the product.

Run by plates.py: `python rivals.py WHO COUNT OUT`. What each needs is named in its function.
"""

# Each library is imported by the one function that needs it: they are not dependencies.
# ruff: noqa: PLC0415
# mypy: ignore-errors

import json
import os
import sys
from pathlib import Path

from envelopes import FONT, HEIGHT, LEADING, SIZE, WIDTH, envelopes

FIRST = HEIGHT / 2 + 1.5 * LEADING - 8


def reportlab(count: int, out: Path) -> None:
    """Plain: no shaping, centred by advances. Needs reportlab."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont
    from reportlab.pdfgen.canvas import Canvas

    pdfmetrics.registerFont(TTFont("face", str(FONT)))
    canvas = Canvas(str(out), pagesize=(WIDTH, HEIGHT))
    for lines in envelopes(count):
        canvas.setFont("face", SIZE)
        for number, line in enumerate(lines):
            canvas.drawCentredString(WIDTH / 2, FIRST - number * LEADING, line)
        canvas.showPage()
    canvas.save()


def typst(count: int, out: Path) -> None:
    """A compiled typesetter that shapes. Needs typst from PyPI."""
    import typst as compiler

    folder = out.parent
    (folder / "envelopes.json").write_text(json.dumps(list(envelopes(count))))
    source = folder / "envelopes.typ"
    source.write_text(
        f"#set page(width: {WIDTH}pt, height: {HEIGHT}pt, margin: 0pt)\n"
        f'#set text(font: "Great Vibes", size: {SIZE}pt, top-edge: {LEADING}pt, bottom-edge: 0pt)\n'
        "#set par(leading: 0pt)\n"
        '#for lines in json("envelopes.json") {\n'
        "  page(align(center + horizon, lines.join(linebreak())))\n}\n"
    )
    compiler.compile(str(source), output=str(out), font_paths=[str(FONT.parent)])


def fpdf2(count: int, out: Path) -> None:
    """With its shaping on. Needs fpdf2 and uharfbuzz."""
    from fpdf import FPDF

    pdf = FPDF(unit="pt", format=(WIDTH, HEIGHT))
    pdf.set_margin(0)
    pdf.set_auto_page_break(auto=False)
    pdf.add_font("face", "", str(FONT))
    pdf.set_text_shaping(use_shaping_engine=True)
    for lines in envelopes(count):
        pdf.add_page()
        pdf.set_font("face", size=SIZE)
        for number, line in enumerate(lines):
            pdf.set_y(HEIGHT - FIRST - LEADING + number * LEADING)
            pdf.cell(WIDTH, LEADING, line, align="C")
    pdf.output(str(out))


def pango(count: int, out: Path) -> None:
    """Pango and cairo, which shape. Needs pangocairocffi, and the two libraries on the system."""
    config = out.parent / "fonts.conf"
    config.write_text(
        f"<fontconfig><dir>{FONT.parent}</dir><cachedir>{out.parent}</cachedir></fontconfig>"
    )
    os.environ["FONTCONFIG_FILE"] = str(config)  # noqa: TID251 - the only way to tell it
    import cairocffi
    import pangocairocffi
    import pangocffi

    surface = cairocffi.PDFSurface(str(out), WIDTH, HEIGHT)
    context = cairocffi.Context(surface)
    layout = pangocairocffi.create_layout(context)
    layout.width = pangocffi.units_from_double(WIDTH)
    layout.alignment = pangocffi.Alignment.CENTER
    face = pangocffi.FontDescription()
    face.family = "Great Vibes"
    face.set_absolute_size(pangocffi.units_from_double(SIZE))
    layout.font_description = face
    for lines in envelopes(count):
        for number, line in enumerate(lines):
            layout.text = line
            context.move_to(0, HEIGHT - FIRST - LEADING + number * LEADING)
            pangocairocffi.show_layout(context, layout)
        surface.show_page()
    surface.finish()


if __name__ == "__main__":
    who, count, out = sys.argv[1:]
    {"reportlab": reportlab, "typst": typst, "fpdf2": fpdf2, "pango": pango}[who](
        int(count), Path(out)
    )
