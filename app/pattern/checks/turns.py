"""How the outline of a piece turns from one edge to the next."""

from __future__ import annotations

from math import atan2

from app.pattern.geometry import Point
from app.pattern.pieces.model import Edge

__all__ = ["arriving", "leaving", "turn_between"]


def turn_between(before: Edge, after: Edge) -> float:
    """How far the outline turns to the left from one edge to the next, radians."""
    arrive, leave = arriving(before), leaving(after)
    return atan2(arrive.x * leave.y - arrive.y * leave.x, arrive.x * leave.x + arrive.y * leave.y)


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
