"""The whole register of measurements, trunk first."""

from __future__ import annotations

from collections.abc import Mapping

from app.pattern.body.measures import Measure, by_name
from app.pattern.body.register_limbs import LIMB_MEASURES
from app.pattern.body.register_trunk import TRUNK_MEASURES

__all__ = ["MEASURES"]

#: Every measurement that a draft can ask for, by its name after ISO 8559-1.
MEASURES: Mapping[str, Measure] = by_name(TRUNK_MEASURES + LIMB_MEASURES)
