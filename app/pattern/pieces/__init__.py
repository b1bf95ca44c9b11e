"""Pattern pieces: plain specs in, derived pieces out (outline, cutting line, darts, notches, lengths)."""

from app.pattern.pieces.cut import cut_piece
from app.pattern.pieces.mirror import mirrored
from app.pattern.pieces.outline import trace_outline
from app.pattern.pieces.spec import DartSpec, PieceSpec, Traced

__all__ = [
    "DartSpec",
    "PieceSpec",
    "Traced",
    "cut_piece",
    "mirrored",
    "trace_outline",
]
