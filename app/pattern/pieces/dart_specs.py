"""From a drawn dart to what a piece hands in of it: which way it is pressed, and its legs in the outline's order."""

from __future__ import annotations

from dataclasses import replace
from math import cos, sin

from app.pattern.drafting import DartShape
from app.pattern.names import in_words
from app.pattern.pieces.model import Edge
from app.pattern.pieces.spec import DartSpec
from app.pattern.problem import Span

__all__ = ["dart_spec", "darts_as_listed"]


def dart_spec(name: str, dart: DartShape, span: Span) -> DartSpec:
    """A dart of the sheet as a piece takes it, pressed to the leg that lies where the designer says."""
    mouth = dart.a.between(dart.b, 0.5)
    angle = dart.pressed.resolve(mouth, dart.tip.angle_to(mouth))
    toward_a = (dart.a.x - dart.b.x) * cos(angle) + (dart.a.y - dart.b.y) * sin(angle)
    pressed = "a" if toward_a >= 0.0 else "b"
    label = in_words(name)
    return DartSpec(name, dart.tip, dart.a, dart.b, pressed, dart.clear_of, dart.clear_by, label, span)


def darts_as_listed(items: list[Edge | DartSpec]) -> tuple[Edge | DartSpec, ...]:
    """Darts turned round where the outline is listed the other way than they were drawn."""
    turned: list[Edge | DartSpec] = []
    for before, item in zip([items[-1], *items], items, strict=False):
        if isinstance(item, DartSpec) and isinstance(before, Edge) and item.a is not None and item.b is not None:
            ends = (before.path.start, before.path.end)
            if min(map(item.b.distance, ends)) < min(map(item.a.distance, ends)):
                item = replace(item, a=item.b, b=item.a, pressed_to="a" if item.pressed_to == "b" else "b")
        turned.append(item)
    return tuple(turned)
