"""Pattern work on panels made up by chance, at any place and turn of the paper: areas by shapely, lengths by hand.

A panel is a trapezium: a hem along the bottom, a top of another width, two slanting sides. Whatever is done to it, the
outline stays whole, the paper that is added or taken is what geometry says, and where it lies makes no difference.
"""

from math import atan2, hypot, pi

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon
from shapely.affinity import rotate, translate
from shapely.ops import split

from app.pattern.drafting.shapes.changes import change_in_words
from app.pattern.drafting.shapes.shape import outline_path
from app.pattern.units import Unit
from tests.pattern.drafting.drawn import draw

tried = settings(deadline=None, max_examples=20)
WIDE, HIGH = st.integers(200, 500), st.integers(200, 600)
TURNS = st.integers(0, 359)
PLACES = st.tuples(st.integers(-300, 300), st.integers(-300, 300))


@st.composite
def panels(draw_):
    """The panel's lower width, upper width, height, and how far its top lies to the right; mm."""
    low, top = draw_(WIDE), draw_(WIDE)
    return low, top, draw_(HIGH), draw_(st.integers(-60, 60))


def ground(panel, turn=0, place=(0, 0)):
    """The lines that draw a panel, turned and moved on its sheet."""
    low, top, high, lean = panel
    x, y = place
    return (
        f"o = at {x}mm, {y}mm\n"
        f"a = o\n"
        f"b = (o right {low}mm) turned {turn}deg about o\n"
        f"c = (o right {lean + top}mm up {high}mm) turned {turn}deg about o\n"
        f"d = (o right {lean}mm up {high}mm) turned {turn}deg about o\n"
        "hem = line a to b\nside = line b to c\ntop = line c to d\nnear = line d to a\n"
        "panel = trace hem, side, top, near\n"
        "s = line (between a and b at 40%) to (between d and c at 40%)\n"
        "t = line (between a and b at 70%) to (between d and c at 70%)\n"
    )


def work(panel, line, turn=0, place=(0, 0)):
    """What a line of pattern work gives of the panel, as a shape."""
    return draw(ground(panel, turn, place) + f"result = {line}")["result"]


def polygon(shape):
    found = Polygon([tuple(point) for point in outline_path(shape.items).flatten(0.01)])
    # A joint may be off by the last figure of a reckoning, which shapely would call a crossing.
    clean = found.buffer(0.0)
    assert clean.area == pytest.approx(found.area, rel=1e-6), "no loop of the outline crosses another"
    assert outline_path(shape.items).signed_area > 0
    return clean


def lengths(shape):
    return {item.name: item.path.length for item in shape.items}


def trapezium(panel):
    low, top, high, lean = panel
    return Polygon([(0, 0), (low, 0), (lean + top, high), (lean, high)])


#: Work of every sort, as it is written.
WORK = [
    "cut panel left of s",
    "cut panel right of s as style",
    "spread panel along s by 4cm",
    "spread panel along s, t by 2cm",
    "fan panel along s by 3cm",
    "pleat panel along s deep 2cm",
    "box pleat panel along s deep 15mm",
    "inverted pleat panel along s deep 15mm",
    "tuck panel along s deep 5mm",
    "move hem of panel out by 3cm",
    "move hem of panel in by 3cm",
    "face panel along top deep 4cm",
    "face panel along near, top deep 3cm",
]


# ---- anywhere


@pytest.mark.parametrize("line", WORK)
@settings(deadline=None, max_examples=6)
@given(panels(), TURNS, PLACES)
def test_where_a_panel_lies_and_how_it_is_turned_changes_nothing_of_the_work(line, panel, turn, place):
    upright, turned = work(panel, line), work(panel, line, turn, place)
    assert lengths(turned) == pytest.approx(lengths(upright), abs=1e-6)
    moved = translate(rotate(polygon(upright), turn, origin=(0, 0)), *place)
    assert moved.symmetric_difference(polygon(turned)).area < 0.5


@pytest.mark.parametrize("line", WORK)
@settings(deadline=None, max_examples=4)
@given(panels())
def test_work_on_a_panel_and_its_mirror_image_are_mirror_images(line, panel):
    """Left and right change places with the paper; a cut keeps the other part."""
    other = line.replace("left of s", "right of so") if "left" in line else line.replace("right of s", "left of so")
    for plain, over in (("panel", "over"), ("along s, t", "along so, to_2"), ("along s ", "along so ")):
        other = other.replace(plain, over)
    lines = ground(panel) + (
        "axis = line (at 50cm, 0) to (at 50cm, 10cm)\n"
        "over = panel mirrored over axis\nso = s mirrored over axis\nto_2 = t mirrored over axis\n"
        f"one = {line}\ntwo = {other}\n"
    )
    found = draw(lines)
    one, two = found["one"], found["two"]
    assert polygon(two).area == pytest.approx(polygon(one).area, rel=1e-6)
    kept, mirrored = (dict(lengths(shape)) for shape in (one, two))
    kept, mirrored = ({name.replace("so", "s"): size for name, size in each.items()} for each in (kept, mirrored))
    assert mirrored == pytest.approx(kept, abs=1e-6)


# ---- paper


@tried
@given(panels(), TURNS)
def test_both_parts_of_a_cut_are_those_that_shapely_splits(panel, turn):
    low, top, high, lean = panel
    left, right = (polygon(work(panel, f"cut panel {side} of s", turn)).area for side in ("left", "right"))
    line = LineString([(0.4 * low, 0), (lean + 0.4 * top, high)])
    parts = sorted(split(trapezium(panel), line).geoms, key=lambda part: part.centroid.x)
    assert (left, right) == pytest.approx(tuple(part.area for part in parts), rel=1e-6)


