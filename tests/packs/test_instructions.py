"""The instruction sheet: the customer's own figures, beside the pictures they belong to, in her unit."""

import io
import logging
import re
from dataclasses import replace
from math import hypot

import pikepdf
import pypdfium2
import pytest
from pypdfium2 import raw

from app.packs.instructions import (
    SheetFor,
    instruction_html,
    instruction_pdf,
    instruction_sheet,
)
from app.pattern.drawing import Lines
from app.pattern.pieces.model import StepText
from app.pattern.units import Unit, show_length

TO = SheetFor("Fernhill skirt", "Imke Falk", "Hollow Lane Studio", "TL-0042", Unit.CM, "a4")


@pytest.fixture(scope="module")
def sheet(skirt, lays):
    return instruction_sheet(skirt, lays, TO)


@pytest.fixture(scope="module")
def pdf(sheet):
    return instruction_pdf(sheet)


def words_of(pdf: bytes) -> str:
    """All the words of a PDF, page by page, with plain spaces."""
    document = pypdfium2.PdfDocument(pdf)
    pages = [page.get_textpage().get_text_bounded() for page in document]
    document.close()
    return re.sub(r"\s+", " ", "\n".join(pages).replace("\u00a0", " "))


def test_it_carries_every_measurement_used_in_the_customers_unit(sheet):
    assert [(f.title, f.value) for f in sheet.measurements][:2] == [("Waist girth", "76 cm"), ("Hip girth", "101 cm")]


def test_it_carries_every_choice_as_she_made_it(sheet):
    assert ("Length below the waistband", "62 cm") in [(f.title, f.value) for f in sheet.choices]


@pytest.mark.parametrize(("value", "words"), [(True, "yes"), (False, "no"), ("bell_shaped", "bell shaped")])
def test_options_and_yes_or_no_are_words(skirt, lays, value, words):
    choices = {**skirt.choices, "length": value}
    choice = next(
        f for f in instruction_sheet(replace(skirt, choices=choices), lays, TO).choices if "Length" in f.title
    )
    assert choice.value == words


@pytest.mark.parametrize(("unit", "mm", "step"), [(Unit.CM, 10.0, 0.1), (Unit.INCH, 25.4, 0.125)])
def test_body_and_garment_are_true_to_half_the_least_step_and_the_ease_lies_between_them(skirt, lays, unit, mm, step):
    girths = tuple(replace(g, body=g.body + 0.37, measured=g.measured + 0.61) for g in skirt.pattern.girths[:2])
    odd = replace(skirt, pattern=replace(skirt.pattern, girths=girths))
    for girth, row in zip(girths, instruction_sheet(odd, lays, replace(TO, unit=unit)).sizes, strict=True):
        assert eighths(row.body) == pytest.approx(girth.body / mm, abs=step / 2 + 1e-9)
        assert eighths(row.body) + eighths(row.ease) == pytest.approx(eighths(row.garment), abs=1e-9)
        assert eighths(row.garment) == pytest.approx(girth.measured / mm, abs=step / 2 + 1e-9)


def eighths(words: str) -> float:
    """The number that `38 1/2` or `96.5` is."""
    total = 0.0
    for part in words.split():
        over, _, under = part.partition("/")
        total += float(over) / float(under) if under else float(over)
    return total


def test_it_says_what_to_buy(sheet, lays):
    main = sheet.cloths[0]
    assert main.title == "Skirt cloth"
    assert main.width == "140 cm"
    assert main.buy == f"{lays['main'].buy / 1000:.2f} m"
    assert "3% added for shrinking" in main.how
    assert [row.title for row in sheet.notions][1] == "Trouser hook and bar"


def test_every_piece_has_a_card_with_its_picture_and_every_cloth_a_lay_picture(sheet, skirt, lays):
    assert [card.title for card in sheet.pieces] == [piece.title for piece in skirt.pattern.pieces]
    assert all(card.picture.startswith("<svg") for card in sheet.pieces)
    assert sheet.pieces[2].cuts == (("Skirt cloth", "Cut 1"), ("Interfacing", "Cut 1"))
    assert len(sheet.lays) == len(lays)


def test_steps_are_numbered_and_carry_her_figures_and_the_pictures_of_their_seams(sheet, skirt):
    assert [step.number for step in sheet.steps] == list(range(1, len(skirt.pattern.steps) + 1))
    join = sheet.steps[1]
    (picture,) = join.pictures
    length = show_length(skirt.pattern.piece("centre").edge("panel_seam").path.length, Unit.CM)
    assert picture.svg.startswith("<svg")
    assert length in picture.caption
    assert length in join.text.replace("\u00a0", " ")


