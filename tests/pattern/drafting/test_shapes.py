"""Pattern work: what a cutter does with scissors, paper and tape, and what it must leave unchanged."""

from __future__ import annotations

from itertools import pairwise
from math import asin, atan2, hypot, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon

from app.pattern.drafting.shapes import ShapeDart, Side
from app.pattern.drafting.shapes.changes import change_in_words
from app.pattern.drafting.shapes.shape import outline_path
from app.pattern.geometry import Point, distance_to
from app.pattern.units import Unit
from tests.pattern.drafting.drawn import draw, drawn

#: A bodice-like block 30 cm by 50 cm: a dart in its right side, its point 10 cm inside, and a point held inside.
BLOCK = """
a = at 0, 0
b = at 30cm, 0
c = at 30cm, 50cm
d = at 0, 50cm
low_leg = at 30cm, 28cm
high_leg = at 30cm, 32cm
tip = at 10cm, 30cm
bust_point = at 8cm, 30cm
hem = line a to b
side_low = line b to low_leg
bust_dart = dart low_leg to tip to high_leg pressed down clear of bust_point by 2cm
side_high = line high_leg to c
top = line d to c
centre = line a to d
block = trace hem, side_low, bust_dart, side_high, top, centre holding bust_point
"""


def work(line: str):
    return draw(BLOCK + line)["result"]


def area(shape) -> float:
    """What the paper of the shape covers, mm²: the outline less the darts' wedges."""
    darts = sum(Polygon([i.dart.a, i.dart.tip, i.dart.b]).area for i in shape.items if isinstance(i, ShapeDart))
    return abs(outline_path(shape.items).signed_area) - darts


PAPER = 300 * 500 - 40 * 200 / 2


def assert_sound(shape):
    """Anticlockwise, closed, and every item starts where the one before it ends."""
    assert outline_path(shape.items).signed_area > 0
    for before, after in zip(shape.items, shape.from_item(1), strict=True):
        assert before.end.distance(after.start) < 0.01
    outline = Polygon(outline_path(shape.items).flatten(0.05))
    assert outline.buffer(0.0).area == pytest.approx(outline.area, rel=1e-9)  # no loop of it is crossed


def test_tracing_walks_the_sheet_anticlockwise_whichever_way_it_is_listed():
    listed = draw(BLOCK)["block"]
    turned = draw(BLOCK + "result = trace centre, top, side_high, bust_dart, side_low, hem")["result"]
    for shape in (listed, turned):
        assert_sound(shape)
        assert area(shape) == pytest.approx(PAPER)


def test_a_gap_in_a_traced_outline_names_both_neighbours():
    _, problems = drawn(BLOCK + "result = trace hem, side_high, top, centre")
    assert problems[0].code == "drafting.trace-gap"
    assert "side_high" in problems[0].message


def test_a_traced_shape_opens_its_parts_by_name():
    values = draw(BLOCK + "x = length(block.side_high)\ny = intake(block.bust_dart)\nz = distance(block.bust_point, a)")
    assert values["x"] == pytest.approx(180)
    assert values["y"] == pytest.approx(40)
    assert values["z"] == pytest.approx((80**2 + 300**2) ** 0.5)


@given(st.floats(0.05, 0.95), st.sampled_from(["top", "hem", "centre"]))
def test_pivoting_a_dart_keeps_paper_lengths_and_equal_legs(where, side):
    shape = work(
        f"p = along block.{side} by length(block.{side}) * {where:.4f}\n"
        "result = pivot bust_dart of block to p as new_dart"
    )
    assert_sound(shape)
    assert area(shape) == pytest.approx(PAPER, rel=1e-6)
    dart = shape.dart("new_dart").dart
    assert dart.tip.distance(dart.a) == pytest.approx(dart.tip.distance(dart.b), abs=1e-6)
    halves = [item.path.length for item in shape.items if isinstance(item, Side) and item.name.startswith(f"{side}_")]
    assert sum(halves) == pytest.approx(draw(BLOCK)["block"].side(side).path.length)
    assert "bust_dart" not in [item.name for item in shape.items]


