"""The second opinion: whether a lay plan holds, judged from the items and outlines by none of the placers' routines."""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, cos, pi, remainder, sin

from shapely import Polygon, STRtree, affinity, box

from app.pattern.geometry import Point
from app.pattern.lay.buying import length_to_buy
from app.pattern.lay.model import FOLD_CLEAR, LayItem, LayPlan, Placement
from app.pattern.pieces.model import Fabric
from app.pattern.problem import Place, Problem

__all__ = ["overlaps"]

Fold = tuple[Point, Point]

#: Two outlines may share this much, mm2: the noise of floating point, not cloth.
SHARED = 0.01
#: A point may lie this far beyond an edge of the cloth, mm: as above.
BEYOND = 1e-6
#: A laid outline may differ from the item's by this much of its length, mm: the snapping of a fold edge to its line.
DRIFT = 0.1


def overlaps(plan: LayPlan, items: Sequence[LayItem]) -> tuple[Problem, ...]:
    """Everything wrong with a lay; empty when it is sound.

    No two outlines overlap, all lie inside the cloth, each item is cut as often as it
    should be, in an allowed direction and on the right side, with its fold on the
    fold, and the plan's figures follow from its outlines.
    """
    shapes = [Polygon(placement.outline) for placement in plan.placements]
    problems = [
        _problem("lay.bad-outline", p, "is not a plain outline")
        for p, s in zip(plan.placements, shapes, strict=True)
        if not s.is_valid
    ]
    if problems:
        return tuple(problems)
    return (
        *_overlapping(plan, shapes),
        *_outside(plan, shapes),
        *_crowding(plan, shapes),
        *_miscounted(plan, items),
        *_misdirected(plan, items, shapes),
        *_misstated(plan, shapes),
    )


def _problem(code: str, placement: Placement, what: str) -> Problem:
    at = placement.label
    return Problem(
        code, f"{placement.title or placement.piece} {what}.", "Plan the lay again.", Place(placement.piece, at=at)
    )


def _overlapping(plan: LayPlan, shapes: Sequence[Polygon]) -> tuple[Problem, ...]:
    first, second = STRtree(shapes).query(shapes, predicate="intersects")
    pairs = sorted({(min(i, j), max(i, j)) for i, j in zip(first.tolist(), second.tolist(), strict=True) if i != j})
    return tuple(
        _problem("lay.overlap", plan.placements[i], f"overlaps {plan.placements[j].title} by {area:.2f} mm²")
        for i, j in pairs
        if (area := shapes[i].intersection(shapes[j]).area) > SHARED
    )


def _outside(plan: LayPlan, shapes: Sequence[Polygon]) -> tuple[Problem, ...]:
    depth = plan.cloth.width / 2.0 if plan.cloth.folded else plan.cloth.width
    table = box(-BEYOND, -BEYOND, plan.length + BEYOND, depth + BEYOND)
    return tuple(
        _problem("lay.outside", placement, "lies beyond the edge of the cloth")
        for placement, shape in zip(plan.placements, shapes, strict=True)
        if not table.covers(shape)
    )


def _crowding(plan: LayPlan, shapes: Sequence[Polygon]) -> tuple[Problem, ...]:
    """On folded cloth what is not cut on the fold keeps clear of it."""
    if not plan.cloth.folded:
        return ()
    return tuple(
        _problem("lay.near-fold", placement, "lies so near the fold that it may be taken for a piece on the fold")
        for placement, shape in zip(plan.placements, shapes, strict=True)
        if not placement.on_fold and shape.bounds[1] < FOLD_CLEAR - BEYOND
    )


def _miscounted(plan: LayPlan, items: Sequence[LayItem]) -> tuple[Problem, ...]:
    wanted: dict[str, tuple[int, int]] = {}
    for item in items:
        over = item.count // 2 if item.pair and not item.on_fold and not plan.cloth.folded else 0
        count, turned_over = wanted.get(item.piece, (0, 0))
        wanted[item.piece] = (count + item.count, turned_over + over)
    given = dict.fromkeys(wanted, (0, 0))
    for placement in plan.placements:
        count, turned_over = given.get(placement.piece, (0, 0))
        given[placement.piece] = (count + placement.gives, turned_over + placement.mirrored)
    return tuple(
        _miscount(piece, given[piece], wanted.get(piece, (0, 0)))
        for piece in given
        if given[piece] != wanted.get(piece)
    )


def _miscount(piece: str, given: tuple[int, int], wanted: tuple[int, int]) -> Problem:
    message = f"{piece} is cut {given[0]} times ({given[1]} turned over) instead of {wanted[0]} times ({wanted[1]})."
    return Problem("lay.miscounted", message, "Plan the lay again.", Place(piece))


