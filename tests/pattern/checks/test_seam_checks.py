"""Seam walk, notch walk, fullness and truing: each damage is heard by its own check."""

from __future__ import annotations

from dataclasses import replace
from math import pi, radians

import pytest

from app.pattern.checks import run_checks
from app.pattern.geometry import Path, Point, curve
from app.pattern.pieces.model import Allowance, EdgeRun, Seam
from app.pattern.problem import Severity


def path(*points):
    return Path.through(*(Point(*p) for p in points))


def with_seam(garment, index, **changes):
    seams = list(garment.seams)
    seams[index] = replace(seams[index], **changes)
    return replace(garment, seams=tuple(seams))


def without_notches(garment):
    return replace(garment, pieces=tuple(replace(p, notches=()) for p in garment.pieces))


# ---- seam walk
def longer_side(garment, bench, by):
    spec = bench.bodice("front", 60.0)
    spec = bench.with_edge(spec, "side", path=path((230, -200), (230, -400 - by)))
    spec = bench.with_edge(spec, "hem", path=path((230, -400 - by), (0, -400 - by)))
    return bench.with_recut(garment, bench.with_edge(spec, "centre", path=path((0, -60), (0, -400 - by))))


@pytest.mark.parametrize(
    ("by", "codes"), [(0.4, set()), (-0.4, set()), (0.7, {"checks.seam-walk"}), (-12.0, {"checks.seam-walk"})]
)
def test_a_plain_seam_is_heard_beyond_half_a_millimetre(garment, bench, by, codes):
    assert bench.codes(longer_side(garment, bench, by)) == codes


def test_the_seam_walk_gives_both_lengths_and_the_difference(garment, bench):
    problem = run_checks(longer_side(garment, bench, 12.0))[0]
    assert "front.side is 212 mm and back.side is 200 mm" in problem.message
    assert "Lengthen back.side or shorten front.side by 12 mm" in problem.fix
    assert (problem.where.piece, problem.where.edge) == ("front", "side")


@pytest.mark.parametrize(
    ("ease", "codes"),
    [
        ((10.0, 30.0), set()),
        ((20.0, 20.0), set()),
        ((22.0, 30.0), {"checks.seam-walk"}),
        ((0.0, 15.0), {"checks.seam-walk"}),
    ],
)
def test_ease_has_to_lie_in_the_declared_range(garment, bench, ease, codes):
    assert bench.codes(with_seam(garment, 3, ease=ease)) == codes


def test_the_ease_found_and_the_ease_meant_are_named(garment):
    problem = run_checks(with_seam(garment, 3, ease=(22.0, 30.0)))[0]
    assert "an ease of 20 mm, where 22 mm to 30 mm is meant" in problem.message
    assert "2 mm longer" in problem.fix


@pytest.mark.parametrize(
    ("ratio", "codes"), [((1.5, 1.5), set()), ((1.0, 1.4), {"checks.seam-ratio"}), ((1.8, 2.0), {"checks.seam-ratio"})]
)
def test_a_gather_has_to_keep_its_declared_ratio(garment, bench, ratio, codes):
    assert bench.codes(with_seam(garment, 5, ratio=ratio)) == codes


def test_an_edge_sewn_twice_counts_twice(garment, bench):
    seam = Seam((EdgeRun("front", "side", times=2),), (EdgeRun("back", "side"), EdgeRun("back", "side")))
    assert bench.codes(replace(garment, seams=(*garment.seams, seam))) == set()


# ---- fullness
@pytest.mark.parametrize(("kind", "sides"), [("gather", "ba"), ("elastic", "ba")])
def test_a_gather_from_short_to_long_is_a_warning(garment, kind, sides):
    a, b = garment.seams[5].b, garment.seams[5].a
    bare = without_notches(garment)
    found = run_checks(with_seam(bare, 5, a=a, b=b, kind=kind, ratio=(0.5, 5.0)))
    assert [p.code for p in found] == ["checks.fullness"]
    assert found[0].severity is Severity.WARNING
    assert "0.67 times" in found[0].message


def test_more_than_four_times_is_a_warning(garment, bench):
    short = (EdgeRun("front", "shoulder"),)
    found = bench.codes_of_seams(
        with_seam(without_notches(garment), 5, a=garment.seams[0].a, b=short, ratio=(1.0, 9.0))
    )
    assert found == {"checks.fullness", "checks.allowance-unlike"}


# ---- notch walk
def moved_notch(garment, bench, piece, index, by, **changes):
    notches = list(garment.piece(piece).notches)
    notches[index] = replace(notches[index], along=notches[index].along + by, **changes)
    return bench.with_piece(garment, piece, notches=tuple(notches))