def test_the_closed_darts_side_runs_on_straight():
    shape = work("p = middle of d and c\nresult = pivot bust_dart of block to p as shoulder_dart")
    low, high = shape.side("side_low"), shape.side("side_high")
    assert low.end.distance(high.start) < 1e-6


@given(st.floats(0.1, 0.9))
def test_a_share_of_a_dart_splits_its_opening_between_two(share):
    shape = work(f"result = pivot bust_dart of block to (middle of d and c) taking {share:.4f} as second")
    old, new = shape.dart("bust_dart").dart, shape.dart("second").dart

    def opening(d):
        return abs((d.tip.angle_to(d.a) - d.tip.angle_to(d.b) + pi) % (2 * pi) - pi)

    whole = opening(draw(BLOCK)["bust_dart"])
    assert opening(old) + opening(new) == pytest.approx(whole, abs=1e-9)
    assert opening(new) == pytest.approx(whole * round(share, 4), abs=1e-9)
    assert_sound(shape)


def test_what_lies_on_the_turned_paper_turns_with_it():
    still = work("result = pivot bust_dart of block to (middle of d and c) as second")
    assert still.find("bust_point").what == Point(80, 300)
    text = BLOCK.replace("holding bust_point", "holding far_point")
    text = text.replace("hem = line", "far_point = at 25cm, 40cm\nhem = line")
    turned = draw(text + "result = pivot bust_dart of block to (middle of d and c) as second")["result"]
    tip = Point(100, 300)
    assert turned.find("far_point").what != Point(250, 400)
    assert turned.find("far_point").what.distance(tip) == pytest.approx(Point(250, 400).distance(tip))


def test_sides_left_where_a_dart_is_gone_are_made_one():
    gone = "moved = pivot bust_dart of block to (middle of d and c) as second\n"
    before = draw(BLOCK + gone)["moved"]
    both = sum(before.side(name).path.length for name in ("side_low", "side_high"))
    for line in ("side_low, side_high", "side_high, side_low"):
        shape = work(f"{gone}result = unite {line} of moved as side_low")
        assert shape.side("side_low").path.length == pytest.approx(both)
        assert len(shape.items) == len(before.items) - 1
        assert_sound(shape)


@pytest.mark.parametrize(
    "line",
    [
        "unite side_low, side_high of block as side",
        "unite hem, top of block as side",
        "unite top, centre of block as hem",
    ],
)
def test_sides_that_do_not_meet_or_take_anothers_name_are_not_made_one(line):
    _, problems = drawn(BLOCK + f"result = {line}")
    assert [problem.code for problem in problems] == ["drafting.unite"]


def test_shortening_a_dart_moves_its_tip_along_its_middle():
    dart = work("result = shorten bust_dart of block by 3cm").dart("bust_dart").dart
    assert dart.tip == Point(130, 300)
    assert dart.tip.distance(dart.a) == pytest.approx(dart.tip.distance(dart.b))


@given(st.floats(20, 280), st.floats(20, 280))
def test_cutting_a_shape_in_two_keeps_all_its_paper(low, high):
    lines = BLOCK + f"cut_line = line (at {low:.3f}mm, 0) to (at {high:.3f}mm, 50cm)\n"
    # A cut across the dart's wedge is no cut of paper: keep to its left.
    if max(low, high) > 95:
        lines = lines.replace("bust_dart, side_high", "side_high").replace("line b to low_leg", "line b to high_leg")
    left = draw(lines + "result = cut block left of cut_line")["result"]
    right = draw(lines + "result = cut block right of cut_line")["result"]
    whole = draw(lines)["block"]
    assert_sound(left)
    assert_sound(right)
    assert area(left) + area(right) == pytest.approx(area(whole), rel=1e-9)
    assert left.side("cut_line").path.length == pytest.approx(right.side("cut_line").path.length)


