"""A pen that writes SVG for the screen: presentation attributes and class names only, so a strict page policy holds."""

from __future__ import annotations

from math import degrees

from app.pattern.drawing.curves import drawable
from app.pattern.drawing.fonts import FAMILY
from app.pattern.drawing.look import ACCENT, GREY, Ink, Palette
from app.pattern.drawing.pen import Anchor, Face, FillStyle, Lettering, LineStyle
from app.pattern.geometry import Box, Line, Path, Point, Transform
from app.pattern.svg import closed, element, number, opened, said, svg

__all__ = ["SvgPen", "svg_page"]

_FACES: dict[Face, dict[str, str]] = {
    Face.ITALIC: {"font_style": "italic"},
    Face.STRONG: {"font_weight": "600"},
    Face.SIGN: {"font_weight": "600"},
}


def _hex(ink: Ink) -> str:
    return "#" + "".join(f"{round(part * 255):02x}" for part in ink)


_COLOURS = {FillStyle.ACCENT: _hex(ACCENT), FillStyle.PAPER: "#ffffff"}


def _pair(point: Point) -> str:
    return f"{number(point.x)} {number(-point.y)}"


class SvgPen:
    """Collects SVG elements; y is turned to point down, units stay mm."""

    def __init__(self, transform: Transform | None = None, palette: Palette = GREY) -> None:
        """Draw in the frame that `transform` leads to."""
        self.elements: list[str] = []
        self._transform = transform or Transform()
        self._palette = palette

    def moved(self, transform: Transform) -> SvgPen:
        """A pen that adds to the same drawing, with a transform done before this one's."""
        other = SvgPen(transform.then(self._transform), self._palette)
        other.elements = self.elements
        return other

    def open_group(self, title: str, *, kind: str) -> None:
        """Start a group with a title that assistive technology and a resting mouse can read."""
        self.elements.append(opened("g", class_=kind) + element("title", said(title)))

    def close_group(self) -> None:
        """End the group."""
        self.elements.append(closed("g"))

    def line(self, path: Path, style: LineStyle) -> None:
        """Stroke a path."""
        stroke = self._palette.strokes[style]
        look: dict[str, str | float | None] = {"stroke_width": stroke.width, "stroke_linejoin": "round"}
        if style is LineStyle.HIGHLIGHT:
            look |= {"stroke": _hex(ACCENT), "stroke_linecap": "round"}
        else:
            look |= {"stroke": "currentColor", "stroke_opacity": stroke.shade}
        look = {**look, "stroke_dasharray": " ".join(number(d) for d in stroke.dash) or None}
        self.elements.append(element("path", class_=f"line-{style}", d=self._traced(path), fill="none", **look))

    def fill(self, path: Path, style: FillStyle) -> None:
        """Fill a path."""
        colour = _COLOURS.get(style, "currentColor")
        shade = self._palette.fills[style] if colour == "currentColor" else None
        drawn = element("path", class_=f"fill-{style}", d=self._traced(path), fill=colour, fill_opacity=shade)
        self.elements.append(drawn)

    def text(self, at: Point, words: str, lettering: Lettering) -> None:
        """Set words."""
        place = self._transform.apply(at)
        turn = -degrees(lettering.angle + self._transform.angle)
        self.elements.append(
            element(
                "text",
                said(words),
                x=place.x,
                y=-place.y,
                font_size=lettering.size * self._transform.factor,
                **_FACES.get(lettering.face, {}),
                text_anchor=None if lettering.anchor is Anchor.START else str(lettering.anchor),
                fill="currentColor",
                fill_opacity=self._palette.words[lettering.face],
                transform=f"rotate({number(turn)} {_pair(place)})" if abs(turn) > 0.01 else None,
            )
        )

    def _traced(self, path: Path) -> str:
        segments = path.transformed(self._transform).segments
        words = [f"M{_pair(segments[0].start)}"]
        for segment in drawable(segments):
            if isinstance(segment, Line):
                words.append(f"L{_pair(segment.end)}")
            else:
                words.append(f"C{_pair(segment.c1)} {_pair(segment.c2)} {_pair(segment.end)}")
        if path.closed:
            words.append("Z")
        return "".join(words)


def svg_page(pen: SvgPen, box: Box, *, title: str, kind: str) -> str:
    """The pen's elements as a whole picture that fills its place on the page; `box` is what to show, mm, y up."""
    return svg(
        element("title", said(title)),
        *pen.elements,
        class_=kind,
        role="img",
        viewBox=" ".join(number(n) for n in (box.left, -box.top, box.right - box.left, box.top - box.bottom)),
        preserveAspectRatio="xMidYMid meet",
        font_family=f"'{FAMILY}', sans-serif",
        aria_label=title,
    )
