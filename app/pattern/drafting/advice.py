"""What a draft that reads well still leaves unsaid or unused: advice for the designer, certain without any body."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from typing import Any

from app.pattern.drafting.program import Program
from app.pattern.language import nodes as n
from app.pattern.problem import Problem, Severity, Span, in_order

__all__ = ["advice_of"]


def advice_of(program: Program) -> tuple[Problem, ...]:
    """Warnings in the order of their lines: what is listed and never used, and girths that nobody can be got into."""
    return in_order(replace(problem, severity=Severity.WARNING) for problem in _found(program))


def _found(program: Program) -> Iterator[Problem]:
    draft, tell = program.draft, program.source.problem
    used = set(_names(draft))
    for need in draft.needs:
        # A stature besides says for whom the garment is, and a child's garment must ask for it.
        if need.name not in used and need.name != "stature":
            said = f"The measurement {need.name} is asked for and never used."
            yield tell("drafting.unused-need", said, "Draw with it, or do not ask for it.", need.span)
    for choice in draft.choices:
        if choice.name not in used:
            said = f"The choice “{choice.name}” changes nothing: no line uses it."
            yield tell(
                "drafting.unused-choice", said, "Use it, or take it out: a customer would be asked.", choice.span
            )
    for name, span in _assigned(draft.figures):
        if name not in used:
            yield tell("drafting.unused-figure", f"No line uses “{name}”.", "Use it, or take it out.", span)
    yield from _cloths_and_sheets(program)
    yield from _getting_in(program)


def _cloths_and_sheets(program: Program) -> Iterator[Problem]:
    draft, tell = program.draft, program.source.problem
    cut = {cut.fabric for piece in draft.pieces for cut in piece.cuts}
    for fabric in draft.fabrics:
        if fabric.name not in cut:
            said = f"No piece is cut from “{fabric.name}”."
            yield tell("drafting.unused-fabric", said, "Cut something from it, or take it out.", fabric.span)
    traced = {*program.piece_sheets.values(), *(node.owner for node in _nodes(draft) if isinstance(node, n.Dotted))}
    for sheet in draft.sheets:
        if sheet.name not in traced:
            said = f"No piece comes from the sheet “{sheet.name}”."
            yield tell("drafting.unused-sheet", said, f"Trace a piece off it: from {sheet.name}.", sheet.span)


def _getting_in(program: Program) -> Iterator[Problem]:
    """A draft with girths of which none says how the wearer gets in."""
    girths = program.draft.girths
    if girths and not any(girth.passes is not None or girth.opens_fully for girth in girths):
        said = (
            "No girth says what of the body must go through it, so nobody has checked that the garment can be put on."
        )
        fix = "Add to the narrowest girth what opens it and what it passes, such as: opens zip_length  passes hip_girth"
        yield program.source.problem("drafting.getting-in-unsaid", said, fix, girths[0].span)


def _assigned(steps: tuple[n.StepNode, ...]) -> Iterator[tuple[str, Span]]:
    """The names that steps set, blocks opened, each the first time."""
    seen: set[str] = set()
    for node in _nodes(steps):
        if isinstance(node, n.Assign) and node.name not in seen:
            seen.add(node.name)
            yield node.name, node.span


def _names(draft: n.Draft) -> Iterator[str]:
    """Every name that some expression of the draft uses; that of a dotted one too, as of a figure in a sheet."""
    for node in _nodes(draft):
        if isinstance(node, n.Dotted):
            yield from (node.owner, node.name)
        elif isinstance(node, n.Name) and node not in draft.needs:
            yield node.name


def _nodes(node: Any) -> Iterator[Any]:
    """A node and all its parts."""
    if isinstance(node, tuple):
        for part in node:
            yield from _nodes(part)
    elif is_dataclass(node) and not isinstance(node, Span):
        yield node
        for field in fields(node):
            yield from _nodes(getattr(node, field.name))
