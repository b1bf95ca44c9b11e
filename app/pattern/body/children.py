"""What is known of children by stature: middling measurements, how far they differ, and what the register takes.

Chest, waist, hip, neck, upper arm, thigh, calf and shoulder width come from a survey of 1977, the legs from its
sitting height; what it lacks is our own estimate, from memory. Each file of `data/children-*.csv` says of each figure
where it comes from, and `ESTIMATED` names the measures that nobody measured for us.

A child of a stature is told by its sex (where it is known) and by how round it is. Roundness is the logarithm of its
waist over the middling waist; every other girth follows it by a power of its own. Waists are skewed: from 120 cm on
the roundest child in twenty is half as far again from the middle as the slightest.

Not known: how girths go together in one child (the powers are our own estimate), and children of today, who are
rounder than those of 1977.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from math import exp, expm1, hypot, log
from types import MappingProxyType

from app.pattern.body.register import MEASURES
from app.pattern.body.survey import rows_of

__all__ = [
    "ESTIMATED",
    "KNOWN_STATURES",
    "SEXES",
    "child",
    "child_hard",
    "child_spread",
    "filled_child",
    "roundness",
    "stray_of",
    "waist",
]

#: Statures in mm between which we have figures, and a little beyond.
KNOWN_STATURES = (800.0, 1700.0)
SEXES = ("boys", "girls")

_Points = tuple[tuple[float, float], ...]
#: How far a measure strays, given its name and its standard deviation as a share: a logarithm.
Stray = Callable[[str, float], float]


@dataclass(frozen=True, slots=True)
class _Row:
    """A measure by stature: mm where `of` is empty, else shares of that measure; the rest as in the data files."""

    name: str
    of: str
    figures: Mapping[str, _Points]
    round: float
    stray: float

    def figure(self, stature: float, sex: str | None) -> float:
        """The middling figure at a stature in mm; of boys and girls together where no sex is told."""
        sexes = SEXES if sex is None else (sex,)
        return sum(_straight(stature, self.figures[each]) for each in sexes) / len(sexes)


def _straight(at: float, points: _Points) -> float:
    """The figure at `at`, straight between the points and on beyond them."""
    begin = 0
    while begin < len(points) - 2 and at > points[begin + 1][0]:
        begin += 1
    (left, low), (right, high) = points[begin], points[begin + 1]
    return low + (high - low) * (at - left) / (right - left)


@cache
def _columns() -> Mapping[str, _Points]:
    """The columns of the waists and sitting heights of 1977, each by stature."""
    header, *rows = rows_of("children-waist-1977.csv")
    numbers = [dict(zip(header, map(float, row), strict=True)) for row in rows]
    return {column: tuple((row["stature"], row[column]) for row in numbers) for column in header}


def _of_waist(column: str, stature: float) -> float:
    return _straight(stature, _columns()[column])


@cache
def _rows() -> tuple[_Row, ...]:
    """Every measure that is not the sum of others, those that others are shares of first."""
    return (*_surveyed_rows(), *_estimated_rows())


def _surveyed_rows() -> Iterator[_Row]:
    for name, round_, stray in rows_of("children-spread.csv")[1:]:
        yield _Row(name, "stature", _shares()[name], float(round_), float(stray))


@cache
def _shares() -> Mapping[str, Mapping[str, _Points]]:
    """Shares of stature in the survey of 1977, by measure and sex."""
    header, *rows = rows_of("children-girths-1977.csv")
    statures = [float(stature) for stature in header[2:]]
    found: dict[str, dict[str, _Points]] = {}
    for name, sex, *cells in rows:
        # Taller children keep the last share: the survey's own are nearly grown.
        points = zip((*statures, 2 * statures[-1]), map(float, (*cells, cells[-1])), strict=True)
        found.setdefault(name, {})[sex] = tuple(points)
    return found


def _estimated_rows() -> Iterator[_Row]:
    header, *rows = rows_of("children-estimates.csv")
    statures = [float(column.removeprefix("at_")) for column in header[2:5]]
    for name, of, *cells in rows:
        *figures, round_, stray = map(float, cells[:5])
        points = dict.fromkeys(SEXES, tuple(zip(statures, figures, strict=True)))
        # The file gives mm, and no shares, where it goes by stature.
        yield _Row(name, "" if of == "stature" else of, points, round_, stray)


#: Standard deviations, as shares, of the measures that are worked out from others: what each strays by itself, and
#: what it strays in all. Our own estimate.
_SUM_STRAYS: Mapping[str, tuple[float, float]] = MappingProxyType(
    {
        "inside_leg_height": (0.016, 0.016),
        "waist_height": (0.0, 0.015),
        "outside_leg_length": (0.0, 0.018),
        "hip_height": (0.0, 0.020),
        "waist_to_knee": (0.0, 0.028),
        "back_waist_length": (0.015, 0.050),
        "front_waist_length": (0.020, 0.055),
        "neck_shoulder_point_to_waist": (0.020, 0.055),
    }
)
#: The back follows a curve from nape to waist and the front falls from the hollow of the throat (our own estimates,
#: from memory of what size tables give for 104 and 152 cm).
_BACK_CURVE, _FRONT_SHARE, _OVER_CHEST = 1.06, 0.87, 1.10
#: The crotch stands this share of the stature lower than the sitting height tells (the seat gives; our own estimate).
_SEAT_GIVES = 0.010
#: Measures that no survey at hand has of children.
ESTIMATED: tuple[str, ...] = tuple(
    name
    for name in MEASURES
    if name not in {"stature", "waist_girth", "inside_leg_height", *(row.name for row in _surveyed_rows())}
)


def waist(stature: float, score: float = 0.0, sex: str | None = None) -> float:
    """The waist in mm of a child whose score is so many standard deviations from the middle."""
    skew, spread = _of_waist("skew", stature), _of_waist("spread", stature)
    return stature * _middle(stature, sex) * (1.0 + spread * expm1(skew * score) / skew)


def roundness(stature: float, girth: float, sex: str | None = None) -> float:
    """How round a child is by its waist in mm: a logarithm, 0 in the middle."""
    return log(girth / (stature * _middle(stature, sex)))


def _middle(stature: float, sex: str | None) -> float:
    """The middling waist as a share of stature: by stature for both, as much more or less as a sex has by age."""
    both = _of_waist("middle", stature)
    if sex is None:
        return both
    share = {each: _straight(stature, points) for each, points in _shares()["waist_girth"].items()}
    return both * share[sex] * len(share) / sum(share.values())


def filled_child(stature: float, sex: str | None, round_: float, stray: Stray) -> dict[str, float]:
    """A child of a stature (mm) and roundness with every measure in mm, each off its middling figure by `stray`."""
    body = {"stature": stature, "waist_girth": stature * _middle(stature, sex) * exp(round_)}
    for row in _rows():
        middling = row.figure(stature, sex) * (body[row.of] if row.of else 1.0)
        body[row.name] = middling * exp(row.round * round_ + stray(row.name, row.stray))
    leg = stature * (1.0 - _of_waist("sitting", stature) - _SEAT_GIVES)
    body["inside_leg_height"] = leg * exp(_sum_stray("inside_leg_height", stray))
    body["waist_height"] = body["inside_leg_height"] + body["body_rise"]
    body["outside_leg_length"] = body["waist_height"] + 10.0
    body["hip_height"] = body["waist_height"] - body["waist_to_hip"]
    body["waist_to_knee"] = body["waist_height"] - body["knee_height"]
    back = (body["cervical_height"] - body["waist_height"]) * _BACK_CURVE * exp(_sum_stray("back_waist_length", stray))
    body["back_waist_length"] = back
    body["front_waist_length"] = back * _FRONT_SHARE * exp(_sum_stray("front_waist_length", stray))
    over = _OVER_CHEST * exp(_sum_stray("neck_shoulder_point_to_waist", stray))
    body["neck_shoulder_point_to_waist"] = back * over
    return {name: round(body[name], 1) for name in MEASURES}


def _sum_stray(name: str, stray: Stray) -> float:
    return stray(name, _SUM_STRAYS[name][0])


def child(stature: float, rounder: float = 0.0, sex: str | None = None) -> dict[str, float]:
    """The middling child of a stature in mm; `rounder` is by how much its waist is larger, as a share."""
    return dict(_middling(stature, rounder, sex))


@lru_cache(maxsize=64)
def _middling(stature: float, rounder: float, sex: str | None) -> Mapping[str, float]:
    """Kept, as every measure of a form is held against the same child."""
    return filled_child(stature, sex, log(1.0 + rounder), lambda _name, _sd: 0.0)


@cache
def stray_of(name: str) -> tuple[float, float]:
    """The power of roundness that a measure follows, and its standard deviation as a share for a given roundness."""
    if name in _SUM_STRAYS:
        return 0.0, _SUM_STRAYS[name][1]
    row = next(row for row in _rows() if row.name == name)
    if row.of in ("", "stature"):
        return row.round, row.stray
    round_, stray = stray_of(row.of)
    return round_ + row.round, float((stray**2 + row.stray**2) ** 0.5)


def child_spread(name: str, stature: float) -> float:
    """How much a measure differs between children of one stature in mm: its standard deviation, mm."""
    if name == "stature":
        return 0.0
    round_, stray = (1.0, 0.0) if name == "waist_girth" else stray_of(name)
    return child(stature)[name] * hypot(round_ * _of_waist("spread", stature), stray)


@cache
def child_hard(name: str) -> tuple[float, float]:
    """The range in mm that a child's entry must lie in: from the slightest small child to the roundest tall one.

    Wider than any child of the survey: five standard deviations beyond a waist a quarter under and nine tenths over the
    middling one.
    """
    if name == "stature":
        return 700.0, 1800.0
    round_, stray = (1.0, 0.0) if name == "waist_girth" else stray_of(name)
    small, tall = child(KNOWN_STATURES[0])[name], child(KNOWN_STATURES[1])[name]
    least = small * exp(round_ * log(0.75) - 5 * stray)
    most = tall * exp(round_ * log(1.9) + 5 * stray)
    return least // 5 * 5.0, -(-most // 5) * 5.0
