"""Both stitched lengths of each seam, and what the maker does about the difference."""

from __future__ import annotations

from dataclasses import dataclass

from app.pattern.pieces.measure import seam_lengths
from app.pattern.pieces.model import Pattern, Seam
from app.pattern.steps.words import side_in_words
from app.pattern.units import Unit, show_difference, show_length

__all__ = ["SeamNote", "seam_in_words", "seam_notes"]

#: Below this a difference is paper, not cloth: the tolerance of a walked seam, mm (common practice).
_EVEN = 0.5


@dataclass(frozen=True, slots=True)
class SeamNote:
    """A seam as it is walked: `index` in `Pattern.seams`, both sides in words and in stitched mm."""

    index: int
    kind: str
    a: str
    b: str
    a_length: float
    b_length: float

    @property
    def difference(self) -> float:
        """How much longer side a is than side b, mm; negative when it is shorter."""
        return self.a_length - self.b_length

    @property
    def even(self) -> bool:
        """True when both sides lie flat on each other."""
        return abs(self.difference) <= _EVEN

    @property
    def ratio(self) -> float:
        """Length of side a for each unit of side b."""
        return self.a_length / self.b_length if self.b_length else 1.0


def seam_notes(pattern: Pattern) -> tuple[SeamNote, ...]:
    """A note for each seam, in the pattern's order."""
    return tuple(_note(pattern, index, seam) for index, seam in enumerate(pattern.seams))


def _note(pattern: Pattern, index: int, seam: Seam) -> SeamNote:
    a_length, b_length = seam_lengths(pattern, seam)
    return SeamNote(
        index, seam.kind, side_in_words(pattern, seam.a), side_in_words(pattern, seam.b), a_length, b_length
    )


def seam_in_words(note: SeamNote, unit: Unit) -> str:
    """What to do with the seam, with its figures in the customer's unit."""
    a, b = show_length(note.a_length, unit), show_length(note.b_length, unit)
    if note.even:
        return f"{note.a} to {note.b}: {b} along each edge."
    if note.kind in ("gather", "elastic"):
        how = "on elastic " if note.kind == "elastic" else ""
        return f"Draw up {note.a} {how}from {a} to {b} to fit {note.b}, {note.ratio:.2f} to 1."
    longer, shorter = max(note.a_length, note.b_length), min(note.a_length, note.b_length)
    spare = show_difference(longer, shorter, unit)
    if note.difference < 0:
        return f"Stretch {note.a}, {a}, to {note.b}, {b}: {spare} to stretch."
    return f"Ease {note.a}, {a}, into {note.b}, {b}: {spare} to ease in."
