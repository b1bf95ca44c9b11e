"""One body through the one door, and many of them on many cores: what every proof is made of."""

from __future__ import annotations

import multiprocessing
from collections.abc import Callable, Iterable, Iterator, Mapping
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from typing import Any, TypeVar

from app.pattern.lay import cannot_lay, items_for
from app.pattern.make import Failed, Made, make_pattern
from app.pattern.pieces.model import Pattern
from app.pattern.problem import Problem
from app.pattern.proof.findings import FindingValues, finding_values
from app.pattern.proof.fits import FitFound, fits_found

__all__ = ["Examined", "examine", "in_order"]

#: Handed to a core at a time: few enough for an even load, many enough to keep it busy.
_AT_A_TIME = 16

_Given = TypeVar("_Given")
_Found = TypeVar("_Found")


@dataclass(frozen=True, slots=True)
class Examined:
    """What one body showed: whether it holds, every finding, and the finished girths in mm and fit places by name."""

    ok: bool
    findings: list[FindingValues]
    sizes: dict[str, float]
    fits: dict[str, FitFound]


def examine(text: str, name: str, body: Mapping[str, float], choices: Mapping[str, Any]) -> Examined:
    """Draft, cut and check one body (mm by ISO 8559-1 name), and see that it goes on the cloths that are suggested."""
    made = make_pattern(text, name, body, choices)
    problems = made.findings if isinstance(made, Made) else made.problems
    pattern = made.pattern if isinstance(made, Made | Failed) else None
    off_cloth = _off_cloth(pattern) if pattern is not None else ()
    return Examined(
        isinstance(made, Made) and not off_cloth,
        [finding_values(problem) for problem in (*problems, *off_cloth)],
        {girth.name: round(girth.measured, 3) for girth in pattern.girths} if pattern is not None else {},
        fits_found(pattern) if pattern is not None else {},
    )


def _off_cloth(pattern: Pattern) -> tuple[Problem, ...]:
    """Why a pattern does not go on the cloths that the draft suggests, laid as it says: no pack could be built."""
    cut = ((fabric, items_for(pattern, fabric.name)) for fabric in pattern.fabrics)
    return tuple(problem for fabric, items in cut if items for problem in cannot_lay(items, fabric))


def in_order(work: Callable[[_Given], _Found], items: Iterable[_Given], processes: int) -> Iterator[_Found]:
    """`work` done on each item, the results in the order of the items, as they come.

    One process works in this one; more are started fresh, so that the figures do not
    depend on what ran before.
    """
    if processes <= 1:
        yield from map(work, items)
        return
    with ProcessPoolExecutor(processes, multiprocessing.get_context("spawn")) as pool:
        yield from pool.map(work, items, chunksize=_AT_A_TIME)
