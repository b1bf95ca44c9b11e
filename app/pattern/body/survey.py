"""The survey's moments (means, standard deviations, correlations) and the least-squares fits that follow from them."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Literal

import numpy as np
from numpy.typing import NDArray

__all__ = ["GROUPS", "POOLED_FITS", "Fit", "Group", "Moments", "fit", "fits_2012", "moments", "rows_of", "usual_fit"]

Group = Literal["women", "men"]

GROUPS: tuple[Group, ...] = ("women", "men")


@dataclass(frozen=True, slots=True)
class Moments:
    """Means and standard deviations in mm, and the correlation matrix, in the order of `names`."""

    names: tuple[str, ...]
    mean: NDArray[np.float64]
    sd: NDArray[np.float64]
    correlation: NDArray[np.float64]

    def at(self, name: str) -> int:
        """The row of a measure."""
        return self.names.index(name)


@dataclass(frozen=True, slots=True)
class Fit:
    """A linear prediction: `intercept + slopes . predictors` in mm, with its residual standard deviation in mm."""

    target: str
    predictors: tuple[str, ...]
    intercept: float
    slopes: tuple[float, ...]
    sd: float
    source: str

    def predict(self, body: Mapping[str, float]) -> float:
        """The likely value of the target in mm for a body that has every predictor."""
        pairs = zip(self.slopes, self.predictors, strict=True)
        return self.intercept + sum(slope * body[name] for slope, name in pairs)


_POOLED = "600 women each of three surveys: US Army 1988 and 2012, and a civilian apparel survey of Spanish women"

#: Bust, waist and hip from the other two, fitted on three surveys together; soldiers alone mislead for customers.
POOLED_FITS: Mapping[str, Fit] = MappingProxyType(
    {
        "waist_girth": Fit("waist_girth", ("bust_girth", "hip_girth"), -401.7, (0.8186, 0.4422), 52.8, _POOLED),
        "bust_girth": Fit("bust_girth", ("waist_girth", "hip_girth"), 277.9, (0.5440, 0.2140), 43.0, _POOLED),
        "hip_girth": Fit("hip_girth", ("bust_girth", "waist_girth"), 399.2, (0.2987, 0.4103), 50.8, _POOLED),
    }
)


def rows_of(name: str) -> list[list[str]]:
    """The rows of a file in `data`, its header first; lines that begin with # are its source and notes."""
    text = files("app.pattern.body").joinpath("data").joinpath(name).read_text(encoding="utf-8")
    return list(csv.reader(line for line in text.splitlines() if not line.startswith("#")))


@cache
def moments(group: Group) -> Moments:
    """The moments of a group in the survey of 1988 (Gordon et al., 1989, NATICK/TR-89/044)."""
    header, *summary = rows_of(f"{group}-1988-summary.csv")
    mean, sd = header.index("mean_mm"), header.index("sd_mm")
    _, *matrix = rows_of(f"{group}-1988-correlation.csv")
    return Moments(
        tuple(row[0] for row in summary),
        np.array([float(row[mean]) for row in summary]),
        np.array([float(row[sd]) for row in summary]),
        np.array([[float(cell) for cell in row[1:]] for row in matrix]),
    )


@cache
def fit(group: Group, target: str, predictors: tuple[str, ...]) -> Fit:
    """The least-squares prediction of a measure from others, within a group of the survey; from none, its mean."""
    known = moments(group)
    rows = [known.at(name) for name in predictors]
    goal = known.at(target)
    if not rows:
        alone = f"{group}, mean of the US Army survey of 1988"
        return Fit(target, (), float(known.mean[goal]), (), float(known.sd[goal]), alone)
    among = known.correlation[np.ix_(rows, rows)]
    toward = known.correlation[rows, goal]
    weights = np.linalg.solve(among, toward)
    slopes = weights * known.sd[goal] / known.sd[rows]
    spread = known.sd[goal] * float(np.sqrt(1.0 - weights @ toward))
    intercept = known.mean[goal] - slopes @ known.mean[rows]
    source = f"{group}, US Army survey of 1988"
    return Fit(target, predictors, float(intercept), tuple(map(float, slopes)), float(spread), source)


@cache
def fits_2012(group: Group) -> Mapping[str, Fit]:
    """The fits on the US Army survey of 2012, by target, for the measures that it defines as we do."""
    _, *rows = rows_of("fits-2012.csv")
    return MappingProxyType({row[1]: _fit_from(row) for row in rows if row[0] == group})


def _fit_from(row: list[str]) -> Fit:
    group, target, intercept, sd, *terms = row
    known = [term for term in terms if term]
    slopes = tuple(float(slope) for slope in known[1::2])
    return Fit(target, tuple(known[::2]), float(intercept), slopes, float(sd), f"{group}, US Army survey of 2012")


def usual_fit(group: Group, target: str, predictors: tuple[str, ...]) -> Fit:
    """The fit to predict a measure with: that of 2012 where there is one, else that of 1988 on these predictors."""
    newer = fits_2012(group).get(target)
    return newer if newer is not None else fit(group, target, predictors)
