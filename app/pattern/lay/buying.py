"""The length of cloth to buy for a lay."""

from __future__ import annotations

from math import ceil

__all__ = ["ENDS", "SOLD_BY", "length_to_buy"]

#: Cloth lost to squaring both cut ends along a thread, mm together (common practice).
ENDS = 20.0
#: Shops cut cloth by the twentieth of a metre: the figure is rounded up to this, mm.
SOLD_BY = 50.0


def length_to_buy(used: float, shrinkage: float) -> float:
    """The length to buy in mm for `used` mm of lay: grown for shrinkage, with squared ends, rounded up to `SOLD_BY`."""
    needed = used / (1.0 - shrinkage) + ENDS
    return ceil(needed / SOLD_BY - 1e-9) * SOLD_BY
