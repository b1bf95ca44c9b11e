"""How the outline of a piece turns from one edge to the next."""

from __future__ import annotations

from app.pattern.geometry import Point
from app.pattern.pieces.model import Edge

__all__ = ["arriving", "leaving", "turn_between"]


def turn_between(before: Edge, after: Edge) -> float:
    """How far the outline turns to the left from one edge to the next, radians."""
    return arriving(before).turn_to(leaving(after))


def arriving(edge: Edge) -> Point:
    """Direction of travel round the outline where the edge ends."""
    if edge.with_outline:
        return edge.path.segments[-1].tangent(1.0)
    return edge.path.segments[0].tangent(0.0).scaled(-1.0)


def leaving(edge: Edge) -> Point:
    """Direction of travel round the outline where the edge starts."""
    if edge.with_outline:
        return edge.path.segments[0].tangent(0.0)
    return edge.path.segments[-1].tangent(1.0).scaled(-1.0)
