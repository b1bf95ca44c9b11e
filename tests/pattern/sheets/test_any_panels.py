"""Panels of any size on sheets and cloth of any size: nothing lies over another, and nothing is lost."""

import itertools

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from app.pattern import lay
from app.pattern.make import Made, make_pattern
from app.pattern.pieces.model import Fabric
from app.pattern.problem import Refused
from app.pattern.sheets import PAPERS, paper_of, paper_problems, plan_sheets, sheet_name
from app.pattern.units import MM_PER
from tests.pattern.panels import draft, panel

tried = settings(deadline=None, max_examples=8)
SIZES = st.lists(st.tuples(st.integers(60, 900), st.integers(60, 700)), min_size=1, max_size=4)
NAMES = ("front", "back", "sleeve", "band")


def pattern_of(sizes, cut="cut 1 main"):
    parts = [panel(name, *size, cut=cut) for name, size in zip(NAMES, sizes, strict=False)]
    made = make_pattern(draft(*parts), "panels.draft", {"hip_girth": 1000.0}, {})
    assert isinstance(made, Made), made
    return made.pattern


def laid(plan, pattern):
    """Every cutting outline where it lies on the wall of sheets, by piece."""
    return {
        placed.piece: shapely.Polygon(
            [tuple(placed.transform.apply(point)) for point in pattern.piece(placed.piece).cutting.flatten(0.05)]
        )
        for placed in plan.placed
    }


# ---- sheets


@tried
@given(SIZES, st.sampled_from(["a4", "letter", "a3", "a0"]))
def test_every_piece_lies_once_on_the_wall_and_over_no_other(sizes, paper):
    pattern = pattern_of(sizes)
    plan = plan_sheets(pattern, paper_of(paper), tries=2)
    shapes = laid(plan, pattern)
    assert set(shapes) == {piece.name for piece in pattern.pieces}
    for one, other in itertools.combinations(shapes.values(), 2):
        assert one.intersection(other).area < 1e-6
    for name, shape in shapes.items():
        assert shape.area == pytest.approx(abs(pattern.piece(name).cutting.signed_area), rel=1e-6), "true to scale"


@tried
@given(SIZES, st.sampled_from(["a4", "letter", "a3", "a0"]))
def test_the_sheets_that_are_printed_show_every_part_of_every_piece(sizes, paper):
    pattern = pattern_of(sizes)
    plan = plan_sheets(pattern, paper_of(paper), tries=2)
    wall = shapely.union_all([shapely.box(*sheet.box).buffer(1e-6) for sheet in plan.sheets])
    shapes = laid(plan, pattern)
    for shape in shapes.values():
        assert shape.difference(wall).area < 1e-6
    for sheet in plan.sheets:
        here = {name for name, shape in shapes.items() if shape.intersection(shapely.box(*sheet.box)).area > 1.0}
        assert here <= set(sheet.pieces)
        assert sheet.pieces, "no empty sheet is printed"


@tried
@given(SIZES)
def test_sheets_are_named_once_and_as_large_as_the_paper_prints(sizes):
    paper = paper_of("a4")
    plan = plan_sheets(pattern_of(sizes), paper, tries=2)
    names = [sheet.name for sheet in plan.sheets]
    assert len(set(names)) == len(names)
    for sheet in plan.sheets:
        assert (sheet.box.width, sheet.box.height) == pytest.approx(paper.printable)
        assert plan.sheet_at(sheet.row, sheet.column) is sheet
    assert plan.rows == 1 + max(sheet.row for sheet in plan.sheets)


@given(st.integers(0, 2000), st.integers(0, 2000), st.integers(0, 2000))
def test_two_places_never_have_one_name(row, other, column):
    assert (sheet_name(row, column) == sheet_name(other, column)) == (row == other)
    letters = sheet_name(row, column).rstrip("0123456789")
    value = 0
    for letter in letters:
        value = value * 26 + ord(letter) - ord("A") + 1
    assert value == row + 1, "letters count as those of a spreadsheet's columns do"


