"""Plain garments made up by chance, through the one door: what comes out is what plane geometry says, or is refused.

The garments are rectangles and triangles, of which everything can be reckoned by hand: areas, seams, girths, cloth.
A check's bound is tried a hair to either side of it, by the tolerance that the check itself names.
"""

import re

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from app.pattern import lay
from app.pattern.checks import finish, finished_size, fits_cloth, getting_in, seam_walk
from app.pattern.make import Failed, Made, make_pattern
from app.pattern.problem import Refused
from app.pattern.steps import cutting_list, finished_sizes, notions_list, seam_notes
from app.pattern.units import Unit
from tests.pattern.panels import draft, panel

tried = settings(deadline=None, max_examples=15)
BODY = {"hip_girth": 1000.0}
#: Whole millimetres, as cloth is cut.
SIDES = st.integers(120, 700)
WIDTHS = st.integers(10, 30)


def make(text, **choices):
    return make_pattern(text, "made-up.draft", BODY, choices)


def made(text, **choices):
    found = make(text, **choices)
    assert isinstance(found, Made), "\n".join(map(str, found.problems))
    return found.pattern


def codes(text):
    """What the checks find in it, good or bad."""
    found = make(text)
    told = [problem.code for problem in (found.problems if isinstance(found, Refused) else found.findings)]
    assert all(code.startswith("checks.") for code in told), "the draft itself is sound"
    return told


def area(path):
    return shapely.Polygon([tuple(point) for point in path.flatten(0.005)]).area


# ---- pieces


@tried
@given(SIDES, SIDES, WIDTHS)
def test_a_rectangle_is_cut_with_its_allowance_all_round(wide, high, seam):
    piece = made(draft(panel("front", wide, high, allowance=f"{seam}mm"))).piece("front")
    assert area(piece.stitching) == pytest.approx(wide * high, rel=1e-6)
    assert area(piece.cutting) == pytest.approx((wide + 2 * seam) * (high + 2 * seam), rel=1e-6)
    assert [edge.path.length for edge in piece.edges] == pytest.approx([wide, high, wide, high])


@tried
@given(SIDES, SIDES, st.tuples(WIDTHS, WIDTHS, WIDTHS, WIDTHS))
def test_each_edge_keeps_an_allowance_of_its_own(wide, high, widths):
    low, side, top, near = widths
    said = f"{low}mm, side {side}mm, top {top}mm, near {near}mm"
    piece = made(draft(panel("front", wide, high, allowance=said))).piece("front")
    bounds = piece.cutting.bounds
    assert (-bounds.left, bounds.right - wide) == pytest.approx((near, side))
    assert (-bounds.bottom, bounds.top - high) == pytest.approx((low, top))
    assert area(piece.cutting) == pytest.approx((wide + near + side) * (high + low + top), rel=1e-6)


@tried
@given(SIDES, SIDES, WIDTHS)
def test_an_edge_without_allowance_is_cut_along_its_stitching_line(wide, high, seam):
    piece = made(draft(panel("front", wide, high, allowance=f"{seam}mm, top none"))).piece("front")
    assert piece.cutting.bounds.top == pytest.approx(high)
    assert piece.edge("top").allowance.width == 0.0


@tried
@given(SIDES, SIDES, st.integers(20, 60))
def test_a_hem_turned_back_on_a_straight_side_lies_flat_on_the_piece(wide, high, hem):
    """Folded over its line, a hem beside square sides is a rectangle of its own width."""
    text = draft(panel("front", wide, high, allowance=f"1cm, low {hem}mm turned back"))
    piece = made(text).piece("front")
    below = shapely.Polygon([tuple(p) for p in piece.cutting.flatten(0.01)]).intersection(
        shapely.box(-500.0, -500.0, 2000.0, 0.0)
    )
    assert below.area == pytest.approx((wide + 20.0) * hem, rel=1e-6)


@tried
@given(SIDES, SIDES, st.booleans(), st.booleans())
def test_a_piece_is_the_same_however_its_outline_is_listed_and_drawn(wide, high, clockwise, backwards):
    text = draft(panel("front", wide, high))
    other = text.replace("outline low, side, top, near", "outline near, top, side, low") if clockwise else text
    other = other.replace("line b to c", "line c to b") if backwards else other
    one, two = (made(each).piece("front") for each in (text, other))
    assert area(one.cutting) == pytest.approx(area(two.cutting), rel=1e-9)
    assert one.cutting.signed_area > 0 < two.cutting.signed_area
    assert {edge.name for edge in one.edges} == {edge.name for edge in two.edges}


