"""The picture of a frame: everything on it, the newest in colour, names that can be read."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree

import pytest

from app.pattern.drafting.playback import Frame, Shown
from app.pattern.drawing.playback import box_of, frame_svg
from app.pattern.geometry import Path, Point, curve

NS = "{http://www.w3.org/2000/svg}"


def frame(*things: Shown, words: str = "a = at 0, 0") -> Frame:
    return Frame("body", 3, words, things)


def shown(name: str, what, newest: bool = False) -> Shown:
    return Shown(name, what, 3, newest)


A, B = Point(0.0, 0.0), Point(100.0, 50.0)


def test_the_picture_stands_on_its_own_and_says_what_it_shows():
    svg = frame_svg(frame(shown("a", A, True), words='a = "<&>"'))
    root = ElementTree.fromstring(svg)
    assert root.get("role") == "img"
    assert root.get("aria-label") == 'Sheet body, line 3: a = "<&>"'
    assert "style=" not in svg
    assert "<style" not in svg
    assert "<script" not in svg


def test_the_newest_path_is_strong_and_the_older_ones_are_quiet():
    svg = frame_svg(frame(shown("new", Path.through(A, B), True), shown("old", curve(A, B, 0.0, 0.0))))
    lines = [e.get("class") for e in ElementTree.fromstring(svg).iter(f"{NS}path")]
    assert lines == ["line-mark", "line-highlight"]


def test_points_carry_their_names_and_the_newest_name_is_bold():
    svg = frame_svg(frame(shown("waist_side", B, True), shown("nape", A)))
    words = {e.text: e.get("font-weight") for e in ElementTree.fromstring(svg).iter(f"{NS}text")}
    assert words == {"waist side": "600", "nape": None}


def test_names_do_not_lie_over_one_another():
    crowd = [shown(f"point_{i}", Point(i * 4.0, 0.0)) for i in range(12)]
    svg = frame_svg(frame(*crowd))
    spots = [(float(e.get("x")), float(e.get("y")), float(e.get("font-size"))) for e in texts(svg)]
    for i, (x, y, size) in enumerate(spots):
        for other_x, other_y, _ in spots[i + 1 :]:
            assert abs(x - other_x) > size or abs(y - other_y) > size * 0.6


def texts(svg: str):
    return list(ElementTree.fromstring(svg).iter(f"{NS}text"))


def test_the_newest_is_named_even_in_a_crowd():
    crowd = [shown(f"point_{i}", Point(i * 0.5, i % 3 * 0.5)) for i in range(60)]
    svg = frame_svg(frame(shown("here", Point(10.0, 1.0), True), *crowd))
    assert "here" in [e.text for e in texts(svg)]


def test_a_plumb_line_that_runs_far_off_does_not_make_the_rest_small():
    plumb = Path.through(Point(50.0, 100.0), Point(50.0, -3000.0))
    box = box_of([frame(shown("a", A), shown("b", B), shown("plumb", plumb, True))])
    assert box.top - box.bottom < 200.0


def test_straight_lines_alone_are_shown_whole():
    box = box_of([frame(shown("long", Path.through(A, Point(900.0, 0.0))))])
    assert box.left < 0.0
    assert box.right > 900.0


def test_frames_of_one_box_can_be_laid_over_one_another():
    first, second = frame(shown("a", A, True)), frame(shown("b", B, True), shown("a", A))
    box = box_of([first, second])
    views = {re.search(r'viewBox="([^"]*)"', frame_svg(f, box))[1] for f in (first, second)}
    assert len(views) == 1


def test_an_empty_sheet_is_an_empty_picture():
    svg = frame_svg(frame())
    assert not texts(svg)
    assert 'viewBox="' in svg


@pytest.mark.parametrize("at", [A, Point(1234.5, -987.0)])
def test_a_single_point_stands_in_the_middle_of_some_paper(at):
    box = box_of([frame(shown("a", at, True))])
    assert (box.left + box.right) / 2 == pytest.approx(at.x)
    assert (box.bottom + box.top) / 2 == pytest.approx(at.y)
    assert box.right - box.left > 50.0
