"""Measurement names and definitions, checked bodies, size charts, populations and files of bodies."""

from app.pattern.body.chart import SIZES, size_body
from app.pattern.body.checked import CheckedBody, check_body
from app.pattern.body.complete import complete_body
from app.pattern.body.corners import corner_bodies
from app.pattern.body.files import BodiesRead, NamedBody, read_bodies_csv, read_body_file
from app.pattern.body.likely import Likely, likely, tells
from app.pattern.body.measures import LANDMARKS, Measure, MeasureKind
from app.pattern.body.populations import CUSTOMERS_AT_LARGE, draw_bodies
from app.pattern.body.register import MEASURES

__all__ = [
    "CUSTOMERS_AT_LARGE",
    "LANDMARKS",
    "MEASURES",
    "SIZES",
    "BodiesRead",
    "CheckedBody",
    "Likely",
    "MeasureKind",
    "Measure",
    "NamedBody",
    "check_body",
    "complete_body",
    "corner_bodies",
    "draw_bodies",
    "likely",
    "read_bodies_csv",
    "read_body_file",
    "size_body",
    "tells",
]
