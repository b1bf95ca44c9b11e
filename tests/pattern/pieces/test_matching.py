"""Matched notches: the same distance on both sides once the ease is taken up where it belongs."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.pattern.pieces import cut_piece
from app.pattern.pieces.matching import NotchWish, match_notches, notch_on
from app.pattern.pieces.model import EdgeRun, Notch, Seam
from app.pattern.problem import Place, Span


@pytest.fixture(scope="module")
def strips(kit):
    """Strips of 30 mm height; the edge "top" of each runs left to right and has the strip's length."""

    def strip(name, length):
        lines = {
            "top": kit.path((0.0, 30.0), (length, 30.0)),
            "right": kit.path((length, 0.0), (length, 30.0)),
            "bottom": kit.path((0.0, 0.0), (length, 0.0)),
            "left": kit.path((0.0, 0.0), (0.0, 30.0)),
        }
        return cut_piece(kit.spec(*(kit.edge(n, line) for n, line in lines.items()), name=name))

    lengths = {"long": 420.0, "plain": 400.0, "other": 400.0, "one": 150.0, "two": 250.0, "wide": 800.0, "half": 200.0}
    return {name: strip(name, length) for name, length in lengths.items()}


def side(*names, backwards=(), times=1):
    return tuple(EdgeRun(name, "top", name in backwards, times) for name in names)


def spots(placed):
    return [(p.piece, pytest.approx(p.notch.along, abs=1e-6)) for p in placed]


def test_a_plain_seam_has_its_notch_at_the_same_distance_on_both_sides(strips):
    placed = match_notches(strips, Seam(side("plain"), side("other")), 4, [NotchWish(120.0, double=True)])
    assert spots(placed) == [("plain", 120.0), ("other", 120.0)]
    assert all(p.notch.double and p.notch.seam == 4 and p.notch.edge == "top" for p in placed)


def test_a_notch_may_be_counted_from_the_end(strips):
    placed = match_notches(strips, Seam(side("plain"), side("other")), 0, [NotchWish(120.0, "end")])
    assert spots(placed) == [("plain", 280.0), ("other", 280.0)]


def test_the_notch_is_put_on_the_right_edge_of_a_side_in_its_drawn_direction(strips):
    seam = Seam(side("plain"), side("one", "two", backwards=("two",)))
    placed = match_notches(strips, seam, 0, [NotchWish(100.0), NotchWish(200.0)])
    assert spots(placed) == [("plain", 100.0), ("one", 100.0), ("plain", 200.0), ("two", 200.0)]


def test_a_notch_on_the_joint_of_two_edges_is_marked_by_the_joint(strips):
    placed = match_notches(strips, Seam(side("plain"), side("one", "two")), 0, [NotchWish(150.3)])
    assert spots(placed) == [("plain", 150.3)]


def test_ease_lies_between_the_first_and_the_last_notch(strips):
    seam = Seam(side("long"), side("other"), kind="ease", ease=(10.0, 30.0))
    wishes = [NotchWish(100.0), NotchWish(90.0, "end"), NotchWish(215.0)]
    placed = {(p.piece, round(p.notch.along, 3)) for p in match_notches(strips, seam, 0, wishes)}
    assert {("long", 100.0), ("other", 100.0)} <= placed, "flat before the first notch"
    assert {("long", 330.0), ("other", 310.0)} <= placed, "flat after the last"
    assert {("long", 215.0), ("other", 205.0)} <= placed, "eased evenly between"


def test_ease_may_be_put_elsewhere(strips):
    seam = Seam(side("long"), side("other"), kind="ease", ease=(10.0, 30.0))
    placed = match_notches(strips, seam, 0, [NotchWish(200.0), NotchWish(300.0)], eased=(0.0, 200.0))
    assert spots(placed) == [("long", 200.0), ("other", 180.0), ("long", 300.0), ("other", 280.0)]


@pytest.mark.parametrize(("counted_from", "expected"), [("start", 100.0), ("end", 300.0)])
def test_with_one_notch_the_stretch_it_is_counted_over_is_flat(strips, counted_from, expected):
    seam = Seam(side("long"), side("other"), kind="ease", ease=(10.0, 30.0))
    placed = match_notches(strips, seam, 0, [NotchWish(100.0, counted_from)])
    assert placed[1].notch.along == pytest.approx(expected)


