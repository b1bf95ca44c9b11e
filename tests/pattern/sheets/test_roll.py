"""The whole pattern on one sheet, read back with PDFium."""

import pytest
from shapely.geometry import LineString, Polygon
from shapely.ops import unary_union

from app.pattern.pieces.model import Pattern
from app.pattern.sheets import RollPlan, least_roll, plan_roll, write_roll_pdf
from app.pattern.sheets.roll import LONGEST, MARGIN
from tests.pattern.drawing.hand_pieces import rectangle
from tests.pattern.sheets.pdf_reading import PT, open_pdf, paths_of, words_of
from tests.pattern.sheets.test_tiled import flat, is_cutting


@pytest.fixture(scope="module")
def roll(pattern):
    return plan_roll(pattern, 914.0, tries=2)


@pytest.fixture(scope="module")
def written(roll, pattern, info, tmp_path_factory):
    path = tmp_path_factory.mktemp("roll") / "roll.pdf"
    assert write_roll_pdf(roll, pattern, info, path) == ()
    return path


def areas(plan, pattern):
    return [Polygon(pattern.piece(p.piece).cutting.transformed(p.transform).flatten(0.05)) for p in plan.placed]


def test_the_page_is_the_rolls_width_and_as_long_as_needed(roll, written, pattern):
    assert roll.width == 914.0
    lowest = min(a.bounds[1] for a in areas(roll, pattern))
    assert MARGIN <= lowest <= MARGIN + 4.0
    with open_pdf(written) as document:
        assert len(document) == 1
        width, height = document[0].get_size()
    assert (width / PT, height / PT) == pytest.approx((roll.width, roll.height), abs=0.01)


def test_pieces_lie_apart_and_inside_the_margins(roll, pattern):
    placed = areas(roll, pattern)
    for index, area in enumerate(placed):
        left, bottom, right, top = area.bounds
        assert left >= MARGIN
        assert bottom >= MARGIN
        assert right <= roll.width - MARGIN
        assert top <= roll.height - MARGIN - 100.0
        assert all(area.distance(other) > 2.0 for other in placed[index + 1 :])


def test_the_cutting_lines_are_drawn_where_the_plan_says(roll, pattern, written):
    with open_pdf(written) as document:
        read = flat(s for p in paths_of(document[0]) if is_cutting(p) for s in p.segments)
    meant = unary_union(
        [LineString(pattern.piece(p.piece).cutting.transformed(p.transform).flatten(0.01)) for p in roll.placed]
    )
    assert read.difference(meant.buffer(0.1)).length < 1e-6
    for placed in roll.placed:
        piece = pattern.piece(placed.piece)
        if piece.fold_edge is None:
            outline = LineString(piece.cutting.transformed(placed.transform).flatten(0.01))
            assert outline.difference(read.buffer(0.1)).length < 1e-6


def test_it_carries_printing_words(written):
    with open_pdf(written) as document:
        words = " ".join(words_of(document[0]).split())
    assert "measure every bar and square from outer edge to outer edge" in words
    assert "never “fit to page”" in words
    assert "order K7F2Q" in words


def test_without_a_width_the_page_is_as_wide_as_the_pieces_need(pattern):
    plan = plan_roll(pattern, tries=0)
    right = max(a.bounds[2] for a in areas(plan, pattern))
    assert right < plan.width <= 841.0
    assert isinstance(plan, RollPlan)


def test_a_piece_wider_than_the_usual_roll_widens_the_page():
    cloak = Pattern("Cloak", (rectangle("cloak", "Cloak", 1200.0, 1300.0),), (), (), ())
    plan = plan_roll(cloak, tries=0)
    assert plan.width > 1220.0


def test_a_roll_narrower_than_a_piece_is_refused_with_the_width_to_choose():
    cloak = Pattern("Cloak", (rectangle("cloak", "Cloak", 1200.0, 1300.0),), (), (), ())
    (problem,) = plan_roll(cloak, 914.0, tries=0).problems
    assert problem.code == "sheets.too-wide"
    assert problem.where.piece == "cloak"
    assert "1244 mm" in problem.fix


def test_a_roll_without_room_for_the_squares_is_refused(pattern):
    (problem,) = plan_roll(pattern, 90.0).problems
    assert problem.code == "sheets.roll-too-narrow"


def test_a_sheet_longer_than_a_pdf_page_may_be_is_refused():
    train = Pattern("Train", (rectangle("train", "Train", 500.0, LONGEST),), (), (), ())
    (problem,) = plan_roll(train, 600.0, tries=0).problems
    assert problem.code == "sheets.too-long"


def test_without_a_width_the_page_grows_wider_rather_than_longer_than_a_page_may_be():
    """Sails that would take six metres of the usual roll."""
    sails = tuple(rectangle(f"s{n}", f"Sail {n}", 780.0, 1000.0) for n in range(6))
    gown = Pattern("Gown", sails, (), (), ())
    assert [p.code for p in plan_roll(gown, 841.0, tries=0).problems] == ["sheets.too-long"]
    plan = plan_roll(gown, tries=0)
    assert isinstance(plan, RollPlan), plan
    assert max(plan.width, plan.height) <= LONGEST
    assert max(a.bounds[2] for a in areas(plan, gown)) <= plan.width - MARGIN


def test_a_pattern_without_pieces_is_refused():
    (problem,) = plan_roll(Pattern("Nothing", (), (), (), ())).problems
    assert problem.code == "sheets.no-pieces"


def test_the_same_plan_gives_the_same_bytes(roll, pattern, info, written, tmp_path):
    again = tmp_path / "again.pdf"
    write_roll_pdf(roll, pattern, info, again)
    assert again.read_bytes() == written.read_bytes()


def test_the_least_width_of_a_sheet_is_just_enough(pattern):
    need, title = least_roll(pattern)
    assert title in {piece.title for piece in pattern.pieces}
    assert isinstance(plan_roll(pattern, need, tries=2), RollPlan)
    assert not isinstance(plan_roll(pattern, need - 3.0, tries=2), RollPlan)
