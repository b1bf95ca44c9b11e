"""The lay planner: try the placers, let the second opinion judge every lay, and keep the shortest sound one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from shapely import affinity

from app.pattern.geometry import Point
from app.pattern.lay.buying import length_to_buy
from app.pattern.lay.layers import LayPart, parts_for, short_enough
from app.pattern.lay.model import EFFORT_FULL, LayEffort, LayItem, LayPlan, Placement, clear_of_fold
from app.pattern.lay.nest import nested
from app.pattern.lay.orders import lay_in_rows
from app.pattern.lay.rows import ClothRoom, Spot, turned_shape
from app.pattern.lay.shapes import label_spot
from app.pattern.lay.verify import overlaps
from app.pattern.pieces.model import Fabric
from app.pattern.problem import Place, Problem, Refused, Related

__all__ = ["lay_plan_for", "shortest_sound"]

#: So many pieces are laid with all the effort; of more, in fewer orders, but never in fewer than these.
_MANY, _LEAST_ORDERS = 24, 6


def lay_plan_for(
    items: Sequence[LayItem], cloth: Fabric, *, effort: LayEffort = EFFORT_FULL, seed: int = 1
) -> LayPlan | Refused:
    """The shortest sound lay plan found for the items on the cloth, or the problems that forbid one."""
    parts = parts_for(items, cloth)
    if isinstance(parts, Refused):
        return parts
    return shortest_sound((_plan_of(parts, spots, cloth) for spots in _tried(parts, cloth, effort, seed)), items)


def shortest_sound(plans: Iterable[LayPlan], items: Sequence[LayItem]) -> LayPlan | Refused:
    """The shortest of the plans that the second opinion passes, or what it has against the last of them."""
    best: LayPlan | None = None
    against: tuple[Problem, ...] = ()
    for plan in plans:
        found = overlaps(plan, items)
        against = found or against
        if not found and (best is None or plan.length < best.length):
            best = plan
    if best is not None:
        return best
    related = tuple(Related(problem.message, problem.where) for problem in against)
    fix = "Try a cloth of another width, or lay it open instead of folded."
    where = against[0].where if against else None
    return Refused.of(Problem("lay.unsound", "No lay was found that holds.", fix, where or Place(), related=related))


def _tried(parts: Sequence[LayPart], cloth: Fabric, effort: LayEffort, seed: int) -> Iterator[list[Spot]]:
    table = ClothRoom(cloth.depth, clear_of_fold(cloth), (False,) if cloth.one_way else (False, True))
    effort = _affordable(effort, sum(part.copies for part in parts))
    if any(part.held for part in parts):
        yield lay_in_rows(parts, table, effort.orders, seed)
        return
    # Neither placer is always the better one at so short a time; the nester gains more from a longer one.
    ours = lay_in_rows(parts, table, effort.beside, seed)
    yield ours
    if max(spot.x + parts[spot.part].shape.bounds[2] for spot in ours) > short_enough(parts):
        for run in range(effort.runs):
            yield nested(parts, table, effort.seconds, seed + run)


def _affordable(effort: LayEffort, count: int) -> LayEffort:
    """The effort for so many pieces: laying them once takes longer with the square of their number, so it is done less.

    For up to `_MANY` pieces, more than any garment of the catalogue has on one cloth, nothing changes.
    """
    share = min(1.0, (_MANY / count) ** 2)
    orders, beside = (max(_LEAST_ORDERS, round(tries * share)) for tries in (effort.orders, effort.beside))
    return effort if share == 1.0 else replace(effort, orders=orders, beside=beside)


def _plan_of(parts: Sequence[LayPart], spots: Sequence[Spot], cloth: Fabric) -> LayPlan:
    placements = tuple(_placement(parts[spot.part], spot) for spot in spots)
    length = max(x for placement in placements for x, _ in placement.outline)
    used = sum(parts[spot.part].shape.area * _outlines(parts[spot.part]) for spot in spots)
    ordered = tuple(sorted(placements, key=lambda p: (min(x for x, _ in p.outline), min(y for _, y in p.outline))))
    return LayPlan(cloth, length, length_to_buy(length, cloth.shrinkage), used / (cloth.width * length), ordered)


def _outlines(part: LayPart) -> int:
    """How many times the part's outline is cut out of cloth at one laying."""
    return 2 if part.held else part.layers


def _placement(part: LayPart, spot: Spot) -> Placement:
    shape = affinity.translate(turned_shape(part) if spot.turned else part.shape, spot.x, spot.y)
    ring = tuple(Point(x, y) for x, y in shape.exterior.coords[:-1])
    item = part.item
    return Placement(
        item.piece, ring, label_spot(shape), part.held, part.mirrored, spot.turned, part.layers, item.title
    )
