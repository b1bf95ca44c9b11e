"""The general nester (spyrrow), for cloth on which no piece is held: open, or folded with nothing on the fold."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta

import spyrrow

from app.pattern.lay.layers import LayPart
from app.pattern.lay.rows import ClothRoom, Spot
from app.pattern.lay.shapes import REACH, grown

__all__ = ["nested"]

#: The nester refuses a piece exactly as wide as the strip: it is told of a strip this much wider.
HAIR = 1.0001
#: The share of a run's time for first finding lays; the rest is for pressing the best one together.
EXPLORING = 0.75


def nested(parts: Sequence[LayPart], table: ClothRoom, seconds: float, seed: int) -> list[Spot]:
    """A short lay on the cloth, clear of the fold, after about `seconds`.

    One seed follows one path, but the clock ends it: two runs may differ a little, so
    a plan is kept, never worked out again. The shapes must have been checked: bad
    input makes the nester panic.
    """
    angles = [180.0 if turned else 0.0 for turned in table.turns]
    items = [spyrrow.Item(str(i), _ring(part), part.copies, angles) for i, part in enumerate(parts)]
    strip = spyrrow.StripPackingInstance("lay", (table.depth - table.clear + 2.0 * REACH) * HAIR, items)
    config = spyrrow.StripPackingConfig(
        exploration_time=1, compression_time=1, total_computation_time=None, num_workers=1, seed=seed
    )
    config.exploration_time = timedelta(seconds=seconds * EXPLORING)  # the constructor takes whole seconds only
    config.compression_time = timedelta(seconds=seconds * (1.0 - EXPLORING))
    solution = strip.solve(config)
    spots = [_spot(placed, parts, table) for placed in solution.placed_items]
    start = min(spot.x for spot in spots)
    return [Spot(spot.part, spot.turned, spot.x - start, spot.y) for spot in spots]


def _ring(part: LayPart) -> list[tuple[float, float]]:
    return [(float(x), float(y)) for x, y in grown(part.shape).exterior.coords]


def _spot(placed: spyrrow.PlacedItem, parts: Sequence[LayPart], table: ClothRoom) -> Spot:
    """The placed shape's left and lower bounds on the cloth; the nester turns about the origin, then moves."""
    index = int(placed.id)
    _, _, width, height = parts[index].shape.bounds
    turned = round(placed.rotation) % 360 == 180
    dx, dy = placed.translation
    x, y = (dx - width, dy - height) if turned else (dx, dy)
    # Held to the cloth's edges exactly; the hair by which a piece may be off is far less than the gap beside it.
    return Spot(index, turned, x, min(max(y - REACH + table.clear, table.clear), table.depth - height))
