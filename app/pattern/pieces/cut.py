"""The one door from a drafted piece to a cut one: outline, darts, cutting line and notches, or what is wrong."""

from __future__ import annotations

from collections.abc import Iterator

from app.pattern.geometry import GeometryError
from app.pattern.names import dotted
from app.pattern.pieces.allowance import NoCuttingLine, cutting_outline
from app.pattern.pieces.model import Edge, Grain, Notch, Piece
from app.pattern.pieces.outline import trace_outline
from app.pattern.pieces.spec import PieceSpec, Traced
from app.pattern.problem import Place, Problem, Refused
from app.pattern.units import mm, mm_unlike

__all__ = ["cut_piece"]


def cut_piece(spec: PieceSpec) -> Piece | Refused:
    """The piece with its stitching line, darts, cutting line and notches (mm), or every problem found on the way."""
    edges = (item for item in spec.items if isinstance(item, Edge))
    faults = tuple(_negative(spec.name, edge) for edge in edges if edge.allowance.width < 0.0)
    traced = trace_outline(spec.items, spec.name)
    if isinstance(traced, Refused):
        return Refused((*faults, *traced.problems))
    faults += _notch_faults(spec, traced)
    return Refused(faults) if faults else _cut(spec, traced)


def _cut(spec: PieceSpec, traced: Traced) -> Piece | Refused:
    try:
        cutting = cutting_outline(traced)
    except GeometryError as reason:
        message = f"The cutting line of {spec.name} cannot be drawn: {reason}."
        fix = "Make the allowances narrower, or the curve beside them wider."
        edge = reason.edge if isinstance(reason, NoCuttingLine) else ""
        spans = {item.name: item.span for item in spec.items}
        where = spans.get(edge) or spec.span or Place(spec.name, edge)
        return Refused.of(Problem("pieces.cutting", message, fix, where))
    return Piece(
        name=spec.name,
        title=spec.title,
        edges=traced.edges,
        grain=_upward(spec.grain),
        cuts=spec.cuts,
        stitching=traced.stitching,
        cutting=cutting,
        darts=traced.darts,
        mouths=traced.mouths,
        notches=spec.notches,
        marks=spec.marks,
        note=spec.note,
        span=spec.span,
    )


def _upward(grain: Grain) -> Grain:
    """The grain line with its lower end first."""
    return grain if grain.start.y <= grain.end.y else Grain(grain.end, grain.start)


def _negative(piece: str, edge: Edge) -> Problem:
    message = f"The allowance of {dotted(piece, edge.name)} is {mm(edge.allowance.width)}, less than nothing."
    fix = "Give it nothing or more: an allowance lies outside the stitching line."
    return Problem("pieces.allowance-negative", message, fix, edge.span or Place(piece, edge.name))


def _notch_faults(spec: PieceSpec, traced: Traced) -> tuple[Problem, ...]:
    edges = {edge.name: edge for edge in traced.edges}
    return tuple(fault for notch in spec.notches for fault in _off_edge(spec.name, notch, edges))


def _off_edge(piece: str, notch: Notch, edges: dict[str, Edge]) -> Iterator[Problem]:
    edge = edges.get(notch.edge)
    if edge is None:
        message = f"A notch is wanted on {notch.edge}, which is no edge of {piece}."
        fix = f"Put it on one of {', '.join(edges)}."
        yield Problem("pieces.notch-edge", message, fix, notch.span or Place(piece, notch.edge))
        return
    length = edge.path.length
    if 0.0 <= notch.along <= length:
        return
    wanted, long = mm_unlike(notch.along, length)
    message = f"A notch is wanted {wanted} along {dotted(piece, notch.edge)}, which is {long} long."
    fix = f"Place it between its ends: up to {mm(length)} from where {notch.edge} starts."
    yield Problem("pieces.notch-off-edge", message, fix, notch.span or Place(piece, notch.edge))
