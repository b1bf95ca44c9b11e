"""The demo drafts in two sizes, drawn and printed: what the hand-made pieces promise holds here too."""

import pytest
from shapely.geometry import LineString, Polygon

from app.pattern.body import size_body
from app.pattern.drawing import DrawingLook, LineStyle, RecordPen, piece_marks, piece_svg, preview_svg, replay, seam_svg
from app.pattern.drawing.record import Lined, Said, text_corners
from app.pattern.make import Made, make_pattern
from app.pattern.sheets import PAPERS, PrintInfo, plan_roll, plan_sheets, write_tiled_pdf
from app.pattern.units import Unit
from tests.pattern.sheets.pdf_reading import open_pdf, words_of
from tests.places import DRAFT_FILES

SIZES = ("84", "104")
INFO = PrintInfo("Demo", "K7F2Q", "Marit")


@pytest.fixture(
    scope="module", params=[(d, s) for d in DRAFT_FILES for s in SIZES], ids=lambda p: f"{p[0].stem}-{p[1]}"
)
def made(request):
    draft, size = request.param
    result = make_pattern(draft.read_text(encoding="utf-8"), draft.name, size_body(size, stature=1680.0), {})
    assert isinstance(result, Made)
    return result.pattern


@pytest.fixture(scope="module")
def plan(made):
    return plan_sheets(made, PAPERS["a4"], tries=2)


def drawn(piece, pattern):
    pen = RecordPen()
    look = DrawingLook("Demo", "K7F2Q", "Marit", {f.name: f.title for f in pattern.fabrics})
    replay(piece_marks(piece, look), pen)
    return pen


def test_no_words_lie_over_the_grain_or_across_the_cutting_line(made):
    for piece in made.pieces:
        grain = LineString([piece.grain.start, piece.grain.end])
        outline = LineString(piece.cutting.flatten(0.05))
        for mark in drawn(piece, made).marks:
            if isinstance(mark, Said) and mark.lettering.size > 3.5:
                corners = Polygon(text_corners(mark.at, mark.words, mark.lettering))
                assert not grain.intersects(corners)
                assert not outline.intersects(corners)


def test_every_notch_stays_inside_the_allowance(made):
    for piece in made.pieces:
        cutting = Polygon(piece.cutting.flatten(0.02))
        for tick in drawn(piece, made).lines(LineStyle.NOTCH):
            assert cutting.buffer(0.05).contains(LineString([tick.start, tick.end]))
            assert tick.length <= 8.0 + 1e-6


def test_every_piece_is_titled_once(made):
    for piece in made.pieces:
        assert drawn(piece, made).words().count(piece.title) == 1


def test_a_piece_on_the_fold_shows_its_fold(made):
    for piece in made.pieces:
        fine = [m.path for m in drawn(piece, made).marks if isinstance(m, Lined) and m.style is LineStyle.BRACKET]
        # An arrow over a pleat is a fine line too, but a single one; a bracket has three sides.
        assert any(len(path.segments) == 3 for path in fine) == (piece.fold_edge is not None)


def test_the_plan_takes_fewer_sheets_than_a_row(plan):
    assert len(plan.sheets) < 0.88 * plan.in_a_row


def test_pieces_do_not_overlap_on_the_wall(made, plan):
    areas = [Polygon(made.piece(p.piece).cutting.transformed(p.transform).flatten(0.05)) for p in plan.placed]
    for index, area in enumerate(areas):
        assert all(area.distance(other) > 2.0 for other in areas[index + 1 :])


def test_the_file_is_small_whole_and_the_same_twice(made, plan, tmp_path):
    one, two = tmp_path / "one.pdf", tmp_path / "two.pdf"
    for path in (one, two):
        assert write_tiled_pdf(plan, made, INFO, path) == ()
    assert one.read_bytes() == two.read_bytes()
    assert one.stat().st_size < 1_000_000
    with open_pdf(one) as document:
        assert len(document) == 1 + len(plan.sheets)
        words = words_of(document[0])
    assert all(piece.title in words for piece in made.pieces)


def test_the_roll_holds_every_piece(made):
    plan = plan_roll(made, 914.0, tries=0)
    assert [p.piece for p in plan.placed] == [p.name for p in made.pieces]


def test_all_pictures_can_be_drawn(made):
    assert preview_svg(made, Unit.INCH).count('class="piece"') == len(made.pieces)
    assert all("line-highlight" in seam_svg(made, seam) for seam in made.seams)
    assert all("fill-piece" in piece_svg(piece) for piece in made.pieces)
