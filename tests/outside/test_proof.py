"""The proof held against the outside: published facts, textbook arrays, plane geometry and general libraries."""

from __future__ import annotations

from itertools import combinations, product
from itertools import pairwise as pairwise_of
from math import pi

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog
from shapely.geometry import LineString

from app.pattern.body import SIZES, draw_bodies
from app.pattern.body.populations_standard import MEN_SIZES, men_sizes
from app.pattern.checks import getting_in, hem_fullness
from app.pattern.geometry import Path, Point, arc_centre, curve
from app.pattern.pieces.children import YOUNG
from app.pattern.pieces.model import Allowance, CornerCut, Edge, Girth
from app.pattern.proof import case
from app.pattern.proof.pairs import pairwise
from app.pattern.proof.region import inside, region_of


def test_the_size_steps_are_those_of_en_13402_3():
    """EN 13402-3:2004: bust class limits 74 ... 102 by 4, then 107 ... 131 by 6 cm (as the R package Anthropometry
    gives them); each size lies in its own class."""
    limits = [74, 78, 82, 86, 90, 94, 98, 102, 107, 113, 119, 125, 131]
    for bust, (low, high) in zip(SIZES.values(), pairwise_of(limits), strict=True):
        assert low * 10 < bust < high * 10


def test_mens_chest_sizes_lie_in_the_classes_of_en_13402_3():
    """EN 13402-3:2004, men: S 86-94, M 94-102, L 102-110, XL 110-118, XXL 118-129 cm (seen second-hand)."""
    classes = {"S": (86, 94), "M": (94, 102), "L": (102, 110), "XL": (110, 118), "XXL": (118, 129)}
    assert set(classes) == set(MEN_SIZES)
    for name, body in men_sizes().items():
        low, high = classes[name]
        assert body["bust_girth"] == pytest.approx((low + high) * 5.0)


def test_a_young_child_is_one_up_to_134_centimetres():
    """EN 14682:2014 as the Finnish authority Tukes tells it: up to 7 years or 134 cm."""
    assert YOUNG == 1340.0


# ---- pairwise covers


@pytest.mark.parametrize("count", [2, 4])
def test_two_or_four_choices_of_three_values_take_the_nine_rows_of_the_orthogonal_array(count):
    """L9(3^4), Taguchi's and every textbook's: nine rows meet each pair of values exactly once."""
    rows = pairwise({f"c{i}": "abc" for i in range(count)})
    assert len(rows) == 9
    for one, other in combinations(rows[0], 2):
        assert sorted((row[one], row[other]) for row in rows) == sorted(product("abc", repeat=2))


@pytest.mark.parametrize(("sizes", "bound"), [((4, 3, 2), 12), ((5, 5), 25), ((3, 3, 3, 3, 2, 2), 9)])
def test_no_cover_can_have_fewer_settings_than_its_two_largest_choices_have_pairs(sizes, bound):
    rows = pairwise({f"c{i}": range(size) for i, size in enumerate(sizes)})
    assert bound <= len(rows) <= 1.8 * bound


# ---- getting in


def test_an_opened_slit_is_a_rim_of_the_girth_and_both_its_sides():
    """Plane geometry with Shapely: a flat tube cut down one side opens into a rim of girth + twice the slit."""
    girth, slit = 700.0, 200.0
    rim = LineString([(0, slit), (0, 0)]).length + LineString([(0, 0), (girth, 0)]).length
    rim += LineString([(girth, 0), (girth, slit)]).length
    assert getting_in.widest(Girth("w", "Waist", girth, 0.0, girth, opens=slit), 0.0) == pytest.approx(rim)


def test_a_womans_head_of_sixty_centimetres_is_large():
    """US Army survey of 1988 (Gordon et al., 1989): women's head circumference 54.6 cm, sd 1.5 (from memory)."""
    heads = [body["head_girth"] for body in draw_bodies(1500, 2, spread=1.0)]
    assert np.mean(heads) == pytest.approx(546.0, abs=6.0)
    assert np.mean([head > 600.0 for head in heads]) < 0.005


