"""Darts and marks as they were drafted, made ready for a piece."""

from __future__ import annotations

from dataclasses import replace
from math import cos, sin

from app.pattern.drafting import DartShape
from app.pattern.drafting.shapes import Shape
from app.pattern.geometry import Path, Point, Transform
from app.pattern.language import nodes as n
from app.pattern.names import in_words
from app.pattern.pieces.model import Edge, Mark, MarkKind
from app.pattern.pieces.spec import DartSpec
from app.pattern.problem import Span

__all__ = ["dart_spec", "darts_as_listed", "fold_lines", "mark"]

#: What is printed along the lines of pleats and tucks, by the last word of a line's name.
_FOLD_WORDS = {
    "edge": "Pleat edge",
    "turn": "Turns under",
    "place": "Edge lies here",
    "meet": "Edges meet here",
    "stitch": "Stitch tuck",
    "fold": "Fold tuck",
    "arrow": "",
}


def fold_lines(shape: Shape, span: Span) -> tuple[Mark, ...]:
    """The lines of a shape's pleats and tucks, each with what the maker does there."""
    folds = [(t.what, MarkKind(t.kind), t.name.rpartition("_")[2]) for t in shape.inside if t.kind]
    return tuple(
        Mark(kind, p, p.point_at(p.length / 2.0), _FOLD_WORDS[word], span)
        for p, kind, word in folds
        if isinstance(p, Path)
    )


def mark(clause: n.MarkClause, value: object, move: Transform, label: str) -> Mark:
    """A mark of a piece, moved: a line as it was drawn, or a point."""
    path = value.transformed(move) if isinstance(value, Path) else None
    point = move.apply(value) if isinstance(value, Point) else Point(0.0, 0.0)
    return Mark(MarkKind(clause.kind), path, path.point_at(path.length / 2.0) if path else point, label, clause.span)


def dart_spec(name: str, dart: DartShape, span: Span) -> DartSpec:
    """A drawn dart as a piece hands it in, with the leg towards which it is pressed."""
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
