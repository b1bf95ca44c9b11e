"""A pen that writes SVG for the screen: presentation attributes and class names only, so a strict page policy holds."""

from __future__ import annotations

from math import degrees
from xml.sax.saxutils import escape, quoteattr

from app.pattern.drawing.curves import drawable
from app.pattern.drawing.fonts import FAMILY
from app.pattern.drawing.look import ACCENT, GREY, Ink, Palette, Stroke
from app.pattern.drawing.pen import Anchor, Face, FillStyle, Lettering, LineStyle
from app.pattern.geometry import Box, Line, Path, Point, Transform

__all__ = ["SvgPen", "svg_page"]

_WEIGHT = {
    Face.REGULAR: "",
    Face.ITALIC: ' font-style="italic"',
    Face.STRONG: ' font-weight="600"',
    Face.PALE: "",
    Face.SIGN: ' font-weight="600"',
}


def _hex(ink: Ink) -> str:
    return "#" + "".join(f"{round(part * 255):02x}" for part in ink)


_COLOURS = {FillStyle.ACCENT: _hex(ACCENT), FillStyle.PAPER: "#ffffff"}


def _number(value: float) -> str:
    """A number as short as two decimals (0.01 mm) allow."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def _pair(point: Point) -> str:
    return f"{_number(point.x)} {_number(-point.y)}"


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
        self.elements.append(f"<g class={quoteattr(kind)}><title>{escape(title)}</title>")

    def close_group(self) -> None:
        """End the group."""
        self.elements.append("</g>")

    def line(self, path: Path, style: LineStyle) -> None:
        """Stroke a path."""
        look = self._stroke_look(style, self._palette.strokes[style])
        self.elements.append(f'<path class="line-{style}" d="{self._traced(path)}" fill="none" {look}/>')

    def fill(self, path: Path, style: FillStyle) -> None:
        """Fill a path."""
        colour = _COLOURS.get(style, "currentColor")
        shade = f' fill-opacity="{_number(self._palette.fills[style])}"' if colour == "currentColor" else ""
        self.elements.append(f'<path class="fill-{style}" d="{self._traced(path)}" fill="{colour}"{shade}/>')

    def text(self, at: Point, words: str, lettering: Lettering) -> None:
        """Set words."""
        place = self._transform.apply(at)
        turn = -degrees(lettering.angle + self._transform.angle)
        turned = f' transform="rotate({_number(turn)} {_pair(place)})"' if abs(turn) > 0.01 else ""
        size = _number(lettering.size * self._transform.factor)
        anchor = "" if lettering.anchor is Anchor.START else f' text-anchor="{lettering.anchor}"'
        shade = _number(self._palette.words[lettering.face])
        self.elements.append(
            f'<text x="{_number(place.x)}" y="{_number(-place.y)}" font-size="{size}"{_WEIGHT[lettering.face]}'
            f'{anchor} fill="currentColor" fill-opacity="{shade}"{turned}>{escape(words)}</text>'
        )

    def _stroke_look(self, style: LineStyle, stroke: Stroke) -> str:
        parts = [f'stroke-width="{_number(stroke.width)}"', 'stroke-linejoin="round"']
        if style is LineStyle.HIGHLIGHT:
            parts.append(f'stroke="{_hex(ACCENT)}" stroke-linecap="round"')
        else:
            parts.append(f'stroke="currentColor" stroke-opacity="{_number(stroke.shade)}"')
        if stroke.dash:
            parts.append(f'stroke-dasharray="{" ".join(_number(d) for d in stroke.dash)}"')
        return " ".join(parts)

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
    view = " ".join(_number(n) for n in (box.left, -box.top, box.right - box.left, box.top - box.bottom))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class={quoteattr(kind)} role="img" viewBox="{view}" '
        f'preserveAspectRatio="xMidYMid meet" font-family="\'{FAMILY}\', sans-serif" '
        f"aria-label={quoteattr(title)}><title>{escape(title)}</title>{''.join(pen.elements)}</svg>"
    )