@tried
@given(SIDES, SIDES)
def test_a_piece_on_the_fold_is_half_of_what_is_cut(wide, high):
    text = draft(panel("front", wide, high, cut="cut 1 on fold main"))
    text = text.replace("outline low, side, top, near", "outline low, side, top, fold near")
    piece = made(text).piece("front")
    assert piece.fold_edge.name == "near"
    assert piece.cutting.bounds.left == pytest.approx(0.0, abs=1e-9), "no allowance at the fold"
    [row] = cutting_list(made(text))
    assert row.count == "Cut 1 on the fold"
    [item] = lay.items_for(made(text), "main")
    assert item.count == 1


# ---- seams


def two_panels(high, other, sew="sew front.side to back.side", allowance="1cm"):
    front = panel("front", 300, high, allowance=allowance)
    back = panel("back", 300, other, allowance=allowance)
    return draft(front, back, sew + "\n")


@tried
@given(st.integers(200, 600), st.integers(-20, 20))
def test_two_sides_go_together_when_a_tape_shows_no_difference(high, tenths):
    """Differences of up to half a millimetre are what a tape cannot show (`seam_walk.TOLERANCE`)."""
    off = tenths / 10
    found = codes(two_panels(high, f"{high + off:.1f}"))
    assert ("checks.seam-walk" in found) == (abs(off) > seam_walk.TOLERANCE + 1e-9)


@tried
@given(st.integers(200, 600), st.integers(0, 40), st.integers(0, 20), st.integers(0, 20))
def test_ease_is_taken_within_its_limits_and_not_beyond(high, more, least, room):
    sew = f"sew front.side to back.side ease {least}mm..{least + room}mm"
    found = codes(two_panels(high + more, high, sew))
    holds = least - seam_walk.TOLERANCE <= more <= least + room + seam_walk.TOLERANCE
    assert ("checks.seam-walk" in found) == (not holds)


@tried
@given(st.integers(200, 400), st.integers(100, 260))
def test_a_gathered_edge_is_so_many_times_as_long_or_refused(high, percent):
    sew = "sew front.side to back.side gather 1.3..2.2"
    found = codes(two_panels(high * percent / 100, high, sew))
    long, least, most = high * percent / 100, 1.3 * high, 2.2 * high
    holds = least - seam_walk.TOLERANCE <= long <= most + seam_walk.TOLERANCE
    assert bool({"checks.seam-walk", "checks.seam-ratio"} & set(found)) == (not holds)


def test_a_seam_note_tells_both_lengths_as_they_are_sewn():
    [note] = seam_notes(made(two_panels(420, 400, "sew front.side to back.side ease 1cm..3cm")))
    assert (note.difference, note.even) == (pytest.approx(20.0), False)
    assert note.ratio == pytest.approx(1.05)
    [note] = seam_notes(made(two_panels(400, 400)))
    assert note.even


@pytest.mark.parametrize("width", [finish.LEAST_SEAM - finish.TOLERANCE - 0.01, finish.LEAST_SEAM, 10.0])
def test_a_seam_has_cloth_enough_to_be_sewn(width):
    found = codes(two_panels(300, 300, allowance=f"{width:.2f}mm"))
    assert ("checks.seam-narrow" in found) == (width < finish.LEAST_SEAM - finish.TOLERANCE)


@pytest.mark.parametrize("width", [finish.LEAST_HEM - finish.TOLERANCE - 0.01, finish.LEAST_HEM, 40.0])
def test_a_hem_has_cloth_enough_to_be_turned(width):
    found = codes(draft(panel("front", 300, 300, allowance=f"1cm, low {width:.2f}mm turned back")))
    assert ("checks.hem-narrow" in found) == (width < finish.LEAST_HEM - finish.TOLERANCE)


# ---- girths


def skirt(around, ease, more=""):
    """A tube of two panels, each half of its girth wide."""
    parts = panel("front", around / 2, 500), panel("back", around / 2, 500)
    sewn = "sew front.side to back.near\nsew back.side to front.near\n"
    sum_ = "length(front.low) + length(back.low)"
    girth = f'girth hip "Hip" = {sum_} body hip_girth ease {ease}mm {more}\n'
    return draft(*parts, sewn, girth)


@tried
@given(st.integers(40, 200), st.integers(-30, 30))
def test_a_finished_girth_is_body_and_ease_to_the_millimetre(ease, tenths):
    off = tenths / 10
    found = codes(skirt(round(1000 + ease + off, 1), ease, "opens fully"))
    assert ("checks.finished-size" in found) == (abs(off) > finished_size.TOLERANCE + 1e-9)


@tried
@given(st.integers(40, 200))
def test_a_finished_size_is_told_with_body_and_ease(ease):
    [size] = finished_sizes(made(skirt(1000 + ease, ease, "opens fully")))
    assert (size.garment, size.body, size.ease) == pytest.approx((1000 + ease, 1000, ease))


