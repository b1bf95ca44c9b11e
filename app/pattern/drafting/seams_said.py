"""A seam that stands twice in a draft, and girths held against nothing: advice that needs no body.

A line copied and not changed sews two edges to each other a second time, which no needle can; most often another pair
was meant. And a measurement that the garment is drawn round proves nothing while no line holds the garment against it.
"""

from __future__ import annotations

from collections.abc import Iterator

from app.pattern.drafting.program import Program
from app.pattern.language import nodes as n
from app.pattern.language.walk import find_all
from app.pattern.problem import Problem

__all__ = ["seams_advice", "unheld_girths"]

#: The girths of the trunk that a garment drawn round them must be held against, and how that is commonly called.
_TRUNK = {"bust_girth": "Bust", "waist_girth": "Waist", "hip_girth": "Hip"}
#: Narrow places of the body, and the wider one that must go through what closes round them.
_WIDER = {
    "waist_girth": "hip_girth",
    "neck_base_girth": "57cm (the head)",
    "neck_girth": "57cm (the head)",
    "wrist_girth": "1.35 * wrist_girth (the hand)",
}


def seams_advice(program: Program) -> Iterator[Problem]:
    """Every line that sews what an earlier line has sewn already."""
    seen: list[tuple[frozenset[frozenset[tuple[str, str]]], n.SewLine]] = []
    for line in program.draft.seams:
        sides = frozenset(frozenset((run.piece, run.edge) for run in side) for side in (line.a, line.b))
        first = next((other for its, other in seen if its == sides and (line.when is None or other.when is None)), None)
        if first is not None:
            sewn = " to ".join(
                " + ".join(f"{run.piece}.{run.edge}" for run in side) for side in dict.fromkeys((line.a, line.b))
            )
            said = f"The seam {sewn} stands here a second time: line {first.span.line} sews it already."
            fix = "Take one of the two lines out, or name in it the edges that were meant."
            yield program.source.problem("drafting.seam-twice", said, fix, line.span)
        seen.append((sides, line))


def unheld_girths(program: Program) -> Iterator[Problem]:
    """Girths of the trunk that are drawn from and held against nothing; girths that pass no more than themselves."""
    draft, tell = program.draft, program.source.problem
    lines: tuple[n.GirthLine | n.FitLine, ...] = (*draft.girths, *draft.fits)
    meant = [part for girth in draft.girths for part in (girth.body, girth.ease, girth.passes)]
    meant += [girth.value for girth in draft.girths if girth.stretches is not None]
    held = _reached(program, {node.name for part in meant if part is not None for node in find_all(part, n.Name)})
    held |= {fit.measure.name for fit in draft.fits}
    # Who measures a place and holds it against nothing does so on purpose
    called = " ".join(f"{line.name} {line.title}" for line in lines).lower()
    held |= {name for name, title in _TRUNK.items() if title.lower() in called}
    # A figure in what is measured is no body to hold it against; the measurement itself may be
    held |= {node.name for girth in draft.girths for node in find_all(girth.value, n.Name)}
    drawn = {node.name for node in find_all((draft.figures, draft.sheets), n.Name)}
    for need in draft.needs:
        if lines and draft.pieces and need.name in _TRUNK and need.name in drawn - held:
            title = _TRUNK[need.name]
            said = f"The garment is drawn from {need.name}, and no girth or fit line holds it against that."
            fix = (
                f'Add, such as: girth {title.lower()} "{title}" = 4 * width(front, POINT)  body {need.name}  ease 4cm. '
                f"Where it may come out in a range: fit {title.lower()} = ...  body {need.name}  ease 2cm..20cm"
            )
            yield tell("drafting.girth-unheld", said, fix, need.span)
    for girth in draft.girths:
        own = {node.name for part in (girth.body, girth.value) if part is not None for node in find_all(part, n.Name)}
        if isinstance(girth.passes, n.Name) and girth.passes.name in _WIDER and girth.passes.name in own:
            name = girth.passes.name
            said = f"“{girth.title or girth.name}” passes {name}, round which it lies anyhow: nobody gets in by that."
            fix = f"Write what of the body must go through it when it is put on, such as: passes {_WIDER[name]}"
            yield tell("drafting.passes-itself", said, fix, girth.span)


def _reached(program: Program, names: set[str]) -> set[str]:
    """Those names and all that the figures among them are reckoned from."""
    steps = {step.name: step for step in find_all(program.draft.figures, n.Assign, n.Solve)}
    left, found = list(names), set(names)
    while left:
        step = steps.get(left.pop())
        inner = {node.name for node in find_all(step, n.Name)} - found if step is not None else set()
        found |= inner
        left.extend(inner)
    return found
