"""The picture of a lay: titles that fit, a key for those that do not, lengths in the reader's unit, no styles."""

import re
from dataclasses import replace
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon, box

from app.pattern.geometry import Point
from app.pattern.lay import LayEffort, LayItem, LayPlan, lay_plan_for, lay_plan_svg
from app.pattern.lay.labels import LEADING, label_in, line_width, number_in
from app.pattern.pieces.model import Fabric
from app.pattern.units import Unit, show_cloth_length, show_length

SVG = "{http://www.w3.org/2000/svg}"
BRIEF = LayEffort(runs=1, seconds=0.05, orders=8, beside=4)
FOLDED = Fabric("main", "Cotton lawn", 1120.0, folded=True, shrinkage=0.03)


@pytest.fixture(scope="module")
def folded(dress) -> LayPlan:
    lay = lay_plan_for(dress, FOLDED, effort=BRIEF)
    assert isinstance(lay, LayPlan)
    return lay


@pytest.fixture(scope="module")
def opened(dress) -> LayPlan:
    lay = lay_plan_for(dress, replace(FOLDED, folded=False, one_way=True), effort=BRIEF)
    assert isinstance(lay, LayPlan)
    return lay


def words(svg):
    return [text.text for text in ElementTree.fromstring(svg).iter(f"{SVG}text")]


def test_every_piece_is_drawn_and_named(folded, dress):
    svg = lay_plan_svg(folded, Unit.CM)
    root = ElementTree.fromstring(svg)
    pieces = [p for p in root.iter(f"{SVG}polygon") if p.get("stroke")]
    assert len(pieces) == len(folded.placements)
    said = " ".join(words(svg))
    for item in dress:
        assert all(word in said for word in item.title.split())


def test_a_title_too_long_for_its_piece_is_a_number_with_a_key(folded):
    shown = words(lay_plan_svg(folded, Unit.CM))
    place = shown.index("Belt carrier")
    assert shown[place - 1].isdigit()
    assert shown.count(shown[place - 1]) == 2  # on the piece and in the key


def test_the_edges_of_the_cloth_are_named(folded, opened):
    assert {"Fold", "Selvedges, one on the other"} <= set(words(lay_plan_svg(folded, Unit.CM)))
    assert words(lay_plan_svg(opened, Unit.CM)).count("Selvedge") == 2


def test_the_direction_of_the_cloth_is_shown(folded, opened):
    assert "Straight grain" in words(lay_plan_svg(folded, Unit.CM))
    assert "Nap or print runs this way" in words(lay_plan_svg(opened, Unit.CM))


def test_shades_are_explained_only_when_they_occur(folded, opened):
    assert "Cut through one layer only" in words(lay_plan_svg(folded, Unit.CM))
    assert "Paper turned over, printed side down" not in words(lay_plan_svg(folded, Unit.CM))
    assert "Paper turned over, printed side down" in words(lay_plan_svg(opened, Unit.CM))


def test_lengths_are_in_the_readers_unit(folded):
    metric, imperial = words(lay_plan_svg(folded, Unit.CM)), words(lay_plan_svg(folded, Unit.INCH))
    assert "56 cm" in metric
    used, buy = show_length(folded.length, Unit.CM), show_cloth_length(folded.buy, Unit.CM)
    assert f"{used} of cloth used. Buy {buy}." in metric
    assert "22 in" in imperial
    assert any(re.search(r"in of cloth used\. Buy [\d /]+ yd\.", line) for line in imperial)


def test_a_reader_who_cannot_see_it_is_told_what_it_shows(folded):
    said = ElementTree.fromstring(lay_plan_svg(folded, Unit.CM)).get("aria-label")
    assert "Lay plan for Cotton lawn, 112 cm wide, folded along its length" in said
    assert "buy" in said


def test_nothing_in_it_needs_a_style_sheet_or_an_identifier(folded):
    svg = lay_plan_svg(folded, Unit.CM)
    assert "style" not in svg
    assert " id=" not in svg
    assert "url(" not in svg


def test_titles_are_escaped():
    ring = (Point(0, 0), Point(900, 0), Point(900, 500), Point(0, 500))
    lay = lay_plan_for(
        [LayItem("odd", 'Front <"A"> & lining', ring, 1)], replace(FOLDED, title="Tom & Co"), effort=BRIEF
    )
    assert isinstance(lay, LayPlan)
    svg = lay_plan_svg(lay, Unit.CM)
    assert 'Front <"A"> & lining' in words(svg)
    assert "Tom &amp; Co" in svg


@pytest.mark.parametrize("length", [60.0, 400.0, 9000.0])
def test_everything_stays_inside_the_picture(length):
    ring = (Point(0, 0), Point(length, 0), Point(length, 300), Point(0, 300))
    lay = lay_plan_for([LayItem("band", "A very long band with a very long title", ring, 1)], FOLDED, effort=BRIEF)
    assert isinstance(lay, LayPlan)
    root = ElementTree.fromstring(lay_plan_svg(lay, Unit.CM))
    width, height = (float(v) for v in root.get("viewBox").split()[2:])
    for text in root.iter(f"{SVG}text"):
        assert 0.0 <= float(text.get("x")) <= width
        assert 0.0 <= float(text.get("y")) <= height
    for polygon in root.iter(f"{SVG}polygon"):
        for pair in polygon.get("points").split():
            x, y = (float(v) for v in pair.split(","))
            assert 0.0 <= x <= width
            assert 0.0 <= y <= height


titles = st.lists(st.sampled_from(["Front", "neck", "facing", "Sleeve", "lining", "上衣"]), min_size=1, max_size=4)


@given(titles, st.floats(20.0, 300.0), st.floats(10.0, 120.0))
def test_a_title_that_is_shown_lies_inside_its_outline(title, length, depth):
    outline = Polygon([(0, 0), (length, 0), (length * 0.7, depth), (0, depth)])
    label = label_in(outline, " ".join(title), (length * 0.4, depth / 2))
    if label is None:
        return
    wide = max(line_width(line, label.size) for line in label.lines)
    tall = len(label.lines) * LEADING * label.size
    covered = box(label.x - wide / 2, label.y - tall / 2, label.x + wide / 2, label.y + tall / 2)
    assert outline.contains(covered)
    assert " ".join(label.lines).split() == title


def test_a_roomy_piece_has_its_title_on_one_line_in_the_largest_size():
    label = label_in(box(0, 0, 300, 200), "Back neck facing", (150, 100))
    assert label is not None
    assert label.lines == ("Back neck facing",)
    assert label.size == 14.0


def test_a_title_is_broken_where_its_lines_are_most_alike():
    label = label_in(box(0, 0, 92, 200), "Back neck facing", (46, 100))
    assert label is not None
    assert label.lines == ("Back", "neck facing") or label.lines == ("Back neck", "facing")


def test_a_number_grows_with_its_piece_within_reason():
    assert number_in(box(0, 0, 100, 100), 3, (50, 50)).size == 12.0
    assert number_in(box(0, 0, 100, 4), 3, (50, 2)).size == 9.0


def test_the_picture_has_a_title_that_says_what_it_shows(folded):
    root = ElementTree.fromstring(lay_plan_svg(folded, Unit.CM))
    assert root[0].tag == f"{SVG}title"
    assert root[0].text == root.get("aria-label")
