"""Hems: those that meet at a seam are equally deep, and none is deeper than its piece or its trade.

Why: a hem of 4 cm that meets one of 3 cm cannot be turned up in one, and a figure that slipped by its unit (6 cm for
6 mm) cuts a garment of another length. Depths after T. Johnson, It's Fun to Sew: A Cotton School Dress
(Extension 4-H): 2 to 3 in on moderately flared skirts, up to 4 in on straight sheer ones, 1 1/2 in on
flared ones; that of tops and sleeves, up to 2 in, and of a turned strip, under half of its piece, are common
practice. A hem whose corners are left plain folds up straight: where the seams beside it slant, it comes to lie on
cloth that is wider or narrower than itself.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import pi, tan

import shapely

from app.pattern.checks.check import Check
from app.pattern.checks.finish import LEAST_HEM
from app.pattern.checks.hem_fullness import raw_and_landing
from app.pattern.checks.joints import free_edges, is_hem, joints
from app.pattern.checks.table import CuttingTable, LaidPiece, edge_place, finding
from app.pattern.checks.turns import turn_between
from app.pattern.names import dotted
from app.pattern.pieces.model import CornerCut, Edge, Pattern, Piece
from app.pattern.problem import Measured, Problem, Severity, Told
from app.pattern.units import mm

__all__ = ["CHECK", "DEEPEST", "FLARED", "UPPER"]

#: Depths (mm) beyond which a hem is asked about: of any piece, of a flared edge, of a top or a sleeve.
DEEPEST, FLARED, UPPER = 101.6, 76.2, 50.8
#: The raw edge of a flared hem is longer than the line it lands on by more than this share.
_FLARE = 0.04
#: Hems that meet may differ in depth by less than this, mm.
UNLIKE = 1.0
#: A hem takes up no more than this share of its piece.
_SHARE = 0.45
#: Of less than this (mm) nothing can be turned.
_NOTHING = 3.0
#: An edge with an allowance wider than this (mm) is turned up whatever it is called.
_TURNED = 20.0
#: A hem may land on cloth that is so much wider or narrower (mm) at an end.
_OFF = 5.0
#: How far a ray looks for the other side of a piece, mm.
_REACH = 3000.0
#: Edges so named lie on the upper part of the body; such a piece longer than this (mm) is a dress or a coat.
_UPPER = ("shoulder", "armhole", "scye", "neck", "cap")
_DRESS = 800.0


_UNLIKE = Told(
    "checks.hem-unlike",
    "Two hems that meet at a seam are of different depths. Sew that seam first, then trim the deeper hem to the other.",
    Severity.WARNING,
)
_DEEP = Told(
    "checks.hem-deep",
    "A hem is very deep for its piece. Measure where the finished edge should lie before you cut it.",
    Severity.WARNING,
)
_NONE = Told(
    "checks.hem-none",
    "A hem has no allowance to turn up. Bind its edge, or cut it wider.",
    Severity.WARNING,
)
_CORNER = Told(
    "checks.hem-corner",
    "At its ends a hem does not lie on the cloth it is turned up to. Fold it up on the paper before you cut, and cut "
    "its ends along the seams under it.",
    Severity.WARNING,
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every hem that is unlike the one it meets, too deep, or that will not lie flat at its ends."""
    pattern = table.pattern
    free = {(piece.name, edge.name): (piece, edge) for piece, edge in free_edges(pattern)}
    yield from _unlike(pattern, frozenset(free))
    laid = {one.piece.name: one for one in table.pieces}
    for piece, edge in free.values():
        if is_hem(edge) and not edge.finish and edge.allowance.width < _NOTHING:
            yield from _none(piece, edge)
        elif (is_hem(edge) or edge.allowance.width > _TURNED) and laid[piece.name].sound:
            yield from _deep(laid[piece.name], edge)
            if edge.allowance.corner is not CornerCut.TURNED_BACK:
                yield from _corners(piece, edge)


def _unlike(pattern: Pattern, free: frozenset[tuple[str, str]]) -> Iterator[Problem]:
    """Hems that meet at a seam and are not of one depth, each pair once."""
    told: set[frozenset[tuple[str, str]]] = set()
    for joint in joints(pattern):
        (piece, edge), (beside, across) = joint.one, joint.other
        names = (piece.name, edge.name), (beside.name, across.name)
        deep, depth = edge.allowance.width, across.allowance.width
        both = frozenset(names)
        if not both <= free or both in told or not _one_hem(edge, across) or abs(deep - depth) < UNLIKE:
            continue
        if _other_cloth(piece, beside):
            continue  # a lining bagged out at an edge has a hem of its own
        if min(deep, depth) < LEAST_HEM:
            continue  # one that cannot be turned is told as that
        told.add(both)
        one, other = dotted(*names[0]), dotted(*names[1])
        message = f"{one} has {mm(deep)} to turn up, and {other}, which it meets at a seam, {mm(depth)}."
        fix = "Give both the same, so that the hem can be turned up in one."
        see = (("the first hem", edge.span), ("the other hem", across.span), ("the seam", joint.seam.span))
        yield finding(_UNLIKE, message, fix, edge_place(piece, edge), see=see, measured=Measured(deep, depth, depth))


