"""The search for a good order in which to lay the pieces: a few sensible orders, then small changes to a good one.

The count of orders is bounded, not the time, so that the same seed gives the same lay
on every machine.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from random import Random

from app.pattern.lay.layers import LayPart, short_enough
from app.pattern.lay.rows import ClothRoom, NextPart, ShiftTables, Spot, lay_down

__all__ = ["lay_in_rows"]

Order = tuple[NextPart, ...]

#: A change is kept when the lay is no longer than the one this many tries ago: so the search can leave a dead end.
PATIENCE = 20
#: After so many changes in a row that were tried before, the nearby orders are worn out and the search ends.
WORN_OUT = 200


def lay_in_rows(parts: Sequence[LayPart], table: ClothRoom, orders: int, seed: int) -> list[Spot]:
    """The shortest lay among `orders` tried on the cloth; the same for the same seed."""
    tables, enough = ShiftTables(parts, table), short_enough(parts)
    random = Random(seed)
    first = _first_orders(parts)[: max(1, orders)]
    best, spots, order = _best_of(first, tables)
    at, past, tried = best, [best] * PATIENCE, set(first)
    for trial in range(orders - len(first)):
        fresh = _fresh(order, tries=tried, turns=table.turns, random=random) if best > enough else None
        if fresh is None:
            break
        limit = max(past[trial % PATIENCE], at)
        length, laid = lay_down(fresh, tables, limit + 1e-6)
        if length <= limit:
            at, order = length, fresh
        if length < best - 1e-9:
            best, spots = length, laid
        past[trial % PATIENCE] = min(at, past[trial % PATIENCE])
    return spots


def _best_of(orders: Sequence[Order], tables: ShiftTables) -> tuple[float, list[Spot], Order]:
    laid = [(*lay_down(order, tables, float("inf")), order) for order in orders]
    return min(laid, key=lambda one: one[0])


def _first_orders(parts: Sequence[LayPart]) -> list[Order]:
    """Every copy of every part: by area, by length, by what is held, and by depth, each the largest first."""
    copies = [index for index, part in enumerate(parts) for _ in range(part.copies)]
    keys: list[Callable[[int], tuple[float, ...]]] = [
        lambda i: (-parts[i].shape.area, i),
        lambda i: (-parts[i].shape.bounds[2], i),
        lambda i: (not parts[i].held, -parts[i].shape.area, i),
        lambda i: (-parts[i].height, i),
    ]
    return [tuple(NextPart(i) for i in sorted(copies, key=key)) for key in keys]


def _fresh(order: Order, *, tries: set[Order], turns: Sequence[bool], random: Random) -> Order | None:
    """A change of the order not tried before (and now noted as tried); None when they seem worn out."""
    for _ in range(WORN_OUT):
        changed = _changed(order, turns, random)
        if changed not in tries:
            tries.add(changed)
            return changed
    return None


def _changed(order: Order, turns: Sequence[bool], random: Random) -> Order:
    """The order with one part turned, sent to the other side, moved elsewhere, or exchanged with another."""
    changed = list(order)
    a, b, kind = random.randrange(len(order)), random.randrange(len(order)), random.random()
    if kind < 0.25 and len(turns) > 1:
        changed[a] = replace(changed[a], turned=random.choice([None, *turns]))
    elif kind < 0.4:
        changed[a] = replace(changed[a], far=not changed[a].far)
    elif kind < 0.7:
        changed.insert(b, changed.pop(a))
    else:
        changed[a], changed[b] = changed[b], changed[a]
    return tuple(changed)
