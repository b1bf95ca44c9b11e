"""A PDF file being written: pages of given sizes in mm, with title, language, bookmarks and page labels; no clock."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path as FilePath
from typing import Any

from reportlab.pdfbase.pdfdoc import PDFDictionary, PDFName
from reportlab.pdfgen.canvas import Canvas

from app.pattern.drawing import Face, PdfPen, replay
from app.pattern.drawing.fonts import font_name
from app.pattern.drawing.pdf import PT
from app.pattern.geometry import Box
from app.pattern.sheets.artwork import Ply
from app.pattern.sheets.info import PrintInfo
from app.pattern.sheets.layers import Layers

__all__ = ["Book", "draw_ply"]

#: What a viewer's print window begins with (ISO 32000-1:2008, 12.2, table 150): 100 %, the paper that the page asks
#: for, one side only.
_PREFERENCES = {
    "PrintScaling": PDFName("None"),
    "PickTrayByPDFSize": "true",
    "Duplex": PDFName("Simplex"),
    "DisplayDocTitle": "true",
}


class Book:
    """One PDF. The same content gives the same bytes; viewers are asked to print it unscaled."""

    def __init__(self, path: FilePath, info: PrintInfo, subject: str, layers: tuple[str, ...] = ()) -> None:
        """Start a file with layers of those names; nothing is on disk before `close`."""
        self.canvas = Canvas(
            str(path),
            invariant=1,
            pageCompression=1,
            lang=info.language,
            pdfVersion=(1, 7),  # layers came with 1.5, the choice of a tray with 1.7
            initialFontName=font_name(Face.REGULAR),
        )
        title = f"{info.title} · order {info.order_number}" if info.order_number else info.title
        self.canvas.setTitle(title)
        self.canvas.setAuthor(info.studio)
        self.canvas.setSubject(subject)
        self.canvas.setCreator("Tapeline")
        catalogue: Any = self.canvas._doc.Catalog
        # ReportLab's own dictionary of preferences does not know of trays.
        catalogue.ViewerPreferences = PDFDictionary(dict(_PREFERENCES))
        self._page = 0
        self._layers = Layers(self.canvas, layers)

    def open_page(self, width: float, height: float, *, label: str, marks: Iterable[str] = ()) -> PdfPen:
        """Start a page of that size in mm; `label` is what viewers show as its number; `marks` name its bookmarks."""
        self.canvas.setPageSize((width * PT, height * PT))
        self.canvas.addPageLabel(self._page, prefix=label)
        for mark in marks:
            self.canvas.bookmarkPage(mark)
        return PdfPen(self.canvas)

    def close_page(self) -> None:
        """End the page."""
        self.canvas.showPage()
        self._layers.offer_on_last_page()
        self._page += 1

    @contextmanager
    def layer(self, name: str) -> Iterator[None]:
        """What is drawn meanwhile belongs to a layer; to none when the name is empty."""
        self._layers.begin(name)
        yield
        self._layers.end(name)

    def clip(self, box: Box) -> None:
        """Keep what follows inside a box on the page, until `unclip`."""
        self.canvas.saveState()
        frame = self.canvas.beginPath()
        frame.rect(box.left * PT, box.bottom * PT, (box.right - box.left) * PT, (box.top - box.bottom) * PT)
        self.canvas.clipPath(frame, stroke=0, fill=0)

    def unclip(self) -> None:
        """Draw on the whole page again."""
        self.canvas.restoreState()

    def bookmark(self, words: str, mark: str, *, under: Iterable[tuple[str, str]] = ()) -> None:
        """A bookmark to the page that has the mark, with others (words, mark) under it; a mark serves one bookmark."""
        self.canvas.addOutlineEntry(words, mark, level=0, closed=False)
        for inner, place in under:
            self.canvas.addOutlineEntry(inner, place, level=1)

    def close(self) -> None:
        """Write the file."""
        self.canvas.save()


def draw_ply(book: Book, pen: PdfPen, ply: Ply) -> None:
    """Draw a ply with a pen in its piece's frame, in its layer and its own inks."""
    with book.layer(ply.layer):
        replay(ply.marks, pen if ply.palette is None else pen.inked(ply.palette))
