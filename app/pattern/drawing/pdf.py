"""A pen on a ReportLab canvas: true scale, true curves, embedded letters."""

from __future__ import annotations

from math import degrees

from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.pathobject import PDFPathObject

from app.pattern.drawing.curves import drawable
from app.pattern.drawing.fonts import font_name, width_of
from app.pattern.drawing.look import ACCENT, GREY, Palette
from app.pattern.drawing.pen import Anchor, FillStyle, Lettering, LineStyle
from app.pattern.geometry import Line, Path, Point, Transform

__all__ = ["PT", "PdfPen"]

#: PDF units (1/72 inch) in a millimetre.
PT = 72.0 / 25.4
_ROUND = 1


class PdfPen:
    """Draws on a canvas whose unit is the point; `transform` leads from the drawing's mm to mm on the page."""

    def __init__(self, canvas: Canvas, transform: Transform | None = None, palette: Palette = GREY) -> None:
        """Draw on `canvas`, the page's lower left corner being the origin."""
        self._canvas = canvas
        self._transform = transform or Transform()
        self._palette = palette

    def moved(self, transform: Transform) -> PdfPen:
        """A pen on the same canvas with a transform done before this one's."""
        return PdfPen(self._canvas, transform.then(self._transform), self._palette)

    def inked(self, palette: Palette) -> PdfPen:
        """A pen on the same canvas with other inks."""
        return PdfPen(self._canvas, self._transform, palette)

    def line(self, path: Path, style: LineStyle) -> None:
        """Stroke a path in its style's width, dashes and grey."""
        stroke, canvas = self._palette.strokes[style], self._canvas
        canvas.setLineWidth(stroke.width * PT)
        canvas.setDash([round(d * PT, 4) for d in stroke.dash] or [], 0)
        canvas.setLineCap(0 if stroke.dash else _ROUND)
        canvas.setLineJoin(0 if style is LineStyle.RULER else _ROUND)
        if style is LineStyle.HIGHLIGHT:
            canvas.setStrokeColorRGB(*ACCENT)
        else:
            canvas.setStrokeGray(round(1.0 - stroke.shade, 3))
        canvas.drawPath(self._traced(path), stroke=1, fill=0)

    def fill(self, path: Path, style: FillStyle) -> None:
        """Fill a path in its style's grey."""
        if style is FillStyle.ACCENT:
            self._canvas.setFillColorRGB(*ACCENT)
        else:
            self._canvas.setFillGray(round(1.0 - self._palette.fills[style], 3))
        self._canvas.drawPath(self._traced(path), stroke=0, fill=1)

    def text(self, at: Point, words: str, lettering: Lettering) -> None:
        """Set words; the font is embedded as a subset of the letters used."""
        canvas, place = self._canvas, self._transform.apply(at)
        size = lettering.size * self._transform.factor
        wide = width_of(words, size, lettering.face)
        back = {Anchor.START: 0.0, Anchor.MIDDLE: wide / 2.0, Anchor.END: wide}[lettering.anchor]
        canvas.saveState()
        canvas.translate(place.x * PT, place.y * PT)
        canvas.rotate(degrees(lettering.angle + self._transform.angle))
        canvas.setFillGray(round(1.0 - self._palette.words[lettering.face], 3))
        canvas.setFont(font_name(lettering.face), size * PT)
        canvas.drawString(-back * PT, 0.0, words)
        canvas.restoreState()

    def _traced(self, path: Path) -> PDFPathObject:
        traced: PDFPathObject = self._canvas.beginPath()
        segments = path.transformed(self._transform).segments
        traced.moveTo(segments[0].start.x * PT, segments[0].start.y * PT)
        for segment in drawable(segments):
            if isinstance(segment, Line):
                traced.lineTo(segment.end.x * PT, segment.end.y * PT)
            else:
                points = (segment.c1, segment.c2, segment.end)
                traced.curveTo(*(n * PT for p in points for n in (p.x, p.y)))
        if path.closed:
            traced.close()
        return traced
