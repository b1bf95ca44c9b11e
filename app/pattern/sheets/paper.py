"""Papers to print on: ISO 216 and the North American sizes, any other by its sides, upright or sideways."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from types import MappingProxyType

from app.pattern.problem import Place, Problem, Refused
from app.pattern.units import MM_PER

__all__ = ["LEAST_PRINTABLE", "MARGIN", "PAPERS", "Paper", "paper_of", "paper_problems"]

#: Default margin in mm: beyond what common ink-jet and laser printers leave blank (about 3 to 6 mm; common practice).
MARGIN = 10.0
#: Width and height in mm that the first page needs for its check squares, map and words; it is always upright.
LEAST_PRINTABLE = (170.0, 225.0)
#: The longest side of a PDF page in mm: 14 400 units of 1/72 inch (ISO 32000-1:2008, annex C).
_LONGEST = 14_400 / 72.0 * 25.4


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet of paper, in mm, as it lies on the wall; drawing stays `margin` mm away from every edge."""

    name: str
    title: str
    width: float
    height: float
    margin: float = MARGIN

    @property
    def printable(self) -> tuple[float, float]:
        """Width and height in mm of the part that is drawn on, which is also one tile of the drawing."""
        return self.width - 2.0 * self.margin, self.height - 2.0 * self.margin

    @property
    def upright(self) -> Paper:
        """The same paper with its long side up."""
        return self if self.width <= self.height else replace(self, width=self.height, height=self.width)

    def sideways(self) -> Paper:
        """The same paper with its long side across, named so."""
        if self.width >= self.height:
            return self
        name, title = f"{self.name}-landscape", f"{self.title} landscape"
        return replace(self, name=name, title=title, width=self.height, height=self.width)


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

_SIDES = re.compile(r"(\d{1,4}(?:\.\d{1,2})?)\s*[x×]\s*(\d{1,4}(?:\.\d{1,2})?)\s*(mm|cm|in)")


def paper_of(words: str, margin: float = MARGIN) -> Paper | Refused:
    """The paper that words name: `a4`, `letter landscape`, `210x330mm`, `8.5x13in landscape`; margins in mm.

    Sides are width x height as they lie on the wall. What no paper is called is
    refused; whether a paper can be printed on is asked of `paper_problems`.
    """
    base, _, way = words.strip().lower().replace("-", " ").partition(" ")
    paper = PAPERS.get(base) or _by_sides(base)
    if paper is None or way not in ("", "landscape", "portrait"):
        return Refused.of(
            Problem(
                code="sheets.paper-unknown",
                message=f"“{words}” is no paper known here.",
                fix=f"Choose {', '.join(PAPERS)}, or give width and height, such as 210x330mm; add “-landscape” to lay "
                "it sideways.",
                where=Place(point=words),
            )
        )
    return replace(paper.sideways() if way == "landscape" else paper, margin=margin)


def _by_sides(words: str) -> Paper | None:
    found = _SIDES.fullmatch(words)
    if found is None:
        return None
    wide, high, unit = float(found[1]), float(found[2]), found[3]
    name = f"{found[1]}x{found[2]}{unit}"
    return Paper(name, f"{wide:g} × {high:g} {unit}", wide * MM_PER[unit], high * MM_PER[unit])


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
                where=Place(point=paper.name),
            ),
        )
    short, long = paper.upright.printable
    if short < LEAST_PRINTABLE[0] or long < LEAST_PRINTABLE[1]:
        return (
            Problem(
                code="sheets.paper-too-small",
                message=f"Between its margins this paper is {short:g} × {long:g} mm; the first page, with its check "
                f"squares, needs {LEAST_PRINTABLE[0]:g} × {LEAST_PRINTABLE[1]:g} mm.",
                fix="Choose a larger paper, such as A4 or US Letter, or smaller margins.",
                where=Place(point=paper.name),
            ),
        )
    if max(paper.width, paper.height) > _LONGEST:
        return (
            Problem(
                code="sheets.paper-too-large",
                message=f"A paper of {paper.width:g} × {paper.height:g} mm is longer than a PDF page can be, "
                f"{_LONGEST:g} mm.",
                fix="Choose a smaller paper, or print on a roll.",
                where=Place(point=paper.name),
            ),
        )
    return ()
