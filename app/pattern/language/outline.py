"""What a draft holds, as plain values with their lines: for tables of contents, lists and jumps."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from app.pattern.language import nodes as n

__all__ = ["DraftOutline", "Listed", "PieceOutline", "SeamOutline", "SectionOutline", "SheetOutline", "outline"]


@dataclass(frozen=True, slots=True)
class Listed:
    """A name of the draft with its title, if it has one, and the line it stands on. `depth` counts blocks round it."""

    name: str
    line: int
    title: str = ""
    depth: int = 0


@dataclass(frozen=True, slots=True)
class SectionOutline:
    """A section: its first word, its own name, and the line of its head or, where it has none, of its first entry."""

    word: str
    name: str
    line: int


@dataclass(frozen=True, slots=True)
class SheetOutline:
    """A drafting sheet and the names drawn on it, in order."""

    name: str
    line: int
    names: tuple[Listed, ...]


@dataclass(frozen=True, slots=True)
class PieceOutline:
    """A piece: the sheet it says it comes from ("" when it leaves that out), its edges in outline order and its cuts.

    A piece with the outline of a shape has no edges here: they are known when the shape is drawn.
    """

    name: str
    title: str
    line: int
    sheet: str
    edges: tuple[Listed, ...]
    cuts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SeamOutline:
    """A seam: the edges of both sides as `piece.edge`, and how they meet (the kinds of `SewLine`)."""

    a: tuple[str, ...]
    b: tuple[str, ...]
    kind: str
    line: int


@dataclass(frozen=True, slots=True)
class DraftOutline:
    """A draft at a glance; every entry knows its line."""

    title: str
    sections: tuple[SectionOutline, ...]
    needs: tuple[Listed, ...]
    choices: tuple[Listed, ...]
    fabrics: tuple[Listed, ...]
    notions: tuple[Listed, ...]
    figures: tuple[Listed, ...]
    sheets: tuple[SheetOutline, ...]
    pieces: tuple[PieceOutline, ...]
    seams: tuple[SeamOutline, ...]
    girths: tuple[Listed, ...]
    steps: tuple[Listed, ...]
    fits: tuple[Listed, ...] = ()


def outline(draft: n.Draft) -> DraftOutline:
    """The outline of a draft that was read."""
    return DraftOutline(
        draft.title,
        _sections(draft),
        tuple(Listed(need.name, need.span.line) for need in draft.needs),
        _listed(draft.choices),
        _listed(draft.fabrics),
        _listed(draft.notions),
        tuple(_drawn(draft.figures)),
        tuple(SheetOutline(s.name, s.span.line, tuple(_drawn(s.steps))) for s in draft.sheets),
        tuple(_piece(piece) for piece in draft.pieces),
        tuple(_seam(seam) for seam in draft.seams),
        _listed(draft.girths),
        tuple(Listed(step.title, step.span.line, step.title) for step in draft.steps),
        _listed(draft.fits),
    )


def _listed(lines: Sequence[Any]) -> tuple[Listed, ...]:
    return tuple(Listed(line.name, line.span.line, line.title) for line in lines)


def _drawn(steps: Sequence[n.StepNode], depth: int = 0) -> Iterator[Listed]:
    """The names that steps draw, blocks opened; a solve's own name stands before what it draws."""
    for step in steps:
        if not isinstance(step, n.WhenBlock):
            yield Listed(step.name, step.span.line, depth=depth)
        if not isinstance(step, n.Assign):
            yield from _drawn(step.steps, depth + 1)


def _piece(piece: n.PieceNode) -> PieceOutline:
    items = [item for clause in piece.clauses if isinstance(clause, n.OutlineClause) for item in clause.items]
    edges = tuple(Listed(item.name, item.span.line) for item in items)
    return PieceOutline(
        piece.name, piece.title, piece.span.line, piece.sheet, edges, tuple(cut.fabric for cut in piece.cuts)
    )


def _seam(seam: n.SewLine) -> SeamOutline:
    a, b = (tuple(f"{run.piece}.{run.edge}" for run in side) for side in (seam.a, seam.b))
    return SeamOutline(a, b, seam.kind, seam.span.line)


def _sections(draft: n.Draft) -> tuple[SectionOutline, ...]:
    """Every section in the order of its lines."""
    listed = (("needs", draft.needs), ("choices", draft.choices), ("fabrics", draft.fabrics))
    more = (("notions", draft.notions), ("figures", draft.figures), ("steps", draft.steps))
    named = (("sheet", draft.sheets), ("piece", draft.pieces), ("girth", draft.girths), ("fit", draft.fits))
    found = [SectionOutline("draft", draft.title, draft.span.line)]
    found += [SectionOutline(word, "", nodes[0].span.line) for word, nodes in (*listed, *more) if nodes]
    found += [SectionOutline(word, node.name, node.span.line) for word, nodes in named for node in nodes]
    found += [SectionOutline("sew", "", seam.span.line) for seam in draft.seams]
    return tuple(sorted(found, key=lambda section: section.line))
