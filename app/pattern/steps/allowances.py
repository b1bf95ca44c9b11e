"""The seam allowances of a pattern, said once for most edges and edge by edge for the rest."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from app.pattern.names import and_list
from app.pattern.pieces.edge_words import edges_words
from app.pattern.pieces.model import Edge, Pattern, Piece

__all__ = ["AllowanceRow", "allowance_list"]

#: A piece all of whose edges are to be named, and that has more of them than this, has them named together.
_FEW = 2


@dataclass(frozen=True, slots=True)
class AllowanceRow:
    """Allowance width in mm and the edges that have it; `edges` is empty for the usual width."""

    width: float
    edges: str


def allowance_list(pattern: Pattern) -> tuple[AllowanceRow, ...]:
    """The usual width first, then each other width with its edges, widest first; folds are left out."""
    edges = [(piece, edge) for piece in pattern.pieces for edge in piece.edges if not edge.fold]
    widths = Counter(_width(edge) for _, edge in edges)
    if not widths:
        return ()
    usual = max(widths, key=lambda width: (widths[width], width))
    others = sorted((width for width in widths if width != usual), reverse=True)
    return (AllowanceRow(usual, ""), *(AllowanceRow(width, _edges(edges, width)) for width in others))


def _width(edge: Edge) -> float:
    return round(edge.allowance.width, 1)


def _edges(edges: list[tuple[Piece, Edge]], width: float) -> str:
    by_piece: dict[str, tuple[Piece, list[str]]] = {}
    for piece, edge in edges:
        if _width(edge) == width:
            by_piece.setdefault(piece.title, (piece, []))[1].append(edge.name)
    return and_list(f"{title} ({'; '.join(_names(piece, names))})" for title, (piece, names) in by_piece.items())


def _names(piece: Piece, names: list[str]) -> tuple[str, ...]:
    """The edges in words; many edges, and all that are sewn, are every edge."""
    sewn = {edge.name for edge in piece.edges if not edge.fold}
    return ("every edge",) if len(names) > _FEW and set(names) == sewn else edges_words(piece, names)
