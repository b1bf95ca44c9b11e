"""Problems as values: what is wrong, where, how bad, and what to do about it.

Every mistake a person can make (in a draft, a measurement, a choice) comes back
as a `Problem`. Exceptions are kept for our own bugs. What makes something hands back
what it made or `Refused`; what only looks hands back a tuple of problems.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

__all__ = [
    "Measured",
    "Place",
    "Problem",
    "Refused",
    "Related",
    "Severity",
    "Span",
    "Told",
    "alike",
    "has_errors",
    "in_order",
    "spelled_out",
]


class Severity(StrEnum):
    """How bad a problem is: an error stops the next stage, a warning asks a person to look."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


@dataclass(frozen=True, slots=True)
class Span:
    """A run of characters on one line of a draft; line and columns count from 1, end_column is exclusive."""

    file: str
    line: int
    column: int
    end_column: int

    def __str__(self) -> str:
        """`file:line:column`, the form editors can jump to."""
        return f"{self.file}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True)
class Place:
    """A place in the work itself: a piece, an edge of it, coordinates in mm.

    `point` is what it concerns by its own name: a point, a girth, a notion, a measurement, a choice, a cloth or the
    paper it is printed on.
    """

    piece: str = ""
    edge: str = ""
    point: str = ""
    at: tuple[float, float] | None = None

    def __str__(self) -> str:
        """The place in words, such as `front, edge side`."""
        words = [self.piece] if self.piece else []
        words += [f"edge {self.edge}"] if self.edge else []
        words += [self.point] if self.point else []
        return ", ".join(words) or "the draft"


@dataclass(frozen=True, slots=True)
class Related:
    """Another place that helps to understand the problem, with a few words on why."""

    message: str
    where: Span | Place | None = None


@dataclass(frozen=True, slots=True)
class Measured:
    """Both figures of a check, in mm: what was measured, and the least and the most that would hold.

    A bound is None where there is none on that side; one length that alone is right is both.
    """

    is_mm: float
    least_mm: float | None = None
    most_mm: float | None = None


@dataclass(frozen=True, slots=True)
class Told:
    """One kind of problem, and what the person who will sew hears of it instead of a draft's inner names.

    `words` say what would go wrong for her, or what she can do about it. `maker` is whether she can do
    something about it: a warning of which only the designer can make anything is told to nobody else.
    Raises ValueError for a kind without words.
    """

    code: str
    words: str
    severity: Severity = Severity.ERROR
    maker: bool = True

    def __post_init__(self) -> None:
        """A kind that nobody could be told of is a slip of ours."""
        if not self.words.strip() or "." not in self.code.strip("."):
            raise ValueError(f"the problem {self.code!r} needs a dotted code, and words for the person who will sew")


def alike(words: str, *codes: str, severity: Severity = Severity.ERROR, maker: bool = True) -> tuple[Told, ...]:
    """Kinds of problems that come to the same for the person who will sew."""
    return tuple(Told(code, words, severity, maker) for code in codes)


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that is wrong, with its place and its remedy.

    `code` is dotted, floor first (`language.unknown-name`); `excerpt` is the line of
    the draft with the place marked under it, where there is one. `measured` are both
    figures of a check that compares lengths.
    """

    code: str
    message: str
    fix: str
    where: Span | Place | None = None
    severity: Severity = Severity.ERROR
    related: tuple[Related, ...] = ()
    excerpt: str = ""
    measured: Measured | None = None

    def __str__(self) -> str:
        """The whole problem as a person reads it in a terminal."""
        place = f"{self.where}: " if self.where is not None else ""
        lines = [f"{place}{self.severity}: {self.message}"]
        lines += [self.excerpt] if self.excerpt else []
        lines += [f"  fix: {self.fix}"]
        lines += [f"  see: {r.where}: {r.message}" if r.where else f"  see: {r.message}" for r in self.related]
        return "\n".join(lines)


@dataclass(frozen=True, slots=True)
class Refused:
    """In the place of what could not be made: why not. Raises ValueError when no problem says so."""

    problems: tuple[Problem, ...]

    def __post_init__(self) -> None:
        """Whoever is refused is told why."""
        if not self.problems:
            raise ValueError("nothing is refused without a problem that says why")

    @staticmethod
    def of(*problems: Problem) -> Refused:
        """The refusal for one problem, or for several that are listed."""
        return Refused(problems)


def has_errors(problems: Iterable[Problem]) -> bool:
    """True when any of the problems is an error."""
    return any(p.severity is Severity.ERROR for p in problems)


def spelled_out(problems: Iterable[Problem]) -> str:
    """Problems as a page tells them: what is wrong and how to mend it, one after another."""
    return " ".join(f"{problem.message} {problem.fix}" for problem in problems)


def in_order(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Problems as their places stand in the text, from top to bottom; those without one come first."""

    def place(problem: Problem) -> tuple[int, int]:
        return (problem.where.line, problem.where.column) if isinstance(problem.where, Span) else (0, 0)

    return tuple(sorted(problems, key=place))
