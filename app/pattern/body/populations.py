"""Bodies to prove a draft on: seeded draws from the survey, widened for customers at large.

Each body is one draw from a normal distribution over all measures of the survey
at once, with the survey's correlations. At `spread` 1 means, standard deviations
and correlations are the survey's own: fit adults of 1988. Customers at large are
larger and more varied, mostly in size and less in shape. So each draw is split into
what follows from two scores, size (bust, waist and hip together) and stature, and
the rest, which is shape. For each whole step that the spread exceeds 1
- the size score varies by 1 more of its standard deviation, and its mean moves up by
  `SIZE_SHIFT` of them (the waist by `WAIST_SHIFT` of its own standard deviations more);
- the stature score varies by half as much more, and the shape by a quarter;
- the measures that the survey of 2012 has move by what its fits predict beyond those of
  1988 (the neck base most: some 2 cm), in full from `CUSTOMERS_AT_LARGE` on.
At `CUSTOMERS_AT_LARGE` women then have a mean bust of about 96 cm with a standard
deviation of about 10 (US Army women of 2012: 95 and 8; civilians more). These
factors are our own judgement, not a fit. Bodies that break the ratio rule, the order
of measures or a hard range are drawn again, so the tails are a little thin.

Caveats: adults of 17 to 58 only; no pregnancy, no children, no disability; and a
normal distribution knows no skew to large girths.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from app.pattern.body.complete import derive
from app.pattern.body.register import MEASURES
from app.pattern.body.rules import MEN_RATIOS, RATIO_RULES, broken_orders, broken_ratios
from app.pattern.body.survey import Group, Moments, fit, fits_2012, moments

__all__ = ["CUSTOMERS_AT_LARGE", "ENDS", "SIZE_SHIFT", "WAIST_SHIFT", "draw_bodies", "draw_ends", "is_plausible"]

CUSTOMERS_AT_LARGE = 1.6
SIZE_SHIFT = 1.5
WAIST_SHIFT = 0.5

#: Busts (chests) in mm of small and of large bodies, by group: from and to below the middle, from and to above it. Our
#: own choice: what is hardly drawn by chance, up to where nothing measured supports a body any more.
ENDS: Mapping[Group, tuple[float, float, float, float]] = MappingProxyType(
    {"women": (720.0, 840.0, 1080.0, 1480.0), "men": (840.0, 920.0, 1160.0, 1480.0)}
)
#: The spread that the ends are drawn with: wide enough that the largest come up, and in all shapes.
_END_SPREAD = 2.4
#: Ends are drawn alike often in every stretch of so many mm.
_END_STEP = 40.0
_END_BATCH = 512
_SIZE = ("bust_girth", "waist_girth", "hip_girth")
#: Added to the diagonal so that a matrix printed to three decimals is safely positive definite; it weakens
#: every correlation by a thousandth of itself.
_RIDGE = 0.001
#: Rounds of drawing before a spread is given up as senseless.
_MOST_ROUNDS = 400


def draw_bodies(
    n: int, seed: int, group: Group = "women", spread: float = CUSTOMERS_AT_LARGE
) -> list[dict[str, float]]:
    """`n` plausible adult bodies, every measure of the register in mm to 0.1; the same seed gives the same bodies."""
    known = moments(group)
    safe: NDArray[np.float64] = (known.correlation + _RIDGE * np.eye(len(known.correlation))) / (1.0 + _RIDGE)
    turn = np.linalg.cholesky(safe)
    source = np.random.Generator(np.random.PCG64(seed))
    bodies: list[dict[str, float]] = []
    for _ in range(_MOST_ROUNDS):
        scores = source.standard_normal((max(n, 16), len(known.names))) @ turn.T
        rows = known.mean + known.sd * _widened(scores, known, spread - 1.0)
        rows += min(1.0, (spread - 1.0) / (CUSTOMERS_AT_LARGE - 1.0)) * _newer(rows, known, group)
        bodies += [body for body in (_body(known.names, row) for row in rows) if is_plausible(body, group)]
        if len(bodies) >= n:
            return bodies[:n]
    raise ValueError(f"a spread of {spread} gives hardly any plausible body")


def draw_ends(n: int, seed: int, group: Group = "women") -> list[dict[str, float]]:
    """`n` plausible bodies, small and large, as many in each stretch of the bust of `ENDS`; one seed, the same bodies.

    Draws by chance hardly come to the ends of what a shop serves, and a proof should be as dense there as elsewhere.
    """
    least, low, high, most = ENDS[group]
    starts = (*np.arange(least, low, _END_STEP), *np.arange(high, most, _END_STEP))
    wanted = {float(start): n // len(starts) + (place < n % len(starts)) for place, start in enumerate(starts)}
    found: dict[float, list[dict[str, float]]] = {start: [] for start in wanted}
    for batch in range(_MOST_ROUNDS):
        # Looked at before anything is drawn: a page that shows the sizes alone wants no draws.
        if all(len(found[start]) == many for start, many in wanted.items()):
            return [body for bodies in found.values() for body in bodies]
        for body in draw_bodies(_END_BATCH, seed + batch, group, _END_SPREAD):
            start = next((s for s in wanted if s <= body["bust_girth"] < s + _END_STEP), None)
            if start is not None and len(found[start]) < wanted[start]:
                found[start].append(body)
    raise ValueError(f"{n} bodies at the ends are hardly to be found")


def is_plausible(body: Mapping[str, float], group: Group = "women") -> bool:
    """True when an adult body keeps the ratio rule of its group, the order of its measures and every hard range."""
    inside = all(MEASURES[name].hard[0] <= value <= MEASURES[name].hard[1] for name, value in body.items())
    ratios = MEN_RATIOS if group == "men" else RATIO_RULES
    return inside and not any(broken_ratios(body, ratios)) and not any(broken_orders(body))


def _widened(scores: NDArray[np.float64], known: Moments, more: float) -> NDArray[np.float64]:
    """Draws in standard deviations, spread wider by `more` along size, half as much in stature, a quarter in shape."""
    pick = np.zeros((2, len(known.names)))
    pick[0, [known.at(name) for name in _SIZE]] = 1.0
    pick[0] /= np.sqrt(pick[0] @ known.correlation @ pick[0])
    pick[1, known.at("stature")] = 1.0
    loads = np.linalg.solve(pick @ known.correlation @ pick.T, pick @ known.correlation)
    causes = scores @ pick.T
    shape = scores - causes @ loads
    wider = causes * np.array([1.0 + more, 1.0 + more / 2]) + np.array([more * SIZE_SHIFT, 0.0])
    widened: NDArray[np.float64] = shape * (1.0 + more / 4) + wider @ loads
    widened[:, known.at("waist_girth")] += more * WAIST_SHIFT
    return widened


def _newer(rows: NDArray[np.float64], known: Moments, group: Group) -> NDArray[np.float64]:
    """How much more (mm) the survey of 2012 expects of each body than that of 1988."""
    more = np.zeros_like(rows)
    for target, newer in fits_2012(group).items():
        older = fit(group, target, newer.predictors)
        causes = rows[:, [known.at(name) for name in newer.predictors]]
        slopes = np.subtract(newer.slopes, older.slopes)
        more[:, known.at(target)] = newer.intercept - older.intercept + causes @ slopes
    return more


def _body(names: tuple[str, ...], row: NDArray[np.float64]) -> dict[str, float]:
    taken = {name: float(value) for name, value in zip(names, row, strict=True) if name in MEASURES}
    full = derive(taken)
    return {name: round(full[name], 1) for name in MEASURES}
