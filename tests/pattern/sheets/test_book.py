"""The PDF file itself: sizes, labels, marks, clipping, and bytes that depend on nothing but the content."""

import pikepdf
import pytest

from app.pattern.drawing import LineStyle
from app.pattern.geometry import Box, Path, Point
from app.pattern.sheets import PrintInfo
from app.pattern.sheets.book import Book
from tests.pattern.sheets.pdf_reading import PT, open_pdf

INFO = PrintInfo("Harbour dress", "K7F2Q", studio="Studio Fieldwork", language="en-GB")


def written(path, info=INFO):
    book = Book(path, info, "A test")
    for label, width in (("one", 210.0), ("two", 300.0)):
        pen = book.open_page(width, 297.0, label=label, marks=(f"mark {label}",))
        book.clip(Box(50.0, 50.0, 100.0, 100.0))
        pen.line(Path.through(Point(0.0, 75.0), Point(200.0, 75.0)), LineStyle.CUTTING)
        book.unclip()
        book.close_page()
    book.bookmark("First", "mark one", under=(("Second", "mark two"),))
    book.close()
    return path


def test_every_page_has_its_own_size_and_label(tmp_path):
    with pikepdf.open(written(tmp_path / "a.pdf")) as document:
        widths = [float(page.mediabox[2]) / PT for page in document.pages]
        assert widths == pytest.approx([210.0, 300.0], abs=0.01)
        assert [page.label for page in document.pages] == ["one", "two"]


def test_bookmarks_lead_to_marked_pages(tmp_path):
    with open_pdf(written(tmp_path / "a.pdf")) as document:
        marks = [(m.get_title(), m.level, m.get_dest().get_index()) for m in document.get_toc()]
    assert marks == [("First", 0, 0), ("Second", 1, 1)]


def test_what_is_clipped_is_not_seen(tmp_path):
    with open_pdf(written(tmp_path / "a.pdf")) as document:
        image = document[0].render(scale=2.0).to_pil().convert("L")
    dark = [x for x in range(image.width) if min(image.getpixel((x, y)) for y in range(image.height)) < 128]
    assert min(dark) / 2.0 / PT == pytest.approx(50.0, abs=0.5)
    assert max(dark) / 2.0 / PT == pytest.approx(100.0, abs=0.5)


def test_the_same_content_gives_the_same_bytes(tmp_path):
    assert written(tmp_path / "a.pdf").read_bytes() == written(tmp_path / "b.pdf").read_bytes()


def test_another_order_gives_other_bytes(tmp_path):
    other = PrintInfo("Harbour dress", "K7F2R")
    assert written(tmp_path / "a.pdf").read_bytes() != written(tmp_path / "b.pdf", other).read_bytes()


def test_the_language_is_that_of_the_order(tmp_path):
    with pikepdf.open(written(tmp_path / "a.pdf")) as document:
        assert str(document.Root.Lang) == "en-GB"


def test_nothing_is_on_disk_before_the_book_is_closed(tmp_path):
    path = tmp_path / "a.pdf"
    book = Book(path, INFO, "A test")
    book.open_page(210.0, 297.0, label="one")
    book.close_page()
    assert not path.exists()
    book.close()
    assert path.exists()


def test_a_title_without_an_order_stands_alone(tmp_path):
    with pikepdf.open(written(tmp_path / "a.pdf", PrintInfo("Harbour dress"))) as document:
        assert str(document.docinfo.Title) == "Harbour dress"
