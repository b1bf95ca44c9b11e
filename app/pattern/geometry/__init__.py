"""Plane geometry in millimetres and radians, y up: points, segments, paths, offsets, crossings. It knows no sewing."""

from app.pattern.geometry.crossing import Crossing, crossings, self_crossings
from app.pattern.geometry.making import arc_between, arc_centre, curve, smooth
from app.pattern.geometry.near import distance_to, nearest
from app.pattern.geometry.offsetting import offset
from app.pattern.geometry.path import Path
from app.pattern.geometry.point import Box, GeometryError, Point, circle_circle, foot, line_circle, line_line
from app.pattern.geometry.region import contains, is_simple, spans_at
from app.pattern.geometry.segments import Arc, Cubic, Line, Segment
from app.pattern.geometry.transform import Transform
from app.pattern.geometry.work import TooMuchWork, WorkLimit, counted, spend

__all__ = [
    "Arc",
    "Box",
    "Crossing",
    "Cubic",
    "WorkLimit",
    "GeometryError",
    "Line",
    "TooMuchWork",
    "Path",
    "Point",
    "Segment",
    "Transform",
    "arc_between",
    "arc_centre",
    "circle_circle",
    "contains",
    "counted",
    "crossings",
    "curve",
    "distance_to",
    "foot",
    "is_simple",
    "line_circle",
    "line_line",
    "nearest",
    "offset",
    "self_crossings",
    "smooth",
    "spend",
    "spans_at",
]
