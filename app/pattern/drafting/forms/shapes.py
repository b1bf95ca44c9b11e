"""Forms of pattern work on traced shapes: pivot, shorten, cut, tape, spread, fan, pleat, move, true, face."""

from __future__ import annotations

from collections.abc import Sequence

from app.pattern.drafting.forms.form import Form
from app.pattern.drafting.kinds import Kind
from app.pattern.drafting.shapes.cutting import cut_along, join
from app.pattern.drafting.shapes.darts import back_off, pivot
from app.pattern.drafting.shapes.edges import facing, move_side, true_side
from app.pattern.drafting.shapes.fullness import fan, pleat, spread
from app.pattern.drafting.shapes.shape import Shape
from app.pattern.geometry import Point
from app.pattern.language import nodes as n

__all__ = ["SHAPES"]

Kinds = Sequence[Kind]
Parts = Sequence[n.Expr]


def _texts(parts: Parts) -> list[str]:
    return [part.text for part in parts if isinstance(part, n.Text)]


def _shape(kinds: Kinds) -> Kind:
    return next((kind for kind in kinds if kind.name == "shape"), Kind("shape"))


def _same(kinds: Kinds, parts: Parts) -> Kind:
    return _shape(kinds)


def _pivoted(kinds: Kinds, parts: Parts) -> Kind:
    """Any side may be the one that the new dart cuts in two; which one is known only with a body."""
    held = _shape(kinds).options
    sides = [name.removesuffix(":path") for name in held if name.endswith(":path")]
    halves = [f"{side}_{half}:path" for side in sides for half in (1, 2)]
    new = _texts(parts)[-1]
    return Kind("shape", (*held, *halves, f"{new}:dart"))


def _cut(kinds: Kinds, parts: Parts) -> Kind:
    return Kind("shape", (*_shape(kinds).options, f"{_texts(parts)[-1]}:path"))


def _taped(kinds: Kinds, parts: Parts) -> Kind:
    shapes = [kind for kind in kinds if kind.name == "shape"]
    second = [name for kind in shapes[1:] for name in kind.options]
    again = [name.replace(":path", "_2:path") for name in second if name.endswith(":path")]
    return Kind("shape", tuple(dict.fromkeys((*shapes[0].options, *second, *again)) if shapes else ()))


def _faced(kinds: Kinds, parts: Parts) -> Kind:
    return Kind("shape", (*_shape(kinds).options, "inner:path"))


def _pleated(kinds: Kinds, parts: Parts) -> Kind:
    lines = [f"pleat_{number}_{line}:path" for number in range(1, 41) for line in ("edge", "turn", "place")]
    return Kind("shape", (*_shape(kinds).options, *lines))


def _pivot(dart: str, shape: Shape, point: Point, share: float, name: str) -> Shape:
    return pivot(shape, dart, point, share, name)


SHAPES = (
    Form(
        "pivot",
        ("text", "shape", "point", "number", "text"),
        _pivoted,
        _pivot,
        "turned = pivot bust_dart of block to (middle of neck_point and shoulder_tip) as shoulder_dart",
    ),
    Form(
        "shorten",
        ("text", "shape", "length"),
        _same,
        lambda dart, shape, by: back_off(shape, dart, by),
        "shorter = shorten bust_dart of block by 2cm",
    ),
    Form(
        "cut left",
        ("shape", "path", "text"),
        _cut,
        lambda shape, path, name: cut_along(shape, path, name, "left"),
        "middle_front = cut block left of princess",
    ),
    Form(
        "cut right",
        ("shape", "path", "text"),
        _cut,
        lambda shape, path, name: cut_along(shape, path, name, "right"),
        "side_front = cut block right of princess",
    ),
    Form(
        "tape",
        ("shape", "text", "shape", "text"),
        _taped,
        join,
        "whole = tape middle_front to side_front on princess",
    ),
    Form(
        "spread",
        ("shape", "length", "path", "path*"),
        _same,
        lambda shape, by, *slashes: spread(shape, slashes, by),
        "full = spread block along slash_1, slash_2 by 4cm",
    ),
    Form(
        "fan",
        ("shape", "length", "path", "path*"),
        _same,
        lambda shape, by, *slashes: fan(shape, slashes, by),
        "flared = fan block along slash_1, slash_2 by 6cm",
    ),
    Form(
        "pleat",
        ("shape", "length", "path", "path*"),
        _pleated,
        lambda shape, deep, *slashes: pleat(shape, slashes, deep),
        "pleated = pleat block along slash_1 deep 3cm",
    ),
    Form(
        "move out",
        ("text", "shape", "length"),
        _same,
        lambda side, shape, by: move_side(shape, side, by),
        "longer = move hem of block out by 4cm",
    ),
    Form(
        "move in",
        ("text", "shape", "length"),
        _same,
        lambda side, shape, by: move_side(shape, side, -by),
        "lining = move hem of block in by 2cm",
    ),
    Form("true", ("text", "shape"), _same, lambda side, shape: true_side(shape, side), "fair = true hem of flared"),
    Form(
        "face",
        ("shape", "length", "text", "text*"),
        _faced,
        lambda shape, deep, *sides: facing(shape, sides, deep),
        "neck_facing = face block along neck deep 6cm",
    ),
)
