"""Lay plans: where each piece goes on the cloth, proved free of overlap by a second routine, and the length to buy."""

from app.pattern.lay.buying import ENDS, length_to_buy
from app.pattern.lay.convert import cloth_of, items_for
from app.pattern.lay.layers import LeastWidth, least_width
from app.pattern.lay.model import (
    CLOTH_WIDTHS,
    EFFORT_FULL,
    EFFORT_QUICK,
    EFFORT_STEADY,
    FOLD_CLEAR,
    GAP,
    Cloth,
    Effort,
    LayItem,
    LayPlan,
    Placement,
)
from app.pattern.lay.picture import lay_svg
from app.pattern.lay.plan import FoldChoice, best_fold, cannot_lay, plan
from app.pattern.lay.verify import overlaps

__all__ = [
    "CLOTH_WIDTHS",
    "EFFORT_FULL",
    "EFFORT_QUICK",
    "EFFORT_STEADY",
    "FOLD_CLEAR",
    "ENDS",
    "GAP",
    "Cloth",
    "Effort",
    "FoldChoice",
    "LayItem",
    "LayPlan",
    "LeastWidth",
    "Placement",
    "best_fold",
    "cannot_lay",
    "cloth_of",
    "items_for",
    "lay_svg",
    "least_width",
    "length_to_buy",
    "overlaps",
    "plan",
]
