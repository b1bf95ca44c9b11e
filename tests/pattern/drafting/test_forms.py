"""Every form of the language draws what its words say."""

from __future__ import annotations

from math import pi, sqrt

import pytest

from app.pattern.drafting.forms import FORMS
from app.pattern.drafting.shapes import Side
from app.pattern.geometry import Path, Point
from tests.pattern.drafting.drawn import draw, drawn

#: What stands on the sheet before each form: a rectangle of 30 by 40 cm and a quarter circle.
GROUND = """
o = at 0, 0
a = at 10cm, 20cm
b = at 40cm, 20cm
c = at 40cm, 60cm
across = line a to b
rising = line b to c
slope = line a to c
round = arc (at 10cm, 0) to (at 0, 10cm) around o
d = dart a to c to b pressed right
near = line (at 0, 0) to (at 0, 30cm)
low = line (at 0, 0) to (at 20cm, 0)
leg_1 = line (at 20cm, 0) to (at 20cm, 14cm)
leg_2 = line (at 20cm, 16cm) to (at 20cm, 30cm)
high = line (at 0, 30cm) to (at 20cm, 30cm)
wedge = dart (at 20cm, 14cm) to (at 5cm, 15cm) to (at 20cm, 16cm) pressed down
block = trace low, leg_1, wedge, leg_2, high, near
far = line (at 20cm, 0) to (at 20cm, 30cm)
plain = trace low, far, high, near
slit = line (at 8cm, 0) to (at 8cm, 30cm)
"""
P = Point
CASES = {
    "at": ("at 3cm, 4cm", P(30, 40)),
    "go down": ("a down 5cm", P(100, 150)),
    "go up": ("a up 5cm", P(100, 250)),
    "go left": ("a left 5cm", P(50, 200)),
    "go right": ("a right 5cm down 1cm", P(150, 190)),
    "toward": ("a toward c by 25cm", P(250, 400)),
    "going": ("a going 90deg by 7cm", P(100, 270)),
    "between": ("between a and b at 1/3", P(200, 200)),
    "middle": ("middle of a and c", P(250, 400)),
    "along": ("along across by 8cm from b", P(320, 200)),
    "crossing": ("crossing of slope and (line (at 0, 40cm) to (at 50cm, 40cm))", P(250, 400)),
    "meeting": ("meeting of slope and (line (at 0, 80cm) to (at 5cm, 80cm))", P(550, 800)),
    "foot": ("foot of c on across", P(400, 200)),
    "reach": ("reach rising from a by 34cm", P(400, 200 + sqrt(340**2 - 300**2))),
    "start": ("start of slope", P(100, 200)),
    "end": ("end of slope", P(400, 600)),
    "mirrored": ("a mirrored over rising", P(700, 200)),
    "turned": ("b turned 90deg about a", P(100, 500)),
    "swung": ("c swung about a until b meets rising", P(400, 600)),
    "level": ("a level with c", P(100, 600)),
    "plumb": ("a plumb with c", P(400, 200)),
    "nearest()": ("nearest(across, c)", P(400, 200)),
    "line": ("line a to b to c", 700.0),
    "curve": ("curve a to b leaving right arriving right", 300.0),
    "smooth": ("smooth a, b, (b right 30cm)", 600.0),
    "smooth leaving": ("smooth a, b leaving right", 300.0),
    "smooth arriving": ("smooth a, b arriving right", 300.0),
    "smooth leaving arriving": ("smooth a, b leaving right arriving right", 300.0),
    "arc": ("arc (at 10cm, 0) to (at 0, 10cm) around o", 50.0 * pi),
    "arc_turn": ("arc around o radius 10cm from 0deg to 180deg", 100.0 * pi),
    "part": ("part of slope from (a toward c by 10cm) to c", 400.0),
    "join": ("join across, rising", 700.0),
    "reversed": ("end of (across reversed)", P(100, 200)),
    "parallel left": ("start of (parallel to across by 3cm left)", P(100, 230)),
    "parallel right": ("start of (parallel to across by 3cm right)", P(100, 170)),
    "dart": ("intake(d)", 300.0),
    "direction down": ("curve a to (a down 3cm) leaving down arriving down", 30.0),
    "direction up": ("curve a to (a up 3cm) leaving up arriving up", 30.0),
    "direction left": ("curve a to (a left 3cm) leaving left arriving left", 30.0),
    "direction right": ("curve a to (a right 3cm) leaving right arriving right", 30.0),
    "direction angle": ("curve a to (a up 3cm) leaving 90deg arriving 90deg", 30.0),
    "direction toward": ("curve a to c leaving toward c arriving toward (c right 30cm up 40cm)", 500.0),
    "direction away": ("curve a to c leaving toward c arriving away from a", 500.0),
    "direction square": ("curve a to (a up 3cm) leaving square to across arriving up", 30.0),
    "length()": ("length(slope)", 500.0),
    "distance()": ("distance(a, c)", 500.0),
    "across()": ("across(c, a)", 300.0),
    "drop()": ("drop(c, a)", 400.0),
    "intake()": ("intake(d)", 300.0),
    "angle()": ("angle(b, c)", pi / 2),
    "sin()": ("sin(30deg)", 0.5),
    "cos()": ("cos(60deg)", 0.5),
    "tan()": ("tan(45deg)", 1.0),
    "arctan()": ("arctan(1)", pi / 4),
    "arcsin()": ("arcsin(1)", pi / 2),
    "arccos()": ("arccos(0)", pi / 2),
    "full_turns()": ("full_turns(1/4)", pi / 2),
    "hypot()": ("hypot(3cm, 4cm)", 50.0),
    "round_up()": ("round_up(31mm, 5mm)", 35.0),
    "sqrt()": ("sqrt(3cm * 3cm + 4cm * 4cm)", 50.0),
}