# ---- hems


@given(st.floats(150.0, 1500.0), st.floats(5.0, 60.0), st.floats(0.5, 3.0))
@settings(max_examples=40, deadline=None)
def test_raw_edge_and_landing_line_are_parallels_as_shapely_draws_them(radius, width, sweep):
    # Shapely leaves out points nearer to the parallel than a hundredth of its distance, hence the tolerance.
    edge = Edge("hem", arc_centre(Point(0.0, 0.0), radius, 0.0, sweep), Allowance(width, CornerCut.TURNED_BACK))
    line = LineString(edge.path.flatten(0.001))
    raw, landing = hem_fullness.raw_and_landing(edge)
    assert raw == pytest.approx(line.offset_curve(-width, quad_segs=200).length, abs=0.02 * width)
    assert landing == pytest.approx(line.offset_curve(width, quad_segs=200).length, abs=0.02 * width)


def test_the_fullness_of_a_full_circle_skirt_is_that_of_its_radii():
    """Worked by the circle rule: waist 68 cm, so r = 68 / 2 pi = 10.82 cm, length 60 cm, hem of 2 cm."""
    radius = 680.0 / (2.0 * pi) + 600.0
    quarter = Edge("hem", arc_centre(Point(0.0, 0.0), radius, 0.0, pi / 2.0), Allowance(20.0, CornerCut.TURNED_BACK))
    raw, landing = hem_fullness.raw_and_landing(quarter)
    assert raw / landing == pytest.approx((radius + 20.0) / (radius - 20.0), rel=1e-6)


def test_an_s_shaped_hem_needs_no_fullness_on_the_whole():
    """Turning left and as much right again, parallels on either side are equally long (Steiner)."""
    path = curve(Point(0.0, 0.0), Point(400.0, 60.0), 0.0, 0.0)
    raw, landing = hem_fullness.raw_and_landing(Edge("hem", path, Allowance(20.0, CornerCut.TURNED_BACK)))
    assert raw == pytest.approx(landing, abs=0.01)
    assert isinstance(path, Path)


# ---- the region and the case


def test_a_region_of_two_measures_keeps_nearly_as_many_as_the_best_box_found_by_trying_all():
    """All boxes cut by one failed body are tried by brute force; the greedy one loses no more."""
    bodies = draw_bodies(60, 8)
    needs = ("back_waist_length", "shoulder_length")
    failed, held = bodies[0], bodies[1:]
    kept = sum(inside(region_of(needs, held, [failed]), body) for body in held)
    sides = [[b for b in held if (b[n] - failed[n]) * way > 0.0] for n in needs for way in (-1.0, 1.0)]
    # Each box reaches only as far as bodies lie densely in it.
    assert kept == max(sum(inside(region_of(needs, side, []), body) for body in side) for side in sides)


def test_no_twelve_sizes_fit_many_more_than_those_chosen_greedily():
    """A bound from outside: the best cover by twelve boxes round the bodies, relaxed to a linear programme (SciPy)."""
    bodies = draw_bodies(80, 21)
    girths = np.array([[body[name] for name in case.AT] for body in bodies])
    fits = np.abs(girths[:, None, :] - girths[None, :, :]).max(axis=2) <= case.FITS
    count = len(bodies)
    # Share of each size taken, then share of each body fitted: a body is fitted by no more than the sizes that fit it.
    covered = np.hstack([-fits.astype(float), np.eye(count)])
    chosen = np.hstack([np.ones((1, count)), np.zeros((1, count))])
    best = linprog(
        np.hstack([np.zeros(count), -np.ones(count)]),
        A_ub=np.vstack([covered, chosen]),
        b_ub=np.hstack([np.zeros(count), [12.0]]),
        bounds=(0.0, 1.0),
    )
    greedy = case.chosen_sizes_fit(bodies, 12)
    assert greedy <= -best.fun / count + 1e-9
    assert greedy >= (1.0 - 1.0 / np.e) * -best.fun / count