@tried
@given(st.integers(0, 300), st.integers(900, 1300))
def test_a_closed_tube_lets_through_what_is_no_wider_than_it_opens_to(slit, through):
    """A slit opens a girth by both of its edges: the girth itself, and twice the slit."""
    opens = f"opens {slit}mm " if slit else ""
    found = codes(skirt(1060, 60, f"{opens}passes {through}mm"))
    fits = through <= 1060 + 2 * slit + getting_in.TOLERANCE
    assert ("checks.getting-in" in found) == (not fits)


# ---- cloth


@tried
@given(st.integers(200, 1700), st.integers(200, 900))
def test_a_piece_wider_than_its_cloth_is_told(wide, cloth):
    text = draft(panel("front", wide, 400)).replace("width 140cm", f"width {cloth}mm")
    assert ("checks.cloth-width" in codes(text)) == (wide + 20.0 > cloth + fits_cloth.TOLERANCE)


@tried
@given(st.integers(150, 600), st.integers(150, 600), st.integers(1, 4))
def test_cloth_to_buy_is_at_least_what_is_cut_and_no_more_than_one_under_the_other(wide, high, count):
    pattern = made(draft(panel("front", wide, high, cut=f"cut {count} main")))
    items = lay.items_for(pattern, "main")
    [fabric] = pattern.fabrics
    plan = lay.lay_plan_for(items, fabric, effort=lay.EFFORT_QUICK)
    assert isinstance(plan, lay.LayPlan), plan
    cut = count * (wide + 20.0) * (high + 20.0)
    assert plan.buy * plan.cloth.width >= cut
    assert plan.buy <= count * (high + 20.0 + lay.GAP) + 2 * lay.ENDS + 100.0
    assert lay.overlaps(plan, items) == ()


@pytest.mark.parametrize(
    ("cut", "pieces", "said"),
    [
        ("cut 1 main", 1, "Cut 1"),
        ("cut 2 main", 2, "Cut 2"),
        ("cut 2 mirrored main", 2, "Cut 2, a mirrored pair"),
        ("cut 4 mirrored main", 4, "Cut 4, as 2 mirrored pairs"),
    ],
)
def test_as_many_are_laid_as_are_cut_and_the_list_says_how(cut, pieces, said):
    pattern = made(draft(panel("front", 200, 300, cut=cut)))
    assert sum(item.count for item in lay.items_for(pattern, "main")) == pieces
    [row] = cutting_list(pattern)
    assert (row.piece, row.fabric, row.count) == ("Front", "Cloth", said)


# ---- words


@tried
@given(st.integers(100, 900), st.sampled_from(list(Unit)))
def test_a_figure_in_a_step_is_the_customers_own_in_her_unit(wide, unit):
    text = draft(panel("front", wide, 300), steps="The top is {length(front.top)} long.")
    found = make_pattern(text, "made-up.draft", BODY, {}, unit)
    assert isinstance(found, Made), found
    [step] = found.pattern.steps
    said = re.search(r"The top is (.+) long", step.markdown)[1].replace("\xa0", " ")
    figure, _, named = said.rpartition(" ")
    assert named == unit.value
    worth = sum(_eighths(part) for part in figure.split()) if unit is Unit.INCH else float(figure)
    assert worth * (25.4 if unit is Unit.INCH else 10.0) == pytest.approx(wide, abs=1.6)


def _eighths(part):
    top, _, under = part.partition("/")
    return int(top) / int(under) if under else float(top)


def test_notions_are_counted_and_measured_as_the_draft_says():
    head = 'notions\n    buttons "Buttons, 11 mm" count 5\n    tape "Tape" length 130cm\n'
    pattern = made(draft(panel("front", 300, 300), head=head))
    rows = {row.title: row.amount for row in notions_list(pattern, Unit.CM)}
    assert rows["Buttons, 11 mm"] == "5"
    assert rows["Tape"].startswith("1.3")


# ---- choices


@tried
@given(st.integers(200, 600))
def test_a_choice_moves_just_what_is_drawn_by_it(wide):
    head = 'choices\n    width = 30cm from 20cm to 60cm "Width"\n'
    text = draft(panel("front", 300, 400), head=head).replace("b = a right 300mm", "b = a right width")
    piece = made(text, width=float(wide)).piece("front")
    assert piece.edge("low").path.length == pytest.approx(wide)
    assert piece.edge("side").path.length == pytest.approx(400.0)
    default = made(text).piece("front")
    assert default.edge("low").path.length == pytest.approx(300.0)


@pytest.mark.parametrize("wide", [199.0, 601.0, -1.0, 0.0])
def test_a_choice_beyond_its_limits_makes_nothing(wide):
    head = 'choices\n    width = 30cm from 20cm to 60cm "Width"\n'
    text = draft(panel("front", 300, 400), head=head).replace("b = a right 300mm", "b = a right width")
    found = make(text, width=wide)
    assert isinstance(found, Refused)
    assert not isinstance(found, Failed), "a pattern was made of it"
    assert "20 cm and 60 cm" in " ".join(f"{problem.message} {problem.fix}" for problem in found.problems)
