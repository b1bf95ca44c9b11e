"""Both stitched lengths of each seam, and what the maker does about the difference."""

from __future__ import annotations

from dataclasses import dataclass

from app.pattern.pieces.measure import seam_lengths
from app.pattern.pieces.model import EdgeRun, Pattern, Piece, Seam
from app.pattern.steps.words import side_in_words
from app.pattern.units import Unit, show_length

__all__ = ["SeamNote", "seam_in_words", "seam_notes"]

#: Below this a difference is paper, not cloth: the tolerance of a walked seam, mm (common practice).
_EVEN = 0.5
#: Ends nearer than this are the same point, mm.
_TOUCHING = 0.01


@dataclass(frozen=True, slots=True)
class SeamNote:
    """A seam as it is walked: `index` in `Pattern.seams`, both sides in words and in stitched mm.

    `halves` is 2 when the seam runs on over the fold of a piece cut on the fold: then the
    lengths walked are those of one half, and the maker sews two of them in one.
    """

    index: int
    kind: str
    a: str
    b: str
    a_length: float
    b_length: float
    halves: int = 1

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
    a, b = side_in_words(pattern, seam.a), side_in_words(pattern, seam.b)
    a_length, b_length = seam_lengths(pattern, seam)
    over_fold = any(_over_fold(pattern.piece(run.piece), run) for run in (*seam.a, *seam.b))
    return SeamNote(index, seam.kind, a, b, a_length, b_length, 2 if over_fold else 1)


def _over_fold(piece: Piece, run: EdgeRun) -> bool:
    """True when the edge runs on into its mirror image, and the seam has not counted that already."""
    fold = piece.fold_edge
    if fold is None or run.times > 1:
        return False
    path = piece.edge(run.edge).path
    ends = (fold.path.start, fold.path.end)
    return any(own.distance(end) < _TOUCHING for own in (path.start, path.end) for end in ends)


def seam_in_words(note: SeamNote, unit: Unit) -> str:
    """What to do with the seam, with its figures in the customer's unit, both halves together where it has two."""
    a_length, b_length = note.a_length * note.halves, note.b_length * note.halves
    a, b = show_length(a_length, unit), show_length(b_length, unit)
    # What is eased in is told beside the shorter length alone: three figures rounded by themselves need not add up.
    spare = show_length(abs(a_length - b_length), unit)
    other = "the same edge of the other one" if note.a == note.b else note.b
    both = " (both halves together)" if note.halves == 2 else ""
    if note.even:
        return f"{note.a} to {other}: {b} along each edge{both}."
    if note.kind in ("gather", "elastic"):
        how = "on elastic " if note.kind == "elastic" else ""
        return f"Draw up {note.a} {how}from {a} to {b}{both} to fit {note.b}, {note.ratio:.2f} to 1."
    if note.kind == "short":
        # What lies on it is the shorter side; the rest of the longer one stays bare.
        ends = f"it ends {spare} short of it, as it is meant to."
        return f"Lay {note.a}, {a}{both}, flat on {note.b} from the same end: {ends}"
    if note.difference < 0:
        return f"Stretch {note.a}, {a}{both}, by {spare} to fit {note.b}."
    return f"Ease {note.a} into {note.b}, {b}{both}: {spare} to ease in."