@pytest.mark.parametrize(("by", "codes"), [(0.4, set()), (3.0, {"checks.notch-walk"}), (-3.0, {"checks.notch-walk"})])
def test_a_notch_off_its_partner_in_a_plain_seam_is_heard(garment, bench, by, codes):
    assert bench.codes(moved_notch(garment, bench, "skirt_back", 0, by)) == codes


def test_the_notch_walk_gives_both_distances(garment, bench):
    problem = run_checks(moved_notch(garment, bench, "skirt_back", 0, 3.0))[0]
    assert "skirt_front.side lies 200 mm" in problem.message and "skirt_back.side 203 mm" in problem.message
    assert "miss each other by 3 mm" in problem.message
    partner = problem.related[-1].where
    assert partner.piece == "skirt_back"
    assert partner.at.distance(problem.where.at) == pytest.approx(3.0, abs=0.01), "the two skirts lie on one another"
    assert (problem.where.piece, problem.where.edge) == ("skirt_front", "side")


def test_notches_in_gathers_keep_their_share_of_the_length(garment, bench):
    index = next(i for i, n in enumerate(garment.piece("frill").notches) if n.seam == 5)
    assert bench.codes(moved_notch(garment, bench, "frill", index, 6.0)) == {"checks.notch-walk"}


@pytest.mark.parametrize(
    ("by", "codes"),
    [(0.3, set()), (5.0, {"checks.notch-walk"}), (-5.0, {"checks.notch-walk"}), (-25.0, {"checks.notch-walk"})],
)
def test_a_notch_moved_in_an_eased_seam_is_heard(garment, bench, by, codes):
    index = next(i for i, n in enumerate(garment.piece("back").notches) if n.seam == 3)
    assert bench.codes(moved_notch(garment, bench, "back", index, by)) == codes


def test_uneven_ease_is_told_with_what_the_stretch_takes_up_and_its_share(garment, bench):
    index = next(i for i, n in enumerate(garment.piece("back").notches) if n.seam == 3)
    problem = run_checks(moved_notch(garment, bench, "back", index, 5.0))[0]
    assert "sleeve.cap at 230.4 mm" in problem.message and "front.armhole at 220 mm" in problem.message
    assert "an ease of 5.4 mm, where 8.3 mm is its share" in problem.message
    assert problem.where.piece == "sleeve"


def test_a_lost_partner_is_heard(garment, bench):
    notches = garment.piece("skirt_back").notches[1:]
    found = bench.codes(bench.with_piece(garment, "skirt_back", notches=notches))
    assert found == {"checks.notch-missing"}


def test_a_double_notch_meets_a_double_notch(garment, bench):
    assert bench.codes(moved_notch(garment, bench, "skirt_back", 0, 0.0, double=True)) == {"checks.notch-unlike"}


def test_a_notch_off_its_edge_is_heard(garment, bench):
    lone = replace(garment.piece("frill").notches[0], edge="side", along=140.0, seam=None)
    notches = (*garment.piece("frill").notches, lone)
    assert bench.codes(bench.with_piece(garment, "frill", notches=notches)) == {"checks.notch-off-edge"}


# ---- truing
def tilted(garment, bench, degrees, edge="neck"):
    """The bodice front with its neck arriving at the shoulder turned from the square."""
    square = radians(-19.3) + pi / 2.0
    spec = bench.bodice("front", 60.0)
    neck = curve(Point(0.0, -60.0), Point(70.0, 22.0), 0.0, square + radians(degrees))
    return bench.with_recut(garment, bench.with_edge(spec, edge, path=neck))


@pytest.mark.parametrize(
    ("degrees", "codes"),
    [(0.0, set()), (12.0, set()), (-12.0, set()), (20.0, {"checks.truing"}), (-20.0, {"checks.truing"})],
)
def test_a_neckline_with_a_corner_at_the_shoulder_is_heard(garment, bench, degrees, codes):
    assert bench.codes(tilted(garment, bench, degrees)) == codes


def test_truing_is_a_warning_that_gives_both_angles(garment, bench):
    problem = run_checks(tilted(garment, bench, 20.0))[0]
    assert problem.severity is Severity.WARNING
    assert "front.neck meets front.shoulder at 70°" in problem.message or "at 110°" in problem.message
    assert "back.neck meets back.shoulder at 90°" in problem.message
    assert "turns by 20°" in problem.message
    assert (problem.where.piece, problem.where.edge) == ("front", "neck")


def test_an_armhole_that_peaks_at_the_shoulder_is_heard(garment, bench):
    spec = bench.bodice("front", 60.0)
    old = next(i for i in spec.items if i.name == "armhole").path
    peaked = curve(old.start, old.end, radians(-19.3 - 90.0 + 25.0), 0.0)
    recut = bench.with_recut(without_notches(garment), bench.with_edge(spec, "armhole", path=peaked))
    assert "checks.truing" in bench.codes(recut)