def test_a_notch_may_be_measured_on_the_side_that_is_not_eased(strips):
    seam = Seam(side("long"), side("other"), kind="ease", ease=(10.0, 30.0))
    wishes = [NotchWish(100.0, side="b"), NotchWish(200.0, side="b"), NotchWish(100.0, "end", side="b")]
    assert spots(match_notches(strips, seam, 0, wishes)) == [
        ("long", 100.0),
        ("other", 100.0),
        ("long", 210.0),
        ("other", 200.0),
        ("long", 320.0),
        ("other", 300.0),
    ]


@pytest.mark.parametrize("kind", ["gather", "elastic"])
def test_gathers_keep_their_share_of_the_length(strips, kind):
    seam = Seam(side("wide"), side("other"), kind=kind, ratio=(2.0, 2.0))
    assert spots(match_notches(strips, seam, 0, [NotchWish(200.0)])) == [("wide", 200.0), ("other", 100.0)]


def test_a_piece_on_the_fold_walked_twice_has_its_notch_once(strips):
    seam = Seam(side("plain"), side("half", times=2))
    placed = match_notches(strips, seam, 0, [NotchWish(80.0), NotchWish(80.0, "end")])
    assert spots(placed) == [("plain", 80.0), ("half", 80.0), ("plain", 320.0)]


def test_ease_that_does_not_fit_between_its_notches_is_told(strips):
    seam = Seam(side("long"), side("other"), kind="ease", ease=(10.0, 30.0), span=Span("a.draft", 3, 1, 5))
    found = match_notches(strips, seam, 0, [NotchWish(200.0), NotchWish(210.0)]).problems
    assert [p.code for p in found] == ["pieces.notch-ease"]
    assert "20 mm" in found[0].message and found[0].where == seam.span


def test_a_notch_off_the_seam_is_told(strips):
    found = match_notches(strips, Seam(side("plain"), side("other")), 0, [NotchWish(401.0), NotchWish(20.0)]).problems
    assert [p.code for p in found] == ["pieces.notch-off-seam"]
    assert "401 mm" in found[0].message and "400 mm" in found[0].message
    assert found[0].where == Place("plain", "top")


def test_no_wishes_make_no_notches(strips):
    assert match_notches(strips, Seam(side("plain"), side("other")), 0, []) == ()


@given(
    first=st.floats(20.0, 150.0),
    last=st.floats(20.0, 150.0),
    # Two notches nearer than SEAM_END are one
    inner=st.lists(st.integers(0, 100).map(lambda percent: percent / 100.0), max_size=4, unique=True),
)
def test_every_stretch_of_an_eased_seam_takes_its_share_or_none(strips, first, last, inner):
    seam = Seam(side("long"), side("other"), kind="ease", ease=(10.0, 30.0))
    middle = [NotchWish(first + 1.0 + share * (418.0 - first - last)) for share in inner]
    placed = match_notches(strips, seam, 0, [NotchWish(first), *middle, NotchWish(last, "end")])
    a = sorted(p.notch.along for p in placed if p.piece == "long")
    b = sorted(p.notch.along for p in placed if p.piece == "other")
    taken = [one - two for one, two in zip(a, b, strict=True)]
    assert taken[0] == pytest.approx(0.0, abs=1e-6)
    assert taken[-1] == pytest.approx(20.0)
    assert taken == sorted(taken)


def test_a_single_notch_is_put_on_an_edge_from_either_end(strips):
    edge = strips["plain"].edge("top")
    assert notch_on("plain", edge, NotchWish(30.0)) == Notch("top", 30.0)
    assert notch_on("plain", edge, NotchWish(30.0, "end", double=True)) == Notch("top", 370.0, True)
    (off,) = notch_on("plain", edge, NotchWish(500.0)).problems
    assert off.code == "pieces.notch-off-edge"
    assert "500 mm" in off.message and "400 mm" in off.fix
