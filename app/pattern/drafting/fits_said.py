"""Places at which a garment touches the body, and of which no line says how much room it leaves there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.pattern.drafting.program import Program
from app.pattern.language import nodes as n
from app.pattern.language.walk import find_all
from app.pattern.problem import Problem

__all__ = ["fits_advice"]


@dataclass(frozen=True, slots=True)
class _Touches:
    """Where a garment touches the body whatever else it does: what tells that it is there, and what would be told.

    `edges` are words in the names of its edges, `needs` measurements that nothing else is drawn from, and `measures`
    those over which a fit line or a girth tells how much room there is.
    """

    called: str
    edges: frozenset[str]
    needs: frozenset[str]
    measures: tuple[str, ...]
    example: str


_TOUCHES = (
    _Touches(
        "armhole or sleeve",
        frozenset(("armhole", "armscye", "scye")),
        frozenset(("upper_arm_girth", "armscye_girth")),
        ("armscye_girth", "upper_arm_girth"),
        "fit armhole = length(back.armhole) + length(front.armhole)  body armscye_girth  ease 3cm..5cm",
    ),
    _Touches(
        "crotch",
        frozenset(("crotch", "fork")),
        frozenset(("total_crotch_length",)),
        ("total_crotch_length", "body_rise"),
        "fit crotch = length(back.crotch) + length(front.crotch)  body total_crotch_length  ease 2cm..5cm",
    ),
)


def fits_advice(program: Program) -> Iterator[Problem]:
    """A place at which every such garment touches the body, and of which no line says how much room it leaves."""
    draft = program.draft
    told = {line.measure.name for line in draft.fits}
    told |= {girth.body.name for girth in draft.girths if isinstance(girth.body, n.Name)}
    for touches in _TOUCHES:
        named = (edge for edge in find_all(draft, n.OutlineItem) if touches.edges & set(edge.name.split("_")))
        found = next((node for node in (*draft.needs, *named) if _is_there(node, touches)), None)
        if found is not None and told.isdisjoint(touches.measures):
            said = f"No line says how much room the {touches.called} leaves over the body, so nobody has looked."
            yield program.source.problem("drafting.fit-unsaid", said, f"Add, such as: {touches.example}", found.span)


def _is_there(node: n.Name | n.OutlineItem, touches: _Touches) -> bool:
    return not isinstance(node, n.Name) or node.name in touches.needs