def test_a_princess_line_through_the_dart_takes_it_into_the_seam():
    lines = (
        "princess = line (at 12cm, 0) to tip\nmid = cut block left of princess\nresult = cut block right of princess"
    )
    values = draw(
        BLOCK.replace("block = trace", "block_plain = trace") + "upper = line tip to (at 12cm, 50cm)\n"
        "block = pivot bust_dart of block_plain to (at 12cm, 50cm) as shoulder_dart\n" + lines
    )
    middle, side = values["mid"], values["result"]
    for shape in (middle, side):
        assert_sound(shape)
        assert not [item for item in shape.items if isinstance(item, ShapeDart)]
    assert middle.side("princess").path.length == pytest.approx(side.side("princess").path.length, abs=1e-6)
    assert area(middle) + area(side) == pytest.approx(PAPER, rel=1e-6)


def test_a_cut_that_ends_inside_is_run_on_to_the_outline():
    shape = work("short = line (at 5cm, 10cm) to (at 5cm, 40cm)\nresult = cut block left of short")
    assert area(shape) == pytest.approx(50 * 500)


@pytest.mark.parametrize("off", ["0.04mm", "0 - 0.04mm"])
def test_a_cut_that_ends_a_hair_off_the_outline_is_brought_onto_it(off):
    shape = work(
        f"near = line (at 5cm, 0) to (at 5cm, 50cm + {off})\npart_one = cut block left of near\n"
        "part_two = (cut block right of near) turned 40deg about a\nresult = tape part_one to part_two on near"
    )
    assert_sound(shape)
    assert shape.side("top").path.length == pytest.approx(300, abs=1e-6)


@pytest.mark.parametrize("far", ["60cm", "200cm"])
def test_a_cut_that_ends_far_outside_is_trimmed_to_the_outline(far):
    shape = work(f"long_line = line (at 5cm, 0) to (at 5cm, {far})\nresult = cut block left of long_line")
    assert area(shape) == pytest.approx(50 * 500)
    assert shape.side("long_line").path.length == pytest.approx(500)


def test_taping_two_parts_together_gives_the_whole_again():
    whole = work(
        "cut_line = line (at 6cm, 0) to (at 5cm, 50cm)\n"
        "part_one = cut block left of cut_line\npart_two = (cut block right of cut_line) turned 40deg about a\n"
        "result = tape part_one to part_two on cut_line"
    )
    assert_sound(whole)
    assert area(whole) == pytest.approx(PAPER, rel=1e-6)
    assert whole.side("hem").path.length == pytest.approx(300)
    assert sorted(item.name for item in whole.items) == ["bust_dart", "centre", "hem", "side_high", "side_low", "top"]


def test_seams_of_unlike_length_are_not_taped():
    _, problems = drawn(BLOCK + "result = tape block to (block mirrored over centre) on hem and centre")
    assert problems[0].code == "drafting.join-length"


@given(st.floats(1, 200), st.integers(1, 3))
def test_spreading_adds_as_much_paper_as_it_opens(amount, count):
    plain = BLOCK.replace("bust_dart, side_high", "side_high").replace("line b to low_leg", "line b to high_leg")
    cuts = [f"s{i} = line (at {5 + 6 * i}cm, 0) to (at {5 + 6 * i}cm, 50cm)" for i in range(count)]
    names = ", ".join(f"s{i}" for i in range(count))
    shape = draw(plain + "\n".join(cuts) + f"\nresult = spread block along {names} by {amount:.3f}mm")["result"]
    assert_sound(shape)
    assert area(shape) == pytest.approx((300 + round(amount, 3) * count) * 500)
    assert shape.side("hem").path.length == pytest.approx(300 + round(amount, 3) * count)
    assert shape.side("centre").path.length == pytest.approx(500)


