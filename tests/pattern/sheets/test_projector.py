"""The projector file: true to scale, without margins, grain along the page, pieces apart, a grid to switch."""

import pikepdf
import pytest

from app.pattern.drawing import GREY, Lines, LineStyle
from app.pattern.pieces.model import Pattern
from app.pattern.problem import Place
from app.pattern.sheets import PrintInfo, PrintStyle, ProjectorPlan, plan_projector, write_projector_pdf
from app.pattern.sheets.projector import APART, PROJECTOR
from app.pattern.sheets.roll import LONGEST
from app.pattern.units import Unit
from tests.pattern.drawing.hand_pieces import rectangle
from tests.pattern.sheets.pdf_reading import PT, open_pdf, paths_of, words_of

INFO = PrintInfo("Harbour dress", "K7F2Q")
STRONG = PROJECTOR.strokes[LineStyle.CUTTING]


def project(pattern, path, info=INFO, style=None):
    plan = plan_projector(pattern, info, style)
    assert isinstance(plan, ProjectorPlan), plan
    return write_projector_pdf(plan, pattern, info, path)


@pytest.fixture(scope="module")
def written(pattern, tmp_path_factory):
    path = tmp_path_factory.mktemp("projector") / "projector.pdf"
    assert project(pattern, path) == ()
    return path


def cutting_boxes(path):
    with open_pdf(path) as document:
        return [p.box for p in paths_of(document[0]) if abs(p.width - STRONG.width) < 0.01 and p.grey == 0]


def test_it_is_one_page_of_whole_squares(written):
    with open_pdf(written) as document:
        assert len(document) == 1
        width, height = (side / PT for side in document[0].get_size())
    for side in (width, height):
        assert side == pytest.approx(100.0 * round(side / 100.0), abs=0.01)
    assert 0.8 < width / height < 3.2


def test_lines_are_black_and_at_least_three_times_as_strong_as_on_paper():
    assert STRONG.shade == 1.0
    assert STRONG.width >= 3.0 * GREY.strokes[LineStyle.CUTTING].width - 1e-9


def test_pieces_are_true_to_scale_and_lie_well_apart(written):
    boxes = cutting_boxes(written)
    sides = [tuple(sorted((x1 - x0, y1 - y0))) for x0, y0, x1, y1 in boxes]
    band = (62.0 + 20.0, 700.0 + 20.0)
    assert any(side == pytest.approx(band, abs=0.05) for side in sides)
    for index, a in enumerate(boxes):
        for b in boxes[index + 1 :]:
            apart = max(a[0] - b[2], b[0] - a[2], a[1] - b[3], b[1] - a[3])
            assert apart > APART - 5.0  # boxes are of the curves' handles


def test_every_grain_line_runs_along_the_page(tmp_path):
    upright = Pattern("One", (rectangle("one", "One", 200.0, 600.0),), (), (), ())
    path = tmp_path / "one.pdf"
    project(upright, path)
    (box,) = cutting_boxes(path)
    assert box[2] - box[0] == pytest.approx(620.0, abs=0.05)
    assert box[3] - box[1] == pytest.approx(220.0, abs=0.05)


def test_the_grid_covers_the_page_to_its_edges_and_can_be_switched(written):
    with pikepdf.open(written) as document:
        assert [str(group.Name) for group in document.Root.OCProperties.OCGs] == ["Grid", "Pieces", "Words"]
    with open_pdf(written) as document:
        width, height = (side / PT for side in document[0].get_size())
        upright = [p.box for p in paths_of(document[0]) if p.box[2] - p.box[0] < 0.01 and p.box[3] - p.box[1] > 500.0]
    assert {round(box[0]) for box in upright} >= {round(100.0 * n) for n in range(round(width / 100.0) + 1)}
    assert all(box[1] == pytest.approx(0.0, abs=0.01) for box in upright if box[0] % 100.0 < 0.01)
    assert height > 0.0


def test_inches_get_a_grid_of_four_inches(pattern, tmp_path):
    path = tmp_path / "inches.pdf"
    project(pattern, path, PrintInfo("Harbour dress", unit=Unit.INCH))
    with open_pdf(path) as document:
        assert "squares of 4 in and a strong line every 20 in" in plain(document[0])
        width, _ = (side / PT for side in document[0].get_size())
    assert width / 101.6 == pytest.approx(round(width / 101.6), abs=1e-3)


