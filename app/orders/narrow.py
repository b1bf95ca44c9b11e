"""Cloths too narrow for a customer's pieces: told on her review, before she orders, with the one width that will do."""

from __future__ import annotations

from dataclasses import dataclass, replace

from app.orders.models import Fitting
from app.orders.preview import to_lay
from app.pattern.lay import Cloth, LeastWidth, least_width
from app.pattern.units import Unit, show_least_width, show_length

__all__ = ["NarrowCloth", "narrow_cloths", "too_narrow"]

#: A cloth may be this much narrower than a piece needs, mm: nobody measures cloth so closely.
_HAIR = 1e-6


@dataclass(frozen=True, slots=True)
class NarrowCloth:
    """A cloth on which a piece does not go: its fabric, what is wrong in words, and whether it goes laid open."""

    name: str
    title: str
    words: str
    goes_open: bool


def narrow_cloths(fitting: Fitting) -> tuple[NarrowCloth, ...]:
    """The fitting's cloths that are too narrow as she lays them; quick, since nothing is laid."""
    unit = Unit(fitting.unit)
    found = []
    for fabric, items, cloth in to_lay(fitting):
        least = least_width(items, cloth)
        if least is None or cloth.width >= least.mm - _HAIR:
            continue
        spread = least_width(items, replace(cloth, folded=False)) if cloth.folded else None
        goes_open = spread is not None and cloth.width >= spread.mm - _HAIR
        found.append(NarrowCloth(fabric.name, fabric.title, too_narrow(cloth, least, goes_open, unit), goes_open))
    return tuple(found)


def too_narrow(cloth: Cloth, least: LeastWidth, goes_open: bool, unit: Unit) -> str:
    """How wide a cloth is and how wide it must be at least, as it is laid, in the customer's unit."""
    laid = "Folded along its length" if cloth.folded else "Laid open"
    have, need = show_length(cloth.width, unit), show_least_width(least.mm, unit)
    words = f"{have} is too narrow. {laid}, this cloth must be at least {need} wide, for the piece “{least.piece}”."
    return f"{words} Laid open, in one layer, your {have} are enough." if goes_open else words