@given(st.floats(5, 150))
def test_fanning_opens_the_start_of_a_slash_and_leaves_its_hinge(amount):
    plain = BLOCK.replace("bust_dart, side_high", "side_high").replace("line b to low_leg", "line b to high_leg")
    lines = f"s = line (at 12cm, 0) to (at 12cm, 50cm)\nresult = fan block along s by {amount:.3f}mm"
    shape = draw(plain + lines)["result"]
    assert_sound(shape)
    assert shape.side("hem").path.length == pytest.approx(300 + round(amount, 3), abs=1e-6)
    assert shape.side("top").path.length == pytest.approx(300, abs=1e-6)


def test_a_fanned_hem_is_trued_to_one_fair_curve():
    plain = BLOCK.replace("bust_dart, side_high", "side_high").replace("line b to low_leg", "line b to high_leg")
    lines = "s = line (at 10cm, 0) to (at 10cm, 50cm)\nt = line (at 20cm, 0) to (at 20cm, 50cm)\n"
    values = draw(plain + lines + "fanned = fan block along s, t by 8cm\nresult = true hem of fanned")
    fanned, fair = values["fanned"].side("hem").path, values["result"].side("hem").path
    assert len(fair.segments) >= 2
    for one, other in pairwise(fair.segments):
        assert one.tangent(1.0).distance(other.tangent(0.0)) < 0.01
    assert fair.length == pytest.approx(fanned.length, rel=0.02)


def test_a_pleat_folds_away_what_it_adds():
    plain = BLOCK.replace("bust_dart, side_high", "side_high").replace("line b to low_leg", "line b to high_leg")
    shape = draw(plain + "s = line (at 10cm, 50cm) to (at 10cm, 0)\nresult = pleat block along s deep 3cm")["result"]
    assert_sound(shape)
    for name in ("hem", "top"):
        side = shape.side(name)
        assert side.path.length == pytest.approx(360)
        assert side.path.length - side.taken_in == pytest.approx(300)
    folds = [thing for thing in shape.inside if thing.kind == "fold"]
    assert len(folds) == 3


def test_moving_a_side_trims_or_runs_on_its_neighbours():
    longer, shorter = work("result = move hem of block out by 5cm"), work("result = move hem of block in by 5cm")
    assert area(longer) == pytest.approx(PAPER + 50 * 300)
    assert area(shorter) == pytest.approx(PAPER - 50 * 300)
    assert longer.side("centre").path.length == pytest.approx(550)


def test_a_facing_is_what_lies_within_its_depth_of_the_side():
    shape = work("result = face block along top deep 6cm")
    assert_sound(shape)
    assert area(shape) == pytest.approx(60 * 300)
    assert shape.side("inner").path.length == pytest.approx(300)
    assert shape.side("top").path.length == pytest.approx(300)


def test_a_facing_goes_round_a_corner():
    shape = work("result = face block along top, centre deep 6cm")
    assert area(shape) == pytest.approx(60 * 300 + 60 * 440)


def test_every_operation_tells_what_it_changed():
    shape = work("result = shorten bust_dart of (move hem of block out by 5cm) by 2cm")
    assert [change_in_words(change, Unit.CM) for change in shape.log] == [
        "side low: 28 cm, now 33 cm",
        "centre: 50 cm, now 55 cm",
        "bust dart, down its legs: 20.1 cm, now 18.1 cm",
    ]


def test_new_and_lost_seams_are_told():
    shape = work("cut_line = line (at 6cm, 0) to (at 5cm, 50cm)\nresult = cut block left of cut_line")
    assert {change_in_words(change, Unit.CM) for change in shape.log} >= {
        "cut line: new, 50 cm",
        "side high: gone, was 18 cm",
        "hem: 30 cm, now 6 cm",
        "bust dart, across its mouth: gone, was 4 cm",
    }


def test_a_pleated_side_tells_its_paper_and_its_seam():
    shape = work("s = line (at 5cm, 50cm) to (at 5cm, 0)\nresult = pleat block along s deep 2cm")
    assert "top: 30 cm, now 34 cm on paper, 30 cm once folded" in [
        change_in_words(change, Unit.CM) for change in shape.log
    ]


