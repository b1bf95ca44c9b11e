"""How the instruction sheet falls on its pages: pictures stay with their steps, headings with what they head."""

import re

import pypdfium2
import pytest
import shapely

from app.packs.instructions import SheetFor, instruction_pdf, instruction_sheet
from app.pattern.units import Unit


def pages_of(pdf: bytes) -> list[str]:
    """The words of each page, with plain single spaces."""
    document = pypdfium2.PdfDocument(pdf)
    pages = [page.get_textpage().get_text_bounded() for page in document]
    document.close()
    return [re.sub(r"\s+", " ", page.replace("\u00a0", " ")) for page in pages]


def boxes_of(pdf: bytes) -> list[list[shapely.Polygon]]:
    """The boxes of the lines of words on each page, each less a hair all round."""
    document = pypdfium2.PdfDocument(pdf)
    texts = [page.get_textpage() for page in document]
    boxes = [[shapely.box(*text.get_rect(n)).buffer(-1.2) for n in range(text.count_rects())] for text in texts]
    document.close()
    return boxes


@pytest.fixture(scope="module", params=[("a4", Unit.CM), ("letter", Unit.INCH)], ids=["a4", "letter"])
def printed(request, blouse):
    """The blouse's sheet and the words of its pages."""
    paper, unit = request.param
    to = SheetFor("Saltmarsh blouse", "Imke Falk", "Hollow Lane Studio", "TL-0042", unit, paper)
    sheet = instruction_sheet(blouse, {}, to)
    pdf = instruction_pdf(sheet)
    return sheet, pages_of(pdf), boxes_of(pdf)


def page_with(pages: list[str], words: str) -> int:
    """The first page on which words stand."""
    plain = re.sub(r"\s+", " ", words)
    return next(number for number, page in enumerate(pages) if plain in page)


def test_a_steps_pictures_stand_on_the_page_of_its_heading(printed):
    sheet, pages, _ = printed
    for step in sheet.steps:
        heading = page_with(pages, f"{step.number} {step.title}")
        for picture in step.pictures:
            assert picture.caption.split(":")[0][:40] in pages[heading]


def test_a_heading_is_never_the_last_thing_on_a_page(printed):
    sheet, pages, _ = printed
    titles = ["What to buy", "What to cut", "Before you begin", "Making", "Finishing and care"]
    for page in pages:
        body = page.removesuffix(page[page.rfind("Hollow Lane Studio") :]).strip()
        assert not any(body.endswith(title) for title in [*titles, *(step.title for step in sheet.steps)])


def test_every_page_but_the_first_says_whose_it_is_and_which_page(printed):
    _, pages, _ = printed
    assert len(pages) >= 4
    for number, page in enumerate(pages, start=1):
        assert f"{number} of {len(pages)}" in page
        assert "Hollow Lane Studio" in page
        assert "Made for Imke Falk · Order TL-0042" in page


def test_the_chapters_come_in_the_order_of_the_work(printed):
    _, pages, _ = printed
    chapters = ("Made to these measurements", "What to buy", "What to cut", "Before you begin", "Take care", "Making")
    order = [page_with(pages, chapter) for chapter in chapters]
    assert order == sorted(order)
    assert page_with(pages, "Finishing and care") >= order[-1]


def test_no_words_are_printed_over_others(printed):
    _, _, pages = printed
    for number, boxes in enumerate(pages, start=1):
        tree = shapely.STRtree(boxes)
        over = [(a, b) for a, b in tree.query(boxes, predicate="intersects").T if a < b]
        assert not over, f"page {number}: {[(boxes[a].bounds, boxes[b].bounds) for a, b in over]}"
