"""Which cloths of a piece are layers of the garment, and which only lie between two others."""

from __future__ import annotations

import re

from app.pattern.pieces.model import Fabric, Pattern, Piece

__all__ = ["cloth_cuts", "lies_between"]

#: Cloths that lie between two others: what is cut from them is no layer of its own, and its edges are nowhere seen.
_INTERLINING = re.compile(
    r"inter-?(fac|lin)|fusible|iron-on|canvas|stiffen|wadding|batting|under-?lin|buckram|horsehair|pelmet", re.I
)


def cloth_cuts(pattern: Pattern, piece: Piece) -> frozenset[str]:
    """The cloths that a piece is a layer of: those that only lie between two others, as interfacing, are none."""
    between = {fabric.name for fabric in pattern.fabrics if lies_between(fabric)}
    return frozenset(cut.fabric for cut in piece.cuts if cut.fabric not in between)


def lies_between(fabric: Fabric) -> bool:
    """True for interfacing and its kin, by what it is called."""
    return _INTERLINING.search(f"{fabric.name} {fabric.title}") is not None