@given(st.floats(1.0, 4.0), st.integers(1, 3))
def test_spreading_by_a_ratio_makes_the_side_so_many_times_as_long(times, count):
    plain = BLOCK.replace("bust_dart, side_high", "side_high").replace("line b to low_leg", "line b to high_leg")
    cuts = [f"s{i} = line (at {5 + 6 * i}cm, 0) to (at {5 + 6 * i}cm, 50cm)" for i in range(count)]
    names = ", ".join(f"s{i}" for i in range(count))
    lines = plain + "\n".join(cuts)
    full = draw(f"{lines}\nresult = spread block along {names} making top {times:.3f} times as long")["result"]
    flared = draw(f"{lines}\nresult = fan block along {names} making hem {times:.3f} times as long")["result"]
    assert full.side("top").path.length == pytest.approx(300 * round(times, 3))
    assert flared.side("hem").path.length == pytest.approx(300 * round(times, 3))
    assert flared.side("top").path.length == pytest.approx(300)


def test_a_side_that_no_slash_meets_cannot_be_made_longer():
    lines = "s = line (at 12cm, 0) to (at 12cm, 50cm)\n"
    _, problems = drawn(BLOCK + lines + "result = fan block along s making top 2 times as long")
    assert [problem.code for problem in problems] == ["drafting.times-side"]


def test_a_side_is_trued_through_the_points_given():
    plain = BLOCK.replace("bust_dart, side_high", "side_high").replace("line b to low_leg", "line b to high_leg")
    lines = "s = line (at 15cm, 0) to (at 15cm, 50cm)\nfanned = fan block along s by 8cm\nlow = at 14cm, (0cm - 3cm)\n"
    values = draw(plain + lines + "result = true hem of fanned through low")
    fair, fanned = values["result"].side("hem").path, values["fanned"].side("hem").path
    assert distance_to(fair, Point(140, -30)) < 1e-6
    assert fair.start.distance(fanned.start) < 1e-9
    assert fair.end.distance(fanned.end) < 1e-9


def test_a_side_is_not_trued_through_its_own_end():
    _, problems = drawn(BLOCK + "result = true hem of block through a")
    assert [problem.code for problem in problems] == ["drafting.true-through"]


#: A skirt's front at the waist: two darts in its top.
SKIRT = """
centre = line (at 0, 0) to (at 0, 60cm)
top_1 = line (at 0, 60cm) to (at 8cm, 60.3cm)
dart_1 = dart (at 8cm, 60.3cm) to (at 9cm, 50cm) to (at 10cm, 60.3cm) pressed left
top_2 = line (at 10cm, 60.3cm) to (at 16cm, 61cm)
dart_2 = dart (at 16cm, 61cm) to (at 17cm, 52cm) to (at 18cm, 61cm) pressed left
top_3 = line (at 18cm, 61cm) to (at 23cm, 62cm)
side = curve (at 23cm, 62cm) to (at 27cm, 0) leaving down arriving down
hem = line (at 0, 0) to (at 27cm, 0)
front = trace centre, top_1, dart_1, top_2, dart_2, top_3, side, hem
"""


def test_a_facing_is_traced_with_the_darts_closed():
    values = draw(SKIRT + "result = face front along top_1, top_2, top_3 deep 6cm")
    shape = values["result"]
    assert_sound(shape)
    assert not [item for item in shape.items if isinstance(item, ShapeDart)]
    for name in ("top_1", "top_2", "top_3"):
        assert shape.side(name).path.length == pytest.approx(values[name].length, abs=1e-6)
    assert 60 - 0.1 < shape.side("inner").path.point_at(5).distance(shape.side("top_1").path.end) < 110


