"""The chart of a proof's bodies: everybody inside the frame, round figures, and links that find their body again."""

import itertools
import re
from urllib.parse import parse_qs, urlsplit
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.pattern.proof import Area, Range, Region
from app.pattern.units import Unit
from app.shop.proofs.chart import Chart, axes_of, chart_svg

GIRTHS = st.floats(300.0, 2200.0)


def body(name, waist, hip, failed=0):
    return {
        "id": name,
        "kind": "size",
        "body": {"waist_girth": waist, "hip_girth": hip},
        "failed": failed,
        "failures": [],
    }


BODIES = [body("size 92", 760.0, 980.0), body("size 110", 920.0, 1140.0, failed=2)]


def drawn(chart):
    """The picture as a tree; it must be whole XML."""
    return ElementTree.fromstring(chart_svg(chart))


def places(tree):
    """Where every body stands: the middle of its disc, or of its cross."""
    found = []
    for element in tree.iter():
        if element.tag.endswith("circle"):
            found.append((float(element.get("cx")), float(element.get("cy"))))
        if element.tag.endswith("path") and (start := re.match(r"M([\d.-]+) ([\d.-]+)l", element.get("d"))):
            found.append((float(start[1]) + 4, float(start[2]) + 4))
    return found


@given(st.lists(st.tuples(GIRTHS, GIRTHS, st.integers(0, 3)), min_size=1, max_size=12), st.sampled_from(list(Unit)))
def test_everybody_stands_inside_the_frame_wherever_they_are(people, unit):
    bodies = [body(f"size {number}", *one) for number, one in enumerate(people)]
    found = places(drawn(Chart(bodies, Region(()), unit)))
    assert len(found) == len(bodies)
    assert all(50.0 <= x <= 466.0 and 14.0 <= y <= 334.0 for x, y in found)


@given(GIRTHS, GIRTHS, GIRTHS, GIRTHS)
def test_a_larger_girth_never_stands_left_of_or_below_a_smaller_one(waist, hip, other_waist, other_hip):
    (x, y), (other_x, other_y) = places(
        drawn(Chart([body("a", waist, hip), body("b", other_waist, other_hip)], Region(())))
    )
    assert (x <= other_x) if waist <= other_waist else (x >= other_x)
    assert (y >= other_y) if hip <= other_hip else (y <= other_y)


def test_a_proof_of_one_body_is_a_chart_too():
    tree = drawn(Chart(BODIES[:1], Region(())))
    assert places(tree) == [(258.0, 174.0)], "in the middle of the frame"


def test_bodies_alike_in_one_girth_stand_in_one_line():
    tree = drawn(Chart([body("a", 700.0, 1000.0), body("b", 900.0, 1000.0)], Region(())))
    (_, first), (_, second) = places(tree)
    assert first == second


@pytest.mark.parametrize(("unit", "steps"), [(Unit.CM, {5.0, 10.0, 20.0, 50.0}), (Unit.INCH, {2.0, 4.0, 8.0, 16.0})])
@pytest.mark.parametrize("span", [40.0, 300.0, 700.0, 1500.0])
def test_the_figures_along_an_axis_are_round_in_the_readers_unit_and_not_too_many(unit, steps, span):
    tree = drawn(Chart([body("a", 700.0, 1000.0), body("b", 700.0 + span, 1000.0 + span)], Region(()), unit))
    across = [
        float(element.text)
        for element in tree.iter()
        if element.tag.endswith("text") and element.get("y") == "350" and element.get("text-anchor") == "middle"
    ]
    assert len(across) <= 8
    between = {round(b - a, 6) for a, b in itertools.pairwise(across)}
    assert len(between) <= 1
    assert between <= steps


def test_the_proved_region_stands_round_those_within_it():
    region = Region((Range("waist_girth", 700.0, 800.0), Range("hip_girth", 900.0, 1000.0)))
    left, right, top, foot = field_of(region)
    within, beyond = places(drawn(Chart(BODIES, region)))
    assert left <= within[0] <= right
    assert top <= within[1] <= foot
    assert not (left <= beyond[0] <= right and top <= beyond[1] <= foot)


def field_of(region, **more):
    """Left, right, top and foot of the tinted field."""
    [field] = [one for one in drawn(Chart(BODIES, region, **more)).iter() if one.get("class") == "region"]
    xs, ys = zip(
        *[map(float, pair.split()) for pair in re.findall(r"[ML]([\d.]+ [\d.]+)", field.get("d"))], strict=True
    )
    return min(xs), max(xs), min(ys), max(ys)


