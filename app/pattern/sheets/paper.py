"""Papers to print on: ISO 216 and the North American sizes, with the margin a home printer needs."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType

from app.pattern.problem import Problem
from app.pattern.units import MM_PER

__all__ = ["LEAST_PRINTABLE", "PAPERS", "Paper", "paper_problems"]

#: Default margin in mm: beyond what common ink-jet and laser printers leave blank (about 3 to 6 mm; common practice).
MARGIN = 10.0
#: Width and height in mm that the first page needs for its check squares, map and words.
LEAST_PRINTABLE = (170.0, 225.0)


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet of paper, upright, in mm; drawing stays `margin` mm away from every edge."""

    name: str
    title: str
    width: float
    height: float
    margin: float = MARGIN

    @property
    def printable(self) -> tuple[float, float]:
        """Width and height in mm of the part that is drawn on, which is also one tile of the drawing."""
        return self.width - 2.0 * self.margin, self.height - 2.0 * self.margin


def _inches(name: str, title: str, wide: float, high: float) -> Paper:
    return Paper(name, title, wide * MM_PER["in"], high * MM_PER["in"])


#: ISO 216:2007, trimmed sizes of the A series; ANSI/ASME Y14.1 A and B (Letter, Tabloid); Legal is common practice.
PAPERS = MappingProxyType(
    {
        paper.name: paper
        for paper in (
            Paper("a4", "A4", 210.0, 297.0),
            Paper("letter", "US Letter", 8.5 * 25.4, 11.0 * 25.4),
            Paper("a3", "A3", 297.0, 420.0),
            Paper("a2", "A2", 420.0, 594.0),
            Paper("a1", "A1", 594.0, 841.0),
            Paper("a0", "A0", 841.0, 1189.0),
            _inches("legal", "US Legal", 8.5, 14.0),
            _inches("tabloid", "US Tabloid", 11.0, 17.0),
        )
    }
)


def paper_problems(paper: Paper) -> tuple[Problem, ...]:
    """Why nothing true can be printed on a paper; empty when all is well."""
    wide, high = paper.printable
    if paper.margin < 0.0 or wide <= 0.0 or high <= 0.0:
        return (
            Problem(
                code="sheets.no-room",
                message=f"A paper of {paper.width:g} × {paper.height:g} mm leaves nothing between margins of "
                f"{paper.margin:g} mm.",
                fix="Choose a larger paper or smaller margins.",
            ),
        )
    if wide < LEAST_PRINTABLE[0] or high < LEAST_PRINTABLE[1]:
        return (
            Problem(
                code="sheets.paper-too-small",
                message=f"Between its margins this paper is {wide:g} × {high:g} mm; the first page, with its check "
                f"squares, needs {LEAST_PRINTABLE[0]:g} × {LEAST_PRINTABLE[1]:g} mm.",
                fix="Choose a larger paper, such as A4 or US Letter, upright.",
            ),
        )
    return ()
