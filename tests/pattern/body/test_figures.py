"""The figures: one for each measure, standing alone, and the same as the files that are shown."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.pattern.body import MEASURES
from app.pattern.body.croquis import VIEWS, mirrored
from app.pattern.body.figures import draw_figure, main, smooth_path
from app.pattern.body.tapes import CROPS, Drop, Ring, Run

FOLDER = Path(__file__).parents[3] / "static" / "figures"
ALL = pytest.mark.parametrize("name", MEASURES)
SVG = "{http://www.w3.org/2000/svg}"


def test_figures_and_register_name_the_same_measures():
    assert {file.stem for file in FOLDER.glob("*.svg")} == set(MEASURES)


@ALL
def test_the_file_shown_is_what_is_drawn(name):
    assert (FOLDER / MEASURES[name].figure).read_text(encoding="utf-8") == draw_figure(name)


@ALL
def test_a_figure_stands_alone_and_tells_what_it_shows(name):
    root = ElementTree.fromstring(draw_figure(name))
    assert root.find(f"{SVG}title").text == MEASURES[name].title
    assert root.find(f"{SVG}desc").text == MEASURES[name].definition
    assert not [e for e in root.iter() if "href" in str(e.attrib) or e.tag in {f"{SVG}style", f"{SVG}script"}]


@ALL
def test_the_tape_shows_in_its_own_colour_and_within_the_picture(name):
    root = ElementTree.fromstring(draw_figure(name))
    left, top, width, height = map(float, root.get("viewBox").split())
    tapes = [e for e in root.iter(f"{SVG}path") if e.get("class") == "tape"]
    assert any("stroke-dasharray" not in tape.attrib for tape in tapes)
    assert {tape.get("stroke") for tape in tapes} == {"#0f5b5b"}
    for mark in MEASURES[name].tape.marks:
        for x, y in _extent(mark):
            assert left <= x <= left + width and top <= y <= top + height


def _extent(mark):
    if isinstance(mark, Ring):
        reach = max(mark.rx, mark.ry)
        return [(mark.x - reach, mark.y), (mark.x + reach, mark.y)]
    if isinstance(mark, Drop):
        return [(mark.x, mark.top), (mark.x, mark.bottom)]
    assert isinstance(mark, Run)
    return [tuple(map(float, pair.split(","))) for pair in mark.points.replace("|", " ").split()]


def test_all_parts_of_the_croquis_have_one_proportion():
    assert {round(width / height, 6) for _, _, width, height in CROPS.values()} == {round(2 / 3, 6)}


def test_the_croquis_is_seven_and_a_half_heads_tall():
    head = _ys(VIEWS["front"][2].points)
    body = _ys(VIEWS["front"][0].points)
    assert max(head) - min(head) == 100
    assert 745 <= max(body) <= 755


@pytest.mark.parametrize(
    ("measure", "share"),
    [("waist_height", 0.648), ("hip_height", 0.514), ("knee_height", 0.282), ("cervical_height", 0.864)],
)
def test_the_levels_of_the_croquis_are_those_of_the_survey(measure, share):
    """Mean height over mean stature of the women of 1988, within 1 % of stature."""
    (drop,) = MEASURES[measure].tape.marks
    assert (750 - drop.top) / 750 == pytest.approx(share, abs=0.01)


def _ys(points):
    return [float(y) for y in re.findall(r",(-?[\d.]+)", points)]


def test_mirroring_twice_gives_the_same_outline():
    points = "1,2 -3,4 | 5,6.5 | 0,8"
    assert mirrored(points) == "0,8 | -5,6.5 | 3,4 -1,2"
    assert mirrored(mirrored(points)) == points


@given(st.lists(st.tuples(st.integers(-500, 500), st.integers(-500, 500)), min_size=2, max_size=9, unique=True))
def test_a_smooth_path_passes_through_its_points_in_order(points):
    path = smooth_path(" ".join(f"{x},{y}" for x, y in points), closed=False)
    ends = [tuple(map(float, step.split()[-2:])) for step in re.split("[MLC]", path)[1:]]
    assert ends == [(float(x), float(y)) for x, y in points]


def test_a_corner_is_kept_and_two_points_make_a_straight_line():
    assert smooth_path("0,0 | 10,0 | 10,10", closed=False) == "M0 0 L10 0 L10 10"


def test_an_outline_without_a_corner_closes_smoothly():
    path = smooth_path("0,-10 10,0 0,10 -10,0", closed=True)
    assert path.startswith("M0 -10 C") and path.endswith("0 -10 Z")
    assert path.count("C") == 4


def test_the_command_writes_every_figure(tmp_path):
    assert main([str(tmp_path / "new")]) == 0
    assert len(list((tmp_path / "new").glob("*.svg"))) == len(MEASURES)


def test_every_measurement_says_where_its_tape_lies_in_a_part_of_the_croquis_that_there_is():
    assert {measure.tape.crop for measure in MEASURES.values()} == set(CROPS)
