"""Dart work: pivoting a dart to another seam, all of it or a share, and backing it off its point."""

from __future__ import annotations

from dataclasses import replace
from math import atan2, cos, sin

from app.pattern.drafting.errors import CannotDraw
from app.pattern.drafting.kinds import DartShape, Direction
from app.pattern.drafting.shapes.shape import Inside, Item, Shape, ShapeDart, Side, outline_path
from app.pattern.drafting.shapes.where import carried, region, side_of, split_side
from app.pattern.geometry import Path, Point, Transform
from app.pattern.units import mm_unlike

__all__ = ["back_off", "opening", "pivot"]

_ALL = 1.0 - 1e-9


def pivot(shape: Shape, dart_name: str, point: Point, share: float, new_name: str) -> Shape:
    """Close a share (0..1) of a dart and open it as a new dart at a point of the outline, both with the same tip.

    The paper between the dart and the point is turned about the tip, as with a pin
    through it. Lengths of sides do not change; the side at the point is cut in two,
    `name_1` and `name_2` in the direction of travel; one at whose end the point lies stays whole.
    """
    if not 0.0 < share <= 1.0:
        raise CannotDraw("drafting.share", f"A share of {share:g} cannot be moved.", "Give more than 0 and at most 1.")
    held = shape.dart(dart_name)
    index = shape.items.index(held)
    chain = shape.from_item(index)
    at, along = side_of(shape, point)
    cut = (at - index) % len(shape.items)
    moved, still = _parts(chain, cut, along)
    turn = Transform.turn(share * opening(held.dart), held.dart.tip)
    stays, turned = [*still], [item.moved(turn) for item in moved]
    corner = still[0].start
    opened = ShapeDart(new_name, _new_dart(held.dart, turn.apply(corner), corner))
    closed = _remaining(held, turn, share)
    items = (*closed, *turned, opened, *stays)
    inside = _inside(shape, held.dart.tip, moved, turn)
    return Shape(items, inside, shape.log)


def _parts(chain: tuple[Item, ...], cut: int, along: float) -> tuple[list[Item], list[Item]]:
    """The items from the dart to the point, and from the point back to the dart, the cut side renamed in two."""
    side = chain[cut]
    if not isinstance(side, Side):
        raise CannotDraw("drafting.not-a-side", "The new dart must open on a side.", "Choose a point on a side.")
    before, after = split_side(side, along)
    # At the end of a side there is nothing to cut, and it keeps its name
    first = [replace(before, name=f"{side.name}_1") if after else before] if before else []
    last = [replace(after, name=f"{side.name}_2") if before else after] if after else []
    moved, still = [*chain[1:cut], *first], [*last, *chain[cut + 1 :]]
    if not moved or not still:
        raise CannotDraw("drafting.pivot", "The new dart would open where the old one is.", "Move it further away.")
    return moved, still


def opening(dart: DartShape) -> float:
    """The angle (signed, radians) that closes a dart: it brings leg b onto leg a, turning about the tip."""
    angle = dart.tip.angle_to(dart.a) - dart.tip.angle_to(dart.b)
    return atan2(sin(angle), cos(angle))


def _remaining(held: ShapeDart, turn: Transform, share: float) -> tuple[Item, ...]:
    """What is left of the old dart."""
    if share >= _ALL:
        return ()
    d = held.dart
    return (ShapeDart(held.name, DartShape(d.a, d.tip, turn.apply(d.b), d.pressed, d.clear_of, d.clear_by)),)


def _new_dart(old: DartShape, a: Point, b: Point) -> DartShape:
    """The new dart, pressed toward the centre of the sheet (its left), as darts in shoulder, neck and waist are."""
    sideways = Direction("toward", 0.0, a if a.x < b.x else b)
    return DartShape(a, old.tip, b, sideways, old.clear_of, old.clear_by)


def _inside(shape: Shape, tip: Point, moved: list[Item], turn: Transform) -> tuple[Inside, ...]:
    """Inside things, those on the paper that turned moved with it."""
    spoke_out = Path.through(tip, moved[0].start)
    spoke_in = Path.through(moved[-1].end, tip)
    area = region(Path.of((*spoke_out.segments, *outline_path(moved).segments, *spoke_in.segments)))
    flags = carried(shape.inside, area)
    return tuple(thing.moved(turn) if there else thing for thing, there in zip(shape.inside, flags, strict=True))


def back_off(shape: Shape, dart_name: str, distance: float) -> Shape:
    """Shorten a dart: its tip moves toward its mouth by `distance` mm, its mouth stays."""
    held = shape.dart(dart_name)
    d = held.dart
    mouth = d.a.between(d.b, 0.5)
    if not 0.0 <= distance < d.tip.distance(mouth):
        long, by = mm_unlike(d.tip.distance(mouth), distance)
        raise CannotDraw(
            "drafting.back-off",
            f"The dart is {long} long and cannot be backed off by {by}.",
            "Back it off by less.",
        )
    shorter = DartShape(d.a, d.tip.toward(mouth, distance), d.b, d.pressed, d.clear_of, d.clear_by)
    items = tuple(ShapeDart(held.name, shorter) if item is held else item for item in shape.items)
    return Shape(items, shape.inside, shape.log)