@tried
@given(panels(), st.integers(5, 120), TURNS)
def test_a_spread_adds_the_way_of_the_slash_times_what_it_opens(panel, opens, turn):
    """The strip is a parallelogram on the slash, as wide as it opens square to the slash."""
    low, top, high, lean = panel
    before, after = trapezium(panel).area, polygon(work(panel, f"spread panel along s by {opens}mm", turn)).area
    slash = hypot(lean + 0.4 * top - 0.4 * low, high)
    assert after - before == pytest.approx(slash * opens, rel=1e-6)


@tried
@given(panels(), st.integers(5, 100))
def test_a_spread_in_two_places_is_two_spreads(panel, opens):
    once = polygon(work(panel, f"spread panel along s by {opens}mm")).area
    twice = polygon(work(panel, f"spread panel along s, t by {opens}mm")).area
    before = trapezium(panel).area
    assert twice > once > before


@tried
@given(panels(), st.integers(10, 60))
def test_a_hem_moved_out_and_in_again_is_where_it_was(panel, by):
    lines = ground(panel) + f"longer = move hem of panel out by {by}mm\nresult = move hem of longer in by {by}mm"
    again = draw(lines)["result"]
    assert polygon(again).symmetric_difference(trapezium(panel)).area < 0.5
    assert lengths(again) == pytest.approx(lengths(draw(ground(panel))["panel"]), abs=1e-6)


@tried
@given(panels(), st.integers(10, 60))
def test_a_hem_moved_out_adds_a_strip_between_the_sides_that_run_on(panel, by):
    low, top, high, lean = panel
    after = polygon(work(panel, f"move hem of panel out by {by}mm"))
    slope_near, slope_side = lean / high, (lean + top - low) / high
    lower = low + by * (slope_near - slope_side)
    assume(lower > 50)
    assert after.area - trapezium(panel).area == pytest.approx((low + lower) / 2 * by, rel=1e-6)


@tried
@given(panels(), st.integers(15, 60))
def test_a_facing_is_the_panel_within_its_depth_of_the_edge(panel, deep):
    facing = polygon(work(panel, f"face panel along top deep {deep}mm"))
    high = panel[2]
    strip = Polygon([(-2000, high - deep), (3000, high - deep), (3000, high), (-2000, high)])
    assert facing.area == pytest.approx(strip.intersection(trapezium(panel)).area, rel=1e-4)


@tried
@given(panels(), TURNS)
def test_taping_what_was_cut_gives_the_panel_again(panel, turn):
    lines = ground(panel) + (
        "one = cut panel left of s as style\n"
        f"two = (cut panel right of s as style) turned {turn}deg about o\n"
        "result = tape one to two on style\n"
    )
    whole = draw(lines)["result"]
    assert polygon(whole).area == pytest.approx(trapezium(panel).area, rel=1e-6)
    assert lengths(whole) == pytest.approx(lengths(draw(ground(panel))["panel"]), abs=1e-4)


# ---- folds


@tried
@given(panels(), st.integers(8, 40), st.sampled_from([("pleat", 2), ("box pleat", 4), ("inverted pleat", 4)]))
def test_a_pleat_takes_in_what_it_adds_so_that_the_seam_stays(panel, deep, sort):
    name, times = sort
    low, top, high, lean = panel
    shape = work(panel, f"{name} panel along s deep {deep}mm")
    slant = hypot(0.4 * top + lean - 0.4 * low, high) / high
    for side, before in (("hem", low), ("top", top)):
        found = shape.side(side)
        assert found.path.length - found.taken_in == pytest.approx(before, abs=0.01)
        assert found.taken_in == pytest.approx(times * deep * slant, rel=1e-6), "measured along the edge"
    assert polygon(shape).area > trapezium(panel).area


@tried
@given(panels(), st.integers(2, 9), st.integers(20, 100))
def test_a_released_tuck_is_taken_in_where_it_is_stitched_alone(panel, deep, stitched):
    """The slash starts at the hem: there the tuck is stitched, and the top runs free."""
    shape = work(panel, f"tuck panel along s deep {deep}mm stitched {stitched}mm")
    held = {side: shape.side(side).taken_in > 0 for side in ("hem", "top")}
    assert sorted(held.values()) == [False, True]


# ---- told


@pytest.mark.parametrize("line", WORK)
def test_every_sort_of_work_tells_what_it_changed_in_both_units(line):
    shape = work((300, 260, 400, 20), line)
    assert shape.log
    for change in shape.log:
        assert "cm" in change_in_words(change, Unit.CM)
        assert " in" in change_in_words(change, Unit.INCH)


def test_a_panel_that_nothing_was_done_to_has_nothing_to_tell():
    assert draw(ground((300, 260, 400, 20)))["panel"].log == ()


@tried
@given(panels(), st.integers(5, 60))
def test_a_fan_opens_at_the_start_of_its_slash_and_turns_about_its_end(panel, opens):
    low, top, high, lean = panel
    shape = work(panel, f"fan panel along s by {opens}mm")
    assert shape.side("top").path.length == pytest.approx(top, abs=0.01)
    assert shape.side("hem").path.length == pytest.approx(low + opens, abs=0.01)
    slash = hypot(lean + 0.4 * top - 0.4 * low, high)
    turn = 2 * atan2(opens / 2, slash)
    assert polygon(shape).area - trapezium(panel).area == pytest.approx(slash * slash * turn / 2, rel=0.05)
    assert 0 < turn < pi