def test_it_can_leave_out_the_stitching_lines_and_is_the_same_twice(pattern, written, tmp_path):
    bare, again = tmp_path / "bare.pdf", tmp_path / "again.pdf"
    project(pattern, bare, style=PrintStyle(Lines.CUTTING))
    project(pattern, again)
    assert again.read_bytes() == written.read_bytes()
    assert bare.stat().st_size < written.stat().st_size < 1_000_000


def plain(page):
    return " ".join(words_of(page).split())


def test_the_grids_lines_are_whole_squares_apart_from_middle_to_middle_as_its_words_say(written):
    strokes = [PROJECTOR.strokes[style].width for style in (LineStyle.FURNITURE, LineStyle.JOINT)]
    with open_pdf(written) as document:
        words = plain(document[0])
        lines = [p.box for p in paths_of(document[0]) if any(abs(p.width - width) < 1e-3 for width in strokes)]
    assert (
        "squares of 10 cm and a strong line every 50 cm, from the middle of one line to the middle of the next" in words
    )
    upright = sorted(box[0] for box in lines if box[2] - box[0] < 1e-3 and box[3] - box[1] > 400.0)
    level = sorted(box[1] for box in lines if box[3] - box[1] < 1e-3 and box[2] - box[0] > 400.0)
    for places in (upright, level):
        assert places == pytest.approx([100.0 * number for number in range(len(places))], abs=0.001)
        assert len(places) > 5


def test_the_file_carries_the_cautions_for_a_projector_and_defers_to_its_handbook(written):
    with open_pdf(written) as document:
        words = plain(document[0])
    for caution in ("Never look into the lens or the beam", "nobody trips over them", "after each bump"):
        assert caution in words
    assert "the maker's handbook" in words


@pytest.mark.parametrize("unit", list(Unit))
@pytest.mark.parametrize("side", [20.0, 400.0, 3000.0])
def test_the_words_keep_to_the_band_under_the_pieces_however_small_the_page(side, unit, tmp_path):
    path, one = tmp_path / "one.pdf", Pattern("One", (rectangle("one", "One", side, side),), (), (), ())
    project(one, path, PrintInfo("One", unit=unit))
    with open_pdf(path) as document:
        page = document[0]
        text = page.get_textpage()
        boxes = [tuple(n / PT for n in text.get_rect(number)) for number in range(text.count_rects())]
        text.close()
        width = page.get_width() / PT
        assert "the maker's handbook." in plain(page)
    low = [box for box in boxes if box[3] <= APART]
    assert len(low) >= 2
    assert all(box[0] >= 5.0 and box[2] <= width - 5.0 and box[1] >= 3.0 for box in low)


def test_no_pieces_and_a_piece_longer_than_a_page_are_told_with_the_piece_and_what_to_use(tmp_path):
    (none,) = plan_projector(Pattern("None", (), (), (), ()), INFO).problems
    sail = Pattern("Sail", (rectangle("sail", "Sail", 900.0, 6000.0),), (), (), ())
    (large,) = plan_projector(sail, INFO).problems
    (inches,) = plan_projector(sail, PrintInfo("Sail", unit=Unit.INCH)).problems
    assert (none.code, large.code) == ("sheets.no-pieces", "sheets.too-long")
    assert "the piece “Sail” is 602 cm long, and its page holds 500 cm" in large.message
    assert "237 in long, and its page holds 200 in" in inches.message
    assert "Use the sheets" in large.fix
    assert large.where.piece == "sail"


def test_pieces_that_go_on_a_page_in_some_shape_are_not_refused_for_the_usual_shape():
    """Long strips: three abreast, in the shape nearest to a projector's picture, are wider than a page may be."""
    strips = tuple(rectangle(f"s{n}", f"Strip {n}", 320.0, 2320.0) for n in range(24))
    plan = plan_projector(Pattern("Strips", strips, (), (), ()), INFO)
    assert isinstance(plan, ProjectorPlan), plan
    assert max(plan.width, plan.height) <= LONGEST


def test_pieces_too_many_for_one_page_are_told_together():
    sails = tuple(rectangle(f"s{n}", f"Sail {n}", 2200.0, 2200.0) for n in range(6))
    (many,) = plan_projector(Pattern("Sails", sails, (), (), ()), INFO).problems
    assert "the pieces spread over" in many.message
    assert many.where == Place(point="projector")
