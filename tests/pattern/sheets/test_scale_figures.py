"""The squares and bars that prove the scale, measured as a person does: from outer edge to outer edge of the ink."""

from dataclasses import replace
from math import pi

import numpy as np
import pytest

from app.pattern.drawing import GREY, LineStyle, RecordPen
from app.pattern.drawing.record import Said
from app.pattern.geometry import Box
from app.pattern.pieces.model import Pattern
from app.pattern.sheets import (
    LEAST_PRINTABLE,
    PAPERS,
    Paper,
    nest_of,
    paper_of,
    plan_artwork,
    plan_roll,
    plan_sheets,
    write_roll_pdf,
    write_tiled_artwork,
    write_tiled_pdf,
)
from app.pattern.sheets.scale_figures import (
    BAR_DEEP,
    bar_length,
    draw_bar_across,
    draw_bar_down,
    draw_check_squares,
    readings,
    squares_wide,
)
from app.pattern.units import Unit
from tests.pattern.drawing.hand_pieces import rectangle
from tests.pattern.sheets.pdf_reading import PT, open_pdf, paths_of, words_of

RULER = GREY.strokes[LineStyle.RULER]
#: What a person may find off, edge to edge, mm.
TRUE = 0.02
#: Dots per millimetre of the picture that is measured: 1/100 mm each.
DOTS = 100.0
#: The smallest paper that is taken, and two between which no size of ours lies.
OTHERS = ("190x245mm", "240x330mm", "9x12in")


def paper(name):
    return PAPERS.get(name) or paper_of(name)


def frames(page):
    """The outer edges of every figure of the scale on a page, by what they are."""
    found = [Box(*p.ink) for p in paths_of(page) if abs(p.width - RULER.width) < 1e-3 and len(p.points) > 3]
    return {
        "squares": [b for b in found if b.width > 40.0 and b.height > 40.0],
        "across": [b for b in found if b.height < 10.0],
        "down": [b for b in found if b.width < 10.0],
    }


def ink_along(page, box, across):
    """From the first dark dot to the last along a frame's middle, mm, as PDFium draws it."""
    width, height = (side / PT for side in page.get_size())
    beyond, thin = 0.6, 0.2
    x, y = (box.left + box.right) / 2.0, (box.bottom + box.top) / 2.0
    if across:
        left, right, low, high = box.left - beyond, box.right + beyond, y, y + thin
    else:
        left, right, low, high = x, x + thin, box.bottom - beyond, box.top + beyond
    crop = (left * PT, low * PT, (width - right) * PT, (height - high) * PT)
    image = page.render(scale=DOTS / PT, crop=crop, grayscale=True).to_numpy()
    dark = np.flatnonzero(image.min(axis=0 if across else 1) < 128)
    return (dark[-1] - dark[0] + 1) / DOTS


def assert_true(page, box, wide, high):
    """A frame's outer edges are so far apart by its path, and by its ink."""
    assert (box.width, box.height) == pytest.approx((wide, high), abs=TRUE)
    assert ink_along(page, box, across=True) == pytest.approx(wide, abs=TRUE)
    assert ink_along(page, box, across=False) == pytest.approx(high, abs=TRUE)


@pytest.mark.parametrize("unit", list(Unit))
@pytest.mark.parametrize("name", ["a4", "letter", "a3", "legal", "tabloid", *OTHERS])
def test_on_every_paper_squares_and_bars_are_true_from_outer_edge_to_outer_edge(name, unit, pattern, info, tmp_path):
    path, told = tmp_path / "sheets.pdf", replace(info, unit=unit)
    write_tiled_pdf(plan_sheets(pattern, paper(name), tries=0), pattern, told, path)
    long_bar = bar_length(paper(name).upright.printable[1], unit)
    with open_pdf(path) as document:
        page = document[0]
        found = frames(page)
        (across,), (down,) = found["across"], found["down"]
        assert_true(page, across, 100.0 if unit is Unit.CM else 101.6, BAR_DEEP)
        assert_true(page, down, BAR_DEEP, long_bar)
        for square in found["squares"]:
            side = min((50.0, 50.8), key=lambda true: abs(true - square.width))
            assert_true(page, square, side, side)
        assert found["squares"]
        words = " ".join(words_of(page).split())
    assert "from outer edge to outer edge" in words
    assert long_bar >= 200.0


def test_the_one_sheets_figures_are_true_in_both_directions(pattern, info, tmp_path):
    bag, path = Pattern("Bag", (rectangle("bag", "Bag", 90, 90),), (), (), ()), tmp_path / "roll.pdf"
    for made, width, long_bar in ((pattern, None, 300.0), (pattern, 610.0, 300.0), (bag, 275.0, 200.0)):
        write_roll_pdf(plan_roll(made, width, tries=0), made, info, path)
        with open_pdf(path) as document:
            page = document[0]
            found = frames(page)
            assert_true(page, found["across"][0], long_bar, BAR_DEEP)
            assert_true(page, found["down"][0], BAR_DEEP, 100.0)
            for square, side in zip(found["squares"], (50.0, 50.8), strict=True):
                assert_true(page, square, side, side)


def test_the_first_page_of_graded_sizes_has_the_same_true_figures(pattern, info, tmp_path):
    nest, path = nest_of({"84": pattern, "92": pattern}, info), tmp_path / "sizes.pdf"
    write_tiled_artwork(plan_artwork(nest, PAPERS["a4"], tries=0), nest, info, path)
    with open_pdf(path) as document:
        found = frames(document[0])
        assert_true(document[0], found["down"][0], BAR_DEEP, 200.0)
        assert_true(document[0], found["squares"][0], 50.0, 50.0)


