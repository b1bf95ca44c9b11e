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

    `edges` are what the names of its edges hold (written as one word), `piece` what that of a piece is or ends with,
    `needs` measurements that nothing else is drawn from, and `measures` those over which a fit line or a girth tells
    how much room there is.
    """

    called: str
    edges: tuple[str, ...]
    needs: frozenset[str]
    measures: tuple[str, ...]
    example: str
    piece: str = ""


_TOUCHES = (
    _Touches(
        "armhole",
        ("armhole", "armscye", "scye"),
        frozenset(("armscye_girth",)),
        ("armscye_girth",),
        "fit armhole = length(back.armhole) + length(front.armhole)  body armscye_girth  ease 3cm..5cm",
    ),
    _Touches(
        "sleeve",
        (),
        frozenset(("upper_arm_girth",)),
        ("upper_arm_girth",),
        "fit upper_arm = width(sleeve, under_arm)  body upper_arm_girth  ease 5cm..7cm",
        piece="sleeve",
    ),
    _Touches(
        "crotch",
        ("crotch", "fork", "seatseam"),
        frozenset(("total_crotch_length", "body_rise", "inside_leg_height")),
        ("total_crotch_length", "body_rise"),
        "fit crotch = length(back.crotch) + length(front.crotch)  body total_crotch_length  ease 2cm..5cm",
    ),
)


def fits_advice(program: Program) -> Iterator[Problem]:
    """A place at which every such garment touches the body, and of which no line says how much room it leaves."""
    draft = program.draft
    told = {line.measure.name for line in draft.fits}
    told |= {girth.body.name for girth in draft.girths if isinstance(girth.body, n.Name)}
    edges = tuple(find_all(draft, n.OutlineItem))
    for touches in _TOUCHES:
        asked = (need for need in draft.needs if need.name in touches.needs)
        named = (edge for edge in edges if any(word in edge.name.replace("_", "") for word in touches.edges))
        pieces = (piece for piece in draft.pieces if touches.piece and piece.name.endswith(touches.piece))
        found = next(iter((*asked, *named, *pieces)), None)
        if found is not None and told.isdisjoint(touches.measures):
            said = f"No line says how much room the {touches.called} leaves over the body, so nobody has looked."
            yield program.source.problem("drafting.fit-unsaid", said, f"Add, such as: {touches.example}", found.span)
