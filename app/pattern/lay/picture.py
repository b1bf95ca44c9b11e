"""The picture of a lay plan: the cloth, its selvedges and fold, the pieces with their titles, and what to buy, as SVG.

Everything is in presentation attributes, so that it may stand in a page with a strict
content security policy and in a printed document alike.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from shapely import Polygon

from app.pattern.lay.labels import LEADING, Label, label_in, line_width, number_in
from app.pattern.lay.model import LayPlan, Placement
from app.pattern.lay.words import cloth_in_words
from app.pattern.pieces.model import Fabric
from app.pattern.svg import element, number, pair, said, svg
from app.pattern.units import Unit, show_cloth_length, show_length

__all__ = ["lay_plan_svg"]

INK, TEAL = "#1d2a2a", "#0f5b5b"
CLOTH, PIECE, OVER, SINGLE = "#f1f7f6", "#cfe4e1", "#8fbcb7", "#ffffff"
FAMILY = "'Source Sans 3', sans-serif"

#: The picture's width and the cloth's greatest size in it, in units (CSS pixels when shown at full width).
WIDTH, LONGEST, DEEPEST = 760.0, 676.0, 430.0
LEFT, TOP = 62.0, 46.0
KEY_LINE = 20.0


@dataclass(frozen=True, slots=True)
class _Frame:
    """Where the cloth lies in the picture: units per mm, its left and upper edges, its length and depth in units."""

    scale: float
    left: float
    top: float
    length: float
    depth: float

    def shown(self, outline: Sequence[tuple[float, float]]) -> Polygon:
        """An outline in the cloth's frame, in picture units (y down, the fold below)."""
        k, foot = self.scale, self.top + self.depth
        return Polygon([(self.left + k * x, foot - k * y) for x, y in outline])


def lay_plan_svg(plan: LayPlan, unit: Unit) -> str:
    """The lay as a self-contained SVG picture, 760 units wide, lengths in the reader's unit."""
    depth = plan.cloth.depth
    scale = min(LONGEST / plan.length, DEEPEST / depth)
    frame = _Frame(scale, LEFT, TOP, plan.length * scale, depth * scale)
    labels, key = _labels(plan.placements, frame)
    bottom = frame.top + frame.depth + 62.0
    signs = [*_shade_signs(plan), *(_numbered(count, title) for title, count in key.items())]
    listing, height = _key(signs, bottom)
    words = "Nap or print runs this way" if plan.cloth.one_way else "Straight grain"
    right, y = max(frame.left + frame.length, 420.0), frame.top - 26.0
    start = right - line_width(words, 12.0) - 76.0
    arrow = [_line((start, y), (start + 60.0, y)), _head(start + 62.0, y, 1.0, 0.0)]
    arrow += [] if plan.cloth.one_way else [_head(start - 2.0, y, -1.0, 0.0)]
    body = [
        *_cloth(frame),
        *(_piece(placement, plan.cloth, frame) for placement in plan.placements),
        *_edges(plan.cloth, frame),
        *[*arrow, _text(words, start + 70.0, y + 4.0, size=13.0, anchor="start")],
        *(_words(label) for label in labels),
        *_length_line(plan, frame, unit),
        *_depth_line(plan.cloth, frame, unit),
        *listing,
    ]
    return _picture(body, height, _in_words(plan, unit))


def _in_words(plan: LayPlan, unit: Unit) -> str:
    return (
        f"Lay plan for {plan.cloth.title}, {cloth_in_words(plan.cloth, unit)}: "
        f"{len(plan.placements)} outlines on {show_length(plan.length, unit)}; buy {show_cloth_length(plan.buy, unit)}."
    )


def _picture(body: Sequence[str], height: float, description: str) -> str:
    inside = [
        "",
        element("title", said(description)),
        element("rect", width=WIDTH, height=height, fill="#ffffff"),
        *body,
        "",
    ]
    shown = {"viewBox": f"0 0 {number(WIDTH)} {number(height)}", "width": number(WIDTH), "height": number(height)}
    return svg("\n".join(inside), **shown, role="img", aria_label=description, font_family=FAMILY, fill=INK) + "\n"


def _line(a: tuple[float, float], b: tuple[float, float], width: float = 1.0, dash: str | None = None) -> str:
    return element("line", x1=a[0], y1=a[1], x2=b[0], y2=b[1], stroke=INK, stroke_width=width, stroke_dasharray=dash)


def _text(words: str, x: float, y: float, *, size: float = 13.0, anchor: str = "middle", **more: str) -> str:
    return element("text", said(words), x=x, y=y, font_size=size, text_anchor=anchor, **more)


def _polygon(points: Iterable[Sequence[float]], **look: str | float) -> str:
    return element("polygon", points=" ".join(pair(x, y) for x, y in points), **look)


def _head(x: float, y: float, dx: float, dy: float) -> str:
    """A slim filled arrow head whose point is at (x, y), flying in the direction (dx, dy)."""
    back = [(x - 8 * dx - 3 * dy, y - 8 * dy + 3 * dx), (x - 8 * dx + 3 * dy, y - 8 * dy - 3 * dx)]
    return _polygon([(x, y), *back], fill=INK)