@pytest.mark.parametrize("unit", list(Unit))
def test_no_ink_of_a_figure_lies_beyond_the_edges_that_are_measured(unit):
    """Ticks begin inside: their round ends would stick out of the edge."""
    half = RULER.width / 2.0
    for draw, wide, high in (
        (lambda pen: draw_check_squares(pen, 0.0, 60.0, (unit,)), squares_wide((unit,)), squares_wide((unit,))),
        (lambda pen: draw_bar_across(pen, 0.0, 60.0, bar_length(250.0, unit), unit), bar_length(250.0, unit), BAR_DEEP),
        (lambda pen: draw_bar_down(pen, 0.0, 60.0, bar_length(250.0, unit), unit), BAR_DEEP, bar_length(250.0, unit)),
    ):
        pen = RecordPen()
        draw(pen)
        boxes = [path.bounds for path in pen.lines(LineStyle.RULER)]
        assert min(b.left for b in boxes) - half == pytest.approx(0.0)
        assert max(b.right for b in boxes) + half == pytest.approx(wide)
        assert max(b.top for b in boxes) + half == pytest.approx(60.0)
        assert min(b.bottom for b in boxes) - half == pytest.approx(60.0 - high)


@pytest.mark.parametrize("unit", list(Unit))
def test_a_bars_ticks_and_figures_stand_where_they_say(unit):
    pen, length = RecordPen(), bar_length(250.0, unit)
    draw_bar_across(pen, 0.0, 0.0, length, unit)
    mm = 10.0 if unit is Unit.CM else 25.4
    figures = {m.words: m.at.x for m in pen.marks if isinstance(m, Said) and m.words.isdigit()}
    assert figures == {words: pytest.approx(int(words) * mm) for words in figures}
    assert len(figures) == 3
    ticks = [path.bounds.left for path in pen.lines(LineStyle.RULER) if not path.closed]
    steps = np.diff([0.0, *ticks, length])
    assert steps == pytest.approx([10.0 if unit is Unit.CM else 12.7] * len(steps))


def test_a_bar_down_the_page_reads_from_below_and_stays_in_its_own_room():
    pen = RecordPen()
    draw_bar_down(pen, 40.0, 250.0, 200.0, Unit.CM)
    assert {round(m.lettering.angle, 6) for m in pen.marks if isinstance(m, Said)} == {round(pi / 2.0, 6)}
    for mark in pen.marks:
        assert mark.bounds.left >= 40.0 - 1e-6
        assert mark.bounds.right <= 40.0 + BAR_DEEP + 1e-6
        assert mark.bounds.bottom >= 50.0 - 1e-6
        assert mark.bounds.top <= 250.0 + 1e-6


def test_bars_are_as_long_as_the_room_and_no_longer_than_a_ruler():
    assert [bar_length(room, Unit.CM) for room in (90.0, 150.0, 277.0, 400.0, 2000.0)] == [100, 100, 200, 300, 300]
    assert [bar_length(room, Unit.INCH) / 25.4 for room in (150.0, 259.4, 400.0)] == pytest.approx([4, 8, 12])


def test_the_table_tells_the_scale_of_what_was_measured_and_the_one_that_mends_it():
    told = [(row.measured, row.printed, row.mend) for row in readings(200.0, Unit.CM)]
    assert told == [
        ("18.8 cm", "94 %", "106 %"),
        ("19.4 cm", "97 %", "103 %"),
        ("19.8 cm", "99 %", "101 %"),
        ("20.6 cm", "103 %", "97 %"),
    ]
    # 7 3/4 of 8 inches are 96.9 per cent.
    assert [row.measured for row in readings(8 * 25.4, Unit.INCH)] == ["7 1/2 in", "7 3/4 in", "7 7/8 in", "8 1/4 in"]
    assert [row.printed for row in readings(8 * 25.4, Unit.INCH)] == ["94 %", "97 %", "98 %", "103 %"]


def test_the_table_is_printed_under_the_squares(tiled):
    with open_pdf(tiled) as document:
        words = " ".join(words_of(document[0]).split())
    assert "If the long bar measures 18.8 cm 19.4 cm 19.8 cm 20.6 cm" in words
    assert "it was printed at 94 % 97 % 99 % 103 %" in words


def text_boxes(page):
    """The box of every line of words on a page, mm."""
    text = page.get_textpage()
    boxes = [tuple(n / PT for n in text.get_rect(i)) for i in range(text.count_rects())]
    text.close()
    return boxes


@pytest.mark.parametrize("unit", list(Unit))
@pytest.mark.parametrize("sizes", [1, 6, 12])
def test_on_the_smallest_paper_the_words_of_the_first_page_keep_apart_and_can_be_read(
    sizes, unit, pattern, info, tmp_path
):
    least = Paper("least", "190 × 245 mm", LEAST_PRINTABLE[0] + 20.0, LEAST_PRINTABLE[1] + 20.0)
    nest = nest_of({str(80 + 4 * n): pattern for n in range(sizes)}, info)
    path = tmp_path / "least.pdf"
    write_tiled_artwork(plan_artwork(nest, least, tries=0), nest, replace(info, unit=unit), path)
    with open_pdf(path) as document:
        boxes = text_boxes(document[0])
    for number, (left, bottom, right, top) in enumerate(boxes):
        assert max(right - left, top - bottom) > 1.0
        assert left >= least.margin - 0.5
        assert right <= least.width - least.margin + 0.5
        assert bottom >= least.margin - 1.0
        assert top <= least.height - least.margin + 0.5
        for other in boxes[number + 1 :]:
            wide = min(right, other[2]) - max(left, other[0])
            high = min(top, other[3]) - max(bottom, other[1])
            assert wide < 0.3 or high < 0.5, (boxes[number], other)
