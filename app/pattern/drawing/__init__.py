"""One way to draw a piece, many pens; and the small pictures made with them."""

from app.pattern.drawing.look import BLACK, GREY, DrawingLook, Lines, NotchWay, Palette, Stroke
from app.pattern.drawing.pdf import PdfPen
from app.pattern.drawing.pen import Anchor, Face, FillStyle, Lettering, LineStyle, Pen
from app.pattern.drawing.pictures import piece_svg, preview_svg
from app.pattern.drawing.piece import draw_lines, piece_marks
from app.pattern.drawing.record import BoundsPen, RecordPen, replay
from app.pattern.drawing.seam_picture import WIDE_SHAPE, seam_svg
from app.pattern.drawing.svg import SvgPen, svg_page

__all__ = [
    "BLACK",
    "GREY",
    "WIDE_SHAPE",
    "Anchor",
    "BoundsPen",
    "Face",
    "FillStyle",
    "Lettering",
    "LineStyle",
    "Lines",
    "DrawingLook",
    "NotchWay",
    "Palette",
    "PdfPen",
    "Pen",
    "RecordPen",
    "Stroke",
    "SvgPen",
    "draw_lines",
    "piece_marks",
    "piece_svg",
    "preview_svg",
    "replay",
    "seam_svg",
    "svg_page",
]