def _misdirected(plan: LayPlan, items: Sequence[LayItem], shapes: Sequence[Polygon]) -> tuple[Problem, ...]:
    problems: list[Problem] = []
    for placement, shape in zip(plan.placements, shapes, strict=True):
        if placement.turned and plan.cloth.one_way:
            problems.append(_problem("lay.wrong-way", placement, "is turned on a cloth with one direction"))
        if not _layers_allowed(placement, plan.cloth):
            problems.append(_problem("lay.wrong-layers", placement, "needs the cloth folded"))
        mine = [item for item in items if item.piece == placement.piece]
        if placement.layers == 2 and not placement.on_fold and not any(item.pair for item in mine):
            problems += _one_sided(placement, shape, plan.cloth)
        if mine and not any(_lies_as(item, placement, shape) for item in mine):
            problems.append(_problem("lay.wrong-shape", placement, "does not lie as its outline, grain and fold ask"))
    return tuple(problems)


def _one_sided(placement: Placement, shape: Polygon, cloth: Fabric) -> tuple[Problem, ...]:
    """Cut through two layers, one piece comes out reversed: wrong unless it is its own mirror image."""
    x, y = shape.envelope.centroid.coords[0]
    images = [affinity.scale(shape, 1.0, -1.0, origin=(x, y))]
    images += [] if cloth.one_way else [affinity.scale(shape, -1.0, 1.0, origin=(x, y))]
    if any(image.symmetric_difference(shape).area <= DRIFT * shape.length for image in images):
        return ()
    return (_problem("lay.reversed", placement, "would come out reversed from the second layer"),)


def _layers_allowed(placement: Placement, cloth: Fabric) -> bool:
    if cloth.folded:
        return placement.layers == 2 if placement.on_fold else placement.layers in (1, 2)
    return placement.layers == 1 and not placement.on_fold


def _lies_as(item: LayItem, placement: Placement, shape: Polygon) -> bool:
    """Is the shape the item's outline, turned and turned over as the placement says, and with its fold on the fold?"""
    expected = Polygon(item.outline)
    if item.fold is not None and item.on_fold:
        expected = _on_fold(expected, item.fold) if placement.on_fold else _opened(expected, item.fold)
    elif placement.on_fold:
        return False
    along = -1.0 if placement.turned else 1.0
    across = 1.0 if placement.on_fold else (-along if placement.mirrored else along)
    expected = affinity.scale(expected, along, across, origin=(0.0, 0.0))
    shift_x, shift_y = (shape.bounds[k] - expected.bounds[k] for k in (0, 1))
    expected = affinity.translate(expected, shift_x, 0.0 if placement.on_fold else shift_y)
    return bool(shape.symmetric_difference(expected).area <= DRIFT * shape.length)


def _on_fold(half: Polygon, fold: Fold) -> Polygon:
    """The half with its fold levelled (by the least turn) onto y = 0, above it."""
    (ax, ay), (bx, by) = fold
    level = affinity.rotate(half, -remainder(atan2(by - ay, bx - ax), pi), origin=(ax, ay), use_radians=True)
    level = affinity.translate(level, 0.0, -ay)
    return level if level.centroid.y > 0.0 else affinity.scale(level, 1.0, -1.0, origin=(0.0, 0.0))


def _opened(half: Polygon, fold: Fold) -> Polygon:
    """The half and its reflection in the line of the fold, as one."""
    (ax, ay), (bx, by) = fold
    twice = 2.0 * atan2(by - ay, bx - ax)
    c, s = cos(twice), sin(twice)
    image = affinity.affine_transform(half, [c, s, s, -c, ax - c * ax - s * ay, ay - s * ax + c * ay])
    seam = 0.01  # closes the hair between the two halves, mm
    whole = half.buffer(seam, join_style="mitre").union(image.buffer(seam, join_style="mitre"))
    return Polygon(whole.exterior) if isinstance(whole, Polygon) else half


def _misstated(plan: LayPlan, shapes: Sequence[Polygon]) -> tuple[Problem, ...]:
    """Do the length, the length to buy and the share of the cloth used follow from the outlines?"""
    reach = max((shape.bounds[2] for shape in shapes), default=0.0)
    used = sum(s.area * (2 if p.on_fold else p.layers) for p, s in zip(plan.placements, shapes, strict=True))
    said = (plan.length, plan.buy, plan.utilisation)
    true = (reach, length_to_buy(reach, plan.cloth.shrinkage), used / (plan.cloth.width * reach) if reach else 0.0)
    if all(abs(one - other) <= 1e-6 * max(1.0, other) for one, other in zip(said, true, strict=True)):
        return ()
    message = (
        f"The lay says {plan.length:.1f} mm, {plan.buy:.0f} to buy; its outlines give {reach:.1f} and {true[1]:.0f}."
    )
    return (Problem("lay.misstated", message, "Plan the lay again.", Place(point=plan.cloth.name)),)
