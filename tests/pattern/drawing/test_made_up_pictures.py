"""Pictures of anything: what the SVG pen writes is read back by another library, words fit, and bounds hold all ink."""

import itertools
import re
from math import isfinite, pi
from xml.etree import ElementTree

import pytest
import svgpathtools
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from app.pattern.drawing import FillStyle, LineStyle, SvgPen, piece_svg, preview_svg, svg_page
from app.pattern.drawing.fonts import letters_lacking, width_of, wrapped
from app.pattern.drawing.pen import Anchor, Face, Lettering
from app.pattern.drawing.record import BoundsPen, RecordPen, replay, text_corners
from app.pattern.geometry import Arc, Box, Cubic, Line, Path, Point, Transform, distance_to
from app.pattern.make import Made, make_pattern
from app.pattern.units import Unit
from tests.proved import SMALL_DRAFT

tried = settings(deadline=None, max_examples=40)
ordinates = st.integers(-4000, 4000).map(lambda n: n / 8)
points = st.builds(Point, ordinates, ordinates)
#: Signs that XML can hold (XML 1.0, 2.2) and a keyboard can send.
signs = st.characters(exclude_categories=("Cc", "Cs", "Cn", "Co"))
words = st.text(signs, min_size=1, max_size=30).filter(lambda text: text.strip())
letterings = st.builds(
    Lettering,
    st.floats(1.0, 20.0).map(lambda size: round(size, 1)),
    st.floats(-pi, pi),
    st.sampled_from(list(Anchor)),
    st.sampled_from(list(Face)),
)


@st.composite
def paths(draw):
    """Up to four segments one after the other, of every kind."""
    at, made = draw(points), []
    for _ in range(draw(st.integers(1, 4))):
        kind = draw(st.sampled_from(["line", "cubic", "arc"]))
        if kind == "arc":
            radius, start = draw(st.floats(5.0, 200.0)), draw(st.floats(-pi, pi))
            sweep = draw(st.floats(0.1, 6.0)) * draw(st.sampled_from([1, -1]))
            segment = Arc(at.polar(-radius, start), radius, start, sweep)
        else:
            end = draw(points)
            assume(at.distance(end) > 1.0)
            segment = Line(at, end) if kind == "line" else Cubic(at, draw(points), draw(points), end)
        made.append(segment)
        at = segment.end
    return Path(tuple(made))


@st.composite
def transforms(draw):
    """A movement, perhaps turned over, at some scale."""
    whole = Transform.turn(draw(st.floats(-7.0, 7.0)), draw(points)).then(Transform.scale(draw(st.floats(0.2, 3.0))))
    return whole.then(Transform.mirror(draw(points), Point(999.0, 1.0))) if draw(st.booleans()) else whole


def traced(pen):
    """The path that the pen wrote last, as svgpathtools reads it."""
    return svgpathtools.parse_path(re.search(r' d="([^"]+)"', pen.elements[-1])[1])


# ---- lines


@tried
@given(paths(), transforms())
def test_a_line_is_read_back_by_another_library_where_it_was_drawn(path, transform):
    """Two places after the point are 0.01 mm: nothing that is seen or cut is off by more."""
    pen = SvgPen(transform)
    pen.line(path, LineStyle.CUTTING)
    drawn, moved = traced(pen), path.transformed(transform)
    for t in (0.0, 0.13, 0.5, 0.77, 1.0):
        place = drawn.point(t)
        assert distance_to(moved, Point(place.real, -place.imag)) < 0.03
    assert drawn.length(error=1e-4) == pytest.approx(moved.length, rel=2e-3, abs=0.1)


@tried
@given(st.lists(points, min_size=3, max_size=6, unique=True))
def test_a_closed_shape_is_closed_in_the_picture(corners):
    assume(all(a.distance(b) > 1.0 for a in corners for b in corners if a is not b))
    pen = SvgPen()
    pen.fill(Path.through(*corners, corners[0]), FillStyle.PIECE)
    assert pen.elements[-1].count("Z") == 1
    assert traced(pen).isclosed()


# ---- words


@tried
@given(words, points, letterings)
def test_any_words_make_a_picture_that_can_be_read_and_says_them(text, at, lettering):
    pen = SvgPen()
    pen.text(at, text, lettering)
    page = ElementTree.fromstring(svg_page(pen, Box(0, 0, 10, 10), title=text, kind="piece"))
    [said] = [element for element in page.iter() if element.tag.endswith("}text")]
    assert said.text.replace("\r", "\n") == text.replace("\r", "\n")
    assert page.get("aria-label").split() == text.split()


