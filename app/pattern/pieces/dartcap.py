"""The cap of a dart: the edge at its mouth, shaped so that the seam runs on when the dart is closed and pressed.

The folded dart lies under the piece on the side it is pressed to, so its edge must be
the mirror image, in that leg, of the stitching line beside the leg. The tangent of
the stitching line at the leg's foot is mirrored and cut with the dart's centre line;
the other half mirrors the first in the centre line, where the dart is folded.
"""

from __future__ import annotations

from app.pattern.geometry import Path, Point, line_line

__all__ = ["dart_cap"]

#: A cap whose peak lies further from the mouth than this many intakes is no cap a maker could fold.
LONGEST_PEAK = 4.0
#: Measured from the tip, the peak lies at this share of the legs or more: less would cut into the dart.
LEAST_SHARE = 0.5


def dart_cap(a: Point, tip: Point, b: Point, *, beside: Point, pressed_to: str) -> Path | None:
    """The cap a -> peak -> b, in mm; None when the dart cannot be folded that way.

    `beside` is a unit vector along the stitching line from the foot of the leg the
    dart is pressed to, away from the dart. The legs need not be equal (a check says so):
    the centre line halves the angle at the tip.
    """
    foot_point, other = (a, b) if pressed_to == "a" else (b, a)
    middle = _centre(foot_point, tip, other)
    along = foot_point.plus(beside).mirrored(foot_point, tip)
    peak = line_line(foot_point, along, tip, middle)
    if peak is None or not _reaches(foot_point, along, peak):
        return None
    if peak.distance(foot_point) > LONGEST_PEAK * a.distance(b) or not _outward(foot_point, tip, peak):
        return None
    return Path.through(a, peak, b)


def _centre(foot_point: Point, tip: Point, other: Point) -> Point:
    """A second point of the line that halves the angle at the tip."""
    reach = tip.distance(foot_point)
    return foot_point.between(tip.toward(other, reach), 0.5)


def _reaches(start: Point, ahead: Point, peak: Point) -> bool:
    """True when the peak lies ahead of the start."""
    way, run = peak.minus(start), ahead.minus(start)
    return way.x * run.x + way.y * run.y > 0.0


def _outward(foot_point: Point, tip: Point, peak: Point) -> bool:
    """True when the peak lies out at the dart's mouth, not down in the dart or behind its tip."""
    leg, out = foot_point.minus(tip), peak.minus(tip)
    return leg.x * out.x + leg.y * out.y >= LEAST_SHARE * (leg.x * leg.x + leg.y * leg.y)
