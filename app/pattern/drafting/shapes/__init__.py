"""Shapes: closed outlines traced off a sheet, and the pattern work done on them."""

from app.pattern.drafting.shapes.shape import Inside, Shape, ShapeDart, Side, trace
from app.pattern.drafting.shapes.where import side_of

__all__ = ["Inside", "Shape", "ShapeDart", "Side", "side_of", "trace"]
