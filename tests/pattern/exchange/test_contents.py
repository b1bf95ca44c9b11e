"""What of a piece is handed on, and with which facts."""

from dataclasses import replace

import pytest

from app.pattern.drawing.pen import LineStyle
from app.pattern.exchange.contents import LineKind, StyleInfo, handed_pieces
from app.pattern.geometry import Path, Point
from app.pattern.pieces.model import Mark, MarkKind, Notch, Pattern
from tests.pattern.drawing.hand_pieces import bodice_front, placket, tab


def handed(piece):
    (found,) = handed_pieces(Pattern("One", (piece,), (), (), ()), StyleInfo("One"))
    return found


def facts(line):
    return dict(line.facts)


def test_every_edge_but_the_fold_is_a_stitching_line_of_its_own():
    piece = bodice_front()
    lines = handed(piece).of_kind(LineKind.STITCHING)
    assert [facts(line)["edge"] for line in lines] == [e.name for e in piece.edges if not e.fold]
    assert [line.path for line in lines] == [e.path for e in piece.edges if not e.fold]
    assert facts(lines[0])["allowance"] == "10.000"


def test_lengths_are_told_in_mm():
    for line in handed(bodice_front()).lines:
        assert float(facts(line)["length"]) == pytest.approx(line.path.length, abs=0.001)


def test_the_fold_is_no_cutting_line():
    found = handed(bodice_front())
    (fold,) = found.of_kind(LineKind.FOLD)
    whole = found.piece.cutting.length
    assert sum(line.path.length for line in found.of_kind(LineKind.CUTTING)) == pytest.approx(whole - fold.path.length)
    assert facts(fold)["edge"] == "centre"


def test_a_dart_has_cap_two_legs_and_a_fold_that_meet_at_its_tip():
    piece = bodice_front()
    lines = handed(piece).of_kind(LineKind.DARTS)
    assert [facts(line)["part"] for line in lines] == ["cap", "leg a", "leg b", "fold"] * len(piece.darts)
    for line in lines[1:4]:
        assert line.path.end == piece.darts[0].tip
    assert facts(lines[4])["dart"] == "side"
    assert float(facts(lines[0])["intake"]) == pytest.approx(36.0)


def test_a_dart_leg_starts_on_the_cutting_line():
    found = handed(bodice_front())
    for line in found.of_kind(LineKind.DARTS):
        if facts(line)["part"].startswith("leg"):
            across = [s for s in found.piece.cutting.segments if _on(s, line.path.start)]
            assert across


def _on(segment, point):
    a, b = segment.start, segment.end
    return a.distance(point) + point.distance(b) - a.distance(b) < 0.01


def test_a_double_notch_is_two_ticks_that_say_so():
    lines = handed(bodice_front()).of_kind(LineKind.NOTCHES)
    double = [line for line in lines if facts(line)["notch"] == "double"]
    assert len(lines) == 4
    assert len(double) == 2
    assert double[0].path.start.distance(double[1].path.start) == pytest.approx(6.0, abs=0.2)


def test_a_matched_notch_names_its_seam_counted_from_one():
    piece = replace(tab(), notches=(Notch("hem", 5.0, seam=2), Notch("top", 5.0)))
    with_seam, without = handed(piece).of_kind(LineKind.NOTCHES)
    assert facts(with_seam)["seam"] == "3"
    assert "seam" not in facts(without)


def test_buttonholes_are_lines_and_point_marks_crosses():
    assert len(handed(placket()).of_kind(LineKind.MARKS)) == 3
    button = Mark(MarkKind.BUTTON, None, Point(7.0, 20.0), "Button")
    cross = handed(replace(tab(), marks=(button,))).of_kind(LineKind.MARKS)
    assert len(cross) == 2
    for arm in cross:
        assert arm.path.point_at(arm.path.length / 2.0).distance(button.at) == pytest.approx(0.0, abs=1e-9)
        assert facts(arm)["label"] == "Button"


def test_drill_marks_are_points_and_no_lines():
    found = handed(replace(tab(), marks=(Mark(MarkKind.DRILL, None, Point(7.0, 20.0), "Eyelet"),)))
    assert not found.of_kind(LineKind.MARKS)
    assert [(d.at, d.label) for d in found.drills] == [(Point(7.0, 20.0), "Eyelet")]


@pytest.mark.parametrize(
    ("kind", "style"),
    [
        (MarkKind.STITCH, LineStyle.SEWN),
        (MarkKind.FOLD, LineStyle.FOLD),
        (MarkKind.GATHER, LineStyle.GATHER),
        (MarkKind.LENGTHEN, LineStyle.LENGTHEN),
        (MarkKind.PLACE, LineStyle.MARK),
    ],
)
def test_marks_keep_the_look_they_are_printed_with(kind, style):
    path = Path.through(Point(2.0, 10.0), Point(12.0, 10.0))
    (line,) = handed(replace(tab(), marks=(Mark(kind, path, Point(7.0, 10.0)),))).of_kind(LineKind.MARKS)
    assert line.style is style
    assert facts(line)["mark"] == str(kind)


def test_slugs_tell_pieces_apart_on_any_file_system():
    pieces = (replace(tab(), name="loop"), replace(tab(), name="Loop"), replace(tab(), name="Öse/2"))
    slugs = [p.slug for p in handed_pieces(Pattern("x", pieces, (), (), ()), StyleInfo("x"))]
    assert slugs == ["01-loop", "02-Loop", "03--se-2"]
    assert len({slug.lower() for slug in slugs}) == 3


def test_cuts_are_said_with_the_title_of_the_cloth(pattern, info):
    found = {p.piece.name: p.cuts for p in handed_pieces(pattern, info)}
    assert found["front"] == ("cut 1 Shell on fold", "cut 1 Lining on fold")
    assert found["skirt"] == ("cut 4 Shell, mirrored",)
