"""From items and a cloth to parts: what is laid how often, through how many layers, over the fold or not."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil, isfinite

from shapely import Polygon, affinity

from app.pattern.lay.model import MOST_PIECES, LayItem, clear_of_fold
from app.pattern.lay.shapes import REACH, half_above_fold, polygon_of, reversible, settled, unfolded
from app.pattern.pieces.model import Fabric
from app.pattern.problem import Place, Problem, Refused

__all__ = ["LeastWidth", "LayPart", "cannot_lay", "least_width", "parts_for", "short_enough"]


@dataclass(frozen=True, slots=True)
class LayPart:
    """One outline to lay `copies` times, each cutting through `layers`; `held`: half a piece, its fold at y = 0.

    `shape` is settled: its left and lower bounds are at zero.
    """

    item: LayItem
    shape: Polygon
    copies: int
    layers: int
    mirrored: bool = False
    held: bool = False

    @property
    def height(self) -> float:
        """How far it reaches across the cloth, mm."""
        return float(self.shape.bounds[3])


@dataclass(frozen=True, slots=True)
class LeastWidth:
    """The usable width in mm of the narrowest cloth on which all pieces go, and the title of the one that needs it."""

    mm: float
    piece: str


def least_width(items: Sequence[LayItem], cloth: Fabric) -> LeastWidth | None:
    """How wide a cloth that is laid as this one must be at least; None where no lay could be tried at all."""
    if _cloth_problems(cloth) or _list_problems(items, cloth):
        return None
    outcomes = [_parts_of(item, cloth) for item in items]
    parts = [part for outcome in outcomes if not isinstance(outcome, Refused) for part in outcome]
    return _least(parts, cloth) if parts else None


def _least(parts: Sequence[LayPart], cloth: Fabric) -> LeastWidth:
    layers = 2.0 if cloth.folded else 1.0
    needs = [((part.height + (0.0 if part.held else clear_of_fold(cloth))) * layers, part.item.title) for part in parts]
    return LeastWidth(*max(needs))


def parts_for(items: Sequence[LayItem], cloth: Fabric) -> tuple[LayPart, ...] | Refused:
    """The parts to lay, or everything that stands in the way of laying them."""
    if early := (*_cloth_problems(cloth), *_list_problems(items, cloth)):
        return Refused(early)
    parts: list[LayPart] = []
    problems: list[Problem] = []
    for item in items:
        outcome = _parts_of(item, cloth)
        if isinstance(outcome, Refused):
            problems += outcome.problems
        else:
            parts += outcome
    wide = [part for part in parts if part.height > _room(part, cloth) + 1e-6]
    remedy = _wider(items, _least(wide, cloth), cloth) if wide else ""
    problems += [_too_wide(part, cloth, remedy) for part in wide]
    return Refused(tuple(dict.fromkeys(problems))) if problems else tuple(parts)


def cannot_lay(items: Sequence[LayItem], cloth: Fabric) -> tuple[Problem, ...]:
    """Why the items do not go on the cloth, however they are laid; empty when they do. Quick: nothing is laid."""
    parts = parts_for(items, cloth)
    return parts.problems if isinstance(parts, Refused) else ()


def short_enough(parts: Sequence[LayPart]) -> float:
    """A length in mm that no search need go below: the longest part, or all the fold edges one after the other."""
    longest = max(float(part.shape.bounds[2]) for part in parts)
    along_fold = sum(part.copies * (_on_fold(part.shape) + 2.0 * REACH) for part in parts if part.held)
    return max(longest, along_fold)


def _on_fold(half: Polygon) -> float:
    """How much of the fold a half takes up, mm."""
    xs = [x for x, y in half.exterior.coords if y == 0.0]
    return float(max(xs) - min(xs))


def _cloth_problems(cloth: Fabric) -> tuple[Problem, ...]:
    if not (isfinite(cloth.width) and cloth.width > 0.0):
        message = f"{cloth.title} has no usable width."
        return (Problem("lay.bad-width", message, "Enter the width between the selvedges.", Place(point=cloth.name)),)
    if not 0.0 <= cloth.shrinkage < 0.5:
        message = f"{cloth.title} cannot shrink by {cloth.shrinkage:.0%} of its length."
        fix = "Enter the shrinkage as a share of the length, under a half."
        return (Problem("lay.bad-shrinkage", message, fix, Place(point=cloth.name)),)
    return ()


def _list_problems(items: Sequence[LayItem], cloth: Fabric) -> tuple[Problem, ...]:
    if not items:
        message = f"There is nothing to cut from {cloth.title}."
        return (Problem("lay.nothing", message, "Give a piece this fabric.", Place(point=cloth.name)),)
    uncounted = [item for item in items if item.count < 1]
    if uncounted:
        message = f"{uncounted[0].title} is to be cut {uncounted[0].count} times."
        return (Problem("lay.bad-count", message, "Cut at least one.", Place(uncounted[0].piece)),)
    total = sum(item.count for item in items)
    if total > MOST_PIECES:
        message = f"{total} pieces are to be cut from one cloth; a plan takes at most {MOST_PIECES}."
        return (Problem("lay.too-many", message, "Check the counts of the pieces.", Place(point=cloth.name)),)
    return ()


def _parts_of(item: LayItem, cloth: Fabric) -> list[LayPart] | Refused:
    outline = polygon_of(item.outline)
    if outline is None:
        message = f"The cutting outline of {item.title} crosses itself or encloses nothing."
        return Refused.of(Problem("lay.bad-outline", message, "Mend the outline of the piece.", Place(item.piece)))
    if not item.on_fold:
        return _loose_parts(item, settled(outline), cloth)
    if item.fold is None:
        message = f"{item.title} is to be cut on the fold but has no fold edge."
        fix = "Name the straight edge that lies on the fold."
        return Refused.of(Problem("lay.no-fold", message, fix, Place(item.piece)))
    whole = unfolded(outline, item.fold)
    if whole is None:
        message = f"The fold edge of {item.title} is not a straight outer edge of the piece."
        fix = "Make the fold a straight edge of the outline."
        return Refused.of(Problem("lay.bad-fold", message, fix, Place(item.piece)))
    half = half_above_fold(outline, item.fold) if cloth.folded else None
    if half is not None:
        return [LayPart(item, half, item.count, 2, held=True)]
    return [LayPart(item, settled(whole), item.count, 1)]


def _loose_parts(item: LayItem, outline: Polygon, cloth: Fabric) -> list[LayPart]:
    if not cloth.folded:
        over = item.count // 2 if item.pair else 0
        parts = [LayPart(item, outline, item.count - over, 1)]
        if over:
            parts.append(LayPart(item, settled(affinity.scale(outline, 1.0, -1.0)), over, 1, mirrored=True))
        return parts
    # Cutting through doubled cloth gives a piece and its mirror image: right for a pair and for what is its own
    # mirror image; every other piece is laid once for each and cut through one layer, so that none comes out reversed.
    turns = (0,) if cloth.one_way else (0, 180)
    if item.count > 1 and (item.pair or reversible(outline, turns=turns)):
        double = LayPart(item, outline, item.count // 2, 2)
        return [double, LayPart(item, outline, 1, 1)] if item.count % 2 else [double]
    return [LayPart(item, outline, item.count, 1)]


def _room(part: LayPart, cloth: Fabric) -> float:
    """How far across the cloth the part may reach, mm: a loose one keeps clear of the fold."""
    return cloth.depth if part.held else cloth.depth - clear_of_fold(cloth)


def _too_wide(part: LayPart, cloth: Fabric, remedy: str) -> Problem:
    have = f"half of {cloth.title} has" if cloth.folded else f"{cloth.title} has"
    message = (
        f"{part.item.title} is {part.height / 10:.1f} cm across the cloth; {have} {_room(part, cloth) / 10:.1f} cm."
    )
    return Problem("lay.too-wide", message, remedy, Place(part.item.piece))


def _wider(items: Sequence[LayItem], least: LeastWidth, cloth: Fabric) -> str:
    """What to do about a cloth too narrow for some pieces: one remedy, that serves all of them."""
    spread = least_width(items, replace(cloth, folded=False)) if cloth.folded else None
    if spread is not None and spread.mm <= cloth.width + 1e-6:
        return f"Lay the cloth open, or take one at least {ceil(least.mm / 10.0)} cm wide."
    return f"Take a cloth at least {ceil(least.mm / 10.0)} cm wide, or divide the piece with a seam."