def _cloth(frame: _Frame) -> list[str]:
    """The cloth between its two cut ends."""
    left, right = frame.left, frame.left + frame.length
    top, foot = frame.top, frame.top + frame.depth
    band = element("rect", x=left, y=top, width=frame.length, height=frame.depth, fill=CLOTH)
    return [band, _line((left, top), (left, foot), dash="2 3"), _line((right, top), (right, foot), dash="2 3")]


def _edges(cloth: Fabric, frame: _Frame) -> list[str]:
    """The selvedges and the fold, over the pieces that touch them."""
    left, right = frame.left, frame.left + frame.length
    top, foot = frame.top, frame.top + frame.depth
    drawn = [_line((left, top), (right, top), 2.0), _line((left, top - 3.5), (right, top - 3.5), 0.6)]
    if cloth.folded:
        drawn += [_line((left, foot), (right, foot), 2.6, "16 4 3 4")]
    else:
        drawn += [_line((left, foot), (right, foot), 2.0), _line((left, foot + 3.5), (right, foot + 3.5), 0.6)]
    edge = "Selvedges, one on the other" if cloth.folded else "Selvedge"
    drawn.append(_text(edge, left, top - 10.0, size=13.0, anchor="start"))
    drawn.append(_text("Fold" if cloth.folded else "Selvedge", left, foot + 19.0, size=13.0, anchor="start"))
    return drawn


def _piece(placement: Placement, cloth: Fabric, frame: _Frame) -> str:
    outline = frame.shown(placement.outline).exterior.coords[:-1]
    return _polygon(outline, fill=_shade(placement, cloth), stroke=TEAL, stroke_width=1.2)


def _shade(placement: Placement, cloth: Fabric) -> str:
    if placement.mirrored:
        return OVER
    return SINGLE if cloth.folded and placement.layers == 1 else PIECE


def _labels(placements: Sequence[Placement], frame: _Frame) -> tuple[list[Label], dict[str, int]]:
    """Each piece's title where it fits, else its number, with the numbers' titles."""
    labels: list[Label] = []
    key: dict[str, int] = {}
    for placement in placements:
        outline = frame.shown(placement.outline)
        deepest = (
            frame.left + frame.scale * placement.label[0],
            frame.top + frame.depth - frame.scale * placement.label[1],
        )
        title = placement.title or placement.piece
        label = label_in(outline, title, deepest)
        labels.append(label or number_in(outline, key.setdefault(title, len(key) + 1), deepest))
    return labels, key


def _words(label: Label) -> str:
    top = label.y - (len(label.lines) - 1) * LEADING * label.size / 2.0 + 0.34 * label.size
    return "".join(
        _text(line, label.x, top + k * LEADING * label.size, size=label.size) for k, line in enumerate(label.lines)
    )


def _length_line(plan: LayPlan, frame: _Frame, unit: Unit) -> list[str]:
    left, right, y = frame.left, frame.left + frame.length, frame.top + frame.depth + 32.0
    words = f"{show_length(plan.length, unit)} of cloth used. Buy {show_cloth_length(plan.buy, unit)}."
    middle = max((left + right) / 2.0, left + line_width(words, 14.0) / 2.0)
    return [
        _line((left, y), (right, y)),
        _head(left, y, -1.0, 0.0),
        _head(right, y, 1.0, 0.0),
        _text(words, middle, y + 20.0, size=14.0, font_weight="600"),
    ]


def _depth_line(cloth: Fabric, frame: _Frame, unit: Unit) -> list[str]:
    x, top, foot = frame.left - 16.0, frame.top, frame.top + frame.depth
    words = show_length(cloth.depth, unit)
    y = (top + foot) / 2.0
    turn = f"rotate(-90 {number(x - 8.0)} {number(y)})"
    return [
        _line((x, top), (x, foot)),
        _head(x, top, 0.0, -1.0),
        _head(x, foot, 0.0, 1.0),
        _text(words, x - 8.0, y, size=13.0, transform=turn),
    ]


def _shade_signs(plan: LayPlan) -> list[tuple[str, str]]:
    """What the shades mean, for those that occur: (drawing of the sign at the origin, words)."""
    shades = {_shade(placement, plan.cloth) for placement in plan.placements}
    told = [(OVER, "Paper turned over, printed side down"), (SINGLE, "Cut through one layer only")]
    return [(_square(shade), words) for shade, words in told if shade in shades]


def _square(shade: str) -> str:
    return element("rect", x=0.0, y=-10.0, width=18.0, height=12.0, stroke=TEAL, stroke_width=1.2, fill=shade)


def _numbered(count: int, title: str) -> tuple[str, str]:
    return _text(str(count), 9.0, 0.0, size=13.0, font_weight="600"), title


def _key(signs: Sequence[tuple[str, str]], top: float) -> tuple[list[str], float]:
    """The key under the picture in rows as wide as it, and the height at which the picture ends."""
    x, y = LEFT, top + KEY_LINE
    drawn = []
    for sign, words in signs:
        wide = 26.0 + line_width(words, 13.0) + 22.0
        if x > LEFT and x + wide > WIDTH:
            x, y = LEFT, y + KEY_LINE
        told = _text(words, 26.0, 0.0, anchor="start")
        drawn.append(element("g", sign, told, transform=f"translate({number(x)} {number(y)})"))
        x += wide
    return drawn, (y + 14.0 if signs else top + 10.0)
