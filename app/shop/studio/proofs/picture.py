"""The piece on which a finding lies, with its edge drawn strong and its place ringed."""

from __future__ import annotations

from app.pattern.drawing import GREY, FillStyle, LineStyle, SvgPen, preview_svg, svg_page
from app.pattern.drawing.curves import ring
from app.pattern.geometry import Box, Point
from app.pattern.pieces.model import Pattern
from app.pattern.proof import FindingValues
from app.pattern.units import Unit

__all__ = ["finding_svg"]

#: Width of the picture in mm at which its lines have their natural strength.
_NATURAL = 140.0


def finding_svg(pattern: Pattern, finding: FindingValues | None) -> str:
    """The piece a finding names, marked; the whole pattern when it names none."""
    named = finding["piece"] if finding is not None else ""
    piece = next((piece for piece in pattern.pieces if piece.name == named), None)
    if piece is None or finding is None:
        return preview_svg(pattern, Unit.CM)
    box = piece.cutting.bounds
    scale = max(box.right - box.left, box.top - box.bottom) / _NATURAL
    pen = SvgPen(palette=GREY.thicker(scale))
    pen.fill(piece.cutting, FillStyle.PIECE)
    pen.line(piece.cutting, LineStyle.CUTTING)
    pen.line(piece.stitching, LineStyle.STITCHING)
    edges = [edge.path for edge in piece.edges if edge.name == finding["edge"]]
    for path in edges:
        pen.line(path, LineStyle.HIGHLIGHT)
    # Rings stand at the finding's own point, or else at both ends of the edge it names.
    ends = [end for path in edges for end in (path.start, path.end)]
    for at in ends if finding["at"] is None else [Point(*finding["at"])]:
        pen.line(ring(at, 3.0 * scale), LineStyle.HIGHLIGHT)
    margin = 6.0 * scale
    frame = Box(box.left - margin, box.bottom - margin, box.right + margin, box.top + margin)
    return svg_page(pen, frame, title=f"{piece.title}: {finding['message']}", kind="finding-picture")
