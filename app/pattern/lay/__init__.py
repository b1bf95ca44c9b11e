"""Lay plans: where each piece goes on the cloth, proved free of overlap by a second routine, and the length to buy."""

from app.pattern.lay.buying import ENDS, length_to_buy
from app.pattern.lay.convert import items_for
from app.pattern.lay.layers import LeastWidth, cannot_lay, least_width
from app.pattern.lay.model import (
    CLOTH_WIDTHS,
    EFFORT_FULL,
    EFFORT_QUICK,
    EFFORT_STEADY,
    FOLD_CLEAR,
    GAP,
    LayEffort,
    LayItem,
    LayPlan,
    Placement,
)
from app.pattern.lay.picture import lay_plan_svg
from app.pattern.lay.plan import lay_plan_for
from app.pattern.lay.verify import overlaps
from app.pattern.lay.words import FOLDED, ONE_WAY, OPEN, cloth_in_words, folded_or_open, laid

__all__ = [
    "CLOTH_WIDTHS",
    "EFFORT_FULL",
    "EFFORT_QUICK",
    "EFFORT_STEADY",
    "FOLD_CLEAR",
    "ENDS",
    "GAP",
    "LayEffort",
    "LayItem",
    "LayPlan",
    "LeastWidth",
    "Placement",
    "FOLDED",
    "ONE_WAY",
    "OPEN",
    "cloth_in_words",
    "cannot_lay",
    "folded_or_open",
    "items_for",
    "lay_plan_for",
    "lay_plan_svg",
    "least_width",
    "laid",
    "length_to_buy",
    "overlaps",
]