#: Pattern work: the line, a side or dart of the shape it gives, and that side's length or that dart's mouth (mm).
WORK = {
    "pivot": ("pivot wedge of block to (at 5cm, 30cm) as second", "second", 150 * 20 / sqrt(150**2 + 10**2)),
    "shorten": ("shorten wedge of block by 2cm", "wedge", 20.0),
    "cut left": ("cut plain left of slit", "low", 80.0),
    "cut right": ("cut plain right of slit", "low", 120.0),
    "tape": ("tape (cut plain left of slit) to (cut plain right of slit) on slit", "low", 200.0),
    "spread": ("spread plain along slit by 4cm", "low", 240.0),
    "fan": ("fan plain along slit by 4cm", "low", 240.0),
    "spread times": ("spread plain along slit making low 1.5 times as long", "low", 300.0),
    "fan times": ("fan plain along slit making low 1.5 times as long", "low", 300.0),
    "pleat": ("pleat plain along slit deep 3cm", "low", 260.0),
    "box pleat": ("box pleat plain along slit deep 3cm", "low", 320.0),
    "inverted pleat": ("inverted pleat plain along slit deep 3cm", "low", 320.0),
    "tuck": ("tuck plain along slit deep 5mm", "low", 210.0),
    "tuck released": ("tuck plain along slit deep 5mm stitched 4cm", "low", 210.0),
    "move out": ("move far of plain out by 3cm", "low", 230.0),
    "move in": ("move far of plain in by 3cm", "low", 170.0),
    "true": ("true low of plain", "low", 200.0),
    "unite": ("unite far, high of plain as long", "long", 500.0),
    "face": ("face plain along low deep 6cm", "inner", 200.0),
}


@pytest.mark.parametrize("name", WORK)
def test_pattern_work_does_what_it_says(name):
    line, part, expected = WORK[name]
    found = draw(f"{GROUND}\nresult = {line}")["result"].find(part)
    length = found.path.length if isinstance(found, Side) else found.dart.a.distance(found.dart.b)
    assert length == pytest.approx(expected, abs=1e-6)


@pytest.mark.parametrize("name", CASES)
def test_a_form_draws_what_it_says(name):
    line, expected = CASES[name]
    value = draw(f"{GROUND}\nresult = {line}")["result"]
    if isinstance(value, Path):
        value = value.length
    if isinstance(expected, Point):
        assert value.distance(expected) < 1e-6
    else:
        assert value == pytest.approx(expected, abs=1e-6)


def test_each_form_has_an_example_of_its_own():
    assert set(CASES) | set(WORK) == set(FORMS)
    assert all(form.example for form in FORMS.values())


def test_offsets_move_whole_paths_too():
    values = draw(f"{GROUND}\nmoved = slope right 10cm down 5cm")
    assert values["moved"].start == Point(200, 150)
    assert values["moved"].length == pytest.approx(500.0)


def test_a_quarter_turn_of_a_curve_is_nearly_a_circle():
    values = draw(f"{GROUND}\nq = curve (at 10cm, 0) to (at 0, 10cm) leaving up arriving left")
    assert values["q"].length == pytest.approx(50 * pi, rel=5e-4)


def test_a_dart_keeps_what_it_must_stay_clear_of():
    values = draw(f"{GROUND}\ne = dart a to c to b pressed down clear of o by 2cm")
    assert values["e"].clear_of == Point(0, 0)
    assert values["e"].clear_by == 20.0


@pytest.mark.parametrize("ends", ["leaving toward a arriving right", "leaving right arriving toward b"])
def test_a_curve_has_no_direction_toward_the_point_where_it_stands(ends):
    _, problems = drawn(f"a = at 0, 0\nb = at 20cm, 10cm\nc = curve a to b {ends}")
    assert [p.code for p in problems] == ["drafting.no-direction"]
    assert "angle(neck, tip)" in problems[0].fix