# ---- papers


@given(st.integers(200, 1200), st.integers(250, 1200), st.sampled_from(["mm", "cm", "in"]), st.booleans())
def test_a_paper_by_its_sides_is_as_large_as_it_says(wide, high, unit, sideways):
    words = f"{wide / MM_PER[unit]:.2f}x{high / MM_PER[unit]:.2f}{unit}"
    paper = paper_of(f"{words}-landscape" if sideways else words)
    assert not isinstance(paper, Refused)
    sides = (paper.width, paper.height)
    expected = (max(wide, high), min(wide, high)) if sideways else (wide, high)
    assert sides == pytest.approx(expected, abs=0.13)


@given(st.text(max_size=30))
def test_any_words_are_a_paper_or_told(words):
    paper = paper_of(words)
    if isinstance(paper, Refused):
        (problem,) = paper.problems
        assert problem.code == "sheets.paper-unknown"
        assert words in problem.message
    else:
        assert min(paper.width, paper.height) >= 0.0


@given(st.sampled_from(sorted(PAPERS)), st.floats(0.0, 200.0))
def test_a_paper_is_printed_on_only_where_something_is_left_between_its_margins(name, margin):
    paper = paper_of(name, margin)
    short, long = paper.upright.printable
    told = [problem.code for problem in paper_problems(paper)]
    assert bool(told) == (short < 170.0 or long < 225.0)


# ---- cloth


@tried
@given(SIZES, st.integers(500, 1600), st.booleans(), st.booleans())
def test_a_lay_holds_every_piece_as_often_as_it_is_cut_and_none_over_another(sizes, width, folded, one_way):
    pattern = pattern_of(sizes, "cut 2 mirrored main")
    items = lay.items_for(pattern, "main")
    cloth = Fabric("main", "Cloth", float(width), folded=folded, one_way=one_way)
    plan = lay.lay_plan_for(items, cloth, effort=lay.EFFORT_QUICK)
    least = lay.least_width(items, cloth)
    if not isinstance(plan, lay.LayPlan):
        assert least.mm > width, "it is refused only where it does not go"
        assert [problem.code for problem in plan.problems] != []
        return
    assert width >= least.mm - 1e-6
    assert lay.overlaps(plan, items) == ()
    assert plan.buy >= plan.length
    assert sum(placement.layers for placement in plan.placements) == sum(item.count for item in items)
    assert 0.0 < plan.utilisation <= 1.0


@tried
@given(SIZES, st.integers(900, 1600))
def test_a_wider_cloth_of_the_same_sort_never_takes_more_than_one_piece_more(sizes, width):
    """A quick look may do a little worse on a wider cloth; it must not do much worse."""
    items = lay.items_for(pattern_of(sizes), "main")
    plans = [
        lay.lay_plan_for(
            items,
            Fabric("main", "Cloth", float(each)),
            effort=lay.EFFORT_QUICK,
        )
        for each in (width, width + 600)
    ]
    if all(isinstance(plan, lay.LayPlan) for plan in plans):
        longest = max(max(size) for size in sizes) + 40.0
        assert plans[1].buy <= plans[0].buy + longest


@tried
@given(SIZES, st.integers(1, 10))
def test_cloth_that_shrinks_is_bought_longer_by_as_much(sizes, percent):
    items = lay.items_for(pattern_of(sizes), "main")

    def buy(shrinkage):
        cloth = Fabric("main", "Cloth", 1400.0, folded=False, one_way=False, shrinkage=shrinkage)
        return lay.lay_plan_for(items, cloth, effort=lay.EFFORT_QUICK).buy

    plain, shrunk = buy(0.0), buy(percent / 100)
    assert shrunk >= plain
    assert shrunk <= plain / (1 - percent / 100) + 60.0
