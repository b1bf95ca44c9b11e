"""Rings: edges that seams and folds close into a circle round the body, such as a neck, a cuff or the hem of a leg.

Wherever a seam ends, the edges beside it on both pieces run on into each other; at a fold an edge runs on into its own
mirror image, and at a dart into the edge beyond it. A row of edges that runs on at both its ends is closed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from app.pattern.checks.joints import joints
from app.pattern.pieces.model import Edge, Pattern, Piece

__all__ = ["EdgeRing", "rings"]

_Name = tuple[str, str]
_End = tuple[str, str, bool]


@dataclass(frozen=True, slots=True)
class EdgeRing:
    """Edges that close into a circle; its length in mm all the way round, as it is sewn.

    `halved` is whether the pattern shows one half of it: the other is its mirror image.
    """

    edges: tuple[tuple[Piece, Edge], ...]
    length: float
    halved: bool

    @property
    def words(self) -> str:
        """Its edges as a draft names them: `back.neck + front.neck`."""
        return " + ".join(f"{piece.name}.{edge.name}" for piece, edge in self.edges)


def rings(pattern: Pattern, among: Callable[[Piece, Edge], bool]) -> Iterator[EdgeRing]:
    """The closed rings that are made of edges `among` which to look; a row that is open anywhere is none."""
    held = {(p.name, e.name): (p, e) for p in pattern.pieces for e in p.edges if not e.fold and among(p, e)}
    links = _links(pattern)
    done: set[_Name] = set()
    for name in held:
        if name in done:
            continue
        found, mirrored, closed = _row(name, held, links)
        done |= set(found)
        if closed:
            edges = tuple(held[one] for one in found)
            length = sum(edge.sewn_length for _, edge in edges)
            yield EdgeRing(edges, length * (2.0 if mirrored else 1.0), mirrored)


def _row(
    name: _Name, held: dict[_Name, tuple[Piece, Edge]], links: dict[_End, set[_End]]
) -> tuple[list[_Name], bool, bool]:
    """All edges that run on from one of them; whether a mirror image closes the row, and whether it is closed."""
    found, todo, mirrored, closed = [name], [name], False, True
    while todo:
        piece, edge = todo.pop()
        for at_start in (True, False):
            end = (piece, edge, at_start)
            ends = {one for one in links.get(end, ()) if one[:2] in held}
            mirrored = mirrored or end in ends
            closed = closed and bool(ends)
            fresh = [one[:2] for one in ends if one[:2] not in found]
            found += dict.fromkeys(fresh)
            todo += dict.fromkeys(fresh)
    return found, mirrored, closed


def _links(pattern: Pattern) -> dict[_End, set[_End]]:
    """Which ends of edges run on into which: an end that runs on into itself meets its mirror image."""
    links: dict[_End, set[_End]] = {}

    def link(one: _End, other: _End) -> None:
        links.setdefault(one, set()).add(other)
        links.setdefault(other, set()).add(one)

    for piece in pattern.pieces:
        count = len(piece.edges)
        for place, edge in enumerate(piece.edges):
            after = piece.edges[(place + 1) % count]
            here, there = (piece.name, edge.name, False), (piece.name, after.name, True)
            if place in piece.mouths:
                link(here, there)
            if edge.fold:
                link(there, there)
            if after.fold:
                link(here, here)
    # Layers that are sewn to each other lie on one another: a facing's neck is not the neck's other half
    faced = {
        frozenset(((one.piece, one.edge), (two.piece, two.edge)))
        for seam in pattern.seams
        for one in seam.a
        for two in seam.b
    }
    for joint in joints(pattern):
        if frozenset((piece.name, edge.name) for piece, edge in (joint.one, joint.other)) in faced:
            continue
        one, other = ((piece.name, edge.name, at_start) for piece, edge, at_start in (joint.one_end, joint.other_end))
        link(one, other)
    return links
