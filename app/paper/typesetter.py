"""Sheets as PDF and PNG; the one file that knows Typst.

Rules of the file: the typesetter gets our own SVG from memory and sees nothing else: its root is an empty folder, the
fonts are those of two packages and never the machine's, the source below imports nothing, and no clock is asked. So the
same sheets give the same bytes, on any machine. Words are set in Arimo, which has the widths of Liberation Sans, and
letters in DejaVu Sans Mono, which comes with Typst. What neither can show stands as an empty box.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from functools import lru_cache
from importlib.resources import as_file, files
from tempfile import TemporaryDirectory

import typst

from app.paper.packet import Packet, PaperSheet
from app.paper.whole_dots import in_whole_dots

SOURCE = """
#set document(title: sys.inputs.title, date: none)
#set text(lang: sys.inputs.language)
#for sheet in json(bytes(sys.inputs.sheets)) {
  page(
    width: sheet.width * 0.1mm, height: sheet.height * 0.1mm, margin: 0mm,
    image(bytes(sheet.svg), format: "svg", alt: sheet.words, width: 100%, height: 100%, fit: "stretch"),
  )
}
"""


def pdf_of(packet: Packet, language: str = "en") -> bytes:
    """Return the packet as one PDF: vectors, selectable words, fonts embedded, each sheet with its description."""
    return _compiled("pdf", packet.title, packet.sheets, language)


def png_of(sheet: PaperSheet, dpi: int) -> bytes:
    """Return a sheet as a picture with ``dpi`` dots to the inch, black on white."""
    return _compiled("png", "", (sheet,), "en", dpi)


def _compiled(form: str, title: str, sheets: Sequence[PaperSheet], language: str, dpi: int | None = None) -> bytes:
    said = [{"words": sheet.words, **_sized(sheet, dpi)} for sheet in sheets]
    inputs = {"title": title, "language": language, "sheets": json.dumps(said)}
    with TemporaryDirectory() as nothing:
        compiler = typst.Compiler(root=nothing, font_paths=_fonts(), ignore_system_fonts=True)
        made = compiler.compile(SOURCE.encode(), format="pdf" if form == "pdf" else "png", ppi=dpi, sys_inputs=inputs)
    assert isinstance(made, bytes)
    return made


def _sized(sheet: PaperSheet, dpi: int | None) -> dict[str, object]:
    """Return the SVG of a sheet and its size in tenths of a millimetre: for a picture, that of whole dots."""
    if dpi is None:
        return {"svg": sheet.svg, "width": sheet.paper.width, "height": sheet.paper.height}
    return in_whole_dots(sheet.svg, sheet.paper, dpi)._asdict()


@lru_cache(maxsize=1)
def _fonts() -> typst.Fonts:
    with as_file(files("fontpkg_arimo") / "files") as folder:
        return typst.Fonts(include_system_fonts=False, include_embedded_fonts=True, font_paths=[str(folder)])