def test_the_field_of_two_girths_is_that_of_the_cells_in_which_bodies_were_tried():
    ranges = (Range("waist_girth", 700.0, 900.0), Range("hip_girth", 900.0, 1200.0))
    cells = frozenset({(39, 50), (40, 51), (40, 52)})  # waist 78 to 82, hip 100 to 106 cm
    cut = field_of(Region(ranges, (Area("waist_girth", "hip_girth", cells),)))
    whole = field_of(Region(ranges))
    assert whole[0] < cut[0] < cut[1] < whole[1]
    assert whole[2] < cut[2] < cut[3] < whole[3]


def test_a_body_outside_is_shown_by_the_measurements_in_which_it_is():
    needs = ["bust_girth", "waist_girth", "hip_girth", "back_waist_length"]
    assert axes_of(needs) == ("bust_girth", "hip_girth")
    assert axes_of(needs, ("waist_girth", "hip_girth")) == ("waist_girth", "hip_girth")
    assert axes_of(needs, ("waist_girth",)) == ("bust_girth", "waist_girth")
    assert set(axes_of(needs, ("back_waist_length",))) == {"bust_girth", "back_waist_length"}
    assert axes_of(["neck_girth"], ("neck_girth",)) == ("neck_girth", "neck_girth")


def test_a_body_that_was_told_to_be_outside_is_never_drawn_inside_the_field():
    ranges = (Range("waist_girth", 700.0, 900.0), Range("hip_girth", 900.0, 1200.0))
    region = Region(ranges, (Area("waist_girth", "hip_girth", frozenset({(36, 47)})),))
    here = {"waist_girth": 880.0, "hip_girth": 910.0}
    left, right, top, foot = field_of(region, here=here)
    [cross] = [one for one in drawn(Chart(BODIES, region, here=here)).iter() if one.get("class") == "here"]
    spot = cross[0]
    x, y = float(spot.get("cx")), float(spot.get("cy"))
    assert not (left <= x <= right and top <= y <= foot)


def test_a_region_that_leaves_out_an_axis_is_not_drawn():
    for axes in [("waist_girth",), ("hip_girth",), ("bust_girth", "hip_girth")]:
        region = Region(tuple(Range(axis, 700.0, 1000.0) for axis in axes))
        assert 'class="region"' not in chart_svg(Chart(BODIES, region))


def test_each_body_says_its_girths_and_whether_it_holds():
    titles = [one.text for one in drawn(Chart(BODIES, Region(()))).iter() if one.tag.endswith("title")]
    assert titles == [
        "size 92: waist girth 76 cm, hip girth 98 cm; holds",
        "size 110: waist girth 92 cm, hip girth 114 cm; did not hold",
    ]
    inches = [one.text for one in drawn(Chart(BODIES, Region(()), Unit.INCH)).iter() if one.tag.endswith("title")]
    assert inches[0] == "size 92: waist girth 29 7/8 in, hip girth 38 5/8 in; holds"


def test_those_that_did_not_hold_are_drawn_last():
    bodies = [body("a", 700.0, 900.0, failed=1), body("b", 710.0, 910.0), body("c", 720.0, 920.0, failed=1)]
    picture = chart_svg(Chart(bodies, Region(())))
    assert list(re.findall(r"<title>(\w):", picture)) == ["b", "a", "c"]


@given(st.text(st.characters(exclude_categories=("Cc", "Cs")), min_size=1, max_size=30))
def test_a_body_is_found_again_by_its_link_whatever_it_is_called(name):
    tree = drawn(Chart([body(name, 700.0, 900.0)], Region(()), linked=True, chosen=name))
    [link] = [one for one in tree.iter() if one.tag.endswith("}a")]
    address = urlsplit(link.get("href"))
    assert parse_qs(address.query) == {"body": [name]}
    assert address.fragment == "body"


@pytest.mark.parametrize(("waist", "anchor"), [(700.0, "start"), (2000.0, "end")])
def test_the_words_of_the_readers_own_place_stay_inside_the_picture(waist, anchor):
    here = {"waist_girth": waist, "hip_girth": 1000.0}
    tree = drawn(Chart(BODIES, Region(()), here=here, mark="This order"))
    [text] = [one for one in tree.iter() if one.text == "This order"]
    assert text.get("text-anchor") == anchor


def test_a_measurement_of_a_draft_that_is_none_of_ours_is_named_as_it_is():
    odd = {**BODIES[0], "body": {"arm_reach": 600.0, "hip_girth": 980.0}}
    assert ">arm_reach, cm</text>" in chart_svg(Chart([odd], Region(())))
