"""Pattern work on traced shapes: pivot, shorten, cut, tape, spread, fan, pleat, tuck, move, true, unite, face."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from app.pattern.drafting.forms.form import Form
from app.pattern.drafting.kinds import Kind
from app.pattern.drafting.shapes.changes import changes
from app.pattern.drafting.shapes.cutting import cut_along, join
from app.pattern.drafting.shapes.darts import back_off, pivot
from app.pattern.drafting.shapes.edges import move_side, true_side, unite
from app.pattern.drafting.shapes.facings import facing
from app.pattern.drafting.shapes.fullness import fan, fan_times, spread, spread_times
from app.pattern.drafting.shapes.pleats import BOX, INVERTED, KNIFE, TUCK, Folding, pleat, tuck
from app.pattern.drafting.shapes.shape import Shape
from app.pattern.geometry import Path, spend
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


def _united(kinds: Kinds, parts: Parts) -> Kind:
    return Kind("shape", tuple(dict.fromkeys((*_shape(kinds).options, f"{_texts(parts)[0]}:path"))))


def _faced(kinds: Kinds, parts: Parts) -> Kind:
    return Kind("shape", (*_shape(kinds).options, "inner:path"))


def _folded(folding: Folding) -> Callable[[Kinds, Parts], Kind]:
    """Kinds of what a shape holds once folded: which folds there are is known only with a body."""
    lines = [f"{folding.word}_{number}_{word}:path" for number in range(1, 41) for word, _, _ in folding.lines]
    return lambda kinds, parts: Kind("shape", tuple(dict.fromkeys((*_shape(kinds).options, *lines))))


def _work(
    name: str, takes: tuple[str, ...], gives: Callable[[Kinds, Parts], Kind], run: Callable[..., Shape], example: str
) -> Form:
    """A form of pattern work; the shape it gives tells in its log what the work changed."""

    def told(*parts: object) -> Shape:
        # Each line is looked for on every side, and cuts one in two for the next.
        sides = sum(len(part.items) + len(part.inside) for part in parts if isinstance(part, Shape))
        lines = sum(isinstance(part, Path) for part in parts)
        spend(3 * lines * (lines + sides))
        after = run(*parts)
        return after.noted(changes([part for part in parts if isinstance(part, Shape)], after))

    return Form(name, takes, gives, told, example)


SHAPES = (
    _work(
        "pivot",
        ("text", "shape", "point", "number", "text"),
        _pivoted,
        lambda dart, shape, point, share, name: pivot(shape, dart, point, share, name),
        "turned = pivot bust_dart of block to (middle of neck_point and shoulder_tip) as shoulder_dart",
    ),
    _work(
        "shorten",
        ("text", "shape", "length"),
        _same,
        lambda dart, shape, by: back_off(shape, dart, by),
        "shorter = shorten bust_dart of block by 2cm",
    ),
    _work(
        "cut left",
        ("shape", "path", "text"),
        _cut,
        lambda shape, path, name: cut_along(shape, path, name, "left"),
        "middle_front = cut block left of princess",
    ),
    _work(
        "cut right",
        ("shape", "path", "text"),
        _cut,
        lambda shape, path, name: cut_along(shape, path, name, "right"),
        "side_front = cut block right of princess",
    ),
    _work(
        "tape",
        ("shape", "text", "shape", "text"),
        _taped,
        join,
        "whole = tape middle_front to side_front on princess",
    ),
    _work(
        "spread",
        ("shape", "length", "path", "path*"),
        _same,
        lambda shape, by, *slashes: spread(shape, slashes, by),
        "full = spread block along slash_1, slash_2 by 4cm",
    ),
    _work(
        "fan",
        ("shape", "length", "path", "path*"),
        _same,
        lambda shape, by, *slashes: fan(shape, slashes, by),
        "flared = fan block along slash_1, slash_2 by 6cm",
    ),
    _work(
        "spread times",
        ("shape", "text", "number", "path", "path*"),
        _same,
        lambda shape, side, times, *slashes: spread_times(shape, side, times, slashes),
        "full = spread block along slash_1, slash_2 making hem 1.5 times as long",
    ),
    _work(
        "fan times",
        ("shape", "text", "number", "path", "path*"),
        _same,
        lambda shape, side, times, *slashes: fan_times(shape, side, times, slashes),
        "flared = fan block along slash_1, slash_2 making hem 1.5 times as long",
    ),
    _work(
        "pleat",
        ("shape", "length", "path", "path*"),
        _folded(KNIFE),
        lambda shape, deep, *slashes: pleat(shape, slashes, deep, KNIFE),
        "pleated = pleat block along slash_1 deep 3cm",
    ),
    _work(
        "box pleat",
        ("shape", "length", "path", "path*"),
        _folded(BOX),
        lambda shape, deep, *slashes: pleat(shape, slashes, deep, BOX),
        "pleated = box pleat block along slash_1 deep 3cm",
    ),
    _work(
        "inverted pleat",
        ("shape", "length", "path", "path*"),
        _folded(INVERTED),
        lambda shape, deep, *slashes: pleat(shape, slashes, deep, INVERTED),
        "pleated = inverted pleat block along slash_1 deep 3cm",
    ),
    _work(
        "tuck",
        ("shape", "length", "path", "path*"),
        _folded(TUCK),
        lambda shape, deep, *slashes: tuck(shape, slashes, deep),
        "tucked = tuck block along slash_1 deep 5mm",
    ),
    _work(
        "tuck released",
        ("shape", "length", "length", "path", "path*"),
        _folded(TUCK),
        lambda shape, deep, stitched, *slashes: tuck(shape, slashes, deep, stitched),
        "tucked = tuck block along slash_1 deep 5mm stitched 8cm",
    ),
    _work(
        "move out",
        ("text", "shape", "length"),
        _same,
        lambda side, shape, by: move_side(shape, side, by),
        "longer = move hem of block out by 4cm",
    ),
    _work(
        "move in",
        ("text", "shape", "length"),
        _same,
        lambda side, shape, by: move_side(shape, side, -by),
        "lining = move hem of block in by 2cm",
    ),
    _work(
        "true",
        ("text", "shape", "point*"),
        _same,
        lambda side, shape, *points: true_side(shape, side, points),
        "fair = true hem of flared through low_point",
    ),
    _work(
        "unite",
        ("shape", "text", "text", "text*"),
        _united,
        lambda shape, name, *sides: unite(shape, sides, name),
        "whole = unite side_upper, side_lower of block as side",
    ),
    _work(
        "face",
        ("shape", "length", "text", "text*"),
        _faced,
        lambda shape, deep, *sides: facing(shape, sides, deep),
        "neck_facing = face block along neck deep 6cm",
    ),
)
