"""The bodies that a draft is proved on unless others are named: a size chart, corners, and seeded draws.

Women: the twelve sizes of `chart` (steps of EN 13402-3, the rest from regressions), the fifteen `corners`
(our own choice), draws from the survey of 1988, widened for customers at large, and small and large bodies drawn on
purpose, that the ends are tried as densely as the middle (see `populations`).
Men: chest sizes S to XXL after EN 13402-3:2004 (class limits of S and XXL seen second-hand, those between from
memory), waist and hip from the fits of the survey of 1988, corners of our own choice, and draws likewise.
Children: sizes by stature, corners and draws over the statures that the draft is offered for, girths and leg from
a survey of 1977, the rest our own estimate (see `children`). It tells that a draft is drawn and sewn without a
fault, and little of how its lengths fit: a designer of children's wear brings bodies that she measured.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import partial
from types import MappingProxyType

from app.pattern.body.chart import SIZES, size_body
from app.pattern.body.children import KNOWN_STATURES
from app.pattern.body.complete import complete_body
from app.pattern.body.corners import CornerBody, corner_bodies
from app.pattern.body.files import NamedBody
from app.pattern.body.populations import CUSTOMERS_AT_LARGE, draw_bodies, draw_ends
from app.pattern.body.populations_children import STATURES, child_corners, child_sizes, draw_children
from app.pattern.body.register import MEASURES
from app.pattern.body.survey import fit

__all__ = [
    "DRAWN",
    "GROUPS_OF_BODIES",
    "KINDS",
    "MEN_SIZES",
    "SEED",
    "ProofBody",
    "given_bodies",
    "men_corners",
    "men_sizes",
    "standard_bodies",
]

#: How many bodies are drawn, and the seed they are drawn with, unless others are asked for.
DRAWN, SEED = 400, 1988
#: Whose bodies there are, with the statures in mm that they may be asked for between.
GROUPS_OF_BODIES: Mapping[str, tuple[float, float]] = MappingProxyType(
    {"women": MEASURES["stature"].hard, "men": MEASURES["stature"].hard, "children": KNOWN_STATURES}
)
#: The kinds of bodies, each as it is counted: one, many.
KINDS: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "size": ("size", "sizes"),
        "corner": ("corner", "corners"),
        "end": ("end", "ends"),
        "drawn": ("drawn", "drawn"),
        "given": ("given", "given"),
    }
)
#: For so many drawn bodies of an adult there is one more at the ends, small or large on purpose.
DRAWN_FOR_ONE_END = 4
#: Middle of each chest class in mm: S 86-94, M 94-102, L 102-110, XL 110-118, XXL 118-129 cm.
MEN_SIZES: Mapping[str, float] = MappingProxyType({"S": 900.0, "M": 980.0, "L": 1060.0, "XL": 1140.0, "XXL": 1235.0})
#: Stature in mm that a man's size stands for: our own choice.
MEN_STATURE = 1770.0
_man_of = partial(CornerBody, group="men")
#: Men far from the middle, as the women of `CORNERS`: our own choice.
_MEN_CORNERS: Mapping[str, CornerBody] = MappingProxyType(
    {
        "tall and slight": _man_of(1980, 900, 740, 920),
        "short and slight": _man_of(1600, 860, 700, 860),
        "short and full": _man_of(1620, 1200, 1160, 1180),
        "tall and full": _man_of(1970, 1300, 1240, 1260),
        "broad chest, small waist": _man_of(1800, 1180, 860, 1020),
        "slim chest, full hip": _man_of(1760, 920, 860, 1100),
        "large waist": _man_of(1740, 1120, 1220, 1140, {"front_waist_length": 20.0}),
        "long back": _man_of(1800, 1000, 850, 990, {"back_waist_length": 50.0, "front_waist_length": 40.0}),
        "short back": _man_of(1740, 1000, 850, 990, {"back_waist_length": -45.0, "front_waist_length": -35.0}),
        "broad shoulders": _man_of(
            1830, 1080, 880, 1020, {"shoulder_length": 22.0, "back_width": 45.0, "shoulder_width": 40.0}
        ),
        "narrow shoulders": _man_of(
            1740, 980, 860, 1000, {"shoulder_length": -22.0, "back_width": -40.0, "shoulder_width": -35.0}
        ),
        "strong neck and arms": _man_of(
            1780,
            1120,
            900,
            1020,
            {
                "neck_girth": 40.0,
                "neck_base_girth": 40.0,
                "upper_arm_girth": 65.0,
                "elbow_girth": 25.0,
                "armscye_girth": 40.0,
            },
        ),
        "very large": _man_of(1780, 1500, 1480, 1480),
    }
)


@dataclass(frozen=True, slots=True)
class ProofBody:
    """A body to prove on, mm by ISO 8559-1 name; `kind` is "size", "corner", "drawn", "end" or "given"."""

    id: str
    kind: str
    body: Mapping[str, float]


def standard_bodies(
    group: str,
    amount: int = DRAWN,
    seed: int = SEED,
    statures: tuple[float, float] | None = None,
    spread: float | None = None,
) -> tuple[ProofBody, ...]:
    """Sizes, corners and `amount` draws for women, men or children. The same seed gives the same bodies.

    `statures` (least, most, mm) are those the garment is offered for: only bodies of such a stature are given. `spread`
    is that of `draw_bodies` or `draw_children`, each of which has its own unless it is told.
    """
    if group == "children":
        return _children(amount, seed, statures or STATURES, 1.0 if spread is None else spread)
    adults = _adults(group, amount, seed, CUSTOMERS_AT_LARGE if spread is None else spread)
    return adults if statures is None else tuple(b for b in adults if statures[0] <= b.body["stature"] <= statures[1])


def _children(amount: int, seed: int, statures: tuple[float, float], spread: float) -> tuple[ProofBody, ...]:
    # Of smaller and taller children nothing is known, so a draft for them is proved on those that are.
    statures = max(statures[0], KNOWN_STATURES[0]), min(statures[1], KNOWN_STATURES[1])
    if statures[0] > statures[1]:
        return ()
    drawn = draw_children(amount, seed, statures, spread)
    sizes, corners = child_sizes(statures), child_corners(statures)
    return (*_named("size", sizes), *_named("corner", corners), *_drawn(drawn))


def _adults(group: str, amount: int, seed: int, spread: float) -> tuple[ProofBody, ...]:
    if group == "women":
        sizes, corners = {name: size_body(name) for name in SIZES}, corner_bodies()
        drawn, ends = draw_bodies(amount, seed, spread=spread), draw_ends(amount // DRAWN_FOR_ONE_END, seed)
    else:
        sizes, corners = men_sizes(), men_corners()
        drawn, ends = draw_bodies(amount, seed, "men", spread), draw_ends(amount // DRAWN_FOR_ONE_END, seed, "men")
    return (*_named("size", sizes), *_named("corner", corners), *_drawn(drawn), *_drawn(ends, "end"))


def given_bodies(bodies: Iterable[NamedBody]) -> tuple[ProofBody, ...]:
    """Bodies from outside, as `read_bodies_csv` reads them."""
    return tuple(ProofBody(named.id, "given", named.body) for named in bodies)


def men_sizes() -> dict[str, dict[str, float]]:
    """A man's body of each size of `MEN_SIZES`, every measure of the register in mm."""
    return {name: _man(MEN_STATURE, chest, *_likely_waist_and_hip(chest)) for name, chest in MEN_SIZES.items()}


def men_corners() -> dict[str, dict[str, float]]:
    """Men's bodies at the corners, every measure of the register in mm."""
    return {name: corner.body() for name, corner in _MEN_CORNERS.items()}


def _likely_waist_and_hip(chest: float) -> tuple[float, float]:
    waist, hip = (fit("men", name, ("bust_girth",)) for name in ("waist_girth", "hip_girth"))
    return waist.predict({"bust_girth": chest}), hip.predict({"bust_girth": chest})


def _man(stature: float, chest: float, waist: float, hip: float) -> dict[str, float]:
    basis = {"stature": stature, "bust_girth": chest, "waist_girth": waist, "hip_girth": hip}
    full = complete_body(basis, "men")
    return {name: float(round(full[name])) for name in MEASURES}


def _named(kind: str, bodies: Mapping[str, Mapping[str, float]]) -> list[ProofBody]:
    return [ProofBody(f"{kind} {name}", kind, body) for name, body in bodies.items()]


def _drawn(bodies: Iterable[Mapping[str, float]], kind: str = "drawn") -> list[ProofBody]:
    return [ProofBody(f"{kind} {number}", kind, body) for number, body in enumerate(bodies, 1)]
