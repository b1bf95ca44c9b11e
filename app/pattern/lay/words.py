"""How a cloth is laid, in the words of every page, sheet and command that tells of it."""

from __future__ import annotations

from app.pattern.pieces.model import Cloth, Fabric
from app.pattern.units import Unit, show_length

__all__ = ["FOLDED", "ONE_WAY", "OPEN", "cloth_in_words", "folded_or_open", "laid"]

FOLDED, OPEN, ONE_WAY = "folded along its length", "laid open", "all pieces one way"


def folded_or_open(cloth: Cloth | Fabric) -> str:
    """`folded along its length` or `laid open`."""
    return FOLDED if cloth.folded else OPEN


def laid(cloth: Cloth | Fabric) -> str:
    """`folded along its length`, or `laid open, all pieces one way`."""
    return f"{folded_or_open(cloth)}, {ONE_WAY}" if cloth.one_way else folded_or_open(cloth)


def cloth_in_words(cloth: Cloth | Fabric, unit: Unit) -> str:
    """`140 cm wide, folded along its length`."""
    return f"{show_length(cloth.width, unit)} wide, {laid(cloth)}"
