"""The pattern for other people's machines: DXF for cutters and plotters, true-scale SVG for drawing programs."""

from app.pattern.exchange.contents import StyleInfo
from app.pattern.exchange.dxf import write_dxf
from app.pattern.exchange.layers import Layer
from app.pattern.exchange.svg import write_svg_files

__all__ = ["Layer", "StyleInfo", "write_dxf", "write_svg_files"]