def test_seams_that_no_step_shows_are_listed_at_the_end(skirt, lays):
    bare = replace(skirt, pattern=replace(skirt.pattern, steps=(StepText("Sew", "Sew it all."),)))
    sheet = instruction_sheet(bare, lays, TO)
    assert len(sheet.other_seams) == len(skirt.pattern.seams)
    assert "Seams not pictured above" in instruction_html(sheet)


def test_a_name_with_markup_in_it_is_printed_as_it_is_typed(skirt, lays):
    sly = replace(TO, customer="<b>Imke</b> & Co", title="Skirt <script>")
    html = instruction_html(instruction_sheet(skirt, lays, sly))
    assert "<script>" not in html
    assert "&lt;b&gt;Imke&lt;/b&gt; &amp; Co" in html


def test_markup_in_a_step_is_printed_as_it_is_typed(skirt, lays):
    step = StepText("Press <i>", 'Press <img src="file:///etc/passwd"> it.')
    html = instruction_html(instruction_sheet(replace(skirt, pattern=replace(skirt.pattern, steps=(step,))), lays, TO))
    assert '<img src="file' not in html
    assert "Press &lt;i&gt;" in html


def test_no_line_breaks_between_a_figure_and_its_unit(sheet):
    html = instruction_html(sheet)
    assert "62\u00a0cm" in html
    assert not re.search(r"\d (cm|mm)\b", html)


def test_the_printed_sheet_holds_the_figures_and_the_running_title(pdf):
    words = words_of(pdf)
    for expected in ("Made for Imke Falk", "Order TL-0042", "76 cm", "What to buy", "Take care", "Join the gores"):
        assert expected in words
    assert "2 of " in words


def test_inches_reach_every_figure(skirt, lays):
    words = words_of(instruction_pdf(instruction_sheet(skirt, lays, replace(TO, unit=Unit.INCH, paper="letter"))))
    assert "29 7/8 in" in words
    assert " yd" in words


def test_the_file_has_title_language_author_and_its_paper(pdf):
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        assert str(opened.docinfo["/Title"]) == "Fernhill skirt: instructions, order TL-0042"
        assert str(opened.docinfo["/Author"]) == "Hollow Lane Studio"
        assert str(opened.Root["/Lang"]) == "en"
        assert [float(n) for n in opened.pages[0]["/MediaBox"]][2:] == pytest.approx((595.28, 841.89), abs=0.01)


def test_every_picture_has_words_for_those_who_cannot_see_it(sheet, caplog):
    with caplog.at_level(logging.WARNING, logger="weasyprint"):
        pdf = instruction_pdf(sheet)
    assert caplog.records == []
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        figures = [node for node in opened.objects if is_figure(node)]
        assert len(figures) >= len(sheet.pieces) + len(sheet.lays) + 1
        assert all(str(figure["/Alt"]) for figure in figures)


def is_figure(node) -> bool:
    """True for a structure element that stands for a picture."""
    return isinstance(node, pikepdf.Dictionary) and node.get("/S") == "/Figure"


def test_equal_sheets_are_equal_bytes(sheet, pdf):
    assert instruction_pdf(sheet) == pdf


def test_an_order_without_a_customers_name_or_number_prints_no_empty_labels(skirt, lays):
    bare = replace(TO, customer="", order_number="")
    html = instruction_html(instruction_sheet(skirt, lays, bare))
    assert "Made for" not in html
    assert "Order " not in html


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        (Lines.BOTH, "cut on the solid outer line, sew on the broken line inside it"),
        (Lines.CUTTING, "cut on the line, and sew inside it by the width of the allowance"),
        (Lines.STITCHING, "They are not on the pieces"),
    ],
)
def test_what_is_said_of_seam_allowances_is_true_of_the_pieces_as_they_are_printed(skirt, lays, lines, said):
    assert said in instruction_html(instruction_sheet(skirt, lays, replace(TO, lines=lines)))


def test_nothing_on_the_sheet_is_set_smaller_than_seven_points(pdf):
    document = pypdfium2.PdfDocument(pdf)
    for page in document:
        text = page.get_textpage()
        for index in range(text.count_chars()):
            matrix = raw.FS_MATRIX()
            raw.FPDFText_GetMatrix(text.raw, index, matrix)
            height = raw.FPDFText_GetFontSize(text.raw, index) * hypot(matrix.b, matrix.d)
            letter = chr(raw.FPDFText_GetUnicode(text.raw, index))
            assert letter.isspace() or height >= 7.0 - 1e-3, (letter, height)
    document.close()