def test_closing_a_dart_for_a_facing_keeps_its_corner_on_the_edge():
    """By hand: the wedge between the legs is folded away, so that leg lies on leg."""
    shape = draw(SKIRT + "result = face front along top_1, top_2, top_3 deep 6cm")["result"]
    assert shape.side("top_1").path.start.distance(shape.side("top_2").path.end) < 0.05
    # The first dart is 2 cm wide and 10.3 cm deep, the second 2 cm and 9 cm: together they turn the side so far.
    turn = 2 * asin(10 / hypot(10, 103)) + 2 * asin(10 / hypot(10, 90))
    flat = draw(SKIRT)["top_1"]  # travel begins at the side, so that the centre front is what turns
    ways = [path.end.minus(path.start) for path in (flat, shape.side("top_1").path.reversed())]
    angles = [atan2(way.y, way.x) for way in ways]
    assert abs(angles[1] - angles[0]) == pytest.approx(turn, abs=0.01)


def test_a_facing_deeper_than_its_darts_is_refused():
    _, problems = drawn(SKIRT + "result = face front along top_1, top_2, top_3 deep 12cm")
    assert [problem.code for problem in problems] == ["drafting.facing-dart"]


def test_a_facing_over_a_dart_with_unlike_legs_asks_to_true_it():
    lines = SKIRT.replace("(at 10cm, 60.3cm)", "(at 10cm, 60.5cm)")
    _, problems = drawn(lines + "result = face front along top_1, top_2, top_3 deep 6cm")
    assert [problem.code for problem in problems] == ["drafting.facing-legs"]


def test_sides_that_do_not_follow_one_another_have_no_facing():
    _, problems = drawn(SKIRT + "result = face front along top_1, top_3 deep 4cm")
    assert [problem.code for problem in problems] == ["drafting.facing"]


def test_a_mirrored_shape_stays_anticlockwise():
    shape = work("result = block mirrored over centre")
    assert_sound(shape)
    assert area(shape) == pytest.approx(PAPER)


def test_a_repeat_draws_its_steps_again():
    values = draw("p = at 0, 0\nrepeat k from 1 to 5\n    q = p right k * 2cm\nr = q down 1cm")
    assert values["r"] == Point(100, -10)


@pytest.mark.parametrize(
    ("form", "message"),
    [
        (
            "spread plain along up, short by 4cm",
            "The end of line 2 of 2 lies 60 mm away from every side of the shape.",
        ),
        (
            "tuck plain along short, up deep 5mm",
            "The end of line 1 of 2 lies 60 mm away from every side of the shape.",
        ),
        (
            "fan plain along (short reversed) by 4cm",
            "The start of the line lies 60 mm away from every side of the shape.",
        ),
        (
            "fan plain along up, cross making low 1.5 times as long",
            "Lines 1 and 2 cross, so that the paper cannot be opened along both.",
        ),
        ("pleat plain along cross, up deep 1cm", "Lines 1 and 2 cross, so that the paper cannot be opened along both."),
    ],
)
def test_lines_that_cannot_be_opened_are_told_by_number_and_end(form, message):
    lines = """
a = at 0, 0
b = a right 40cm
c = b up 60cm
d = a up 60cm
low = line a to b
side = line b to c
top = line c to d
near = line d to a
plain = trace low, side, top, near
up = line (a right 10cm) to (d right 10cm)
short = line (a right 30cm) to (d right 30cm down 6cm)
cross = line (a right 20cm) to (d right 5cm)
"""
    _, problems = drawn(f"{lines}result = {form}")
    assert [problem.message for problem in problems] == [message]


def test_lines_of_a_fan_may_end_in_one_point():
    lines = "a = at 0, 0\nb = a right 40cm\nc = b up 60cm\nd = a up 60cm\nm = d right 20cm\nlow = line a to b\n"
    lines += "side = line b to c\ntop = line c to d\nnear = line d to a\nplain = trace low, side, top, near\n"
    fan = "result = fan plain along (line (a right 10cm) to m), (line (a right 30cm) to m) by 4cm"
    assert_sound(draw(lines + fan)["result"])


def test_a_facing_whose_inner_line_reaches_no_side_says_beside_which():
    _, problems = drawn(BLOCK + "result = face block along side_low deep 40cm")
    assert [problem.code for problem in problems] == ["drafting.cut-inside"]
    assert "facing, 400 mm deep" in problems[0].message
    assert "“side_low”" in problems[0].message