def _one_hem(one: Edge, other: Edge) -> bool:
    """Whether two edges are one hem: both are turned up, or one is and the other, of its name, does not say."""
    if is_hem(one) and is_hem(other):
        return True
    return (is_hem(one) or is_hem(other)) and one.name == other.name and not (one.finish and other.finish)


def _other_cloth(one: Piece, other: Piece) -> bool:
    """Whether two pieces have no cloth in common, as shell and lining: their hems are turned up each by itself."""
    return not {cut.fabric for cut in one.cuts} & {cut.fabric for cut in other.cuts}


def _none(piece: Piece, edge: Edge) -> Iterator[Problem]:
    width = edge.allowance.width
    message = f"{dotted(piece.name, edge.name)} is a hem and has {mm(width)} to turn up."
    fix = f"Give it the allowance that is turned up, or say how it is finished: finish {edge.name} bound"
    measured = Measured(width, _NOTHING)
    yield finding(_NONE, message, fix, edge_place(piece, edge), see=(("the edge", edge.span),), measured=measured)


def _deep(laid: LaidPiece, edge: Edge) -> Iterator[Problem]:
    piece, width = laid.piece, edge.allowance.width
    room = _room(laid, edge)
    most, why = _most(piece, edge, room)
    if width <= most + UNLIKE:
        return
    message = f"{dotted(piece.name, edge.name)} has {mm(width)} to turn up; {mm(most)} is the most {why}."
    fix = "Give it less, or check its unit: was it written in centimetres for millimetres?"
    see = (("the edge", edge.span),)
    yield finding(_DEEP, message, fix, edge_place(piece, edge), see=see, measured=Measured(width, None, most))


def _most(piece: Piece, edge: Edge, room: float) -> tuple[float, str]:
    """The deepest hem that passes on an edge (mm), and why."""
    raw, landing = raw_and_landing(edge)
    bounds = [(DEEPEST, "that is usual on a straight skirt"), (room * _SHARE, f"on a piece {mm(room)} deep there")]
    if landing > 0.0 and raw / landing - 1.0 > _FLARE:
        bounds.append((FLARED, "that is usual on a flared edge"))
    if is_hem(edge) and room < _DRESS and any(other.name.startswith(_UPPER) for other in piece.edges):
        bounds.append((UPPER, "that is usual on a top or a sleeve"))
    return min(bounds)


def _room(laid: LaidPiece, edge: Edge) -> float:
    """How deep the piece is, square to the edge at its quarters: the most of them, mm."""
    found = [0.0]
    for share in (0.25, 0.5, 0.75):
        at = edge.path.point_at(edge.path.length * share)
        way = edge.path.tangent_at(edge.path.length * share).scaled(1.0 if edge.with_outline else -1.0)
        into = shapely.LineString([(at.x, at.y), (at.x - way.y * _REACH, at.y + way.x * _REACH)])
        inside = into.intersection(laid.inside_stitching)
        parts = shapely.get_parts(inside)
        # The stretch that begins at the edge, not one beyond a hollow of the outline
        near = [part.length for part in parts if part.distance(shapely.Point(at.x, at.y)) < UNLIKE]
        found.append(max(near, default=0.0))
    return max(found)


def _corners(piece: Piece, edge: Edge) -> Iterator[Problem]:
    """The ends of a hem with plain corners beside slanting seams."""
    width, place = edge.allowance.width, piece.place_of(edge.name)
    count = len(piece.edges)
    if width <= _TURNED:
        return  # a narrow hem is eased in at its ends
    ends = ((piece.edges[place - 1], edge, (place - 1) % count), (edge, piece.edges[(place + 1) % count], place))
    for before, after, mouth in ends:
        if mouth in piece.mouths or before is after:
            continue
        lean = turn_between(before, after) - pi / 2.0
        off = 2.0 * width * tan(min(abs(lean), 1.2))
        beside = before if after is edge else after
        if off > _OFF:
            message = (
                f"{dotted(piece.name, edge.name)}, turned up by {mm(width)}, does not lie on its piece at "
                f"{beside.name}: it ends {mm(off)} {'beyond' if lean > 0.0 else 'short of'} that seam."
            )
            fix = f"Write: {edge.name} {mm(width).replace(' ', '')} turned back. Its ends are then cut to lie flat."
            see = (("the edge", edge.span),)
            yield finding(_CORNER, message, fix, edge_place(piece, edge), see=see, measured=Measured(off, None, _OFF))
            return


#: The check as every room knows it.
CHECK = Check("hems", "Hems", _run, (_UNLIKE, _DEEP, _NONE, _CORNER))