@tried
@given(words, words)
def test_a_group_is_titled_by_whatever_it_is_called(title, other):
    pen = SvgPen()
    pen.open_group(title, kind="piece")
    pen.text(Point(0, 0), other, Lettering(4.0))
    pen.close_group()
    page = ElementTree.fromstring(svg_page(pen, Box(0, 0, 10, 10), title="x", kind="piece"))
    titles = [element.text for element in page.iter() if element.tag.endswith("}title")]
    assert [text.split() for text in titles] == [["x"], title.split()]


@pytest.mark.parametrize("hostile", ['"/><script>alert(1)</script>', "<b>&amp;", "]]>", "<!--", "' onload='x"])
def test_no_title_becomes_markup(hostile):
    pen = SvgPen()
    pen.text(Point(0, 0), hostile, Lettering(4.0))
    page = svg_page(pen, Box(0, 0, 10, 10), title=hostile, kind="piece")
    tree = ElementTree.fromstring(page)
    assert {element.tag.rpartition("}")[2] for element in tree.iter()} == {"svg", "title", "text"}
    assert set(tree.attrib) == {
        "class", "role", "viewBox", "preserveAspectRatio", "font-family", "aria-label",
    }  # fmt: skip


@tried
@given(
    st.text(st.sampled_from("abc déf 1/2\u00a0\u202f-"), max_size=60), st.floats(5.0, 80.0), st.sampled_from(list(Face))
)
def test_words_are_broken_at_gaps_alone_and_no_line_is_wider_than_told(text, width, face):
    assume(text.strip())
    lines = wrapped(text, 4.0, width, face)
    assert " ".join(lines).split(" ") == re.split(r"[^\S\u00a0\u202f]+", text.strip())
    for line in lines:
        assert width_of(line, 4.0, face) <= width or " " not in line
    for one, after in itertools.pairwise(lines):
        assert width_of(f"{one} {after.split(' ')[0]}", 4.0, face) > width, "a line is filled before the next begins"


@tried
@given(words, st.floats(1.0, 30.0), st.floats(1.0, 5.0), st.sampled_from(list(Face)))
def test_words_grow_with_their_size_and_add_up(text, size, times, face):
    one = width_of(text, size, face)
    assert width_of(text, size * times, face) == pytest.approx(one * times, rel=1e-6)
    assert width_of(text + text, size, face) == pytest.approx(2 * one, rel=1e-6)


def test_letters_the_typeface_lacks_are_told_once_each_in_their_order():
    assert letters_lacking("日本日 apron") == ("日", "本")
    assert letters_lacking("Käthe’s Schürze, 38 ½ in × 2") == ()


# ---- bounds and lengths


@tried
@given(st.lists(paths(), min_size=1, max_size=3), words, points, letterings, transforms())
def test_everything_that_is_drawn_lies_within_its_bounds(drawn, text, at, lettering, transform):
    record = RecordPen()
    for path in drawn:
        record.line(path, LineStyle.STITCHING)
    record.text(at, text, lettering)
    pen = BoundsPen(transform)
    replay(record.marks, pen)
    left, bottom, right, top = pen.box
    for path in drawn:
        for point in path.transformed(transform).flatten(0.5):
            assert left - 1e-6 <= point.x <= right + 1e-6
            assert bottom - 1e-6 <= point.y <= top + 1e-6
    for corner in text_corners(at, text, lettering):
        moved = transform.apply(corner)
        assert left - 1e-6 <= moved.x <= right + 1e-6
        assert bottom - 1e-6 <= moved.y <= top + 1e-6


# ---- whole pictures


@tried
@given(st.integers(60, 900), st.integers(60, 900), st.sampled_from(list(Unit)))
def test_a_piece_of_any_proportion_is_shown_whole(wide, high, unit):
    text = SMALL_DRAFT.replace("a right hip_girth / 4", f"a right {wide}mm").replace("down 60cm", f"down {high}mm")
    made = make_pattern(text, "x.draft", {"hip_girth": 980.0}, {})
    assert isinstance(made, Made), made
    for picture in (preview_svg(made.pattern, unit), piece_svg(made.pattern.pieces[0])):
        tree = ElementTree.fromstring(picture)
        left, top, width, height = map(float, tree.get("viewBox").split())
        assert all(map(isfinite, (left, top, width, height)))
        assert min(width, height) > 0
        for element in tree.iter():
            if not element.tag.endswith("}path"):
                continue
            x_least, x_most, y_least, y_most = svgpathtools.parse_path(element.get("d")).bbox()
            assert left - 0.02 <= x_least <= x_most <= left + width + 0.02
            assert top - 0.02 <= y_least <= y_most <= top + height + 0.02