def test_a_fitted_waist_in_a_long_side_seam_is_no_fault(garment, bench):
    """Bodice over skirt: their side edges have one name and go on over the waist, at an angle that is meant."""
    long_side = (EdgeRun("front", "side"), EdgeRun("skirt_front", "side"))
    other = (EdgeRun("back", "side"), EdgeRun("skirt_back", "side"))
    waist = Seam((EdgeRun("front", "hem"),), (EdgeRun("back", "hem"),))
    seams = (*garment.seams[:2], Seam(long_side, other), waist)
    assert bench.codes_of_seams(replace(without_notches(garment), seams=seams)) == set()


def test_a_facing_lies_on_its_garment_and_makes_no_corner_with_it(garment, bench):
    """A front and its facing, sewn along shoulder and neck: the same slanting corner on both is no peak."""
    slanting = tilted(without_notches(garment), bench, 25.0).piece("front")
    facing = replace(slanting, name="facing")
    shoulder = Seam((EdgeRun("facing", "shoulder"),), (EdgeRun("front", "shoulder"),))
    neck = Seam((EdgeRun("facing", "neck"),), (EdgeRun("front", "neck"),))
    faced = replace(garment, pieces=(slanting, facing), seams=(shoulder, neck))
    assert bench.codes_of_seams(faced) == set()
    assert bench.codes_of_seams(replace(faced, seams=(shoulder,))) == {"checks.truing"}


def test_a_point_at_a_centre_seam_is_a_design_and_a_slight_one_a_slip(garment, bench):
    """A piece sewn to its own mirror image: a bold corner is a V, a slight one is not meant."""

    def centre_seam(angle):
        spec = bench.bodice("front", 60.0)
        allowance = Allowance(10.0)
        spec = bench.with_edge(spec, "centre", fold=False, path=path((0, -60), (0, -400)), allowance=allowance)
        neck = curve(Point(0.0, -60.0), Point(70.0, 22.0), radians(angle), radians(-19.3) + pi / 2.0)
        piece = bench.cut(bench.with_edge(spec, "neck", path=neck))
        piece = replace(piece, cuts=(replace(piece.cuts[0], on_fold=False, count=2, pair=True),))
        run = (EdgeRun("front", "centre"),)
        return replace(garment, pieces=(piece,), seams=(Seam(run, run),), girths=())

    assert bench.codes_of_seams(centre_seam(2.0)) == set()
    assert bench.codes_of_seams(centre_seam(12.0)) == {"checks.truing"}
    assert bench.codes_of_seams(centre_seam(50.0)) == set()


def test_a_seam_with_a_corner_over_its_closed_dart_is_heard(garment, bench):
    """A dart closed on a straight waist turns by the dart's own angle; a slope more, and it is heard."""
    spec = bench.skirt("skirt_front")
    sloped = curve(Point(104.0, 600.0), Point(200.0, 606.0), radians(8.0), radians(10.0))
    found = run_checks(bench.with_recut(garment, bench.with_edge(spec, "waist_side", path=sloped)))
    assert [p.code for p in found] == ["checks.dart-truing"]
    assert found[0].severity is Severity.WARNING
    assert "turns by 19.4°" in found[0].message
    assert (found[0].where.piece, found[0].where.point) == ("skirt_front", "waist_dart")


@pytest.mark.parametrize(
    ("angle", "codes"),
    [
        (0.0, set()),
        (6.0, set()),
        (-6.0, set()),
        (12.0, {"checks.fold-truing"}),
        (-12.0, {"checks.fold-truing"}),
        (45.0, set()),
    ],
)
def test_a_slight_peak_at_the_fold_is_a_slip_and_a_bold_one_a_design(garment, bench, angle, codes):
    spec = bench.bodice("front", 60.0)
    neck = curve(Point(0.0, -60.0), Point(70.0, 22.0), radians(angle), radians(-19.3) + pi / 2.0)
    assert bench.codes(bench.with_recut(garment, bench.with_edge(spec, "neck", path=neck))) == codes


def test_the_angle_at_the_fold_and_the_corner_it_makes_are_named(garment, bench):
    spec = bench.bodice("front", 60.0)
    neck = curve(Point(0.0, -60.0), Point(70.0, 22.0), radians(12.0), radians(-19.3) + pi / 2.0)
    problem = run_checks(bench.with_recut(garment, bench.with_edge(spec, "neck", path=neck)))[0]
    assert "front.neck meets the fold at 102°" in problem.message and "a corner of 24°" in problem.message
    assert problem.where.at == pytest.approx((0.0, -60.0))
