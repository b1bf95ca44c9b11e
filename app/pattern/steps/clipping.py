"""Where to clip and where to notch: advice that follows from the curve of the stitching line.

An edge that bends inward (a neckline, an armhole) has an allowance too short to
spread, so it is clipped; one that bends outward (a sleeve cap's crown, a round
collar) has too much, so it is notched; both stop 1/8 in, 3 mm, short of the
stitching. Source: a school clothing textbook, p. 451 (g-wonlinetextbooks), and
sewingsupport.com. The limits of radius and spacing below are common practice.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from math import atan2, cos, inf, pi, radians, sin

from app.pattern.drafting.shapes.folded import on_paper
from app.pattern.pieces.model import Edge, EdgeRun, Pattern, Seam
from app.pattern.steps.words import side_in_words

__all__ = ["STOP_SHORT", "TRIM_INNER", "TRIM_OUTER", "ClipAdvice", "clip_advice"]

#: Clips and notches end this far from the stitching, mm: 1/8 in in the textbook.
STOP_SHORT = 3.0
#: Widths in mm to which the allowances of an enclosed seam are trimmed, the wider next to the outside of the
#: garment: 1/4 in and 1/8 in in the same textbook.
TRIM_OUTER, TRIM_INNER = 6.0, 3.0
_WALK = 5.0
_LEAST_TURN = radians(20)
_WIDEST_RADIUS = 300.0
_TIGHT_RADIUS = 100.0


@dataclass(frozen=True, slots=True)
class ClipAdvice:
    """What to do to a curved seam's allowance: `how` is "clip" or "notch", every `spacing` mm; radius in mm.

    `part` says along how much of the curve: "whole", or "tightest" on a seam with
    fullness, such as a set-in sleeve, whose upper part must keep its allowance.
    """

    seam: int
    how: str
    where: str
    radius: float
    spacing: float
    part: str = "whole"


@dataclass(frozen=True, slots=True)
class _Bend:
    """Turning in radians and tightest radius in mm of the parts of an edge that bend one way."""

    turn: float = 0.0
    radius: float = inf


def clip_advice(pattern: Pattern) -> tuple[ClipAdvice, ...]:
    """Advice for each seam with a real curve in it, in the pattern's order of seams."""
    found = (_for_seam(pattern, index, seam) for index, seam in enumerate(pattern.seams))
    return tuple(advice for some in found for advice in some)


def _for_seam(pattern: Pattern, index: int, seam: Seam) -> tuple[ClipAdvice, ...]:
    runs = (*seam.a, *seam.b)
    ways = [("clip", -1.0)]
    # Fullness that is eased or gathered in is pressed into the piece: cutting notches in it would weaken it.
    ways += [("notch", 1.0)] if seam.kind == "plain" else []
    found = (_one_way(pattern, index, runs, way) for way in ways)
    return tuple(advice for advice in found if advice is not None)


def _one_way(pattern: Pattern, index: int, runs: tuple[EdgeRun, ...], way: tuple[str, float]) -> ClipAdvice | None:
    how, sense = way
    bends = [(run, _bend(pattern.piece(run.piece).edge(run.edge), sense)) for run in runs]
    curved = [(run, bend) for run, bend in bends if bend.turn >= _LEAST_TURN and bend.radius <= _WIDEST_RADIUS]
    if not curved:
        return None
    radius = min(bend.radius for _, bend in curved)
    where = side_in_words(pattern, [replace(run, times=1) for run, _ in curved])
    part = "whole" if pattern.seams[index].kind == "plain" else "tightest"
    return ClipAdvice(index, how, where, radius, 10.0 if radius <= _TIGHT_RADIUS else 25.0, part)


def _bend(edge: Edge, sense: float) -> _Bend:
    """The parts of an edge that bend outward (`sense` 1) or inward (-1), seen from the piece."""
    outward = sense if edge.with_outline else -sense
    sewn = edge.sewn_length  # pleats and tucks are folded: their zigzag on the paper is no bend
    steps = max(1, round(sewn / _WALK))
    step = sewn / steps
    places = (on_paper(edge.folds, step * i) for i in range(steps + 1))
    angles = [atan2(t.y, t.x) for t in (edge.path.tangent_at(min(place, edge.path.length)) for place in places)]
    turns = [_wrapped(b - a) * outward for a, b in pairwise(angles)]
    bent = [turn for turn in turns if turn > 0]
    if not bent:
        return _Bend()
    return _Bend(sum(bent), step / max(bent))


def _wrapped(angle: float) -> float:
    """The same turn between -pi and pi."""
    return atan2(sin(angle), cos(angle)) if abs(angle) > pi else angle
