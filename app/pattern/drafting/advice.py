"""What a draft that reads well still leaves unsaid or unused: advice for the designer, certain without any body."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from app.pattern.drafting.fits_said import fits_advice
from app.pattern.drafting.girths_said import girths_advice
from app.pattern.drafting.linings_said import linings_advice
from app.pattern.drafting.program import Program
from app.pattern.drafting.seams_said import seams_advice, unheld_girths
from app.pattern.language import nodes as n
from app.pattern.language.walk import find_all
from app.pattern.problem import Problem, Severity, Span, in_order

__all__ = ["CUT_SOMETHING", "NO_PIECE", "advice_of"]

#: The code of the advice on a draft that is no pattern yet.
NO_PIECE = "drafting.no-piece"

#: The remedy for a draft without a piece.
CUT_SOMETHING = 'Trace a piece off a sheet and say how often it is cut, such as: piece front "Front" cut 1 on fold main'


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
    # The names that steps set, blocks opened, each the first time
    first: dict[str, Span] = {}
    for step in find_all(draft.figures, n.Assign):
        first.setdefault(step.name, step.span)
    for name, span in first.items():
        if name not in used:
            yield tell("drafting.unused-figure", f"No line uses “{name}”.", "Use it, or take it out.", span)
    yield from _cloths_and_sheets(program)
    yield from girths_advice(program)
    yield from unheld_girths(program)
    yield from seams_advice(program)
    yield from fits_advice(program)
    yield from linings_advice(program)
    yield from _unfinished(program)


def _cloths_and_sheets(program: Program) -> Iterator[Problem]:
    draft, tell = program.draft, program.source.problem
    cut = {cut.fabric for piece in draft.pieces for cut in piece.cuts}
    for fabric in draft.fabrics:
        if fabric.name not in cut:
            said = f"No piece is cut from “{fabric.name}”."
            yield tell("drafting.unused-fabric", said, "Cut something from it, or take it out.", fabric.span)
    traced = {*program.piece_sheets.values(), *(node.owner for node in find_all(draft, n.Dotted))}
    for sheet in draft.sheets:
        if sheet.name not in traced:
            said = f"No piece comes from the sheet “{sheet.name}”."
            yield tell("drafting.unused-sheet", said, f"Trace a piece off it: from {sheet.name}.", sheet.span)


def _unfinished(program: Program) -> Iterator[Problem]:
    """What a draft needs before it is a pattern made to measure: a piece, a measurement, words on how it is sewn."""
    draft, tell = program.draft, program.source.problem
    if not draft.pieces:
        said = "There is no piece to cut yet, so this is not a pattern: it can be kept, but not proved or sold."
        yield tell(NO_PIECE, said, CUT_SOMETHING, draft.span)
        return
    if not draft.needs:
        said = "This draft asks for no measurement, so that everybody gets the same pattern: it is not made to measure."
        fix = "List under needs what it is drawn from, such as: hip_girth. Leave it so only where one size is meant."
        yield tell("drafting.no-needs", said, fix, draft.span)
    if not draft.steps:
        said = "No step says how it is sewn, so that the instructions end with the cutting."
        yield tell(
            "drafting.no-steps", said, "Add a section steps, with a heading for each: ## Sew the side seams", draft.span
        )


def _names(draft: n.Draft) -> Iterator[str]:
    """Every name that some expression of the draft uses; that of a dotted one too, as of a figure in a sheet."""
    for node in find_all(draft, n.Dotted, n.Name):
        if isinstance(node, n.Dotted):
            yield from (node.owner, node.name)
        elif node not in draft.needs:
            yield node.name
