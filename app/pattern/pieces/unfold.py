"""Pieces cut on the fold, opened out: the whole outline as it lies in one layer of cloth."""

from __future__ import annotations

from app.pattern.geometry import Line, Path, Point, Segment, Transform, foot
from app.pattern.pieces.model import Piece

__all__ = ["mirror_in_fold", "unfolded_cutting", "unfolded_stitching"]

#: A line whose ends lie this near the fold (mm) lies on it.
ON_FOLD = 1e-4


def unfolded_cutting(piece: Piece) -> Path:
    """The closed anticlockwise cutting line with both halves of a piece on the fold; mm, in the piece's own frame.

    A piece without a fold edge is returned as it is.
    """
    return _unfolded(piece, piece.cutting)


def unfolded_stitching(piece: Piece) -> Path:
    """The same for the stitching line."""
    return _unfolded(piece, piece.stitching)


def mirror_in_fold(piece: Piece) -> Transform:
    """The mirror in the piece's fold edge, which sends either half to the other; raises ValueError without a fold."""
    edge = piece.fold_edge
    if edge is None:
        raise ValueError(f"piece {piece.name} has no fold edge")
    return Transform.mirror(edge.path.start, edge.path.end)


def _unfolded(piece: Piece, outline: Path) -> Path:
    edge = piece.fold_edge
    if edge is None:
        return outline
    half = _open(outline, edge.path.start, edge.path.end)
    return half.joined(half.transformed(mirror_in_fold(piece)).reversed())


def _open(outline: Path, a: Point, b: Point) -> Path:
    """The outline without its lines on the fold, from where it leaves the fold round to where it comes back."""
    on = [_lies_on(segment, a, b) for segment in outline.segments]
    leaves = next((i for i, here in enumerate(on) if here and not on[(i + 1) % len(on)]), None)
    if leaves is None:
        raise ValueError("the outline has no line along its fold edge")
    turned = [outline.segments[(leaves + 1 + i) % len(on)] for i in range(len(on))]
    return Path(tuple(s for s in turned if not _lies_on(s, a, b)))


def _lies_on(segment: Segment, a: Point, b: Point) -> bool:
    if not isinstance(segment, Line):
        return False
    return all(point.distance(foot(point, a, b)) <= ON_FOLD for point in (segment.start, segment.end))
