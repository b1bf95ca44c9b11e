"""The projector file: true to scale, without margins, grain along the page, pieces apart, a grid to switch."""

import pikepdf
import pytest

from app.pattern.drawing import GREY, Lines, LineStyle
from app.pattern.pieces.model import Pattern
from app.pattern.sheets import PrintInfo, PrintStyle, write_projector_pdf
from app.pattern.sheets.projector import APART, PROJECTOR
from app.pattern.units import Unit
from tests.pattern.drawing.hand_pieces import rectangle
from tests.pattern.sheets.pdf_reading import PT, open_pdf, paths_of, words_of

INFO = PrintInfo("Harbour dress", "K7F2Q")
STRONG = PROJECTOR.strokes[LineStyle.CUTTING]


@pytest.fixture(scope="module")
def written(pattern, tmp_path_factory):
    path = tmp_path_factory.mktemp("projector") / "projector.pdf"
    assert write_projector_pdf(pattern, INFO, path) == ()
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
    write_projector_pdf(upright, INFO, path)
    (box,) = cutting_boxes(path)
    assert box[2] - box[0] == pytest.approx(620.0, abs=0.05)
    assert box[3] - box[1] == pytest.approx(220.0, abs=0.05)


def test_the_grid_covers_the_page_to_its_edges_and_can_be_switched(written):
    with pikepdf.open(written) as document:
        assert [str(group.Name) for group in document.Root.OCProperties.OCGs] == ["Grid", "Pieces"]
    with open_pdf(written) as document:
        width, height = (side / PT for side in document[0].get_size())
        upright = [p.box for p in paths_of(document[0]) if p.box[2] - p.box[0] < 0.01 and p.box[3] - p.box[1] > 500.0]
    assert {round(box[0]) for box in upright} >= {round(100.0 * n) for n in range(round(width / 100.0) + 1)}
    assert all(box[1] == pytest.approx(0.0, abs=0.01) for box in upright if box[0] % 100.0 < 0.01)
    assert height > 0.0


def test_inches_get_a_grid_of_four_inches(pattern, tmp_path):
    path = tmp_path / "inches.pdf"
    write_projector_pdf(pattern, PrintInfo("Harbour dress", unit=Unit.INCH), path)
    with open_pdf(path) as document:
        assert "squares of 4 in" in words_of(document[0])
        width, _ = (side / PT for side in document[0].get_size())
    assert width / 101.6 == pytest.approx(round(width / 101.6), abs=1e-3)


def test_it_can_leave_out_the_stitching_lines_and_is_the_same_twice(pattern, written, tmp_path):
    bare, again = tmp_path / "bare.pdf", tmp_path / "again.pdf"
    write_projector_pdf(pattern, INFO, bare, style=PrintStyle(Lines.CUTTING))
    write_projector_pdf(pattern, INFO, again)
    assert again.read_bytes() == written.read_bytes()
    assert bare.stat().st_size < written.stat().st_size < 1_000_000


def test_nothing_is_written_for_no_pieces_or_for_one_too_large(tmp_path):
    path = tmp_path / "none.pdf"
    (none,) = write_projector_pdf(Pattern("None", (), (), (), ()), INFO, path)
    (large,) = write_projector_pdf(Pattern("Sail", (rectangle("sail", "Sail", 900.0, 6000.0),), (), (), ()), INFO, path)
    assert (none.code, large.code) == ("sheets.no-pieces", "sheets.too-long")
    assert not path.exists()
