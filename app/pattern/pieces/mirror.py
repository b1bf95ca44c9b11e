"""A piece turned over: the left of a pair made from the right."""

from __future__ import annotations

from dataclasses import replace

from app.pattern.geometry import Path, Point, Transform
from app.pattern.pieces.model import Dart, Edge, Grain, Mark, Piece

__all__ = ["mirror_in_fold", "mirrored"]


def mirrored(piece: Piece, a: Point, b: Point) -> Piece:
    """The piece mirrored in the endless line through a and b (mm): outlines anticlockwise again, edges as drawn.

    Edges keep their direction of drawing, so that notches and seams read the same on
    both pieces of a pair.
    """
    turn = Transform.mirror(a, b)
    count = len(piece.edges)
    # The mirrored grain line, its lower end first
    ends = sorted((turn.apply(piece.grain.start), turn.apply(piece.grain.end)), key=lambda point: point.y)
    return replace(
        piece,
        edges=tuple(_edge(edge, turn) for edge in reversed(piece.edges)),
        darts=tuple(_dart(dart, turn) for dart in reversed(piece.darts)),
        mouths=tuple((count - 2 - mouth) % count for mouth in reversed(piece.mouths)),
        stitching=_outline(piece.stitching, turn),
        cutting=_outline(piece.cutting, turn),
        grain=Grain(*ends),
        marks=tuple(_mark(mark, turn) for mark in piece.marks),
    )


def _outline(outline: Path, turn: Transform) -> Path:
    return outline.transformed(turn).reversed()


def _edge(edge: Edge, turn: Transform) -> Edge:
    return replace(edge, path=edge.path.transformed(turn), with_outline=not edge.with_outline)


def _dart(dart: Dart, turn: Transform) -> Dart:
    return replace(
        dart,
        a=turn.apply(dart.b),
        tip=turn.apply(dart.tip),
        b=turn.apply(dart.a),
        cap=_outline(dart.cap, turn),
        pressed_to="b" if dart.pressed_to == "a" else "a",
        keep_clear=turn.apply(dart.keep_clear) if dart.keep_clear else None,
    )


def _mark(mark: Mark, turn: Transform) -> Mark:
    return replace(mark, path=mark.path.transformed(turn) if mark.path else None, at=turn.apply(mark.at))


def mirror_in_fold(piece: Piece) -> Transform:
    """The mirror in the piece's fold edge, which sends either half to the other; raises ValueError without a fold."""
    edge = piece.fold_edge
    if edge is None:
        raise ValueError(f"piece {piece.name} has no fold edge")
    return Transform.mirror(edge.path.start, edge.path.end)
