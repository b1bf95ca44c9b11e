"""Two sides of a body that are not alike: what a pattern drawn alike on both sides leaves to whoever sews it.

Tapeline draws one half for both sides. So a lower shoulder or a higher hip is not drawn: it is told, with where to
leave cloth and where to take it away when the garment is tried on. Cloth can be taken away and not added, so the larger
side counts (common practice).
"""

from __future__ import annotations

from dataclasses import dataclass

from app.pattern.units import Unit, show_length

__all__ = ["ALIKE", "SIDES_MATTER_FROM", "Sides", "side_pairs", "sides_words"]

#: mm. Less than this is in nearly everybody and is lost in the cloth (common practice).
SIDES_MATTER_FROM = 5.0


@dataclass(frozen=True, slots=True)
class Sides:
    """Which shoulder is lower and which hip higher ("left" or "right", "" where both are alike), and by how many mm."""

    lower_shoulder: str = ""
    shoulder_mm: float = 0.0
    higher_hip: str = ""
    hip_mm: float = 0.0


ALIKE = Sides()
_OTHER = {"left": "right", "right": "left"}


def side_pairs(sides: Sides, unit: Unit) -> tuple[tuple[str, str], ...]:
    """Each difference as a title and a length; nothing where both sides are alike."""
    found = (
        (f"Lower shoulder, {sides.lower_shoulder}", sides.shoulder_mm),
        (f"Higher hip, {sides.higher_hip}", sides.hip_mm),
    )
    return tuple((title, show_length(mm, unit)) for title, mm in found if mm)


def sides_words(sides: Sides, unit: Unit) -> tuple[str, ...]:
    """What to do with each difference, as sentences for whoever sews; nothing where both sides are alike."""
    found = []
    if sides.lower_shoulder:
        side, by = sides.lower_shoulder, show_length(sides.shoulder_mm, unit)
        found.append(
            f"The {side} shoulder is {by} lower, and this pattern is drawn the same on both sides, for the "
            f"{_OTHER[side]} one. Try the garment on before sleeves or facings go in. Pin the {side} shoulder seam "
            f"deeper by up to {by} at the armhole, running out to nothing at the neck, and cut that armhole lower by "
            "as much under the arm; or fill the hollow with a shoulder pad of that height."
        )
    if sides.higher_hip:
        side, by = sides.higher_hip, show_length(sides.hip_mm, unit)
        found.append(
            f"The {side} hip is {by} higher, and this pattern is drawn the same on both sides. Cut the side edges {by} "
            "longer at the top, running out to nothing at the centre front and back. Try the garment on before the "
            "waist is finished, let the hem hang level, and take away again what is too long on the "
            f"{_OTHER[side]} side."
        )
    return tuple(found)
